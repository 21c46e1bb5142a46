"""The best ways to share out males among females, exactly, and in one order whatever ties there are.

A solver of integer programs proposes the best way in floating point. From there exact whole numbers decide: females are
moved from male to male, in a ring, as long as that gains anything. A way that no such ring betters is a best one, as
with any flow of least cost, so the answer does not hang on the solver's rounding. The next best ways are found by
taking from a good one each of its pairings in turn, and settling the rest anew (Lawler 1972).
"""

from __future__ import annotations

import heapq
from collections.abc import Mapping
from fractions import Fraction
from itertools import count
from math import lcm

from .allotment_program import first_choice
from .allotment_wishes import Pair

__all__ = ["best_choices"]

Gains = Mapping[str, Mapping[str, int]]
"""Dam -> sire -> gain, above 0."""


def best_choices(
    values: Mapping[Pair, tuple[Fraction, Fraction]], room: Mapping[str, int], best: int
) -> list[dict[str, str]]:
    """The best few different ways, best first: dam -> sire.

    values: (value, kinship) of each pairing that may be made, its value above 0. room: how many females each male may
    have. Best is the greatest sum of values; of equal ones the least sum of kinships; of those still equal the way that
    has the pairing that comes first by ids, then the one that comes second, and so on.
    """
    gains = _gains(values)
    most = max((value for value, _ in values.values()), default=Fraction(1))
    started = first_choice({pair: float(value / most) for pair, (value, _) in values.items()}, room)
    number = count()
    way = _improved(gains, room, started)
    ahead = [(-_sum(gains, way), next(number), way, frozenset[Pair](), frozenset[Pair]())]
    found: list[dict[str, str]] = []
    while ahead and len(found) < best:
        _, _, way, fixed, banned = heapq.heappop(ahead)
        found.append(way)
        if len(found) == best:
            break
        for pair in sorted(way.items()):
            if pair not in fixed:
                other = _without(gains, room, way, fixed, banned | {pair})
                heapq.heappush(ahead, (-_sum(gains, other), next(number), other, fixed, banned | {pair}))
                fixed |= {pair}
    return found


def _gains(values: Mapping[Pair, tuple[Fraction, Fraction]]) -> dict[str, dict[str, int]]:
    """Whole numbers whose sums are in the order of the sums of values, with ties broken.

    Each has three parts that never run into one another: the value, less the kinship, and a bit for the pairing's place
    in the order of ids.
    """
    scale = lcm(*(value.denominator for value, _ in values.values()))
    of_kin = lcm(*(kinship.denominator for _, kinship in values.values()))
    most_kin = 1 + sum(int(kinship * of_kin) for _, kinship in values.values())
    gains: dict[str, dict[str, int]] = {}
    for place, (dam, sire) in enumerate(sorted(values)):
        value, kinship = values[dam, sire]
        main = int(value * scale) * most_kin - int(kinship * of_kin)
        gains.setdefault(dam, {})[sire] = (main << len(values)) + (1 << len(values) - 1 - place)
    return gains


def _without(
    gains: Gains, room: Mapping[str, int], way: Mapping[str, str], fixed: frozenset[Pair], banned: frozenset[Pair]
) -> dict[str, str]:
    """The best way that has all of the fixed pairings and none of the banned ones. way: one close to it."""
    settled = dict(fixed)
    left = {sire: number - list(settled.values()).count(sire) for sire, number in room.items()}
    open_gains = {
        dam: {sire: gain for sire, gain in sires.items() if (dam, sire) not in banned}
        for dam, sires in gains.items()
        if dam not in settled
    }
    start = {dam: sire for dam, sire in way.items() if dam in open_gains and sire in open_gains[dam]}
    return {**settled, **_improved(open_gains, left, start)}


def _improved(gains: Gains, room: Mapping[str, int], start: Mapping[str, str]) -> dict[str, str]:
    """The best way, reached from any that keeps to the limits."""
    way = dict(start)
    while ring := _ring(gains, room, way):
        for dam, sire in ring:
            way.pop(dam, None)
            if sire:
                way[dam] = sire
    return way


def _ring(gains: Gains, room: Mapping[str, int], way: Mapping[str, str]) -> list[Pair]:
    """Moves of females to other males ("" for none) that gain together; none if there are no such moves.

    Each male, and nobody (""), is a place; the longest walk through places that gains and comes back is looked for.
    Whoever has room may pass a vacancy on for nothing.
    """
    places = ["", *sorted(room)]
    load = dict.fromkeys(places, 0)
    for sire in way.values():
        load[sire] += 1
    moves: dict[Pair, tuple[int, str]] = {
        (one, other): (0, "")
        for one in places
        if not one or load[one] < room[one]
        for other in places
        if other != one
    }
    for dam, sires in gains.items():
        at = way.get(dam, "")
        now = sires[at] if at else 0
        for to, gain in (*sires.items(), ("", 0)):
            if to != at and ((at, to) not in moves or gain - now > moves[at, to][0]):
                moves[at, to] = (gain - now, dam)
    gained = dict.fromkeys(places, 0)
    before: dict[str, str] = {}
    last: str | None = None
    for _ in places:
        last = None
        for (one, other), (gain, _) in moves.items():
            if gained[one] + gain > gained[other]:
                gained[other], before[other], last = gained[one] + gain, one, other
        if last is None:
            return []
    assert last is not None
    for _ in places:
        last = before[last]
    walk = [last]
    while (at := before[walk[-1]]) != last:
        walk.append(at)
    steps = zip([*walk[1:], last], walk, strict=True)
    return [(dam, to) for one, to in steps if (dam := moves[one, to][1])]


def _sum(gains: Gains, way: Mapping[str, str]) -> int:
    return sum(gains[dam][sire] for dam, sire in way.items())
