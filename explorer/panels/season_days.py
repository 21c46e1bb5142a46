"""The days of one pairing: what is looked for when, what is next, and the same as a band. No widgets, no HTML."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from ..collection import Clutch, SeasonPairing
from ..husbandry import Husbandry, pairing_dates
from ..notation import capital
from ..pictures.season_band import Stretch
from .season_words import window

__all__ = ["Day", "days_of", "next_in_words", "sources", "stretches"]

DONE, PLANNED = "written down", "planned"
LOOKED_FOR = {
    "ovulation": "look for ovulation",
    "pre-lay shed": "look for the pre-lay shed",
    "lay": "expect the eggs",
    "hatch": "expect hatchlings",
    "first shed": "look for the first shed",
    "first meal": "offer the first meal",
}


@dataclass(frozen=True)
class Day:
    """An event and the days between which it lies; None where an end is open. source, note: as `season_dates` says."""

    event: str
    earliest: date | None
    likely: date | None
    latest: date | None
    source: str
    note: str

    @property
    def happened(self) -> bool:
        return self.source == DONE

    @property
    def known(self) -> bool:
        return self.earliest is not None or self.latest is not None

    @property
    def words(self) -> str:
        """The window in words."""
        return window(self.earliest, self.likely, self.latest)

    @property
    def last_source(self) -> str:
        """Where the last of its intervals comes from; those before it are the sources of earlier events."""
        return self.source.split("; ")[-1]


def days_of(
    pairing: SeasonPairing, care: Husbandry, clutches: Iterable[Clutch], degrees: float | None
) -> tuple[tuple[Day, ...], str]:
    """The events of one female's season, and what in the clutch book cannot be together with the log; "" if nothing.

    Where they contradict each other, the log alone counts.
    """
    wrong = ""
    try:
        table = pairing_dates(pairing, care, clutches=clutches, incubation_c=degrees)
    except ValueError as error:
        wrong = f"The log and the clutch book contradict each other: {error}."
        table = pairing_dates(pairing, care, incubation_c=degrees)
    columns = [table[name] for name in ("event", "earliest", "likely", "latest", "source", "note")]
    return tuple(Day(*cells) for cells in zip(*columns, strict=True)), wrong


def next_in_words(days: Sequence[Day], sire: str, today: date) -> str:
    """What to look for next: "look for ovulation: 3 Jan to 9 May 2027, likely 10 Mar". sire: the male's id."""
    last = max((at for at, day in enumerate(days) if day.happened), default=-1)
    if last < 0:
        start = days[0].earliest or today
        return f"introduce {sire}" + (f": from {window(start, None, start).removeprefix('on ')}" if start > today else "")
    ahead = next((day for day in days[last + 1 :] if day.known), None)
    if ahead is None:
        return "nothing more to look for"
    late = ahead.latest is not None and ahead.latest < today
    return f"{LOOKED_FOR[ahead.event]}: {ahead.words}{' (overdue: look now)' if late else ''}"


def stretches(days: Iterable[Day]) -> tuple[Stretch, ...]:
    """The events whose days are bounded, for a band; one that is only planned is left out."""
    return tuple(
        Stretch(day.event, day.earliest, day.likely or day.earliest, day.latest, day.happened)
        for day in days
        if day.earliest and day.latest and day.source != PLANNED
    )


def sources(days: Iterable[Day]) -> dict[str, str]:
    """Event -> where its days come from."""
    return {day.event: capital(day.last_source) for day in days}
