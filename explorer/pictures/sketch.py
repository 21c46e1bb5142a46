"""A drawing of what an animal may look like: head from above and from the side, and a length of rolled-out skin."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from hashlib import sha256
from html import escape
from math import isfinite

from ..catalogue import QUALITIES
from .sketch_body import body
from .sketch_colours import INK, PLATE, Coat, as_hex, coat, mixed
from .sketch_head import head_from_above, head_from_side, rim_above, rim_beside
from .sketch_lines import closed_curve, share
from .sketch_skin import HALF, MIDDLE, outline

__all__ = ["draw"]

WIDTH, HEIGHT = 520, 200
LABEL = "schematic: animals vary"


def draw(
    values: Mapping[str, float],
    *,
    title: str,
    description: str,
    seed: int = 0,
    covered: Collection[str] = (),
    place: str = "",
    note: str = "",
) -> str:
    """One standalone SVG picture as text; the same arguments give the same text.

    values: quality -> -3 to 3 against wild type; a quality left out is 0, `rear` left out is as `dorsal`, and a number
    beyond the scale is drawn as its end. title, description: the text alternative. seed: chooses among clutch mates.
    covered: with "all" a white of 3 leaves no patterned islands; what else is covered must be in the values already.
    note: a remark inside the picture, such as what could not be drawn. place: tells it from the same drawing elsewhere
    on a page, where ids must differ.
    ValueError: a name that is no quality, or a value that is not finite.
    """
    full = _complete(values)
    bare = 0.95 * share((full["white"] - 1) / 1.8) if "all" in covered else 0.0
    colours = coat(full, bare)
    told = repr((sorted(full.items()), title, description, seed, bare, place, note))
    own = "s" + sha256(told.encode()).hexdigest()[:12]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" width="100%" role="img"'
        f' aria-labelledby="{own}-title {own}-desc"><title id="{own}-title">{escape(title)}</title>'
        f'<desc id="{own}-desc">{escape(description)}</desc><defs>{_paints(colours, own)}{_clips(own)}</defs>'
        f'<rect width="{WIDTH}" height="{HEIGHT}" rx="8" fill="{PLATE}"/>'
        f"{head_from_above(full, colours, f'{own}-above', bare)}{head_from_side(full, colours, f'{own}-beside', bare)}"
        f"{body(full, colours, own, seed, bare)}"
        f'<text x="{WIDTH - 12}" y="{HEIGHT - 9}" text-anchor="end" font-family="sans-serif" font-size="13"'
        f' fill="{INK}">{LABEL}</text>{_remark(note)}</svg>'
    )


def _remark(note: str) -> str:
    if not note:
        return ""
    return f'<text x="12" y="{HEIGHT - 9}" font-family="sans-serif" font-size="13" fill="{INK}">{escape(note)}</text>'


def _complete(values: Mapping[str, float]) -> dict[str, float]:
    unknown = sorted(set(values) - set(QUALITIES))
    if unknown:
        raise ValueError(f"no such quality: {', '.join(unknown)}; there are {', '.join(QUALITIES)}")
    wrong = sorted(name for name, value in values.items() if not isfinite(value))
    if wrong:
        raise ValueError(f"not a finite number: {', '.join(wrong)}; needed are numbers from -3 to 3")
    full: dict[str, float] = {name: min(3.0, max(-3.0, float(values.get(name, 0.0)))) for name in QUALITIES}
    return full if "rear" in values else {**full, "rear": full["dorsal"]}


def _paints(colours: Coat, own: str) -> str:
    """The field from rim to rim, the fading of soft patches, and the scales."""
    half = [(0.0, colours.belly), (0.16, colours.flank), (0.36, colours.field), (0.5, colours.saddle)]
    stops = half + [(1 - where, colour) for where, colour in half[-2::-1]]
    soft, line = as_hex(mixed(colours.field, colours.saddle, 0.5)), as_hex(colours.outline)
    return (
        f'<linearGradient id="{own}-field" gradientUnits="userSpaceOnUse" x1="0" y1="{MIDDLE - HALF:g}" x2="0"'
        f' y2="{MIDDLE + HALF:g}">'
        + "".join(f'<stop offset="{where:g}" stop-color="{as_hex(colour)}"/>' for where, colour in stops)
        + f'</linearGradient><radialGradient id="{own}-soft"><stop stop-color="{soft}"/>'
        f'<stop offset=".45" stop-color="{soft}" stop-opacity=".75"/>'
        f'<stop offset="1" stop-color="{soft}" stop-opacity="0"/></radialGradient>'
        f'<pattern id="{own}-scales" width="7" height="5" patternUnits="userSpaceOnUse"><path fill="none"'
        f' d="M0 2.5L3.5 0L7 2.5L3.5 5Z" stroke="{line}" stroke-opacity=".16" stroke-width=".5"/></pattern>'
    )


def _clips(own: str) -> str:
    rims = {"skin": outline(), "above": rim_above(), "beside": rim_beside()}
    return "".join(
        f'<clipPath id="{own}-{name}"><path d="{closed_curve(rim)}"/></clipPath>' for name, rim in rims.items()
    )
