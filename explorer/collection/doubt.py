"""How likely each record is wrong where records contradict one another: all at once, each wrong at a stated rate."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, partial
from itertools import product

from ..genetics import WILD, Diplotype, Haplotype, Mating, Member, Part, Pedigree, gametes, order, viable
from ..genetics.factors import Factor, entries
from ..genetics.pedigree import Fit, possible
from ..looks import shown
from . import lineage as limits
from .evidence import from_missing_parent, seen
from .lineage import Lineage
from .observations import Sight, chance_of_look
from .told import Told
from .ways import Way

__all__ = ["Doubt", "Scene"]

Chances = Mapping[Diplotype, Fraction]


@dataclass(frozen=True)
class Scene:
    """What is written at one place, with nothing left out. lineage: the pedigree there without clutches. ways: of the
    clutches; known: what is known of the ways but for this place."""

    told: Told
    lineage: Lineage
    ways: tuple[Way, ...]
    known: tuple[Factor, ...]

    def ancestry(self, ids: Collection[str]) -> set[str]:
        """These animals and all that may be their ancestors."""
        found, ahead = set[str](), [*ids]
        while ahead:
            key = ahead.pop()
            if key not in found:
                found.add(key)
                ahead += self.lineage.kin[key].possible_parents
        return found


@dataclass(frozen=True)
class _Group:
    """Like hatchlings of a clutch. times: way state -> how many of each of the sires."""

    clutch: str
    sight: Sight
    looks: tuple[str, ...]
    dam: str
    sires: tuple[str, ...]
    way: str
    times: tuple[tuple[int, ...], ...]


class Doubt:
    """The records at one place that have to do with some animals, each taken to be wrong with a chance, independently.

    Those are the labels of the animals, of their ancestors and offspring, and every hatchling of a clutch of any of
    them. A wrong label of a founder may hide any genotype of the genes met here, each as likely; a wrong label of an
    animal with parents, or a wrong hatchling, is of any other look, each as likely, and its genes are what its parents
    pass on. What a kept animal's row says counts as its label does. Results of tests are wrong as often as they are
    stated to be. Every set of wrong records counts. Other mates of these animals are taken as what they are known to
    be without the clutches.
    """

    def __init__(
        self,
        scene: Scene,
        about: Collection[str],
        rate: Fraction,
        genes: Collection[str] = (),
        *,
        narrow: bool = False,
        booked: bool = False,
    ) -> None:
        """about: ids of the animals; rate: the chance that a record is wrong, above 0; genes: met here in tests.

        narrow: leaves out what other mates and offspring say; booked: offspring that are of no clutch that is written
        down, since of those a keeper may have kept what he liked.
        """
        self.scene, self.rate, self._tested = scene, rate, genes
        self.lineage, self.group, self.genome = scene.lineage, scene.lineage.group, scene.lineage.genome
        kin = self.lineage.kin
        self.core = scene.ancestry(about)
        young = {key for key, animal in kin.items() if self.core & {*animal.possible_parents}}
        if booked:
            young = {key for key in young if kin[key].clutch in scene.told.places}
        self.clutches = [one for one in scene.told.clutches if self.core & {one.dam, *one.sires}]
        near = {key for one in self.clutches for key in (one.dam, *one.sires)}
        near |= {parent for key in young for parent in kin[key].possible_parents}
        if narrow:
            young, near = set(), set()
            self.clutches = [one for one in self.clutches if {one.dam, *one.sires} <= self.core]
        self.included = [key for key in kin if key in self.core | young | near]
        self._priors: dict[str, Chances] = {}
        self._states: dict[str, dict[Diplotype, None]] = {}
        self.members = {key: self._member(key) for key in self.included}

    @cached_property
    def pedigree(self) -> Pedigree | None:
        """All of it as one pedigree; None if it is too entangled to be worked out."""
        if not all(self._states.values()):
            return None
        bare = Pedigree(self.group, self.members, (), {key: tuple(one) for key, one in self._states.items()})
        made = bare.given(self._matings(), self.scene.known)
        return made if made.network.densest()[0] <= limits.LARGEST_TABLE and made.network.possible else None

    def of_labels(self) -> dict[str, Fraction]:
        """Animal -> chance that its label is wrong, of the animals asked about, their ancestors and offspring."""
        found = {}
        for key, wrong in self._wrong.items():
            table = self.carries(key).items()
            if table:
                found[key] = sum((chance * wrong(diplotype) for diplotype, chance in table), Fraction(0))
        return found

    def of_hatchlings(self) -> dict[tuple[str, tuple[str, ...]], Fraction]:
        """(clutch, looks as written) -> chance that a hatchling so written is wrong."""
        found: dict[tuple[str, tuple[str, ...]], Fraction] = {}
        for one in self._hatchlings if self.pedigree else ():
            right, total = Fraction(0), Fraction(0)
            for weight, state, dam, sires in self._joint(one):
                sound = Fraction(1)
                for sire, number in zip(sires, one.times[state], strict=True):
                    if number:
                        chance, other = self._weights(one.sight, dam, sire)
                        sound *= (chance / (chance + other)) ** number
                total += weight
                right += weight * sound
            key = one.clutch, one.looks
            found[key] = max(found.get(key, Fraction(0)), 1 - right / total)
        return found

    def of_clutch(self, key: str) -> Fraction:
        """The greatest of the chances of its hatchlings and of animals that hatched in it."""
        hatchlings = [chance for (clutch, _), chance in self.of_hatchlings().items() if clutch == key]
        kept = self.scene.told.kept.get(key, ())
        animals = [chance for one, chance in self.of_labels().items() if one in kept]
        return max([*hatchlings, *animals], default=Fraction(0))

    def carries(self, key: str) -> Chances:
        """What an animal has here, all this being so."""
        return self.pedigree.marginal(key) if self.pedigree else {}

    @cached_property
    def _wrong(self) -> dict[str, Callable[[Diplotype], Fraction]]:
        """Animal -> how likely its label is wrong, given what it has."""
        found: dict[str, Callable[[Diplotype], Fraction]] = {}
        for key in self.included:
            if key in self._priors:
                found[key] = partial(self._hidden, key)
            elif self.members[key].parents:
                found[key] = partial(self._otherwise, self._looks(key))
        return found

    def _hidden(self, key: str, diplotype: Diplotype) -> Fraction:
        return self.rate * self._anything(key).get(diplotype, 0) / self._priors[key][diplotype]

    def _otherwise(self, looks: set[tuple[object, ...]], diplotype: Diplotype) -> Fraction:
        return Fraction(seen(self.genome, self.group, diplotype) not in looks)

    def _member(self, key: str) -> Member:
        kin, animal = self.lineage.kin, self.lineage.kin[key]
        tested: Fit = self.lineage.tested.get(key, lambda diplotype: Fraction(1))
        parents, within = animal.possible_parents, all(parent in self._states for parent in animal.possible_parents)
        if parents and within and (key in self.core or self.core & {*parents}):
            missing: dict[Haplotype, Fraction] | None = None
            if animal.dam is None or not (animal.sire or animal.sires):
                (parent,) = animal.parents
                passed = {h for d in self._states[parent] for h in gametes(self.group, d)}
                other = "female" if animal.dam is None else "male"
                label = self.lineage.label_of(key)
                missing = from_missing_parent(self.genome, self.group, label, passed, other)
                if missing is None:
                    wild = self.genome.wild(self.group, other)
                    missing = {half: Fraction(1, len({*wild})) for half in wild}
            looks, others = self._looks(key), self._other_looks
            sex = kin[key].sex if self.group.sex else None

            def fits(diplotype: Diplotype) -> Fraction:
                if sex is not None and self.genome.sex_of(diplotype) != sex:
                    return Fraction(0)
                right = seen(self.genome, self.group, diplotype) in looks
                return (1 - self.rate if right else self.rate / others) * Fraction(tested(diplotype))

            member = Member(animal.dam, animal.sire, None, missing, fits, animal.sires, animal.way)
            near = {parent: self._states[parent] for parent in member.parents}
        elif key in self.core:
            label, others_ = self.lineage.label_of(key), self._anything(key)
            prior = {
                d: (1 - self.rate) * label.get(d, 0) + self.rate * others_.get(d, 0) for d in {**label, **others_}
            }
            self._priors[key] = prior
            member, near = Member(None, None, prior, None, tested), {}
        else:
            known = {diplotype: chance for (diplotype,), chance in self.lineage.joint_of((key,)).items()}
            member, near = Member(None, None, known, None, lambda diplotype: 1), {}
        self._states[key] = dict.fromkeys(possible(self.group, member, near))
        return member

    def _looks(self, key: str) -> set[tuple[object, ...]]:
        return {seen(self.genome, self.group, diplotype) for diplotype in self.lineage.label_of(key)}

    @cached_property
    def _choices(self) -> list[list[str]]:
        """The alleles met at each locus."""
        met = {gene for one in self.clutches for row in one.hatchlings for gene, _ in row.seen.get(self.group.name, ())}
        for key in self.included:
            parts = {**self.lineage.label_of(key), **dict.fromkeys(self.lineage.states_of(key))}
            met |= {allele for d in parts for haplotype in d for allele in haplotype[self.group.sex :]}
        met |= {*self._tested}
        return [[WILD, *(name for name in locus.by_name if name in met)] for locus in self.group.loci]

    def _anything(self, key: str) -> Part:
        """Every viable genotype of the genes met here, each as likely."""
        sex = self.lineage.kin[key].sex
        return self._anything_of(sex) if self.group.sex else self._anything_of(None)

    def _anything_of(self, sex: str | None) -> dict[Diplotype, Fraction]:
        if sex not in self._all:
            pairs = product(product(*self._choices), repeat=2)
            if self.group.sex:
                sexes = ("female", "male") if sex is None else (sex,)
                made = {self.genome.pair(self.group, one, two, each) for one, two in pairs for each in sexes}
            else:
                made = {order(one, two) for one, two in pairs}
            living = sorted(diplotype for diplotype in made if viable(self.group, diplotype))
            self._all[sex] = {diplotype: Fraction(1, len(living)) for diplotype in living}
        return self._all[sex]

    @cached_property
    def _all(self) -> dict[str | None, dict[Diplotype, Fraction]]:
        return {}

    @cached_property
    def _other_looks(self) -> int:
        return max(1, len({shown(self.group, diplotype) for diplotype in self._anything_of(None)}) - 1)

    @cached_property
    def _hatchlings(self) -> list[_Group]:
        told, found = self.scene.told, list[_Group]()
        for one in self.clutches:
            if one.id not in told.open:
                looks: dict[Sight, tuple[list[str], list[int]]] = {}
                for row, count in told.seen[one.id]:
                    if count and one.id not in told.refused:
                        names, counts = looks.setdefault(Sight.of(row, self.genome, self.group), ([], []))
                        names.append(row.look)
                        counts.append(count)
                for sight, (names, counts) in looks.items():
                    words = tuple(dict.fromkeys(names))
                    found.append(_Group(one.id, sight, words, one.dam, one.sires, "", ((sum(counts),),)))
            for way in self.scene.ways:
                if way.clutch == one.id and way.sires:
                    for sight, words, numbers in way.told_apart(self.genome, self.group):
                        times = tuple(
                            tuple(n * number for n in share) for share, number in zip(way.shares, numbers, strict=True)
                        )
                        if any(map(any, times)):
                            found.append(_Group(one.id, sight, words, one.dam, way.sires, way.name, times))
        return found

    def _matings(self) -> Iterator[Mating]:
        for one in self._hatchlings:
            for i, sire in enumerate(one.sires):
                times = tuple(numbers[i] for numbers in one.times)
                weight = partial(self._of_all, one.sight, 1 if one.way else times[0])
                yield Mating(one.dam, sire, weight, one.way, times)

    def _of_all(self, sight: Sight, number: int, dam: Diplotype, sire: Diplotype) -> Fraction:
        return sum(self._weights(sight, dam, sire), Fraction(0)) ** number

    def _weights(self, sight: Sight, dam: Diplotype, sire: Diplotype) -> tuple[Fraction, Fraction]:
        """The chance of what is written of a hatchling and that it is right, and of what is written and it is wrong."""
        chance = chance_of_look(self.genome, self.group, sight, dam, sire)
        if sight.look is None:
            return chance, Fraction(0)
        sure = replace(sight, maybe=tuple((gene, Fraction(1)) for gene, _ in sight.maybe))
        fitting = chance_of_look(self.genome, self.group, sure, dam, sire)
        others = 2 * self._other_looks + 1 if sight.sex else self._other_looks
        return (1 - self.rate) * chance, self.rate * (1 - fitting) / others

    def _joint(self, one: _Group) -> Iterator[tuple[Fraction, int, Diplotype, tuple[Diplotype, ...]]]:
        """(weight, state of the way, the dam's, the sires') of like hatchlings."""
        assert self.pedigree is not None
        states = self.pedigree.states
        animals = [one.dam, *one.sires]
        asked = [*([one.way] if one.way else []), *dict.fromkeys(key for key in animals if len(states[key]) > 1)]
        for at, weight in entries(self.pedigree.network.joint(asked)):
            place = dict(zip(asked, at, strict=True))
            dam, *sires = (states[key][place.get(key, 0)] for key in animals)
            yield Fraction(weight), place.get(one.way, 0), dam, tuple(sires)
