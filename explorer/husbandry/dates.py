"""When what should happen in a pairing's season: a window for each event, from what has really happened."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from math import inf

import pandas as pd

from ..catalogue import Catalogue, load_catalogue
from .intervals import EVENTS, Intervals, intervals_of

__all__ = ["season_dates"]

COLUMNS = ["event", "earliest", "likely", "latest", "source", "note"]
SHOWN = tuple(event for event in EVENTS if event != "lock")
CALLED = {
    "introduce": "paired",
    "lock": "locked",
    "ovulation": "ovulated",
    "pre-lay shed": "shed",
    "lay": "laid",
    "hatch": "hatched",
}
"""Event -> the argument that says when it was."""

SAID = {
    "introduce": "the introduction",
    "lock": "the lock seen",
    "ovulation": "ovulation",
    "pre-lay shed": "the pre-lay shed",
    "lay": "laying",
    "hatch": "hatching",
}

Line = tuple[str, date | None, date | None, date | None, str, str]
"""A row of the table."""

FIRST_YEAR, LAST_YEAR = 1900, 2200
WRITTEN = "written down"
FROM_MEMORY = "from memory"


def season_dates(
    paired: date | None = None,
    *,
    locked: date | None = None,
    ovulated: date | None = None,
    shed: date | None = None,
    laid: date | None = None,
    hatched: date | None = None,
    incubation_c: float | None = None,
    catalogue: Catalogue | None = None,
) -> pd.DataFrame:
    """When each event of a pairing has to be looked for: event, earliest, likely, latest (dates), source, note.

    paired: the first introduction; locked: the last lock seen; ovulated; shed: the pre-lay shed; laid; hatched: days on
    which it really was so. The events are introduce, ovulation, pre-lay shed, lay, hatch, first shed, first meal. Each
    window lies where all that has happened allows it, and its likely day is counted from the nearest of that; a day is
    None where no figure leads to it, or only to days on the wrong side of what has happened. A real day outside its
    window stands, with a note. incubation_c: degrees Celsius of the eggs, by default the catalogue's. Raises ValueError
    if nothing has happened, if days are in an order that cannot be (naming both), for what is no day of the years 1900
    to 2200, or for a temperature below 20 or above 40.
    """
    given = {
        "introduce": paired,
        "lock": locked,
        "ovulation": ovulated,
        "pre-lay shed": shed,
        "lay": laid,
        "hatch": hatched,
    }
    known = {event: _day(event, day) for event, day in given.items() if day is not None}
    if not known:
        raise ValueError(f"needed: at least one day, as {', '.join(CALLED.values())}; found none")
    _check_order(known)
    late = _before_lock(known)
    notes = {event: f"a lock was seen after it, on {known.pop('lock')}" for event in late}
    intervals = intervals_of(catalogue or load_catalogue(), incubation_c)
    rows = []
    for event in SHOWN:
        *days, note = _written(event, known, intervals) if event in known else _row(event, known, intervals)
        rows.append([*days, "; ".join(filter(None, (note, notes.get(event, ""))))])
    return pd.DataFrame(rows, columns=COLUMNS, dtype=object)


def _before_lock(known: Mapping[str, date]) -> list[str]:
    """The first event that ends the fertile days and lies before the lock; the lock then tells nothing."""
    lock = known.get("lock")
    return [one for one in ("ovulation", "pre-lay shed") if lock and one in known and known[one] < lock][:1]


def _check_order(known: Mapping[str, date]) -> None:
    """That nothing comes before what it must come after. On one day there can only be introduction, lock, ovulation."""
    events = [event for event in EVENTS if event in known]
    for at, later in enumerate(events):
        for before in events[:at]:
            if before == "lock" and later in ("ovulation", "pre-lay shed"):
                continue
            one, other = known[before], known[later]
            if other < one or (other == one and EVENTS.index(later) > EVENTS.index("ovulation")):
                found = f"{CALLED[later]} {other} does not come after {CALLED[before]} {one}"
                raise ValueError(f"{found}: mend one of the two days")


@dataclass
class _Window:
    """Days from and to which an event may lie, None where they are open."""

    earliest: date | None = None
    latest: date | None = None

    def narrowed(self, other: _Window) -> _Window | None:
        """Where both allow it; None if that is nowhere."""
        starts = [day for day in (self.earliest, other.earliest) if day]
        ends = [day for day in (self.latest, other.latest) if day]
        both = _Window(max(starts, default=None), min(ends, default=None))
        return None if both.earliest and both.latest and both.earliest > both.latest else both


def _row(event: str, known: Mapping[str, date], intervals: Intervals) -> Line:
    """The window of an event that has not happened or was not written down."""
    order = sorted(known, key=lambda one: _nearness(one, event, intervals))
    from_which = [one for one in order if intervals.bounds(one, event) != (-inf, inf)]
    if event == "introduce" or not from_which:
        return event, None, None, None, "", "not written down"
    nearest = from_which[0]
    window, notes = _Window(), []
    for one in from_which:
        low, high = intervals.bounds(one, event)
        narrowed = window.narrowed(_Window(_shifted(known[one], low), _shifted(known[one], high)))
        if narrowed is None:
            notes.append(f"does not fit {SAID[one]} on {known[one]}, which is left out of account")
            continue
        if one != nearest and narrowed != window:
            notes.append(f"narrowed by {SAID[one]} on {known[one]}")
        window = narrowed
    in_turn = window.narrowed(_between(event, known))
    if in_turn is None:
        return event, None, None, None, "", "; ".join((*notes, "no day fits what is written down"))
    window = _Window(window.earliest and in_turn.earliest, window.latest and in_turn.latest)
    days = intervals.likely(nearest, event)
    likely = None if days is None else known[nearest] + timedelta(days=days)
    if likely and window.earliest:
        likely = max(likely, window.earliest)
    if likely and window.latest:
        likely = min(likely, window.latest)
    forward = EVENTS.index(nearest) < EVENTS.index(event)
    steps = intervals.steps(nearest, event) if forward else intervals.steps(event, nearest)
    source = "; ".join(f"{step.name}: {step.source}" for step in steps)
    memory = [step.name for step in steps if step.source == FROM_MEMORY]
    notes += [f"{name}: from memory, there is no agreed figure" for name in memory]
    middles = [step.name for step in steps if step.middle]
    notes += [f"likely: the middle for {', '.join(middles)}"] if middles and likely else []
    notes += [step.note for step in steps if step.note]
    return event, window.earliest, likely, window.latest, source, "; ".join(notes)


def _between(event: str, known: Mapping[str, date]) -> _Window:
    """The days from the last event before this one to the first after it. A lock may be seen after ovulation."""
    at = EVENTS.index(event)
    told = {EVENTS.index(one): day for one, day in known.items() if one != "lock"}
    before, after = ([day for place, day in told.items() if side(place)] for side in (at.__gt__, at.__lt__))
    return _Window(max(before, default=None), min(after, default=None))


def _written(event: str, known: Mapping[str, date], intervals: Intervals) -> Line:
    """An event whose day is written down, with a note if it lies outside what is usual after those before it."""
    day = known[event]
    before = [one for one in known if EVENTS.index(one) < EVENTS.index(event)]
    stated = [one for one in before if (one, event) in intervals.stated]
    compared = stated or sorted(before, key=lambda one: _nearness(one, event, intervals))[:1]
    notes = []
    for one in compared:
        low, high = intervals.bounds(one, event)
        days = (day - known[one]).days
        if not low <= days <= high:
            kind = " and ".join(dict.fromkeys(step.source for step in intervals.steps(one, event)))
            notes.append(f"{days} days after {SAID[one]}; usual are {_span(low, high)} ({kind})")
    return event, day, day, day, WRITTEN, "; ".join(notes)


def _nearness(one: str, event: str, intervals: Intervals) -> tuple[float, int]:
    """How much the one event leaves open of when the other comes, and how far it lies from it in the order."""
    low, high = intervals.bounds(one, event)
    return high - low, abs(EVENTS.index(one) - EVENTS.index(event))


def _span(low: float, high: float) -> str:
    if low == -inf:
        return f"at most {high:.0f}"
    return f"at least {low:.0f}" if high == inf else f"{low:.0f} to {high:.0f}"


def _shifted(day: date, days: float) -> date | None:
    return None if days in (-inf, inf) else day + timedelta(days=int(days))


def _day(event: str, day: object) -> date:
    if isinstance(day, date) and FIRST_YEAR <= day.year <= LAST_YEAR:
        return day.date() if isinstance(day, datetime) else day
    raise ValueError(f"{CALLED[event]}: needed a date of the years {FIRST_YEAR} to {LAST_YEAR}; found {day!r}")
