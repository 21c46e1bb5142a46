"""The best few ways to share out this season's males, and what each gives up. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from ...notation import GenesError, capital
from ...planner import Allotment, Allotments, ImpossibleAllotment, PairingMade, allotments
from ...planner.allotment_chosen import chosen_pairings
from ..background import Progress
from ..choosing import name_of
from ..desk import Desk
from .season_wish_model import BEST, Pair, SeasonWishes
from .season_words import (
    cautions_in_short,
    expected,
    gives_up,
    headline_of,
    related,
    second_in_words,
    swapped,
    worth_of_made,
)

__all__ = ["PAIRINGS", "WAYS", "SeasonShares"]

WAYS = (
    {"key": "way", "label": "way", "kind": "short"},
    {"key": "pairings", "label": "pairings", "kind": "number"},
    {"key": "males", "label": "males", "kind": "text"},
    {"key": "gives_up", "label": "gives up", "kind": "text"},
    {"key": "instead", "label": "against the best", "kind": "text"},
)
PAIRINGS = (
    {"key": "dam", "label": "dam", "kind": "text"},
    {"key": "sire", "label": "sire", "kind": "text"},
    {"key": "why", "label": "why", "kind": "text"},
    {"key": "second", "label": "should he fail", "kind": "text"},
    {"key": "related", "label": "related", "kind": "text"},
    {"key": "cautions", "label": "cautions", "kind": "text"},
)


class SeasonShares:
    """found: what was worked out last, None before; chosen: number of the way that is shown, from 0. problems: why
    there is none, one sentence each. open: whether it is shown."""

    def __init__(self, desk: Desk, wishes: SeasonWishes) -> None:
        self.desk, self.wishes = desk, wishes
        self.found: Allotments | None = None
        self.chosen = 0
        self.problems: tuple[str, ...] = ()
        self.open = False
        self._asked: object = None
        self._begun: frozenset[Pair] = frozenset()

    @property
    def stale(self) -> bool:
        """Whether what is shown was worked out for something else than what holds now."""
        return self.found is not None and self._asked != self.wishes.question

    def begin(self, begun: Sequence[Pair] = (), given_up: Sequence[Pair] = ()) -> Callable[[Progress], Allotments]:
        """The work, to be run anywhere; its result goes to `take` or `failed`. begun: pairings that are kept as they
        are, since their animals were together already; given_up: those whose male failed."""
        desk, wishes = self.desk, self.wishes
        animals, targets, per_male = desk.animals, wishes.targets, wishes.per_male
        assert animals is not None
        taken = {dam for dam, _ in begun}
        forced = (*begun, *(pair for pair in wishes.forced if pair[0] not in taken))
        options: dict[str, Any] = {**wishes.options(), "forced": forced, "per_male": per_male, "best": BEST}
        options["forbidden"] = tuple(pair for pair in (*wishes.forbidden, *given_up) if pair not in forced)
        self._asked, self._begun = wishes.question, frozenset(begun)
        return lambda progress: allotments(animals, targets, **options, progress=progress)

    def take(self, found: Allotments) -> None:
        """Takes up the result."""
        self.found, self.problems, self.chosen, self.open = found, (), 0, True

    def failed(self, error: Exception) -> None:
        """Takes up what stopped the work. Raises it again if it is nothing that the keeper can mend."""
        self.found, self.open = None, True
        if isinstance(error, ImpossibleAllotment):
            self.problems = tuple(f"{capital(text)}." for text in error.problems)
        elif isinstance(error, GenesError):
            self.problems = (f"{capital(str(error))}.",)
        else:
            self.open = False
            raise error

    @property
    def way(self) -> Allotment | None:
        """The way that is shown."""
        return self.found.ways[self.chosen] if self.found is not None else None

    @property
    def pairs(self) -> tuple[tuple[Pair, str], ...]:
        """The pairings of the way that is shown, each with its second choice."""
        return tuple(((one.dam, one.sire), one.second.sire) for one in self.way.pairings) if self.way else ()

    @property
    def answer(self) -> str:
        """What the way that is shown comes to."""
        if self.found is None or self.way is None:
            return ""
        if not self.way.pairings:
            return "No pairing of this season's animals brings a target nearer."
        number = "The best way" if not self.chosen else f"Way {self.chosen + 1}"
        said = expected(self.way.value, self.way.by_target, self.found.targets)
        return headline_of([pair for pair, _ in self.pairs], said, f"{number}: ")

    @property
    def rows(self) -> list[dict[str, Any]]:
        """The ways, for a table."""
        if self.found is None:
            return []
        made = []
        for number, (way, lost) in enumerate(zip(self.found.ways, self.found.differences, strict=True)):
            other = f"pairs {self._swapped(lost.instead)}" if lost.instead else ""
            gone = f"does not pair {self._swapped(lost.without)}" if lost.without else ""
            made.append(
                {
                    "id": str(number),
                    "way": f"way {number + 1}",
                    "pairings": str(len(way.pairings)),
                    "males": ", ".join(sorted({one.sire for one in way.pairings})),
                    "gives_up": gives_up(lost, number == 0),
                    "instead": "; ".join(filter(None, (other, gone))),
                    "order": {"gives_up": float(lost.value)},
                }
            )
        return made

    @property
    def pairing_rows(self) -> list[dict[str, str]]:
        """The pairings of the way that is shown, for a table."""
        way = self.way
        if way is None:
            return []
        pairs = [pair for pair, _ in self.pairs]
        met = chosen_pairings(way.animals, pairs, self.wishes.targets, **self.wishes.options()).pairings
        after = [(dam, second) for (dam, _), second in self.pairs if second]
        seconds = chosen_pairings(way.animals, after, self.wishes.targets, **self.wishes.options()).pairings
        said = {one.dam: second_in_words(way.animals, one) for one in seconds}
        return [self._row(one, cautions_in_short(two), said) for one, two in zip(way.pairings, met, strict=True)]

    @property
    def left_out(self) -> tuple[tuple[str, str], ...]:
        """(animal, why) of every kept animal in no pairing of the way that is shown."""
        animals = self.desk.animals
        if self.way is None or animals is None:
            return ()
        return tuple((name_of(animals[key]), why) for key, why in self.way.left_out.items() if key in animals)

    def _row(self, one: PairingMade, cautions: str, seconds: Mapping[str, str]) -> dict[str, str]:
        assert self.way is not None
        animals = self.way.animals
        second = seconds.get(one.dam) or f"nobody: {one.second.reason}"
        begun = (one.dam, one.sire) in self._begun
        set_so = "; begun already" if begun else "; set by you" if one.forced else ""
        names = {"dam": name_of(animals[one.dam]), "sire": name_of(animals[one.sire])}
        words = {"related": related(one.relation), "cautions": cautions or "none recorded"}
        return {"id": one.dam, **names, "why": f"{worth_of_made(one)}{set_so}", "second": second, **words}

    def _swapped(self, pairs: Sequence[Pair]) -> str:
        return swapped(self.way.animals, pairs) if self.way is not None else ""
