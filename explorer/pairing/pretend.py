"""One random clutch of a pairing, so that a learner sees luck."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from ..genetics import Brood, Event, egg_law, viable
from ..looks import shown, wanted_events
from ..notation import read_wanted, write_diplotypes, write_shown
from .odds import Offspring, checked_rate

__all__ = ["Egg", "pretend_clutch"]

T = TypeVar("T")


@dataclass(frozen=True)
class Egg:
    """One egg of a pretend clutch. `hatched` is false if it was lost; `viable` says whether its genotype could live."""

    look: str
    genotype: str
    sex: str
    viable: bool
    hatched: bool
    shows_target: bool


def pretend_clutch(
    odds: Offspring,
    *,
    seed: int,
    eggs: int | Mapping[int, float | Fraction],
    hatch_rate: float | Fraction = 1,
    target: str = "Normal",
) -> tuple[Egg, ...]:
    """Draws one clutch; the same seed gives the same clutch. All eggs share one draw of the parents' true genotypes."""
    rng, rate, brood = random.Random(seed), checked_rate(hatch_rate), odds.brood
    wanted = wanted_events(brood.genome, read_wanted(target, odds.catalogue))
    number = _draw(rng, egg_law(eggs))
    tables = {
        group.name: _draw(rng, {i: weight for i, (weight, _) in enumerate(brood.table(group))})
        for group in brood.groups
    }
    return tuple(_egg(rng, brood, tables, rate, wanted) for _ in range(number))


def _egg(
    rng: random.Random, brood: Brood, tables: Mapping[str, int], rate: Fraction, wanted: Mapping[str, Event]
) -> Egg:
    at = {group.name: _draw(rng, brood.table(group)[tables[group.name]][1]) for group in brood.groups}
    lives = all(viable(group, at[group.name]) for group in brood.groups)
    look = {name: copies for group in brood.groups for name, copies in shown(group, at[group.name])}
    hit = all(
        event(at.get(name) or brood.genome.wild(brood.genome.by_name[name], "female")) for name, event in wanted.items()
    )
    hatched = rng.random() < rate and lives
    return Egg(
        write_shown(brood.genome, look),
        write_diplotypes(brood.genome, at),
        brood.genome.sex_of(at[brood.genome.groups[0].name]),
        lives,
        hatched,
        hit and hatched,
    )


def _draw(rng: random.Random, weights: Mapping[T, Fraction]) -> T:
    point, total = Fraction(rng.random()), Fraction(0)
    for item in sorted(weights, key=str):
        total += weights[item]
        if point < total:
            return item
    return item
