"""The log of a pairing: what is written moves the windows, and after laying the clutch book begins a clutch."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from season_example import TODAY, opened, said, tab

from explorer.husbandry import season_dates
from explorer.panels.book_keeping import book_file
from explorer.panels.season_tab.season_model import SeasonModel


@pytest.fixture
def model(tmp_path: Path) -> SeasonModel:
    made = tab(opened(tmp_path))
    assert made.plan.write("F01", "M02", "M01") == ()
    made.diary.dam = "F01"
    return made


def windows(model: SeasonModel) -> dict[str, tuple[object, ...]]:
    one = model.diary.standing
    assert one is not None
    return {day.event: (day.earliest, day.likely, day.latest) for day in one.days}


def expected(**days: date) -> dict[str, tuple[object, ...]]:
    table = season_dates(**days)
    return {row.event: (row.earliest, row.likely, row.latest) for row in table.itertuples()}


def test_windows__are_counted_from_today_and_moved_by_what_happened(model: SeasonModel) -> None:
    assert windows(model) == expected(paired=TODAY)
    assert model.rows[0]["next"] == "introduce M02"
    assert model.diary.write("introduced", date(2026, 11, 5), "M02") == ()
    assert windows(model) == expected(paired=date(2026, 11, 5))
    assert model.rows[0]["next"].startswith("look for ovulation: ")
    assert model.diary.write("lock seen", date(2026, 11, 7), "M02") == ()
    assert model.diary.write("ovulation", date(2026, 11, 20)) == ()
    known = {"paired": date(2026, 11, 5), "locked": date(2026, 11, 7), "ovulated": date(2026, 11, 20)}
    assert windows(model) == expected(**known)
    assert ("last with", "M02 Alder, on 7 Nov 2026, a lock was last seen on 7 Nov 2026") in model.diary.facts
    [band] = model.pages.bands
    assert [(s.event, s.happened) for s in band.stretches][:2] == [("introduce", True), ("ovulation", True)]


def test_windows__before_the_season_are_counted_from_its_first_day(model: SeasonModel) -> None:
    model.desk.look_from(date(2027, 11, 1))
    assert model.plan.write("F02", "M02") == ()
    assert model.rows[0]["next"] == "introduce M02: from 1 Nov 2027"


def test_incubation__of_the_keepers_own_moves_hatching(model: SeasonModel) -> None:
    before = windows(model)["hatch"]
    model.wishes.eggs_c = "29,2"
    assert windows(model)["hatch"] == expected_at(29.2) != before
    model.wishes.eggs_c = "warm"
    assert "degrees" in said(model.wishes.problems)
    assert windows(model)["hatch"] == before


def test_incubation__without_a_figure_leaves_an_end_open_and_says_so_everywhere(model: SeasonModel) -> None:
    model.wishes.eggs_c = "33"
    hatch = next(day for day in model.standings.all[0].days if day.event == "hatch")
    assert hatch.earliest is None and hatch.words.startswith("by ") and "stay below 32.5 C" in str(hatch.remarks)
    page, calendar = model.pages.sheet("", ""), model.pages.calendar().replace("\r\n ", "")
    assert f"hatch: {hatch.words}" in page and "stay below 32.5 C" in page
    assert f"SUMMARY:hatch {hatch.words}: F01 Bracken" in calendar
    assert "hatch" not in {stretch.event for stretch in model.pages.bands[0].stretches}


def expected_at(degrees: float) -> tuple[object, ...]:
    table = season_dates(TODAY, incubation_c=degrees)
    return next((row.earliest, row.likely, row.latest) for row in table.itertuples() if row.event == "hatch")


def test_write__nonsense_is_refused_in_words(model: SeasonModel) -> None:
    before = model.standings.log
    assert "Choose the day" in said(model.diary.write("ovulation", None))
    assert "Choose the male" in said(model.diary.write("introduced", TODAY))
    assert model.diary.write("ovulation", date(2026, 12, 1)) == ()
    assert "a day after it" in said(model.diary.write("laid", date(2026, 11, 30)))
    assert "2031" in said(model.diary.write("pre-lay shed", date(2031, 1, 1)))
    log = model.standings.log
    assert before is not None and log is not None and len(log) == len(before) + 1


def test_introduced__is_refused_for_who_is_not_ready_but_a_lock_can_be_told(model: SeasonModel) -> None:
    model.desk.season.weigh({"F01": 1499}, TODAY)
    problems = model.diary.write("introduced", TODAY, "M02")
    assert "1,500 g needed" in said(problems) and "part them" in said(problems)
    assert model.diary.write("lock seen", TODAY, "M02") == ()


def test_carrying__keeps_her_days_although_she_is_no_longer_heavy_enough(model: SeasonModel) -> None:
    assert model.diary.write("ovulation", date(2026, 11, 20)) == ()
    model.desk.season.weigh({"F01": 1499}, TODAY)
    assert model.rows[0]["word"] == "ovulated; no longer ready"
    assert "Bracken" in model.pages.sheet("", "") and "Bracken" in model.pages.calendar()
    assert any("1,500 g needed" in text for text in model.remarks)


def test_second_choice__steps_in(model: SeasonModel) -> None:
    assert model.diary.write("introduced", date(2026, 11, 5), "M02") == ()
    assert model.plan.step_in("F01") == ()
    assert (model.rows[0]["sire"], model.rows[0]["second"]) == ("M01 Larch", "nobody")
    assert "M02" in str(model.diary.entries)
    assert model.plan.undo() == ()
    assert (model.rows[0]["sire"], model.rows[0]["second"]) == ("M02 Alder", "M01 Larch")


def test_give_up__and_plan_again(model: SeasonModel) -> None:
    assert model.diary.write("introduced", date(2026, 11, 5), "M02") == ()
    assert model.plan.take_out("F01") == ()
    assert model.rows[0]["word"] == "given up" and model.pages.bands == ()
    assert model.plan.write("F01", "M02") == ()
    assert model.rows[0]["word"] == "" and len(model.pages.bands) == 1


def test_entry__can_be_taken_out_again(model: SeasonModel) -> None:
    assert model.diary.write("ovulation", date(2026, 11, 20)) == ()
    [(event, text)] = model.diary.entries
    assert text == "ovulation, 20 Nov 2026"
    assert model.diary.take_out(event) == ()
    assert model.diary.entries == () and windows(model) == expected(paired=TODAY)


def test_clutch__begins_with_dam_males_and_day(model: SeasonModel) -> None:
    for event, day, sire in (
        ("introduced", date(2026, 11, 1), "M02"),
        ("introduced", date(2026, 11, 8), "M01"),
        ("lock seen", date(2026, 11, 9), "M01"),
        ("ovulation", date(2026, 11, 14), ""),
    ):
        assert model.diary.write(event, day, sire) == ()
        assert not model.diary.can_begin
    assert model.diary.write("laid", date(2027, 1, 2)) == ()
    assert "still to come" in model.plan.said
    assert model.diary.can_begin and model.diary.begin_clutch() == ()
    book = model.desk.book
    assert book is not None
    assert [(one.id, one.dam, one.sires, one.several, one.laid) for one in book] == [
        ("C01", "F01", ("M01", "M02"), False, date(2027, 1, 2))
    ]
    assert book_file(model.desk.path).read_text().splitlines()[1].startswith("C01,F01,M01 or M02,2027-01-02")
    assert not model.diary.can_begin and model.diary.clutch == "C01"
    assert model.rows[0]["word"] == "", "that she rests now is due to this very pairing"
    assert model.headline.startswith("One pairing")
    assert model.desk.undoable == "writing C01"


def test_clutch_book__that_contradicts_the_log_is_said_and_the_log_counts(model: SeasonModel) -> None:
    assert model.diary.write("ovulation", date(2026, 12, 28)) == ()
    clutch = {"clutch": "C9", "dam": "F01", "sire": "M02", "laid": "2027-02-14"}
    model.desk.write_clutch(clutch)
    assert windows(model)["lay"][0] == date(2027, 2, 14) and model.remarks == ()
    model.desk.write_clutch({**clutch, "laid": "2026-12-25"})
    one = model.diary.standing
    assert one is not None
    resting, trouble = one.trouble
    assert "has laid this season" in resting, "as far as the clutch book goes"
    assert trouble.startswith("The log and the clutch book contradict each other: laid 2026-12-25 does not come after")
    assert trouble in model.remarks
    assert windows(model) == expected(ovulated=date(2026, 12, 28))


def test_introduced__with_a_relative_is_said_at_once(model: SeasonModel) -> None:
    """M01 is the sire of F02."""
    assert model.plan.write("F02", "M02") == ()
    model.diary.dam = "F02"
    assert model.diary.write("introduced", date(2026, 11, 5), "M02") == ()
    assert "inbreeding" not in model.plan.said
    assert model.diary.write("lock seen", date(2026, 11, 6), "M02") == ()
    assert model.diary.write("introduced", date(2026, 11, 9), "M01") == ()
    assert "F02 and M01: M01 is the sire of F02; inbreeding 25" in model.plan.said
    facts = dict(model.diary.facts)
    assert "inbreeding 25" in facts["related to M01"] and "related to M02" not in facts
    assert facts["last with"] == "M01 Larch, on 9 Nov 2026, a lock with M02 was last seen on 6 Nov 2026"
