"""What a clutch's hatchlings say of their parents: from looks to chances."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from ..genetics import Diplotype, Genome, Group, Mating
from ..genetics.pedigree import hatching
from ..looks import Look
from .clutch import Hatchlings

__all__ = ["Seen", "Sight", "alike", "chance_of_look", "mating_of", "same", "weigher"]

Seen = tuple[Hatchlings, int]
"""Like hatchlings, and how many of them are meant, such as those that are no animals of the collection."""


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
    """The chance that a hatchling of this pair looks so; an egg that does not hatch says nothing."""
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


def same(one: Hatchlings, two: Hatchlings) -> bool:
    """Whether two rows say the same, whatever their numbers are."""
    return (one.seen, one.sex, one.maybe, one.covered) == (two.seen, two.sex, two.maybe, two.covered)


def alike(seen: Sequence[Seen]) -> list[Seen]:
    """Rows that say the same taken together; none without hatchlings."""
    found: list[Seen] = []
    for row, count in seen:
        for i, (other, number) in enumerate(found):
            if same(row, other):
                found[i] = other, number + count
                break
        else:
            found += [(row, count)] if count else []
    return found
