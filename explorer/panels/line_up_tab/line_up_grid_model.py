"""What every male and every female of a collection could give together: the numbers behind the grid. No widgets."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ...catalogue import Caution
from ...collection import Animal, Collection
from ...genetics import Group, exact
from ...husbandry import Husbandry
from ...looks import brood_cautions, may_carry
from ...pairing import Couples, Offspring, ProgressToward, Standing
from ..background import Progress
from ..desk import Desk
from .line_up_aim import Aim

__all__ = ["GridPair", "Pairs", "pairs_of_all"]


@dataclass(frozen=True)
class GridPair:
    """per_clutch, progress, kinship: as `line_up` gives them. cautions: met by some eggs; kept_out: those of them for
    which plans leave the pairing out.
    """

    per_clutch: Fraction
    progress: Fraction
    kinship: Fraction
    cautions: tuple[Caution, ...]
    kept_out: tuple[Caution, ...]


Pairs = dict[tuple[str, str], GridPair]
"""By the ids of a dam and a sire."""


def pairs_of_all(desk: Desk, aim: Aim) -> Callable[[Progress], Pairs]:
    """The numbers of all pairings of kept animals, as work for a job."""
    animals, care, allow = desk.animals, desk.care, desk.allow
    assert animals is not None
    kept = [animal for animal in animals if animal.status == "kept"]
    dams = [animal for animal in kept if animal.sex == "female"]
    sires = [animal for animal in kept if animal.sex == "male"]

    def work(progress: Progress) -> Pairs:
        maker = _Maker(animals, care, aim, allow)
        found: Pairs = {}
        for number, dam in enumerate(dams):
            progress(number / len(dams), f"putting {dam.id} beside all males")
            for sire in sires:
                found[dam.id, sire.id] = maker.pair(dam, sire)
        return found

    return work


class _Maker:
    """Works out pairings one by one; what depends on few genes is worked out once for parents that are alike there."""

    def __init__(self, animals: Collection, care: Husbandry, aim: Aim, allow: Sequence[str]) -> None:
        self.animals, self.care, self.aim, self.couples = animals, care, aim, Couples(animals)
        self.standing = Standing.of(animals.catalogue, aim.look, without=aim.without, allow=allow)
        self.toward = ProgressToward(
            self.standing, eggs=care.law, hatch_rate=care.hatch_rate, lay_rate=care.lay_rate
        )
        self._carried: dict[str, set[str]] = {}
        self._clutches: dict[object, Fraction] = {}

    def pair(self, dam: Animal, sire: Animal) -> GridPair:
        here = self._genes(dam) | self._genes(sire)
        near = {gene for c in self._about(here) for gene in (part.gene for part in c.parts)}
        home = self.animals.knowledge.genome.home
        told = {home[gene][0].name for gene in near}

        def matters(group: Group) -> bool:
            return group.name in told or self.standing.matters(group)

        odds = Offspring(self.couples.brood(dam.id, sire.id, matters), self.animals.catalogue)
        met = tuple(item.caution for item in brood_cautions(self.animals.catalogue, odds.brood))
        return GridPair(
            self._per_clutch(odds),
            self.toward.of(odds.brood),
            self.animals.inbreeding(dam.id, sire.id),
            met,
            tuple(caution for caution in met if caution in self.standing.cautions),
        )

    def _per_clutch(self, odds: Offspring) -> Fraction:
        parents = odds.brood.parents
        groups = [group.name for group in odds.brood.groups if self.standing.matters(group)]
        key = tuple((name, frozenset(parents[name].items())) for name in groups)
        if key not in self._clutches:
            rate = exact(self.care.hatch_rate)
            self._clutches[key] = odds.chance_in_clutch(
                self.aim.look, eggs=self.care.law, hatch_rate=rate, without=self.aim.without
            )
        return self._clutches[key]

    def _genes(self, animal: Animal) -> set[str]:
        if animal.id not in self._carried:
            self._carried[animal.id] = set(may_carry(animal.genotype))
        return self._carried[animal.id]

    def _about(self, genes: set[str]) -> list[Caution]:
        """The cautions that hatchlings of animals with these genes could meet."""
        cautions = self.animals.catalogue.cautions
        return [c for c in cautions if genes.issuperset(part.gene for part in c.parts)]
