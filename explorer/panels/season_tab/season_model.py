"""What the Season tab says and does. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from typing import Any

from ...collection import Finding, SaveRefused, season_file
from ...husbandry import season_name
from ...pairing import names_in_words
from ..choosing import name_of
from ..desk import Desk
from ..offers import Problem
from .season_days import next_in_words
from .season_diary_model import SeasonDiary
from .season_pages_model import SeasonPages
from .season_plan_model import SeasonPlan
from .season_shares_model import SeasonShares
from .season_standing_model import SeasonStandings, Standing
from .season_wish_model import SeasonWishes
from .season_words import cautions_in_short, expected, headline_of, meaning, related, second_in_words, worth_of_chosen

__all__ = ["TABLE", "SeasonModel"]

TABLE = (
    {"key": "dam", "label": "dam", "kind": "text"},
    {"key": "sire", "label": "sire", "kind": "text"},
    {"key": "second", "label": "should he fail", "kind": "text"},
    {"key": "why", "label": "why", "kind": "text"},
    {"key": "related", "label": "related", "kind": "text"},
    {"key": "cautions", "label": "cautions", "kind": "text"},
    {"key": "next", "label": "next", "kind": "text"},
)


class SeasonModel:
    """wishes: what is asked of the season. shares: ways to share out the males. standings: the pairings that were
    chosen; plan: changes to them; diary: the log of one. pages: what leaves the screen.

    page, calendar: what was exported last, "" once something else was done.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.wishes = SeasonWishes(desk)
        self.shares = SeasonShares(desk, self.wishes)
        self.standings = SeasonStandings(desk, self.wishes)
        self.plan = SeasonPlan(desk, self.standings)
        self.diary = SeasonDiary(desk, self.standings, self.plan)
        self.pages = SeasonPages(desk, self.standings)
        self.page = self.calendar = ""
        self._shown = (desk.path, desk.first_season)
        self.refresh()

    def refresh(self) -> None:
        """Takes up what changed on the desk."""
        self.wishes.tidy()
        self.page = self.calendar = ""
        if self._shown != (self.desk.path, self.desk.first_season):
            self._shown = (self.desk.path, self.desk.first_season)
            self.plan.said, self.shares.open = "", False
        self.diary.refresh()

    @property
    def blocker(self) -> str:
        """Why nothing can be planned; "" if it can."""
        if self.desk.animals is None:
            return "No collection is open. Open a file in the Collection tab."
        if self.standings.log is None:
            name = season_file(self.desk.path).name
            return f"{name} could not be read. Mend what is listed here, and read it again."
        return ""

    @property
    def season(self) -> str:
        """The season's name."""
        return season_name(self.desk.first_season, self.desk.care)

    @property
    def headline(self) -> str:
        """The answer in a sentence or two."""
        if self.blocker:
            return self.blocker
        counted = self.standings.counted
        if not counted:
            marked = any(one.trouble and not one.pairing.given_up for one in self.standings.all)
            start = "No pairing in the plan may be made" if marked else "No pairing is chosen yet"
            if missing := self._missing:
                return f"{start} for season {self.season}. {missing}"
            return f"{start} for season {self.season}. Press “share the males” to see the best ways."
        return self._comes_to(counted)

    @property
    def _missing(self) -> str:
        """What there is to pair at all that the collection has none of; "" if it has both."""
        sexes = {animal.sex for animal in self.desk.animals or () if animal.status == "kept"}
        none = [sex for sex in ("male", "female") if sex not in sexes]
        return f"There is no {' and no '.join(none)} that is kept. Add one in the Collection tab." if none else ""

    @property
    def meaning(self) -> str:
        """What the number in the headline means; "" without one."""
        return "" if self.blocker or not self.standings.counted else meaning(self.desk.care)

    @property
    def remarks(self) -> tuple[str, ...]:
        """What else to know of the plan: what may not be made, who has more females than was set, remarks on files."""
        if self.blocker:
            return ()
        out = [one for one in self.standings.all if one.trouble and not one.pairing.given_up]
        said = [text for one in out for text in one.trouble]
        males = [one.sire for one in self.standings.counted if one.sire]
        for sire in sorted(set(males)):
            if males.count(sire) > self.wishes.per_male:
                said.append(f"{sire} has {males.count(sire)} females; you set {self.wishes.per_male} a male.")
        log = self.standings.log
        return (*said, *(str(finding) for finding in (log.findings if log is not None else ())))

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is wrong in files that could not be read."""
        return self.desk.season.refused if self.blocker else ()

    @property
    def rows(self) -> list[dict[str, Any]]:
        """The pairings, for a table: those that count first."""
        found = sorted(self.standings.all, key=lambda one: not one.counts)
        return [self._row(one) for one in found]

    @property
    def begin_with(self) -> tuple[str, str, str]:
        """Dam, sire and second choice for the form: of the pairing that is shown."""
        one = self.diary.standing
        return (one.dam, one.sire, one.second) if one is not None else ("", "", "")

    def sex_of(self, key: str) -> str:
        """The sex of an animal, "" if it is not known."""
        animals = self.desk.animals
        return (animals[key].sex or "") if animals is not None else ""

    def write_sheet(self) -> tuple[Problem, ...]:
        """Writes the sheet to print; what stops that, if anything."""
        try:
            page, backup = self.pages.write_sheet(self.headline, self.meaning)
        except SaveRefused as error:
            return tuple(Problem(str(finding)) for finding in error.findings)
        self.plan.said = f"The sheet is written in {self.pages.sheet_file.name}.{_kept(backup)}"
        self.page, self.calendar = page, ""
        return ()

    def write_calendar(self) -> tuple[Problem, ...]:
        """Writes the calendar file; what stops that, if anything."""
        try:
            text, backup = self.pages.write_calendar()
        except SaveRefused as error:
            return tuple(Problem(str(finding)) for finding in error.findings)
        self.plan.said = f"The calendar is written in {self.pages.calendar_path.name}.{_kept(backup)}"
        self.page, self.calendar = "", text
        return ()

    def allow(self, gene: str, allowed: bool) -> None:
        """Lets a gene into plans in spite of its cautions, or keeps it out again, for every tab."""
        now = tuple(name for name in self.desk.allow if name != gene)
        self.plan.to_allow = ()
        self.desk.aim(self.desk.target, self.desk.without, (*now, gene) if allowed else now)

    def _comes_to(self, counted: tuple[Standing, ...]) -> str:
        pairs, chosen = [(one.dam, one.sire) for one in counted], self.standings.chosen
        if chosen is None:
            return headline_of(pairs, "No male is named.")
        value, by_target = chosen.summed(one.dam for one in counted)
        return headline_of(pairs, expected(value, by_target, chosen.targets))

    def _row(self, one: Standing) -> dict[str, Any]:
        animals = self.desk.animals
        assert animals is not None
        worth = one.worth
        met = cautions_in_short(worth) if worth is not None else ""
        row: dict[str, Any] = {
            "id": one.dam,
            "dam": name_of(animals[one.dam]),
            "sire": name_of(animals[one.sire]) if one.sire else "nobody named",
            "second": second_in_words(animals, one.second_worth) if one.second_worth else "nobody",
            "why": worth_of_chosen(worth) if worth else "",
            "related": related(worth.relation) if worth else "",
            "cautions": met or "none recorded",
            "next": next_in_words(one.days, one.sire, self.desk.now, afresh=one.afresh),
        }
        if one.pairing.given_up:
            return {**row, "mark": "not-ready", "word": "given up", "next": "nothing: given up"}
        if not one.counts:
            out = [animals[key].id for key in (worth.unfit if worth else ())]
            word = f"not to be paired: {names_in_words(out)} not ready" if out else "not to be made"
            return {**row, "mark": "not-ready", "word": word, "next": "do not pair them"}
        return {**row, "mark": "caution" if met else "", "word": "ovulated; no longer ready" if one.trouble else ""}


def _kept(backup: Any) -> str:
    there = "What lay there before was not made here, or was changed by hand; it is kept as"
    return f" {there} {backup.name}." if backup else ""
