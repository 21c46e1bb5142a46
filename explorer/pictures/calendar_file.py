"""Windows of days as a calendar file (iCalendar, RFC 5545), written by a library, with a seal of its own."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from hashlib import sha256

from icalendar import Calendar, Event

__all__ = ["CalendarEntry", "calendar_file", "calendar_untouched"]

PRODUCT = "-//pairing explorer//season//EN"
SEAL = re.compile(rb"X-SEAL:([0-9a-f]{64})\r\n")


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
    """The calendar as UTF-8 bytes. name: what calendar programs may call it; made_on: stamped on every entry.

    Signs that are no text are left out; a title is one line.
    """
    whole = _made(name, list(entries), made_on, "0" * 64)
    return _made_of(whole, _digest(whole))


def calendar_untouched(text: str) -> bool:
    """Whether this is a calendar of ours that nobody changed since."""
    data = text.encode("utf-8", "replace")
    seal = SEAL.search(data)
    return seal is not None and seal[1].decode() == _digest(_made_of(data, "0" * 64))


def _made(name: str, entries: Iterable[CalendarEntry], made_on: date, seal: str) -> bytes:
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", _line(name))
    calendar.add("x-seal", seal)
    stamp = datetime.combine(made_on, time(), UTC)
    for entry in entries:
        event = Event()
        event.add("uid", f"{_line(entry.key)}@pairing-explorer.invalid")
        event.add("dtstamp", stamp)
        event.add("summary", _line(entry.title))
        event.add("dtstart", entry.first)
        event.add("dtend", entry.last + timedelta(days=1))
        event.add("description", _clean(entry.text))
        event.add("transp", "TRANSPARENT")
        calendar.add_component(event)
    return bytes(calendar.to_ical())


def _made_of(data: bytes, seal: str) -> bytes:
    """The calendar with this seal."""
    return SEAL.sub(f"X-SEAL:{seal}\r\n".encode(), data, count=1)


def _digest(data: bytes) -> str:
    return sha256(data).hexdigest()


def _line(text: str) -> str:
    return " ".join(_clean(text).split())


def _clean(text: str) -> str:
    """The text without control characters, which a calendar may not hold, and with plain line ends."""
    plain = re.sub(r"\r\n?|\u2028|\u2029|\x0b|\x0c|\x85", "\n", text)
    return "".join(sign for sign in plain if sign in "\n\t" or unicodedata.category(sign) not in ("Cc", "Cs"))
