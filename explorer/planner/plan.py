"""A fixed schedule: places for animals, and pairings that fill them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .labels import Label, Match

__all__ = ["Pairing", "Place", "Plan", "plan_of"]


@dataclass(frozen=True)
class Place:
    """One animal of a plan: owned (`owned` is its id, `ready` its first season), or one hatchling kept.

    kinds: what it may carry, a number for each group of the question. options: for a hatchling, the number of the
    option it is chosen by at each group.
    """

    sex: str
    kinds: tuple[int, ...]
    owned: str | None = None
    ready: int = 1
    options: tuple[int, ...] = ()


@dataclass(frozen=True)
class Pairing:
    """A dam and a sire (numbers of places) and the places that their clutches fill; the last pairing fills none."""

    dam: int
    sire: int
    keeps: tuple[int, ...] = ()


@dataclass(frozen=True)
class Plan:
    """Places and pairings, in the order in which a shared dam serves the pairings. The last pairing is the target's."""

    places: tuple[Place, ...]
    pairings: tuple[Pairing, ...]

    def soonest(self, waits: Mapping[str, int]) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """With the best luck: the season each place's animal may first breed, and the season each pairing starts.

        A dam serves one pairing a season, in the plan's order.
        """
        ready = [place.ready if place.owned is not None else 0 for place in self.places]
        starts, taken = [], set()
        for pairing in self.pairings:
            season = max(ready[pairing.dam], ready[pairing.sire])
            while (pairing.dam, season) in taken:
                season += 1
            taken.add((pairing.dam, season))
            starts.append(season)
            for keep in pairing.keeps:
                ready[keep] = season + waits[self.places[keep].sex]
        return tuple(ready), tuple(starts)


def plan_of(
    match: Match, twins: Mapping[int, Sequence[str]], ready: Mapping[str, int], waits: Mapping[str, int]
) -> Plan | None:
    """The plan that ends with this pairing.

    twins: id() of an owned label -> ids of the animals of that kind; the first is taken, the others stand in when a dam
    is wanted by two pairings. ready: owned id -> first season. Pairings stand in the order in which they can start.
    None if a pairing would have to keep two hatchlings of one sex, which plans do not do.
    """
    builder = _Builder(twins, ready)
    dam, sire = builder.place(match.dam), builder.place(match.sire)
    builder.pairings.setdefault((dam, sire), [])
    pairings = [Pairing(d, s, tuple(keeps)) for (d, s), keeps in builder.pairings.items()]
    last = next(p for p in pairings if (p.dam, p.sire) == (dam, sire))
    pairings = [p for p in pairings if p is not last] + [last]
    for pairing in pairings:
        sexes = [builder.places[keep].sex for keep in pairing.keeps]
        if len(set(sexes)) < len(sexes):
            return None
    plan = Plan(tuple(builder.places), tuple(pairings))
    _, starts = plan.soonest(waits)
    order = sorted(range(len(pairings) - 1), key=lambda i: (starts[i], i))
    return Plan(plan.places, (*(pairings[i] for i in order), last))


class _Builder:
    def __init__(self, twins: Mapping[int, Sequence[str]], ready: Mapping[str, int]) -> None:
        self.twins, self.ready = twins, ready
        self.places: list[Place] = []
        self.numbers: dict[object, int] = {}
        self.pairings: dict[tuple[int, int], list[int]] = {}
        self.dams: dict[int, int] = {}

    def place(self, label: Label) -> int:
        if label.owned is not None:
            return self._own(self.twins[id(label)][0], label)
        if id(label) in self.numbers:
            return self.numbers[id(label)]
        assert label.dam is not None and label.sire is not None
        dam, sire = self.place(label.dam), self.place(label.sire)
        if label.dam.owned is not None:
            dam = self._free_dam(label.dam, sire)
        number = self._add(id(label), Place(label.sex, label.kinds, options=label.options))
        self.pairings.setdefault((dam, sire), []).append(number)
        return number

    def _own(self, animal: str, label: Label) -> int:
        if animal not in self.numbers:
            return self._add(animal, Place(label.sex, label.kinds, animal, self.ready[animal]))
        return self.numbers[animal]

    def _free_dam(self, label: Label, sire: int) -> int:
        """The dam herself, or another of her kind if another pairing has her already."""
        for animal in self.twins[id(label)]:
            number = self._own(animal, label)
            if self.dams.setdefault(number, sire) == sire:
                return number
        return self._own(self.twins[id(label)][0], label)

    def _add(self, key: object, place: Place) -> int:
        self.numbers[key] = len(self.places)
        self.places.append(place)
        return self.numbers[key]
