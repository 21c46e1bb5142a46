"""Finds candidate plans: forward from the owned animals, generation by generation, keeping what is not surpassed."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Sequence

from ..genetics import EggLaw
from .kinds import Kinds
from .labels import Harvest, Label, Match, as_ready, match_of, safe
from .question import Question

__all__ = ["Progress", "candidates"]

Progress = Callable[[float, str], None]
"""Told how far the work is, from 0 to 1, and what is being done; may raise to stop it."""

GENERATIONS = 5
WIDTH = 30
"""Most labels of one sex and one generation that are bred on."""


def candidates(
    question: Question,
    kinds: Kinds,
    owned: Sequence[Label],
    law: EggLaw,
    hatch_rate: float,
    lay_rate: float,
    waits: dict[str, int],
    progress: Progress,
    limit: int = 200,
) -> list[Match]:
    """The most promising last pairings, by estimated chance at the horizon, then soonest; at most `limit`."""
    cache: dict[float, float] = {}

    def in_clutch(q: float) -> float:
        found = cache.get(q)
        if found is None:
            found = cache[q] = lay_rate * (1 - float(sum(p * (1 - q * hatch_rate) ** n for n, p in law.items())))
        return found

    pool: dict[str, list[Label]] = {"female": [], "male": []}
    for label in owned:
        pool[label.sex].append(label)
    fresh = {sex: list(labels) for sex, labels in pool.items()}
    matches: list[Match] = []
    for generation in range(GENERATIONS):
        harvest = Harvest(kinds, in_clutch, waits)
        pairs = _pairs(pool, fresh)
        for number, (dam, sire) in enumerate(pairs):
            if number % 500 == 0:
                progress((generation + number / len(pairs)) / GENERATIONS, f"generation {generation + 1}")
            if not dam.ready[-1] or not sire.ready[-1] or not safe(question, kinds, dam, sire):
                continue
            match = match_of(kinds, dam, sire, in_clutch)
            if match is not None:
                matches.append(match)
            if generation < GENERATIONS - 1:
                harvest.add(dam, sire)
        matches = _best(matches, limit)
        fresh = {sex: _frontier(question, kinds, labels, harvest.labels(sex)) for sex, labels in pool.items()}
        if not fresh["female"] and not fresh["male"]:
            break
        for sex, labels in fresh.items():
            pool[sex] = pool[sex] + labels
    return matches


def _pairs(pool: dict[str, list[Label]], fresh: dict[str, list[Label]]) -> list[tuple[Label, Label]]:
    """Every dam and sire of which at least one is fresh."""
    newest = {id(label) for labels in fresh.values() for label in labels}
    return [
        (dam, sire)
        for dam in pool["female"]
        for sire in pool["male"]
        if id(dam) in newest or id(sire) in newest
    ]


def _frontier(question: Question, kinds: Kinds, old: Sequence[Label], new: list[Label]) -> list[Label]:
    """The new labels that no other animal surpasses and that plans may keep, at most WIDTH of them."""
    admissible = [label for label in new if _kept(question, kinds, label)]
    kept: list[Label] = []
    for label in sorted(admissible, key=lambda o: -_promise(question, kinds, o)):
        if len(kept) == WIDTH:
            break
        if not any(_surpasses(kinds, other, label) for other in (*old, *kept)):
            kept.append(label)
    return kept


def _surpasses(kinds: Kinds, one: Label, two: Label) -> bool:
    if one.kinds == two.kinds:
        return as_ready(one.ready, two.ready) and len(one.steps) <= len(two.steps)
    return as_ready(one.ready, two.ready) and all(
        kinds.at_least(at, a, b) for at, (a, b) in enumerate(zip(one.kinds, two.kinds, strict=True))
    )


def _promise(question: Question, kinds: Kinds, label: Label) -> float:
    close = sum(kinds.closeness(at, kind) for at, kind in enumerate(label.kinds))
    return close * (sum(label.ready) / len(label.ready) + label.ready[-1])


def _kept(question: Question, kinds: Kinds, label: Label) -> bool:
    """Whether no caution that keeps animals out can apply to a hatchling of this label."""
    for caution in question.cautions:
        if caution.sex not in (None, label.sex):
            continue
        needs = {part.gene: part.copies for part in caution.parts}
        if all(_may_have(question, kinds, label, at, needs) for at in range(len(question.groups))):
            return False
    return True


def _may_have(question: Question, kinds: Kinds, label: Label, at: int, needs: dict[str, int]) -> bool:
    group = question.groups[at]
    here = {g: n for g, n in needs.items() if question.genome.home[g][0] is group}
    if not here:
        return True
    return any(
        all(sum(h.count(g) for h in d) >= n for g, n in here.items()) for d in kinds.parts[at][label.kinds[at]]
    )


def _best(matches: list[Match], limit: int) -> list[Match]:
    by_chance = heapq.nlargest(limit, matches, key=lambda m: (m.curve[-1], sum(m.curve), -m.steps))
    by_speed = heapq.nsmallest(limit // 10, matches, key=lambda m: (m.soonest, -m.curve[m.soonest], m.steps))
    short = heapq.nsmallest(limit // 10, matches, key=lambda m: (m.steps, -m.curve[-1]))
    return list({id(match): match for match in (*by_chance, *by_speed, *short)}.values())
