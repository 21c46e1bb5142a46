"""The season as bands, as a sheet to print and as a calendar file, from the pairings that count. No widgets."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

from ...collection.storage import real_path, write_text
from ...husbandry import incubation_table, season_name
from ...husbandry.saying import day_in_words
from ...pictures.calendar_file import CalendarEntry, calendar_file, calendar_untouched
from ...pictures.printed_page import untouched
from ...pictures.season_band import Band
from ...pictures.season_sheet import SheetPairing, season_sheet
from ..choosing import name_of
from ..desk import Desk
from .season_days import sources, stretches
from .season_standing_model import SeasonStandings, Standing
from .season_words import related, second_in_words, tells_why

__all__ = ["SeasonPages"]

REMARK = (
    "Dates are windows, not appointments; each rests on those above it in its table. Export again after writing down "
    "what happened: entries move, and are not doubled. Ask a veterinarian who knows reptiles, and your authority on "
    "local law and CITES."
)


class SeasonPages:
    """Everything that leaves the screen. A pairing that may not be made, or is given up, is on none of it."""

    def __init__(self, desk: Desk, standings: SeasonStandings) -> None:
        self.desk, self.standings = desk, standings

    @property
    def bands(self) -> tuple[Band, ...]:
        """One for each pairing that counts."""
        return tuple(self._band(one) for one in self.standings.counted)

    @property
    def sheet_file(self) -> Path:
        return real_path(self.desk.path).with_suffix(".season.html")

    @property
    def calendar_path(self) -> Path:
        return real_path(self.desk.path).with_suffix(".season.ics")

    def sheet(self, headline: str, meaning: str) -> str:
        """The sheet as a page. headline, meaning: what the season comes to, and what its number means."""
        pairings = [self._sheet_pairing(one) for one in self.standings.counted]
        remarks = [meaning, f"Made on {day_in_words(self.desk.now)} {self.desk.now.year} from {self.desk.path.name}."]
        return season_sheet(self.title, headline, pairings, self._warmth(), self.desk.now, remarks, self._references())

    def write_sheet(self, headline: str, meaning: str) -> tuple[str, Path | None]:
        """Writes the sheet beside the collection; the page, and the backup of what lay there if it was none of ours.

        Raises SaveRefused.
        """
        page = self.sheet(headline, meaning)
        return page, write_text(self.sheet_file, page, needless=untouched)

    def calendar(self) -> str:
        """The calendar file's text."""
        entries = [entry for one in self.standings.counted for entry in self._entries(one)]
        return calendar_file(self.title, entries, self.desk.now).decode("utf-8")

    def write_calendar(self) -> tuple[str, Path | None]:
        """Writes the calendar file; its text, and a backup as `write_sheet`. Raises SaveRefused."""
        text = self.calendar()
        return text, write_text(self.calendar_path, text, needless=calendar_untouched)

    @property
    def title(self) -> str:
        """The season and whose it is."""
        return f"Season {season_name(self.desk.first_season, self.desk.care)}: {self.desk.path.stem}"

    def _warmth(self) -> list[tuple[str, str, str]]:
        """(temperature, days from laying to hatching or what else is said of it, source)."""
        made = []
        for row in incubation_table(self.desk.catalogue).to_dict("records"):
            low, high = f"{row['celsius_low']:g}", f"{row['celsius_high']:g}"
            days = row["note"] or f"{row['days_low']} to {row['days_high']} days"
            made.append((f"{low} °C" if low == high else f"{low} to {high} °C", days, row["source"]))
        return made

    def _references(self) -> list[str]:
        """The published sources of those figures."""
        said = " ".join(incubation_table(self.desk.catalogue)["source"])
        return [f"{one.key}: {one.reference}" for one in self.desk.catalogue.sources.values() if one.key in said]

    def _band(self, one: Standing) -> Band:
        second = f"second choice: {self._name(one.second)}" if one.second else "no second choice"
        return Band(self._pair(one), second, stretches(one.days))

    def _sheet_pairing(self, one: Standing) -> SheetPairing:
        worth = one.worth
        notes = dict.fromkeys(note for day in one.days for note in day.remarks)
        notes |= {f"{day.event}: {day.words}": None for day in one.days if day.known and not day.bounded}
        return SheetPairing(
            self._band(one),
            tells_why(worth, self.desk.target) if worth else (),
            self._second(one),
            related(worth.relation) if worth else "",
            (*self.standings.cautions(one), *one.trouble),
            sources(one.days),
            tuple(notes),
        )

    def _entries(self, one: Standing) -> list[CalendarEntry]:
        cautions = "".join(f"Caution: {text}\n" for text in (*self.standings.cautions(one), *one.trouble))
        made = []
        for day in one.days:
            first, last = day.earliest or day.latest, day.latest or day.earliest
            if first is None or last is None:
                continue
            text = f"{day.event}: {day.words}\nSource: {day.source}\n{f'{day.note}{chr(10)}' if day.note else ''}"
            key = sha256(repr((one.pairing.season, one.dam, day.event)).encode()).hexdigest()[:24]
            title = f"{day.event}{'' if day.bounded else f' {day.words}'}: {self._pair(one)}"
            made.append(CalendarEntry(key, title, first, last, f"{text}{cautions}{REMARK}"))
        return made

    def _second(self, one: Standing) -> str:
        animals = self.desk.animals
        return second_in_words(animals, one.second_worth) if animals is not None and one.second_worth else ""

    def _pair(self, one: Standing) -> str:
        return f"{self._name(one.dam)} × {self._name(one.sire) or 'nobody named'}"

    def _name(self, key: str) -> str:
        animals = self.desk.animals
        return name_of(animals[key]) if animals is not None and key else ""
