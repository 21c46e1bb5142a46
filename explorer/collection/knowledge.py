"""What the animals of one collection may carry, jointly: labels, pedigree and looks together, in exact fractions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Catalogue
from ..genetics import Diplotype, Genome, Genotype, Group, Part, genome_of
from ..genetics.pedigree import Fit
from ..looks import carried, shown
from .clutch import Clutch
from .evidence import claims
from .lineage import Kin, Lineage
from .reckoning import reckoned
from .shed_tests import ShedTest, agreement, widened
from .told import Told

__all__ = ["Clash", "Disagreement", "Knowledge"]

DOUBTED = Fraction(1, 2)
"""Below this chance a test's result is reported."""

ROUNDING = Fraction(1, 100)
"""A label's chance may be this far, but less, from the right one: 54 and 55 % both stand for 54.6 %."""

Joint = Mapping[tuple[Diplotype, ...], Fraction]


@dataclass(frozen=True)
class Clash:
    """An animal whose looks its recorded parents cannot explain. group, place: where, by name and in words; genes: what
    it shows there, () if nothing."""

    id: str
    group: str
    place: str
    genes: tuple[str, ...]
    parents: tuple[str, ...]


@dataclass(frozen=True)
class Disagreement:
    """A label that gives hidden copies of a gene another chance than all else does. book: clutches are part of that."""

    id: str
    gene: str
    copies: int
    label: Fraction
    pedigree: Fraction
    parents: tuple[str, ...]
    book: bool


class Knowledge:
    """What each animal carries, as far as it is known, and how far the animals' genotypes depend on one another.

    kin: the animals, with what clutches say of their parents and sexes. told: what was taken into account of the clutch
    book; disputes: and what was not, since it cannot be true. paternity: clutch of unsure sire -> male -> chance;
    fathers: kept animal of open sire -> male -> chance. tangled: (clutch, group) of clutches that are left out there,
    since with them too many animals would have to be reckoned together.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        kin: Mapping[str, Kin],
        tested: Mapping[str, Sequence[ShedTest]] | None = None,
        clutches: Sequence[Clutch] = (),
        earlier: Knowledge | None = None,
    ) -> None:
        """kin: id -> animal, in any order; the answers do not depend on it. No animal is its own ancestor.

        tested: id -> what tests of the animal found. clutches: whose dams and sires are all in `kin`. earlier: of the
        same animals and tests, to save work.
        """
        self.catalogue = catalogue
        self.genome: Genome = genome_of(catalogue)
        self.recorded, self.tested = kin, tested or {}
        varying = {name for animal in kin.values() for name in animal.label.varying}
        varying |= {name for clutch in clutches for row in clutch.hatchlings for name in row.seen}
        varying |= {self.genome.home[test.gene][0].name for tests in self.tested.values() for test in tests}
        groups = [group for group in self.genome.groups if group.sex or group.name in varying]
        self._plain: dict[str, Lineage] = dict(earlier._plain) if earlier is not None else {}

        def pedigrees(animals: Mapping[str, Kin]) -> dict[str, Lineage]:
            for group in groups:
                known = self._plain.get(group.name)
                again = known.among(animals) if known is not None else None
                self._plain[group.name] = again or Lineage.consistent(
                    self.genome, group, animals, self._tests(group), self._widened(group)
                )
            return {group.name: self._plain[group.name] for group in groups}

        stated = catalogue.figures.get("misrecording_rate")
        self.rate = stated.value if stated else Fraction(0)

        def retold(crowded: Sequence[str], refused: Sequence[str]) -> Told:
            return Told.of(self.genome, kin, clutches, crowded, refused)

        found = reckoned(retold, pedigrees, self.rate)
        self.told, self.kin = found.told, found.told.kin
        self._lineages, self.paternity, self.disputes = found.lineages, found.paternity, found.disputes
        self.scene, self.fathers, self.tangled = found.scene, found.fathers, found.tangled
        self.weighed: dict[Fraction, tuple[object, ...]] = {}
        self._genotypes: dict[str, Genotype] = {}

    @property
    def places(self) -> tuple[str, ...]:
        """The groups at which anyone may carry something, or something was seen."""
        return tuple(self._lineages)

    def place(self, name: str) -> str:
        """A group in words: the names of its loci."""
        return " + ".join(locus.name for locus in self.genome.by_name[name].loci) or name

    def lineage(self, name: str) -> Lineage:
        """What is known at one group of `places`."""
        return self._lineages[name]

    def updated(self, clutches: Sequence[Clutch]) -> Knowledge:
        """The same animals, given these clutches and no others. Their dams and sires must all be among them."""
        return Knowledge(self.catalogue, self.recorded, self.tested, clutches, self)

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
        if group.name not in self._lineages:
            return {tuple(self.genome.wild(group, "female") for _ in ids): Fraction(1)}
        return self._lineages[group.name].joint_of(ids)

    def pair(self, dam: str, sire: str) -> dict[str, dict[tuple[Diplotype, Diplotype], Fraction]]:
        """Group name -> joint distribution of (dam's, sire's) diplotypes, as `genetics.Brood` takes it.

        Holds the sex group and every group where either may carry something. Raises ValueError if the dam is known
        to be male or the sire female.
        """
        found = {}
        for name, lineage in self._lineages.items():
            table = {(one, two): chance for (one, two), chance in self.joint_of(lineage.group, (dam, sire)).items()}
            wild = lineage.wild(dam)
            if not lineage.group.sex and set(table) == {(wild, wild)}:
                continue
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

    def _tests(self, group: Group) -> dict[str, Fit]:
        return {key: fit for key, tests in self.tested.items() if (fit := agreement(self.genome, group, tests))}

    def _widened(self, group: Group) -> dict[str, Part]:
        found = {}
        for key, tests in self.tested.items():
            animal = self.recorded[key]
            label = (animal.label.of_sex(animal.sex) if group.sex and animal.sex else animal.label).part(group)
            if (wider := widened(self.genome, group, label, tests)) != label:
                found[key] = wider
        return found

    def clashes(self) -> Iterator[Clash]:
        """The animals whose looks their recorded parents cannot explain; there, each counts with its own label."""
        for name, lineage in self._lineages.items():
            for key in sorted(lineage.clashing):
                part = self.kin[key].label.part(lineage.group)
                genes = dict.fromkeys(gene for diplotype in part for gene, _ in shown(lineage.group, diplotype))
                yield Clash(key, name, self.place(name), tuple(genes), _parents(self.kin[key]))

    def set_apart(self) -> Iterator[tuple[str, str]]:
        """(id, place) of animals whose parents are left out of account, since the pedigree is too entangled there."""
        for name, lineage in self._lineages.items():
            yield from ((key, name) for key in sorted(lineage.apart))

    def doubted_tests(self) -> Iterator[tuple[str, ShedTest]]:
        """(id, test) where a test's result is likelier wrong than right given everything, the test included."""
        for key, tests in self.tested.items():
            for test in tests:
                group = self.genome.home[test.gene][0]
                table = self.joint_of(group, (key,))
                fitting = (p for (d,), p in table.items() if carried(group, d).get(test.gene, 0) == test.copies)
                right = sum(fitting, Fraction(0))
                if right < DOUBTED:
                    yield key, test

    def disagreements(self) -> Iterator[Disagreement]:
        """Labels that give hidden copies another chance than all else that is known, with or without offspring.

        "All else" is the parents, with what clutches and other relatives tell of them, and the animal's own look.
        """
        for key, animal in self.kin.items():
            for name in animal.label.varying if animal.parents else ():
                lineage = self._lineages[name]
                said = claims(lineage.group, animal.label.part(lineage.group)) if key not in lineage.clashing else {}
                for (gene, copies), chance in said.items():
                    known = _at_least(lineage.group, lineage.joint_of((key,)), gene, copies)
                    if abs(chance - known) < ROUNDING:
                        continue
                    known = _at_least(lineage.group, lineage.before(key, self._descendants(key)), gene, copies)
                    if abs(chance - known) >= ROUNDING:
                        book = bool(self.told.clutches)
                        yield Disagreement(key, gene, copies, chance, known, _parents(animal), book)

    def sires(self, key: str) -> tuple[str, ...]:
        """The male that is an animal's sire for certain, all that may be if that is open, or none if nobody is named.

        Raises KeyError if there is no such animal.
        """
        animal = self.kin[key]
        if animal.sire is not None:
            return (animal.sire,)
        return tuple(male for male, chance in self.fathers.get(key, {}).items() if chance)

    def _descendants(self, key: str) -> frozenset[str]:
        found = {key}
        for other, animal in self.kin.items():
            if found & set(animal.possible_parents):
                found.add(other)
        return frozenset(found - {key})


def _parents(animal: Kin) -> tuple[str, ...]:
    """The ids, or in place of a sire that is open all that he may be: ("F01", "M01 or M02")."""
    return (*animal.parents, *([" or ".join(animal.sires)] if animal.sires else []))


def _at_least(group: Group, table: Joint, gene: str, copies: int) -> Fraction:
    return sum((chance for (d,), chance in table.items() if carried(group, d).get(gene, 0) >= copies), Fraction(0))
