"""What a clutch's hatchlings say of their parents: from looks to chances."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from ..genetics import Diplotype, Genome, Genotype, Group, Mating
from ..genetics.pedigree import hatching
from ..looks import Look
from .clutch import Clutch, Hatchlings

__all__ = ["Seen", "Sight", "alike", "chance_of_look", "mating_of", "unkept", "weigher"]

Seen = tuple[Hatchlings, int]
"""Like hatchlings, and how many of them are no animals of the collection."""


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


def mating_of(genome: Genome, group: Group, dam: str, sire: str, seen: Sequence[Seen]) -> Mating:
    """What these hatchlings of a pair say of it at one group: each row's chance to the power of its number."""
    return Mating(dam, sire, weigher(genome, group, seen))


@dataclass(frozen=True)
class Sight:
    """What a row says at one group. look: None if it says nothing there."""

    sex: str | None
    look: Look | None
    maybe: tuple[tuple[str, Fraction], ...]

    @classmethod
    def of(cls, row: Hatchlings, genome: Genome, group: Group) -> Sight:
        sex = row.sex if group.sex else None
        if row.covered and group.name not in row.seen:
            return cls(sex, None, ())
        maybe = {gene: times for gene, times in row.maybe.items() if genome.home[gene][0] is group}
        return cls(sex, row.seen.get(group.name, ()), tuple(sorted(maybe.items())))


@lru_cache(maxsize=1 << 16)
def chance_of_look(genome: Genome, group: Group, sight: Sight, dam: Diplotype, sire: Diplotype) -> Fraction:
    """The chance that an egg of this pair hatches and looks so."""
    covered, seen = sight.look is None, {} if sight.look is None else {group.name: sight.look}
    row = Hatchlings("", 1, sight.sex, seen, dict(sight.maybe), covered)
    return sum((p * row.fits(genome, group, d) for d, p in hatching(group, dam, sire).items()), Fraction(0))


def weigher(genome: Genome, group: Group, seen: Sequence[Seen]) -> Callable[[Diplotype, Diplotype], Fraction]:
    """The chance of all these hatchlings at one group, given their parents."""
    sights: Counter[Sight] = Counter()
    for row, count in seen:
        if count:
            sights[Sight.of(row, genome, group)] += count

    def weight(dam: Diplotype, sire: Diplotype) -> Fraction:
        chances = (chance_of_look(genome, group, sight, dam, sire) ** count for sight, count in sights.items())
        return math.prod(chances, start=Fraction(1))

    return weight


def alike(seen: Sequence[Seen]) -> list[Seen]:
    """Rows that say the same taken together; none without hatchlings."""
    found: list[Seen] = []
    for row, count in seen:
        for i, (other, number) in enumerate(found):
            if (row.seen, row.sex, row.maybe, row.covered) == (other.seen, other.sex, other.maybe, other.covered):
                found[i] = other, number + count
                break
        else:
            found += [(row, count)] if count else []
    return found


def _matches(row: Hatchlings, label: Genotype, genome: Genome) -> bool:
    for group in genome.groups:
        if group.name in label.parts or group.name in row.seen:
            here = label.parts.get(group.name, {genome.wild(group, "female"): Fraction(1)})
            if not any(row.fits(genome, group, diplotype) for diplotype in here):
                return False
    return True
