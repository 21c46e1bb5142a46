"""The days of one pairing: what is looked for when, what is next, and the same as a band. No widgets, no HTML."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from ...collection import Clutch, SeasonPairing
from ...husbandry import Husbandry, pairing_dates, season_span
from ...notation import capital
from ...pictures.season_band import Stretch
from .season_words import window

__all__ = ["Day", "days_of", "next_in_words", "sources", "stretches"]

DONE = "written down"
MIDDLE, UNSOURCED = "likely: the middle", "from memory, there is no agreed figure"
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
    def bounded(self) -> bool:
        return self.earliest is not None and self.latest is not None

    @property
    def remarks(self) -> tuple[str, ...]:
        """What the note says beyond how the day was counted, which the source says too."""
        told = (note for note in self.note.split("; ") if note)
        return tuple(note for note in told if not note.startswith(MIDDLE) and UNSOURCED not in note)

    @property
    def words(self) -> str:
        """The window in words."""
        return window(self.earliest, self.likely, self.latest)

    @property
    def last_source(self) -> str:
        """Where the last of its intervals comes from; those before it are the sources of earlier events."""
        return self.source.split("; ")[-1]


def days_of(
    pairing: SeasonPairing, care: Husbandry, clutches: Iterable[Clutch], degrees: float | None, today: date
) -> tuple[tuple[Day, ...], str]:
    """The events of one female's season, and what in the clutch book cannot be together with the log; "" if nothing.

    Where they contradict each other, the log alone counts. Where nothing has happened, days are counted from today, or
    from the season's first day if that is still to come.
    """
    wrong, start = "", max(today, season_span(pairing.season, care)[0])
    try:
        table = pairing_dates(pairing, care, clutches=clutches, paired=start, incubation_c=degrees)
    except ValueError as error:
        wrong = f"The log and the clutch book contradict each other: {error}."
        table = pairing_dates(pairing, care, paired=start, incubation_c=degrees)
    columns = [table[name] for name in ("event", "earliest", "likely", "latest", "source", "note")]
    return tuple(Day(*cells) for cells in zip(*columns, strict=True)), wrong


def next_in_words(days: Sequence[Day], sire: str, today: date, *, afresh: bool = False) -> str:
    """What to look for next: "look for ovulation: 3 Jan to 9 May 2027, likely 10 Mar". sire: the male's id. afresh:
    whether he steps in for another and was not with her yet."""
    if afresh:
        return f"introduce {sire}"
    last = max((at for at, day in enumerate(days) if day.happened), default=-1)
    if last < 0:
        start = days[0].earliest or today
        later = f": from {window(start, None, start).removeprefix('on ')}" if start > today else ""
        return f"introduce {sire}{later}"
    ahead = next((day for day in days[last + 1 :] if day.known), None)
    if ahead is None:
        return "nothing more to look for"
    late = ahead.latest is not None and ahead.latest < today
    return f"{LOOKED_FOR[ahead.event]}: {ahead.words}{' (overdue: look now)' if late else ''}"


def stretches(days: Iterable[Day]) -> tuple[Stretch, ...]:
    """The events whose days are bounded, for a band."""
    return tuple(
        Stretch(day.event, day.earliest, day.likely or day.earliest, day.latest, day.happened)
        for day in days
        if day.earliest and day.latest
    )


def sources(days: Iterable[Day]) -> dict[str, str]:
    """Event -> where its days come from."""
    return {day.event: capital(day.last_source) for day in days}
