"""What stands in the way of a path: cautions that keep animals out, and wanted genes that nobody can pass on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from ..catalogue import Caution
from ..collection import Animal, Collection
from ..husbandry import Husbandry, Readiness, readiness
from ..looks import may_carry
from ..notation import read_wanted
from .question import Question

__all__ = ["Obstacle", "obstacles", "why_no_path"]


@dataclass(frozen=True)
class Obstacle:
    """A gene whose cautions keep animals or pairings out of plans until the keeper allows it.

    cautions: those that it takes part in. animals: ids of kept animals that they keep out; empty if they only keep out
    pairings of which an egg could meet one.
    """

    gene: str
    cautions: tuple[Caution, ...]
    animals: tuple[str, ...]


def obstacles(
    animals: Collection, target: str, *, husbandry: Husbandry | None = None, today: date, without: Iterable[str] = ()
) -> tuple[Obstacle, ...]:
    """The genes that matter to this target and collection, those that keep most animals out first.

    A gene that is allowed is listed too, so that it can be put back. Raises GenesError if a text cannot be read.
    """
    care = husbandry or Husbandry(catalogue=animals.catalogue)
    kept = [animal for animal in animals if animal.status == "kept"]
    present = {gene for animal in kept for gene in may_carry(animal.genotype)}
    question = Question(animals.catalogue, target, without=without, present=present)
    met: dict[Caution, list[str]] = {caution: [] for caution in question.cautions}
    for animal in kept:
        for caution in readiness(animal, care, today, animals.catalogue).cautions:
            if caution.keeps_out or caution.severity == "infertile":
                met.setdefault(caution, []).append(animal.id)
    genes = {part.gene: None for caution in met for part in caution.parts}
    found = []
    for gene in genes:
        mine = {caution: ids for caution, ids in met.items() if gene in {part.gene for part in caution.parts}}
        found.append(Obstacle(gene, tuple(mine), tuple(dict.fromkeys(key for ids in mine.values() for key in ids))))
    return tuple(sorted(found, key=lambda one: (-len(one.animals), one.gene)))


def why_no_path(
    animals: Collection,
    target: str,
    seasons: int,
    *,
    husbandry: Husbandry | None = None,
    today: date,
    allow: Sequence[str] = (),
) -> tuple[str, ...]:
    """Plain reasons why no path was found, as far as the animals tell; one sentence each."""
    care = husbandry or Husbandry(catalogue=animals.catalogue)
    kept = [animal for animal in animals if animal.status == "kept"]
    states = {animal.id: readiness(animal, care, today, animals.catalogue, allow) for animal in kept}
    usable = [animal for animal in kept if _usable(animal, states[animal.id], seasons)]
    reasons = []
    wanted = read_wanted(target, animals.catalogue)
    for gene, copies in wanted.items():
        if copies == 2 and animals.catalogue.gene(gene).two_copies == "not viable":
            reasons.append(f"Two copies of {gene} are recorded as not viable.")
    if not care.lay_rate or not care.hatch_rate or not any(care.law):
        reasons.append("With this lay rate, hatch rate and clutch size nothing hatches.")
    for sex in ("female", "male"):
        if not any(animal.sex == sex for animal in usable):
            reasons.append(f"No {sex} can breed within {seasons} {'season' if seasons == 1 else 'seasons'}.")
    for gene in wanted:
        carriers = [animal for animal in kept if gene in may_carry(animal.genotype)]
        if carriers and not any(animal in usable for animal in carriers):
            said = "; ".join(f"{one.id}: {_why_out(one, states[one.id], seasons)}" for one in carriers)
            reasons.append(f"Every carrier of {gene} is out ({said}).")
    if not reasons:
        reasons.append("The generations that it takes do not fit in; try a later season.")
        if any(state.barred for state in states.values()):
            reasons.append("Or allow a gene that a caution keeps out, if you accept the risk.")
    return tuple(reasons)


def _usable(animal: Animal, state: Readiness, seasons: int) -> bool:
    return animal.sex is not None and not state.barred and state.season is not None and state.season <= seasons


def _why_out(animal: Animal, state: Readiness, seasons: int) -> str:
    if animal.sex is None:
        return "sex unknown"
    if state.barred:
        return "kept out by a caution"
    if state.season is None:
        return ", ".join(state.reasons)
    return f"not before season {state.season}"
