"""Exact sums of products over many small factors: totals, joint tables and all marginals, in whole numbers.

Method: bucket elimination with a downward pass (Dechter 1999; Shafer & Shenoy 1990), which on a pedigree is peeling
(Elston & Stewart 1971) with cut-sets, so that loops are handled exactly (Cannings, Thompson & Skolnick 1978). The order
of elimination is greedy: the variable whose elimination makes the smallest table comes next.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["Factor", "Network", "entries", "whole"]

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
    common = math.lcm(*(Fraction(weight).denominator for weight in weights.values()))
    table = np.zeros(tuple(shape), dtype=object)
    for at, weight in weights.items():
        table[at] = int(weight * common)
    divisor = _divisor(table)
    return Factor(names, np.asarray(table // divisor, dtype=object), Fraction(divisor, common))


def entries(table: Table) -> Iterator[tuple[tuple[int, ...], int]]:
    """The places of a table that are not 0, with what stands there."""
    return ((at, int(weight)) for at, weight in np.ndenumerate(table) if weight)


class Network:
    """Factors over variables. sizes: variable -> number of its states. Factors are multiplied, weights need not sum to
    anything; every variable of a factor must be in `sizes`.
    """

    def __init__(self, sizes: Mapping[str, int], factors: Iterable[Factor]) -> None:
        self.sizes = dict(sizes)
        self.factors = tuple(factors)

    def joint(self, asked: Sequence[str]) -> Table:
        """Weights over the states of the variables asked for, in that order, all others summed out.

        Right up to one common positive factor. All are 0 if nothing is possible.
        """
        near = self._near(asked)
        order, _ = _order(self.sizes, near, keep=frozenset(asked))
        factors = list(near)
        for name in order:
            factors = [f for f in factors if name not in f.names] + [_summed(_product(_having(factors, name)), name)]
        table = _product([*factors, *(_ones(name, self.sizes[name]) for name in asked)])
        axes = [table.names.index(name) for name in asked]
        return np.transpose(table.table, axes)

    @cached_property
    def marginals(self) -> dict[str, Table]:
        """Variable -> weights of its states; right up to one positive factor each. All 0 if nothing is possible."""
        found: dict[str, Table] = {}
        for bucket in reversed(self._buckets):  # parents before the buckets below them
            above = [] if bucket.parent is None or bucket.down is None else [bucket.down]
            whole_bucket = [*bucket.factors, *(child.up for child in bucket.children if child.up), *above]
            belief = _product([*whole_bucket, _ones(bucket.name, self.sizes[bucket.name])])
            for child in bucket.children:
                if child.up is not None:
                    rest = [*bucket.factors, *(c.up for c in bucket.children if c.up and c is not child), *above]
                    child.down = _onto(_product(rest) if rest else None, child.up.names, self.sizes)
            found[bucket.name] = _reduced(_onto(belief, (bucket.name,), self.sizes).table)
        return found

    @cached_property
    def possible(self) -> bool:
        """Whether any assignment of all variables has a weight above 0."""
        if any(not factor.names and not factor.table[()] for factor in self.factors):
            return False
        roots = [bucket for bucket in self._buckets if bucket.parent is None]
        return all(self.marginals[bucket.name].any() for bucket in roots)

    @cached_property
    def total(self) -> Fraction:
        """The sum of all weights, scales counted in."""
        sum_of = math.prod((factor.scale for factor in self.factors), start=Fraction(1))
        remaining = list(self.factors)
        for name in _order(self.sizes, remaining)[0]:
            merged = _product([*_having(remaining, name), _ones(name, self.sizes[name])])
            table = np.asarray(merged.table.sum(axis=merged.names.index(name)), dtype=object)
            divisor = _divisor(table)
            sum_of *= divisor
            left = tuple(other for other in merged.names if other != name)
            remaining = [factor for factor in remaining if name not in factor.names]
            remaining.append(Factor(left, np.asarray(table // divisor, dtype=object)))
        return sum_of * math.prod(int(factor.table[()]) for factor in remaining)

    @cached_property
    def largest(self) -> int:
        """The entries of the largest table that is needed."""
        return math.prod((self.sizes[name] for name in self.crowd), start=1)

    @cached_property
    def crowd(self) -> frozenset[str]:
        """The variables of that table."""
        return _order(self.sizes, self.factors)[1]

    @cached_property
    def _buckets(self) -> list[_Bucket]:
        order, _ = _order(self.sizes, self.factors)
        place = {name: i for i, name in enumerate(order)}
        buckets = [_Bucket(name) for name in order]
        for factor in self.factors:
            if factor.names:
                buckets[min(place[name] for name in factor.names)].factors.append(factor)
        for bucket in buckets:
            here = [*bucket.factors, *(child.up for child in bucket.children if child.up is not None)]
            if not here:
                continue
            message = _summed(_product(here), bucket.name)
            if message.names:
                bucket.up = message
                bucket.parent = buckets[min(place[name] for name in message.names)]
                bucket.parent.children.append(bucket)
        return buckets

    def _near(self, asked: Sequence[str]) -> list[Factor]:
        """The factors that are connected with the variables asked for."""
        touching: dict[str, list[Factor]] = {}
        for factor in self.factors:
            for name in factor.names:
                touching.setdefault(name, []).append(factor)
        reached, ahead, found = set(asked), list(asked), dict[int, Factor]()
        while ahead:
            for factor in touching.get(ahead.pop(), ()):
                if id(factor) not in found:
                    found[id(factor)] = factor
                    new = set(factor.names) - reached
                    reached |= new
                    ahead += new
        return list(found.values())


@dataclass(eq=False)
class _Bucket:
    """What is multiplied before one variable is summed out; up, down: its messages to and from `parent`."""

    name: str
    factors: list[Factor] = field(default_factory=list)
    children: list[_Bucket] = field(default_factory=list)
    parent: _Bucket | None = None
    up: Factor | None = None
    down: Factor | None = None


def _order(
    sizes: Mapping[str, int], factors: Iterable[Factor], keep: frozenset[str] = frozenset()
) -> tuple[list[str], frozenset[str]]:
    """All variables but `keep` in the order to eliminate them, and the variables of the largest table on the way."""
    near: dict[str, set[str]] = {name: set() for name in sizes}
    for factor in factors:
        for name in factor.names:
            near[name].update(factor.names)
    for name, others in near.items():
        others.discard(name)
    costs = {name: _cost(name, near, sizes) for name in near if name not in keep}
    queue = [(cost, name) for name, cost in costs.items()]
    heapq.heapify(queue)
    order: list[str] = []
    largest, crowd = 0, frozenset[str]()
    while queue:
        cost, gone = heapq.heappop(queue)
        if costs.get(gone) != cost:
            continue
        order.append(gone)
        del costs[gone]
        around = near.pop(gone)
        if cost > largest:
            largest, crowd = cost, frozenset({gone, *around})
        for name in around:
            near[name] |= around
            near[name] -= {name, gone}
        for name in around:
            if name in costs:
                costs[name] = _cost(name, near, sizes)
                heapq.heappush(queue, (costs[name], name))
    return order, crowd


def _cost(name: str, near: Mapping[str, set[str]], sizes: Mapping[str, int]) -> int:
    return math.prod((sizes[other] for other in near[name]), start=sizes[name])


def _having(factors: Iterable[Factor], name: str) -> list[Factor]:
    return [factor for factor in factors if name in factor.names]


def _ones(name: str, size: int) -> Factor:
    return Factor((name,), np.ones(size, dtype=object))


def _product(factors: Sequence[Factor]) -> Factor:
    if not factors:
        return Factor((), np.array(1, dtype=object))
    names = tuple(dict.fromkeys(name for factor in factors for name in factor.names))
    table = _spread(factors[0], names)
    for factor in factors[1:]:
        table = table * _spread(factor, names)
    return Factor(names, table)


def _spread(factor: Factor, names: tuple[str, ...]) -> Table:
    """The table with an axis for each of `names`, of length 1 where the factor does not have it."""
    axes = sorted(range(len(factor.names)), key=lambda i: names.index(factor.names[i]))
    table = np.transpose(factor.table, axes)
    have = iter(table.shape)
    return table.reshape([next(have) if name in factor.names else 1 for name in names])


def _summed(factor: Factor, gone: str) -> Factor:
    if gone not in factor.names:
        return factor
    axis = factor.names.index(gone)
    table = np.asarray(factor.table.sum(axis=axis), dtype=object)
    names = factor.names[:axis] + factor.names[axis + 1 :]
    return Factor(names, _reduced(table))


def _onto(factor: Factor | None, names: tuple[str, ...], sizes: Mapping[str, int]) -> Factor:
    """Summed down to these variables; one that the factor does not have gets equal weights."""
    table = _product([*([factor] if factor else []), *(_ones(name, sizes[name]) for name in names)])
    for name in table.names:
        if name not in names:
            table = _summed(table, name)
    return Factor(names, _reduced(np.transpose(table.table, [table.names.index(name) for name in names])))


def _divisor(table: Table) -> int:
    return math.gcd(*table.flat) or 1


def _reduced(table: Table) -> Table:
    """Divided by the greatest common divisor of its entries."""
    divisor = _divisor(table)
    return np.asarray(table // divisor, dtype=object) if divisor > 1 else table
