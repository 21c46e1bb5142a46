"""One female's season, put together from the log: who is meant for her, who was with her, and whose a clutch may be."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from .season_log_events import SeasonEvent

__all__ = ["Meeting", "SeasonPairing", "pairings_of"]


@dataclass(frozen=True)
class Meeting:
    """A male with a female. lock: whether they were seen locked."""

    sire: str
    on: date
    lock: bool


@dataclass(frozen=True)
class SeasonPairing:
    """What is written of one female in one season.

    planned, second_choice: males, "" if none is named. meetings: the earliest first. given_up: whether the female's
    season is given up; males_given_up: males that are.
    """

    season: int
    dam: str
    planned: str = ""
    second_choice: str = ""
    meetings: tuple[Meeting, ...] = ()
    ovulated: date | None = None
    shed: date | None = None
    laid: date | None = None
    given_up: bool = False
    males_given_up: tuple[str, ...] = ()

    @property
    def males(self) -> tuple[str, ...]:
        """The males that were with her, in the order in which they first were."""
        return tuple(dict.fromkeys(meeting.sire for meeting in self.meetings))

    @property
    def introduced(self) -> date | None:
        """When a male was first with her."""
        return self.meetings[0].on if self.meetings else None

    @property
    def locked(self) -> date | None:
        """When a lock was last seen."""
        return max((meeting.on for meeting in self.meetings if meeting.lock), default=None)

    @property
    def last_with(self) -> str:
        """The male that was with her last, "" if none was; of several on one day, one that was seen locked."""
        return self.meetings[-1].sire if self.meetings else ""

    def possible_sires(self, least_days: dict[str, int]) -> tuple[str, ...]:
        """The males whose a clutch of this season may be, the likeliest first.

        A lock counts for more than an introduction, and the later of two for more than the earlier. A male that first
        came too late to have fertilised her is left out. Where no male is written to have been with her, it is who was
        planned, or steps in for one that was given up. Sperm kept from earlier seasons is not thought of.
        least_days: "shed", "laid" -> the least days from ovulation to it.
        """
        if not self.meetings:
            planned = [sire for sire in (self.planned, self.second_choice) if sire]
            return tuple([sire for sire in planned if sire not in self.males_given_up][:1] or planned[:1])
        last = self._last_fertile(least_days)
        in_time = [one for one in self.meetings if last is None or one.on <= last] or list(self.meetings)
        best = {one.sire: max((m.lock, m.on) for m in in_time if m.sire == one.sire) for one in in_time}
        return tuple(sorted(best, key=lambda sire: (not best[sire][0], -best[sire][1].toordinal(), sire)))

    def _last_fertile(self, least_days: dict[str, int]) -> date | None:
        """The last day on which she can have been fertilised, as far as it is known."""
        if self.ovulated:
            return self.ovulated
        bounds = [(self.shed, least_days["shed"]), (self.laid, least_days["laid"])]
        return min((day - timedelta(days=days) for day, days in bounds if day), default=None)


def pairings_of(events: Iterable[SeasonEvent], season: int) -> dict[str, SeasonPairing]:
    """Female -> what is written of her in this season, in the order of their ids."""
    found: dict[str, list[SeasonEvent]] = {}
    for event in events:
        if event.season == season:
            found.setdefault(event.dam, []).append(event)
    return {dam: _pairing(season, dam, found[dam]) for dam in sorted(found)}


def _pairing(season: int, dam: str, mine: Sequence[SeasonEvent]) -> SeasonPairing:
    first = {one.event: one for one in reversed(mine)}
    days = {name: one.on for name, one in first.items()}
    meetings = {
        Meeting(one.sire, one.on, one.event == "lock seen")
        for one in mine
        if one.event in ("introduced", "lock seen") and one.on
    }
    gone = [one for one in mine if one.event == "given up"]
    return SeasonPairing(
        season,
        dam,
        first["planned"].sire if "planned" in first else "",
        first["second choice"].sire if "second choice" in first else "",
        tuple(sorted(meetings, key=lambda one: (one.on, one.lock, one.sire))),
        days.get("ovulation"),
        days.get("pre-lay shed"),
        days.get("laid"),
        any(not one.sire for one in gone),
        tuple(sorted({one.sire for one in gone if one.sire})),
    )
