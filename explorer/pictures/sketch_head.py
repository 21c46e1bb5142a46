"""The head of a schematic animal from above and from one side, as SVG elements."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from .sketch_colours import Coat, Colour, as_hex, mixed
from .sketch_lines import Point, between, closed_curve, share, spots

__all__ = ["head_from_above", "head_from_side", "rim_above", "rim_beside"]

ABOVE, BESIDE = (12.0, 46.0), (12.0, 132.0)

RIM = ((0, 2), (1, 6), (6, 11), (15, 14), (25, 18), (42, 24), (58, 30), (70, 30), (80, 23), (90, 17), (112, 16))
CAP = ((4, 1), (7, 4), (16, 6.5), (28, 9), (40, 12.5), (52, 17), (62, 18.5), (70, 16), (78, 10))
NECK = ((84, 7), (94, 8.5), (114, 9))
MARK = ((34, 0.6), (42, 3), (50, 3.6), (57, 8), (64, 8.6), (67, 4.5), (63, 1.2), (72, 0.4))

PROFILE = (
    *((0, 4), (0, -2), (2, -9), (9, -14), (20, -18), (34, -21), (52, -23), (70, -22), (86, -17), (98, -14), (114, -13)),
    *((114, 13), (98, 12), (86, 16), (74, 22), (60, 24.5), (42, 24), (22, 21), (8, 17), (1, 12)),
)

BROW = ((-4, -6), (6, -10), (18, -12.5), (34, -13.5), (50, -12.5), (66, -10), (82, -6.5), (116, -5))
CHEEK = ((-4, 4), (10, 4.5), (26, 5.5), (42, 7.5), (58, 12), (72, 18), (90, 22), (116, 24))
BAR = (
    *((1, -3, 1.2), (12, -4.5, 2.4), (26, -5, 4.0), (42, -2, 4.4)),
    *((58, 3, 5.2), (72, 7, 6.2), (90, 7, 6.0), (116, 5, 5.5)),
)
"""Through the eye: x, y, half width."""

PITS = ((5.5, -4.5), (4, 3.2), (8, 5.4), (12.5, 7.4), (17, 9))
MOUTH = ((1, 6), (10, 9), (24, 12), (40, 14.2), (54, 15.8), (64, 16), (69, 13.8))


def head_from_above(values: Mapping[str, float], coat: Coat, clip: str, bare: float) -> str:
    """The crown, snout to the left. clip: id of a clip path with `rim_above`; bare: how white all of it is, 0 to 1."""
    stripe, crown = values["eye_stripe"], values["headstamp"]
    wide = 1 + (0.28 * stripe if stripe > 0 else stripe / 3)
    joined = share(stripe / 3)
    cap = [*CAP, *((between(x, 79, joined), y * (1 - joined)) for x, y in NECK)]
    parts = [_shape(rim_above(), coat.lip)]
    parts.append(_shape(_mirrored(ABOVE, [(x, max(0.5, y - 4.5)) for x, y in RIM]), coat.flank))
    if wide > 0.02:
        for side in (-1, 1):
            parts.append(_shape(_stripe_above(wide, joined, side), coat.network, share(wide * 2.2)))
    scale = 1 - 0.03 * crown
    parts.append(_shape(_mirrored(ABOVE, [(x, y * scale) for x, y in cap]), coat.crown, rim=as_hex(coat.halo)))
    size = share(0.42 + 0.2 * crown)
    if size > 0.02:
        mark = [(between(54, x, 0.55 + 0.45 * size), y * size * 1.2) for x, y in MARK]
        parts.append(_shape(_mirrored(ABOVE, mark), mixed(coat.crown, coat.saddle, 0.35 + 0.6 * size)))
    parts.append(_shape(rim_above(), coat.bare, bare))
    eyes = "".join(
        f'<ellipse cx="{ABOVE[0] + 25:g}" cy="{ABOVE[1] + side * 16.2:g}" rx="4.4" ry="2.8"/>' for side in (-1, 1)
    )
    rim = closed_curve(rim_above())
    return (
        f'<g data-part="head-above"><g clip-path="url(#{clip})">{"".join(parts)}</g>'
        f'<path d="{rim}" fill="none" stroke="{as_hex(coat.outline)}" stroke-width="1.1"/>'
        f'<g fill="{as_hex(coat.eye)}" stroke="{as_hex(coat.halo)}" stroke-width=".9">{eyes}</g></g>'
    )


def rim_above() -> list[Point]:
    """The outline of the head from above."""
    return _mirrored(ABOVE, RIM)


def rim_beside() -> list[Point]:
    """The outline of the head in profile."""
    return _placed(PROFILE)


def head_from_side(values: Mapping[str, float], coat: Coat, clip: str, bare: float) -> str:
    """The left side of the head, with the bar through the eye. clip, bare: as above, with `rim_beside`."""
    stripe = values["eye_stripe"]
    wide = 1 + (0.2 * stripe if stripe > 0 else stripe / 3)
    x0, y0 = BESIDE
    halo, outline = as_hex(coat.halo), as_hex(coat.outline)
    parts = [_shape(rim_beside(), coat.lip)]
    parts.append(_shape(_placed([*CHEEK, (116, -40), (-4, -40)]), coat.flank))
    parts.append(_shape(_placed([*BROW, (116, -40), (-4, -40)]), coat.crown, rim=halo))
    if wide > 0.02:
        band = [(x, y - half * wide) for x, y, half in BAR] + [(x, y + half * wide) for x, y, half in reversed(BAR)]
        parts.append(_shape(_placed(band), coat.network, share(wide * 2.2), halo))
    parts.append(_shape(rim_beside(), coat.bare, bare))
    pits = spots(_placed(PITS))
    mouth = " ".join(f"{x:g},{y:g}" for x, y in _placed(MOUTH))
    eye = f'cx="{x0 + 27:g}" cy="{y0 - 6:g}"'
    return (
        f'<g data-part="head-side"><g clip-path="url(#{clip})">{"".join(parts)}</g>'
        f'<polyline points="{mouth}" fill="none" stroke="{outline}" stroke-width=".9" stroke-linecap="round"/>'
        f'<path d="{pits}" stroke="{outline}" stroke-width="1.7" stroke-linecap="round"/>'
        f'<path d="{closed_curve(rim_beside())}" fill="none" stroke="{outline}" stroke-width="1.1"/>'
        f'<circle {eye} r="5.2" fill="{as_hex(coat.eye)}" stroke="{halo}" stroke-width="1"/>'
        f'<ellipse {eye} rx="1.7" ry="3.9" fill="{as_hex(coat.pupil)}"/>'
        f'<circle cx="{x0 + 25.4:g}" cy="{y0 - 8:g}" r="1" fill="#fff" fill-opacity=".8"/></g>'
    )


def _placed(points: Iterable[Point]) -> list[Point]:
    return [(BESIDE[0] + x, BESIDE[1] + y) for x, y in points]


def _mirrored(origin: Point, half: Sequence[Point]) -> list[Point]:
    upper = [(origin[0] + x, origin[1] - y) for x, y in half]
    return upper + [(origin[0] + x, origin[1] + y) for x, y in reversed(half)]


def _shape(points: list[Point], fill: Colour, opacity: float = 1.0, rim: str = "") -> str:
    more = f' fill-opacity="{opacity:.2f}"' if opacity < 1 else ""
    if rim:
        more += f' stroke="{rim}" stroke-width="1.4"'
    return f'<path d="{closed_curve(points)}" fill="{as_hex(fill)}"{more}/>'


def _stripe_above(wide: float, joined: float, side: int) -> list[Point]:
    outer = [(3, 7), (14, 15), (26, 20), (42, 27), (58, 33), (72, 33), (82, 25), (92, between(19, 9, joined))]
    depth = (2.2, 4.2, 5.2, 6.2, 8.2, 10.5, 9.5, 7.0)
    inner = [(x + 1, y - d * wide) for (x, y), d in zip(outer, depth, strict=True)]
    tip = (between(100, 97, joined), between(17, -2.5, joined))
    return [(ABOVE[0] + x, ABOVE[1] + side * y) for x, y in [*outer, tip, *reversed(inner)]]
