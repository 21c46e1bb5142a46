"""The pairings that were chosen for this season, as they stand by its log and by what is known now. No widgets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ...collection import Animal, SeasonLog, SeasonPairing
from ...husbandry import Readiness
from ...looks import caution_text
from ...notation import GenesError
from ...pairing import names_in_words, one_in
from ...planner.allotment_chosen import Chosen, ChosenPairing, chosen_pairings
from ..choosing import name_of, ready_of
from ..desk import Desk
from .season_days import Day, days_of
from .season_wish_model import Pair, SeasonWishes

__all__ = ["SeasonStandings", "Standing", "male_of", "second_of"]


@dataclass(frozen=True)
class Standing:
    """A pairing as it stands. sire, second: ids, "" if none; sires: whose a clutch may be, where that is not the sire.

    worth: None if no male is named; second_worth: of the pairing with the second choice. trouble: why it may not be
    made, sentences. carrying: she has ovulated, shed or laid, so that readiness no longer decides. days: its calendar.
    """

    pairing: SeasonPairing
    sire: str
    second: str
    sires: str
    worth: ChosenPairing | None
    second_worth: ChosenPairing | None
    trouble: tuple[str, ...]
    carrying: bool
    days: tuple[Day, ...]

    @property
    def dam(self) -> str:
        return self.pairing.dam

    @property
    def afresh(self) -> bool:
        """Whether its male steps in for one that is given up, and has still to be introduced."""
        males = self.pairing.males
        return bool(males) and not self.carrying and set(males) <= set(self.pairing.males_given_up)

    @property
    def counts(self) -> bool:
        """Whether it belongs on the sheet and in the calendar."""
        return not self.pairing.given_up and (self.carrying or not self.trouble)


class SeasonStandings:
    """What the log says of this season, beside the collection."""

    def __init__(self, desk: Desk, wishes: SeasonWishes) -> None:
        self.desk, self.wishes = desk, wishes
        self._known: tuple[object, tuple[Standing, ...], Chosen | None] = (None, (), None)

    @property
    def log(self) -> SeasonLog | None:
        """None if its file cannot be read."""
        return self.desk.season.log

    @property
    def all(self) -> tuple[Standing, ...]:
        """Every pairing of this season, in the order of the females' ids."""
        return self._read()[0]

    @property
    def counted(self) -> tuple[Standing, ...]:
        """Those that may be made, or are past that."""
        return tuple(one for one in self.all if one.counts)

    @property
    def chosen(self) -> Chosen | None:
        """What they bring; None if no male is named."""
        return self._read()[1]

    def of(self, dam: str) -> Standing | None:
        """The pairing of one female."""
        return next((one for one in self.all if one.dam == dam), None)

    @property
    def begun(self) -> tuple[Pair, ...]:
        """Pairings whose animals were together and that may go on: sharing out the males keeps them."""
        going_on = (one for one in self.counted if one.pairing.meetings and not one.trouble and not one.carrying)
        return tuple((one.dam, one.sire) for one in going_on if one.sire)

    @property
    def given_up(self) -> tuple[Pair, ...]:
        """Pairings whose male is given up for that female: sharing out the males does not bring them back."""
        return tuple((one.dam, sire) for one in self.all for sire in one.pairing.males_given_up if sire != one.sire)

    def refusal(self, dam: str, sire: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Why a pairing may not be made, sentences, and the genes that the keeper would have to allow for it."""
        animals = self.desk.animals
        if animals is None or not dam or not sire:
            return ("Choose a dam and a sire.",), ()
        try:
            one = chosen_pairings(animals, [(dam, sire)], self.wishes.targets, **self.wishes.options()).pairings[0]
        except (GenesError, ValueError) as error:
            return (f"{error}.",), ()
        return self._trouble(one), one.to_allow

    def cautions(self, one: Standing) -> tuple[str, ...]:
        """Every caution that a parent or an egg meets, with the strength of its evidence."""
        animals, met = self.desk.animals, dict[str, list[str]]()
        if animals is None or one.worth is None:
            return ()
        for key, state in one.worth.states.items():
            for caution in state.cautions:
                met.setdefault(caution_text(caution), []).append(name_of(animals[key]))
        for item in one.worth.met:
            eggs = "every egg" if item.chance == 1 else f"{one_in(item.chance)} eggs"
            met.setdefault(caution_text(item.caution), []).append(eggs)
        return tuple(f"{text} ({names_in_words(who)})" for text, who in met.items())

    def _read(self) -> tuple[tuple[Standing, ...], Chosen | None]:
        desk, log, wishes = self.desk, self.log, self.wishes
        if desk.animals is None or log is None:
            return (), None
        state = log.text, desk.book and desk.book.text, wishes.question, wishes.degrees, desk.first_season, desk.now
        if self._known[0] != state:
            pairings = log.pairings(desk.first_season)
            pairs = [(dam, sire) for dam, one in pairings.items() if (sire := male_of(one))]
            chosen = chosen_pairings(desk.animals, pairs, wishes.targets, **wishes.options())
            worth = {(one.dam, one.sire): one for one in chosen.pairings}
            after = [(dam, second) for dam, one in pairings.items() if (second := second_of(one))]
            seconds = chosen_pairings(desk.animals, after, wishes.targets, **wishes.options()).pairings
            worth |= {(one.dam, one.sire): one for one in seconds}
            found = tuple(self._standing(log, one, worth) for one in pairings.values())
            self._known = state, found, chosen if pairs else None
        return self._known[1:]

    def _standing(self, log: SeasonLog, pairing: SeasonPairing, known: Mapping[Pair, ChosenPairing]) -> Standing:
        worth, second = known.get((pairing.dam, male_of(pairing))), second_of(pairing)
        sire, said = male_of(pairing), log.sire_text(pairing.season, pairing.dam)
        days, wrong = days_of(pairing, self.desk.care, self.desk.book or (), self.wishes.degrees, self.desk.now)
        laid = any(day.happened for day in days if day.event in ("lay", "hatch"))
        carrying = laid or pairing.ovulated is not None or pairing.shed is not None
        trouble = self._trouble(worth, laid) if worth is not None else ("No male is named.",)
        trouble = (*trouble, wrong) if wrong else trouble
        sires, after = "" if said == sire else said, known.get((pairing.dam, second))
        return Standing(pairing, sire, second, sires, worth, after, trouble, carrying, days)

    def _trouble(self, one: ChosenPairing, laid: bool = False) -> tuple[str, ...]:
        """Why a pairing may not be made. laid: that the female rests now is due to this very pairing."""
        animals = self.desk.animals
        assert animals is not None
        found = []
        for key in one.unfit:
            state = ready_of(self.desk, animals[key])
            if not (laid and key == one.dam and state.resting and not state.barred):
                found.append(_unfit(animals[key], state))
        if one.barrier and not one.unfit:
            found.append(f"{one.dam} with {one.sire} is not to be made: {one.barrier}.")
        return tuple(found)


def male_of(pairing: SeasonPairing) -> str:
    """The male that a pairing is with now, "" if none is named: who is planned, or was there last, or steps in."""
    males = pairing.planned, pairing.last_with, pairing.second_choice
    return next((one for one in males if one and one not in pairing.males_given_up), pairing.planned)


def second_of(pairing: SeasonPairing) -> str:
    """The male that would step in, "" if none is named."""
    second = pairing.second_choice
    return second if second not in (male_of(pairing), *pairing.males_given_up) else ""


def _unfit(animal: Animal, state: Readiness) -> str:
    start = f"{name_of(animal)} may be in no pairing this season"
    if state.ready and state.barred:
        return f"{start}, until you allow it: {'; '.join(map(caution_text, state.barring))}."
    return f"{start}: {state.words or state}."
