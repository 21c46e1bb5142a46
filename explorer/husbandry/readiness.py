"""Whether an animal may breed this season, since when or from when, and what speaks against it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from ..catalogue import Catalogue, Caution
from ..collection import Animal
from ..looks import carried
from ..notation import genes_named
from .care import Husbandry
from .seasons import first_season, season_name, season_of_hatch

__all__ = ["Readiness", "readiness"]

WEIGH = "no weight is written"


@dataclass(frozen=True)
class Readiness:
    """Whether an animal may be paired in season 1.

    season: the first season it may breed in, counted from 1; None if that cannot be said. reasons: why it is not
    ready. about: the name of that season, "" if it is ready or there is none. cautions: welfare problems recorded of
    what it shows. barred: one of them keeps it out of plans until the keeper allows its genes.
    """

    ready: bool
    season: int | None
    reasons: tuple[str, ...] = ()
    about: str = ""
    cautions: tuple[Caution, ...] = ()
    barred: bool = False

    def __str__(self) -> str:
        """One line for the screen; cautions are said apart."""
        if self.ready:
            return "ready"
        if self.season is None:
            return ", ".join(self.reasons)
        if self.reasons == (WEIGH,):
            return f"weigh it: {WEIGH}"
        return f"not yet: {', '.join(self.reasons)}; about season {self.about}"


def readiness(
    animal: Animal, care: Husbandry, today: date, catalogue: Catalogue | None = None, allow: Iterable[str] = ()
) -> Readiness:
    """Whether an animal may breed in the first season not over at `today`.

    Status, sex, age and weight decide; a weight without a day counts as current. allow: names of genes, or "all",
    whose cautions no longer bar an animal.
    """
    book = catalogue or animal.knowledge.catalogue
    cautions = _cautions(animal, book)
    allowed = genes_named(allow, book, (gene.name for gene in book.genes))
    barred = any(_bars(caution) and not caution.allowed_by(allowed) for caution in cautions)
    if animal.status != "kept":
        return Readiness(False, None, (animal.status,), "", cautions, barred)
    if animal.sex is None:
        return Readiness(False, None, ("sex unknown",), "", cautions, barred)
    first = first_season(today, care)
    reasons, season = [], 1
    least = care.least_g(animal.sex)
    light = animal.weight_g is None or animal.weight_g < least
    if animal.hatched is not None:
        of_age = season_of_hatch(animal.hatched, care) + care.wait(animal.sex)
        if of_age > first:
            reasons.append("too young")
            season = of_age - first + 1
        if light:
            grown = first_season(_months_later(animal.hatched, care.grown_months(animal.sex)), care)
            season = max(season, grown - first + 1)
    elif light or (animal.weight_g or 0) < care.sure_g(animal.sex):
        reasons.append("hatch date missing")
    if light:
        reasons.append(WEIGH if animal.weight_g is None else f"{least:,.0f} g needed")
    if not reasons:
        return Readiness(True, 1, (), "", cautions, barred)
    season = max(2, season)
    return Readiness(False, season, tuple(reasons), season_name(first + season - 1, care), cautions, barred)


def _cautions(animal: Animal, catalogue: Catalogue) -> tuple[Caution, ...]:
    """The cautions on what the animal carries for certain."""
    copies: dict[str, int] = {}
    genotype = animal.genotype
    for name in genotype.varying:
        group = genotype.genome.by_name[name]
        tables = [carried(group, diplotype) for diplotype in genotype.parts[name]]
        for gene in tables[0]:
            copies[gene] = min(table.get(gene, 0) for table in tables)
    return catalogue.cautions_of(copies, animal.sex)


def _bars(caution: Caution) -> bool:
    return caution.keeps_out or caution.severity == "infertile"


def _months_later(day: date, months: int) -> date:
    """The same day so many months on, or the first of the next month if that month has no such day."""
    year, month = divmod(day.month - 1 + months, 12)
    try:
        return date(day.year + year, month + 1, day.day)
    except ValueError:
        return date(day.year + year + (month == 11), (month + 1) % 12 + 1, 1)
