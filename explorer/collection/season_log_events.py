"""What is written of a season: who is meant for whom, who was with whom, and what was seen of each female."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from .clutch import Clutch

__all__ = ["EVENTS", "MALE_EVENTS", "ONCE", "Laying", "SeasonEvent", "layings"]

MALE_EVENTS = ("planned", "second choice", "introduced", "lock seen")
"""Events that a male has a part in."""

EVENTS = (*MALE_EVENTS, "ovulation", "pre-lay shed", "laid", "given up")
"""In the order in which they come. A pairing that is given up may name the male; without one the season is over."""

ONCE = ("planned", "second choice", "ovulation", "pre-lay shed", "laid")
"""Events that a female has once a season."""


@dataclass(frozen=True)
class SeasonEvent:
    """One row of a season log. season: the year it starts in. sire: "" where none is named. on: None if no day is."""

    season: int
    dam: str
    event: str
    sire: str = ""
    on: date | None = None
    notes: str = ""
    row: int = 0


@dataclass(frozen=True)
class Laying:
    """That a female laid. season: the year the season starts in, None if only days tell. clutch: its name, if any."""

    season: int | None
    laid: date | None
    hatched: date | None = None
    clutch: str = ""


def layings(clutches: Iterable[Clutch], events: Iterable[SeasonEvent]) -> Mapping[str, tuple[Laying, ...]]:
    """Female -> her layings, from the clutch book and the season log; one that both speak of (by its day) once."""
    found: dict[str, list[Laying]] = {}
    for event in events:
        if event.event == "laid":
            found.setdefault(event.dam, []).append(Laying(event.season, event.on))
    for clutch in clutches:
        mine = found.setdefault(clutch.dam, [])
        if clutch.laid is None or all(one.laid != clutch.laid for one in mine):
            mine.append(Laying(None, clutch.laid, clutch.hatched, clutch.id))
    return {dam: tuple(sorted(mine, key=_place)) for dam, mine in found.items()}


def _place(one: Laying) -> tuple[date, str]:
    return one.laid or one.hatched or date.min, one.clutch
