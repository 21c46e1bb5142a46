"""A whole pedigree at one group of loci: who may have what, and how the animals depend on one another."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any

from ..genetics import Contradiction, Diplotype, Genome, Genotype, Group, Mating, Member, Part, Pedigree, gametes
from ..genetics.pedigree import Fit, possible
from .evidence import fits_label, from_missing_parent

__all__ = ["Kin", "Lineage", "in_pedigree_order"]

LARGEST_TABLE = 200_000
"""The entries of the largest table that is worked with; beyond it animals are set apart."""

Joint = Mapping[tuple[Diplotype, ...], Fraction]


@dataclass(frozen=True)
class Kin:
    """What a pedigree needs to know of one animal. dam, sire: ids of animals of the same pedigree, or None. clutch: the
    id of the clutch it hatched from, "" if none is written."""

    sex: str | None
    label: Genotype
    dam: str | None = None
    sire: str | None = None
    clutch: str = ""

    @property
    def parents(self) -> tuple[str, ...]:
        return tuple(key for key in (self.dam, self.sire) if key is not None)


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
        matings: Sequence[Mating] = (),
        tested: Mapping[str, Fit] | None = None,
        apart: Collection[str] = (),
    ) -> None:
        """kin: id -> animal, parents before their offspring. tested: id -> how well a test agrees with a diplotype."""
        self.genome, self.group, self.kin = genome, group, kin
        self.clashing, self.apart = set(clashing), set(apart)
        self.matings, self.tested = tuple(matings), tested or {}
        self.members: dict[str, Member] = {}
        self.states: dict[str, tuple[Diplotype, ...]] = {}
        self._known: dict[tuple[tuple[str, ...], frozenset[str]], Joint] = {}
        for key, animal in kin.items():
            self._settle(key, animal)

    @classmethod
    def consistent(cls, genome: Genome, group: Group, kin: Mapping[str, Kin], **further: Any) -> Lineage:
        """The pedigree with as few animals as possible set apart as clashing, the youngest of those that clash, and
        those set apart without which the tables would grow too large. further: tested."""
        lineage = cls(genome, group, kin, **further)
        while not lineage.holds:
            order, low, high = list(kin), 0, len(kin)
            while high - low > 1:
                middle = (low + high) // 2
                part = {key: kin[key] for key in order[:middle]}
                if cls(genome, group, part, lineage.clashing, **further).holds:
                    low = middle
                else:
                    high = middle
            if order[high - 1] in lineage.clashing:  # its own records clash with one another, and stay as they are
                break
            lineage = cls(genome, group, kin, {*lineage.clashing, order[high - 1]}, **further)
        return lineage._untangled()

    def with_matings(self, kin: Mapping[str, Kin], matings: Sequence[Mating]) -> Lineage:
        """The same pedigree, with sires that were not recorded filled in, and with what clutches say."""
        told = [mating for mating in matings if self._says_something(mating)]
        if not told and kin is self.kin:
            return self
        return Lineage(
            self.genome, self.group, kin, self.clashing, told, self.tested, self.apart
        )._untangled()

    @cached_property
    def pedigree(self) -> Pedigree:
        """The members that may carry something, their parents, and the matings."""
        return self._pedigree(frozenset())

    @property
    def holds(self) -> bool:
        """Whether everything recorded can be true at once."""
        if not self.matings and not self.tested and self._lightest_fits():
            return True
        try:
            return self.pedigree.network.possible
        except Contradiction:
            return False

    @property
    def chance(self) -> Fraction:
        """The chance of everything recorded together; 0 if it cannot all be true."""
        try:
            return self.pedigree.chance
        except Contradiction:
            return Fraction(0)

    def joint_of(self, ids: Sequence[str], without: frozenset[str] = frozenset()) -> Joint:
        """Joint distribution of these animals' diplotypes; sums to 1.

        without: ids whose records are not used, and neither is what clutches say then.
        """
        asked = tuple(ids)
        found = self._known.get((asked, without))
        if found is None:
            found = self._worked_out(asked, without)
            self._known[asked, without] = found
        return found

    def wild(self, key: str) -> Diplotype:
        """The animal's diplotype if it carries nothing here."""
        return self.genome.wild(self.group, self.kin[key].sex or "female")

    def states_of(self, key: str) -> tuple[Diplotype, ...]:
        """Diplotypes the animal may have, as far as its ancestors' records and its own say."""
        return self.states.get(key) or (self.wild(key),)

    def _worked_out(self, asked: tuple[str, ...], without: frozenset[str]) -> Joint:
        unsure = [key for key in asked if len(self.states.get(key, ())) > 1]
        if not unsure:
            return {tuple(self.states_of(key)[0] for key in asked): Fraction(1)}
        if len(asked) == 1 and not without:
            return {(diplotype,): chance for diplotype, chance in self.pedigree.marginal(asked[0]).items()}
        found = (self._pedigree(without) if without else self.pedigree).joint(unsure)
        place = {key: i for i, key in enumerate(unsure)}
        return {
            tuple(at[place[key]] if key in place else self.states_of(key)[0] for key in asked): chance
            for at, chance in found.items()
        }

    def _pedigree(self, without: frozenset[str]) -> Pedigree:
        kept = [key for key in self.states if key not in without]
        mated = [] if without else [name for mating in self.matings for name in (mating.dam, mating.sire)]
        needed = {*kept, *mated, *(parent for key in kept for parent in self._parents(key))}
        members = {
            key: self.members[key] if key in self.members else _founder({self.states_of(key)[0]: Fraction(1)})
            for key in self.kin
            if key in needed
        }
        return Pedigree(self.group, members, () if without else self.matings)

    def _untangled(self) -> Lineage:
        """This, or with animals set apart until no table is too large: the youngest of the densest part, one by one."""
        lineage = self
        while lineage.states and lineage.pedigree.network.largest > LARGEST_TABLE:
            crowd = set(lineage.pedigree.network.crowd)
            bred = [key for key in lineage.members if key in crowd and lineage._parents(key)]
            if not bred:
                break
            apart = {*lineage.apart, bred[-1]}
            lineage = Lineage(
                self.genome, self.group, self.kin, self.clashing, self.matings, self.tested, apart
            )
        return lineage

    def _says_something(self, mating: Mating) -> bool:
        if len(self.states_of(mating.dam)) == len(self.states_of(mating.sire)) == 1:
            return mating.weight(self.states_of(mating.dam)[0], self.states_of(mating.sire)[0]) != 1
        return True

    def _parents(self, key: str) -> tuple[str, ...]:
        member = self.members[key]
        return tuple(parent for parent in (member.dam, member.sire) if parent is not None)

    def _lightest_fits(self) -> bool:
        """Whether everything can be true with everyone carrying as little as its parents' choices and looks allow."""
        chosen: dict[str, Diplotype] = {}
        for key, member in self.members.items():
            near = {parent: {chosen.get(parent, self.states_of(parent)[0]): None} for parent in self._parents(key)}
            options = possible(self.group, member, near)
            if not options:
                return False
            chosen[key] = min(options, key=lambda diplotype: sum(map(bool, (a for h in diplotype for a in h))))
        return True

    def _settle(self, key: str, animal: Kin) -> None:
        """Works out what the animal may have, given what its parents may have."""
        label = animal.label.part(self.group)
        if self.group.sex and animal.sex is not None:
            label = animal.label.of_sex(animal.sex).part(self.group)
        blank = not any(parent in self.states for parent in animal.parents)
        blank = blank and not (self.group.sex and animal.parents) and key not in self.tested
        if blank and set(label) == {self.wild(key)}:
            return
        member = None
        if animal.parents and key not in self.clashing and key not in self.apart:
            member = self._born(key, animal, label)
            if member is not None:
                near = {parent: dict.fromkeys(self.states_of(parent)) for parent in animal.parents}
                self.states[key] = tuple(possible(self.group, member, near))
            if member is None or not self.states[key]:
                self.clashing.add(key)
                member = None
        if member is None:
            member = _founder(label, self._fits(key, lambda diplotype: True))
            self.states[key] = tuple(sorted(label))
        self.members[key] = member

    def _born(self, key: str, animal: Kin, label: Part) -> Member | None:
        fits = self._fits(key, fits_label(self.genome, self.group, label))
        if animal.dam is not None and animal.sire is not None:
            return Member(animal.dam, animal.sire, None, None, fits)
        (parent,) = animal.parents
        passed = {h for d in self.states_of(parent) for h in gametes(self.group, d)}
        missing_sex = "female" if animal.dam is None else "male"
        missing = from_missing_parent(self.genome, self.group, label, passed, missing_sex)
        return None if missing is None else Member(animal.dam, animal.sire, None, missing, fits)


    def _fits(self, key: str, fits: Callable[[Diplotype], bool]) -> Fit:
        tested = self.tested.get(key)
        return fits if tested is None else lambda diplotype: tested(diplotype) if fits(diplotype) else 0


def in_pedigree_order(kin: Mapping[str, Kin]) -> dict[str, Kin]:
    """The same animals, parents before their offspring; the order depends on ids alone. There must be no loop."""
    placed: dict[str, Kin] = {}
    waiting = sorted(kin)
    while waiting:
        now = [key for key in waiting if all(parent in placed for parent in kin[key].parents)]
        placed |= {key: kin[key] for key in now}
        waiting = [key for key in waiting if key not in placed]
    return placed


def _founder(prior: Part, fits: Fit = lambda diplotype: 1) -> Member:
    return Member(None, None, prior, None, fits)
