"""The keeper's own figures, and what the chosen path takes of room and money. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

from ...collection import CollectionError, Finding, SaveRefused
from ...collection.purse import Purse, purse_file, purse_of, read_purse, save_purse
from ...collection.storage import read_text_if_any
from ...husbandry import season_name
from ...pairing import mean_text, percent
from ...planner import Costs, SeasonCost, costs
from ..book_keeping import refuse_if_changed
from ..desk import Desk
from ..offers import Problem
from .money_words import money
from .path_model import PathModel

__all__ = ["MoneyModel"]

NONE_YET = "Write any of your own figures; nothing is taken for granted in place of the others."
NO_PATH = "Once paths are found, the chosen one is reckoned by these figures."
BASIS = (
    "All animals kept now stay. A hatchling held back takes a place and costs from the season after it hatched; the "
    "others are sold before that. The path ends with the season in which the target hatches. Averages are over all "
    "that can happen; “at most” and “with luck” are the timetable of the best luck, in which every step is made once."
)


class MoneyModel:
    """purse: what was stated, from the file beside the collection. refused: what is wrong in that file. conflict: it
    could not be written, since another program changed it or for another reason."""

    def __init__(self, desk: Desk, paths: PathModel) -> None:
        self.desk, self.paths = desk, paths
        self.purse = Purse()
        self.refused: tuple[Finding, ...] = ()
        self.conflict = False
        self._read: Path | None = None
        self._text: str | None = None

    def catch_up(self) -> bool:
        """Reads the figures if another collection was opened since; whether that was so."""
        if self._read == self.desk.path:
            return False
        self.read_again()
        return True

    def read_again(self) -> None:
        """Takes up the figures as they are in their file now."""
        self._read, self.purse, self.refused, self._text = self.desk.path, Purse(), (), None
        self.conflict = False
        try:
            self._text = read_text_if_any(purse_file(self.desk.path))
            self.purse = read_purse(purse_file(self.desk.path))
        except CollectionError as error:
            self.refused = error.findings

    def state(self, texts: Mapping[str, str]) -> tuple[Problem, ...]:
        """Takes the figures and writes them beside the collection; what is wrong, if anything. Then nothing changes."""
        file, self.conflict = purse_file(self.desk.path), False
        try:
            purse = purse_of(texts)
            refuse_if_changed(file, self._text)
            save_purse(file, purse)
            self._text = read_text_if_any(file)
        except CollectionError as error:
            self.conflict = isinstance(error, SaveRefused)
            return tuple(Problem(str(finding)) for finding in error.findings)
        self.purse, self.refused = purse, ()
        return ()

    @property
    def problems(self) -> tuple[str, ...]:
        """What is wrong in the file of figures."""
        name = purse_file(self.desk.path).name
        return tuple(f"{name} was not read: {finding}" for finding in self.refused)

    @property
    def costs(self) -> Costs | None:
        """What the chosen path takes; None without a path or without any figure."""
        path, animals, purse = self.paths.path, self.desk.animals, self.purse
        if path is None or animals is None or (purse.upkeep, purse.places, purse.hatchling) == (None, None, None):
            return None
        return costs(path, animals, purse, husbandry=self.desk.care)

    @property
    def sentences(self) -> tuple[str, ...]:
        """The answer, one sentence for each figure that is stated."""
        found, path = self.costs, self.paths.path
        if found is None or path is None:
            stated = (self.purse.upkeep, self.purse.places, self.purse.hatchling) != (None, None, None)
            return (NO_PATH if stated else NONE_YET,)
        if not path.steps:
            return ("The target is owned already, so there is no path to reckon.", *self._room(found))
        return (*self._cost(found), *self._income(found), *self._room(found))

    @property
    def basis(self) -> str:
        """What the figures take for granted; "" while there are none."""
        found = self.costs
        return BASIS if found and found.seasons else ""

    @property
    def head(self) -> tuple[str, ...]:
        """The head of the table, with only what a figure was stated for."""
        purse = self.purse
        stated = {"places": purse.places, "cost, on average": purse.upkeep, "income, with luck": purse.hatchling}
        more = (name for name, figure in stated.items() if figure is not None)
        return ("season", "still without the target", "animals, on average", "animals, at most", *more)

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """One row a season, as `head`."""
        found = self.costs
        return tuple(self._row(one) for one in found.seasons) if found else ()

    def _row(self, one: SeasonCost) -> tuple[str, ...]:
        path = self.paths.path
        assert path is not None
        cells = [
            f"{one.season} ({season_name(path.start + one.season - 1, self.desk.care)})",
            percent(one.under_way),
            mean_text(one.animals),
            str(one.most),
        ]
        if self.purse.places is not None:
            cells.append(f"{self.purse.places}, {one.short} too few at most" if one.short else str(self.purse.places))
        if one.cost is not None:
            cells.append(self._money(one.cost))
        if one.income is not None:
            cells.append(self._money(one.income))
        return tuple(cells)

    def _cost(self, found: Costs) -> tuple[str, ...]:
        if found.cost is None or found.held_cost is None or found.most_cost is None:
            return ()
        extra = f" ({self._money(found.held_cost)} of it for what is held back)" if found.held_cost else ""
        within = f"at most {self._money(found.most_cost)} within season {found.seasons[-1].season}"
        return (f"Until the target hatches, your animals cost {self._money(found.cost)} on average{extra}; {within}.",)

    def _income(self, found: Costs) -> tuple[str, ...]:
        if found.income is None:
            return ()
        least = "at least " if found.sold_at_least else ""
        numbers = f"{mean_text(found.sold)} of {mean_text(found.hatchlings)} that hatch"
        return (f"The hatchlings that are not kept bring {least}{self._money(found.income)} on average ({numbers}).",)

    def _room(self, found: Costs) -> tuple[str, ...]:
        places = self.purse.places
        if places is None:
            return ()
        has, are = ("1 place", "is") if places == 1 else (f"{places:,} places", "are")
        if found.crowded is None:
            return (f"{has} {are} enough all along.",)
        if found.owned > places:
            return (f"{has} {are} too few for the {found.owned:,} animals that are kept now.",)
        path = self.paths.path
        assert path is not None
        first = next(one for one in found.seasons if one.short)
        when = f"season {first.season} ({season_name(path.start + first.season - 1, self.desk.care)})"
        return (f"{has} may be too few from {when} on, at the earliest: up to {first.most:,} animals then.",)

    def _money(self, amount: Fraction) -> str:
        return money(amount, self.purse.currency)
