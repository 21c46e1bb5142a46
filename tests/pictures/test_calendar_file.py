"""The calendar file, read back by two other libraries, one of them strict."""

from datetime import date

import vobject
from ical.calendar_stream import IcsCalendarStream

from explorer.pictures.calendar_file import CalendarEntry, calendar_file, calendar_untouched

NASTY = 'Juniper, "F03"; \\n not a line end\nBEGIN:VEVENT ünï — ' + "long " * 40
ENTRIES = (
    CalendarEntry("2026-F03-lay", "lay: F03 Juniper", date(2027, 3, 1), date(2027, 3, 31), NASTY),
    CalendarEntry("2026-F03-hatch", NASTY.replace("\n", " ").strip(), date(2028, 2, 29), date(2028, 2, 29), "one day"),
)
MADE = date(2026, 11, 25)


def made():
    return calendar_file("Season 2026/27; a, b", ENTRIES, MADE)


def test_read_back__by_another_library():
    calendar = vobject.readOne(made().decode())
    assert calendar.validate(raiseException=True)
    events = {event.uid.value: event for event in calendar.vevent_list}
    assert len(events) == len(ENTRIES)
    for entry in ENTRIES:
        event = events[f"{entry.key}@pairing-explorer.invalid"]
        assert (event.summary.value, event.description.value) == (entry.title, entry.text)
        assert event.dtstart.value == entry.first
        assert (event.dtend.value - entry.last).days == 1


def test_read_back__by_a_strict_validator():
    calendar = IcsCalendarStream.calendar_from_ics(made().decode())
    found = [(event.summary, event.dtstart, event.dtend, event.description) for event in calendar.events]
    expected = [(e.title, e.first, date.fromordinal(e.last.toordinal() + 1), e.text) for e in ENTRIES]
    assert sorted(found) == sorted(expected)


def test_lines__end_in_crlf_and_are_no_longer_than_75_octets():
    """RFC 5545, section 3.1."""
    lines = made().split(b"\r\n")
    assert lines[-1] == b""
    assert all(b"\n" not in line and len(line) <= 75 for line in lines)


def test_same_input__same_file():
    assert made() == made()


def test_seal__tells_a_calendar_from_a_changed_one_and_from_any_other():
    text = made().decode()
    assert calendar_untouched(text)
    changed = text.replace("hatch", "watch"), f"{text} ", text.replace("X-SEAL:", "X-SEAL:0")
    for other in (*changed, "BEGIN:VCALENDAR", ""):
        assert not calendar_untouched(other)


def test_signs_that_are_no_text__are_left_out():
    """RFC 5545 forbids control characters."""
    odd = "a\x07b\x0bc\x1b\x7f\r\nd\ue000\ud800e"
    text = calendar_file(odd, [CalendarEntry("k\n1", odd, date(2027, 1, 1), date(2027, 1, 1), odd)], MADE).decode()
    [event] = IcsCalendarStream.calendar_from_ics(text).events
    assert event.summary == "ab c d\ue000e"
    assert event.description == "ab\nc\nd\ue000e"
    assert event.uid == "k 1@pairing-explorer.invalid"
    assert vobject.readOne(text).vevent.summary.value == event.summary


def test_no_entries__is_still_a_calendar():
    assert b"BEGIN:VCALENDAR" in calendar_file("empty", (), MADE)
