"""What the animals of one collection may carry, jointly: labels, pedigree and looks together, in exact fractions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Catalogue
from ..genetics import Diplotype, Genome, Genotype, Group, genome_of
from ..looks import carried, shown
from .evidence import claims
from .lineage import Kin, Lineage, in_pedigree_order

__all__ = ["Clash", "Disagreement", "Knowledge"]

Joint = Mapping[tuple[Diplotype, ...], Fraction]


@dataclass(frozen=True)
class Clash:
    """An animal whose looks its recorded parents cannot explain. genes: what it shows at that place, () if nothing."""

    id: str
    place: str
    genes: tuple[str, ...]
    parents: tuple[str, ...]


@dataclass(frozen=True)
class Disagreement:
    """A label that gives hidden copies of a gene another chance than the recorded parents do."""

    id: str
    gene: str
    copies: int
    label: Fraction
    pedigree: Fraction
    parents: tuple[str, ...]


class Knowledge:
    """What each animal carries, as far as it is known, and how far the animals' genotypes depend on one another."""

    def __init__(self, catalogue: Catalogue, kin: Mapping[str, Kin]) -> None:
        """kin: id -> animal, in any order; the answers do not depend on it. No animal is its own ancestor."""
        self.catalogue = catalogue
        self.genome: Genome = genome_of(catalogue)
        self.kin = in_pedigree_order(kin)
        varying = {name for animal in kin.values() for name in animal.label.varying}
        self._lineages = {
            group.name: Lineage.consistent(self.genome, group, self.kin)
            for group in self.genome.groups
            if group.sex or group.name in varying
        }
        self._genotypes: dict[str, Genotype] = {}

    def genotype(self, key: str) -> Genotype:
        """What one animal is known to carry. Raises KeyError if there is no such animal."""
        found = self._genotypes.get(key)
        if found is None:
            animal = self.kin[key]
            parts = {
                name: {diplotype: chance for (diplotype,), chance in lineage.joint_of((key,)).items()}
                for name, lineage in self._lineages.items()
                if lineage.group.sex or lineage.states_of(key) != (lineage.wild(key),)
            }
            found = Genotype(self.genome, parts, animal.label.notices)
            self._genotypes[key] = found
        return found

    def joint_of(self, group: Group, ids: Sequence[str]) -> Joint:
        """Joint distribution of several animals' diplotypes at one group, in the order of `ids`; sums to 1.

        Raises KeyError if there is no such animal.
        """
        unknown = [key for key in ids if key not in self.kin]
        if unknown:
            raise KeyError(unknown[0])
        lineage = self._lineages.get(group.name)
        if lineage is None:
            return {tuple(self.genome.wild(group, "female") for _ in ids): Fraction(1)}
        return lineage.joint_of(ids)

    def pair(self, dam: str, sire: str) -> dict[str, dict[tuple[Diplotype, Diplotype], Fraction]]:
        """Group name -> joint distribution of (dam's, sire's) diplotypes, as `genetics.Brood` takes it.

        Holds the sex group and every group where either may carry something. Raises ValueError if the dam is known
        to be male or the sire female.
        """
        found = {}
        for name, lineage in self._lineages.items():
            wild = (lineage.wild(dam),)
            if not lineage.group.sex and lineage.states_of(dam) == lineage.states_of(sire) == wild:
                continue
            table = {(one, two): chance for (one, two), chance in self.joint_of(lineage.group, (dam, sire)).items()}
            if lineage.group.sex:
                table = {
                    (one, two): chance
                    for (one, two), chance in table.items()
                    if self.genome.sex_of(one) == "female" and self.genome.sex_of(two) == "male"
                }
                if not table:
                    raise ValueError(f"{dam} is no female or {sire} is no male")
                total = sum(table.values())
                table = {key: chance / total for key, chance in table.items()}
            found[name] = table
        return found

    def clashes(self) -> Iterator[Clash]:
        """The animals whose looks their recorded parents cannot explain; there, each counts with its own label."""
        for name, lineage in self._lineages.items():
            for key in sorted(lineage.clashing):
                part = self.kin[key].label.part(lineage.group)
                genes = dict.fromkeys(gene for diplotype in part for gene, _ in shown(lineage.group, diplotype))
                place = " + ".join(locus.name for locus in lineage.group.loci) or name
                yield Clash(key, place, tuple(genes), self.kin[key].parents)

    def disagreements(self) -> Iterator[Disagreement]:
        """Labels that give hidden copies another chance than the recorded parents do, with or without offspring."""
        for key, animal in self.kin.items():
            for name in animal.label.varying if animal.parents else ():
                lineage = self._lineages[name]
                said = claims(lineage.group, animal.label.part(lineage.group))
                if not said or key in lineage.clashing:
                    continue
                for (gene, copies), chance in said.items():
                    if chance == _at_least(lineage.group, lineage.joint_of((key,)), gene, copies):
                        continue
                    apart = lineage.joint_of((key,), self._descendants(key))
                    before = _at_least(lineage.group, apart, gene, copies)
                    if chance != before:
                        yield Disagreement(key, gene, copies, chance, before, animal.parents)

    def _descendants(self, key: str) -> frozenset[str]:
        found = {key}
        for other, animal in self.kin.items():
            if found & set(animal.parents):
                found.add(other)
        return frozenset(found - {key})


def _at_least(group: Group, table: Joint, gene: str, copies: int) -> Fraction:
    return sum((chance for (d,), chance in table.items() if carried(group, d).get(gene, 0) >= copies), Fraction(0))
