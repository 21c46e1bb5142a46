"""Windows of a season's events, from what has really happened."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from itertools import permutations
from typing import Any

import pandas as pd
import pytest

from explorer.catalogue import load_catalogue
from explorer.husbandry import season_dates
from explorer.husbandry.intervals import intervals_of

COLUMNS = ["event", "earliest", "likely", "latest", "source", "note"]
EVENTS = ["introduce", "ovulation", "pre-lay shed", "lay", "hatch", "first shed", "first meal"]
PAIRED = date(2026, 11, 5)


def table(*args: Any, **given: Any) -> pd.DataFrame:
    return season_dates(*args, **given).set_index("event")


def window(found: pd.DataFrame, event: str) -> tuple[date, date, date]:
    row = found.loc[event]
    return row["earliest"], row["likely"], row["latest"]


def test_shape() -> None:
    found = season_dates(paired=PAIRED)
    assert list(found.columns) == COLUMNS
    assert list(found["event"]) == EVENTS
    assert all(type(day) is date for name in ("earliest", "likely", "latest") for day in found[name])
    for row in found.itertuples():
        assert row.earliest <= row.likely <= row.latest


def test_windows__only_grow_with_what_is_not_known() -> None:
    found = season_dates(PAIRED)
    spans = [(row.latest - row.earliest).days for row in found.itertuples()]
    assert spans == sorted(spans)
    assert spans[0] == 0


def test_windows__of_a_pairing_from_its_introduction() -> None:
    found = table(PAIRED)
    assert window(found, "introduce") == (PAIRED, PAIRED, PAIRED)
    assert window(found, "ovulation") == tuple(PAIRED + timedelta(days=days) for days in (10, 75, 150))
    assert window(found, "pre-lay shed") == tuple(PAIRED + timedelta(days=days) for days in (24, 95, 175))
    assert window(found, "lay") == tuple(PAIRED + timedelta(days=days) for days in (50, 123, 205))
    assert window(found, "hatch") == tuple(PAIRED + timedelta(days=days) for days in (105, 181, 265))


def test_windows__what_really_happened_replaces_the_guess() -> None:
    found = table(PAIRED, ovulated=date(2027, 2, 10), shed=date(2027, 3, 3), laid=date(2027, 4, 1))
    assert [found.loc[event, "source"] for event in EVENTS[:4]] == ["written down"] * 4
    assert all(found.loc[event, "note"] == "" for event in EVENTS[:4])
    assert window(found, "hatch") == (date(2027, 5, 26), date(2027, 5, 29), date(2027, 5, 31))


def test_windows__two_events_both_bound_a_third() -> None:
    """Ovulation leaves 40 to 55 days to laying, a shed 25 days later leaves 25 to 35: 50 to 55 remain."""
    ovulated = date(2027, 2, 1)
    found = table(ovulated=ovulated, shed=ovulated + timedelta(days=25))
    assert window(found, "lay") == tuple(ovulated + timedelta(days=days) for days in (50, 55, 55))
    assert "narrowed by ovulation on 2027-02-01" in found.loc["lay", "note"]
    early = table(ovulated=ovulated, shed=ovulated + timedelta(days=14))
    assert window(early, "lay") == tuple(ovulated + timedelta(days=days) for days in (40, 44, 49))


def test_windows__events_that_contradict_each_other_leave_the_nearest() -> None:
    ovulated, shed = date(2027, 2, 1), date(2027, 4, 20)
    found = table(ovulated=ovulated, shed=shed)
    assert window(found, "lay") == tuple(shed + timedelta(days=days) for days in (25, 30, 35))
    assert "does not fit ovulation on 2027-02-01, which is left out of account" in found.loc["lay", "note"]
    assert found.loc["pre-lay shed", "note"] == (
        "78 days after ovulation; usual are 14 to 25 (common practice, no source)"
    )


def test_windows__lie_on_the_right_side_of_what_has_happened() -> None:
    """Five days from ovulation to hatching leave no day between them, and none before the introduction."""
    found = table(ovulated=date(2027, 1, 20), hatched=date(2027, 1, 25))
    for event in ("pre-lay shed", "lay"):
        assert window(found, event) == (None, None, None)
        assert "no day fits what is written down" in found.loc[event, "note"]
    early = table(date(2027, 1, 20), hatched=date(2027, 2, 20))
    assert window(early, "ovulation") == (None, None, None)
    near = table(date(2027, 1, 1), laid=date(2027, 2, 12))
    assert window(near, "ovulation") == (date(2027, 1, 1), date(2027, 1, 1), date(2027, 1, 3))
    assert "42 days after the introduction; usual are 50 to 205" in near.loc["lay", "note"]


def test_windows__a_lock_may_be_seen_after_ovulation() -> None:
    """A lock five days before the shed lies after the ovulation, 14 to 25 days before it."""
    shed = date(2027, 3, 20)
    found = table(locked=shed - timedelta(days=5), shed=shed)
    assert window(found, "ovulation") == tuple(shed - timedelta(days=days) for days in (25, 20, 14))


def test_windows__a_real_day_outside_its_window_stands_with_a_note() -> None:
    found = table(PAIRED, ovulated=PAIRED + timedelta(days=3))
    assert found.loc["ovulation", "earliest"] == PAIRED + timedelta(days=3)
    assert found.loc["ovulation", "note"] == "3 days after the introduction; usual are 10 to 150 (from memory)"
    late = table(laid=date(2027, 4, 1), hatched=date(2027, 7, 1))
    assert late.loc["hatch", "note"] == "91 days after laying; usual are 55 to 60 (common practice, no source)"


def test_windows__of_what_lies_before_are_counted_back() -> None:
    laid = date(2027, 4, 12)
    found = table(PAIRED, laid=laid)
    assert window(found, "ovulation") == tuple(laid - timedelta(days=days) for days in (55, 48, 40))
    assert window(found, "pre-lay shed") == tuple(laid - timedelta(days=days) for days in (35, 30, 25))
    assert "from memory" not in found.loc["ovulation", "source"]


def test_windows__an_introduction_narrows_what_is_counted_back() -> None:
    laid = date(2027, 4, 12)
    found = table(laid - timedelta(days=60), laid=laid)
    assert window(found, "ovulation") == tuple(laid - timedelta(days=days) for days in (50, 48, 40))
    assert "narrowed by the introduction" in found.loc["ovulation", "note"]


def test_windows__a_lock_stands_nearer_than_the_introduction() -> None:
    lock = date(2027, 1, 10)
    found = table(PAIRED, locked=lock)
    assert window(found, "ovulation") == (lock, lock + timedelta(days=40), PAIRED + timedelta(days=150))
    assert found.loc["ovulation", "source"] == "lock to ovulation: from memory"
    alone = table(locked=lock)
    assert alone.loc["introduce", "earliest"] is None
    assert alone.loc["introduce", "note"] == "not written down"
    assert window(alone, "ovulation")[2] == lock + timedelta(days=120)


def test_windows__a_lock_after_ovulation_tells_nothing() -> None:
    plain = table(PAIRED, ovulated=date(2027, 2, 1))
    found = table(PAIRED, locked=date(2027, 2, 6), ovulated=date(2027, 2, 1))
    assert found.loc["ovulation", "note"] == "a lock was seen after it, on 2027-02-06"
    assert all(window(found, event) == window(plain, event) for event in EVENTS)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"paired": date(2027, 3, 1), "ovulated": date(2027, 2, 1)}, ("ovulated 2027-02-01", "paired 2027-03-01")),
        ({"paired": date(2027, 3, 1), "locked": date(2027, 2, 1)}, ("locked 2027-02-01", "paired 2027-03-01")),
        ({"ovulated": date(2027, 3, 1), "shed": date(2027, 3, 1)}, ("shed 2027-03-01", "ovulated 2027-03-01")),
        ({"shed": date(2027, 3, 9), "laid": date(2027, 3, 1)}, ("laid 2027-03-01", "shed 2027-03-09")),
        ({"laid": date(2027, 4, 1), "hatched": date(2027, 3, 1)}, ("hatched 2027-03-01", "laid 2027-04-01")),
        ({"paired": date(2027, 4, 1), "hatched": date(2027, 4, 1)}, ("hatched 2027-04-01", "paired 2027-04-01")),
        ({"locked": date(2027, 4, 2), "laid": date(2027, 4, 1)}, ("laid 2027-04-01", "locked 2027-04-02")),
    ],
)
def test_order__that_cannot_be_names_both(given: dict[str, date], words: tuple[str, str]) -> None:
    with pytest.raises(ValueError) as caught:
        season_dates(**given)
    assert all(word in str(caught.value) for word in words)
    assert "mend one of the two days" in str(caught.value)


def test_order__introduction_lock_and_ovulation_may_share_a_day() -> None:
    assert len(season_dates(PAIRED, locked=PAIRED, ovulated=PAIRED)) == 7


def test_input__needs_a_day() -> None:
    with pytest.raises(ValueError, match="needed: at least one day, as paired, locked, ovulated, shed, laid, hatched"):
        season_dates()
    with pytest.raises(ValueError, match="paired: needed a date of the years 1900 to 2200; found '2026-11-05'"):
        season_dates("2026-11-05")  # type: ignore[arg-type]


@pytest.mark.parametrize("day", [date(9999, 12, 1), date(1, 1, 1), date(2201, 1, 1), pd.NaT, True])
def test_input__a_day_that_no_season_has_is_refused(day: Any) -> None:
    with pytest.raises(ValueError, match="laid: needed a date of the years 1900 to 2200"):
        season_dates(laid=day)


def test_input__a_moment_counts_as_its_day() -> None:
    assert season_dates(datetime(2026, 11, 5, 17, 30)).equals(season_dates(PAIRED))


def test_input__the_order_of_the_arguments_does_not_matter() -> None:
    given = {"paired": PAIRED, "locked": date(2027, 1, 3), "ovulated": date(2027, 2, 10), "shed": date(2027, 3, 3)}
    plain = season_dates(**given)
    assert all(season_dates(**dict(order)).equals(plain) for order in permutations(given.items()))


def test_calendar__over_the_turn_of_the_year() -> None:
    found = table(ovulated=date(2026, 12, 1))
    assert window(found, "lay") == (date(2027, 1, 10), date(2027, 1, 18), date(2027, 1, 25))


def test_calendar__over_a_leap_day() -> None:
    assert table(shed=date(2028, 2, 1)).loc["lay", "likely"] == date(2028, 3, 2)
    assert table(shed=date(2027, 2, 1)).loc["lay", "likely"] == date(2027, 3, 3)
    assert table(shed=date(2028, 2, 29)).loc["lay", "likely"] == date(2028, 3, 30)


def test_calendar__in_the_south_nothing_is_different_but_the_months() -> None:
    north, south = season_dates(date(2026, 11, 5)), season_dates(date(2026, 5, 5))
    shift = date(2026, 11, 5) - date(2026, 5, 5)
    assert [day - shift for day in north["likely"]] == list(south["likely"])


def test_eggs__below_every_figure_have_no_latest_day() -> None:
    found = table(laid=date(2027, 4, 1), incubation_c=28.5)
    assert window(found, "hatch") == (date(2027, 5, 29), None, None)
    assert window(found, "first shed") == (date(2027, 6, 5), None, None)
    assert "no figure below 29.2 C" in found.loc["hatch", "note"]
    assert "likely:" not in found.loc["hatch", "note"]


def test_eggs__too_hot_have_no_earliest_day_and_a_caution() -> None:
    found = table(laid=date(2027, 4, 1), incubation_c=33)
    assert window(found, "hatch") == (None, None, date(2027, 5, 31))
    assert "stay below 32.5 C" in found.loc["hatch", "note"]


def test_likely__says_where_it_is_only_the_middle() -> None:
    found = table(laid=date(2027, 4, 1))
    assert "likely: the middle for laying to hatching at 31.5 C" in found.loc["hatch", "note"]
    assert "middle" not in table(ovulated=date(2027, 2, 1)).loc["lay", "note"]


def test_figures__bounds_agree_with_a_slow_count() -> None:
    """Every pair of events against all ways of choosing the days between neighbours, where the figures allow them."""
    intervals = intervals_of(load_catalogue())
    found: dict[int, list[int]] = {}
    for to_shed in range(14, 26):
        for to_lay in range(25, 36):
            if 40 <= to_shed + to_lay <= 55:
                found.setdefault(0, []).append(to_shed)
                found.setdefault(1, []).append(to_lay)
                found.setdefault(2, []).append(to_shed + to_lay)
    pairs = [("ovulation", "pre-lay shed"), ("pre-lay shed", "lay"), ("ovulation", "lay")]
    for at, (one, other) in enumerate(pairs):
        assert intervals.bounds(one, other) == (min(found[at]), max(found[at]))
        assert intervals.bounds(other, one) == (-max(found[at]), -min(found[at]))
