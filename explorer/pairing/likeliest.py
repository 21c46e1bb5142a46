"""The likeliest combinations of independent choices, found without building the full table."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import lcm, prod
from typing import TypeVar

__all__ = ["likeliest"]

T = TypeVar("T")


def likeliest(choices: Sequence[Sequence[tuple[T, Fraction]]]) -> Iterator[tuple[tuple[T, ...], Fraction]]:
    """Combinations of one item from each sequence with the product of their chances, likeliest first.

    Each sequence is sorted by falling chance and none is empty. Ties come in the order of the sequences.
    """
    if any(chance <= 0 for choice in choices for _, chance in choice):
        raise ValueError("chances must be positive")
    scales = [lcm(*(chance.denominator for _, chance in choice)) for choice in choices]
    weights = [[int(chance * scale) for _, chance in choice] for choice, scale in zip(choices, scales, strict=True)]
    whole = prod(scales)
    heap: list[tuple[int, tuple[int, ...], int]] = [(-prod(here[0] for here in weights), (0,) * len(choices), 0)]
    while heap:
        negative, at, last = heapq.heappop(heap)
        yield tuple(choice[i][0] for choice, i in zip(choices, at, strict=True)), Fraction(-negative, whole)
        for k in range(last, len(choices)):
            i = at[k]
            if i + 1 < len(choices[k]):
                weight = negative // weights[k][i] * weights[k][i + 1]
                heapq.heappush(heap, (weight, (*at[:k], i + 1, *at[k + 1 :]), k))
