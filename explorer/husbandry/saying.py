"""Weights, days and seasons in words. A weight is never rounded up, a need never down."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from fractions import Fraction
from math import ceil, floor

from ..collection import Weighing
from ..genetics import exact
from .care import Husbandry
from .seasons import season_name

__all__ = ["day_in_words", "day_words", "grams", "season_words", "weight_remarks"]

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
YEAR = timedelta(days=365)
LOSS = Fraction(1, 10)
"""The share of its weight that an animal has to lose to be remarked on; less comes and goes with meals and sheds."""

NEAR = ("this season", "next season", "the season after next")


def grams(weight: float | Fraction, *, needed: bool = False) -> str:
    """ "1,320 g", or "1,499.9 g" with a tenth where there is one; less than a tenth is left off. needed: it is a least
    weight, and what is less than a tenth is rounded up."""
    tenths = exact(weight) * 10
    whole, rest = divmod(ceil(tenths) if needed else floor(tenths), 10)
    return f"{whole:,}.{rest} g" if rest else f"{whole:,} g"


def day_in_words(day: date) -> str:
    """ "9 May", without its year."""
    return f"{day.day} {MONTHS[day.month - 1]}"


def day_words(day: date, today: date) -> str:
    """ "2 Nov", with its year unless it is within the year before today or the half year after."""
    near = -180 < (today - day).days < 365
    return day_in_words(day) + ("" if near else f" {day.year}")


def season_words(start_year: int, first: int, care: Husbandry) -> str:
    """A season as it is said in the season that starts in `first`: "next season", "season 2029/30"."""
    ahead = start_year - first
    return NEAR[ahead] if 0 <= ahead < len(NEAR) else f"season {season_name(start_year, care)}"


def weight_remarks(
    weighings: Sequence[Weighing], now: Weighing | None, today: date, since: date | None
) -> tuple[str, ...]:
    """What speaks against the weight that counts at `today`: a day to come, no day at all, a loss within a year.

    since: earlier weighings say nothing against it, such as those from before a clutch.
    """
    if now is None:
        return ()
    if now.on is not None and now.on > today:
        return (f"{grams(now.grams)} is written of {now.on}, which is still to come",)
    before = [(one.on, one.grams) for one in weighings if one.on and one.on <= today and (not since or one.on > since)]
    if now.on is None:
        last = max(before, default=None)
        if last is None or last[1] == now.grams:
            return ()
        return (f"{grams(now.grams)} has no day and counts as current, not {grams(last[1])} of {last[0]}",)
    earlier = [(weight, day) for day, weight in before if now.on - YEAR <= day < now.on]
    most, day = max(earlier, default=(now.grams, now.on))
    if exact(now.grams) >= (1 - LOSS) * exact(most):
        return ()
    return (f"{grams(now.grams)} now, and {grams(most)} on {day}: it has lost weight",)
