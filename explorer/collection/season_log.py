"""The season log: what was planned and what happened with each female, in a file with a row for each event."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from .beside import FileBeside, content_of
from .season_log_events import ONCE, SeasonEvent
from .season_log_pairings import SeasonPairing, pairings_of
from .season_log_reading import LOG_BLANK, LogReading, read_log_text
from .sheet import Row
from .storage import real_path

if TYPE_CHECKING:
    from .animals import Collection

__all__ = ["SeasonLog", "read_season_log", "season_file"]

LEAST_DAYS = {"shed": "ovulation_to_shed_days_low", "laid": "ovulation_to_laying_days_low"}
"""Event -> the catalogue's figure for the least days from ovulation to it."""


def season_file(collection: str | os.PathLike[str]) -> Path:
    """Where the season log that goes with a collection file is kept."""
    return real_path(collection).with_suffix(".season.csv")


class SeasonLog(FileBeside):
    """The events of one file, in file order; made by `read_season_log` or `from_text`, and never changed."""

    def __init__(self, reading: LogReading, animals: Collection, seen: dict[Path, str]) -> None:
        super().__init__(reading.sheet, reading.findings, seen)
        self.events: tuple[SeasonEvent, ...] = reading.events
        self._animals = animals

    @classmethod
    def from_text(cls, text: str, animals: Collection) -> SeasonLog:
        """Reads the text of a season log. Raises CollectionError with all findings if one is an error."""
        return cls(read_log_text(text, animals), animals, {})

    def __iter__(self) -> Iterator[SeasonEvent]:
        return iter(self.events)

    def __len__(self) -> int:
        return len(self.events)

    @property
    def seasons(self) -> tuple[int, ...]:
        """The years in which the seasons start that something is written of, the earliest first."""
        return tuple(sorted({event.season for event in self.events}))

    def pairings(self, season: int) -> dict[str, SeasonPairing]:
        """Female -> what is written of her in the season that starts in this year, in the order of their ids."""
        return pairings_of(self.events, season)

    def pairing(self, season: int, dam: str) -> SeasonPairing:
        """What is written of one female in one season, which may be nothing."""
        return self.pairings(season).get(dam, SeasonPairing(season, dam))

    def possible_sires(self, season: int, dam: str) -> tuple[str, ...]:
        """The males whose a clutch of hers may be, the likeliest first: the last that was seen locked with her leads.

        Males that first came too late for it, by the least days from ovulation to laying, are left out.
        """
        least = {name: int(self._animals.catalogue.figure(figure).value) for name, figure in LEAST_DAYS.items()}
        return self.pairing(season, dam).possible_sires(least)

    def sire_text(self, season: int, dam: str) -> str:
        """The possible sires as the clutch book takes them: "M01", or "M04 or M01"; "" if nothing is known."""
        return " or ".join(self.possible_sires(season, dam))

    def clutch_row(self, season: int, dam: str) -> dict[str, str]:
        """The values for a new clutch of hers, as `ClutchBook.with_clutch` takes them, but for its name."""
        laid = self.pairing(season, dam).laid
        return {"dam": dam, "sire": self.sire_text(season, dam), "laid": laid.isoformat() if laid else ""}

    def with_event(
        self, season: int, dam: str, event: str, *, sire: str = "", on: date | None = None, notes: str = ""
    ) -> SeasonLog:
        """A new log with the event in a row at the end, or in place of one that is once a season.

        season: the year it starts in. Raises CollectionError with all that is wrong; nothing is changed then.
        """
        values = {"season": str(season), "dam": dam, "sire": sire, "event": event, "on": on.isoformat() if on else ""}
        values |= {"notes": notes} if notes else {}
        same = [one for one in self.events if (one.season, one.dam, one.event) == (season, dam, event)]
        if any((one.sire, one.on) == (sire, on) and notes in ("", one.notes) for one in same):
            return self
        sheet = self._sheet.with_columns(values)
        row = self._row_of(same[0]) if same and event in ONCE else None
        if row is None:
            return self._of(sheet.with_rows((*sheet.rows, sheet.new_row(values))).text, self._animals)
        texts = {name: text for name, text in values.items() if name != "season"}
        rows = [sheet.changed(one, texts) if one.line == row.line else one for one in sheet.rows]
        return self._of(sheet.with_rows(rows).text, self._animals)

    def without_event(self, event: SeasonEvent) -> SeasonLog:
        """A new log without this event. Raises KeyError if it is not in the log."""
        if event not in self.events:
            raise KeyError(f"no such event in the log: {event.event} of {event.dam}, season {event.season}")
        gone = self._row_of(event)
        rows = [row for row in self._sheet.rows if row is not gone]
        return self._of(self._sheet.with_rows(rows).text, self._animals)

    def beside(self, animals: Collection) -> SeasonLog:
        """The same log beside a collection that has changed. Raises CollectionError if they contradict each other."""
        return self._of(self.text, animals)

    def _row_of(self, event: SeasonEvent) -> Row:
        return next(row for row in self._sheet.rows if row.line == event.row)

    def _of(self, text: str, animals: Collection) -> SeasonLog:
        file = next((path.name for path in self._seen), "the season log")
        return SeasonLog(read_log_text(text, animals, file), animals, self._seen)


def read_season_log(path: str | os.PathLike[str], animals: Collection) -> SeasonLog:
    """Reads a season log beside its collection; there need not be one yet.

    Raises CollectionError, which holds all findings, if one of them is an error.
    """
    text, seen = content_of(path, LOG_BLANK)
    return SeasonLog(read_log_text(text, animals, real_path(path).name), animals, seen)
