"""What a clutch's hatchlings say of their parents, and which parents they may have: from clutches to matings."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from ..genetics import Diplotype, Genome, Genotype, Group, Mating, viable, zygotes
from .clutch import Clutch, Hatchlings

__all__ = ["MOST_WAYS", "Assignment", "Seen", "assignments", "mating_of", "unkept", "ways"]

MOST_WAYS = 4_000
"""The most ways in which a clutch, or all unsure clutches together, may have come about that are told apart."""

Seen = tuple[Hatchlings, int]
"""Like hatchlings, and how many of them are no animals of the collection."""


@dataclass(frozen=True)
class Assignment:
    """One way in which a clutch may have come about.

    weight: how many times likelier than another way before anything was seen. broods: sire -> hatchlings of his.
    sires: id of a kept hatchling -> its sire.
    """

    weight: Fraction
    broods: Mapping[str, tuple[Seen, ...]]
    sires: Mapping[str, str]


def unkept(
    clutch: Clutch, labels: Mapping[str, tuple[Genotype, str | None]], genome: Genome
) -> tuple[tuple[Seen, ...], tuple[str, ...]]:
    """The hatchlings that are no animals of the collection, and the kept animals that match no row of the clutch.

    labels: kept animal -> what it is said to carry, and its sex; each is taken off one row that it matches.
    """
    left = [hatchlings.count for hatchlings in clutch.hatchlings]
    strangers = []
    for key, (label, sex) in labels.items():
        fitting = [
            i
            for i, row in enumerate(clutch.hatchlings)
            if left[i] and (sex is None or row.sex in (None, sex)) and _matches(row, label, genome)
        ]
        if fitting:
            left[min(fitting, key=lambda i: clutch.hatchlings[i].sex is None)] -= 1
        else:
            strangers.append(key)
    return tuple(zip(clutch.hatchlings, left, strict=True)), tuple(strangers)


def assignments(clutch: Clutch, seen: Sequence[Seen], kept: Sequence[str]) -> Iterator[Assignment]:
    """Every way in which the sires of a clutch may have shared in it.

    One sire of several: each as likely as the others. Several sires: each hatchling may be of any, and all are as
    likely; the ways in which like hatchlings are shared out are counted together.
    """
    if not clutch.several or len(clutch.sires) == 1:
        for sire in clutch.sires:
            yield Assignment(Fraction(1, len(clutch.sires)), {sire: tuple(seen)}, dict.fromkeys(kept, sire))
        return
    shares = [list(_shared_out(count, len(clutch.sires))) for _, count in seen]
    for way in product(*shares):
        number = Fraction(1)
        for (_, count), numbers in zip(seen, way, strict=True):
            number *= Fraction(math.factorial(count), math.prod(map(math.factorial, numbers)))
            number /= len(clutch.sires) ** count
        broods = {
            sire: tuple((row, numbers[i]) for (row, _), numbers in zip(seen, way, strict=True) if numbers[i])
            for i, sire in enumerate(clutch.sires)
        }
        for fathers in product(clutch.sires, repeat=len(kept)):
            yield Assignment(
                number / len(clutch.sires) ** len(kept), broods, dict(zip(kept, fathers, strict=True))
            )


def ways(clutch: Clutch, seen: Sequence[Seen], kept: Sequence[str]) -> int:
    """How many assignments there are, without listing them."""
    sires = len(clutch.sires)
    if not clutch.several:
        return sires
    shared = math.prod(math.comb(count + sires - 1, sires - 1) for _, count in seen)
    return int(shared * sires ** len(kept))


def mating_of(genome: Genome, group: Group, dam: str, sire: str, seen: Sequence[Seen]) -> Mating:
    """What these hatchlings of a pair say of it at one group: each row's chance to the power of its number."""
    return Mating(dam, sire, _weigher(genome, group, tuple(seen)))


def _weigher(
    genome: Genome, group: Group, seen: tuple[Seen, ...]
) -> Callable[[Diplotype, Diplotype], Fraction]:
    def weight(dam: Diplotype, sire: Diplotype) -> Fraction:
        made = {d: chance for d, chance in zygotes(group, dam, sire).items() if viable(group, d)}
        found = Fraction(1)
        for row, count in seen:
            if count:
                chance = sum((p * row.fits(genome, group, d) for d, p in made.items()), Fraction(0))
                found *= chance**count
        return found

    return weight


def _matches(row: Hatchlings, label: Genotype, genome: Genome) -> bool:
    for group in genome.groups:
        if group.name in label.parts or group.name in row.seen:
            here = label.parts.get(group.name, {genome.wild(group, "female"): Fraction(1)})
            if not any(row.fits(genome, group, diplotype) for diplotype in here):
                return False
    return True


def _shared_out(count: int, places: int) -> Iterator[tuple[int, ...]]:
    if places == 1:
        yield (count,)
        return
    for first in range(count + 1):
        for rest in _shared_out(count - first, places - 1):
            yield (first, *rest)
