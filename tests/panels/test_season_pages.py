"""What leaves the screen: the calendar read back by two libraries, the sheet, and their files; with nasty names."""

from __future__ import annotations

import re
from datetime import date, timedelta
from pathlib import Path

import pytest
import vobject
from ical.calendar_stream import IcsCalendarStream
from season_example import opened, tab

from explorer.panels.season_tab.season_model import SeasonModel
from explorer.pictures.calendar_file import calendar_untouched
from explorer.pictures.printed_page import untouched

NASTY = '<script>alert("1")</script>, \\n; ÜñÏ 蛇 🐍 & co'
QUOTED = NASTY.replace('"', '""')
ANIMALS = f"""id,name,sex,genes,hatched,weight_g,weighed_on,status
F1,"{QUOTED}\nsecond line",female,Leopard het Desert Ghost,2018-08-05,2450,2026-11-08,kept
F2,{"long " * 60},female,Spider,2018-08-05,2450,2026-11-08,kept
F3,Sedge,female,Pinstripe,2018-08-05,1499,2026-11-08,kept
M1,"BEGIN:VEVENT, {'"' * 2}Alder{'"' * 2}",male,Pinstripe het Desert Ghost,2018-08-05,900,2026-11-08,kept
"""


@pytest.fixture
def model(tmp_path: Path) -> SeasonModel:
    desk = opened(tmp_path, ANIMALS)
    made = tab(desk)
    desk.aim(desk.target, (), ("Spider",))
    for animal in desk.animals or ():
        if animal.sex == "female" and animal.weight_g != 1499:
            assert made.plan.write(animal.id, "M1") == ()
    assert len(made.standings.counted) == 2
    return made


def dates(model: SeasonModel) -> set[tuple[str, date, date]]:
    """Title, first day and the day after the last, of every bounded event that the model shows."""
    names = {one.dam: band.name for one, band in zip(model.standings.counted, model.pages.bands, strict=True)}
    return {
        (" ".join(f"{day.event}: {names[one.dam]}".split()), day.earliest, day.latest + timedelta(1))
        for one in model.standings.counted
        for day in one.days
        if day.earliest and day.latest
    }


def test_calendar__read_back_by_two_libraries(model: SeasonModel) -> None:
    text = model.pages.calendar()
    first = vobject.readOne(text)
    assert first.validate(raiseException=True)
    loose = {(event.summary.value, event.dtstart.value, event.dtend.value) for event in first.vevent_list}
    second = IcsCalendarStream.calendar_from_ics(text)
    strict = {(event.summary, event.dtstart, event.dtend) for event in second.events}
    assert loose == strict == dates(model)
    assert len({event.uid for event in second.events}) == len(second.events) == 14
    for event in second.events:
        assert event.description is not None
        assert "veterinarian" in event.description and "CITES" in event.description and "Source: " in event.description
    spider = [event for event in second.events if "long long" in str(event.summary)]
    assert all("Caution: Spider: wobble" in str(event.description) for event in spider)
    assert len(spider) == 7
    assert "Sedge" not in text


def test_calendar__entries_keep_their_uid_and_move(model: SeasonModel) -> None:
    before = {event.uid: event for event in IcsCalendarStream.calendar_from_ics(model.pages.calendar()).events}
    model.diary.dam = "F2"
    assert model.diary.write("introduced", date(2026, 11, 2), "M1") == ()
    assert model.diary.write("ovulation", date(2026, 11, 22)) == ()
    after = {event.uid: event for event in IcsCalendarStream.calendar_from_ics(model.pages.calendar()).events}
    assert after.keys() == before.keys()
    moved = {after[uid].summary.split(":")[0] for uid in after if after[uid].dtstart != before[uid].dtstart}
    assert moved == {"introduce", "ovulation", "pre-lay shed", "lay", "hatch", "first shed", "first meal"}


def test_calendar__is_written_beside_the_collection_with_a_seal(model: SeasonModel) -> None:
    assert model.write_calendar() == ()
    file = model.desk.path.with_name("mine.season.ics")
    assert file.read_bytes().decode() == model.calendar and b"\r\n" in file.read_bytes()
    assert model.plan.said == "The calendar is written in mine.season.ics."
    assert calendar_untouched(model.calendar)
    assert model.write_calendar() == () and not list(file.parent.glob("*.bak.ics"))
    file.write_bytes(file.read_bytes().replace(b"ovulation", b"my words "))
    assert model.write_calendar() == ()
    [backup] = file.parent.glob("*.bak.ics")
    assert b"my words" in backup.read_bytes() and backup.name in model.plan.said


def test_sheet__names_everything_and_escapes_it(model: SeasonModel) -> None:
    assert model.write_sheet() == ()
    page = model.desk.path.with_name("mine.season.html").read_text(encoding="utf-8")
    assert page == model.page and untouched(page)
    assert "<script" not in page and "&lt;script&gt;" in page
    assert model.headline.split(". ")[0] in page
    for word in ("Eggs and warmth", "29.2 °C", "58 to 70 days", "veterinarian", "Local law", "CITES", "Spider: wobble"):
        assert word in page, word
    assert "[published study]" in page
    assert "Sedge" not in page
    assert not re.search(r"https?://(?!www\.w3\.org/2000/svg)", page)


def test_sheet__a_season_without_pairings_is_still_a_page(tmp_path: Path) -> None:
    model = tab(opened(tmp_path, "id,sex,genes\nF1,female,Pastel\n"))
    assert "CITES" in model.pages.sheet(model.headline, model.meaning)
    assert "BEGIN:VEVENT" not in model.pages.calendar()
