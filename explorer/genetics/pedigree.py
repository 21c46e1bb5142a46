"""Exact joint genotype posterior of a pedigree at one group of loci."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from .gametes import gametes, viable, zygotes
from .genome import Diplotype, Group, Haplotype, order
from .genotype import Part
from .network import Factor, Network, entries, whole

__all__ = ["Contradiction", "Fit", "Mating", "Member", "Pedigree", "joint", "possible"]

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

    dam, sire: keys of the parents, or None. prior: a founder's distribution (used if both are None).
    missing: what the one parent that is not recorded passed on (used if exactly one is None).
    fits: how well a diplotype agrees with what is known of the animal itself.
    """

    dam: str | None
    sire: str | None
    prior: Part | None
    missing: Mapping[Haplotype, Fraction] | None
    fits: Fit


@dataclass(frozen=True)
class Mating:
    """What was seen of a pair's offspring that are no members. weight: its chance, given the pair's diplotypes."""

    dam: str
    sire: str
    weight: Callable[[Diplotype, Diplotype], Fraction]


class Pedigree:
    """Members, parents before their offspring, and matings of members. Contradiction if a member has no genotype left.

    states: key -> the diplotypes it may have, as far as its ancestors' records and its own say. All members hatched,
    which says something of their parents too where some eggs are not viable.
    """

    def __init__(self, group: Group, members: Mapping[str, Member], matings: Iterable[Mating] = ()) -> None:
        self.group, self.members, self.matings = group, members, tuple(matings)
        self.states: dict[str, tuple[Diplotype, ...]] = {}
        for key, member in members.items():
            near = {name: dict.fromkeys(self.states[name]) for name in _parents(member)}
            self.states[key] = tuple(possible(group, member, near))
            if not self.states[key]:
                raise Contradiction([key, *_parents(member)])
        self._bred: dict[tuple[Diplotype, Diplotype], dict[Diplotype, Fraction]] = {}

    @cached_property
    def network(self) -> Network:
        """The factors over all animals that have more than one possible genotype."""
        sizes = {key: len(states) for key, states in self.states.items() if len(states) > 1}
        factors = [factor for key, member in self.members.items() for factor in self._factors(key, member)]
        factors += [self._mated(mating) for mating in self.matings]
        return Network(sizes, factors)

    @cached_property
    def chance(self) -> Fraction:
        """The chance of all that is known together; 0 if it cannot all be true."""
        return self.network.total

    def joint(self, asked: Sequence[str]) -> dict[tuple[Diplotype, ...], Fraction]:
        """Joint distribution of the diplotypes of these animals; sums to 1. Raises Contradiction if the chance is 0."""
        unsure = [key for key in dict.fromkeys(asked) if len(self.states[key]) > 1]
        table = self.network.joint(unsure)
        total = int(table.sum())
        if not total:
            raise Contradiction(list(asked))
        found: dict[tuple[Diplotype, ...], Fraction] = {}
        for at, weight in entries(table):
            place = dict(zip(unsure, at, strict=True))
            key_of = tuple(self.states[key][place.get(key, 0)] for key in asked)
            found[key_of] = Fraction(weight, total)
        return found

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

    def _factors(self, key: str, member: Member) -> list[Factor]:
        names = [name for name in (key, *_parents(member)) if len(self.states[name]) > 1]
        shape = [len(self.states[name]) for name in names]
        weights: dict[tuple[int, ...], Fraction] = {}
        founder = not _parents(member)
        for parents in _parent_states(member, self.states):
            made = (member.prior or {}) if founder else self._conceived(member, parents)
            at = dict(zip(_parents(member), (p for p in parents if p is not None), strict=True))
            for diplotype in self.states[key]:
                weight = made.get(diplotype, Fraction(0)) * member.fits(diplotype)
                if weight:
                    place = {**at, key: diplotype}
                    weights[tuple(self.states[name].index(place[name]) for name in names)] = weight
        return [whole(tuple(names), shape, weights)]

    def _mated(self, mating: Mating) -> Factor:
        names = [name for name in (mating.dam, mating.sire) if len(self.states[name]) > 1]
        weights: dict[tuple[int, ...], Fraction] = {}
        for i, dam in enumerate(self.states[mating.dam]):
            for j, sire in enumerate(self.states[mating.sire]):
                at = tuple(k for k, name in ((i, mating.dam), (j, mating.sire)) if name in names)
                weights[at] = mating.weight(dam, sire)
        return whole(tuple(names), [len(self.states[name]) for name in names], weights)

    def _conceived(
        self, member: Member, parents: tuple[Diplotype | None, Diplotype | None]
    ) -> Mapping[Diplotype, Fraction]:
        if member.missing is not None or None in parents:
            return _conception(self.group, member, parents)
        dam, sire = parents
        assert dam is not None and sire is not None
        if (dam, sire) not in self._bred:
            self._bred[dam, sire] = zygotes(self.group, dam, sire)
        return self._bred[dam, sire]


def joint(group: Group, members: Mapping[str, Member], asked: Sequence[str]) -> dict[tuple[Diplotype, ...], Fraction]:
    """Joint distribution of the diplotypes of the animals asked for; sums to 1.

    members: key -> Member, parents before their offspring. Raises Contradiction if the records have chance 0.
    """
    return Pedigree(group, members).joint(asked)


def possible(group: Group, member: Member, states: Mapping[str, Mapping[Diplotype, object]]) -> list[Diplotype]:
    """Diplotypes the member may have, given those its parents may have."""
    if not _parents(member):
        made = set(member.prior or ())
    else:
        made = {d for parents in _parent_states(member, states) for d in _conception(group, member, parents)}
    return sorted(d for d in made if member.fits(d) and viable(group, d))


def _parents(member: Member) -> tuple[str, ...]:
    return tuple(key for key in (member.dam, member.sire) if key is not None)


def _parent_states(
    member: Member, states: Mapping[str, Iterable[Diplotype]]
) -> list[tuple[Diplotype | None, Diplotype | None]]:
    dams: list[Diplotype | None] = [None] if member.dam is None else list(states[member.dam])
    sires: list[Diplotype | None] = [None] if member.sire is None else list(states[member.sire])
    return [(dam, sire) for dam in dams for sire in sires]


def _conception(
    group: Group, member: Member, parents: tuple[Diplotype | None, Diplotype | None]
) -> dict[Diplotype, Fraction]:
    dam, sire = parents
    if dam is not None and sire is not None:
        return zygotes(group, dam, sire)
    known = dam if dam is not None else sire
    assert known is not None and member.missing is not None
    made: dict[Diplotype, Fraction] = {}
    for one, p in gametes(group, known).items():
        for two, q in member.missing.items():
            made[order(one, two)] = made.get(order(one, two), Fraction(0)) + p * q
    return made
