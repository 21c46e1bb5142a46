"""Which hatchlings of its clutch an animal of the collection may be: all ways to find each kept animal a place."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..genetics import Genome, Genotype
from .clutch import Hatchlings
from .observations import Seen, alike, same

__all__ = ["Places", "left_over"]

Kept = Mapping[str, tuple[Genotype, str | None]]
"""Kept animal -> what it is said to carry, and its sex."""


@dataclass(frozen=True)
class Places:
    """Where the kept animals of a clutch may belong. rows: like hatchlings taken together, all of them counted.

    kept: those that have a place; strangers: those for which none is left. choices: each way to place them, as the
    number of the row of each; () if there are more ways than asked for. Every hatchling that an animal may be is as
    likely to be it as any other.
    """

    rows: tuple[Seen, ...]
    kept: tuple[str, ...]
    strangers: tuple[str, ...]
    choices: tuple[tuple[int, ...], ...]

    @classmethod
    def of(cls, rows: Sequence[Hatchlings], kept: Kept, genome: Genome, most: int) -> Places:
        """kept: animals that name the clutch as theirs; most: more ways than these are not listed."""
        groups = tuple(alike([(row, row.count) for row in rows]))
        fitting = {key: _fitting(groups, label, sex, genome) for key, (label, sex) in sorted(kept.items())}
        counts = [count for _, count in groups]
        placed: dict[str, list[int]] = {}
        for key, numbers in fitting.items():
            if _room({**placed, key: numbers}, counts):
                placed[key] = numbers
        strangers = tuple(key for key in fitting if key not in placed)
        return cls(groups, tuple(placed), strangers, _choices([*placed.values()], counts, most))

    def left(self, choice: Sequence[int]) -> tuple[int, ...]:
        """How many hatchlings of each row are no animals of the collection."""
        return tuple(count - choice.count(i) for i, (_, count) in enumerate(self.rows))

    @property
    def weights(self) -> tuple[Fraction, ...]:
        """The chance of each choice before anything is known of the genes; sums to 1."""
        numbers = [
            math.prod(math.perm(count, choice.count(i)) for i, (_, count) in enumerate(self.rows))
            for choice in self.choices
        ]
        return tuple(Fraction(number, sum(numbers)) for number in numbers)


def left_over(rows: Sequence[Hatchlings], places: Places) -> tuple[Seen, ...]:
    """Each row of a clutch with how many of its hatchlings are no animals of the collection.

    Where that is open, one way that can be: an animal is taken off a row that names its sex before one that does not.
    """
    left = dict(enumerate(row.count for row in rows))
    choices = places.choices or ((),)
    unsexed = [row.sex is None for row, _ in places.rows]
    names = [repr((sorted(row.seen.items()), row.sex, sorted(row.maybe.items()))) for row, _ in places.rows]
    best = min(choices, key=lambda choice: (sum(unsexed[i] for i in choice), [names[i] for i in choice]))
    for number in best:
        like = places.rows[number][0]
        left[next(i for i, row in enumerate(rows) if left[i] and same(row, like))] -= 1
    return tuple((row, left[i]) for i, row in enumerate(rows))


def _fitting(rows: Sequence[Seen], label: Genotype, sex: str | None, genome: Genome) -> list[int]:
    return [
        i for i, (row, _) in enumerate(rows) if (sex is None or row.sex in (None, sex)) and _matches(row, label, genome)
    ]


def _matches(row: Hatchlings, label: Genotype, genome: Genome) -> bool:
    for group in genome.groups:
        if group.name in label.parts or group.name in row.seen:
            here = label.parts.get(group.name, {genome.wild(group, "female"): Fraction(1)})
            if not any(row.fits(genome, group, diplotype) for diplotype in here):
                return False
    return True


def _room(fitting: Mapping[str, Sequence[int]], counts: Sequence[int]) -> bool:
    """Whether all can be placed at once, by augmenting paths."""
    holders: dict[int, list[str]] = {i: [] for i in range(len(counts))}

    def placed(key: str, tried: set[int]) -> bool:
        for i in fitting[key]:
            if i not in tried:
                tried.add(i)
                if len(holders[i]) < counts[i]:
                    holders[i].append(key)
                    return True
                for at, other in enumerate(holders[i]):
                    if placed(other, tried):
                        holders[i][at] = key
                        return True
        return False

    return all(placed(key, set()) for key in fitting)


def _choices(fitting: Sequence[Sequence[int]], counts: Sequence[int], most: int) -> tuple[tuple[int, ...], ...]:
    """All ways, or none if there are too many. No way is begun that cannot be ended, so the work is bounded by them."""
    found: list[tuple[int, ...]] = [()]
    for n, numbers in enumerate(fitting):
        later = {str(i): rest for i, rest in enumerate(fitting[n + 1 :])}
        longer: list[tuple[int, ...]] = []
        rooms: dict[tuple[int, ...], bool] = {}
        for choice in found:
            for number in numbers:
                left = tuple(count - (*choice, number).count(i) for i, count in enumerate(counts))
                if min(left) >= 0:
                    if left not in rooms:
                        rooms[left] = _room(later, left)
                    longer += [(*choice, number)] if rooms[left] else []
        found = longer
        if len(found) > most:
            return ()
    return tuple(found)
