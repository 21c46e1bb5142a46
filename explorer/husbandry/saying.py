"""Weights, days and seasons in words. A weight is never rounded up, a need never down."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from math import ceil, floor

from ..genetics import exact
from .care import Husbandry
from .seasons import season_name

__all__ = ["day_words", "grams", "season_words"]

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
NEAR = ("this season", "next season", "the season after next")


def grams(weight: float | Fraction, *, needed: bool = False) -> str:
    """ "1,320 g", or "1,499.9 g" with a tenth where there is one; less than a tenth is left off. needed: it is a least
    weight, and what is less than a tenth is rounded up."""
    tenths = exact(weight) * 10
    whole, rest = divmod(ceil(tenths) if needed else floor(tenths), 10)
    return f"{whole:,}.{rest} g" if rest else f"{whole:,} g"


def day_words(day: date, today: date) -> str:
    """ "2 Nov", with its year unless it is within the year before today or the half year after."""
    near = -180 < (today - day).days < 365
    return f"{day.day} {MONTHS[day.month - 1]}" + ("" if near else f" {day.year}")


def season_words(start_year: int, first: int, care: Husbandry) -> str:
    """A season as it is said in the season that starts in `first`: "next season", "season 2029/30"."""
    ahead = start_year - first
    return NEAR[ahead] if 0 <= ahead < len(NEAR) else f"season {season_name(start_year, care)}"
