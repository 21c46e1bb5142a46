"""How fast an animal grows, and when it should weigh enough."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import permutations
from statistics import median

import pytest

from explorer.collection import Animal, Collection, Weighing
from explorer.husbandry import Husbandry, monthly_gain
from explorer.husbandry.growth import growth_of, latest_weighing

CARE = Husbandry()
TODAY = date(2026, 11, 25)
MONTH = 30.4375


def history(*readings: tuple[str, float]) -> tuple[Weighing, ...]:
    return tuple(Weighing(grams, date.fromisoformat(day)) for day, grams in readings)


def straight(grams: float, rate: float, months: int, until: date = TODAY) -> tuple[Weighing, ...]:
    """A weighing a month until a day, at an even rate; `grams` is the last."""
    days = [until - timedelta(days=round(MONTH * ago)) for ago in range(months, -1, -1)]
    return tuple(Weighing(grams - rate * (until - day).days / MONTH, day) for day in days)


def female(hatched: str = "2023-07-01") -> Animal:
    return Collection.from_text(f"id,sex,genes,hatched\nF01,f,Pastel,{hatched}\n")["F01"]


def test_rate__is_none_without_two_weighings_far_enough_apart() -> None:
    assert monthly_gain((), CARE, TODAY) is None
    assert monthly_gain(history(("2026-11-01", 1300)), CARE, TODAY) is None
    assert monthly_gain(history(("2026-09-03", 1200), ("2026-11-01", 1300)), CARE, TODAY) is None
    enough = history(("2026-09-02", 1200), ("2026-11-01", 1300))
    assert monthly_gain(enough, CARE, TODAY) == pytest.approx(100 / 60 * MONTH)
    assert monthly_gain((*history(("2026-09-02", 1200)), Weighing(1300, None)), CARE, TODAY) is None


def test_rate__of_even_growth_is_that_growth() -> None:
    for rate in (45, -20, 0):
        assert monthly_gain(straight(1300, rate, 11), CARE, TODAY) == pytest.approx(rate, abs=1e-9)


def test_rate__one_bad_reading_or_a_month_without_meals_moves_it_little() -> None:
    even = list(straight(1300, 45, 11))
    slip = [*even[:5], Weighing(130, even[5].on), *even[6:]]
    assert monthly_gain(tuple(slip), CARE, TODAY) == pytest.approx(45, abs=6)
    fast = [Weighing(one.grams - 60, one.on) if i == 6 else one for i, one in enumerate(even)]
    assert monthly_gain(tuple(fast), CARE, TODAY) == pytest.approx(45, abs=2)


def test_rate__agrees_with_a_slow_count_in_any_order() -> None:
    readings = history(("2026-01-10", 900), ("2026-03-20", 1010), ("2026-06-30", 1090), ("2026-11-02", 1320))
    slopes = []
    for i, before in enumerate(readings):
        for after in readings[i + 1 :]:
            assert before.on and after.on
            slopes.append((after.grams - before.grams) / (after.on - before.on).days * MONTH)
    for order in permutations(readings):
        assert monthly_gain(order, CARE, TODAY) == pytest.approx(median(slopes))


def test_rate__is_of_the_last_year() -> None:
    young = history(("2024-11-01", 300), ("2025-05-01", 900), ("2025-11-03", 1200), ("2026-11-02", 1320))
    assert monthly_gain(young, CARE, TODAY) == pytest.approx(120 / 364 * MONTH)


def test_rate__takes_one_weighing_from_before_if_the_last_year_has_too_few() -> None:
    seldom = history(("2023-10-01", 300), ("2025-06-01", 1000), ("2026-11-02", 1320))
    assert monthly_gain(seldom, CARE, TODAY) == pytest.approx(320 / 519 * MONTH)


def test_rate__later_days_do_not_count() -> None:
    readings = history(("2026-06-01", 1100), ("2026-11-02", 1320), ("2027-03-01", 1600))
    assert monthly_gain(readings, CARE, TODAY) == pytest.approx(220 / 154 * MONTH)


def test_rate__a_clutch_begins_the_count_anew() -> None:
    readings = history(("2026-01-10", 1650), ("2026-04-20", 1150), ("2026-07-20", 1300), ("2026-10-20", 1450))
    assert monthly_gain(readings, CARE, TODAY, since=date(2026, 4, 12)) == pytest.approx(49.9, abs=0.2)
    assert (monthly_gain(readings, CARE, TODAY) or 0) < 20


def test_rate__over_a_leap_day() -> None:
    readings = history(("2028-01-31", 1000), ("2028-03-31", 1060))
    assert monthly_gain(readings, CARE, date(2028, 4, 1)) == pytest.approx(MONTH)
    assert monthly_gain(history(("2027-01-31", 1000), ("2027-03-31", 1060)), CARE, date(2028, 4, 1)) is None


def test_weight_now__is_the_last_by_today() -> None:
    readings = history(("2026-06-01", 1100), ("2026-11-02", 1320), ("2027-03-01", 1600))
    assert latest_weighing(readings, TODAY) == readings[1]
    assert latest_weighing(readings, date(2026, 1, 1)) == readings[0]
    assert latest_weighing((*readings, Weighing(900, None)), TODAY) == Weighing(900, None)
    assert latest_weighing((), TODAY) is None


def expected(weighings: tuple[Weighing, ...], animal: Animal | None = None) -> tuple[str, str]:
    found = growth_of(animal or female(), weighings, 1500, CARE, TODAY, None)
    return str(found.expected or found.why_not), found.basis


def test_forecast__by_its_own_rate() -> None:
    assert expected(history(("2026-05-04", 1050), ("2026-11-02", 1320))) == ("2027-03-04", "own records")


def test_forecast__by_the_catalogue_without_a_rate() -> None:
    assert expected(history(("2026-11-02", 1320))) == ("2026-03-01", "catalogue")
    assert expected(history(("2026-11-02", 1320)), female("")) == ("", "")


@pytest.mark.parametrize(
    ("last", "why"),
    [(1320, "it loses 15 g a month"), (1410, "it gains nothing"), (1414, "it gains nothing")],
)
def test_forecast__of_an_animal_that_does_not_gain_is_none(last: float, why: str) -> None:
    assert expected(history(("2026-05-04", 1410), ("2026-11-02", last))) == (why, "")


def test_forecast__of_an_animal_that_gains_too_little_is_none() -> None:
    assert expected(history(("2026-05-04", 1000), ("2026-11-02", 1030))) == ("at 5 g a month not within 4 years", "")


def test_forecast__a_fast_growers_rate_is_trusted_for_a_year_and_the_usual_one_after() -> None:
    """60 g a month for twelve months leave 280 g of 1,000; the usual 1,500 g in 32 months are 46.9 g a month."""
    growing = straight(500, 60, 6, until=date(2026, 11, 2))
    day, basis = expected(growing, female("2025-08-01"))
    months = 12 + (1000 - 720) / (1500 / 32)
    assert basis == "own records"
    assert abs((date.fromisoformat(day) - date(2026, 11, 2)).days - months * MONTH) <= 1
    linear = date(2026, 11, 2) + timedelta(days=1000 / 60 * MONTH)
    assert date.fromisoformat(day) > linear


def test_forecast__a_slow_growers_rate_is_kept() -> None:
    day, basis = expected(straight(900, 20, 6, until=date(2026, 11, 2)))
    assert basis == "own records"
    assert abs((date.fromisoformat(day) - date(2026, 11, 2)).days - 30 * MONTH) <= 1


def test_forecast__a_hatchlings_rate_tells_a_year_ahead_at_most() -> None:
    slow = straight(200, 25, 3, until=date(2026, 11, 2))
    assert expected(slow, female("2026-07-01")) == ("2029-03-01", "catalogue")
    male = Collection.from_text("id,sex,genes,hatched\nM01,m,Pastel,2026-03-01\n")["M01"]
    found = growth_of(male, straight(300, 40, 3, until=date(2026, 11, 2)), 500, CARE, TODAY, None)
    assert (found.basis, found.expected) == ("own records", date(2027, 4, 4))
