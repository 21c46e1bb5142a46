"""How fast an animal grows, by its own weighings or by the catalogue, and when it should have reached a weight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from itertools import combinations
from math import ceil
from statistics import median
from typing import Literal

from ..collection import Animal, Weighing
from ..genetics import exact
from .care import Husbandry

__all__ = ["Growth", "grown_on", "growth_of", "latest_weighing", "monthly_gain", "months_later"]

MONTH = Fraction(1461, 48)
"""Days in a month, on average."""

FLAT = 1
"""Grams a month: an animal that gains less is taken not to grow."""

FIRST_YEAR = 12
"""Months: how long an animal is too young for its own rate to tell far ahead."""

Basis = Literal["own records", "catalogue", ""]


@dataclass(frozen=True)
class Growth:
    """When an animal should reach the weight that it needs, and how that is known.

    expected: None if that cannot be said. rate: grams a month by its own weighings, None if they do not tell. basis:
    what the day is from, "" if there is none. why_not: why there is no day, in words.
    """

    expected: date | None
    rate: float | None
    basis: Basis
    why_not: str = ""


def latest_weighing(weighings: Sequence[Weighing], today: date) -> Weighing | None:
    """The weight that counts at `today`: one without a day, else the last by then, else the first after."""
    undated = [one for one in weighings if one.on is None]
    by_now = [one for one in weighings if one.on is not None and one.on <= today]
    if undated or by_now:
        return (undated or by_now)[-1]
    return weighings[0] if weighings else None


def monthly_gain(
    weighings: Sequence[Weighing], care: Husbandry, today: date, since: date | None = None
) -> float | None:
    """Grams a month: the median of the slopes between all weighings that lie far enough apart; None if none do.

    Those of the last year before the last weighing count, and the one before if they are too close together; an animal
    that is off its food for a month, or one bad reading, moves a median little. today: later ones do not count. since:
    earlier ones do not, such as those from before a clutch, which weighs a third of the female.
    """
    counted = [one for one in weighings if since is None or (one.on and one.on > since)]
    dated = sorted((one.on, one.grams) for one in counted if one.on and one.on <= today)
    if not dated:
        return None
    start = dated[-1][0] - timedelta(days=care.figure("weighings_recent_days"))
    recent = [one for one in dated if one[0] >= start]
    apart = timedelta(days=care.figure("weighings_apart_days"))
    if recent[-1][0] - recent[0][0] < apart and len(recent) < len(dated):
        recent = dated[-len(recent) - 1 :]
    slopes = [
        (after[1] - before[1]) / (after[0] - before[0]).days * float(MONTH)
        for before, after in combinations(recent, 2)
        if after[0] - before[0] >= apart
    ]
    return median(slopes) if slopes else None


def growth_of(
    animal: Animal, weighings: Sequence[Weighing], least: float, care: Husbandry, today: date, since: date | None
) -> Growth:
    """When an animal that is too light should weigh `least` grams.

    By its own rate, where its weighings tell one. A rate above the usual is trusted for a year ahead, and after that
    the usual one; an animal that gains nothing, or too little to get there within four years, has no day. In its first
    year its own rate counts only as far as a year ahead. Else by the catalogue: the usual months from hatching to that
    weight.
    """
    rate = monthly_gain(weighings, care, today, since)
    usual = grown_on(animal, care)
    by_catalogue = Growth(usual, rate, "catalogue" if usual else "")
    now = latest_weighing(weighings, today)
    if rate is None or now is None:
        return by_catalogue
    if rate < FLAT:
        lost = f"it loses {max(1, round(-rate))} g a month" if rate <= -FLAT else "it gains nothing"
        return Growth(None, rate, "", lost)
    day = now.on or today
    usual_rate = Fraction(exact(least), care.grown_months(animal.sex or ""))
    months = _months_to(exact(least) - exact(now.grams), rate, usual_rate, care)
    young = animal.hatched is not None and day < months_later(animal.hatched, FIRST_YEAR)
    if young and usual and (months is None or months > care.figure("growth_holds_months")):
        return by_catalogue
    if months is None:
        years = care.figure("growth_told_months") // 12
        return Growth(None, rate, "", f"at {rate:.0f} g a month not within {years} years")
    return Growth(day + timedelta(days=ceil(months * MONTH)), rate, "own records")


def grown_on(animal: Animal, care: Husbandry) -> date | None:
    """When an animal of its sex usually has the least weight to breed at; None without its hatch date or sex."""
    if animal.hatched is None or animal.sex is None:
        return None
    return months_later(animal.hatched, care.grown_months(animal.sex))


def months_later(day: date, months: int) -> date:
    """The same day so many months on, or the first of the next month if that month has no such day."""
    year, month = divmod(day.month - 1 + months, 12)
    try:
        return date(day.year + year, month + 1, day.day)
    except ValueError:
        return date(day.year + year + (month == 11), (month + 1) % 12 + 1, 1)


def _months_to(gain: Fraction, rate: float, usual: Fraction, care: Husbandry) -> Fraction | None:
    """The months until so many grams are gained; None if they are more than are told ahead.

    usual: grams a month that the catalogue has for the way up to the least weight.
    """
    own, holds = exact(rate), care.figure("growth_holds_months")
    months = max(gain, Fraction(0)) / own
    if months > holds and own > usual:
        months = holds + (gain - own * holds) / usual
    return months if months <= care.figure("growth_told_months") else None
