"""The windows of a season's pairings, from the log and the clutch book."""

from __future__ import annotations

from datetime import date

import pytest

from explorer.collection import ClutchBook, Collection, SeasonLog
from explorer.husbandry import Husbandry, pairing_dates, season_calendar, season_dates

ANIMALS = Collection.from_text("id,sex,genes\nF01,f,Pastel\nF02,f,Leopard\nF03,f,Normal\nM01,m,Enchi\nM04,m,Clown\n")
CARE = Husbandry()
ROWS = (
    "2026,F01,M01,planned,",
    "2026,F01,M01,introduced,2026-11-05",
    "2026,F01,M04,lock seen,2027-01-11",
    "2026,F01,,ovulation,2027-02-20",
    "2026,F02,M04,planned,",
    "2026,F03,M04,planned,",
    "2026,F03,,given up,",
)


def log(*rows: str) -> SeasonLog:
    return SeasonLog.from_text("\n".join(["season,dam,sire,event,on", *rows, ""]), ANIMALS)


def book(*rows: str) -> ClutchBook:
    return ClutchBook.from_text("\n".join(["clutch,dam,sire,laid,hatched,incubation_c,look,count", *rows, ""]), ANIMALS)


def test_calendar__joins_the_log_with_the_dates() -> None:
    found = season_calendar(log(*ROWS), 2026, CARE)
    assert list(found.columns) == ["dam", "sire", "event", "earliest", "likely", "latest", "source", "note"]
    assert list(dict.fromkeys(zip(found["dam"], found["sire"], strict=True))) == [("F01", "M04 or M01"), ("F02", "M04")]
    plain = season_dates(date(2026, 11, 5), locked=date(2027, 1, 11), ovulated=date(2027, 2, 20))
    mine = found[found["dam"] == "F01"].drop(columns=["dam", "sire"]).reset_index(drop=True)
    assert mine.equals(plain)


def test_calendar__of_a_plan_is_counted_from_the_seasons_first_day() -> None:
    found = season_calendar(log(*ROWS), 2026, CARE).set_index(["dam", "event"]).loc["F02"]
    assert found.loc["introduce", "earliest"] == date(2026, 11, 1)
    assert found.loc["introduce", "source"] == "planned"
    assert found.loc["introduce", "note"] == "nobody was introduced yet: counted from 2026-11-01"
    south = Husbandry(season_first_month=5, season_last_month=9)
    table = season_calendar(log(*ROWS), 2026, south).set_index(["dam", "event"]).loc["F02"]
    assert table.loc["introduce", "earliest"] == date(2026, 5, 1)


def test_calendar__a_plan_may_have_a_day() -> None:
    found = pairing_dates(log(*ROWS).pairing(2026, "F02"), CARE, paired=date(2026, 12, 1))
    assert found["earliest"][0] == date(2026, 12, 1)
    known = pairing_dates(log(*ROWS).pairing(2026, "F01"), CARE, paired=date(2026, 12, 1))
    assert known["earliest"][0] == date(2026, 11, 5)


def test_calendar__of_an_unknown_season_is_blank() -> None:
    found = season_calendar(log(*ROWS), 2030, CARE)
    assert len(found) == 0
    assert list(found.columns) == list(season_calendar(log(*ROWS), 2026, CARE).columns)


def test_calendar__takes_laying_hatching_and_temperature_from_the_clutch_book() -> None:
    earlier, late = "26-1,F01,M01,2026-04-01,2026-06-01,31,,", "27-2,F02,M04,,2027-07-01,,,"
    clutches = book("27-1,F01,M01 or M04,2027-04-09,,29.2,,", earlier, late)
    found = season_calendar(log(*ROWS), 2026, CARE, clutches=clutches).set_index(["dam", "event"])
    assert found.loc[("F01", "lay"), "earliest"] == date(2027, 4, 9)
    assert found.loc[("F01", "hatch"), "earliest"] == date(2027, 6, 6)
    assert found.loc[("F01", "hatch"), "source"] == "laying to hatching at 29.2 C: published: ELL87"
    assert found.loc[("F02", "hatch"), "likely"] == date(2027, 7, 1)
    assert found.loc[("F02", "introduce"), "earliest"] is None
    warm = pairing_dates(log(*ROWS).pairing(2026, "F01"), CARE, clutches=clutches, incubation_c=31.5)
    assert warm.set_index("event").loc["hatch", "earliest"] == date(2027, 6, 3)


def test_calendar__the_logs_day_of_laying_counts() -> None:
    clutches = book("27-1,F01,M01,2027-04-09,2027-06-09,31,,")
    found = pairing_dates(log(*ROWS, "2026,F01,,laid,2027-04-08").pairing(2026, "F01"), CARE, clutches=clutches)
    assert found.set_index("event").loc["lay", "earliest"] == date(2027, 4, 8)
    assert found.set_index("event").loc["hatch", "source"] != "written down"


def test_calendar__does_not_depend_on_the_order_of_rows() -> None:
    plain = season_calendar(log(*ROWS), 2026, CARE)
    for turn in range(len(ROWS)):
        assert season_calendar(log(*ROWS[turn:], *ROWS[:turn]), 2026, CARE).equals(plain)


LATE = (
    ("introduced", ("2026,F01,M01,introduced,2027-02-22", "2026,F01,,ovulation,2027-02-20")),
    ("introduced", ("2026,F01,M01,introduced,2027-03-12", "2026,F01,,pre-lay shed,2027-03-12")),
    ("locked", (ROWS[1], "2026,F01,,laid,2027-04-01", "2026,F01,M01,lock seen,2027-05-01")),
    ("locked", (ROWS[1], "2026,F01,,laid,2027-04-01", "2026,F01,M01,lock seen,2027-04-01")),
)


@pytest.mark.parametrize(("what", "rows"), LATE)
def test_calendar__a_male_that_came_too_late_counts_for_nothing(what: str, rows: tuple[str, ...]) -> None:
    """The log takes such days, since they happen; the windows are those without the male."""
    found = season_calendar(log(*rows), 2026, CARE).set_index("event")
    counted = [row for row in rows if ",M01," not in row or (what == "locked" and "introduced" in row)]
    plain = season_calendar(log(*counted), 2026, CARE).set_index("event")
    days = ["earliest", "likely", "latest"]
    assert found.loc["ovulation":, days].equals(plain.loc["ovulation":, days])
    too_late = found.loc["introduce", "note"] == "a male was first with her on " + rows[0][-10:] + ", too late to count"
    assert too_late == (what == "introduced")


def test_calendar__the_day_of_ovulation_is_not_too_late() -> None:
    found = season_calendar(log("2026,F01,M01,introduced,2027-02-20", "2026,F01,,ovulation,2027-02-20"), 2026, CARE)
    assert found["earliest"][0] == date(2027, 2, 20)


def test_calendar__a_book_that_contradicts_the_log_is_refused() -> None:
    with pytest.raises(ValueError, match="laid 2027-01-09 does not come after locked 2027-01-11"):
        season_calendar(log(*ROWS[:3]), 2026, CARE, clutches=book("27-1,F01,M01,2027-01-09,,,,"))
