"""Breeding seasons, each numbered by the year it starts in."""

from __future__ import annotations

from calendar import monthrange
from datetime import date, timedelta

from .care import Husbandry

__all__ = ["first_season", "season_dates", "season_name", "season_of_hatch", "season_year"]

PAIRING_TO_HATCHING = timedelta(days=105)
"""The least from the start of pairing to hatching: 50 days or so to laying and 55 in the incubator."""


def season_dates(start_year: int, care: Husbandry) -> tuple[date, date]:
    """First and last day of the season that starts in this year."""
    end_year = start_year + (care.season_last_month < care.season_first_month)
    last_day = monthrange(end_year, care.season_last_month)[1]
    return date(start_year, care.season_first_month, 1), date(end_year, care.season_last_month, last_day)


def season_year(day: date, care: Husbandry) -> int:
    """The season begun last by this day, whether it is still on or over."""
    return day.year if season_dates(day.year, care)[0] <= day else day.year - 1


def first_season(today: date, care: Husbandry) -> int:
    """The first season that is not over at `today`: season 1 of a plan."""
    year = season_year(today, care)
    return year if today <= season_dates(year, care)[1] else year + 1


def season_of_hatch(hatched: date, care: Husbandry) -> int:
    """The season whose pairing an animal comes from: the one begun last by 105 days before it hatched."""
    return season_year(hatched - PAIRING_TO_HATCHING, care)


def season_name(start_year: int, care: Husbandry | None = None) -> str:
    """2026 as "2026/27", or "2026" if the season lies inside one year."""
    if care is not None and season_dates(start_year, care)[1].year == start_year:
        return str(start_year)
    return f"{start_year}/{(start_year + 1) % 100:02d}"
