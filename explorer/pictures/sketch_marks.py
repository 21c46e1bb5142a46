"""What lies on and beside the network: dots, flecks of the belly edge, peppering, soft patches, and white."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from math import pi, sin
from random import Random

from .sketch_lines import Point, between, share
from .sketch_network import band_half_width, bar_place
from .sketch_skin import EDGE, SIDES, Plan, at

__all__ = ["Oval", "belly_edge", "blush_patches", "dots", "flecks", "peppering", "white_areas", "white_spatter"]

Oval = tuple[Point, float, float]
"""Centre, half width, half height."""

DOTS_A_BLOTCH, FLECKS_A_SIDE, GRAINS = 4, 30, 260


def dots(values: Mapping[str, float], layout: Plan, seed: int) -> list[Oval]:
    """The dark dots in the light blotches of both flanks: one or two each in a wild type, none at -2."""
    wanted = values["dots"] + 0.55 * min(0.0, values["pattern"])
    chance = Random(f"dots {seed}")
    found = []
    for side in SIDES:
        for one, two in pairwise(layout.bars[side]):
            a, b = bar_place(values, one), bar_place(values, two)
            for k in range(DOTS_A_BLOTCH):
                starts = (-1.9, -0.9, 0.5, 1.7)[k] + chance.uniform(0.0, 1.2)
                part = (0.36, 0.64, 0.5, 0.44)[k] + chance.uniform(-0.07, 0.07)
                low = (0.42, 0.42, 0.57, 0.68)[k] + chance.uniform(-0.04, 0.04)
                size = chance.uniform(0.75, 1.2)
                radius = 3.4 * size * share((wanted - starts) / 0.8) * min(1.0, (b - a) / layout.period)
                if radius > 0.8:
                    found.append((at(between(a, b, part), side * low), radius, radius * 1.25))
    return found


def flecks(values: Mapping[str, float], seed: int) -> list[Oval]:
    """Marks along the belly edge, from none at -3 to a row of checkers at 3."""
    chance = Random(f"flecks {seed}")
    belly = values["belly"]
    found = []
    for side in SIDES:
        for k in range(FLECKS_A_SIDE):
            u = (k + chance.uniform(0.25, 0.75)) / FLECKS_A_SIDE
            low = EDGE + 0.05 + (0.045 if k % 2 else 0.0) + chance.uniform(-0.015, 0.015)
            starts, size = between(-2.9, 2.0, chance.random() ** 0.7), chance.uniform(0.8, 1.25)
            grown = share((belly - starts) / 1.0)
            if grown > 0.1:
                checker = 1 + 0.34 * max(0.0, belly)
                found.append((at(u, side * low), 1.6 * size * grown * checker, 1.4 * size * grown * checker))
    return found


def peppering(values: Mapping[str, float], seed: int) -> list[Point]:
    """Fine dark grains over the whole skin; the more, the less clean."""
    chance = Random(f"grains {seed}")
    count = round(GRAINS * share(-values["clean"] / 3))
    places = [(chance.uniform(0.0, 1.0), chance.uniform(-0.9, 0.9)) for _ in range(GRAINS)]
    return [at(*place) for place in places[:count]]


def blush_patches(values: Mapping[str, float], layout: Plan, seed: int) -> list[Oval]:
    """Places of the soft patches: on the spine between the saddles, and in the bars."""
    chance = Random(f"blush {seed}")
    found = []
    for a, b in pairwise(layout.saddles):
        u, size = (a + b) / 2 + chance.uniform(-0.01, 0.01), chance.uniform(0.8, 1.2)
        found.append((at(u, chance.uniform(-0.05, 0.05)), 10.5 * size, 2 + 56 * band_half_width(values, u) * size))
    for side in SIDES:
        for bar in layout.bars[side]:
            u, size = bar_place(values, bar), chance.uniform(0.8, 1.2)
            low = band_half_width(values, u) + chance.uniform(0.16, 0.24)
            found.append((at(u + bar.lean * 0.3, side * low), 5.2 * size * bar.width, 18 * size))
    return found


def belly_edge(layout: Plan, side: int, rise: float = 0.0) -> list[Point]:
    """The pale strip along one rim of the skin; `rise`: how much further it comes up the flank."""
    one, two = layout.wave[4:6]
    along = [i / 30 for i in range(-1, 32)]
    rim = [at(u, side * (EDGE - rise + 0.018 * sin(47 * u + one + side) + 0.012 * sin(89 * u + two))) for u in along]
    return [*rim, at(1.04, side * 1.1), at(-0.04, side * 1.1)]


def white_areas(values: Mapping[str, float], seed: int) -> list[list[Point]]:
    """The white that climbs from either belly edge; near 3 it crosses the back and leaves islands."""
    white = values["white"]
    if white <= 0:
        return []
    chance = Random(f"white {seed}")
    middles = [(u + chance.uniform(-0.05, 0.05), chance.uniform(0.085, 0.15)) for u in (0.1, 0.5, 0.88)]
    areas = []
    for side in SIDES:
        islands = [
            (middle + chance.uniform(-0.006, 0.006), half, chance.uniform(0.35, 0.8)) for middle, half in middles
        ]
        phases = [chance.uniform(0, 2 * pi) for _ in range(4)]
        rim = []
        for i in range(-2, 103):
            u = i / 100
            ragged = 0.55 * sin(15 * u + phases[0]) + 0.35 * sin(31 * u + phases[1]) + 0.16 * sin(63 * u + phases[2])
            ragged += (0.05 - 0.05 * min(0.0, values["clean"])) * sin(149 * u + phases[3])
            island = _island(islands, u + 0.008 * sin(90 * u + phases[2]), ragged)
            rim.append(at(u, side * _height(white, ragged, island)))
        areas.append([*rim, at(1.2, side * 1.4), at(-0.2, side * 1.4)])
    return areas


def white_spatter(values: Mapping[str, float], seed: int) -> list[Point]:
    """White grains above the edge of the white, in an animal that isn't clean."""
    white, dirt = values["white"], share(-values["clean"] / 3)
    count = round(110 * dirt * share(white) * share((3.2 - white) / 0.6))
    chance = Random(f"spatter {seed}")
    places = [(chance.random(), chance.random() ** 2, chance.choice(SIDES)) for _ in range(110)]
    edge = _height(white, 0.2, 0.5)
    return [at(u, side * (edge - 0.28 * up)) for u, up, side in places[:count]]


def _island(islands: list[tuple[float, float, float]], u: float, ragged: float) -> float:
    best = -0.16
    for middle, half, height in islands:
        x = abs(u - middle) / half
        if x < 1:
            best = max(best, between(-0.16, height + 0.1 * ragged, (1 - x**4) ** 0.5))
    return best


def _height(white: float, ragged: float, island: float) -> float:
    """Above which share of the flank the skin is still coloured."""
    if white <= 1:
        return between(1.04, 0.8 + 0.05 * ragged, white)
    if white <= 2:
        return between(0.8 + 0.05 * ragged, 0.5 + 0.2 * ragged, white - 1)
    return between(0.5 + 0.2 * ragged, island, (white - 2) ** 0.8)
