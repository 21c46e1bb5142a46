"""What a keeper wants to see: a taste, and how well a look meets it."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..catalogue import Quality

__all__ = ["DEFAULT_TASTE", "TASTES", "Taste", "checked_taste", "leaning", "score"]

Taste = Mapping[str, int]
"""Name of a wish -> how much it counts, from -2 (avoid) over 0 (no matter) to 2 (want it most)."""

TASTES: Mapping[str, Mapping[Quality, Fraction]] = {
    "reduced pattern": {"pattern": Fraction(-1)},
    "bright": {"brightness": Fraction(1)},
    "high contrast": {"contrast": Fraction(1)},
    "clean": {"clean": Fraction(1)},
    "orange": {"yellow": Fraction(1, 2), "red": Fraction(1, 2)},
    "blushing": {"blush": Fraction(1)},
    "whole dorsal line": {"dorsal": Fraction(1)},
    "banding": {"banding": Fraction(1)},
    "white": {"white": Fraction(1)},
}
"""Wish -> the qualities it is read from; each has the scale of the qualities, -3 to 3."""

DEFAULT_TASTE: Taste = {
    **dict.fromkeys(("reduced pattern", "bright", "high contrast", "clean", "orange", "blushing"), 1),
    **dict.fromkeys(("whole dorsal line", "banding", "white"), 0),
}


def checked_taste(taste: Taste | None) -> dict[str, int]:
    """The taste with every wish named; those left out do not matter. None is the default taste.

    Raises ValueError for a wish that is not known and for a weight that is not a whole number from -2 to 2.
    """
    if taste is None:
        return dict(DEFAULT_TASTE)
    for wish, weight in taste.items():
        if wish not in TASTES:
            raise ValueError(f"no wish is called {wish!r}; the wishes are {', '.join(TASTES)}")
        if not isinstance(weight, int) or not -2 <= weight <= 2:
            raise ValueError(f"{wish}: a whole number from -2 to 2 is needed, found {weight!r}")
    return {wish: taste.get(wish, 0) for wish in TASTES}


def leaning(wish: str, values: Mapping[Quality, int | Fraction | None]) -> Fraction:
    """How far these values go towards a wish, -3 to 3. What is not established counts nothing."""
    (quality, share), *more = TASTES[wish].items()
    found = Fraction(share * (values.get(quality) or 0))
    return found + sum(share * (values.get(quality) or 0) for quality, share in more) if more else found


def score(values: Mapping[Quality, int | Fraction | None], taste: Taste) -> Fraction:
    """How well a look meets a taste: the weighted mean of what its wishes get, -3 to 3; wild type has 0."""
    total = sum(abs(weight) for weight in taste.values())
    got = sum((weight * leaning(wish, values) for wish, weight in taste.items() if weight), Fraction(0))
    return got / total if total else Fraction(0)
