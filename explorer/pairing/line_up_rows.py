"""The rows of a line-up: everything that is said of one pairing beside others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from ..catalogue import Caution, Effect
from ..collection import Animal, Collection, Relation, relation
from ..genetics import Diplotype, exact
from ..husbandry import Husbandry, Readiness, readiness
from ..looks import BroodCaution, Stack, Taste, Verdict, caution_text, stack_of
from ..notation import read_wanted
from .line_up_parents import Couples
from .nearness import Nearest, nearest
from .odds import Offspring
from .progress import ProgressToward
from .sentences import losses_in_words
from .standing import Standing

__all__ = ["LineUpRow", "RowMaker"]

LOOKS_NAMED = 3
"""How many of the likeliest looks a row names."""


@dataclass(frozen=True)
class LineUpRow:
    """One pairing. mate: the animal of the row; chances are as `line_up` says, exact.

    nearest: the most of the target that one hatchling can show. helps, spoils: among the genes of that look.
    readiness: of the mate; ready: whether the pairing can be made this season, both being ready and none kept out by a
    caution on itself. cautions: those that some eggs meet; kept_out: those of them for which plans leave the pairing
    out. odds: everything else that the pairing can give.
    """

    mate: Animal
    dam: str
    sire: str
    per_egg: Fraction
    per_clutch: Fraction
    expected: Fraction
    likeliest: tuple[tuple[str, Fraction], ...]
    nearest: Nearest
    progress: Fraction
    relation: Relation
    ready: bool
    readiness: Readiness
    helps: tuple[Verdict, ...]
    spoils: tuple[Verdict, ...]
    cautions: tuple[BroodCaution, ...]
    kept_out: tuple[Caution, ...]
    odds: Offspring = field(repr=False, compare=False)

    @property
    def remarks(self) -> tuple[str, ...]:
        """The cautions in words, those that keep the pairing out marked so, and what part of the eggs cannot hatch."""
        said = tuple(
            f"{caution_text(item.caution)}{'; kept out of plans' if item.caution in self.kept_out else ''}"
            for item in self.cautions
        )
        losses = losses_in_words(self.odds)
        return (*said, losses) if losses else said


@dataclass(frozen=True)
class _Odds:
    per_egg: Fraction
    per_clutch: Fraction
    expected: Fraction
    nearest: Nearest


class RowMaker:
    """Makes rows; what depends on few genes is worked out once for mates that are alike there."""

    def __init__(
        self,
        animals: Collection,
        target: str,
        care: Husbandry,
        today: date,
        without: tuple[str, ...],
        allow: tuple[str, ...],
        taste: Taste | None,
        opinions: tuple[Effect, ...],
    ) -> None:
        self.animals, self.target, self.care, self.today = animals, target, care, today
        self.without, self.allow, self.taste, self.opinions = without, allow, taste, opinions
        self.hatch_rate = exact(care.hatch_rate)
        standing = Standing.of(animals.catalogue, target, without=without, allow=allow)
        self.toward = ProgressToward(standing, eggs=care.law, hatch_rate=care.hatch_rate, lay_rate=care.lay_rate)
        self.couples = Couples(animals)
        self._stacks: dict[str, Stack] = {}
        self._odds: dict[object, _Odds] = {}

    def state(self, animal: Animal) -> Readiness:
        return readiness(animal, self.care, self.today, self.animals.catalogue, self.allow)

    def row(self, animal: Animal, mate: Animal) -> LineUpRow:
        dam, sire = (animal.id, mate.id) if animal.sex == "female" else (mate.id, animal.id)
        odds = Offspring(self.couples.brood(dam, sire), self.animals.catalogue)
        found, states = self._odds_of(odds), (self.state(animal), self.state(mate))
        top = odds.top_looks(LOOKS_NAMED)
        stack = self._stack(found.nearest.look)
        return LineUpRow(
            mate,
            dam,
            sire,
            found.per_egg,
            found.per_clutch,
            found.expected,
            tuple(zip(top["look"], top["fraction"], strict=True)),
            found.nearest,
            self.toward.of(odds.brood),
            relation(self.animals, dam, sire),
            all(state.ready and not state.barred for state in states),
            states[1],
            stack.helps,
            stack.clashes,
            odds.cautions,
            tuple(
                item.caution for item in odds.cautions if item.caution in self.toward.standing.cautions
            ),
            odds,
        )

    def _odds_of(self, odds: Offspring) -> _Odds:
        parents: Mapping[str, Mapping[tuple[Diplotype, Diplotype], Fraction]] = odds.brood.parents
        groups = [group.name for group in odds.brood.groups if self.toward.standing.matters(group)]
        key = tuple((name, frozenset(parents[name].items())) for name in groups)
        if key not in self._odds:
            eggs, rate = self.care.law, self.hatch_rate
            self._odds[key] = _Odds(
                odds.chance(self.target, without=self.without),
                odds.chance_in_clutch(self.target, eggs=eggs, hatch_rate=rate, without=self.without),
                odds.expected_in_clutch(self.target, eggs=eggs, hatch_rate=rate, without=self.without),
                nearest(odds, self.target, self.without),
            )
        return self._odds[key]

    def _stack(self, look: str) -> Stack:
        if look not in self._stacks:
            shows = read_wanted(look, self.animals.catalogue) if look else {}
            self._stacks[look] = stack_of(
                shows, taste=self.taste, opinions=self.opinions, catalogue=self.animals.catalogue
            )
        return self._stacks[look]
