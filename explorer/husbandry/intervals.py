"""The days between the events of a season, as bounds that hold together: each pair of events has its least and most."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from math import inf

from ..catalogue import Catalogue
from .incubation import incubation, short_evidence

__all__ = ["EVENTS", "Between", "Intervals", "intervals_of"]

EVENTS = ("introduce", "lock", "ovulation", "pre-lay shed", "lay", "hatch", "first shed", "first meal")
"""In the order in which they come."""

FIGURES = {
    ("introduce", "ovulation"): ("introduction_to_ovulation_days", "introduction to ovulation"),
    ("lock", "ovulation"): ("lock_to_ovulation_days", "lock to ovulation"),
    ("ovulation", "pre-lay shed"): ("ovulation_to_shed_days", "ovulation to pre-lay shed"),
    ("pre-lay shed", "lay"): ("shed_to_laying_days", "pre-lay shed to laying"),
    ("ovulation", "lay"): ("ovulation_to_laying_days", "ovulation to laying"),
    ("hatch", "first shed"): ("hatching_to_shed_days", "hatching to first shed"),
    ("first shed", "first meal"): ("shed_to_meal_days", "first shed to first meal"),
}
"""Pair of events -> the catalogue's figures, and its name in words."""

Pair = tuple[str, str]


@dataclass(frozen=True)
class Between:
    """The days between two events. low, high: infinite where no figure bounds them. likely: None if that is not known.

    source: how they are known. middle: whether the likely figure is only the middle. note: what else to say of them.
    """

    name: str
    low: float
    likely: int | None
    high: float
    source: str
    middle: bool = False
    note: str = ""


class Intervals:
    """What is known of the days between events, put together. stated: (earlier, later) -> figures."""

    def __init__(self, stated: Mapping[Pair, Between]) -> None:
        self.stated = stated

    @cached_property
    def _most(self) -> dict[Pair, float]:
        """(one, other) -> the most days by which the other can come after the one; negative if it comes before."""
        most: dict[Pair, float] = {pair: 0 if pair[0] == pair[1] else inf for pair in product(EVENTS, EVENTS)}
        for (one, other), days in self.stated.items():
            most[one, other], most[other, one] = days.high, -days.low
        for via, one, other in product(EVENTS, EVENTS, EVENTS):
            most[one, other] = min(most[one, other], most[one, via] + most[via, other])
        return most

    def bounds(self, one: str, other: str) -> tuple[float, float]:
        """The least and the most days from one event to another; negative for one that comes before it."""
        return -self._most[other, one], self._most[one, other]

    def steps(self, one: str, other: str) -> Sequence[Between]:
        """The fewest figures that lead from the earlier event to the later; none if nothing leads there."""
        ways: list[tuple[str, tuple[Between, ...]]] = [(one, ())]
        for at, way in ways:
            if at == other:
                return way
            ways += [(end, (*way, days)) for (start, end), days in self.stated.items() if start == at]
        return ()

    def likely(self, one: str, other: str) -> int | None:
        """The likely days from one event to another, either way; None if they are not known."""
        backward = EVENTS.index(one) > EVENTS.index(other)
        total = 0
        steps = self.steps(other, one) if backward else self.steps(one, other)
        for days in steps:
            if days.likely is None:
                return None
            total += days.likely
        return (-total if backward else total) if steps else None


def intervals_of(catalogue: Catalogue, incubation_c: float | None = None) -> Intervals:
    """The catalogue's figures, with eggs kept at this temperature. Raises ValueError as `incubation` does."""
    stated = {}
    for pair, (figure, name) in FIGURES.items():
        low, high = (int(catalogue.figure(f"{figure}_{end}").value) for end in ("low", "high"))
        middle = figure not in catalogue.figures
        likely = (low + high + 1) // 2 if middle else int(catalogue.figure(figure).value)
        source = short_evidence(catalogue.figure(f"{figure}_low").evidence)
        stated[pair] = Between(name, low, likely, high, source, middle)
    eggs = incubation(incubation_c, catalogue)
    stated["lay", "hatch"] = Between(
        f"laying to hatching at {float(eggs.celsius):g} C",
        -inf if eggs.low is None else eggs.low,
        eggs.likely,
        inf if eggs.high is None else eggs.high,
        eggs.source,
        eggs.likely is not None,
        "; ".join(filter(None, (eggs.note, eggs.caution))),
    )
    return Intervals(stated)
