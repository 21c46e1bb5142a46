"""A whole pedigree at one group of loci: who may have what, and how the animals depend on one another."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from ..genetics import Diplotype, Genome, Genotype, Group, Mating, Member, Note, Part, Pedigree, gametes
from ..genetics.factors import Factor
from ..genetics.pedigree import Fit, possible
from .evidence import fits_label, from_missing_parent

__all__ = ["Kin", "Lineage", "in_pedigree_order"]

LARGEST_TABLE = 200_000
"""The entries of the largest table that is worked with; beyond it animals are set apart."""

Joint = Mapping[tuple[Diplotype, ...], Fraction]


@dataclass(frozen=True)
class Kin:
    """What a pedigree needs to know of one animal. dam, sire: ids of animals of the same pedigree, or None. clutch: the
    id of the clutch it hatched from, "" if none is written. sires, way: as for a member of a `Pedigree`."""

    sex: str | None
    label: Genotype
    dam: str | None = None
    sire: str | None = None
    clutch: str = ""
    sires: tuple[str, ...] = ()
    way: str = ""

    @property
    def parents(self) -> tuple[str, ...]:
        return tuple(key for key in (self.dam, self.sire) if key is not None)

    @property
    def possible_parents(self) -> tuple[str, ...]:
        """All that are its parents, or may be."""
        return tuple(dict.fromkeys((*self.parents, *self.sires)))


class Lineage:
    """The pedigree at one group, with what clutches and tests say.

    clashing: ids of animals whose looks their recorded parents cannot explain; apart: ids of animals whose parents are
    left out of account since the pedigree is too entangled here. Both count as founders with their own labels. Animals
    that are not listed in `states` are wild for certain.
    """

    def __init__(
        self,
        genome: Genome,
        group: Group,
        kin: Mapping[str, Kin],
        clashing: Collection[str] = (),
        tested: Mapping[str, Fit] | None = None,
        apart: Collection[str] = (),
        widened: Mapping[str, Part] | None = None,
    ) -> None:
        """kin: id -> animal, parents before their offspring. tested: id -> how well a test agrees with a diplotype.
        widened: id -> what counts in place of its label, if its parents are not both known."""
        self.genome, self.group, self.kin = genome, group, kin
        self.clashing, self.apart = set(clashing), set(apart)
        self.tested, self.widened = tested or {}, widened or {}
        self.matings: tuple[Mating, ...] = ()
        self.notes: tuple[Note, ...] = ()
        self.members: dict[str, Member] = {}
        self.states: dict[str, tuple[Diplotype, ...]] = {}
        self._known: dict[tuple[str, ...], Joint] = {}
        self._wild: dict[str, Diplotype] = {}
        for key, animal in kin.items():
            self._settle(key, animal)

    @classmethod
    def consistent(
        cls,
        genome: Genome,
        group: Group,
        kin: Mapping[str, Kin],
        tested: Mapping[str, Fit] | None = None,
        widened: Mapping[str, Part] | None = None,
    ) -> Lineage:
        """The pedigree with as few animals as possible set apart as clashing, the youngest of those that clash, and
        those set apart without which the tables would grow too large."""
        lineage = cls(genome, group, kin, (), tested, (), widened)
        while not lineage.holds:
            order, low, high = list(kin), 0, len(kin)
            while high - low > 1:
                middle = (low + high) // 2
                part = {key: kin[key] for key in order[:middle]}
                if cls(genome, group, part, lineage.clashing, tested, (), widened).holds:
                    low = middle
                else:
                    high = middle
            if order[high - 1] in lineage.clashing:  # its own records clash with one another, and stay as they are
                break
            lineage = cls(genome, group, kin, {*lineage.clashing, order[high - 1]}, tested, (), widened)
        return lineage.untangled()

    def among(self, kin: Mapping[str, Kin]) -> Lineage | None:
        """The same if the animals have these parents and sexes, but the same labels; None if that may differ here."""
        changed = [key for key in kin if key not in self.kin or _differ(kin[key], self.kin[key])]
        touched = {name for key in changed for name in (key, *kin[key].possible_parents)}
        if changed and (self.group.sex or self.clashing or self.apart or touched & self.states.keys()):
            return None
        made = copy(self)
        made.kin = kin
        return made

    def given(
        self, matings: Iterable[Mating] = (), told: Sequence[Factor] = (), notes: Iterable[Note] = ()
    ) -> Lineage:
        """With further matings, and notes on animals, as far as they say something here. told: what is known of their
        ways from elsewhere."""
        more = tuple(mating for mating in matings if self._says_something(mating))
        noted = tuple(note for note in notes if self._tells(note))
        if not (more or told or noted):
            return self
        made = copy(self)
        made.pedigree = self.pedigree.given(more, told, noted)
        made.matings, made.notes, made._known = (*self.matings, *more), (*self.notes, *noted), {}
        return made

    @cached_property
    def pedigree(self) -> Pedigree:
        """The members that may carry something, and the matings."""
        states = {key: self.states_of(key) for key in self.kin}
        return Pedigree(self.group, self.members, (), states).given(self.matings, (), self.notes)

    @property
    def holds(self) -> bool:
        """Whether everything recorded can be true at once."""
        if not self.matings and not self.notes and not self.tested and self._lightest_fits():
            return True
        return self.pedigree.network.possible

    @property
    def chance(self) -> Fraction:
        """The chance of everything recorded together; 0 if it cannot all be true."""
        return self.pedigree.chance

    def joint_of(self, ids: Sequence[str]) -> Joint:
        """Joint distribution of these animals' diplotypes; sums to 1."""
        asked = tuple(ids)
        found = self._known.get(asked)
        if found is None:
            if all(len(self.states_of(key)) == 1 for key in asked):
                found = {tuple(self.states_of(key)[0] for key in asked): Fraction(1)}
            elif len(asked) == 1:
                found = {(diplotype,): chance for diplotype, chance in self.pedigree.marginal(asked[0]).items()}
            else:
                found = self.pedigree.joint(asked)
            self._known[asked] = found
        return found

    def before(self, key: str, offspring: frozenset[str]) -> Joint:
        """Distribution of one animal's diplotype as if it had not been bred: its offspring and clutches left out."""
        return {(diplotype,): chance for diplotype, chance in self.pedigree.before(key, offspring).items()}

    def wild(self, key: str) -> Diplotype:
        """The animal's diplotype if it carries nothing here."""
        sex = self.kin[key].sex or "female"
        if sex not in self._wild:
            self._wild[sex] = self.genome.wild(self.group, sex)
        return self._wild[sex]

    def states_of(self, key: str) -> tuple[Diplotype, ...]:
        """Diplotypes the animal may have, as far as its ancestors' records and its own say."""
        return self.states.get(key) or (self.wild(key),)

    def label_of(self, key: str) -> Part:
        """What the label says of the animal, of its known sex."""
        animal = self.kin[key]
        known = animal.dam is not None and (animal.sire is not None or animal.sires)
        if key in self.widened and not known:
            return self.widened[key]
        if self.group.sex and animal.sex is not None:
            return animal.label.of_sex(animal.sex).part(self.group)
        return animal.label.part(self.group)

    def untangled(self) -> Lineage:
        """This, or with animals set apart until no table is too large: the youngest of the densest part, one by one."""
        lineage = self
        while lineage.states:
            largest, crowd = lineage.pedigree.network.densest()
            bred = [key for key, member in lineage.members.items() if key in crowd and member.parents]
            if largest <= LARGEST_TABLE or not bred:
                break
            apart = {*lineage.apart, bred[-1]}
            lineage = Lineage(self.genome, self.group, self.kin, self.clashing, self.tested, apart, self.widened)
            lineage = lineage.given(self.matings, (), self.notes)
        return lineage

    def _says_something(self, mating: Mating) -> bool:
        if len(self.states_of(mating.dam)) == len(self.states_of(mating.sire)) == 1:
            return mating.weight(self.states_of(mating.dam)[0], self.states_of(mating.sire)[0]) != 1
        return True

    def _tells(self, note: Note) -> bool:
        return len({fits(diplotype) for fits in note.fits for diplotype in self.states_of(note.key)}) > 1

    def _lightest_fits(self) -> bool:
        """Whether everything can be true with everyone carrying as little as its parents' choices and looks allow, and
        being of the first male that may be its sire."""
        chosen: dict[str, Diplotype] = {}
        for key, member in self.members.items():
            one = replace(member, sire=member.sires[0], sires=(), way="") if member.way else member
            near = {parent: {chosen.get(parent, self.states_of(parent)[0]): None} for parent in one.parents}
            options = possible(self.group, one, near)
            if not options:
                return False
            chosen[key] = min(options, key=lambda diplotype: sum(map(bool, (a for h in diplotype for a in h))))
        return True

    def _settle(self, key: str, animal: Kin) -> None:
        """Works out what the animal may have, given what its parents may have."""
        label = self.label_of(key)
        blank = not any(parent in self.states for parent in animal.possible_parents)
        blank = blank and not (self.group.sex and animal.parents) and key not in self.tested
        if blank and set(label) == {self.wild(key)}:
            return
        member = None
        if animal.parents and key not in self.clashing and key not in self.apart:
            member = self._born(key, animal, label)
            if member is not None:
                near = {parent: dict.fromkeys(self.states_of(parent)) for parent in member.parents}
                self.states[key] = tuple(possible(self.group, member, near))
            if member is None or not self.states[key]:
                self.clashing.add(key)
                member = None
        if member is None:
            member = Member(None, None, label, None, self._fits(key, lambda diplotype: True))
            self.states[key] = tuple(sorted(label))
        self.members[key] = member

    def _born(self, key: str, animal: Kin, label: Part) -> Member | None:
        fits = self._fits(key, fits_label(self.genome, self.group, label))
        if animal.dam is not None and (animal.sire is not None or animal.sires):
            return Member(animal.dam, animal.sire, None, None, fits, animal.sires, animal.way)
        (parent,) = animal.parents
        passed = {h for d in self.states_of(parent) for h in gametes(self.group, d)}
        missing_sex = "female" if animal.dam is None else "male"
        missing = from_missing_parent(self.genome, self.group, label, passed, missing_sex)
        return None if missing is None else Member(animal.dam, animal.sire, None, missing, fits)

    def _fits(self, key: str, fits: Callable[[Diplotype], bool]) -> Fit:
        tested = self.tested.get(key)
        return fits if tested is None else lambda diplotype: tested(diplotype) if fits(diplotype) else 0


def in_pedigree_order(kin: Mapping[str, Kin]) -> dict[str, Kin]:
    """The same animals, parents and all males that may be before their offspring; the order depends on ids alone.

    Raises ValueError if an animal may be its own ancestor.
    """
    placed: dict[str, Kin] = {}
    waiting = sorted(kin)
    while waiting:
        now = [key for key in waiting if all(parent in placed for parent in kin[key].possible_parents)]
        if not now:
            raise ValueError(f"one of these may be its own ancestor: {', '.join(waiting)}")
        placed |= {key: kin[key] for key in now}
        waiting = [key for key in waiting if key not in placed]
    return placed


def _differ(one: Kin, two: Kin) -> bool:
    return (one.sex, one.dam, one.sire, one.sires, one.way) != (two.sex, two.dam, two.sire, two.sires, two.way)
