"""What a keeper asks of a season: weighted targets, how many females a male may have, pairings set by hand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..collection import Collection
from ..genetics import exact
from ..husbandry import Husbandry
from ..pairing import ProgressToward, Standing

__all__ = ["ImpossibleAllotment", "Pair", "Wish", "pairs_of", "room_of", "wishes_of"]

HEAVIEST = 1_000_000
"""The greatest weight of a target."""

Pair = tuple[str, str]
"""Ids of a dam and a sire."""


class ImpossibleAllotment(ValueError):
    """Pairings were asked for that cannot be made. problems: one sentence each."""

    def __init__(self, problems: Iterable[str]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(self.problems))


@dataclass(frozen=True)
class Wish:
    """A target with its weight. target: as it was first written. toward: how progress toward it is reckoned."""

    target: str
    weight: Fraction
    toward: ProgressToward


def wishes_of(
    animals: Collection,
    targets: Mapping[str, float | Fraction] | str,
    care: Husbandry,
    without: Iterable[str],
    allow: Iterable[str],
) -> tuple[Wish, ...]:
    """The targets in the order given; those that read the same are one, with the sum of their weights.

    A text alone is a target of weight 1. Raises GenesError if a text cannot be read, ValueError if there is no target
    or a weight is no number above 0 and at most a million.
    """
    if not isinstance(targets, str | Mapping):
        raise ValueError(f"targets are a text, or target -> weight; found {targets!r}")
    given = {targets: 1} if isinstance(targets, str) else dict(targets)
    if not given:
        raise ValueError("a season needs a target, such as {'Leopard Pinstripe': 1}; found none")
    found: dict[tuple[tuple[str, int], ...], Wish] = {}
    for text, number in given.items():
        try:
            weight = exact(number)
        except ValueError:
            weight = Fraction(0)
        if isinstance(number, bool) or not 0 < weight <= HEAVIEST:
            needed = f"a number above 0 and at most {HEAVIEST:,}"
            raise ValueError(f"the weight of a target is {needed}; found {number!r} for {text!r}")
        standing = Standing.of(animals.catalogue, text, without=without, allow=allow)
        key = tuple(standing.wanted.items())
        if key in found:
            found[key] = Wish(found[key].target, found[key].weight + weight, found[key].toward)
        else:
            toward = ProgressToward(standing, eggs=care.law, hatch_rate=care.hatch_rate, lay_rate=care.lay_rate)
            found[key] = Wish(text, weight, toward)
    return tuple(found.values())


def room_of(animals: Collection, per_male: int | Mapping[str, int] | None, care: Husbandry) -> dict[str, int]:
    """How many females each male may have. per_male: for all, or id -> number; for others the husbandry's number.

    Raises KeyError if there is no such animal, ValueError for a female's id or what is no number from 0 up.
    """
    males = {animal.id for animal in animals if animal.sex == "male"}
    own = per_male if isinstance(per_male, Mapping) else {}
    for key in own:
        if animals[key].id not in males:
            raise ValueError(f"per_male gives a number of females for {key}, which is no male")
    general = care.clutches_per_male if per_male is None or isinstance(per_male, Mapping) else per_male
    for number in (general, *own.values()):
        if not isinstance(number, int) or isinstance(number, bool) or number < 0:
            raise ValueError(f"per_male is a whole number of females from 0 up, or one for each id; found {number!r}")
    return {key: own.get(key, general) for key in males}


def pairs_of(animals: Collection, given: Iterable[Pair], what: str) -> tuple[Pair, ...]:
    """Pairs of a dam and a sire, each once, in the order of their ids. what: the name of the option, for messages.

    Raises KeyError if there is no such animal, ValueError for what is no pair of a female and a male.
    """
    found = set()
    for pair in given:
        if isinstance(pair, str) or len(tuple(pair)) != 2:
            raise ValueError(f"{what} takes pairs of ids, such as [('F03', 'M02')]; found {pair!r}")
        dam, sire = pair
        for key, sex in ((dam, "female"), (sire, "male")):
            if animals[key].sex != sex:
                is_a = animals[key].sex or "animal of unknown sex"
                raise ValueError(f"{what} takes (dam, sire); in ({dam}, {sire}) {key} is a {is_a}, not a {sex}")
        found.add((dam, sire))
    return tuple(sorted(found))
