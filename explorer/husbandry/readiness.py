"""Whether an animal may breed this season, since when or from when, and what speaks against it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from ..catalogue import Catalogue, Caution
from ..collection import Animal, Weights
from ..looks import carried
from ..notation import genes_named
from .care import Husbandry
from .growth import Basis, growth_of, latest_weighing
from .known import WEIGH, Known
from .resting import last_laid, seasons_laid
from .saying import weight_remarks
from .seasons import first_season, season_name

__all__ = ["Readiness", "State", "readiness"]

State = Literal["ready", "not yet", "not to be bred"]


@dataclass(frozen=True)
class Readiness:
    """Whether an animal may be paired in season 1.

    season: the first season it may breed in, counted from 1; None if that cannot be said. reasons: why it is not
    ready. about: the name of that season, "" if it is ready or there is none. cautions: welfare problems recorded of
    what it shows; barring: those of them that keep it out of plans until the keeper allows their genes. weight_g,
    weighed_on: the weight that counts now. needed_g: the least weight. rate: grams a month by its own weighings, None
    if they do not tell. expected: the day on which it should weigh enough, None if it does or that cannot be said;
    basis: what that day is from, "" if there is none. resting: it is a female that rests after a clutch. because: the
    whole of it in words. remarks: what could not be taken into account, and what speaks against the weight. away: it
    is not kept.
    """

    ready: bool
    season: int | None
    reasons: tuple[str, ...] = ()
    about: str = ""
    cautions: tuple[Caution, ...] = ()
    barring: tuple[Caution, ...] = ()
    weight_g: float | None = None
    weighed_on: date | None = None
    needed_g: float | None = None
    rate: float | None = None
    expected: date | None = None
    basis: Basis = ""
    resting: bool = False
    because: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    away: bool = False

    @property
    def barred(self) -> bool:
        """Whether a caution keeps it out of plans."""
        return bool(self.barring)

    @property
    def state(self) -> State:
        """Ready; not yet; or not to be bred: not kept, kept out by a caution, or resting after a clutch."""
        if self.away or self.barred or self.resting:
            return "not to be bred"
        return "ready" if self.ready else "not yet"

    @property
    def words(self) -> str:
        """Why, in one line: "1,320 g on 2 Nov; 1,500 g needed; at 45 g a month ready for next season"."""
        return "; ".join(self.because)

    def __str__(self) -> str:
        """A short line for a table; cautions are said apart."""
        if self.ready:
            return "ready"
        if self.season is None:
            return ", ".join(self.reasons)
        if self.reasons == (WEIGH,):
            return f"weigh it: {WEIGH}"
        kind = "resting" if self.resting else "not yet"
        return f"{kind}: {', '.join(self.reasons)}; about season {self.about}"


def readiness(
    animal: Animal,
    care: Husbandry,
    today: date,
    catalogue: Catalogue | None = None,
    allow: Iterable[str] = (),
    *,
    weights: Weights | None = None,
    laid: Iterable[int] | None = None,
) -> Readiness:
    """Whether an animal may breed in the first season not over at `today`.

    Status, sex, age, weight and, for a female, her last clutch decide; a weight without a day counts as current.
    allow: names of genes, or "all", whose cautions no longer bar an animal. weights: its weighings, by default those
    that its collection was given. laid: the years in which the seasons start that she laid in, by default those of the
    clutches and the season log that its collection was given.
    """
    book = catalogue or animal.knowledge.catalogue
    cautions = _cautions(animal, book)
    allowed = genes_named(allow, book, (gene.name for gene in book.genes))
    barring = tuple(one for one in cautions if _bars(one) and not one.allowed_by(allowed))
    weighings = animal.weighings if weights is None else weights.of(animal.id)
    now = latest_weighing(weighings, today)
    away = animal.status != "kept"
    why = animal.status if away else "sex unknown"
    found = Readiness(
        *(False, None, (why,), "", cautions, barring),
        weight_g=now.grams if now else None,
        weighed_on=now.on if now else None,
        because=(*(f"kept out of plans by a caution: {one.text}" for one in barring), why),
        away=away,
    )
    if away or animal.sex is None:
        return found
    years, unplaced = seasons_laid(animal, care) if laid is None else (tuple(sorted(laid)), ())
    first, least = first_season(today, care), care.least_g(animal.sex)
    light = now is None or now.grams < least
    since = last_laid(animal, care, today)
    growth = growth_of(animal, weighings, least, care, today, since) if light else None
    known = Known(animal, care, today, first, now, growth, tuple(year for year in years if year <= first))
    season = known.season
    return replace(
        found,
        ready=not known.reasons,
        season=None if season is None else season - first + 1,
        reasons=known.reasons,
        about="" if season is None or not known.reasons else season_name(season, care),
        needed_g=least,
        rate=growth.rate if growth else None,
        expected=growth.expected if growth else None,
        basis=growth.basis if growth else "",
        resting=known.free > first,
        because=(*found.because[:-1], *known.because),
        remarks=(
            *weight_remarks(weighings, now, today, since),
            *(f"clutch {name} has no day, so no rest is counted after it" for name in unplaced),
        ),
    )


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
