"""Whether one more animal would shorten the way to a target, and by how much."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil, inf
from typing import Any

from ..catalogue import Sex
from ..collection import Animal, Collection
from ..collection.weight_history import weight_text
from ..genetics import exact
from ..husbandry import Husbandry, Readiness, readiness
from ..looks import carried, may_carry
from ..notation import read_wanted
from .path import Path
from .paths import find_paths
from .search import Progress

__all__ = ["Help", "OnOffer", "least_mean", "soonest_of", "surest", "would_help"]

NAME = "on offer"
TOLERANCE = 1e-9
"""A difference of chances or seasons that rounding alone can make."""


@dataclass(frozen=True)
class OnOffer:
    """An animal that could be bought. genes: in shorthand. weight_g, hatched: as far as they are known; without either
    it is taken as grown and ready to breed."""

    genes: str
    sex: Sex
    weight_g: float | None = None
    hatched: date | None = None


@dataclass(frozen=True)
class Help:
    """What one more animal would change, as far as two searches found.

    animal: it, as a member of the collection. ready: when it may breed. before: the paths that need not have it, using:
    those that do, both best first. missing_before, missing: a gene of the target that nobody carries without it, and
    with it; "" if none. possible: (gene of the target, chance that it carries it) where that is not certain. The keeper
    need not use it, so that no gain is less than 0.
    """

    animal: Animal
    ready: Readiness
    before: tuple[Path, ...]
    using: tuple[Path, ...]
    missing_before: str
    missing: str
    possible: tuple[tuple[str, Fraction], ...]

    @property
    def shows(self) -> bool:
        """Whether it shows the target itself."""
        return any(self.animal.id in path.owners for path in self.using)

    @property
    def surer(self) -> float:
        """How much greater the chance at the horizon becomes, from 0 to 1."""
        return self._gain(surest(self.using) - surest(self.before))

    @property
    def seasons_sooner(self) -> float:
        """How many seasons the least mean season comes earlier; inf if it becomes finite, 0 if it never is."""
        before, using = least_mean(self.before), least_mean(self.using)
        return 0.0 if using == inf else self._gain(before - using)

    @property
    def soonest_sooner(self) -> int:
        """How many seasons the soonest season comes earlier; 0 if there was no path before."""
        if not self.before or not self.using:
            return 0
        return max(0, soonest_of(self.before) - soonest_of(self.using))

    @property
    def helps(self) -> bool:
        return bool(self.surer or self.seasons_sooner or self.soonest_sooner)

    def _gain(self, difference: float) -> float:
        return difference if difference > TOLERANCE else 0.0


def would_help(
    animals: Collection,
    offered: OnOffer,
    target: str,
    seasons: int = 8,
    *,
    husbandry: Husbandry | None = None,
    today: date,
    allow: Iterable[str] = (),
    known: Sequence[Path] | None = None,
    progress: Progress | None = None,
    **options: Any,
) -> Help:
    """Searches for paths without this animal and with it, and sets the best of each beside the other.

    known: what `find_paths` found without it for the very same question; None to search for it here. options: further
    ones, as for `find_paths`; all hold for both searches. Nothing is known of the animal's parents, so that it counts
    as unrelated to all others. The search for paths is heuristic, and a path that does not use the animal is one that
    was there before, whichever search found it. Raises CollectionError if the genes cannot be read, GenesError if the
    target cannot.
    """
    allow = tuple(allow)
    care = husbandry or Husbandry(catalogue=animals.catalogue)
    tell: Progress = progress or (lambda share, text: None)
    tell(0.0, "taking it into the collection")
    more, key = _with(animals, offered, care)
    asked: dict[str, Any] = {"husbandry": care, "today": today, "allow": allow, **options}
    half = 0.0 if known is not None else 0.5

    def search(among: Collection, start: float, end: float, what: str) -> Sequence[Path]:
        def heard(share: float, text: str) -> None:
            tell(start + (end - start) * share, f"{what}: {text}")

        if _nobodys(among, target):
            return ()
        return find_paths(among, target, seasons, **asked, progress=heard)

    found = known if known is not None else search(animals, 0.0, half, "without it")
    then = search(more, half, 1.0, "with it")
    using = [path for path in then if key in path.ready or key in path.owners]
    before = sorted([*found, *(path for path in then if path not in using)], key=_rank)
    animal = more[key]
    state = readiness(animal, care, today, catalogue=animals.catalogue, allow=allow)
    missing = _nobodys(animals, target), _nobodys(more, target)
    return Help(animal, state, tuple(before), tuple(using), *missing, _possible(animal, target))


def soonest_of(paths: Sequence[Path]) -> int:
    """The first season in which any of the paths can give the target."""
    return min(path.soonest for path in paths)


def _with(animals: Collection, offered: OnOffer, care: Husbandry) -> tuple[Collection, str]:
    """The collection with the animal in it, and its id there."""
    key, number = NAME, 1
    while key in animals:
        number += 1
        key = f"{NAME} {number}"
    grams = offered.weight_g
    if grams is None and offered.hatched is None:
        grams = ceil(exact(care.sure_g(offered.sex)))
    row = {
        "id": key,
        "sex": offered.sex,
        "genes": offered.genes,
        "hatched": str(offered.hatched or ""),
        "weight_g": "" if grams is None else weight_text(grams),
        "status": "kept",
    }
    return animals.with_animal({name: text for name, text in row.items() if text}), key


def _nobodys(animals: Collection, target: str) -> str:
    """A gene of the target that no kept animal can carry, "" if there is none."""
    present = {gene for animal in animals if animal.status == "kept" for gene in may_carry(animal.genotype)}
    return next((gene for gene in read_wanted(target, animals.catalogue) if gene not in present), "")


def _possible(animal: Animal, target: str) -> tuple[tuple[str, Fraction], ...]:
    genotype = animal.genotype
    found = []
    for gene in read_wanted(target, animal.knowledge.catalogue):
        group = genotype.genome.home[gene][0]
        chance = sum((p for d, p in genotype.part(group).items() if carried(group, d).get(gene)), Fraction(0))
        if 0 < chance < 1:
            found.append((gene, chance))
    return tuple(found)


def _rank(path: Path) -> tuple[float, float]:
    return -path.chance_by_season[-1], path.expected_season


def surest(paths: Sequence[Path]) -> float:
    """The greatest chance at the horizon of any of the paths; 0 if there are none."""
    return max((path.chance_by_season[-1] for path in paths), default=0.0)


def least_mean(paths: Sequence[Path]) -> float:
    """The least mean season of any of the paths; inf if there are none."""
    return min((path.expected_season for path in paths), default=inf)
