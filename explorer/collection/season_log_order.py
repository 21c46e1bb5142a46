"""What the events of one female's season say against each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from .findings import Finding
from .season_log_events import ONCE, SeasonEvent

__all__ = ["order_findings"]

IN_TURN = ("ovulation", "pre-lay shed", "laid")
"""Each of these comes after those before it."""


def order_findings(events: Sequence[SeasonEvent]) -> Iterator[Finding]:
    """Events written twice that are once a season, and days in an order that cannot be."""
    seasons: dict[tuple[int, str], list[SeasonEvent]] = {}
    for event in events:
        seasons.setdefault((event.season, event.dam), []).append(event)
    for mine in seasons.values():
        yield from _repeated(mine)
        yield from _backwards(mine)
        yield from _doubled_choice(mine)


def _repeated(mine: Sequence[SeasonEvent]) -> Iterator[Finding]:
    first: dict[tuple[str, ...], SeasonEvent] = {}
    for event in mine:
        key = (event.event,) if event.event in ONCE else (event.event, event.sire, str(event.on))
        before = first.setdefault(key, event)
        if before is event:
            continue
        if (event.sire, event.on) == (before.sire, before.on):
            found = f"{event.event}, as in row {before.row} already"
            yield Finding("notice", event.row, "event", found, "", "it counts once", event.dam)
        else:
            found = f"{event.event} for the second time in season {event.season}; row {before.row} has it too"
            advice = "delete one of the two rows, or mend its season"
            yield Finding("error", event.row, "event", found, "one a season", advice, event.dam)


def _backwards(mine: Sequence[SeasonEvent]) -> Iterator[Finding]:
    stages = [[one for one in mine if one.event == name and one.on] for name in IN_TURN]
    for at, later in enumerate(stages):
        for one in later:
            for before in (event for stage in stages[:at] for event in stage):
                if _day(one) <= _day(before):
                    yield _error(one, before, "a day after it")
            if one.event == "laid":
                for met in (event for event in mine if event.event in ("introduced", "lock seen") and event.on):
                    if _day(one) <= _day(met) and not _met_before(mine, one):
                        yield _error(one, met, "a day after it")
    for lock in (one for one in mine if one.event == "lock seen" and one.on):
        introductions = [one for one in mine if one.event == "introduced" and one.sire == lock.sire and one.on]
        first = min(introductions, key=_day, default=None)
        if first and _day(lock) < _day(first):
            found = f"lock seen on {lock.on}, before {lock.sire} was introduced on {first.on} (row {first.row})"
            yield Finding("notice", lock.row, "on", found, "", "check the two days", lock.dam)


def _doubled_choice(mine: Sequence[SeasonEvent]) -> Iterator[Finding]:
    planned = {one.sire: one for one in mine if one.event == "planned"}
    for one in mine:
        if one.event == "second choice" and one.sire in planned:
            found = f"{one.sire}, who is planned for her in row {planned[one.sire].row}"
            yield Finding("error", one.row, "sire", found, "another male", "name who would step in", one.dam)


def _met_before(mine: Sequence[SeasonEvent], laid: SeasonEvent) -> bool:
    return any(one.event in ("introduced", "lock seen") and one.on and one.on < _day(laid) for one in mine)


def _error(one: SeasonEvent, before: SeasonEvent, needed: str) -> Finding:
    found = f"{one.event} on {one.on}, and {before.event} on {before.on} (row {before.row})"
    return Finding("error", one.row, "on", found, needed, "mend one of the two days", one.dam)


def _day(event: SeasonEvent) -> date:
    return event.on or date.min
