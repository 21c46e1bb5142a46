"""A whole pedigree at one group of loci: who may have what, and how the animals depend on one another."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..genetics import Contradiction, Diplotype, Genome, Genotype, Group, Member, Part, gametes, joint
from ..genetics.pedigree import possible
from .evidence import fits_label, from_missing_parent

__all__ = ["Kin", "Lineage", "in_pedigree_order"]

Joint = Mapping[tuple[Diplotype, ...], Fraction]


@dataclass(frozen=True)
class Kin:
    """What a pedigree needs to know of one animal. dam, sire: ids of animals of the same pedigree, or None."""

    sex: str | None
    label: Genotype
    dam: str | None = None
    sire: str | None = None

    @property
    def parents(self) -> tuple[str, ...]:
        return tuple(key for key in (self.dam, self.sire) if key is not None)


class Lineage:
    """The pedigree at one group.

    clashing: ids of animals whose looks their recorded parents cannot explain; each counts as a founder with its own
        label here. Animals that are not listed in `states` are wild for certain.
    """

    def __init__(self, genome: Genome, group: Group, kin: Mapping[str, Kin], clashing: Collection[str] = ()) -> None:
        """kin: id -> animal, parents before their offspring."""
        self.genome, self.group, self.kin = genome, group, kin
        self.clashing = set(clashing)
        self.members: dict[str, Member] = {}
        self.states: dict[str, tuple[Diplotype, ...]] = {}
        self._links: dict[str, set[str]] = {}
        self._known: dict[tuple[tuple[str, ...], frozenset[str]], Joint] = {}
        for key, animal in kin.items():
            self._settle(key, animal)
        self._link()

    @classmethod
    def consistent(cls, genome: Genome, group: Group, kin: Mapping[str, Kin]) -> Lineage:
        """The pedigree with as few animals as possible set apart as clashing, the youngest of those that clash."""
        lineage = cls(genome, group, kin)
        while not lineage.holds:
            order, low, high = list(kin), 0, len(kin)
            while high - low > 1:
                middle = (low + high) // 2
                part = {key: kin[key] for key in order[:middle]}
                if cls(genome, group, part, lineage.clashing).holds:
                    low = middle
                else:
                    high = middle
            lineage = cls(genome, group, kin, {*lineage.clashing, order[high - 1]})
        return lineage

    @property
    def holds(self) -> bool:
        """Whether everything recorded can be true at once."""
        if self._lightest_fits():
            return True
        seen: set[str] = set()
        for key in self._links:
            if key not in seen:
                seen |= self._reach({key}, frozenset())
                try:
                    self.joint_of((key,))
                except Contradiction:
                    return False
        return True

    def joint_of(self, ids: Sequence[str], without: frozenset[str] = frozenset()) -> Joint:
        """Joint distribution of these animals' diplotypes; sums to 1. without: ids whose records are not used."""
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
        open_ids = {key for key in asked if len(self.states.get(key, ())) > 1}
        if not open_ids:
            return {tuple(self.states_of(key)[0] for key in asked): Fraction(1)}
        reach = self._reach(open_ids, without)
        involved = {key for key in self.states if key not in without and reach & {key, *self._parents(key)}}
        needed = {*involved, *asked, *(parent for key in involved for parent in self._parents(key))}
        members = {
            key: self.members[key] if key in involved else _founder({self.states_of(key)[0]: Fraction(1)})
            for key in self.kin
            if key in needed
        }
        return joint(self.group, members, asked)

    def _parents(self, key: str) -> tuple[str, ...]:
        member = self.members[key]
        return tuple(parent for parent in (member.dam, member.sire) if parent is not None)

    def _reach(self, start: set[str], without: frozenset[str]) -> set[str]:
        reached, ahead = set(start), list(start)
        while ahead:
            for key in self._links.get(ahead.pop(), set()) - reached - without:
                reached.add(key)
                ahead.append(key)
        return reached

    def _link(self) -> None:
        for key, member in self.members.items():
            trio = {k for k in (key, member.dam, member.sire) if k is not None and len(self.states.get(k, ())) > 1}
            for one in trio:
                self._links.setdefault(one, set()).update(trio)

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
        if blank and set(label) == {self.wild(key)}:
            return
        member = None
        if animal.parents and key not in self.clashing:
            member = self._born(animal, label)
            if member is not None:
                near = {parent: dict.fromkeys(self.states_of(parent)) for parent in animal.parents}
                self.states[key] = tuple(possible(self.group, member, near))
            if member is None or not self.states[key]:
                self.clashing.add(key)
                member = None
        if member is None:
            member = _founder(label)
            self.states[key] = tuple(sorted(label))
        self.members[key] = member

    def _born(self, animal: Kin, label: Part) -> Member | None:
        fits = fits_label(self.genome, self.group, label)
        if animal.dam is not None and animal.sire is not None:
            return Member(animal.dam, animal.sire, None, None, fits)
        (parent,) = animal.parents
        passed = {h for d in self.states_of(parent) for h in gametes(self.group, d)}
        missing_sex = "female" if animal.dam is None else "male"
        missing = from_missing_parent(self.genome, self.group, label, passed, missing_sex)
        return None if missing is None else Member(animal.dam, animal.sire, None, missing, fits)


def in_pedigree_order(kin: Mapping[str, Kin]) -> dict[str, Kin]:
    """The same animals, parents before their offspring; the order depends on ids alone. There must be no loop."""
    placed: dict[str, Kin] = {}
    waiting = sorted(kin)
    while waiting:
        now = [key for key in waiting if all(parent in placed for parent in kin[key].parents)]
        placed |= {key: kin[key] for key in now}
        waiting = [key for key in waiting if key not in placed]
    return placed


def _founder(prior: Part) -> Member:
    return Member(None, None, prior, None, lambda diplotype: True)
