"""How closely animals are related by descent, from the pedigree alone.

Method: the tabular method (Emik & Terrill 1949; Henderson 1976). Animals without recorded parents are founders, taken
as unrelated and not inbred, so every figure is a lower bound. Where several animals may be the sire, every figure is
the greatest that any of them allows: no choice of sires gives a greater one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from graphlib import TopologicalSorter
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["Kinship", "Parents"]

Parents = Mapping[str, tuple[str | None, str | tuple[str, ...] | None]]
"""Id -> (dam, sire): None for one that is not recorded, several ids where any of these may be the sire."""

EXACT_IN_FLOATS = 26
"""Generations below the founders up to which 53 bits hold every figure: a multiple of 1/2 ** (2 generations + 1)."""


class Kinship:
    """Kinship coefficients: the chance that a gene drawn at random from each of two animals is one by descent.

    ids: the animals, parents before their offspring.
    """

    def __init__(self, parents: Parents) -> None:
        """parents: of all animals, in any order.

        Raises KeyError for a parent without an entry, ValueError if an animal is its own ancestor, or may be.
        """
        dams = {key: dam for key, (dam, _) in parents.items()}
        sires = {key: _all_of(sire) for key, (_, sire) in parents.items()}
        known = {key: [*([dam] if dam is not None else []), *sires[key]] for key, dam in dams.items()}
        place: dict[str, int] = {}
        depth: list[int] = []
        for i, key in enumerate(TopologicalSorter(known).static_order()):
            place[key] = i
            depth.append(1 + max((depth[place[parent]] for parent in known[key]), default=-1))
        self.ids = tuple(place)
        self._place = place
        zero = 0.0 if max(depth, default=0) <= EXACT_IN_FLOATS else Fraction(0)
        table: NDArray[Any] = np.full((len(place), len(place)), zero)
        for key, i in place.items():
            mother, fathers = dams[key], [place[sire] for sire in sires[key]]
            if mother is not None:
                table[i, :i] += table[place[mother], :i] / 2
            if fathers:
                table[i, :i] += np.max(table[fathers, :i], axis=0) / 2
            table[:i, i] = table[i, :i]
            inbred = max((table[place[mother], one] for one in fathers), default=zero) if mother is not None else zero
            table[i, i] = (1 + inbred) / 2
        self._table = table

    def between(self, one: str, two: str) -> Fraction:
        """Kinship of two animals, exactly: the inbreeding coefficient their offspring would have.

        Raises KeyError if there is no such animal.
        """
        return Fraction(self._table[self._place[one], self._place[two]])

    def inbreeding(self, key: str) -> Fraction:
        """The animal's own inbreeding coefficient, exactly. Raises KeyError if there is no such animal."""
        return 2 * self.between(key, key) - 1

    def table(self, ids: Sequence[str]) -> NDArray[np.float64]:
        """Kinship of each of `ids` with each, len(ids) x len(ids). Raises KeyError if there is no such animal."""
        places = [self._place[key] for key in ids]
        return self._table[np.ix_(places, places)].astype(np.float64)


def _all_of(sire: str | tuple[str, ...] | None) -> tuple[str, ...]:
    return () if sire is None else (sire,) if isinstance(sire, str) else sire
