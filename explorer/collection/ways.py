"""What is not known of a clutch of several possible sires: the ways in which its hatchlings may be shared out."""

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
from .observations import Seen, Sight, alike, weigher

__all__ = ["MOST_WAYS", "Way", "counted_together", "number_of_ways", "ways_of"]

MOST_WAYS = 4_000
"""The most ways in which like hatchlings may have been shared out among their sires that are told apart."""


@dataclass(frozen=True)
class Way:
    """Something that is not known of a clutch: who sired all its hatchlings, or those of a row, or a kept one.

    In state k, sires[i] has shares[k][i] times the `rows`; weights: chance of each state before anything was seen.
    kept: hatchlings, animals of the collection, that are of sires[k] in state k. parts: if it counts the hatchlings of
    two ways together, those; it then has no weights of its own.
    """

    name: str
    clutch: str
    dam: str
    sires: tuple[str, ...]
    shares: tuple[tuple[int, ...], ...]
    weights: tuple[Fraction, ...]
    rows: Sequence[Seen]
    kept: Sequence[str]
    parts: tuple[Way, ...] = ()

    @property
    def prior(self) -> Factor:
        """What is known of it beforehand; of two ways counted together, that their shares add up."""
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
        for i, sire in enumerate(self.sires if self.rows else ()):
            times = tuple(share[i] for share in self.shares)
            yield Mating(self.dam, sire, weigher(genome, group, self.rows), self.name, times)


def ways_of(clutch: Clutch, seen: Sequence[Seen], kept: Sequence[str], fixed: Collection[str]) -> tuple[Way, ...]:
    """What is not known of a clutch of several possible sires. kept: hatchlings whose sire is open; fixed: the recorded
    sires of others.

    One sire of several: each as likely as the others, and one way for all hatchlings; no way has a weight if two are
    recorded. Several sires: each hatchling may be of any, all as likely; like hatchlings are counted together.
    """
    if not clutch.several:
        may = tuple(sire for sire in clutch.sires if {*fixed} <= {sire})
        sires, share = may or clutch.sires, Fraction(bool(may), len(clutch.sires))
        return (Way(_name(clutch), clutch.id, clutch.dam, sires, _one_each(sires), (share,) * len(sires), seen, kept),)
    sires, share = clutch.sires, Fraction(1, len(clutch.sires))
    found = [
        Way(_name(clutch, key), clutch.id, clutch.dam, sires, _one_each(sires), (share,) * len(sires), (), (key,))
        for key in kept
    ]
    for number, (row, count) in enumerate(alike(seen)):
        shares = tuple(_shared_out(count, len(sires)))
        weights = tuple(
            Fraction(math.factorial(count), math.prod(map(math.factorial, one))) * share**count for one in shares
        )
        found.append(Way(_name(clutch, number), clutch.id, clutch.dam, sires, shares, weights, ((row, 1),), ()))
    return tuple(found)


def counted_together(genome: Genome, group: Group, ways: Iterable[Way]) -> list[Way]:
    """The ways of one clutch, those of rows that look alike at a group as one: there it matters only how many of all
    these hatchlings are of each sire."""
    looks: dict[object, list[Way]] = {}
    for way in ways:
        sights = tuple((Sight.of(row, genome, group), count) for row, count in way.rows)
        looks.setdefault(sights, []).append(way)
    return [reduce(_both, same) for sights, same in looks.items() if sights]


def number_of_ways(clutch: Clutch, seen: Sequence[Seen]) -> int:
    """The most states that a way of the clutch has, without listing them."""
    sires = len(clutch.sires)
    if not clutch.several:
        return sires
    return max([sires, *(math.comb(count + sires - 1, sires - 1) for _, count in alike(seen))])


def _both(one: Way, two: Way) -> Way:
    shares = tuple(sorted({_sum(a, b) for a, b in product(one.shares, two.shares)}))
    name = f"{one.name} +{two.name}"
    return Way(name, one.clutch, one.dam, one.sires, shares, (), one.rows, (), (one, two))


def _sum(one: tuple[int, ...], two: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(a + b for a, b in zip(one, two, strict=True))


def _one_each(sires: Sequence[str]) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(int(i == k) for i in range(len(sires))) for k in range(len(sires)))


def _name(clutch: Clutch, *further: object) -> str:
    """The name of a way; no animal has a name that starts with a space."""
    return f" {(clutch.id, *further)!r}"


def _shared_out(count: int, places: int) -> Iterator[tuple[int, ...]]:
    if places == 1:
        yield (count,)
        return
    for first in range(count + 1):
        for rest in _shared_out(count - first, places - 1):
            yield (first, *rest)
