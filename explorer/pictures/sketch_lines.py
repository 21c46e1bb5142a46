"""Soft outlines: points to the curves of an SVG path, and small sums for drawing by eye."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, pi, sin

__all__ = ["Point", "between", "blob", "closed_curve", "share", "spots"]

Point = tuple[float, float]


def share(value: float) -> float:
    """The value, or the nearer end of 0 to 1."""
    return 0.0 if value < 0 else 1.0 if value > 1 else value


def between(low: float, high: float, part: float) -> float:
    """From `low` at part 0 to `high` at part 1, and on beyond."""
    return low + (high - low) * part


def closed_curve(points: Sequence[Point]) -> str:
    """Path text of a rounded outline that the points draw toward them, always the same way round.

    The curve passes midway between neighbours and bends at each point. Points are taken to a fifth of a unit: midways
    are then whole tenths, and `t`, which mirrors the last bend in where the pen is, falls on each next point exactly.
    """
    tenths = [(2 * round(5 * x), 2 * round(5 * y)) for x, y in points]
    if sum((x - p) * (y + q) for (p, q), (x, y) in pairwise([*tenths, tenths[0]])) < 0:
        tenths.reverse()
    ends = [((p + x) // 2, (q + y) // 2) for (p, q), (x, y) in pairwise([*tenths, tenths[0]])]
    (p, q), (x, y), (a, b) = ends[-1], tenths[0], ends[0]
    text = [f"M{_pair((p, q))}q{_pair((x - p, y - q))}{_joined(a - p, ' ')}{_joined(b - q, ' ')}"]
    text += [f"t{_pair((x - p, y - q))}" for (p, q), (x, y) in pairwise(ends)]
    return "".join(text) + "Z"


def blob(centre: Point, across: float, along: float, wobble: Sequence[float], lean: float = 0.0) -> list[Point]:
    """Points around an oval with half-axes `across` and `along`, each drawn in or out by its share of `wobble`."""
    count = len(wobble)
    points = []
    for i, off in enumerate(wobble):
        angle = 2 * pi * i / count
        x, y = across * (1 + off) * cos(angle), along * (1 + off) * sin(angle)
        points.append((centre[0] + x + lean * y, centre[1] + y))
    return points


def spots(points: Sequence[Point]) -> str:
    """Path text of points that a round pen makes into dots."""
    return "".join(f"M{_pair((round(10 * x), round(10 * y)))}h0" for x, y in points)


def _pair(point: tuple[int, int]) -> str:
    return f"{point[0] / 10:g}{_joined(point[1], ' ')}"


def _joined(tenths: int, gap: str) -> str:
    return f"{tenths / 10:g}" if tenths < 0 else f"{gap}{tenths / 10:g}"
