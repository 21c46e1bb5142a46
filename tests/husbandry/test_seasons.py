"""Seasons are numbered by the year they start in."""

from __future__ import annotations

from datetime import date

import pytest

from explorer.husbandry import (
    Husbandry,
    first_season,
    season_name,
    season_of_hatch,
    season_of_laying,
    season_span,
    season_year,
)

NORTH = Husbandry()
SOUTH = Husbandry(season_first_month=5, season_last_month=9)
LATE = Husbandry(season_first_month=2, season_last_month=2)
ALL_YEAR = Husbandry(season_first_month=10, season_last_month=9)


@pytest.mark.parametrize(
    ("care", "today", "year"),
    [
        (NORTH, date(2026, 11, 25), 2026),
        (NORTH, date(2026, 11, 1), 2026),
        (NORTH, date(2026, 10, 31), 2026),
        (NORTH, date(2026, 4, 1), 2026),
        (NORTH, date(2026, 3, 31), 2025),
        (NORTH, date(2026, 1, 1), 2025),
        (SOUTH, date(2026, 5, 1), 2026),
        (SOUTH, date(2026, 9, 30), 2026),
        (SOUTH, date(2026, 10, 1), 2027),
        (SOUTH, date(2026, 1, 1), 2026),
        (LATE, date(2024, 2, 29), 2024),
        (LATE, date(2024, 3, 1), 2025),
        (ALL_YEAR, date(2026, 9, 30), 2025),
        (ALL_YEAR, date(2026, 10, 1), 2026),
    ],
)
def test_the_first_season_is_the_first_not_over(care: Husbandry, today: date, year: int) -> None:
    assert first_season(today, care) == year


def test_days_of_a_season() -> None:
    assert season_span(2026, NORTH) == (date(2026, 11, 1), date(2027, 3, 31))
    assert season_span(2026, SOUTH) == (date(2026, 5, 1), date(2026, 9, 30))
    assert season_span(2024, LATE) == (date(2024, 2, 1), date(2024, 2, 29))
    assert season_span(2026, ALL_YEAR) == (date(2026, 10, 1), date(2027, 9, 30))


def test_names() -> None:
    assert season_name(2026) == season_name(2026, NORTH) == "2026/27"
    assert season_name(1999) == "1999/00"
    assert season_name(2026, SOUTH) == "2026"


def test_the_season_begun_last() -> None:
    assert season_year(date(2026, 7, 1), NORTH) == 2025
    assert season_year(date(2026, 7, 1), SOUTH) == 2026
    assert season_year(date(2026, 4, 30), SOUTH) == 2025


@pytest.mark.parametrize(
    ("care", "hatched", "year"),
    [
        (NORTH, date(2024, 7, 14), 2023),
        (NORTH, date(2024, 12, 31), 2023),
        (NORTH, date(2025, 2, 13), 2023),
        (NORTH, date(2025, 2, 14), 2024),
        (SOUTH, date(2026, 12, 20), 2026),
        (SOUTH, date(2026, 6, 1), 2025),
    ],
)
def test_the_season_a_hatchling_comes_from(care: Husbandry, hatched: date, year: int) -> None:
    assert season_of_hatch(hatched, care) == year


@pytest.mark.parametrize(
    ("care", "laid", "year"),
    [
        (NORTH, date(2027, 4, 10), 2026),
        (NORTH, date(2026, 12, 20), 2025),
        (NORTH, date(2026, 12, 21), 2026),
        (SOUTH, date(2026, 10, 10), 2026),
        (SOUTH, date(2027, 1, 2), 2026),
        (LATE, date(2024, 3, 22), 2024),
        (LATE, date(2024, 3, 21), 2023),
    ],
)
def test_the_season_a_clutch_comes_from(care: Husbandry, laid: date, year: int) -> None:
    """50 days at the least from the first introduction to laying."""
    assert season_of_laying(laid, care) == year
