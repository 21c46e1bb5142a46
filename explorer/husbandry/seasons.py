"""Breeding seasons, each numbered by the year it starts in."""

from __future__ import annotations

from calendar import monthrange
from datetime import date, timedelta

from .care import Husbandry

__all__ = ["first_season", "season_name", "season_of_hatch", "season_of_laying", "season_span", "season_year"]

TO_LAYING = ("introduction_to_ovulation_days_low", "ovulation_to_laying_days_low")
TO_HATCHING = (*TO_LAYING, "laying_to_hatching_days_low")
"""The catalogue's figures for the least days from the first introduction."""


def season_span(start_year: int, care: Husbandry) -> tuple[date, date]:
    """First and last day of the season that starts in this year."""
    end_year = start_year + (care.season_last_month < care.season_first_month)
    last_day = monthrange(end_year, care.season_last_month)[1]
    return date(start_year, care.season_first_month, 1), date(end_year, care.season_last_month, last_day)


def season_year(day: date, care: Husbandry) -> int:
    """The season begun last by this day, whether it is still on or over."""
    return day.year if season_span(day.year, care)[0] <= day else day.year - 1


def first_season(today: date, care: Husbandry) -> int:
    """The first season that is not over at `today`: season 1 of a plan."""
    year = season_year(today, care)
    return year if today <= season_span(year, care)[1] else year + 1


def season_of_hatch(hatched: date, care: Husbandry) -> int:
    """The season whose pairing an animal comes from: the one begun last by the least days from pairing to hatching
    (105) before it hatched."""
    return season_year(hatched - _days(TO_HATCHING, care), care)


def season_of_laying(laid: date, care: Husbandry) -> int:
    """The season whose pairing a clutch comes from: the one begun last by the least days from pairing to laying (50)
    before it was laid."""
    return season_year(laid - _days(TO_LAYING, care), care)


def season_name(start_year: int, care: Husbandry | None = None) -> str:
    """2026 as "2026/27", or "2026" if the season lies inside one year."""
    if care is not None and season_span(start_year, care)[1].year == start_year:
        return str(start_year)
    return f"{start_year}/{(start_year + 1) % 100:02d}"


def _days(figures: tuple[str, ...], care: Husbandry) -> timedelta:
    return timedelta(days=sum(care.figure(name) for name in figures))
