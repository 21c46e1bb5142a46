"""Places an animal of a plan can come from, each with the chance that it is ready by each season."""

from __future__ import annotations

import heapq
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import product

from .kinds import Kinds
from .question import Question

__all__ = ["ClutchChance", "Harvest", "Label", "Match", "as_ready", "hatch_curve", "match_of", "safe"]

ClutchChance = Callable[[float], float]
"""Chance per egg -> chance that one season's clutch has at least one such hatchling."""


@dataclass(frozen=True, eq=False)
class Label:
    """An animal that a plan may use: an owned one, or a hatchling kept from two others.

    kinds: one for each group of the question. ready: chance that it may breed by season k + 1. owned: its id, or None
    for a hatchling. options: numbers of the options it is chosen by, one for each group. steps: pairings needed.
    """

    sex: str
    kinds: tuple[int, ...]
    ready: tuple[float, ...]
    owned: str | None = None
    dam: Label | None = None
    sire: Label | None = None
    options: tuple[int, ...] = ()
    steps: frozenset[tuple[int, int]] = field(default=frozenset())


@dataclass(frozen=True, eq=False)
class Match:
    """A dam and a sire whose offspring may show the target; `curve[k]` estimates the chance by season k + 1."""

    dam: Label
    sire: Label
    curve: tuple[float, ...]
    steps: int

    @property
    def soonest(self) -> int:
        """The first season in which the target can hatch, from 0."""
        return next(i for i, chance in enumerate(self.curve) if chance)


def hatch_curve(dam: Label, sire: Label, per_clutch: float) -> tuple[float, ...]:
    """Chance that what is wanted has hatched by each season if the pairing is repeated until it has.

    per_clutch: its chance in one season. The parents are taken as independent here; plans are scored exactly later.
    """
    curve, now = [], 0.0
    for one, two in zip(dam.ready, sire.ready, strict=True):
        now += per_clutch * (one * two - now)
        curve.append(now)
    return tuple(curve)


def match_of(kinds: Kinds, dam: Label, sire: Label, in_clutch: ClutchChance) -> Match | None:
    """The pairing as a last step, or None if it cannot give the target within the horizon."""
    q = 1.0
    for at, (one, two) in enumerate(zip(dam.kinds, sire.kinds, strict=True)):
        q *= kinds.cross(at, one, two).hit
        if not q:
            return None
    curve = hatch_curve(dam, sire, in_clutch(q))
    if not curve[-1]:
        return None
    return Match(dam, sire, curve, len(dam.steps | sire.steps) + 1)


class Harvest:
    """The hatchlings that one generation offers: for each sex and kind, the best labels and no surpassed ones."""

    def __init__(self, kinds: Kinds, in_clutch: ClutchChance, waits: dict[str, int]) -> None:
        self.kinds, self.in_clutch, self.waits = kinds, in_clutch, waits
        self.best: dict[tuple[str, tuple[int, ...]], list[Label]] = {}

    def add(self, dam: Label, sire: Label) -> None:
        """Takes in every way to keep one hatchling of this pairing that could breed within the horizon."""
        crosses = [self.kinds.cross(at, d, s) for at, (d, s) in enumerate(zip(dam.kinds, sire.kinds, strict=True))]
        steps = dam.steps | sire.steps | {(id(dam), id(sire))}
        for sex, wait in self.waits.items():
            for choice in product(*(cross.choices[sex] for cross in crosses)):
                q = 1.0
                for part in choice:
                    q *= part.chance
                held = self.best.setdefault((sex, tuple([part.kind for part in choice])), [])
                curve = hatch_curve(dam, sire, self.in_clutch(q))
                ready = ((0.0,) * wait + curve)[: len(curve)]
                if not ready[-1] or any(as_ready(o.ready, ready) and len(o.steps) <= len(steps) for o in held):
                    continue
                held[:] = [o for o in held if not (as_ready(ready, o.ready) and len(steps) <= len(o.steps))]
                kind = tuple(part.kind for part in choice)
                options = tuple(part.option for part in choice)
                held.append(Label(sex, kind, ready, dam=dam, sire=sire, options=options, steps=steps))

    def labels(self, sex: str) -> list[Label]:
        """The two best of each kind."""
        return [
            label
            for (of_sex, _), held in self.best.items()
            if of_sex == sex
            for label in heapq.nlargest(2, held, key=lambda o: (sum(o.ready), -len(o.steps)))
        ]


def as_ready(one: tuple[float, ...], two: tuple[float, ...]) -> bool:
    """Whether the first is at least as likely to be ready by every season as the second."""
    return one[-1] >= two[-1] - 1e-12 and all(a >= b - 1e-12 for a, b in zip(one, two, strict=True))


def safe(question: Question, kinds: Kinds, dam: Label, sire: Label) -> bool:
    """Whether no egg of this pairing can meet a caution that keeps it out of plans."""
    if not question.cautions:
        return True
    for caution in question.cautions:
        if caution.severity == "infertile":
            continue
        for sex in ("female", "male") if caution.sex is None else (caution.sex,):
            if _met(question, kinds, dam, sire, {part.gene: part.copies for part in caution.parts}, sex):
                return False
    return True


def _met(question: Question, kinds: Kinds, dam: Label, sire: Label, needs: dict[str, int], sex: str) -> bool:
    for at, group in enumerate(question.groups):
        here = {g: n for g, n in needs.items() if question.genome.home[g][0] is group}
        if here:
            support = kinds.cross(at, dam.kinds[at], sire.kinds[at]).support[sex]
            if not any(all(dict(copies).get(g, 0) >= n for g, n in here.items()) for copies in support):
                return False
    return True
