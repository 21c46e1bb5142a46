"""What gene forms hide of one another, and what is left to see of several together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ..catalogue import QUALITIES, Cover, Quality
from .layers import Layer

__all__ = ["Hiding", "combined", "hidings", "seen_beside"]

PLUS, MINUS, BOTH = 1, -1, 0

HIDES: Mapping[Cover, Mapping[Quality, int]] = {
    "all": dict.fromkeys(QUALITIES, BOTH),
    "pattern": dict.fromkeys(("pattern", "dorsal", "rear", "banding", "flank", "dots", "floating"), BOTH),
    "banding": {"banding": PLUS},
    "black": {"black": BOTH, "brightness": MINUS, "headstamp": MINUS, "contrast": PLUS},
    "yellow": {"yellow": PLUS, "red": PLUS},
    "flank blush": {"blush": PLUS},
}
"""Cover -> quality -> which side of it is hidden in other genes."""

LEFT: Mapping[Cover, Fraction] = {"flank blush": Fraction(1, 3)}
"""The share that is still seen of what is covered; nothing where no share is given."""


@dataclass(frozen=True)
class Hiding:
    """`over` covers something of `under`; `lost`: the qualities of which half a step or more can no longer be seen."""

    over: Layer
    under: Layer
    cover: Cover
    lost: tuple[Quality, ...]


def hidings(layers: Sequence[Layer]) -> tuple[Hiding, ...]:
    """Everything that is covered in this company. A form that covers all hides others even if it takes nothing away."""
    found = []
    for over in layers:
        for cover in over.covers:
            for under in layers:
                if under is over or "all" in under.covers:
                    continue
                lost = tuple(
                    quality
                    for quality, value in under.values.items()
                    if abs(value) * (1 - _left(cover, quality, value)) >= Fraction(1, 2)
                )
                if lost or cover == "all":
                    found.append(Hiding(over, under, cover, lost))
    return tuple(found)


def seen_beside(under: Layer, over: Layer) -> Mapping[Quality, int | Fraction]:
    """What is left to see of one form's values beside another form."""
    if not over.covers:
        return under.values
    return {
        quality: value * min((_left(cover, quality, value) for cover in over.covers), default=Fraction(1))
        for quality, value in under.values.items()
    }


def combined(layers: Sequence[Layer], wanted: Iterable[Quality] = QUALITIES) -> dict[Quality, Fraction | None]:
    """Quality -> what is seen of all forms together, from -3 to 3; None if not established for the forms that show.

    Values of one direction saturate: each takes its share of what the others leave of the scale, so 2 and 2 give
    3 - 1/3, and no order matters. Opposite directions are combined apart and then set against each other.
    """
    if any("all" in layer.covers for layer in layers):
        layers = [layer for layer in layers if "all" in layer.covers]
    covers = [(layer, cover) for layer in layers for cover in layer.covers if cover != "all"]
    return {quality: _quality(quality, layers, covers) for quality in wanted}


def _quality(quality: Quality, layers: Sequence[Layer], covers: Sequence[tuple[Layer, Cover]]) -> Fraction | None:
    values = [(layer, value) for layer in layers if (value := _value(layer, quality)) is not None]
    if layers and not values:
        return None
    up, down, scale = 1, 1, 1  # whole numbers where nothing is covered: much faster than fractions
    for layer, value in values:
        shares = [_left(cover, quality, value) for over, cover in covers if over is not layer]
        seen: Any = value * min(shares) if shares else value
        if seen:
            scale *= 3
            up, down = up * (3 - max(seen, 0)), down * (3 + min(seen, 0))
    return Fraction(down - up) * 3 / scale


def _value(layer: Layer, quality: Quality) -> int | None:
    value = layer.values.get(quality)
    return layer.values.get("dorsal") if value is None and quality == "rear" else value


def _left(cover: Cover, quality: Quality, value: int) -> Fraction:
    side = HIDES[cover].get(quality)
    return LEFT.get(cover, Fraction(0)) if side is not None and side * value >= 0 else Fraction(1)
