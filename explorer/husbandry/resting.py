"""Seasons in which a female laid, and those that she rests after."""

from __future__ import annotations

from datetime import date, timedelta

from ..collection import Animal
from .care import Husbandry
from .seasons import season_of_hatch, season_of_laying

__all__ = ["last_laid", "seasons_laid"]

INCUBATION = "laying_to_hatching_days_low"


def seasons_laid(animal: Animal, care: Husbandry) -> tuple[tuple[int, ...], tuple[str, ...]]:
    """The years in which the seasons start that a female laid in, the earliest first, and the clutches of hers without
    any day, which cannot be placed."""
    years, unplaced = set(), []
    for one in animal.layings:
        if one.season is not None:
            years.add(one.season)
        elif one.laid is not None:
            years.add(season_of_laying(one.laid, care))
        elif one.hatched is not None:
            years.add(season_of_hatch(one.hatched, care))
        else:
            unplaced.append(one.clutch)
    return tuple(sorted(years)), tuple(unplaced)


def last_laid(animal: Animal, care: Husbandry, today: date) -> date | None:
    """The day on which a female laid last, by `today`; the latest that it may be where only hatching is known."""
    least = timedelta(days=care.figure(INCUBATION))
    days = [one.laid or (one.hatched - least if one.hatched else None) for one in animal.layings]
    return max((day for day in days if day and day <= today), default=None)
