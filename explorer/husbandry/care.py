"""How a keeper keeps: clutch sizes, waits, weights and the months of the season."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import inf
from numbers import Real
from typing import Any

from ..catalogue import Catalogue, Figure, load_catalogue
from ..genetics import egg_law, exact

__all__ = ["OWN", "Husbandry"]

OWN = "your own figure"

FROM_CATALOGUE: Any = None
"""Stands for the catalogue's own figure."""

RATES = ("hatch_rate", "lay_rate")
MONTHS = ("season_first_month", "season_last_month")
WEIGHTS = ("female_min_g", "male_min_g", "female_sure_g", "male_sure_g")
REST = "rest_seasons"
COUNTS = ("male_wait", "female_wait", "clutches_per_male", "female_grown_months", "male_grown_months")


@dataclass(frozen=True)
class Husbandry:
    """The numbers that plans start from. A field that is left out takes the catalogue's figure.

    eggs: eggs in a clutch, or number -> chance. hatch_rate: share of viable eggs that hatch. lay_rate: chance that a
    paired female lays in a season. male_wait, female_wait: seasons from hatching to breeding. *_min_g: least weight to
    breed at, in grams; *_sure_g: weight from which a missing hatch date does not matter. The season runs from the
    first day of season_first_month to the last day of season_last_month. *_grown_months: months from hatching to the
    least weight. rest_seasons: seasons that a female rests after one in which she laid. Raises ValueError if a number
    makes no sense.
    """

    eggs: int | Mapping[int, float | Fraction] = field(default=FROM_CATALOGUE, hash=False)
    hatch_rate: float | Fraction = FROM_CATALOGUE
    lay_rate: float | Fraction = FROM_CATALOGUE
    male_wait: int = FROM_CATALOGUE
    female_wait: int = FROM_CATALOGUE
    clutches_per_male: int = FROM_CATALOGUE
    female_min_g: float = FROM_CATALOGUE
    male_min_g: float = FROM_CATALOGUE
    female_sure_g: float = FROM_CATALOGUE
    male_sure_g: float = FROM_CATALOGUE
    season_first_month: int = FROM_CATALOGUE
    season_last_month: int = FROM_CATALOGUE
    female_grown_months: int = FROM_CATALOGUE
    male_grown_months: int = FROM_CATALOGUE
    rest_seasons: int = FROM_CATALOGUE
    catalogue: Catalogue | None = field(default=None, repr=False, compare=False)

    def __post_init__(self) -> None:
        given = {name for name in self._names() if getattr(self, name) is not None}
        for name in self._names():
            if name not in given:
                value = self._figure(name).value
                object.__setattr__(self, name, int(value) if value.denominator == 1 else value)
        for name in (*COUNTS, *WEIGHTS, *MONTHS, REST):
            number = getattr(self, name)
            _need(not isinstance(number, bool) and isinstance(number, Real) and number < inf, name, "a number", number)
        for sex in ("female", "male"):
            least, sure = getattr(self, f"{sex}_min_g"), getattr(self, f"{sex}_sure_g")
            if f"{sex}_sure_g" not in given and sure < least:
                object.__setattr__(self, f"{sex}_sure_g", least)
        self._check()

    @property
    def law(self) -> dict[int, Fraction]:
        """Number of eggs laid -> chance; sums to 1."""
        return egg_law(self.eggs)

    def least_g(self, sex: str) -> float:
        """The least weight to breed at, in grams."""
        return self.female_min_g if sex == "female" else self.male_min_g

    def sure_g(self, sex: str) -> float:
        """The weight in grams from which a missing hatch date does not matter."""
        return self.female_sure_g if sex == "female" else self.male_sure_g

    def wait(self, sex: str) -> int:
        """Seasons from hatching to breeding."""
        return self.female_wait if sex == "female" else self.male_wait

    def grown_months(self, sex: str) -> int:
        """Months from hatching to the least weight."""
        return self.female_grown_months if sex == "female" else self.male_grown_months

    def sources(self) -> dict[str, str]:
        """Field -> how its number is known, or that it is the keeper's own."""
        found = {}
        for name in self._names():
            figure = self._figure(name)
            found[name] = str(figure.evidence) if getattr(self, name) == figure.value else OWN
        return found

    def figure(self, name: str) -> int:
        """A whole number of the catalogue that is no setting of the keeper's. Raises UnknownName."""
        return int(self._figure(name).value)

    def _figure(self, name: str) -> Figure:
        return (self.catalogue or load_catalogue()).figure(name)

    @staticmethod
    def _names() -> tuple[str, ...]:
        return ("eggs", *RATES, *COUNTS, *WEIGHTS, *MONTHS, REST)

    def _check(self) -> None:
        egg_law(self.eggs)
        for name in RATES:
            _need(0 <= exact(getattr(self, name)) <= 1, name, "a chance from 0 to 1", getattr(self, name))
        for name in (*COUNTS, *MONTHS):
            value = getattr(self, name)
            _need(isinstance(value, int) and value >= 1, name, "a whole number from 1 up", value)
        rest = self.rest_seasons
        _need(isinstance(rest, int) and rest >= 0, REST, "a whole number from 0 up", rest)
        for name in MONTHS:
            _need(getattr(self, name) <= 12, name, "a month from 1 to 12", getattr(self, name))
        for name in WEIGHTS:
            _need(getattr(self, name) > 0, name, "grams, over 0", getattr(self, name))
        for sex in ("female", "male"):
            least, sure = self.least_g(sex), self.sure_g(sex)
            _need(sure >= least, f"{sex}_sure_g", f"at least {sex}_min_g, which is {float(least):g}", sure)


def _need(right: bool, name: str, needed: str, found: object) -> None:
    if not right:
        raise ValueError(f"{name}: needed {needed}; found {found!r}")
