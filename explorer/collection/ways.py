"""What is not known of a clutch: which hatchlings were kept, and how they are shared out among possible sires."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from itertools import product

from ..genetics import Genome, Group, Mating
from ..genetics.factors import Factor, whole
from .clutch import Clutch
from .kept_places import Places
from .observations import Seen, Sight, weigher

__all__ = ["MOST_WAYS", "Way", "counted_together", "number_of_ways", "ways_of"]

MOST_WAYS = 4_000
"""The most ways in which like hatchlings may have been shared out among their sires that are told apart."""

Share = tuple[int, ...]


@dataclass(frozen=True)
class Way:
    """Something that is not known of a clutch: which hatchlings were kept, who sired all, or those of a row, or a kept
    one.

    In state k, sires[i] has shares[k][i] times the `rows`, of which `counts[k]` says how many of each are meant, if not
    the rows do; weights: chance of each state before anything was seen. choices[k]: the number of the choice that is
    made in state k of those there are for the places of kept animals; () if the way does not settle that. kept:
    hatchlings, animals of the collection, that are of males[k] in state k. parts: if it counts the hatchlings of two
    ways together, those. within: the way that settles how many it shares out, totals[j] in state j of that. A way with
    parts or within another has no weights of its own.
    """

    name: str
    clutch: str
    dam: str
    sires: tuple[str, ...]
    shares: tuple[Share, ...]
    weights: tuple[Fraction, ...]
    rows: Sequence[Seen]
    kept: Sequence[str]
    parts: tuple[Way, ...] = ()
    counts: tuple[Share, ...] = ()
    choices: tuple[int, ...] = ()
    within: Way | None = None
    totals: tuple[int, ...] = ()

    @property
    def males(self) -> tuple[str, ...]:
        """Who sired the kept ones, in each state."""
        return tuple(next(sire for sire, n in zip(self.sires, share, strict=True) if n) for share in self.shares)

    @property
    def prior(self) -> Factor:
        """What is known of it beforehand; of two ways counted together, that their shares add up."""
        if self.within is not None:
            weights: dict[tuple[int, ...], Fraction | int] = {
                (j, k): _chance(share)
                for j, total in enumerate(self.totals)
                for k, share in enumerate(self.shares)
                if sum(share) == total
            }
            return whole((self.within.name, self.name), (len(self.totals), len(self.shares)), weights)
        if not self.parts:
            return whole((self.name,), (len(self.weights),), {(k,): weight for k, weight in enumerate(self.weights)})
        one, two = self.parts
        sizes = [len(way.shares) for way in (self, one, two)]
        number = {share: k for k, share in enumerate(self.shares)}
        pairs = product(enumerate(one.shares), enumerate(two.shares))
        added_up: dict[tuple[int, ...], Fraction | int] = {
            (number[_sum(a, b)], i, j): 1 for (i, a), (j, b) in pairs
        }
        return whole((self.name, one.name, two.name), sizes, added_up)

    def matings(self, genome: Genome, group: Group) -> Iterator[Mating]:
        """What the rows say at one group: of each sire, as often as they are his."""
        for rows, numbers in self._alike(genome, group):
            weight = weigher(genome, group, rows)
            for i, sire in enumerate(self.sires):
                times = tuple(share[i] * number for share, number in zip(self.shares, numbers, strict=True))
                if len({*times}) > 1:
                    yield Mating(self.dam, sire, weight, self.name, times)
                elif times[0]:
                    yield Mating(self.dam, sire, weigher(genome, group, [(row, n * times[0]) for row, n in rows]))

    def told_apart(self, genome: Genome, group: Group) -> Iterator[tuple[Sight, tuple[str, ...], Share]]:
        """What can be told apart at a group: how it looks there, as written, and how many they are in each state."""
        found: dict[Sight, tuple[list[str], list[int]]] = {}
        for i, (row, number) in enumerate(self.rows):
            looks, times = found.setdefault(Sight.of(row, genome, group), ([], [0] * len(self.shares)))
            looks += self.looks if len(self.rows) == 1 else [row.look]
            for k in range(len(times)):
                times[k] += self.counts[k][i] if self.counts else number
        for sight, (looks, times) in found.items():
            yield sight, tuple(dict.fromkeys(looks)), tuple(times)

    @property
    def looks(self) -> tuple[str, ...]:
        """The looks of the rows, and of those counted together with them, as written."""
        return tuple(row.look for row, _ in self.rows) + tuple(look for part in self.parts for look in part.looks)

    def _alike(self, genome: Genome, group: Group) -> Iterator[tuple[Sequence[Seen], Share]]:
        """Hatchlings that look alike at a group, and how often they are meant in each state."""
        if not self.counts:
            if self.rows:
                yield self.rows, (1,) * len(self.shares)
            return
        sights: dict[Sight, list[int]] = {}
        for i, (row, _) in enumerate(self.rows):
            sights.setdefault(Sight.of(row, genome, group), []).append(i)
        for numbers in sights.values():
            times = tuple(sum(counts[i] for i in numbers) for counts in self.counts)
            if any(times):
                yield [(self.rows[numbers[0]][0], 1)], times


def ways_of(clutch: Clutch, places: Places, kept: Sequence[str], fixed: Collection[str]) -> tuple[Way, ...]:
    """What is not known of a clutch. kept: hatchlings whose sire is open; fixed: the recorded sires of others.

    Which hatchlings were kept: every hatchling that an animal may be is as likely. One sire of several: each as likely
    as the others, and one way for all hatchlings; no way has a weight if two are recorded. Several sires: each
    hatchling may be of any, all as likely; like hatchlings are counted together.
    """
    lefts = [places.left(choice) for choice in places.choices]
    if clutch.several and len(clutch.sires) > 1:
        return tuple(_shared(clutch, places, lefts, kept))
    if len(clutch.sires) == len(lefts) == 1:
        return ()
    may = tuple(sire for sire in clutch.sires if {*fixed} <= {sire}) if len(clutch.sires) > 1 else clutch.sires
    sires, share = may or clutch.sires, Fraction(bool(may), len(clutch.sires))
    states = [(i, j) for i in range(len(sires)) for j in range(len(lefts))]
    shares = tuple(tuple(int(i == k) for k in range(len(sires))) for i, _ in states)
    weights = tuple(share * places.weights[j] for _, j in states)
    rows, counts = tuple((row, 1) for row, _ in places.rows), tuple(lefts[j] for _, j in states)
    if len(lefts) == 1:
        rows, counts = tuple((row, n) for (row, _), n in zip(places.rows, lefts[0], strict=True)), ()
    choices = tuple(j for _, j in states)
    open_ones = kept if len(clutch.sires) > 1 else ()
    return (
        Way(_name(clutch), clutch.id, clutch.dam, sires, shares, weights, rows, open_ones, (), counts, choices),
    )


def _shared(clutch: Clutch, places: Places, lefts: Sequence[Share], kept: Sequence[str]) -> Iterator[Way]:
    """Of a clutch of several sires: which were kept, who sired each of those, and how like hatchlings are shared."""
    sires, key, dam = clutch.sires, clutch.id, clutch.dam
    chooser = None
    if len(lefts) > 1:
        choices = tuple(range(len(lefts)))
        chooser = Way(_name(clutch), key, dam, (), ((),) * len(lefts), places.weights, (), (), choices=choices)
        yield chooser
    one_each = tuple(tuple(int(i == k) for i in range(len(sires))) for k in range(len(sires)))
    for one in kept:
        yield Way(_name(clutch, one), key, dam, sires, one_each, tuple(map(_chance, one_each)), (), (one,))
    for number, (row, _) in enumerate(places.rows):
        totals = tuple(left[number] for left in lefts)
        shares = tuple(share for total in sorted({*totals}) for share in _shared_out(total, len(sires)))
        name = _name(clutch, number)
        if len({*totals}) > 1:
            yield Way(name, key, dam, sires, shares, (), ((row, 1),), (), within=chooser, totals=totals)
        elif totals[0]:
            yield Way(name, key, dam, sires, shares, tuple(map(_chance, shares)), ((row, 1),), ())


def counted_together(genome: Genome, group: Group, ways: Iterable[Way]) -> list[Way]:
    """The ways of one clutch, those of rows that look alike at a group as one: there it matters only how many of all
    these hatchlings are of each sire."""
    looks: dict[object, list[Way]] = {}
    for way in ways:
        sights = tuple((Sight.of(row, genome, group), count) for row, count in way.rows)
        looks.setdefault(sights if not way.counts else way.name, []).append(way)
    return [reduce(_both, same) for sights, same in looks.items() if sights]


def number_of_ways(clutch: Clutch, places: Places) -> int:
    """The most states that a way of the clutch has, without listing them; 0 if those of its places are too many."""
    sires, choices = len(clutch.sires), len(places.choices)
    if not clutch.several or not choices:
        return sires * choices
    return max([sires, choices, *(math.comb(count + sires - 1, sires - 1) for _, count in places.rows)])


def _both(one: Way, two: Way) -> Way:
    shares = tuple(sorted({_sum(a, b) for a, b in product(one.shares, two.shares)}))
    name = f"{one.name} +{two.name}"
    return Way(name, one.clutch, one.dam, one.sires, shares, (), one.rows, (), (one, two))


def _sum(one: Share, two: Share) -> Share:
    return tuple(a + b for a, b in zip(one, two, strict=True))


def _chance(share: Share) -> Fraction:
    """That so many hatchlings are of each sire, of so many in all."""
    count = sum(share)
    return Fraction(math.factorial(count), math.prod(map(math.factorial, share)) * len(share) ** count)


def _name(clutch: Clutch, *further: object) -> str:
    """The name of a way; no animal has a name that starts with a space."""
    return f" {(clutch.id, *further)!r}"


def _shared_out(count: int, places: int) -> Iterator[Share]:
    if places == 1:
        yield (count,)
        return
    for first in range(count + 1):
        for rest in _shared_out(count - first, places - 1):
            yield (first, *rest)
