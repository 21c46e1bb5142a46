"""This season's males shared out among its females, so that the targets come nearer than in any other way."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

import pandas as pd

from ..collection import Collection, Relation, relation
from ..genetics import exact
from ..husbandry import Husbandry, readiness
from ..notation import texts_of
from ..pairing import Couples, Offspring, day_of
from .allotment_couples import Couple, couples_of
from .allotment_reasons import SecondChoice, left_out, second_choice
from .allotment_shed import Shed, fit
from .allotment_wishes import Pair, pairs_of, room_of, wishes_of
from .search import Progress

__all__ = ["Allotment", "Allotments", "Difference", "PairingMade", "allot", "allotments"]

COLUMNS = (
    *("dam", "dam_name", "sire", "sire_name", "target", "per_clutch", "value", "fraction", "progress", "kinship"),
    *("related", "second_choice", "second_value", "second_reason"),
)


@dataclass(frozen=True)
class PairingMade:
    """A pairing of an allotment. target: the one it serves most, by weight; "" if it serves none. per_clutch: chance
    that a clutch, once laid, has at least one hatchling that shows it. progress: target -> progress toward it, without
    its weight; value: their weighted sum. forced: set by the keeper. second: who else could have the female.
    """

    dam: str
    sire: str
    target: str
    per_clutch: Fraction
    value: Fraction
    progress: Mapping[str, Fraction]
    relation: Relation
    forced: bool
    second: SecondChoice


@dataclass(frozen=True)
class Difference:
    """What an allotment gives up against the best. value: in all; by_target: without weights, less than 0 where it
    brings more. instead: its pairings that the best does not have; without: those of the best that it does not have.
    """

    value: Fraction
    by_target: Mapping[str, Fraction]
    instead: tuple[Pair, ...]
    without: tuple[Pair, ...]


@dataclass(frozen=True)
class Allotment:
    """One way to share out the males. pairings: those that bring most first. value: the weighted sum of progress;
    by_target: the sum of progress toward each target, without its weight. left_out: every kept animal in no pairing ->
    why, in words.
    """

    animals: Collection
    pairings: tuple[PairingMade, ...]
    value: Fraction
    by_target: Mapping[str, Fraction]
    left_out: Mapping[str, str]

    @property
    def table(self) -> pd.DataFrame:
        """The pairings as `allot` returns them."""
        table = pd.DataFrame([self._cells(one) for one in self.pairings], columns=list(COLUMNS))
        table.attrs = {"value": self.value, "by_target": dict(self.by_target), "left_out": dict(self.left_out)}
        return table

    def against(self, best: Allotment) -> Difference:
        """What this one gives up against another."""
        mine, other = ([(one.dam, one.sire) for one in way.pairings] for way in (self, best))
        return Difference(
            best.value - self.value,
            {target: best.by_target[target] - brings for target, brings in self.by_target.items()},
            tuple(sorted(set(mine) - set(other))),
            tuple(sorted(set(other) - set(mine))),
        )

    def _cells(self, one: PairingMade) -> tuple[object, ...]:
        return (
            *(one.dam, self.animals[one.dam].name, one.sire, self.animals[one.sire].name, one.target),
            *(float(one.per_clutch), float(one.value), one.value),
            {target: float(brings) for target, brings in one.progress.items()},
            *(float(one.relation.kinship), one.relation.words),
            *(one.second.sire, float(one.second.value), one.second.reason),
        )


@dataclass(frozen=True)
class Allotments:
    """The best few ways, best first, all different. targets: target -> weight, those that read the same as one. shed:
    who takes part, and what each pairing would bring.
    """

    ways: tuple[Allotment, ...]
    targets: Mapping[str, Fraction]
    shed: Shed

    @property
    def best(self) -> Allotment:
        """The one that brings most; without pairings if none brings anything."""
        return self.ways[0]

    @property
    def differences(self) -> tuple[Difference, ...]:
        """What each of the ways gives up against the best; the best itself gives up nothing."""
        return tuple(way.against(self.best) for way in self.ways)


def allotments(
    animals: Collection,
    targets: Mapping[str, float | Fraction] | str,
    *,
    husbandry: Husbandry | None = None,
    today: date,
    best: int = 3,
    per_male: int | Mapping[str, int] | None = None,
    most_inbreeding: float | Fraction | None = None,
    without: str | Iterable[str] = (),
    allow: str | Iterable[str] = (),
    forced: Iterable[Pair] = (),
    forbidden: Iterable[Pair] = (),
    progress: Progress | None = None,
) -> Allotments:
    """The best few ways to share out this season's males. best: how many, from 1; fewer if there are no more. A way is
    different if it has another set of pairings. progress: told the share done and what is being done; it may raise to
    stop. Further arguments, errors and the order of ways of equal value as in `allot`.
    """
    if not isinstance(best, int) or best < 1:
        raise ValueError(f"best is a whole number from 1 up; found {best!r}")
    day, care = day_of(today), husbandry or Husbandry(catalogue=animals.catalogue)
    unwanted, allowed = texts_of(without), texts_of(allow)
    wishes = wishes_of(animals, targets, care, unwanted, allowed)
    room = room_of(animals, per_male, care)
    set_by_hand, off = pairs_of(animals, forced, "forced"), pairs_of(animals, forbidden, "forbidden")
    kept = sorted((animal for animal in animals if animal.status == "kept"), key=lambda one: one.id)
    states = {animal.id: readiness(animal, care, day, animals.catalogue, allowed) for animal in kept}
    ready = [animal for animal in kept if fit(animal, states)]
    dams = [animal for animal in ready if animal.sex == "female"]
    sires = [animal for animal in ready if animal.sex == "male"]
    tell: Progress = progress or (lambda share, text: None)
    limit = None if most_inbreeding is None else exact(most_inbreeding)
    couples = couples_of(animals, dams, sires, wishes, room, limit, off, lambda share, text: tell(share * 0.9, text))
    shed = Shed(animals, wishes, states, couples, {one.id: room[one.id] for one in sires}, set_by_hand)
    tell(0.9, "sharing out the males")
    writer = _Writer(shed, care, unwanted)
    ways = tuple(writer.allotment(way) for way in shed.ways(best))
    return Allotments(ways, {wish.target: wish.weight for wish in wishes}, shed)


def allot(
    animals: Collection,
    targets: Mapping[str, float | Fraction] | str,
    *,
    husbandry: Husbandry | None = None,
    today: date,
    per_male: int | Mapping[str, int] | None = None,
    most_inbreeding: float | Fraction | None = None,
    without: str | Iterable[str] = (),
    allow: str | Iterable[str] = (),
    forced: Iterable[Pair] = (),
    forbidden: Iterable[Pair] = (),
) -> pd.DataFrame:
    """This season's males shared out among its females: a row for each pairing to make, those that bring most first.

    The sum over all pairings and targets of weight times progress (`pairing.progress`) is as great as it can be. Each
    female gets one male at most, each male `per_male` females at most. Only kept animals that are ready take part;
    pairings of which an egg could meet a caution that keeps it out are not made, nor pairings that bring nothing.

    targets: target -> weight above 0, a million at most, or a text alone; those that read the same are one, with the
    sum of their weights. per_male: for all males, or id -> number; else the husbandry's number. most_inbreeding: the
    greatest inbreeding coefficient that offspring may have, as far as is recorded; None sets no limit. without: genes
    that must not show. allow: genes (or "all") whose cautions no longer keep animals and pairings out. forced: (dam,
    sire) that are made whatever they bring; forbidden: those that are not made.

    Columns: dam, sire, and their names; target, the one that the pairing serves most; per_clutch, the chance that a
    clutch, once laid, has at least one hatchling that shows it; value, the weighted sum of progress, and the same as a
    Fraction (fraction); progress, target -> progress; kinship, the inbreeding coefficient of the offspring at least,
    and related, in words; second_choice, the male with room that is next best for the female ("" if there is none),
    second_value, what he would bring, and second_reason, why there is none. Numbers are floats. `attrs` of the table
    holds "value", the sum as a Fraction, "by_target", and "left_out": every kept animal that is not used -> why.

    Of ways of equal value the one with the least sum of kinships is taken, then the one that has the pairing first by
    ids, and so on; the order of rows in the file plays no part. Raises ImpossibleAllotment, a ValueError, if a forced
    pairing cannot be made, naming which and why; ValueError for other options that make no sense; KeyError if there is
    no such animal; GenesError if a text cannot be read.
    """
    return allotments(
        animals,
        targets,
        husbandry=husbandry,
        today=today,
        best=1,
        per_male=per_male,
        most_inbreeding=most_inbreeding,
        without=without,
        allow=allow,
        forced=forced,
        forbidden=forbidden,
    ).best.table


class _Writer:
    """Writes ways down as allotments."""

    def __init__(self, shed: Shed, care: Husbandry, without: tuple[str, ...]) -> None:
        self.shed, self.care, self.without = shed, care, without
        self.couples = Couples(shed.animals)
        self._served: dict[Pair, tuple[str, Fraction]] = {}

    def allotment(self, way: Sequence[Couple]) -> Allotment:
        made = [self._made(couple, way) for couple in way]
        made.sort(key=lambda one: (-one.value, one.dam))
        sums = (sum((couple.progress[at] for couple in way), Fraction(0)) for at in range(len(self.shed.wishes)))
        return Allotment(
            self.shed.animals,
            tuple(made),
            sum((couple.value for couple in way), Fraction(0)),
            dict(zip((wish.target for wish in self.shed.wishes), sums, strict=True)),
            left_out(self.shed, way),
        )

    def _made(self, couple: Couple, way: Sequence[Couple]) -> PairingMade:
        pair = couple.dam, couple.sire
        if pair not in self._served:
            self._served[pair] = self._serves(couple)
        return PairingMade(
            *pair,
            *self._served[pair],
            couple.value,
            dict(zip((wish.target for wish in self.shed.wishes), couple.progress, strict=True)),
            relation(self.shed.animals, *pair),
            pair in self.shed.forced,
            second_choice(self.shed, way, couple),
        )

    def _serves(self, couple: Couple) -> tuple[str, Fraction]:
        """The target that a couple serves most, and its chance in a clutch; without progress, the likeliest target."""
        odds = Offspring(self.couples.brood(couple.dam, couple.sire), self.shed.animals.catalogue)
        found = []
        for wish, brings in zip(self.shed.wishes, couple.progress, strict=True):
            chance = odds.chance_in_clutch(
                wish.target, eggs=self.care.law, hatch_rate=exact(self.care.hatch_rate), without=self.without
            )
            found.append((wish.weight * brings, chance, wish.target))
        _, chance, target = max(found, key=lambda one: one[:2])
        return (target, chance) if couple.value or chance else ("", chance)
