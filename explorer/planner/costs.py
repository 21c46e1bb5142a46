"""Room and money that a path takes, by the keeper's own figures alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..collection import Collection
from ..collection.purse import Purse
from ..genetics import exact
from ..husbandry import Husbandry
from ..pairing import cross
from .path import Path, Step

__all__ = ["Costs", "SeasonCost", "costs", "free_places"]


@dataclass(frozen=True)
class SeasonCost:
    """One season of a path, for the case that it begins without the target.

    season: from 1. under_way: chance of that case. animals: mean number in the house then. most: their number with the
    best luck so far, which is the most that there can be. cost: mean cost of the season. short: by how many `most` is
    over the places, 0 if it is not. income: for what is sold if each step is made once, with the best luck. An amount
    is None if the figure that it needs is not stated.
    """

    season: int
    under_way: Fraction
    animals: Fraction
    most: int
    cost: Fraction | None
    short: int
    income: Fraction | None


@dataclass(frozen=True)
class Costs:
    """What a path takes until the target hatches, or to the horizon if it does not.

    owned: animals kept now. seasons: those that can still begin without the target; none if it is owned already. cost:
    mean cost in all, a season counting as often as it is reached; held_cost: what of it is for animals held back;
    most_cost: if every season is reached, with `most` animals. hatchlings: mean number that hatch. sold: those of them
    that are neither held back nor the target; sold_at_least: whether that is a lower bound. income: for those. crowded:
    the first season in which the places may not do, None if they always do or are not stated. An amount is None if the
    figure that it needs is not stated.
    """

    owned: int
    seasons: tuple[SeasonCost, ...]
    cost: Fraction | None
    held_cost: Fraction | None
    most_cost: Fraction | None
    hatchlings: Fraction
    sold: Fraction
    sold_at_least: bool
    income: Fraction | None
    crowded: int | None


def costs(path: Path, animals: Collection, purse: Purse, *, husbandry: Husbandry | None = None) -> Costs:
    """Animals, cost and income of a path, season by season, as exact as the path's own chances are.

    What is taken for granted:
    - All animals that are kept now stay, and cost alike. No other is bought, sold or dies.
    - A hatchling hatches as its season ends. One that is held back takes a place and costs from the season after, and
      stays; all others are sold before that season, take no place and cost nothing.
    - The path is over with the season in which the target hatches; later seasons count nothing. The target is neither
      sold nor counted as an animal.
    - Prices do not change, and there is no interest.

    `animals` of a season, its cost, and the cost in all are means over everything that can happen. `most` is the
    timetable of the best luck: each clutch gave at once all that it was to give, except the target. Income counts every
    egg laid within the horizon by mean clutch size, hatch rate and the least share of viable eggs of any step. Once the
    target has hatched, all hatchlings to hold back are taken to have been held back, which is so unless an earlier step
    can give the target too: then `sold_at_least` is true.
    """
    care = husbandry or Husbandry(catalogue=animals.catalogue)
    owned = sum(animal.status == "kept" for animal in animals)
    keeps = [(step.season, keep) for step in path.steps for keep in step.keeps]
    done = [Fraction(0), *map(exact, path.chance_by_season)] if path.steps else []
    held = [sum((exact(keep.filled[k - 1]) for _, keep in keeps if k), Fraction(0)) for k in range(len(done))]
    yields = [_yield(step, animals, care) for step in path.steps]
    seasons = []
    for season, (reached, back) in enumerate(zip(done[:-1], held, strict=False), start=1):
        if reached == 1:
            break
        number, most = owned + back / (1 - reached), owned + sum(start < season for start, _ in keeps)
        short = 0 if purse.places is None else max(0, most - purse.places)
        cost, income = _times(number, purse.upkeep), _times(_sold_with_luck(path, yields, season), purse.hatchling)
        seasons.append(SeasonCost(season, 1 - reached, number, most, cost, short, income))
    hatchlings = exact(path.clutches) * min(yields, default=Fraction(0))
    sold = max(Fraction(0), hatchlings - held[-1] - (len(keeps) + 1) * done[-1]) if path.steps else Fraction(0)
    full = next((one.season for one in seasons if one.short), None)
    if (free_places(animals, purse) or 0) < 0:
        full = 1
    return Costs(
        owned,
        tuple(seasons),
        _times(sum((one.under_way * one.animals for one in seasons), Fraction(0)), purse.upkeep),
        _times(sum((one.under_way * (one.animals - owned) for one in seasons), Fraction(0)), purse.upkeep),
        _times(Fraction(sum(one.most for one in seasons)), purse.upkeep),
        hatchlings,
        sold,
        any(step.target_per_egg for step in path.steps[:-1]) or len(set(yields)) > 1,
        _times(sold, purse.hatchling),
        full,
    )


def free_places(animals: Collection, purse: Purse) -> int | None:
    """Places that the animals kept now leave free, less than 0 if they are too few; None if no number is stated."""
    return None if purse.places is None else purse.places - sum(animal.status == "kept" for animal in animals)


def _yield(step: Step, animals: Collection, care: Husbandry) -> Fraction:
    """The mean number of hatchlings of a clutch."""
    eggs = sum((size * chance for size, chance in care.law.items()), Fraction(0))
    return eggs * exact(care.hatch_rate) * cross(step.dam_genes, step.sire_genes, catalogue=animals.catalogue).viable


def _sold_with_luck(path: Path, yields: Sequence[Fraction], season: int) -> Fraction:
    """Hatchlings of the steps of this season, without those held back and the target."""
    last = path.steps[-1]
    made = [(step, hatched) for step, hatched in zip(path.steps, yields, strict=True) if step.season == season]
    return sum((max(Fraction(0), n - len(step.keeps) - (step is last)) for step, n in made), Fraction(0))


def _times(number: Fraction, price: Fraction | None) -> Fraction | None:
    return None if price is None else number * price
