"""An animal on offer: whether buying it would shorten the way to the target. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any, TypeVar

from ...catalogue import Sex
from ...collection import CollectionError
from ...collection.fields import Fault, read_date, read_weight
from ...collection.purse import read_amount
from ...notation import GenesError, capital, read_genes
from ...planner import Help, OnOffer, Progress, free_places, would_help
from ..desk import Desk
from ..offers import Problem, offers
from .money_model import MoneyModel
from .money_words import answer, cautions_in_words, money, remarks
from .path_model import NO_LIMIT, PathModel

__all__ = ["MoneyOfferModel", "OfferTexts"]

Value = TypeVar("Value")


@dataclass(frozen=True)
class OfferTexts:
    """The fields as the keeper left them. grown: it is adult and ready; then weight and hatched are not read."""

    genes: str
    sex: Sex
    price: str = ""
    grown: bool = True
    weight: str = ""
    hatched: str = ""


class MoneyOfferModel:
    """help: what the last search found; None before, or if it came to nothing; problem: why it did."""

    def __init__(self, desk: Desk, paths: PathModel, money_model: MoneyModel) -> None:
        self.desk, self.paths, self.money = desk, paths, money_model
        self.help: Help | None = None
        self.problem = ""
        self._asked: tuple[object, int, int, Fraction | None] = (None, 0, 0, None)
        self._answered: tuple[object, int, int, Fraction | None] = self._asked

    def begin(self, texts: OfferTexts) -> tuple[tuple[Problem, ...], Callable[[Progress], Help] | None]:
        """What is wrong with the fields; or the search, to be run anywhere; its result goes to `found` or `failed`."""
        desk, animals = self.desk, self.desk.animals
        problems: list[Problem] = []
        if animals is None:
            return (Problem("No collection is open. Open a file in the Collection tab."),), None
        self._check_genes(texts, problems)
        price = _field("price", texts.price, read_amount, problems)
        weight: float | None = None
        hatched: date | None = None
        if not texts.grown:
            weight = _field("weight in g", texts.weight, read_weight, problems)
            hatched = _field("hatched", texts.hatched, read_date, problems)
            if weight is None and hatched is None and not problems:
                problems.append(Problem("Found neither weight nor hatch date; needed one of them, best both."))
        if problems:
            return tuple(problems), None
        limit = self.paths.most_inbreeding
        known = self.paths.paths if self.paths.paths and not self.paths.stale else None
        options: dict[str, Any] = {
            "husbandry": desk.care,
            "today": desk.today,
            "without": desk.without,
            "testable": desk.testable,
            "allow": desk.allow,
            "most_inbreeding": None if limit == NO_LIMIT else Fraction(limit, 100),
            "known": known,
        }
        target, seasons = desk.target, self.paths.seasons
        offered = OnOffer(texts.genes, texts.sex, weight, hatched)
        self._asked = (self._question(), seasons, desk.first_season, price)

        def search(progress: Progress) -> Help:
            return would_help(animals, offered, target, seasons, **options, progress=progress)

        return (), search

    def found(self, found: Help) -> None:
        """Takes the result of a search."""
        self.help, self.problem, self._answered = found, "", self._asked

    def failed(self, error: BaseException) -> None:
        """Takes what stopped a search. Raises it again if it is nothing that the keeper can mend."""
        self.help, self.problem, self._answered = None, "", self._asked
        if not isinstance(error, (CollectionError, GenesError)):
            raise error
        self.problem = capital(str(error).rstrip(".")) + "."

    @property
    def answer(self) -> str:
        """The answer in a sentence; "" before the first search."""
        if self.help is None:
            return self.problem
        _, seasons, start, price = self._answered
        cost = "" if price is None else money(price, self.money.purse.currency)
        return answer(self.help, seasons, start, self.desk.care, cost)

    @property
    def cautions(self) -> tuple[str, ...]:
        """What speaks against the animal itself, with its evidence."""
        return cautions_in_words(self.help) if self.help else ()

    @property
    def remarks(self) -> tuple[str, ...]:
        """What the answer rests on, and what the animal would take."""
        if self.help is None:
            return ()
        question, _, start, _ = self._answered
        lines = ["Something has changed since; ask again."] if question != self._question() else []
        return (*lines, *self._upkeep(), *remarks(self.help, start, self.desk.care))

    def _upkeep(self) -> list[str]:
        purse, animals = self.money.purse, self.desk.animals
        said = []
        if purse.upkeep is not None:
            said.append(f"It would cost {money(purse.upkeep, purse.currency)} a season to keep.")
        free = free_places(animals, purse) if animals is not None else None
        if free is not None and free <= 0:
            said.append("There is no free place for it now.")
        return said

    def _check_genes(self, texts: OfferTexts, problems: list[Problem]) -> None:
        if not texts.genes.strip():
            problems.append(Problem("genes: found nothing; needed its genes in shorthand, Normal if it shows none."))
            return
        try:
            read_genes(texts.genes, texts.sex, self.desk.catalogue)
        except GenesError as error:
            said = f"genes: found {error.found}; needed {error.needed}. {capital(error.advice)}."
            problems.append(Problem(said, offers(texts.genes, error.found, error.nearest, "genes")))

    def _question(self) -> object:
        desk, paths = self.desk, self.paths
        asked = desk.animals, desk.target, desk.without, desk.allow, desk.testable, desk.today
        return *asked, desk.care, paths.seasons, paths.most_inbreeding


def _field(name: str, text: str, read: Callable[[str], Value], problems: list[Problem]) -> Value | None:
    try:
        return read(text.strip())
    except Fault as fault:
        problems.append(Problem(f"{name}: found {fault.found}; needed {fault.needed}. {capital(fault.advice)}."))
        return None
