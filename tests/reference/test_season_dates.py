"""The season's dates agree with published figures, and with what keepers say where nothing is published.

Sources: ELL87 (abstract seen) and MOR11 (summary seen), as the catalogue cites them; BIO, a zoo's species page (seen).
Common practice has no source. The figures are written here anew.
"""

from __future__ import annotations

from datetime import date

import pytest

from explorer.husbandry import incubation, incubation_table, season_dates

LAID = date(2027, 4, 12)
OVULATED = date(2027, 2, 20)


def days(start: date, event: str, **given: object) -> tuple[int | None, int | None, int | None]:
    """Earliest, likely and latest of an event, in days after `start`."""
    row = season_dates(**given).set_index("event").loc[event]  # type: ignore[arg-type]
    windows = [row["earliest"], row["likely"], row["latest"]]
    earliest, likely, latest = (None if day is None else (day - start).days for day in windows)
    return earliest, likely, latest


def test_hatching__58_to_70_days_at_29_2_degrees() -> None:
    """Published: ELL87, incubation at 29.2 C."""
    assert days(LAID, "hatch", laid=LAID, incubation_c=29.2) == (58, 64, 70)


@pytest.mark.parametrize("celsius", [31, 31.4, 31.7])
def test_hatching__55_to_60_days_at_31_to_31_7_degrees(celsius: float) -> None:
    """Common practice, no source."""
    assert days(LAID, "hatch", laid=LAID, incubation_c=celsius) == (55, 58, 60)


@pytest.mark.parametrize("celsius", [31.4, 31.5, 31.7, 30.9, 31.0, 31.1])
def test_hatching__the_colonys_temperatures_raise_no_caution(celsius: float) -> None:
    """Published: MOR11, 31.4 to 31.7 C in 2002 to 2005 and 30.9 to 31.1 C in 2006 to 2009; days were not stated."""
    found = incubation(celsius)
    assert found.caution == ""
    assert found.low is not None and found.high is not None
    assert 54 <= found.low <= 55 and 60 <= found.high <= 61


def test_hatching__the_default_is_one_of_the_colonys_temperatures() -> None:
    """Published: MOR11, 31.4 to 31.7 C."""
    assert 31.4 <= incubation().celsius <= 31.7
    assert days(LAID, "hatch", laid=LAID) == (55, 58, 60)


def test_table__holds_the_published_temperatures() -> None:
    """Published: ELL87, 29.2 C; MOR11, 30.9 to 31.1 and 31.4 to 31.7 C. Common practice: 31 to 31.7, below 32.5 C."""
    table = incubation_table()
    spans = dict(zip(zip(table["celsius_low"], table["celsius_high"], strict=True), table["source"], strict=True))
    assert spans == {
        (29.2, 29.2): "published: ELL87",
        (30.9, 31.1): "published: MOR11",
        (31.0, 31.7): "common practice, no source",
        (31.4, 31.7): "published: MOR11",
        (32.5, 32.5): "common practice, no source",
    }
    stated = table.dropna(subset=["days_low"]).set_index("celsius_low")[["days_low", "days_high"]]
    assert stated.to_dict("index") == {29.2: {"days_low": 58, "days_high": 70}, 31.0: {"days_low": 55, "days_high": 60}}


def test_laying__overlaps_the_published_gestation() -> None:
    """Published: BIO, gestation of 44 to 54 days; it lies within the 40 to 55 of common practice."""
    earliest, likely, latest = days(OVULATED, "lay", ovulated=OVULATED)
    assert (earliest, likely, latest) == (40, 48, 55)
    assert earliest is not None and likely is not None and latest is not None
    assert earliest <= 44 <= likely <= 54 <= latest


def test_pre_lay_shed__14_to_25_days_after_ovulation() -> None:
    """Common practice, no source: centre about 20."""
    assert days(OVULATED, "pre-lay shed", ovulated=OVULATED) == (14, 20, 25)


def test_laying__25_to_35_days_after_the_pre_lay_shed() -> None:
    """Common practice, no source: centre 30."""
    shed = date(2027, 3, 12)
    assert days(shed, "lay", shed=shed) == (25, 30, 35)


def test_first_shed__7_to_14_days_after_hatching_and_the_first_meal_after_it() -> None:
    """Common practice, no source."""
    hatched = date(2027, 6, 8)
    assert days(hatched, "first shed", hatched=hatched) == (7, 11, 14)
    earliest, likely, latest = days(hatched, "first meal", hatched=hatched)
    assert earliest is not None and likely is not None and latest is not None
    assert earliest > 7 and likely > 11 and latest > 14


@pytest.mark.parametrize("day", [1, 12, 25])
def test_hatching__eggs_of_april_hatch_in_june(day: int) -> None:
    """Published: ELL87, eggs in April and hatching in June, in California; incubation at 29.2 C.

    Eggs of the last days of April may take into July at 70 days: the month is that of the likely day.
    """
    table = season_dates(laid=date(1986, 4, day), incubation_c=29.2).set_index("event")
    assert table.loc["hatch", "likely"].month == 6


def test_hatching__eggs_of_april_may_hatch_in_june_at_the_usual_temperature() -> None:
    """Published: ELL87 for the months; common practice for the days."""
    for day in range(1, 31):
        row = season_dates(laid=date(2027, 4, day)).set_index("event").loc["hatch"]
        assert date(2027, 5, 26) <= row["earliest"] <= row["latest"] <= date(2027, 6, 29)


def test_heat__is_cautioned_against() -> None:
    """Common practice, no source: stay below 32.5 C, heat is blamed for kinks."""
    assert incubation(32.4).caution == ""
    assert "kinks (common practice, no source)" in incubation(32.5).caution
    assert "kinks" in season_dates(laid=LAID, incubation_c=33).set_index("event").loc["hatch", "note"]


def test_introduction_to_ovulation__is_never_more_than_recalled() -> None:
    """No figure exists in print; it stays marked on every window that rests on it."""
    table = season_dates(date(2026, 11, 5)).set_index("event")
    later = ["ovulation", "pre-lay shed", "lay", "hatch", "first shed", "first meal"]
    assert all("introduction to ovulation: from memory" in table.loc[event, "source"] for event in later)
    assert all("no agreed figure" in table.loc[event, "note"] for event in later)
    seen = season_dates(date(2026, 11, 5), ovulated=OVULATED).set_index("event")
    assert all("introduction" not in seen.loc[event, "source"] for event in later)
