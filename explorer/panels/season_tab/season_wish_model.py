"""What a keeper asks of this season: targets with weights, limits, pairings that must be or must not be. No widgets."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from ...genetics import genome_of
from ...husbandry import incubation
from ...notation import GenesError, read_wanted, write_shown
from ..choosing import name_of
from ..desk import Desk
from ..offers import Problem, offers

__all__ = ["BEST", "NO_LIMIT", "Pair", "SeasonWishes", "weight_of"]

Pair = tuple[str, str]

NO_LIMIT = 50
"""Percent: more than offspring of two animals can have, so that nothing is left out."""

BEST = 3
"""How many ways to share out the males are looked for."""


class SeasonWishes:
    """weight: of the desk's target, as typed; others: targets that the keeper added -> weight. per_male: females that a
    male may have. most_inbreeding: in percent; NO_LIMIT sets none. forced, forbidden: pairings, (dam, sire).

    eggs_c: degrees Celsius that all eggs of the season are kept at, as typed; "" for what the clutch book says, or else
    the catalogue.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.weight, self.eggs_c = "1", ""
        self.others: dict[str, str] = {}
        self.care, self.per_male = desk.care, desk.care.clutches_per_male
        self.most_inbreeding = NO_LIMIT
        self.forced: tuple[Pair, ...] = ()
        self.forbidden: tuple[Pair, ...] = ()

    @property
    def targets(self) -> dict[str, Fraction]:
        """Target -> weight; what cannot be read counts 1."""
        given = [(self.desk.target, self.weight), *self.others.items()]
        found: dict[str, Fraction] = {}
        for target, text in given:
            found[target] = found.get(target, Fraction(0)) + (weight_of(text) or Fraction(1))
        return found

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What cannot be used as it is typed."""
        typed = {self.desk.target: self.weight, **self.others}
        wrong = [target for target, text in typed.items() if weight_of(text) is None]
        found = [Problem(f"The weight of {target} has to be a number above 0.") for target in wrong]
        if self.eggs_c.strip() and self.degrees is None:
            found.append(Problem("Eggs are kept at 20 to 40 degrees Celsius; write a number, or leave it blank."))
        return tuple(found)

    @property
    def degrees(self) -> float | None:
        """What all eggs are kept at; None where that is not said, or cannot be."""
        try:
            typed = float(self.eggs_c.strip().replace(",", "."))
            incubation(typed, self.desk.catalogue)
        except ValueError:
            return None
        return typed

    def aim_too(self, text: str, weight: str) -> tuple[Problem, ...]:
        """Adds a target beside the desk's; what is wrong with it, if anything."""
        given = " ".join(text.split())
        if not given:
            return (Problem("Write what the animal must show, such as Leopard Pinstripe."),)
        if weight_of(weight) is None:
            return (Problem(f"The weight of {given} has to be a number above 0."),)
        try:
            target = write_shown(genome_of(self.desk.catalogue), read_wanted(given, self.desk.catalogue))
        except GenesError as error:
            said = f"Found {error.found}; needed {error.needed}. {error.advice[:1].upper()}{error.advice[1:]}."
            return (Problem(said, offers(given, error.found, error.nearest, "target")),)
        if target == self.desk.target or target in self.others:
            return (Problem(f"{target} is a target already; change its weight instead."),)
        self.others[target] = weight
        return ()

    def set_pair(self, dam: str, sire: str, wanted: bool) -> tuple[Problem, ...]:
        """Has a pairing made whatever it brings, or never; what is wrong with it, if anything."""
        if not dam or not sire:
            return (Problem("Choose a dam and a sire first."),)
        pair = dam, sire
        self.free_pair(pair)
        if wanted:
            self.forced = (*self.forced, pair)
        else:
            self.forbidden = (*self.forbidden, pair)
        return ()

    def free_pair(self, pair: Pair) -> None:
        """Leaves it open again whether a pairing is made."""
        self.forced = tuple(one for one in self.forced if one != pair)
        self.forbidden = tuple(one for one in self.forbidden if one != pair)

    @property
    def pairs(self) -> tuple[tuple[Pair, str], ...]:
        """The pairings that are set, each in words."""
        animals = self.desk.animals
        said = [(pair, "made in any case") for pair in self.forced] + [(pair, "never made") for pair in self.forbidden]
        return tuple(
            (pair, f"{name_of(animals[pair[0]])} with {name_of(animals[pair[1]])}: {how}")
            for pair, how in said
            if animals is not None and all(key in animals for key in pair)
        )

    def tidy(self) -> None:
        """Forgets pairings of animals that are gone, and a target that is the desk's now; takes up changed figures."""
        animals = self.desk.animals
        if self.care.clutches_per_male != self.desk.care.clutches_per_male:
            self.per_male = self.desk.care.clutches_per_male
        self.care = self.desk.care

        def here(pair: Pair) -> bool:
            roles = zip(pair, ("female", "male"), strict=True)
            return animals is not None and all(key in animals and animals[key].sex == sex for key, sex in roles)

        self.forced, self.forbidden = (tuple(filter(here, pairs)) for pairs in (self.forced, self.forbidden))
        self.others.pop(self.desk.target, None)

    @property
    def limit(self) -> Fraction | None:
        """The most inbreeding of offspring, as a share."""
        return None if self.most_inbreeding == NO_LIMIT else Fraction(self.most_inbreeding, 100)

    def options(self) -> dict[str, Any]:
        """What single pairings are judged by, as named arguments."""
        desk = self.desk
        return {
            "husbandry": desk.care,
            "today": desk.today,
            "without": desk.without,
            "allow": desk.allow,
            "most_inbreeding": self.limit,
            "forbidden": self.forbidden,
        }

    @property
    def question(self) -> tuple[object, ...]:
        """All that the answers depend on."""
        desk, animals = self.desk, self.desk.animals
        known: tuple[object, ...] = ()
        if animals is not None:
            laid = tuple((one.dam, one.season) for one in animals.log or () if one.event == "laid")
            known = animals.text, animals.knowledge, animals.clutches, laid, animals.weights and animals.weights.text
        asked = desk.today, desk.care, desk.without, desk.allow, tuple(self.targets.items())
        return (*known, *asked, self.per_male, self.most_inbreeding, self.forced, self.forbidden)


def weight_of(text: str) -> Fraction | None:
    """A weight as typed; None if it is no number above 0."""
    try:
        found = Fraction(text.strip().replace(",", "."))
    except (ValueError, ZeroDivisionError):
        return None
    return found if found > 0 else None
