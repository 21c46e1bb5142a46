"""The dark network of a schematic animal: the dorsal line, the bars down the flanks, and what closes the blotches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import sin
from random import Random

from .sketch_lines import Point, between, blob, share
from .sketch_skin import EDGE, SIDES, Bar, Plan, at, zone

__all__ = ["Network", "Piece", "band_half_width", "bar_place", "network", "saddle_shapes"]

Piece = list[Point]
STEPS = 9


@dataclass(frozen=True)
class Network:
    """Outlines of the dark marks, by what they are."""

    dorsal: list[Piece]
    bars: list[Piece]
    closures: list[Piece]


def network(values: Mapping[str, float], layout: Plan, seed: int) -> Network:
    """All dark marks but dots and flecks. The dorsal line is one piece where nothing breaks it."""
    bars: list[Piece] = []
    closures: list[Piece] = []
    for side in SIDES:
        own = [shape for bar in layout.bars[side] if (shape := _bar(values, layout, bar, side))]
        bars += own + _more_bars(values, layout, side, seed)
        closures += _closures(values, layout, side)
    return Network(_dorsal(values, layout), bars, closures)


def band_half_width(values: Mapping[str, float], u: float) -> float:
    """Half the width of an unbroken dorsal band at `u`, as a share of the half skin."""
    whole = zone(values, u)
    width = 0.245 * (1 + 0.19 * min(0.0, values["pattern"]) + 0.14 * max(0.0, values["pattern"]))
    return width * (1 + 0.09 * whole if whole > 0 else 1 + 0.05 * whole)


def _gap(values: Mapping[str, float], layout: Plan, i: int) -> float:
    """The share of the way to the next saddle that the dorsal band is open at saddle `i`: 0 where it is not broken."""
    return max(_worn(values, layout, i), 0.56 * share((_crossing(values, layout, i) - 0.75) / 2.25))


def _saddle_reach(values: Mapping[str, float], layout: Plan, i: int) -> tuple[float, float]:
    """Half the length along the body and half the width across it of saddle `i`; (0, 0) if there is none."""
    u, banding, size = layout.saddles[i], values["banding"], layout.sizes[i]
    kept = share(1 - zone(values, u) / 2.6) if zone(values, u) > 0 else 1.0
    if banding < 0:
        kept *= share(1 + (banding + (layout.breaks[i] - 0.45) * (3 + banding) / 2) / 3)
    kept *= 1 - 0.13 * max(0.0, values["pattern"])
    across = between(between(0.5, 0.58, size), 1.02, share(_crossing(values, layout, i) / 0.75))
    along = layout.period * 0.28 * between(1.0, size, 0.8) * (1 - share(_gap(values, layout, i) / 0.4))
    return along * kept, band_half_width(values, u) * across * kept


def saddle_shapes(values: Mapping[str, float], layout: Plan, seed: int) -> list[tuple[Piece, float]]:
    """The light saddles, each with how sharply its edge stands out, from 0 to 1."""
    chance = Random(f"saddles {seed}")
    shapes = []
    for i, u in enumerate(layout.saddles):
        wobble = [chance.uniform(-0.1, 0.1) for _ in range(12)]
        offset, lean = chance.uniform(-0.3, 0.3), chance.uniform(-0.25, 0.25)
        along, across = _saddle_reach(values, layout, i)
        if along < 0.004:
            continue
        off = offset * (1 - share(_crossing(values, layout, i) / 0.75))
        shape = [at(u + along * x, across * y) for x, y in blob((0.0, off), 1.0, 1.0, wobble, lean)]
        shapes.append((shape, share(1 - _gap(values, layout, i) / 0.25)))
    return shapes


def _crossing(values: Mapping[str, float], layout: Plan, i: int) -> float:
    """How far banding drives saddle `i` across the back, from 0 to 3; a whole dorsal line holds against it."""
    hold = share(1 - max(0.0, zone(values, layout.saddles[i])) / 2.6)
    return max(0.0, values["banding"]) * hold * between(1.12, 0.88, layout.breaks[i])


def _worn(values: Mapping[str, float], layout: Plan, i: int) -> float:
    """The share of the dorsal band that is lost about saddle `i` where the band is broken up."""
    return share((-zone(values, layout.saddles[i]) - layout.breaks[i]) / (2.95 - layout.breaks[i]))


def bar_place(values: Mapping[str, float], bar: Bar) -> float:
    """Where along the body the bar stands: by chance, or midway between two saddles if these run as bands."""
    drawn = max(values["banding"] / 2.5, -zone(values, bar.home) / 1.5)
    return bar.home + bar.astray * (1 - 0.88 * share(drawn))


def _dorsal(values: Mapping[str, float], layout: Plan) -> list[Piece]:
    gaps = [_gap(values, layout, i) for i in range(len(layout.saddles))]
    wear = [_worn(values, layout, i) for i in range(len(layout.saddles))]
    necks = [_neck(values, layout, i) for i in range(len(layout.saddles))]
    pieces: list[Piece] = []
    spine: list[tuple[float, float]] = []
    for i, (a, b) in enumerate(pairwise(layout.saddles)):
        half = 0.5 * (b - a)
        start, end = a + half * gaps[i], b - half * gaps[i + 1]
        worn = 1 - 0.45 * max(wear[i], wear[i + 1])
        if end - start > 0.04 * (b - a):
            spine += [_cross_cut(values, start, end, k / STEPS, necks[i], necks[i + 1], worn) for k in range(STEPS + 1)]
        if (gaps[i + 1] > 0 or i == len(gaps) - 2) and spine:
            pieces.append(_around(spine, layout))
            spine = []
    return pieces


def _neck(values: Mapping[str, float], layout: Plan, i: int) -> float:
    """How much of the band's width is left at saddle `i`: 1 where the line is whole, 0 where it is open."""
    down = -zone(values, layout.saddles[i])
    width = 0.88 - 0.04 * down if down < 0 else 0.88 * (1 - down / layout.breaks[i])
    return share(width) * share(1 - _crossing(values, layout, i) / 0.75)


def _cross_cut(
    values: Mapping[str, float], start: float, end: float, part: float, first: float, last: float, worn: float
) -> tuple[float, float]:
    """(place along, half width) of the dorsal band at `part` of one piece, drawn in at its two ends."""
    neck, x = (first, 2 * part) if part < 0.5 else (last, 2 * (1 - part))
    full = neck + (1 - neck) * (1 - (1 - x) ** 3) ** 0.5
    u = between(start, end, part)
    return u, band_half_width(values, u) * full * worn


def _around(spine: list[tuple[float, float]], layout: Plan) -> Piece:
    def rim(side: int) -> Piece:
        one, two = layout.wave[:2] if side < 0 else layout.wave[2:4]
        return [at(u, side * w * (1 + 0.09 * sin(61 * u + one) + 0.06 * sin(113 * u + two))) for u, w in spine]

    return rim(-1) + rim(1)[::-1]


def _strength(values: Mapping[str, float], bar: Bar) -> float:
    """1 for a bar that stands, less as the pattern thins, 0 when it is dropped."""
    return share((values["pattern"] + 3.0 - 1.5 * bar.stays) / 0.9)


def _span(values: Mapping[str, float], bar: Bar) -> tuple[float, float]:
    """Where on the flank the bar begins and how long it is."""
    u = bar_place(values, bar)
    band = band_half_width(values, u)
    top = between(0.6 * band, band + 0.05, share(-zone(values, u) / 2.4))
    flank = min(0.0, values["flank"])
    reach = bar.depth * share(1 + (flank + 0.25 * (bar.stays - 0.5) * flank * (3 + flank)) / 3)
    floating = share(values["floating"] / 3) * _closing(values)
    reach = between(reach, max(reach, 0.9 * bar.depth), share(2 * floating)) * (1 - 0.1 * floating)
    return top, (EDGE - top) * reach * _strength(values, bar)


def _closing(values: Mapping[str, float]) -> float:
    """How far the flanks still bear dark lines that can close a blotch: 1, and down to 0 where they are cleared."""
    return share((values["flank"] + 3) / 1.5)


def _bar(values: Mapping[str, float], layout: Plan, bar: Bar, side: int) -> Piece | None:
    top, length = _span(values, bar)
    if length < 0.05:
        return None
    u = bar_place(values, bar)
    thick = 1 + 0.17 * values["pattern"] + 0.15 * max(0.0, values["flank"]) + 0.07 * max(0.0, values["banding"])
    half = 0.15 * layout.period * bar.width * max(0.25, thick) * (0.4 + 0.6 * _strength(values, bar))
    joined = share(band_half_width(values, u) / 0.2) * (1 - share(-zone(values, u) / 1.7)) * share(length / 0.35)
    return _tapered(u, top, length, half, between(0.8, 2.5, joined), bar.lean, bar.wobble, side)


def _tapered(
    u: float, top: float, length: float, half: float, flare: float, lean: float, wobble: tuple[float, ...], side: int
) -> Piece:
    """A bar that spreads where it leaves the back, is slim at the height of the blotch and widens before its tip."""
    cuts = ((0.0, flare), (0.14, 0.35 + 0.6 * flare), (0.3, 1.05), (0.52, 0.85), (0.76, 1.4), (0.97, 0.85))

    def rim(edge: int) -> Piece:
        return [
            at(
                u + lean * part * part + edge * half * width * (1 + 0.16 * wobble[i + (6 if edge > 0 else 0)]),
                side * (top + length * part),
            )
            for i, (part, width) in enumerate(cuts)
        ]

    head = at(u, side * (top - half * 1.5))
    tip = at(u + lean, side * (top + length * 1.06))
    return [head, *rim(-1), tip, *rim(1)[::-1]]


def _more_bars(values: Mapping[str, float], layout: Plan, side: int, seed: int) -> list[Piece]:
    """Short bars inside the blotches, where there is more pattern than usual."""
    chance = Random(f"more bars {side} {seed}")
    more = max(0.0, values["pattern"]) + max(0.0, values["flank"]) + min(0.0, values["flank"], values["pattern"])
    shapes = []
    for one, two in pairwise(layout.bars[side]):
        starts, part = chance.uniform(0.1, 2.4), chance.uniform(0.4, 0.6)
        wobble = tuple(chance.uniform(-1, 1) for _ in range(12))
        strength = share((more - starts) / 1.2)
        if strength > 0.08:
            u = between(bar_place(values, one), bar_place(values, two), part)
            half = 0.11 * layout.period * (0.5 + 0.5 * strength)
            band = 0.6 * band_half_width(values, u)
            shapes.append(_tapered(u, band, (EDGE - band) * 0.72 * strength, half, 2.2, 0.0, wobble, side))
    return shapes


def _closures(values: Mapping[str, float], layout: Plan, side: int) -> list[Piece]:
    """Dark lines that hang from bar to bar under the blotches, which then float free of the belly."""
    floating = share(values["floating"] / 3) * _closing(values)
    if floating < 0.02:
        return []
    thick = (0.035 + 0.085 * floating) * (1 + 0.15 * values["pattern"])
    ends = []
    for bar in layout.bars[side]:
        top, length = _span(values, bar)
        ends.append((bar_place(values, bar) + bar.lean * 0.8, max(0.3, top + 0.9 * length)))
    shapes = []
    for ((a, high), (b, other)), bar in zip(pairwise(ends), layout.bars[side][1:], strict=True):
        low = max(between(0.71, 0.78, (bar.wobble[0] + 1) / 2), min(high, other))
        arc = []
        for step in range(-4, 5):
            t = 0.25 * step * between(0.6, 1.0, share(2 * floating))
            hang = between(low, high if t < 0 else other, abs(t) ** 3)
            arc.append((between(a, b, 0.5 + 0.5 * t), hang, 1 - 0.5 * t * t))
        under = [at(u, side * (v + thick * grown)) for u, v, grown in arc]
        shapes.append(under + [at(u, side * v) for u, v, _ in reversed(arc)])
    return shapes
