"""Exact sums of products over many small factors: totals, joint tables and all marginals, in whole numbers.

Method: bucket elimination with a downward pass (Dechter 1999; Shafer & Shenoy 1990), which on a pedigree is peeling
(Elston & Stewart 1971) with cut-sets, so that loops are handled exactly (Cannings, Thompson & Skolnick 1978). The order
of elimination is greedy: the variable whose elimination makes the smallest table comes next.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

import numpy as np

from .factors import Factor, Table, even, onto, product, summed

__all__ = ["Network"]


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
        if not self.possible:
            return np.zeros([self.sizes[name] for name in asked], dtype=object)
        between = self._between(asked)
        left = Network(self.sizes, between).around(asked).left(asked)
        table = product([*left, *(even(name, self.sizes[name]) for name in asked)])
        return np.transpose(table.table, [table.names.index(name) for name in asked])

    def around(self, asked: Sequence[str]) -> Network:
        """The part that has to do with these variables."""
        touching: dict[str, list[Factor]] = {}
        for factor in self.factors:
            for name in factor.names:
                touching.setdefault(name, []).append(factor)
        reached, ahead, near = set(asked), list(asked), dict[int, Factor]()
        while ahead:
            for factor in touching.get(ahead.pop(), ()):
                if id(factor) not in near:
                    near[id(factor)] = factor
                    new = set(factor.names) - reached
                    reached |= new
                    ahead += new
        return Network({name: self.sizes[name] for name in sorted(reached)}, near.values())

    def left(self, keep: Collection[str]) -> list[Factor]:
        """Factors over the variables to keep, whose product says of them what all factors say; scales are left aside.

        Variables that have nothing to do with one another do not meet in a factor.
        """
        return _eliminated(self.factors, _order(self.sizes, self.factors, frozenset(keep))[0])[0]

    def densest(self, keep: Collection[str] = ()) -> tuple[int, frozenset[str]]:
        """The entries and the variables of the largest table that is needed to sum out all but some variables."""
        crowd = _order(self.sizes, self.factors, frozenset(keep))[1] if keep else self._elimination[1]
        return math.prod((self.sizes[name] for name in crowd), start=1), crowd

    @cached_property
    def marginals(self) -> dict[str, Table]:
        """Variable -> weights of its states; right up to one positive factor each. All 0 if nothing is possible."""
        if not self.possible:
            return {name: np.zeros(size, dtype=object) for name, size in self.sizes.items()}
        found: dict[str, Table] = {}
        for bucket in reversed(self._buckets):  # parents before the buckets below them
            above = [] if bucket.down is None else [bucket.down]
            so_far = [product([*bucket.factors, *above])]
            for child in bucket.children:
                so_far.append(product([so_far[-1], child.up]))
            found[bucket.name] = onto(so_far.pop(), (bucket.name,), self.sizes).table
            after: list[Factor] = []
            for child in reversed(bucket.children):
                child.down = onto(product([so_far.pop(), *after]), child.up.names, self.sizes)
                after = [product([child.up, *after])]
        return found

    @cached_property
    def possible(self) -> bool:
        """Whether any assignment of all variables has a weight above 0."""
        alone = [factor for factor in self.factors if not factor.names]
        roots = [bucket.up for bucket in self._buckets if not bucket.up.names]
        return all(factor.table[()] for factor in (*alone, *roots))

    @cached_property
    def total(self) -> Fraction:
        """The sum of all weights, scales counted in."""
        left, gone = _eliminated(self.factors, self._elimination[0])
        free = self.sizes.keys() - {name for factor in self.factors for name in factor.names}
        scale = math.prod((factor.scale for factor in (*self.factors, *gone)), start=Fraction(1))
        return scale * math.prod(int(one.table[()]) for one in left) * math.prod(self.sizes[name] for name in free)

    @cached_property
    def _elimination(self) -> tuple[list[str], frozenset[str]]:
        return _order(self.sizes, self.factors)

    @cached_property
    def _buckets(self) -> list[_Bucket]:
        order, _ = self._elimination
        place = {name: i for i, name in enumerate(order)}
        buckets = [_Bucket(name) for name in order]
        for factor in self.factors:
            if factor.names:
                buckets[min(place[name] for name in factor.names)].factors.append(factor)
        for bucket in buckets:
            here = product([*bucket.factors, *(child.up for child in bucket.children)])
            bucket.up = summed(here, bucket.name)
            if bucket.up.names:
                bucket.parent = buckets[min(place[name] for name in bucket.up.names)]
                bucket.parent.children.append(bucket)
        return buckets

    def _between(self, asked: Sequence[str]) -> list[Factor]:
        """Factors that say of these variables what all say: those on the way from one to the other in the tree of
        buckets, and the messages from everywhere else."""
        assert self.marginals.keys() == self.sizes.keys()  # all messages have been sent
        buckets = {bucket.name: bucket for bucket in self._buckets}
        ways: dict[str, list[list[_Bucket]]] = {}
        for name in dict.fromkeys(asked):
            up = [buckets[name]]
            while up[-1].parent is not None:
                up.append(up[-1].parent)
            ways.setdefault(up[-1].name, []).append(up)
        factors: list[Factor] = []
        for tree in ways.values():
            shared = set.intersection(*({id(bucket) for bucket in up} for up in tree))
            meeting = next(bucket for bucket in tree[0] if id(bucket) in shared)
            needed = {id(bucket): bucket for up in tree for bucket in up if id(bucket) not in shared}
            needed[id(meeting)] = meeting
            factors += [meeting.down] if meeting.down is not None else []
            for bucket in needed.values():
                factors += [*bucket.factors, *(child.up for child in bucket.children if id(child) not in needed)]
        return factors


@dataclass(eq=False)
class _Bucket:
    """What is multiplied before one variable is summed out. up: its message to `parent`; down: what comes back."""

    name: str
    factors: list[Factor] = field(default_factory=list)
    children: list[_Bucket] = field(default_factory=list)
    parent: _Bucket | None = None
    up: Factor = field(default_factory=lambda: product([]))
    down: Factor | None = None


def _eliminated(factors: Iterable[Factor], order: Iterable[str]) -> tuple[list[Factor], list[Factor]]:
    """What is left when variables are summed out in this order, and all messages on the way."""
    left = dict(enumerate(factors))
    having: dict[str, set[int]] = {}
    for number, factor in left.items():
        for name in factor.names:
            having.setdefault(name, set()).add(number)
    messages: list[Factor] = []
    number = len(left)
    for gone in order:
        if here := [(at, left.pop(at)) for at in sorted(having.get(gone, ()))]:
            message = summed(product([factor for _, factor in here]), gone)
            for at, factor in here:
                for name in factor.names:
                    having[name].discard(at)
            for name in message.names:
                having[name].add(number)
            left[number] = message
            messages.append(message)
            number += 1
    return list(left.values()), messages


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
