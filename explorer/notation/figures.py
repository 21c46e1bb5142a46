"""Percentages as they are written, and the fractions they stand for."""

from __future__ import annotations

import re
from decimal import ROUND_DOWN, ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

__all__ = ["DIGITS", "TINY", "TINY_TEXT", "figure", "percent"]

DIGITS = 6
"""Most significant digits of a percentage, read or written."""

TINY, TINY_TEXT = Fraction(1, 300_000), "under 0.001%"
"""How a chance below 1 in 100,000 is written if it has no short figure, and what that is read as."""

_ROUNDED = {66: Fraction(2, 3), 67: Fraction(2, 3), 33: Fraction(1, 3), 57: Fraction(4, 7), 17: Fraction(1, 6)}
"""Percentages that are always meant as a fraction of a cross."""

_WRITTEN = {Fraction(2, 3): "66", Fraction(1, 3): "33", Fraction(4, 7): "57", Fraction(1, 6): "17"}


def figure(number: str) -> Fraction | None:
    """The chance that a percentage, given without its sign, stands for: 66 is 2/3, 12.5 is 1/8.

    May lie above 1. None if the text is not a number of at most `DIGITS` significant digits.
    """
    if len(number) > 400 or not re.fullmatch(r"[0-9]+(\.[0-9]+)?|\.[0-9]+", number):
        return None
    if len(number.replace(".", "").lstrip("0")) > DIGITS:
        return None
    value = Fraction(number)
    return _ROUNDED.get(int(value), value / 100) if value.denominator == 1 else value / 100


def percent(chance: Fraction, *, down: bool = False) -> str:
    """The chance as a percentage: 2/3 is "66%", 1/8 is "12.5%", 1/7 is "14.3%".

    Exact if `DIGITS` digits are enough, else rounded to three (`down`: never upward), and "under 0.001%" if it is less
    than that. A chance between 0 and 1 is never written as 0 or 100.
    """
    if chance in _WRITTEN:
        return f"{_WRITTEN[chance]}%"
    top, bottom = Decimal(chance.numerator * 100), Decimal(chance.denominator)
    value = Context(prec=DIGITS).divide(top, bottom)
    if Fraction(value) != chance * 100:
        if chance < Fraction(1, 100_000):
            return TINY_TEXT
        value = Context(prec=3, rounding=ROUND_DOWN if down else ROUND_HALF_EVEN).divide(top, bottom)
        if value >= 100 > chance * 100:
            value = Context(prec=3, rounding=ROUND_DOWN).divide(top, bottom)
    text = f"{value:f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text}%"
