"""Windows of days as a calendar file (iCalendar, RFC 5545), written by a library."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from icalendar import Calendar, Event

__all__ = ["CalendarEntry", "calendar_file"]

PRODUCT = "-//pairing explorer//season//EN"


@dataclass(frozen=True)
class CalendarEntry:
    """Whole days from `first` to `last`, both included. key: the same at every export, so that a calendar which takes
    the file up again moves the entry instead of doubling it; title, text: what the calendar shows."""

    key: str
    title: str
    first: date
    last: date
    text: str


def calendar_file(name: str, entries: Iterable[CalendarEntry], made_on: date) -> bytes:
    """The calendar as UTF-8 bytes. name: what calendar programs may call it; made_on: stamped on every entry."""
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", name)
    stamp = datetime.combine(made_on, time(), UTC)
    for entry in entries:
        event = Event()
        event.add("uid", f"{entry.key}@pairing-explorer.invalid")
        event.add("dtstamp", stamp)
        event.add("summary", entry.title)
        event.add("dtstart", entry.first)
        event.add("dtend", entry.last + timedelta(days=1))
        event.add("description", entry.text)
        event.add("transp", "TRANSPARENT")
        calendar.add_component(event)
    return bytes(calendar.to_ical())
