"""Changes to the season's log: what is planned, and undoing it. No widgets, no HTML."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

from ...collection import CollectionError, SaveRefused, SeasonEvent, SeasonLog, SeasonPairing
from ...notation import capital
from ...pairing import names_in_words
from ..clutch_tab.clutch_form_model import problem_of
from ..desk import Desk
from ..offers import Problem
from .season_standing_model import SeasonStandings
from .season_wish_model import Pair

__all__ = ["SeasonPlan"]

Change = Callable[[SeasonLog], SeasonLog]


class SeasonPlan:
    """said: what came of the last thing done. to_allow: genes that the pairing refused last needs allowed. conflict:
    another program changed the log's file."""

    def __init__(self, desk: Desk, standings: SeasonStandings) -> None:
        self.desk, self.standings = desk, standings
        self.said = ""
        self.to_allow: tuple[str, ...] = ()
        self.conflict = False
        self._before: list[tuple[str, SeasonLog]] = []
        self._home: Path | None = None

    def write(self, dam: str, sire: str, second: str = "") -> tuple[Problem, ...]:
        """Writes a pairing into the plan, or changes it; what is wrong with it, if anything."""
        self.said = ""
        refused, self.to_allow = self.standings.refusal(dam, sire)
        if refused:
            return tuple(map(Problem, refused))
        if second == sire:
            return (Problem("The second choice has to be another male than the first."),)
        if second:
            refused, self.to_allow = self.standings.refusal(dam, second)
            if refused:
                return (Problem(f"{second} cannot be the second choice."), *map(Problem, refused))
        year = self.desk.first_season
        said = f"{dam} with {sire} is in the plan."
        return self.change(f"planning {dam} with {sire}", lambda log: _planned(log, year, dam, sire, second), said)

    def take(self, pairs: Iterable[tuple[Pair, str]]) -> tuple[Problem, ...]:
        """Takes up a way to share out the males in place of what was planned; what has begun stays as it is."""
        year, given = self.desk.first_season, list(pairs)
        begun = [one.dam for one in self.standings.all if _happened(one.pairing)]

        def change(log: SeasonLog) -> SeasonLog:
            for dam in log.pairings(year):
                if dam not in begun:
                    log = _unplanned(log, year, dam)
            for (dam, sire), second in given:
                if dam not in begun:
                    log = _planned(log, year, dam, sire, second)
            return log

        stay = "stays as it was, since it has" if len(begun) == 1 else "stay as they were, since they have"
        kept = f" {names_in_words(begun)} {stay} begun." if begun else ""
        return self.change("taking up the allotment", change, f"The allotment is the plan now.{kept}")

    def take_out(self, dam: str) -> tuple[Problem, ...]:
        """Takes a pairing out of the plan; where something has happened, her season is written down as given up."""
        year, one = self.desk.first_season, self.standings.of(dam)
        if one is None:
            return (Problem("Choose a pairing in the table first."),)
        if not _happened(one.pairing):
            return self.change(
                f"taking {dam} out", lambda log: _unplanned(log, year, dam), f"{dam} is out of the plan."
            )
        said = f"{dam}'s season is given up. What happened stays in the log."
        return self.change(f"giving up {dam}", lambda log: log.with_event(year, dam, "given up"), said)

    def step_in(self, dam: str) -> tuple[Problem, ...]:
        """Gives the male of a pairing up, and has the second choice step in for him."""
        year, one = self.desk.first_season, self.standings.of(dam)
        if one is None or not one.second:
            return (Problem("No second choice is named for her."),)
        refused, self.to_allow = self.standings.refusal(dam, one.second)
        if refused:
            return tuple(map(Problem, refused))
        failed, second = one.sire, one.second

        def change(log: SeasonLog) -> SeasonLog:
            log = log.with_event(year, dam, "given up", sire=failed)
            return _planned(log, year, dam, second, "")

        return self.change(f"giving up {failed} for {dam}", change, f"{second} steps in for {failed} with {dam}.")

    def change(self, what: str, make: Change, said: str) -> tuple[Problem, ...]:
        """Changes the log and saves it; what is wrong with that, if anything. said: what came of it."""
        before = self.standings.log
        assert before is not None
        self.said, self.conflict, self.to_allow = "", False, ()
        if self._home != self.desk.path:
            self._home, self._before = self.desk.path, []
        kept = list(self._before)
        try:
            changed = make(before)
            if changed.text != before.text:
                self._before.append((what, before))
                self.said = said
                self.desk.season.keep(changed)
        except CollectionError as error:
            self._before, self.said = kept, ""
            if isinstance(error, SaveRefused):
                self.conflict = True
                more = "Nothing was written. “read it again” takes up the file as it is now; then do this once more."
                return tuple(Problem(f"{finding.found}. {more}") for finding in error.findings)
            return tuple(problem_of(finding, {}) for finding in error.findings if finding.severity == "error")
        self.said = said
        return ()

    @property
    def undoable(self) -> str:
        """What `undo` would undo; "" if there is nothing."""
        return self._before[-1][0] if self._before and self._home == self.desk.path else ""

    def undo(self) -> tuple[Problem, ...]:
        """Puts the log back as it was before the last change made here; what stops that, if anything."""
        animals = self.desk.animals
        assert animals is not None
        (what, before), earlier = self._before[-1], self._before[:-1]
        problems = self.change(what, lambda _: before.beside(animals), f"{capital(what)} is undone.")
        if not problems:
            self._before = earlier
        return problems

    def read_again(self) -> None:
        """Takes up the log as it is in its file now; what was done before can no longer be undone."""
        self._before, self.conflict, self.said = [], False, ""
        self.desk.season.read_again()


def _happened(pairing: SeasonPairing) -> bool:
    return any((pairing.meetings, pairing.ovulated, pairing.shed, pairing.laid, pairing.given_up))


def _planned(log: SeasonLog, year: int, dam: str, sire: str, second: str) -> SeasonLog:
    """The log with this plan for a female; neither her season nor a male that is named is given up any more."""
    stale = {("given up", ""), ("given up", sire), ("given up", second)}
    log = _without(log, year, dam, lambda one: (one.event, one.sire) in stale)
    if log.pairing(year, dam).second_choice != second:
        log = _without(log, year, dam, lambda one: one.event == "second choice")
    log = log.with_event(year, dam, "planned", sire=sire)
    return log.with_event(year, dam, "second choice", sire=second) if second else log


def _unplanned(log: SeasonLog, year: int, dam: str) -> SeasonLog:
    return _without(log, year, dam, lambda one: one.event in ("planned", "second choice"))


def _without(log: SeasonLog, year: int, dam: str, gone: Callable[[SeasonEvent], bool]) -> SeasonLog:
    """The log without those events of a female."""
    while one := next((e for e in log if (e.season, e.dam) == (year, dam) and gone(e)), None):
        log = log.without_event(one)
    return log
