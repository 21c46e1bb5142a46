"""Many pairings of one collection: the parents' joint genotypes, worked out together only where they depend."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction

from ..collection import Collection
from ..genetics import Brood, Diplotype, Group, Parents

__all__ = ["Couples"]


class Couples:
    """The broods of a collection's pairings, as `cross` makes them.

    Two animals depend on one another at a group only if a chain of animals of unsure genotype leads from one to the
    other, through families and clutches of the record; elsewhere their joint distribution is the product of the two.
    """

    def __init__(self, animals: Collection) -> None:
        self.animals, self.knowledge = animals, animals.knowledge
        self._linked: dict[str, dict[str, str]] = {}

    def brood(self, dam: str, sire: str, matters: Callable[[Group], bool] = lambda group: True) -> Brood:
        """What a dam and a sire of known sex can produce. matters: the groups that are asked about; others are left
        out, as if nobody carried anything there. Raises KeyError if there is no such animal.
        """
        mother, father = self.animals[dam].genotype, self.animals[sire].genotype
        varying = {*mother.varying, *father.varying}
        groups = (g for g in self.knowledge.genome.groups if g.sex or (g.name in varying and matters(g)))
        return Brood(self.knowledge.genome, {group.name: self._parents(group, dam, sire) for group in groups})

    def _parents(self, group: Group, dam: str, sire: str) -> Parents:
        mother, father = self.animals[dam].genotype.part(group), self.animals[sire].genotype.part(group)
        if len(mother) > 1 and len(father) > 1:
            root = self._roots(group)
            if root(dam) == root(sire):
                table: dict[tuple[Diplotype, Diplotype], Fraction] = {}
                for (one, two), chance in self.knowledge.joint_of(group, (dam, sire)).items():
                    table[one, two] = chance
                return table
        return {(one, two): p * q for one, p in mother.items() for two, q in father.items()}

    def _roots(self, group: Group) -> Callable[[str], str]:
        """For each animal that is unsure at this group, one that stands for all that it may depend on."""
        above = self._linked.get(group.name)
        if above is None:
            unsure = {animal.id for animal in self.animals if len(animal.genotype.part(group)) > 1}
            above = self._linked[group.name] = {key: key for key in unsure}
            for family in self._families():
                mine = [key for key in family if key in unsure]
                for key in mine[1:]:
                    above[_root(above, key)] = _root(above, mine[0])
        return lambda key: _root(above, key)

    def _families(self) -> Iterable[tuple[str, ...]]:
        """Sets of animals among which something is recorded; clutches of unsure sire are one, since they tell of one
        another.
        """
        for key, kin in self.knowledge.kin.items():
            yield (key, *kin.parents)
        open_sires: list[str] = []
        for clutch in self.animals.clutches:
            family = [key for key in (clutch.dam, *clutch.sires) if key in self.animals]
            if len(clutch.sires) > 1:
                open_sires += [*family, *(animal.id for animal in self.animals if animal.clutch == clutch.id)]
            else:
                yield tuple(family)
        yield tuple(open_sires)


def _root(above: dict[str, str], key: str) -> str:
    while above[key] != key:
        above[key] = above[above[key]]
        key = above[key]
    return key
