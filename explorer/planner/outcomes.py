"""What one season of one pairing of a plan can bring, for parents whose true genotypes are given."""

from __future__ import annotations

from itertools import product
from math import prod

from ..genetics import Diplotype, EggLaw, viable, zygotes
from .plan import Plan
from .question import Question

__all__ = ["Class", "Outcomes", "groups_that_matter"]

Class = tuple[Diplotype, ...]
"""An animal's true diplotypes, projected, one for each group that matters to the plan."""

Outcome = tuple[float, tuple[int, ...]]
"""Chance of an outcome without the target, and the class kept for each place (-1: none)."""

Table = list[tuple[Diplotype, float, bool]]
"""Of one group: viable diplotype, its chance per egg, and whether it is what the target asks for there."""


def groups_that_matter(question: Question, plan: Plan) -> tuple[int, ...]:
    """Numbers of the question's groups on which some choice, the target or an egg's life depends."""
    asked = {question.genome.home[gene][0].name for gene in (*question.wanted, *question.without)}
    return tuple(
        at
        for at, group in enumerate(question.groups)
        if group.sex
        or group.name in asked
        or group.lethal
        or any(
            option.counts or option.none_of
            for place in plan.places
            if place.options
            for option in (question.options[at][place.options[at]],)
        )
    )


class Outcomes:
    """The outcomes of a plan's pairings; classes are numbered as they turn up."""

    def __init__(self, question: Question, plan: Plan, law: EggLaw, hatch_rate: float, lay_rate: float) -> None:
        self.question, self.plan = question, plan
        self.groups = groups_that_matter(question, plan)
        self.law = [(n, float(chance)) for n, chance in law.items()]
        self.hatch_rate, self.lay_rate = hatch_rate, lay_rate
        self.classes: list[Class] = []
        self._numbers: dict[Class, int] = {}
        self._tables: dict[tuple[int, Diplotype, Diplotype], Table] = {}
        self._known: dict[tuple[int, int, tuple[int, ...]], list[Outcome]] = {}

    def number(self, of: Class) -> int:
        """The number of a class."""
        if of not in self._numbers:
            self._numbers[of] = len(self.classes)
            self.classes.append(of)
        return self._numbers[of]

    def of(self, dam: int, sire: int, places: tuple[int, ...]) -> list[Outcome]:
        """All outcomes of one season in which the target does not hatch; what is missing from 1 is its chance.

        dam, sire: numbers of their classes. places: those that the pairing may fill, of different sexes.
        """
        key = (dam, sire, places)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._outcomes(dam, sire, places)
        return found

    def per_egg(self, dam: int, sire: int, places: tuple[int, ...]) -> list[float]:
        """Chance that one egg is the target, then for each place that it meets what is asked there."""
        tables = self._tables_of(dam, sire)
        kinds = [[[entry for entry in table if entry[2]] for table in tables]]
        kinds += [self._fitting(tables, number) for number in places]
        return [prod(sum(p for _, p, _ in table) for table in kind) for kind in kinds]

    def in_clutch(self, q: float) -> float:
        """Chance that a clutch that is laid has at least one hatchling of a kind that each egg is with chance q."""
        return 1 - self._none(q)

    def _outcomes(self, dam: int, sire: int, places: tuple[int, ...]) -> list[Outcome]:
        target, kinds = self._egg(dam, sire, places)
        totals = [sum(kind.values()) for kind in kinds]
        outcomes: list[Outcome] = []
        for taken in product((False, True), repeat=len(places)):
            chance = self._filled(target, totals, taken) * self.lay_rate
            if not any(taken):
                chance += 1 - self.lay_rate
            if chance <= 0:
                continue
            for classes in product(*(kinds[i].items() if t else [(-1, 1.0)] for i, t in enumerate(taken))):
                share = chance
                for i, (_, weight) in enumerate(classes):
                    share *= weight / totals[i] if taken[i] else 1.0
                outcomes.append((share, tuple(c for c, _ in classes)))
        return outcomes

    def _filled(self, target: float, totals: list[float], taken: tuple[bool, ...]) -> float:
        """Chance that just the places `taken` are filled and no target hatches, by inclusion and exclusion."""
        filled = [i for i, t in enumerate(taken) if t]
        chance = 0.0
        for missed in product((False, True), repeat=len(filled)):
            gone = target + sum(totals[i] for i, t in enumerate(taken) if not t)
            gone += sum(totals[i] for i, m in zip(filled, missed, strict=True) if m)
            chance += (-1) ** sum(missed) * self._none(gone)
        return chance

    def _none(self, q: float) -> float:
        return sum(chance * max(0.0, 1 - q * self.hatch_rate) ** n for n, chance in self.law)

    def _egg(self, dam: int, sire: int, places: tuple[int, ...]) -> tuple[float, list[dict[int, float]]]:
        """Chance per egg of the target, and for each place class -> chance of an egg kept for it (target apart)."""
        tables = self._tables_of(dam, sire)
        target = 1.0
        for table in tables:
            target *= sum(p for _, p, hit in table if hit)
        return target, [self._kept(tables, place) for place in places]

    def _kept(self, tables: list[Table], number: int) -> dict[int, float]:
        kept: dict[int, float] = {}
        for combination in product(*self._fitting(tables, number)):
            if not all(hit for _, _, hit in combination):
                chance = 1.0
                for _, p, _ in combination:
                    chance *= p
                of = self.number(tuple(d for d, _, _ in combination))
                kept[of] = kept.get(of, 0.0) + chance
        return kept

    def _fitting(self, tables: list[Table], number: int) -> list[Table]:
        """The tables without what does not meet the requirement of a place, its sex included."""
        question, place = self.question, self.plan.places[number]
        return [
            [
                entry
                for entry in table
                if question.fits(question.groups[at], question.options[at][place.options[at]], entry[0])
                and (not question.groups[at].sex or question.genome.sex_of(entry[0]) == place.sex)
            ]
            for at, table in zip(self.groups, tables, strict=True)
        ]

    def _tables_of(self, dam: int, sire: int) -> list[Table]:
        return [
            self._table(at, d, s) for at, d, s in zip(self.groups, self.classes[dam], self.classes[sire], strict=True)
        ]

    def _table(self, at: int, dam: Diplotype, sire: Diplotype) -> Table:
        key = (at, dam, sire)
        found = self._tables.get(key)
        if found is None:
            group, hit = self.question.groups[at], self.question.hits[at]
            found = self._tables[key] = [
                (d, float(p), hit(d)) for d, p in zygotes(group, dam, sire).items() if viable(group, d)
            ]
        return found

