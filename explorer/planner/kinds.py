"""What the animals of a plan may carry, group by group, and what two of them can give.

A kind is the distribution of one group's diplotypes in an animal, interned as a number, so that the same question is
never worked out twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..genetics import Diplotype, viable, zygotes
from ..looks import carried
from .question import Question

__all__ = ["Choice", "Kinds", "LocalCross"]


@dataclass(frozen=True)
class Choice:
    """One way to choose a hatchling at one group: the option's number, its chance per egg, and the kind it gives."""

    option: int
    chance: float
    kind: int


@dataclass(frozen=True)
class LocalCross:
    """What two kinds give at one group. `hit`: chance per egg of what the target asks for here.

    choices: sex -> the ways to choose a hatchling of that sex; at groups off the sex chromosomes both lists are the
    same and leave the sex out of account. support: sex -> the gene copies that some egg has, viable or not.
    """

    hit: float
    choices: Mapping[str, tuple[Choice, ...]]
    support: Mapping[str, tuple[tuple[tuple[str, int], ...], ...]]


class Kinds:
    """The kinds of one question."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self._ids: list[dict[tuple[tuple[Diplotype, Fraction], ...], int]] = [{} for _ in question.groups]
        self.parts: list[list[dict[Diplotype, Fraction]]] = [[] for _ in question.groups]
        self._crosses: dict[tuple[int, int, int], LocalCross] = {}
        self._closeness: dict[tuple[int, int], float] = {}
        self._order: dict[tuple[int, int, int], bool] = {}
        self._vectors: list[dict[Diplotype, tuple[int, ...]]] = [{} for _ in question.groups]

    def intern(self, at: int, part: Mapping[Diplotype, Fraction]) -> int:
        """The number of the kind with this distribution, projected on what matters, at group number `at`."""
        group = self.question.groups[at]
        projected: dict[Diplotype, Fraction] = {}
        for diplotype, chance in part.items():
            key = self.question.project(group, diplotype)
            projected[key] = projected.get(key, Fraction(0)) + chance
        key_of = tuple(sorted(projected.items()))
        known = self._ids[at].get(key_of)
        if known is None:
            known = self._ids[at][key_of] = len(self.parts[at])
            self.parts[at].append(projected)
        return known

    def cross(self, at: int, dam: int, sire: int) -> LocalCross:
        """What a dam and a sire of these kinds give at group number `at`."""
        found = self._crosses.get((at, dam, sire))
        if found is None:
            found = self._crosses[at, dam, sire] = self._cross(at, dam, sire)
        return found

    def at_least(self, at: int, better: int, worse: int) -> bool:
        """Whether the first kind is never further from the target than the second (a sufficient test)."""
        if better == worse:
            return True
        key = (at, better, worse)
        found = self._order.get(key)
        if found is None:
            found = self._order[key] = self._at_least(at, better, worse)
        return found

    def closeness(self, at: int, kind: int) -> float:
        """Mean share of the target's copies at this group that an animal of this kind has, from 0 to 1."""
        known = self._closeness.get((at, kind))
        if known is not None:
            return known
        question, group = self.question, self.question.groups[at]
        needs = {a.name: 2 if question.wanted[a.name] == 2 else 1 for locus in group.loci for a in locus.alleles
                 if a.name in question.wanted}
        total = sum(needs.values()) or 1
        mean = 0.0
        for diplotype, chance in self.parts[at][kind].items():
            copies = carried(group, diplotype)
            mean += float(chance) * sum(min(copies.get(g, 0), n) for g, n in needs.items()) / total
        self._closeness[at, kind] = mean
        return mean

    def _cross(self, at: int, dam: int, sire: int) -> LocalCross:
        question, group = self.question, self.question.groups[at]
        eggs: dict[Diplotype, Fraction] = {}
        for d, p in self.parts[at][dam].items():
            for s, q in self.parts[at][sire].items():
                for child, chance in zygotes(group, d, s).items():
                    eggs[child] = eggs.get(child, Fraction(0)) + p * q * chance
        living = {d: chance for d, chance in eggs.items() if viable(group, d)}
        hit = sum((chance for d, chance in living.items() if question.hits[at](d)), Fraction(0))
        choices, support = {}, {}
        for sex in ("female", "male"):
            mine = {d: c for d, c in living.items() if not group.sex or question.genome.sex_of(d) == sex}
            choices[sex] = self._choices(at, mine)
            every = [d for d in eggs if not group.sex or question.genome.sex_of(d) == sex]
            support[sex] = tuple({tuple(sorted(carried(group, d).items())) for d in every})
        return LocalCross(float(hit), choices, support)

    def _choices(self, at: int, eggs: Mapping[Diplotype, Fraction]) -> tuple[Choice, ...]:
        """One choice for each different set of hatchlings that some option takes, under its most telling option."""
        question, group = self.question, self.question.groups[at]
        found: dict[frozenset[Diplotype], Choice] = {}
        for number, option in enumerate(question.options[at]):
            taken = {d: c for d, c in eggs.items() if question.fits(group, option, d)}
            chance = sum(taken.values(), Fraction(0))
            if chance:
                kind = self.intern(at, {d: c / chance for d, c in taken.items()})
                found[frozenset(taken)] = Choice(number, float(chance), kind)
        return tuple(found.values())

    def _at_least(self, at: int, better: int, worse: int) -> bool:
        ours = [(self._vector(at, d), p) for d, p in self.parts[at][better].items()]
        theirs = [(self._vector(at, d), p) for d, p in self.parts[at][worse].items()]
        if all(all(x >= y for x, y in zip(a, b, strict=True)) for a, _ in ours for b, _ in theirs):
            return True
        if len(self.question.groups[at].loci) != 1 or len(ours[0][0]) != 1:
            return False
        levels = {v for v, _ in ours} | {v for v, _ in theirs}
        return all(sum(p for v, p in ours if v >= x) >= sum(p for v, p in theirs if v >= x) for x in levels)

    def _vector(self, at: int, diplotype: Diplotype) -> tuple[int, ...]:
        """Copies of each wanted gene, and of each other tracked gene counted downwards, by chromosome if that tells."""
        known = self._vectors[at].get(diplotype)
        if known is None:
            group, question = self.question.groups[at], self.question
            names = [a.name for locus in group.loci for a in locus.alleles if a.name in question.tracked]
            if group.sex or len(group.loci) > 1:
                signs = [1 if name in question.wanted else -1 for name in names]
                marks = sorted({h[0] for h in diplotype}) if group.sex else ["", "+"]
                known = tuple(
                    sign * sum((h[0] == mark) * h.count(name) for h in diplotype)
                    if group.sex
                    else sign * diplotype[marks.index(mark)].count(name)
                    for mark in ((question.genome.same, question.genome.other) if group.sex else marks)
                    for name, sign in zip(names, signs, strict=True)
                )
            else:
                copies = carried(group, diplotype)
                known = tuple(copies.get(n, 0) * (1 if n in question.wanted else -1) for n in names)
            self._vectors[at][diplotype] = known
        return known
