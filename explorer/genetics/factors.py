"""Small tables over variables, in whole numbers: products, sums, and what is left once a variable is summed out."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["Factor", "Table", "entries", "even", "onto", "product", "raised", "reduced", "summed", "trimmed", "whole"]

Table = NDArray[Any]
"""Python integers of any size, one axis a variable."""


@dataclass(frozen=True, eq=False)
class Factor:
    """Weights over the states of some variables: `scale` times `table`. names: one for each axis, all different."""

    names: tuple[str, ...]
    table: Table
    scale: Fraction = Fraction(1)


def whole(names: tuple[str, ...], shape: Sequence[int], weights: Mapping[tuple[int, ...], Fraction | int]) -> Factor:
    """A factor from weights by state numbers, as whole numbers and a scale; states not listed have weight 0."""
    common = math.lcm(*(weight.denominator for weight in weights.values()))
    table = np.zeros(tuple(shape), dtype=object)
    for at, weight in weights.items():
        table[at] = weight.numerator * (common // weight.denominator)
    divisor = _divisor(table)
    return Factor(names, np.asarray(table // divisor, dtype=object), Fraction(divisor, common))


def entries(table: Table) -> Iterator[tuple[tuple[int, ...], int]]:
    """The places of a table that are not 0, with what stands there."""
    return ((at, int(weight)) for at, weight in np.ndenumerate(table) if weight)


def even(name: str, size: int) -> Factor:
    """The same weight for every state."""
    return Factor((name,), np.ones(size, dtype=object))


def trimmed(factor: Factor) -> Factor:
    """Without the variables on which the weights do not depend."""
    names, table = list(factor.names), factor.table
    for name in factor.names:
        axis = names.index(name)
        if (table == table.take([0], axis)).all():
            table = np.asarray(table.take(0, axis), dtype=object)
            names.remove(name)
    return Factor(tuple(names), table, factor.scale)


def raised(factor: Factor, way: str, times: Sequence[int]) -> Factor:
    """With one more variable, in whose state k the weights are those of the factor to the power of times[k]."""
    top, one, two = max(times), factor.scale.numerator, factor.scale.denominator
    table = np.empty((len(times), *factor.table.shape), dtype=object)
    for k, power in enumerate(times):
        table[k] = factor.table**power * (one**power * two ** (top - power))
    divisor = _divisor(table)
    made = Factor((way, *factor.names), np.asarray(table // divisor, dtype=object), Fraction(divisor, two**top))
    return trimmed(made)


def product(factors: Sequence[Factor]) -> Factor:
    """All multiplied, scales left aside."""
    if not factors:
        return Factor((), np.array(1, dtype=object))
    names = tuple(dict.fromkeys(name for factor in factors for name in factor.names))
    table = _spread(factors[0], names)
    for factor in factors[1:]:
        table = table * _spread(factor, names)
    return Factor(names, np.asarray(table, dtype=object))


def summed(factor: Factor, gone: str) -> Factor:
    """With one variable summed out. The scale is what all weights had in common; the former scale is left aside."""
    if gone not in factor.names:
        return factor
    axis = factor.names.index(gone)
    table = np.asarray(factor.table.sum(axis=axis), dtype=object)
    divisor = _divisor(table)
    names = factor.names[:axis] + factor.names[axis + 1 :]
    return Factor(names, np.asarray(table // divisor, dtype=object) if divisor > 1 else table, Fraction(divisor))


def onto(factor: Factor, names: tuple[str, ...], sizes: Mapping[str, int]) -> Factor:
    """Summed down to these variables; one that the factor does not have gets equal weights. Scales are left aside."""
    more = [even(name, sizes[name]) for name in names if name not in factor.names]
    whole_factor = product([factor, *more]) if more else factor
    gone = tuple(axis for axis, name in enumerate(whole_factor.names) if name not in names)
    table = np.asarray(whole_factor.table.sum(axis=gone), dtype=object) if gone else whole_factor.table
    left = [name for name in whole_factor.names if name in names]
    return Factor(names, reduced(np.transpose(table, [left.index(name) for name in names])))


def reduced(table: Table) -> Table:
    """Divided by the greatest common divisor of its entries."""
    divisor = _divisor(table)
    return np.asarray(table // divisor, dtype=object) if divisor > 1 else table


def _spread(factor: Factor, names: tuple[str, ...]) -> Table:
    """The table with an axis for each of `names`, of length 1 where the factor does not have it."""
    if factor.names == names:
        return factor.table
    axes = sorted(range(len(factor.names)), key=lambda i: names.index(factor.names[i]))
    table = np.transpose(factor.table, axes)
    have = iter(table.shape)
    return table.reshape([next(have) if name in factor.names else 1 for name in names])


def _divisor(table: Table) -> int:
    return math.gcd(*table.flat) or 1
