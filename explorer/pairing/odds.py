"""Two animals' offspring, in numbers and in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cached_property
from itertools import islice
from numbers import Integral

import pandas as pd

from ..catalogue import Catalogue
from ..genetics import Brood, Diplotype, Event, Group, egg_law, exact, expected_eggs
from ..genetics import at_least as chance_of_at_least
from ..looks import (
    BroodCaution,
    Look,
    absent_events,
    brood_cautions,
    exact_events,
    look_remarks,
    shown,
    wanted_events,
)
from ..notation import read_wanted, texts_of, write_diplotypes, write_shown
from .likeliest import likeliest

__all__ = ["Offspring"]


class Offspring:
    """What a pairing can produce. Chances are among viable hatchlings unless they say "in a clutch" or "of eggs"."""

    def __init__(self, brood: Brood, catalogue: Catalogue) -> None:
        self.brood = brood
        self.catalogue = catalogue

    @property
    def viable(self) -> Fraction:
        """Share of eggs whose genotype is viable."""
        return self.brood.viable

    @cached_property
    def cautions(self) -> tuple[BroodCaution, ...]:
        """Welfare cautions that some eggs meet, each with its share of all eggs laid."""
        return brood_cautions(self.catalogue, self.brood)

    def looks(self) -> pd.DataFrame:
        """All looks: columns look, nickname, probability (float), fraction (Fraction), cautions; likeliest first.

        Equally likely looks come in catalogue order, what does not show first. Probabilities sum to 1. With many
        segregating loci this table is large; `top_looks` does not build it.
        """
        return self._look_table(None)

    def top_looks(self, n: int) -> pd.DataFrame:
        """The first n rows of `looks`, without building the full table."""
        return self._look_table(_count(n, "looks"))

    def genotypes(self) -> pd.DataFrame:
        """All genotypes by sex: columns genotype (shorthand), sex, probability, fraction; likeliest first."""
        choices = [
            sorted(self.brood.distribution(group).items(), key=lambda item: (-item[1], item[0]))
            for group in self.brood.groups
        ]
        names = [group.name for group in self.brood.groups]
        rows: dict[tuple[str, str], Fraction] = {}
        if all(choices):
            for diplotypes, chance in likeliest(choices):
                at = dict(zip(names, diplotypes, strict=True))
                key = (write_diplotypes(self.brood.genome, at), self.brood.genome.sex_of(at["sex"]))
                rows[key] = rows.get(key, Fraction(0)) + chance
        ordered = sorted(rows.items(), key=lambda item: (-item[1], item[0]))
        return pd.DataFrame(
            [(text, sex, float(chance), chance) for (text, sex), chance in ordered],
            columns=["genotype", "sex", "probability", "fraction"],
        )

    def chance(self, target: str, *, exactly: bool = False, without: Iterable[str] = ()) -> Fraction:
        """Chance that one hatchling shows at least the target's genes; `exactly`: these and nothing else visible.

        without: genes that must not show. Raises GenesError if a text cannot be read.
        """
        return self.brood.chance(self.events(target, exactly=exactly, without=without))

    def chance_in_clutch(
        self,
        target: str,
        *,
        eggs: int | Mapping[int, float | Fraction],
        at_least: int = 1,
        hatch_rate: float | Fraction = 1,
        exactly: bool = False,
        without: Iterable[str] = (),
    ) -> Fraction:
        """Chance that at least `at_least` hatchlings of one clutch are what is asked for.

        eggs: number laid, or {number: chance}. hatch_rate: chance that a viable egg hatches. Clutch mates share
        their parents' true genotypes, so an uncertain parent is averaged over whole clutches, not over eggs.
        """
        fewest = _count(at_least, "hatchlings")
        rate = checked_rate(hatch_rate)
        rates: dict[Fraction, Fraction] = {}
        for q, weight in self.brood.rates(self.events(target, exactly=exactly, without=without)).items():
            rates[q * rate] = rates.get(q * rate, Fraction(0)) + weight
        return chance_of_at_least(rates, egg_law(eggs), fewest)

    def expected_in_clutch(
        self,
        target: str,
        *,
        eggs: int | Mapping[int, float | Fraction],
        hatch_rate: float | Fraction = 1,
        exactly: bool = False,
        without: Iterable[str] = (),
    ) -> Fraction:
        """Mean number of hatchlings of one clutch that are what is asked for; arguments as in `chance_in_clutch`."""
        mean = expected_eggs(egg_law(eggs))
        chance = self.chance(target, exactly=exactly, without=without)
        return mean * checked_rate(hatch_rate) * chance * self.viable

    def events(self, target: str, *, exactly: bool = False, without: Iterable[str] = ()) -> dict[str, Event]:
        """For each group that the question is about, whether a diplotype answers it."""
        genome = self.brood.genome
        wanted = read_wanted(target, self.catalogue)
        if exactly:
            found = exact_events(genome, wanted, self.brood.groups)
        else:
            found = wanted_events(genome, wanted)
        texts = texts_of(without)
        unwanted = [gene for text in texts for gene in read_wanted(text, self.catalogue)]
        for name, event in absent_events(genome, unwanted).items():
            found[name] = _both(found[name], event) if name in found else event
        return found

    def _look_table(self, n: int | None) -> pd.DataFrame:
        genome = self.brood.genome
        choices = [self._group_looks(group) for group in self.brood.groups]
        rows = []
        if all(choices):
            for parts, chance in islice(likeliest(choices), n):
                look = {name: copies for part in parts for name, copies in part}
                rows.append((look, write_shown(genome, look), chance))
        return pd.DataFrame(
            [
                (
                    text,
                    nickname.name if (nickname := self.catalogue.nickname_of(text)) else "",
                    float(chance),
                    chance,
                    "; ".join(look_remarks(self.catalogue, look)),
                )
                for look, text, chance in rows
            ],
            columns=["look", "nickname", "probability", "fraction", "cautions"],
        )

    def _group_looks(self, group: Group) -> list[tuple[Look, Fraction]]:
        found: dict[Look, Fraction] = {}
        for diplotype, chance in self.brood.distribution(group).items():
            look = shown(group, diplotype)
            found[look] = found.get(look, Fraction(0)) + chance
        return sorted(found.items(), key=lambda item: (-item[1], item[0]))


def checked_rate(hatch_rate: float | Fraction) -> Fraction:
    """The hatch rate as a fraction. Raises ValueError if it does not lie from 0 to 1."""
    rate = exact(hatch_rate)
    if not 0 <= rate <= 1:
        raise ValueError(f"a hatch rate lies from 0 to 1, found {hatch_rate}")
    return rate


def _count(number: int, what: str) -> int:
    if not isinstance(number, int | Integral) or number < 0:
        raise ValueError(f"a number of {what} from 0 up is needed, found {number!r}")
    return int(number)


def _both(one: Event, two: Event) -> Event:
    def event(diplotype: Diplotype) -> bool:
        return one(diplotype) and two(diplotype)

    return event
