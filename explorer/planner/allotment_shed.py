"""Who takes part in this season, what each pairing would bring, and how the males are shared out among the females."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from ..collection import Animal, Collection
from ..husbandry import Readiness
from ..notation import names_in_words
from .allotment_choice import best_choices
from .allotment_couples import Couple
from .allotment_wishes import ImpossibleAllotment, Pair, Wish

__all__ = ["Shed", "fit", "state_words"]


@dataclass(frozen=True)
class Shed:
    """A season before anybody is paired. states: of every kept animal. couples: of all that are ready. room: how many
    females each ready male may have. forced: pairings that are made whatever they bring.
    """

    animals: Collection
    wishes: tuple[Wish, ...]
    states: Mapping[str, Readiness]
    couples: Mapping[Pair, Couple]
    room: Mapping[str, int]
    forced: tuple[Pair, ...]

    def ways(self, best: int) -> list[tuple[Couple, ...]]:
        """The best few different ways to share out the males, best first; the couples of each in the order of ids.

        Raises ImpossibleAllotment if a forced pairing cannot be made.
        """
        problems = list(self._problems())
        if problems:
            raise ImpossibleAllotment(problems)
        bound = {dam for dam, _ in self.forced}
        left = {sire: number - sum(sire == his for _, his in self.forced) for sire, number in self.room.items()}
        values = {
            pair: (couple.value, couple.kinship)
            for pair, couple in sorted(self.couples.items())
            if couple.value and not couple.barrier and couple.dam not in bound and left[couple.sire]
        }
        return [
            tuple(self.couples[pair] for pair in sorted((*self.forced, *way.items())))
            for way in best_choices(values, left, best)
        ]

    def _problems(self) -> Iterable[str]:
        for dam, sire in self.forced:
            start = f"{dam} with {sire} cannot be made"
            out = [key for key in (dam, sire) if not fit(self.animals[key], self.states)]
            for key in out:
                state = self.states.get(key)
                yield f"{start}: {key} is {state_words(state) if state else self.animals[key].status}"
            if not out and (barrier := self.couples[dam, sire].barrier):
                yield f"{start}: {barrier}"
        for dam in dict.fromkeys(dam for dam, _ in self.forced):
            males = [sire for one, sire in self.forced if one == dam]
            if len(males) > 1:
                yield f"{dam} cannot go with {' and '.join(males)}: a female has one male in a season"
        for sire, number in self.room.items():
            females = [dam for dam, one in self.forced if one == sire]
            if len(females) > number:
                yield f"{sire} cannot go with {', '.join(females)}: he may have {number} in a season"


def fit(animal: Animal, states: Mapping[str, Readiness]) -> bool:
    """Whether an animal may be paired this season."""
    state = states.get(animal.id)
    return state is not None and state.ready and not state.barred


def state_words(state: Readiness) -> str:
    """Why an animal may not be paired: "not ready: 1,500 g needed; about season 2027/28"."""
    if state.ready and state.barred:
        genes = sorted({part.gene for caution in state.barring for part in caution.parts})
        return f"kept out by a caution on {names_in_words(genes)}, until you allow it"
    said = str(state)
    if said.startswith("resting"):
        return said
    return f"not ready: {said.removeprefix('not yet: ').removeprefix('weigh it: ')}"
