"""Shades of numbers beside one another: the more, the darker, on the one ramp, with an ink that can be read on it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from .palette import PAPER, nearness_shade

__all__ = ["Tint", "tint", "tints"]

Tint = tuple[str, str]
"""Colours of a cell as #rrggbb: of its paper, of its ink."""

BLACK, WHITE = "#000000", "#ffffff"

EVEN = 0.179
"""The luminance at which black and white can be read equally well."""


def tint(value: Fraction | float, most: Fraction | float) -> Tint:
    """The shade of one number. most: the number of the darkest shade. 0 has no shade at all."""
    if value <= 0 or most <= 0:
        return PAPER, BLACK
    paper = nearness_shade(value / most)
    return paper, BLACK if _luminance(paper) > EVEN else WHITE


def tints(values: Sequence[Fraction | float]) -> list[Tint]:
    """The shades of numbers that are compared with one another; the largest is darkest."""
    most = max(values, default=0)
    return [tint(value, most) for value in values]


def _luminance(colour: str) -> float:
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = (part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))
