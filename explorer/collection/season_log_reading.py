"""From the text of a season log to events that need no further checking, or to everything that is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from .beside import RowReader, refusing, sheet_of
from .fields import Fault, read_date
from .findings import Finding, nearest
from .season_log_events import EVENTS, MALE_EVENTS, SeasonEvent
from .season_log_order import order_findings
from .sheet import Layout, Sheet

if TYPE_CHECKING:
    from .animals import Collection

__all__ = ["LOG", "LOG_BLANK", "LogReading", "read_log_text"]

LOG = Layout(("season", "dam", "sire", "event", "on", "notes"), ("dam", "season", "event"), "event")
LOG_BLANK = "season,dam,sire,event,on,notes\n"
"""A season log with nothing in it."""

UNDATED = ("planned", "second choice", "given up")
"""Events that need no day."""

SEX_OF = {"dam": "female", "sire": "male"}
FIRST_YEAR, LAST_YEAR = 1950, 2100


@dataclass(frozen=True)
class LogReading:
    """A season log that could be read. events: in file order; findings: its notices."""

    sheet: Sheet
    events: tuple[SeasonEvent, ...]
    findings: tuple[Finding, ...]


def read_log_text(text: str, animals: Collection, file: str = "the season log") -> LogReading:
    """Reads the text of a season log. Raises CollectionError with all findings if one of them is an error."""
    sheet, findings = sheet_of(text, LOG, file)
    events = []
    for row in sheet.rows if set(LOG.required) <= set(sheet.columns) else ():
        if row.cells:
            event = _event(RowReader(row.line, sheet.values(row), findings), animals)
            events += [event] if event else []
    findings += order_findings(events)
    return LogReading(sheet, tuple(events), refusing(findings, LOG.columns, file))


def _event(reader: RowReader, animals: Collection) -> SeasonEvent | None:
    reader.key = reader.texts.get("dam", "")
    season, name = reader.field("season", _season), reader.field("event", _name)
    dam = _animal(reader, "dam", animals)
    sire = _animal(reader, "sire", animals) if reader.texts.get("sire") else ""
    on = reader.field("on", read_date)
    if name in MALE_EVENTS and not reader.texts.get("sire"):
        reader.fault("sire", f"no sire, and this is {_said(name)}", "the male", "write which male it is")
    if name and name not in UNDATED and not reader.texts.get("on"):
        reader.fault("on", f"no day, and this is {_said(name)}", "a day as YYYY-MM-DD", "write when it was")
    if season and on and not date(season - 1, 7, 1) <= on <= date(season + 2, 12, 31):
        needed = "a day of the season that starts in this year, or of the months after"
        reader.fault("on", f"{on} in season {season}", needed, "mend the season or the day")
    elif season and on and on.year > season + 1:
        found, advice = f"{on} in season {season}, two years after it began", "check the season and the day"
        reader.findings.append(Finding("notice", reader.line, "on", found, "", advice, reader.key))
    for role, key in (("dam", dam), ("sire", sire)):
        hatched = animals[key].hatched if key else None
        if on and hatched and on <= hatched:
            reader.fault(role, f"{key} hatched on {hatched}, and this is of {on}", "", "mend one of the two days")
    if not reader.sound or season is None or name is None or dam is None:
        return None
    return SeasonEvent(season, dam, name, sire or "", on, reader.texts.get("notes", ""), reader.line)


def _animal(reader: RowReader, role: str, animals: Collection) -> str | None:
    key = reader.texts.get(role, "")
    if key in animals:
        animal = animals[key]
        if animal.sex in (None, SEX_OF[role]):
            return key
        reader.fault(role, f"{key} is {animal.sex}", SEX_OF[role], f"mend its sex, or name another {role}")
        return None
    ids = [animal.id for animal in animals if animal.sex in (None, SEX_OF[role])]
    near = nearest(key, ids) if key else ()
    advice = f"Nearest: {', '.join(near)}" if near else "add it to the collection first"
    if not key:
        reader.fault(role, f"no {role}", "an animal of the collection", "write whose event it is")
    else:
        reader.fault(role, f"{key} is not in the collection", "an animal of the collection", advice)
    return None


def _season(text: str) -> int:
    """The year a season starts in: "2026", or "2026/27"."""
    parts = re.fullmatch(r"([0-9]{4})(?:[/-]([0-9]{2}|[0-9]{4}))?", text)
    if parts and FIRST_YEAR <= int(parts[1]) <= LAST_YEAR:
        year = int(parts[1])
        if parts[2] is None or int(parts[2]) in (year + 1, (year + 1) % 100):
            return year
    raise Fault(repr(text) if text else "no season", "the year in which the season starts", "write it like 2026")


def _name(text: str) -> str:
    name = re.sub(r"[\s_]+", " ", text.casefold())
    if name in EVENTS:
        return name
    near = nearest(name, EVENTS)
    advice = f"Nearest: {', '.join(near)}" if near else f"write one of {', '.join(EVENTS)}"
    raise Fault(repr(text) if text else "no event", f"one of {', '.join(EVENTS)}", advice)


def _said(name: str) -> str:
    known: Mapping[str, str] = {"planned": "a plan", "introduced": "an introduction", "laid": "a laying"}
    article = "an" if name.startswith("o") else "a"
    return known.get(name, f"{article} {name.removesuffix(' seen')}")
