"""An animal's weighings in order of time, those of the weights file and the one that the collection itself holds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from math import floor

from ..genetics import exact

__all__ = ["Weighing", "in_order", "weight_text"]

FINEST = 1000
"""Parts of a gram that are written down; what is finer is left off, never rounded up."""


@dataclass(frozen=True)
class Weighing:
    """One weighing. on: None if no day is written, which counts as current. row: its line in the weights file, 0 if it
    is the collection's own."""

    grams: float
    on: date | None
    notes: str = ""
    row: int = 0


def in_order(written: Iterable[Weighing], grams: float | None, on: date | None) -> tuple[Weighing, ...]:
    """All weighings of one animal, the earliest first and one without a day last.

    grams, on: what the collection holds. It is one more weighing, and stands in for one of the same day.
    """
    dated = {one.on: one for one in written}
    found = sorted((one for one in dated.values() if one.on is not None), key=lambda one: one.on or date.min)
    if grams is None or (on is None and found and found[-1].grams == grams):
        return tuple(found)
    if on is None:
        return (*found, Weighing(grams, None))
    if on in dated:
        return tuple(replace(one, grams=grams) if one.on == on else one for one in found)
    return tuple(sorted((*found, Weighing(grams, on)), key=lambda one: one.on or date.min))


def weight_text(grams: float | Fraction) -> str:
    """A weight as it is written: 1320, 1499.9. Never more than it is. What is no weight is written as it stands."""
    try:
        parts = floor(exact(grams) * FINEST)
    except ValueError:
        return str(grams)
    whole, rest = divmod(parts, FINEST)
    return f"{whole}.{rest:03d}".rstrip("0").rstrip(".") if parts > 0 else str(grams)
