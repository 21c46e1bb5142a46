"""Scores a plan exactly: a Markov chain over what has been kept, and what it truly is.

Every place holds an animal with a true genotype (its class), hidden or not, so that possible hets, shared animals
and shared clutches are all accounted for. A hatchling that is chosen has the distribution of an egg that meets the
requirement, since the eggs of a clutch are alike before they are looked at.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from math import inf

from ..genetics import Diplotype, EggLaw, viable, zygotes
from .plan import Pairing, Plan
from .question import Question

__all__ = ["Score", "score"]

Class = tuple[Diplotype, ...]
"""An animal's true diplotypes, projected, one for each group of the question."""

Spot = tuple[int, int] | None
"""(number of the class, seasons until it may breed), or None while the place is empty."""

State = tuple[Spot, ...]

DONE: Spot = (-1, 0)
"""An animal that the plan no longer needs."""


@dataclass(frozen=True)
class Score:
    """What a plan is worth.

    curve: chance that the target has hatched by season k + 1. expected: mean season of that, inf if it may never
    hatch. clutches: mean number of clutches laid within the horizon. filled: for each place, the chance that it is
    filled by season k + 1 and no target has hatched.
    """

    curve: tuple[float, ...]
    expected: float
    clutches: float
    filled: tuple[tuple[float, ...], ...]


def score(
    question: Question,
    plan: Plan,
    start: Mapping[tuple[Class, ...], float],
    law: EggLaw,
    hatch_rate: float,
    lay_rate: float,
    waits: Mapping[str, int],
    clutches_per_male: int,
    seasons: int,
) -> Score:
    """Runs the plan's chain for `seasons` seasons, and solves it for the mean.

    start: classes of the owned places, in the order of `plan.places` -> probability.
    """
    chain = _Chain(question, plan, law, hatch_rate, lay_rate, waits, clutches_per_male)
    now = chain.first(start)
    curve, reached, clutches = [], 0.0, 0.0
    filled: list[list[float]] = [[] for _ in plan.places]
    initial = dict(now)
    for _ in range(seasons):
        then: dict[State, float] = {}
        for state, weight in now.items():
            hit, moves, laid = chain.season(state)
            reached += weight * hit
            clutches += weight * laid
            for after, chance in moves:
                then[after] = then.get(after, 0.0) + weight * chance
        now = then
        curve.append(min(reached, 1.0))
        for number, column in enumerate(filled):
            column.append(sum(weight for state, weight in now.items() if state[number] is not None))
    expected = sum(weight * chain.mean(state) for state, weight in initial.items())
    return Score(tuple(curve), expected, clutches, tuple(tuple(column) for column in filled))


class _Chain:
    def __init__(
        self,
        question: Question,
        plan: Plan,
        law: EggLaw,
        hatch_rate: float,
        lay_rate: float,
        waits: Mapping[str, int],
        clutches_per_male: int,
    ) -> None:
        self.question, self.plan = question, plan
        self.law = [(n, float(chance)) for n, chance in law.items()]
        self.hatch_rate, self.lay_rate = hatch_rate, lay_rate
        self.waits, self.most = waits, clutches_per_male
        self.classes: list[Class] = []
        self.numbers: dict[Class, int] = {}
        self.users = [
            [i for i, p in enumerate(plan.pairings) if number in (p.dam, p.sire)] for number in range(len(plan.places))
        ]
        self._seasons: dict[State, tuple[float, list[tuple[State, float]], float]] = {}
        self._means: dict[State, float] = {}
        self._eggs: dict[tuple[int, int, tuple[int, ...]], tuple[float, list[dict[int, float]]]] = {}
        self.zygotes = lru_cache(maxsize=None)(
            lambda at, dam, sire: [
                (d, float(p), question.hits[at](d))
                for d, p in zygotes(question.groups[at], dam, sire).items()
                if viable(question.groups[at], d)
            ]
        )

    def number(self, of: Class) -> int:
        if of not in self.numbers:
            self.numbers[of] = len(self.classes)
            self.classes.append(of)
        return self.numbers[of]

    def first(self, start: Mapping[tuple[Class, ...], float]) -> dict[State, float]:
        states: dict[State, float] = {}
        for classes, weight in start.items():
            given = iter(classes)
            state = tuple(
                (self.number(next(given)), place.ready - 1) if place.owned is not None else None
                for place in self.plan.places
            )
            states[state] = states.get(state, 0.0) + weight
        return states

    def season(self, state: State) -> tuple[float, list[tuple[State, float]], float]:
        """(chance that the target hatches this season, the states it may end in without, clutches laid)."""
        found = self._seasons.get(state)
        if found is None:
            found = self._seasons[state] = self._season(state)
        return found

    def mean(self, state: State) -> float:
        """Mean number of seasons until the target hatches, counting the season at hand."""
        found = self._means.get(state)
        if found is None:
            _, moves, _ = self.season(state)
            stay = sum(chance for after, chance in moves if after == state)
            if stay >= 1.0 - 1e-15:
                found = inf
            else:
                rest = sum(chance * self.mean(after) for after, chance in moves if after != state and chance)
                found = (1.0 + rest) / (1.0 - stay)
            self._means[state] = found
        return found

    def _season(self, state: State) -> tuple[float, list[tuple[State, float]], float]:
        outcomes: list[tuple[float, dict[int, int]]] = [(1.0, {})]
        hit, laid = 0.0, 0
        for pairing, places in self._at_work(state):
            laid += 1
            dam, sire = state[pairing.dam], state[pairing.sire]
            assert dam is not None and sire is not None
            clutch = self._clutch(dam[0], sire[0], places)
            longer = []
            for weight, filled in outcomes:
                left = weight
                for chance, kept in clutch:
                    left -= weight * chance
                    longer.append((weight * chance, {**filled, **dict(zip(places, kept, strict=True))}))
                hit += max(left, 0.0)
            outcomes = longer
        moves: dict[State, float] = {}
        for weight, filled in outcomes:
            after = self._after(state, {k: v for k, v in filled.items() if v >= 0})
            moves[after] = moves.get(after, 0.0) + weight
        return hit, list(moves.items()), laid * self.lay_rate

    def _at_work(self, state: State) -> Iterator[tuple[Pairing, tuple[int, ...]]]:
        """The pairings made this season with the places they may fill, in the plan's order."""
        dams: set[int] = set()
        sires: dict[int, int] = {}
        last = self.plan.pairings[-1]
        for pairing in self.plan.pairings:
            open_places = tuple(keep for keep in pairing.keeps if state[keep] is None)
            if not open_places and pairing is not last:
                continue
            dam, sire = state[pairing.dam], state[pairing.sire]
            if dam is None or sire is None or dam[1] or sire[1]:
                continue
            if pairing.dam in dams or sires.get(pairing.sire, 0) >= self.most:
                continue
            dams.add(pairing.dam)
            sires[pairing.sire] = sires.get(pairing.sire, 0) + 1
            yield pairing, open_places

    def _clutch(self, dam: int, sire: int, places: tuple[int, ...]) -> list[tuple[float, tuple[int, ...]]]:
        """Outcomes of one season of a pairing without the target: (chance, class kept for each place or -1)."""
        target, kinds = self._egg(dam, sire, places)
        totals = [sum(kind.values()) for kind in kinds]
        outcomes: list[tuple[float, tuple[int, ...]]] = []
        for taken in product((False, True), repeat=len(places)):
            # inclusion and exclusion over the places that are filled: the others' hatchlings must all be missing
            chance = 0.0
            filled = [i for i, t in enumerate(taken) if t]
            for missed in product((False, True), repeat=len(filled)):
                gone = target + sum(totals[i] for i, t in enumerate(taken) if not t)
                gone += sum(totals[i] for i, m in zip(filled, missed, strict=True) if m)
                chance += (-1) ** sum(missed) * self._none(gone)
            chance *= self.lay_rate
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

    def _none(self, q: float) -> float:
        return sum(chance * max(0.0, 1 - q * self.hatch_rate) ** n for n, chance in self.law)

    def _egg(self, dam: int, sire: int, places: tuple[int, ...]) -> tuple[float, list[dict[int, float]]]:
        """Chance per egg of the target, and for each place class -> chance of an egg kept for it (target apart)."""
        key = (dam, sire, places)
        found = self._eggs.get(key)
        if found is not None:
            return found
        question = self.question
        tables = [
            self.zygotes(at, d, s)
            for at, (d, s) in enumerate(zip(self.classes[dam], self.classes[sire], strict=True))
        ]
        target = 1.0
        for table in tables:
            target *= sum(p for _, p, hit in table if hit)
        kinds: list[dict[int, float]] = []
        for number in places:
            place = self.plan.places[number]
            fitting = []
            for at, table in enumerate(tables):
                group, option = question.groups[at], question.options[at][place.options[at]]
                fitting.append(
                    [
                        (d, p, hit)
                        for d, p, hit in table
                        if question.fits(group, option, d) and (not group.sex or question.genome.sex_of(d) == place.sex)
                    ]
                )
            kind: dict[int, float] = {}
            for combination in product(*fitting):
                if not all(hit for _, _, hit in combination):
                    chance = 1.0
                    for _, p, _ in combination:
                        chance *= p
                    at_class = self.number(tuple(d for d, _, _ in combination))
                    kind[at_class] = kind.get(at_class, 0.0) + chance
            kinds.append(kind)
        self._eggs[key] = target, kinds
        return self._eggs[key]

    def _after(self, state: State, filled: Mapping[int, int]) -> State:
        spots: list[Spot] = []
        for number, spot in enumerate(state):
            if number in filled:
                spots.append((filled[number], self.waits[self.plan.places[number].sex] - 1))
            elif spot is not None and spot[1]:
                spots.append((spot[0], spot[1] - 1))
            else:
                spots.append(spot)
        for number, spot in enumerate(spots):
            if spot is not None and not any(self._in_use(user, spots) for user in self.users[number]):
                spots[number] = DONE
        return tuple(spots)

    def _in_use(self, pairing: int, spots: list[Spot]) -> bool:
        if pairing == len(self.plan.pairings) - 1:
            return True
        return any(spots[keep] is None for keep in self.plan.pairings[pairing].keeps)
