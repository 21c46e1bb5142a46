"""The log of one pairing: writing down what happened, and beginning its clutch. No widgets, no HTML."""

from __future__ import annotations

from datetime import date

from ...collection import CollectionError, SaveRefused, SeasonEvent, relation
from ...notation import capital
from ..choosing import Choice, choices, name_of
from ..clutch_disputes import Contradiction
from ..clutch_tab.clutch_form_model import ClutchFormModel, problem_of
from ..desk import Desk
from ..offers import Problem
from .season_plan_model import SeasonPlan
from .season_standing_model import SeasonStandings, Standing
from .season_words import related, second_in_words, tells_why, window

__all__ = ["DAY_EVENTS", "MALE_EVENTS", "SeasonDiary"]

MALE_EVENTS = ("introduced", "lock seen")
DAY_EVENTS = ("ovulation", "pre-lay shed", "laid")


class SeasonDiary:
    """dam: the female whose pairing is shown, "" for none."""

    def __init__(self, desk: Desk, standings: SeasonStandings, plan: SeasonPlan) -> None:
        self.desk, self.standings, self.plan = desk, standings, plan
        self.dam = ""

    def refresh(self) -> None:
        """Chooses anew where the pairing is gone."""
        found = [one.dam for one in self.standings.all]
        if self.dam not in found:
            self.dam = next(iter(found), "")

    @property
    def standing(self) -> Standing | None:
        return self.standings.of(self.dam) if self.dam else None

    @property
    def title(self) -> str:
        """The two by name."""
        one, animals = self.standing, self.desk.animals
        if one is None or animals is None:
            return ""
        return f"{name_of(animals[one.dam])} × {name_of(animals[one.sire]) if one.sire else 'nobody named'}"

    @property
    def facts(self) -> tuple[tuple[str, str], ...]:
        """(what, text) of the pairing that is shown."""
        one, animals = self.standing, self.desk.animals
        if one is None or animals is None or one.worth is None:
            return ()
        second = second_in_words(animals, one.second_worth) if one.second_worth else "nobody is named"
        facts = [
            ("why", " ".join(tells_why(one.worth, self.desk.target))),
            ("should he fail", second),
            ("related", f"{related(one.worth.relation)}; {one.worth.relation.lower_bound}"),
        ]
        if one.pairing.meetings:
            last = one.pairing.meetings[-1]
            lock = max((meeting for meeting in one.pairing.meetings if meeting.lock), key=lambda m: m.on, default=None)
            other = f" with {lock.sire}" if lock and lock.sire != last.sire else ""
            seen = f", a lock{other} was last seen {window(lock.on, lock.on, lock.on)}" if lock else ""
            seen = seen or ", no lock was seen yet"
            facts.append(("last with", f"{name_of(animals[last.sire])}, {window(last.on, last.on, last.on)}{seen}"))
        if one.sires:
            facts.append(("a clutch may be of", one.sires))
        others = (sire for sire in one.pairing.males if sire != one.sire)
        kin = ((sire, relation(animals, one.dam, sire)) for sire in others)
        facts += [(f"related to {sire}", related(found)) for sire, found in kin if found.kinship]
        return tuple(facts)

    @property
    def males(self) -> tuple[Choice, ...]:
        """Who may have been with her: those of the pairing first, then the others, ready or not."""
        one = self.standing
        first = [] if one is None else [one.sire, one.second, *one.pairing.males]
        found = [choice for choice in choices(self.desk, "sire") if self._male(choice.id)]
        return tuple(sorted(found, key=lambda choice: first.index(choice.id) if choice.id in first else len(first)))

    @property
    def entries(self) -> tuple[tuple[SeasonEvent, str], ...]:
        """What happened in her season, by day, each in words."""
        log, planned = self.standings.log, ("planned", "second choice")
        mine = [e for e in log or () if (e.season, e.dam) == (self.desk.first_season, self.dam)]
        mine = [event for event in mine if event.event not in planned]
        mine.sort(key=lambda e: (e.on or date.min, e.row))
        return tuple((event, _said(event)) for event in mine)

    def write(self, event: str, on: date | None, sire: str = "") -> tuple[Problem, ...]:
        """Writes an event of the pairing down; what is wrong with it, if anything."""
        one, animals = self.standing, self.desk.animals
        if one is None or animals is None:
            return (Problem("Choose a pairing in the table first."),)
        if on is None:
            return (Problem("Choose the day on which it was."),)
        if event in MALE_EVENTS and not sire:
            return (Problem("Choose the male that was with her."),)
        if event == "introduced":
            refused, self.plan.to_allow = self.standings.refusal(one.dam, sire)
            if refused:
                start = "This is not written as a pairing to go on with. If they were together, part them"
                return (*map(Problem, refused), Problem(f"{start}, and write down the lock if one was seen."))
        year, dam = self.desk.first_season, one.dam
        ahead = " That day is still to come: is it right?" if on > self.desk.now else ""
        said = f"{dam}: {event}{f' with {sire}' if event in MALE_EVENTS else ''}, {_day(on)}.{ahead}"
        if event in MALE_EVENTS and (kin := relation(animals, dam, sire)).kinship:
            said += f" {dam} and {sire}: {related(kin)}."
        return self.plan.change(
            f"writing down “{event}” of {dam}",
            lambda log: log.with_event(year, dam, event, sire=sire if event in MALE_EVENTS else "", on=on),
            said,
        )

    def take_out(self, event: SeasonEvent) -> tuple[Problem, ...]:
        """Takes an event out of the log again."""
        what = f"taking “{event.event}” of {event.dam} out"
        return self.plan.change(what, lambda log: log.without_event(event), f"{capital(_said(event))} is taken out.")

    @property
    def clutch(self) -> str:
        """The clutch of this laying in the clutch book; "" if there is none."""
        one = self.standing
        laid = one.pairing.laid if one is not None else None
        mine = (clutch for clutch in self.desk.book or () if clutch.dam == self.dam and clutch.laid == laid)
        return next((clutch.id for clutch in mine), "") if laid else ""

    @property
    def can_begin(self) -> bool:
        """Whether its clutch can be begun in the clutch book."""
        one = self.standing
        return bool(one and one.pairing.laid and one.sire and self.desk.book is not None and not self.clutch)

    def begin_clutch(self) -> tuple[Problem, ...]:
        """Begins the clutch in the clutch book: its dam, the males it may be of, the day; what stops that, if anything.

        The eggs and what hatches are written in the Clutch book tab.
        """
        log = self.standings.log
        assert log is not None
        row = log.clutch_row(self.desk.first_season, self.dam)
        key = ClutchFormModel(self.desk).texts["clutch"]
        self.plan.said = f"{key} is begun in the Clutch book: {row['dam']} by {row['sire']}, laid {row['laid']}."
        try:
            self.desk.write_clutch({"clutch": key, **row})
        except CollectionError as error:
            self.plan.said = ""
            if isinstance(error, SaveRefused | Contradiction):
                return tuple(Problem(str(finding)) for finding in error.findings)
            return tuple(problem_of(finding, {}) for finding in error.findings if finding.severity == "error")
        return ()

    def _male(self, key: str) -> bool:
        animals = self.desk.animals
        return animals is not None and animals[key].sex == "male"


def _said(event: SeasonEvent) -> str:
    sire = f" {'with ' if event.event in MALE_EVENTS else ''}{event.sire}" if event.sire else ""
    name = event.event if event.event != "given up" or event.sire else "season given up"
    on = f", {_day(event.on)}" if event.on else ""
    return f"{name}{sire}{on}{f' ({event.notes})' if event.notes else ''}"


def _day(on: date) -> str:
    return window(on, on, on).removeprefix("on ")
