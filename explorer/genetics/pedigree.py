"""Exact joint genotype posterior of a pedigree at one group of loci."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, lru_cache

from .factors import Factor, entries, raised, trimmed, whole
from .gametes import gametes, viable, zygotes
from .genome import Diplotype, Group, Haplotype, order
from .genotype import Part
from .network import Network

__all__ = ["Contradiction", "Fit", "Mating", "Member", "Note", "Pedigree", "hatching", "joint", "possible"]

Fit = Callable[[Diplotype], Fraction | int]
"""How well a diplotype agrees with what is known of an animal: 0 if not at all."""


class Contradiction(ValueError):
    """What is recorded of a pedigree cannot all be true. `members` names whose records clash."""

    def __init__(self, members: Sequence[str]) -> None:
        super().__init__(f"these records cannot all be true: {', '.join(members)}")
        self.members = tuple(members)


@dataclass(frozen=True)
class Member:
    """One animal of a pedigree, at one group.

    dam, sire: keys of the parents, or None. prior: a founder's distribution (used if it has no parents).
    missing: what the one parent that is not recorded passed on (used if there is exactly one).
    fits: how well a diplotype agrees with what is known of the animal itself.
    sires, way: the males that may be its sire, if that is open; in state k of the unknown `way` it is sires[k], and one
    male may stand there several times.
    """

    dam: str | None
    sire: str | None
    prior: Part | None
    missing: Mapping[Haplotype, Fraction] | None
    fits: Fit
    sires: tuple[str, ...] = ()
    way: str = ""

    @property
    def parents(self) -> tuple[str, ...]:
        """All that are its parents, or may be."""
        return tuple(dict.fromkeys(key for key in (self.dam, self.sire, *self.sires) if key is not None))


@dataclass(frozen=True)
class Mating:
    """What was seen of a pair's offspring that are no members. weight: its chance, given the pair's diplotypes.

    way, times: in state k of the unknown `way` it was seen times[k] times; once, whatever is unknown, if that is "".
    """

    dam: str
    sire: str
    weight: Callable[[Diplotype, Diplotype], Fraction]
    way: str = ""
    times: tuple[int, ...] = ()


@dataclass(frozen=True)
class Note:
    """What was written of a member elsewhere. fits: how well a diplotype agrees with it, in each state of the unknown
    `way`; one for all if that is "".
    """

    key: str
    fits: tuple[Fit, ...]
    way: str = ""


class Pedigree:
    """Members, parents before their offspring, and matings of members. Contradiction if a member has no genotype left.

    states: key -> the diplotypes it may have, as far as its ancestors' records and its own say. All members hatched,
    and their chances are those of eggs that do: that they hatched says nothing of their parents. Ways are variables
    like the animals.
    """

    def __init__(
        self,
        group: Group,
        members: Mapping[str, Member],
        matings: Iterable[Mating] = (),
        states: Mapping[str, tuple[Diplotype, ...]] | None = None,
    ) -> None:
        """states: if they were worked out before; parents that have one state need then not be members."""
        self.group, self.members, self.matings = group, members, tuple(matings)
        self.told: tuple[Factor, ...] = ()
        self.notes: tuple[Note, ...] = ()
        self.states = dict(states or {})
        for key, member in members.items() if states is None else ():
            near = {name: dict.fromkeys(self.states[name]) for name in member.parents}
            self.states[key] = tuple(possible(group, member, near))
            if not self.states[key]:
                raise Contradiction([key, *member.parents])

    def given(self, matings: Iterable[Mating], told: Iterable[Factor] = (), notes: Iterable[Note] = ()) -> Pedigree:
        """With further matings of animals whose states are known, with notes on members, and with what is known of the
        ways from elsewhere."""
        made = copy(self)
        made.matings, made.told = (*self.matings, *matings), (*self.told, *told)
        made.notes = (*self.notes, *notes)
        made.__dict__["_own"] = self._own
        made.__dict__.pop("network", None)
        return made

    @cached_property
    def network(self) -> Network:
        """The factors over all animals that have more than one possible genotype, and over the ways that matter."""
        factors = [factor for factors in self._own.values() for factor in factors]
        return self._of([*factors, *map(self._mated, self.matings), *map(self._noted, self.notes), *self.told])

    @property
    def ways(self) -> tuple[str, ...]:
        """The ways on which the chances here depend."""
        return tuple(name for name in self.network.sizes if name not in self.states)

    @property
    def telling_ways(self) -> tuple[str, ...]:
        """The ways that have to do with any animal whose genes are open: what is known of them says something of it."""
        animals = [name for name in self.network.sizes if name in self.states]
        return tuple(name for name in self.network.around(animals).sizes if name not in self.states)

    @property
    def chance(self) -> Fraction:
        """The chance of all that is known together; 0 if it cannot all be true. Every way counts as 1."""
        return self.network.total

    def joint(self, asked: Sequence[str]) -> dict[tuple[Diplotype, ...], Fraction]:
        """Joint distribution of the diplotypes of these animals; sums to 1. Raises Contradiction if the chance is 0."""
        return self._joint(self.network, asked)

    def before(self, key: str, offspring: frozenset[str]) -> dict[Diplotype, Fraction]:
        """Distribution of one animal's diplotype as if it had not been bred: without the records of its offspring."""
        if len(self.states[key]) == 1:
            return {self.states[key][0]: Fraction(1)}
        bred = {key, *offspring}
        factors = [factor for other, own in self._own.items() if other not in offspring for factor in own]
        factors += [self._mated(mating) for mating in self.matings if not bred & {mating.dam, mating.sire}]
        factors += [self._noted(note) for note in self.notes if note.key not in offspring]
        found = self._joint(self._of([*factors, *self.told]).around([key]), [key])
        return {diplotype: chance for (diplotype,), chance in found.items()}

    def marginal(self, key: str) -> dict[Diplotype, Fraction]:
        """Distribution of one animal's diplotype; the first call works out those of all animals."""
        states = self.states[key]
        if len(states) == 1:
            return {states[0]: Fraction(1)}
        weights = self.network.marginals[key]
        total = int(weights.sum())
        if not total:
            raise Contradiction([key])
        return {state: Fraction(int(w), total) for state, w in zip(states, weights, strict=True) if w}

    def _joint(self, network: Network, asked: Sequence[str]) -> dict[tuple[Diplotype, ...], Fraction]:
        unsure = [key for key in dict.fromkeys(asked) if len(self.states[key]) > 1]
        table = network.joint(unsure)
        total = int(table.sum())
        if not total:
            raise Contradiction(list(asked))
        found: dict[tuple[Diplotype, ...], Fraction] = {}
        for at, weight in entries(table):
            place = dict(zip(unsure, at, strict=True))
            key_of = tuple(self.states[key][place.get(key, 0)] for key in asked)
            found[key_of] = Fraction(weight, total)
        return found

    def _of(self, factors: Sequence[Factor]) -> Network:
        sizes = {key: len(states) for key, states in self.states.items() if len(states) > 1}
        for factor in factors:
            sizes.update(zip(factor.names, factor.table.shape, strict=True))
        return Network(sizes, factors)

    @cached_property
    def _own(self) -> dict[str, list[Factor]]:
        """Key -> what a member's own record says."""
        return {key: self._factors(key, member) for key, member in self.members.items()}

    def _factors(self, key: str, member: Member) -> list[Factor]:
        if not member.way:
            return [self._born(key, member)]
        found = []
        for sire in dict.fromkeys(member.sires):
            here = tuple(int(sire == other) for other in member.sires)
            found.append(raised(self._born(key, replace(member, sire=sire, sires=(), way="")), member.way, here))
        return found

    def _born(self, key: str, member: Member) -> Factor:
        names = [name for name in (key, *member.parents) if len(self.states[name]) > 1]
        shape = [len(self.states[name]) for name in names]
        own = {diplotype: fit for diplotype in self.states[key] if (fit := member.fits(diplotype))}
        numbers = {name: {diplotype: i for i, diplotype in enumerate(self.states[name])} for name in names}
        weights: dict[tuple[int, ...], Fraction] = {}
        for parents in _parent_states(member, self.states):
            made = _conception(self.group, member, parents)
            at = dict(zip(member.parents, (p for p in parents if p is not None), strict=True))
            for diplotype, fit in own.items():
                if weight := made.get(diplotype, 0) * fit:
                    at[key] = diplotype
                    weights[tuple(numbers[name][at[name]] for name in names)] = Fraction(weight)
        return whole(tuple(names), shape, weights)

    def _mated(self, mating: Mating) -> Factor:
        names = [name for name in (mating.dam, mating.sire) if len(self.states[name]) > 1]
        weights: dict[tuple[int, ...], Fraction] = {}
        for i, dam in enumerate(self.states[mating.dam]):
            for j, sire in enumerate(self.states[mating.sire]):
                at = tuple(k for k, name in ((i, mating.dam), (j, mating.sire)) if name in names)
                weights[at] = mating.weight(dam, sire)
        factor = whole(tuple(names), [len(self.states[name]) for name in names], weights)
        return raised(factor, mating.way, mating.times) if mating.way else factor

    def _noted(self, note: Note) -> Factor:
        states = self.states[note.key]
        axes = [(note.way, len(note.fits))] if note.way else []
        axes += [(note.key, len(states))] if len(states) > 1 else []
        weights: dict[tuple[int, ...], Fraction | int] = {}
        for k, fits in enumerate(note.fits):
            for i, diplotype in enumerate(states):
                at = tuple(place for place, name in ((k, note.way), (i, note.key)) if name in dict(axes))
                weights[at] = fits(diplotype)
        return trimmed(whole(tuple(name for name, _ in axes), [size for _, size in axes], weights))


def joint(group: Group, members: Mapping[str, Member], asked: Sequence[str]) -> dict[tuple[Diplotype, ...], Fraction]:
    """Joint distribution of the diplotypes of the animals asked for; sums to 1.

    members: key -> Member, parents before their offspring. Raises Contradiction if the records have chance 0.
    """
    return Pedigree(group, members).joint(asked)


def possible(group: Group, member: Member, states: Mapping[str, Mapping[Diplotype, object]]) -> list[Diplotype]:
    """Diplotypes the member may have, given those its parents may have."""
    made = {d for parents in _parent_states(member, states) for d in _conception(group, member, parents)}
    return sorted(d for d in made if member.fits(d))


@lru_cache(maxsize=1 << 16)
def hatching(group: Group, dam: Diplotype, sire: Diplotype) -> Mapping[Diplotype, Fraction]:
    """Diplotype -> chance that one egg that hatches has it; sums to 1, empty if no egg is viable."""
    return _of_viable(group, zygotes(group, dam, sire))


def _of_viable(group: Group, made: Mapping[Diplotype, Fraction]) -> dict[Diplotype, Fraction]:
    living = {diplotype: chance for diplotype, chance in made.items() if viable(group, diplotype)}
    total = sum(living.values(), Fraction(0))
    return living if total == 1 else {diplotype: chance / total for diplotype, chance in living.items() if chance}


def _parent_states(
    member: Member, states: Mapping[str, Iterable[Diplotype]]
) -> list[tuple[Diplotype | None, Diplotype | None]]:
    dams: list[Diplotype | None] = [None] if member.dam is None else list(states[member.dam])
    males = [key for key in (member.sire, *member.sires) if key is not None]
    sires: list[Diplotype | None] = list(dict.fromkeys(d for key in males for d in states[key])) if males else [None]
    return [(dam, sire) for dam in dams for sire in sires]


def _conception(
    group: Group, member: Member, parents: tuple[Diplotype | None, Diplotype | None]
) -> Mapping[Diplotype, Fraction]:
    """Viable diplotype -> chance, of an egg of these parents, or of a founder."""
    dam, sire = parents
    if dam is not None and sire is not None:
        return hatching(group, dam, sire)
    known = dam if dam is not None else sire
    made: dict[Diplotype, Fraction] = dict(member.prior or {}) if known is None else {}
    for one, p in gametes(group, known).items() if known is not None else ():
        for two, q in (member.missing or {}).items():
            made[order(one, two)] = made.get(order(one, two), Fraction(0)) + p * q
    return _of_viable(group, made)
