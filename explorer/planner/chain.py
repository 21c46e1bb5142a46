"""Scores a plan exactly: a Markov chain over what has been kept, and what it truly is.

Every place holds an animal with a true genotype (its class), hidden or not, so that possible hets, shared animals
and shared clutches are all accounted for. A hatchling that is chosen has the distribution of an egg that meets the
requirement, since the eggs of a clutch are alike before they are looked at.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import inf

from .outcomes import Class, Outcomes
from .plan import Pairing, Plan

__all__ = ["Odds", "Score", "score"]

Spot = tuple[int, int] | None
"""(number of the class, seasons until it may breed), or None while the place is empty."""

State = tuple[Spot, ...]

DONE: Spot = (-1, 0)
"""An animal that the plan no longer needs."""


Parents = dict[tuple[int, int], float]
"""(dam's, sire's class) -> weight."""


@dataclass(frozen=True)
class Odds:
    """Chance per egg, and in a clutch that is laid, averaged over the parents' true genotypes."""

    per_egg: float
    in_clutch: float


@dataclass(frozen=True)
class Score:
    """What a plan is worth.

    curve: chance that the target has hatched by season k + 1. expected: mean season of that, inf if it may never
    hatch. clutches: mean number of clutches laid within the horizon. filled: for each place, the chance that it is
    filled by season k + 1 and no target has hatched. odds: for each pairing, those of the target and then of each place
    it fills, in the season in which it starts with the best luck. states: how many states the chain went through.
    """

    curve: tuple[float, ...]
    expected: float
    clutches: float
    filled: tuple[tuple[float, ...], ...]
    odds: tuple[tuple[Odds, ...], ...]
    states: int


def score(
    plan: Plan,
    outcomes: Outcomes,
    start: Mapping[tuple[Class, ...], float],
    waits: Mapping[str, int],
    clutches_per_male: int,
    seasons: int,
) -> Score:
    """Runs the plan's chain for `seasons` seasons, and solves it for the mean.

    start: classes of the owned places, in the order of `plan.places` -> probability.
    """
    chain = _Chain(plan, outcomes, waits, clutches_per_male)
    initial = chain.first(start)
    now, curve, reached, clutches = initial, [], 0.0, 0.0
    filled: list[list[float]] = [[] for _ in plan.places]
    _, starts = plan.soonest(waits)
    parents: list[Parents] = [{} for _ in plan.pairings]
    for season in range(1, max(seasons, *starts) + 1):
        then: dict[State, float] = {}
        for state, weight in now.items():
            if season in starts:
                chain.note_parents(state, weight, parents, [start == season for start in starts])
            hit, moves, laid = chain.season(state)
            if season <= seasons:
                reached += weight * hit
                clutches += weight * laid
            for after, chance in moves:
                then[after] = then.get(after, 0.0) + weight * chance
        now = then
        if season > seasons:
            continue
        curve.append(min(reached, 1.0))
        for number, column in enumerate(filled):
            column.append(sum(weight for state, weight in now.items() if state[number] is not None))
    expected = sum(weight * chain.mean(state) for state, weight in initial.items())
    odds = tuple(_odds(outcomes, known, p.keeps) for p, known in zip(plan.pairings, parents, strict=True))
    return Score(tuple(curve), expected, clutches, tuple(tuple(column) for column in filled), odds, chain.size)


def _odds(outcomes: Outcomes, parents: Parents, places: tuple[int, ...]) -> tuple[Odds, ...]:
    total = sum(parents.values())
    sums = [[0.0, 0.0] for _ in range(1 + len(places))]
    for (dam, sire), weight in parents.items():
        for entry, q in zip(sums, outcomes.per_egg(dam, sire, places), strict=True):
            entry[0] += weight / total * q
            entry[1] += weight / total * outcomes.in_clutch(q)
    return tuple(Odds(*entry) for entry in sums)


class _Chain:
    def __init__(self, plan: Plan, outcomes: Outcomes, waits: Mapping[str, int], clutches_per_male: int) -> None:
        self.plan, self.outcomes, self.most = plan, outcomes, clutches_per_male
        self.waits = [waits[place.sex] for place in plan.places]
        self._seasons: dict[State, tuple[float, list[tuple[State, float]], float]] = {}
        self._means: dict[State, float] = {}
        self._idle: dict[tuple[bool, ...], list[int]] = {}

    def first(self, start: Mapping[tuple[Class, ...], float]) -> dict[State, float]:
        """The states the plan may start in."""
        states: dict[State, float] = {}
        for classes, weight in start.items():
            given = iter(classes)
            state = tuple(
                (self.outcomes.number(next(given)), place.ready - 1) if place.owned is not None else None
                for place in self.plan.places
            )
            states[state] = states.get(state, 0.0) + weight
        return states

    @property
    def size(self) -> int:
        """Number of states met so far."""
        return len(self._seasons)

    def note_parents(self, state: State, weight: float, parents: list[Parents], now: list[bool]) -> None:
        """Adds the state's weight to the parents' classes of each pairing that is made in it and starts now."""
        for pairing, _ in self._at_work(state):
            number = self.plan.pairings.index(pairing)
            dam, sire = state[pairing.dam], state[pairing.sire]
            if now[number] and dam is not None and sire is not None:
                key = (dam[0], sire[0])
                parents[number][key] = parents[number].get(key, 0.0) + weight

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
        ends: list[tuple[float, dict[int, int]]] = [(1.0, {})]
        hit, laid = 0.0, 0
        for pairing, places in self._at_work(state):
            laid += 1
            dam, sire = state[pairing.dam], state[pairing.sire]
            assert dam is not None and sire is not None
            clutch = self.outcomes.of(dam[0], sire[0], places)
            hatched = max(0.0, 1.0 - sum(chance for chance, _ in clutch))
            hit += hatched * sum(weight for weight, _ in ends)
            if places:
                ends = [
                    (weight * chance, {**filled, **dict(zip(places, kept, strict=True))})
                    for weight, filled in ends
                    for chance, kept in clutch
                ]
            else:
                ends = [(weight * clutch[0][0], filled) for weight, filled in ends] if clutch else []
        moves: dict[State, float] = {}
        aged: State = tuple((spot[0], spot[1] - 1) if spot is not None and spot[1] else spot for spot in state)
        for weight, filled in ends:
            after = self._after(aged, filled)
            moves[after] = moves.get(after, 0.0) + weight
        return hit, list(moves.items()), laid * self.outcomes.lay_rate

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

    def _after(self, aged: State, filled: Mapping[int, int]) -> State:
        """The next season's state: hatchlings take their places, and who is no longer needed is forgotten."""
        spots = list(aged)
        for number, of in filled.items():
            if of >= 0:
                spots[number] = (of, self.waits[number] - 1)
        pattern = tuple([spot is None for spot in spots])
        idle = self._idle.get(pattern)
        if idle is None:
            idle = self._idle[pattern] = self._not_needed(pattern)
        for number in idle:
            spots[number] = DONE
        return tuple(spots)

    def _not_needed(self, empty: tuple[bool, ...]) -> list[int]:
        needed = {number for p in self.plan.pairings if any(empty[k] for k in p.keeps) for number in (p.dam, p.sire)}
        last = self.plan.pairings[-1]
        needed |= {last.dam, last.sire}
        return [number for number, gap in enumerate(empty) if not gap and number not in needed]
