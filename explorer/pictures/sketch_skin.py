"""Where things lie on the rolled-out skin: its shape, and the chance places and sizes of one animal's marks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import pi, sin
from random import Random

from .sketch_lines import Point, between, share

__all__ = ["EDGE", "HALF", "MIDDLE", "SIDES", "Bar", "Plan", "at", "outline", "plan", "zone"]

LEFT, LENGTH, MIDDLE, HALF = 134.0, 374.0, 91.0, 80.0
EDGE = 0.85
"""Where the flank ends and the belly edge begins, from 0 on the back to 1 at the rim of the skin."""

SIDES = (-1, 1)
FEWEST, MOST = 6, 7


@dataclass(frozen=True)
class Bar:
    """A dark bar down one flank. `home`: between two saddles; `astray`: how far from there it stands by chance."""

    home: float
    astray: float
    lean: float
    width: float
    depth: float
    stays: float
    wobble: tuple[float, ...]


@dataclass(frozen=True)
class Plan:
    """The chances of one animal: where along the body, from 0 to 1, and how large beside the usual."""

    period: float
    saddles: tuple[float, ...]
    sizes: tuple[float, ...]
    breaks: tuple[float, ...]
    bars: Mapping[int, tuple[Bar, ...]]
    wave: tuple[float, ...]


def plan(seed: int) -> Plan:
    """What chance decides of the pattern's layout, the same for the same seed whatever the animal looks like."""
    chance = Random(f"layout {seed}")
    count = chance.randint(FEWEST, MOST)
    period = 1 / count
    shift = chance.uniform(-0.5, 0.5)
    saddles = [(i + shift + chance.uniform(-0.14, 0.14)) * period for i in range(-1, count + 3)]
    bars = {}
    for side in SIDES:
        drift = chance.uniform(-0.25, 0.25)
        bars[side] = tuple(_bar(chance, (a + b) / 2, drift, period) for a, b in pairwise(saddles))
    return Plan(
        period=period,
        saddles=tuple(saddles),
        sizes=tuple(chance.uniform(0.72, 1.25) for _ in saddles),
        breaks=tuple(chance.uniform(0.15, 0.75) for _ in saddles),
        bars=bars,
        wave=tuple(chance.uniform(0, 2 * pi) for _ in range(6)),
    )


def _bar(chance: Random, home: float, drift: float, period: float) -> Bar:
    return Bar(
        home=home,
        astray=(drift + chance.uniform(-0.17, 0.17)) * period,
        lean=chance.uniform(-0.2, 0.2) * period,
        width=chance.uniform(0.72, 1.3),
        depth=chance.uniform(0.86, 1.04),
        stays=chance.uniform(0.0, 1.0),
        wobble=tuple(chance.uniform(-1, 1) for _ in range(12)),
    )


def _half_height(u: float) -> float:
    """Half the skin's width at `u` along the body, in units: narrower toward the tail."""
    rear = share((u - 0.5) / 0.55)
    return HALF - 22 * rear * rear * (3 - 2 * rear)


def at(u: float, v: float) -> Point:
    """From 0 to 1 along the body and -1 to 1 across it to a place in the picture."""
    bulge = 5 * (1 - v * v)
    return (LEFT + LENGTH * u + (bulge if u > 0.5 else -bulge) * abs(2 * u - 1) ** 3, MIDDLE + v * _half_height(u))


def outline() -> list[Point]:
    """The rim of the skin."""
    along = [i / 12 for i in range(13)]
    across = [-0.94, -0.7, -0.35, 0.0, 0.35, 0.7, 0.94]
    top = [at(u, -1 + 0.008 * sin(9 * u)) for u in along]
    bottom = [at(u, 1 + 0.008 * sin(7 * u + 1)) for u in reversed(along)]
    return [*top, *(at(1.0, v) for v in across), *bottom, *(at(0.0, -v) for v in across)]


def zone(values: Mapping[str, float], u: float) -> float:
    """How whole the dorsal line is at `u`: `dorsal`, and `rear` on the rear third, one running into the other."""
    part = share((u - 0.6) / 0.12)
    return between(values["dorsal"], values["rear"], part * part * (3 - 2 * part))
