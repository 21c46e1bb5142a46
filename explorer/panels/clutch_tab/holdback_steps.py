"""Which step of the best path to the target a hatchling would take, if it were held back. No widgets, no HTML."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import count
from typing import Any

from ...collection import Collection, CollectionError
from ...collection.clutch import Clutch
from ...husbandry import Husbandry
from ...pairing import names_in_words, percent
from ...pairing.holdbacks import Holdback
from ...planner import Path, Step, UnreachableTarget, find_paths, season_title
from ..background import Progress
from ..choosing import name_of

__all__ = ["SEASONS", "Use", "animal_row", "unusable", "use_in_words", "uses"]

SEASONS = 8
"""How far the paths look ahead."""


@dataclass(frozen=True)
class Use:
    """What a hatchling does for the best path if it alone is held back.

    animals: the collection with it; id: its own in there. path: the best path of that collection, None if there is
    none. before: chance of the target by the horizon without it.
    """

    animals: Collection
    id: str
    path: Path | None
    before: float

    @property
    def chance(self) -> float:
        """Chance of the target by the horizon with it."""
        return _chance(self.path)

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps of the path in which it is paired."""
        return tuple(step for step in (self.path.steps if self.path else ()) if self.id in (step.dam, step.sire))


def animal_row(clutch: Clutch, one: Holdback, key: str) -> dict[str, str]:
    """Column -> text of a hatchling as an animal of the collection."""
    row = {
        "id": key,
        "sex": one.hatchling.row.sex or "unknown",
        "genes": one.label,
        "hatched": str(clutch.hatched or ""),
        "dam": clutch.dam,
        "sire": one.hatchling.sire or "",
        "clutch": clutch.id,
        "status": "kept",
    }
    return {column: text for column, text in row.items() if text}


def unusable(clutch: Clutch, one: Holdback) -> str:
    """What is not written yet of a hatchling, so that no path can count on it; "" if nothing is missing."""
    missing = [] if one.hatchling.row.sex else ["its sex"]
    missing += [] if clutch.hatched else ["the day it hatched"]
    are = "are" if len(missing) > 1 else "is"
    return f"no path can count on it before {names_in_words(missing)} {are} written" if missing else ""


def uses(
    animals: Collection,
    clutch: Clutch,
    ranked: Sequence[Holdback],
    target: str,
    options: Mapping[str, Any],
    progress: Progress,
) -> tuple[Use | None, ...]:
    """What each of the hatchlings does for the best path; None for those that no path can use, as `unusable` says.

    options: of `find_paths`. progress: told the share of the work that is done; it may raise to stop the work.
    """
    found: list[Use | None] = [None] * len(ranked)
    tried = [place for place, one in enumerate(ranked) if one.recommended and not unusable(clutch, one)]
    key = next(name for n in count(1) if (name := f"hatchling-{n}") not in animals)
    before = _chance(_best(animals, target, options, _part(progress, 0, len(tried)))) if tried else 0.0
    for done, place in enumerate(tried, start=1):
        try:
            more = animals.with_animal(animal_row(clutch, ranked[place], key))
        except CollectionError:
            continue
        found[place] = Use(more, key, _best(more, target, options, _part(progress, done, len(tried))), before)
    return tuple(found)


def use_in_words(use: Use, care: Husbandry) -> str:
    """Which steps it could take, bred to whom, and what that changes; or that the best path does without it."""
    if use.path is None:
        return f"no path reaches the target within {SEASONS} seasons, with it or without"
    if not use.steps:
        return "" if use.path.owners else "the best path does without it"
    said = names_in_words(_role(use, use.path, step, care) for step in use.steps)
    now, before = percent(use.chance), percent(use.before)
    odds = f"{now} with it or without" if now == before else f"{now} with it, {before} without"
    return f"could be {said}; the target by season {SEASONS}: {odds}"


def _role(use: Use, path: Path, step: Step, care: Husbandry) -> str:
    dam = step.dam == use.id
    mate, genes = (step.sire, step.sire_genes) if dam else (step.dam, step.dam_genes)
    unborn = f"a {'male' if dam else 'female'} still to hatch ({genes})"
    who = name_of(use.animals[mate]) if mate in use.animals else unborn
    return f"the {'dam' if dam else 'sire'} in {season_title(path, step.season, care)}, bred to {who}"


def _best(animals: Collection, target: str, options: Mapping[str, Any], progress: Progress) -> Path | None:
    try:
        return next(iter(find_paths(animals, target, SEASONS, **options, progress=progress)), None)
    except UnreachableTarget:
        return None


def _chance(path: Path | None) -> float:
    return path.chance_by_season[-1] if path else 0.0


def _part(progress: Progress, done: int, parts: int) -> Progress:
    text = f"looking for the best path with hatchling {done} of {parts}" if done else "looking for the best path"
    return lambda share, _: progress((done + share) / (parts + 1), text)
