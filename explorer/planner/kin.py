"""How closely the animals of a path are related: those that are owned, and those that have yet to hatch."""

from __future__ import annotations

from fractions import Fraction

from ..collection import Collection, Relation, relation
from ..genetics import Kinship
from .path import Path
from .plan import Plan

__all__ = ["closest_kinship", "plan_kinship", "step_relations"]


def step_relations(animals: Collection, path: Path) -> tuple[Relation, ...]:
    """How the dam and the sire of each step are related; kept hatchlings by the parents that the path gives them.

    As everywhere, unknown parents count as founders, so each figure is a lower bound.
    """
    family: dict[str, tuple[str | None, str | tuple[str, ...] | None]] = {one.id: one.parents for one in animals}
    for step in path.steps:
        family |= {keep.name: (step.dam, step.sire) for keep in step.keeps}
    return tuple(relation(family, step.dam, step.sire) for step in path.steps)


def closest_kinship(animals: Collection, path: Path) -> Fraction:
    """The greatest inbreeding coefficient that offspring of any step would have, at least; 0 for a path of no steps."""
    return max((found.kinship for found in step_relations(animals, path)), default=Fraction(0))


def plan_kinship(animals: Collection, plan: Plan) -> Fraction:
    """As `closest_kinship`, of a plan that is not written down yet."""
    names = [place.owned or f"hatchling {number}" for number, place in enumerate(plan.places)]
    family: dict[str, tuple[str | None, str | tuple[str, ...] | None]] = {one.id: one.parents for one in animals}
    pairs = [(names[pairing.dam], names[pairing.sire]) for pairing in plan.pairings]
    for pairing, pair in zip(plan.pairings, pairs, strict=True):
        family |= {names[keep]: pair for keep in pairing.keeps}
    kinship = Kinship(family)
    return max((kinship.between(*pair) for pair in pairs), default=Fraction(0))
