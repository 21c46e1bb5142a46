"""Why an animal is not used this season, and whom a female could go with if her pairing failed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..notation import names_in_words
from ..pairing import mean_text, number_word
from .allotment_couples import Couple
from .allotment_shed import Shed, fit, state_words

__all__ = ["SecondChoice", "left_out", "second_choice"]

BARRIERS_NAMED = 3
"""How many pairings that may not be made a reason names."""


@dataclass(frozen=True)
class SecondChoice:
    """The male that comes next for a female. sire: "" if there is none; reason: why. value: what he would bring."""

    sire: str
    value: Fraction
    reason: str = ""


def left_out(shed: Shed, couples: Sequence[Couple]) -> dict[str, str]:
    """Every kept animal that is in none of the couples -> why, in words; in the order of the file."""
    used = {key for couple in couples for key in (couple.dam, couple.sire)}
    return {
        animal.id: _reason(shed, animal.id, animal.sex == "female", couples)
        for animal in shed.animals
        if animal.status == "kept" and animal.id not in used
    }


def second_choice(shed: Shed, couples: Sequence[Couple], made: Couple) -> SecondChoice:
    """The best other male for the female of a couple, who has room beside the females that he gets anyway."""
    load = _load(couples)
    others = [one for one in _of(shed, made.dam, True) if one.sire != made.sire]
    useful = [one for one in others if one.value and not one.barrier]
    free = [one for one in useful if load.get(one.sire, 0) < shed.room[one.sire]]
    if free:
        best = _best(free)
        return SecondChoice(best.sire, best.value)
    if useful:
        return SecondChoice("", Fraction(0), _full(shed, (one.sire for one in useful), "other male"))
    barred = [one for one in others if one.value and one.barrier]
    if barred:
        best = _best(barred)
        return SecondChoice("", Fraction(0), f"with {best.sire}: {best.barrier}")
    return SecondChoice("", Fraction(0), "no other male brings a target nearer with her")


def _reason(shed: Shed, key: str, female: bool, couples: Sequence[Couple]) -> str:
    if not fit(shed.animals[key], shed.states):
        return state_words(shed.states[key])
    if not female and not shed.room[key]:
        return "may have no female this season"
    mine = _of(shed, key, female)
    if not mine:
        return f"no {'male' if female else 'female'} is ready"
    useful = [one for one in mine if one.value and not one.barrier]
    load, taken = _load(couples), {couple.dam: couple for couple in couples}
    spare = [one for one in useful if load.get(one.sire, 0) < shed.room[one.sire] and one.dam not in taken]
    if spare:
        best = _best(spare)
        mate = best.sire if female else best.dam
        return f"left out in this way alone; with {mate} {mean_text(best.value)} could be had"
    if useful and female:
        best = _best(useful)
        full = _full(shed, (one.sire for one in useful), "male")
        return f"{full}; with {best.sire} she would bring {mean_text(best.value)}"
    if useful:
        near = min(useful, key=lambda one: (taken[one.dam].value - one.value, one.dam))
        has = taken[near.dam]
        forced = " (set by you)" if (has.dam, has.sire) in shed.forced else ""
        return (
            f"every female he would go with has another male; {near.dam} with {has.sire}{forced} brings"
            f" {mean_text(has.value)}, with him {mean_text(near.value)}"
        )
    barred = [one for one in mine if one.value and one.barrier]
    if barred:
        named = sorted(barred, key=_order)[:BARRIERS_NAMED]
        said = [f"with {one.sire if female else one.dam}: {one.barrier}" for one in named]
        if len(barred) > len(named):
            said.append("likewise others")
        elif len(mine) > len(barred):
            said.append("no other pairing brings a target nearer")
        return "; ".join(said)
    return f"no pairing of {'hers' if female else 'his'} brings a target nearer"


def _of(shed: Shed, key: str, female: bool) -> list[Couple]:
    return [one for one in shed.couples.values() if (one.dam if female else one.sire) == key]


def _best(couples: Iterable[Couple]) -> Couple:
    return min(couples, key=_order)


def _order(one: Couple) -> tuple[Fraction, Fraction, str, str]:
    return -one.value, one.kinship, one.dam, one.sire


def _load(couples: Iterable[Couple]) -> dict[str, int]:
    load: dict[str, int] = {}
    for couple in couples:
        load[couple.sire] = load.get(couple.sire, 0) + 1
    return load


def _full(shed: Shed, sires: Iterable[str], who: str) -> str:
    """"every male she would go with has his four females"."""
    names = sorted(set(sires))
    numbers = {shed.room[sire] for sire in names}
    if len(names) == 1:
        start = f"the only {who} she would go with, {names[0]},"
    else:
        start = f"every {who} she would go with ({names_in_words(names)})"
    if len(numbers) > 1:
        return f"{start} has as many females as he may"
    number = numbers.pop()
    return f"{start} has his {number_word(number)} female{'' if number == 1 else 's'}"
