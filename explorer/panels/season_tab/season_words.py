"""What the Season tab says of pairings, of ways to share out the males, and of days. No widgets, no HTML."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from fractions import Fraction

from ...collection import Collection, Relation
from ...husbandry import Husbandry
from ...husbandry.saying import day_in_words
from ...looks import caution_text
from ...notation import capital
from ...pairing import mean_text, names_in_words, number_word, percent
from ...planner import Difference, PairingMade
from ...planner.allotment_chosen import ChosenPairing
from ..choosing import name_of

__all__ = [
    "cautions_in_short",
    "expected",
    "gives_up",
    "headline_of",
    "meaning",
    "related",
    "second_in_words",
    "swapped",
    "tells_why",
    "window",
    "worth_of_chosen",
    "worth_of_made",
]


def headline_of(pairs: Sequence[tuple[str, str]], said: str, start: str = "") -> str:
    """ "Four pairings this season, using M02 and M05. Expected toward the target: 0.45." said: from `expected`."""
    males = names_in_words(sorted({sire for _, sire in pairs if sire}))
    count = f"{number_word(len(pairs))} pairing{'' if len(pairs) == 1 else 's'} this season"
    first = f"{start}{count}" if start else capital(count)
    return f"{first}{f', using {males}' if males else ''}. {said}"


def expected(value: Fraction, by_target: Mapping[str, Fraction], weights: Mapping[str, Fraction]) -> str:
    """What pairings bring in all: "Expected toward the target: 0.45."."""
    if len(by_target) == 1:
        return f"Expected toward the target: {mean_text(next(iter(by_target.values())))}."
    parts = [f"{mean_text(brings)} toward {t} (weight {_weight(weights[t])})" for t, brings in by_target.items()]
    return f"Expected: {names_in_words(parts)}; weighted, {mean_text(value)}."


def meaning(care: Husbandry) -> str:
    """What such a number means."""
    sizes = sorted(care.law)
    eggs = f"{sizes[0]} eggs a clutch" if len(sizes) == 1 else f"{sizes[0]} to {sizes[-1]} eggs a clutch"
    return (
        "In this number 1 is one animal that shows the target. Each clutch adds what its best hatchling is worth on "
        "average, where that is more than either parent is worth; a missing gene divides the worth by four, a missing "
        f"second copy halves it, and hidden copies count. Reckoned with {eggs}, {percent(care.hatch_rate)} of viable "
        f"eggs hatching, and {percent(care.lay_rate)} of paired females laying."
    )


def worth_of_made(one: PairingMade) -> str:
    """Why a pairing of an allotment is made."""
    return _worth({one.target: one.per_clutch} if one.target else {}, one.progress, one.value)


def worth_of_chosen(one: ChosenPairing) -> str:
    """Why a pairing would be made that the keeper chose."""
    return _worth(one.per_clutch, one.progress, one.value)


def tells_why(one: ChosenPairing, target: str) -> tuple[str, ...]:
    """The same in whole sentences. target: the one that is set for all tabs."""
    said = []
    if not one.value and len(one.progress) > 1:
        return ("It brings no target nearer.",)
    for wish, brings in one.progress.items():
        if len(one.progress) > 1 and not brings and not one.per_clutch[wish]:
            continue
        name = "the target" if wish == target and len(one.progress) == 1 else wish
        chance = one.per_clutch[wish]
        shows = f"no hatchling of it shows {name} yet"
        if chance:
            shows = f"{percent(chance)} of its clutches, once laid, have {name} in them"
        worth = f"it brings {mean_text(brings)} toward {name}" if brings else f"it brings {name} no nearer"
        said.append(f"{capital(worth)}; {shows}.")
    return tuple(said)


def related(found: Relation) -> str:
    """How the two are related, in a few words."""
    if not found.kinship:
        return found.words
    return f"{found.words}; inbreeding {percent(found.kinship)} or more"


def second_in_words(animals: Collection, one: ChosenPairing) -> str:
    """The male who is to step in: "M02 Alder", with how he is related to her, the cautions the two meet, and whether
    they may be paired, where there is anything to say of it."""
    off = [f"{names_in_words(list(one.unfit))} not ready"] if one.unfit else ["not to be made"] if one.barrier else []
    kin = [related(one.relation)] if one.relation.kinship else []
    met = cautions_in_short(one)
    said = [*off, *kin, *([f"caution: {met}"] if met else [])]
    more = f" ({'; '.join(said)})" if said else ""
    return f"{name_of(animals[one.sire])}{more}"


def gives_up(one: Difference, best: bool) -> str:
    """What a way gives up against the best."""
    if best:
        return "nothing: it is the best"
    least = "nothing in all" if not one.value else f"{mean_text(one.value)}"
    more = [
        f"{mean_text(abs(lost))} {'less' if lost > 0 else 'more'} toward {target}"
        for target, lost in one.by_target.items()
        if lost and len(one.by_target) > 1
    ]
    return f"{least}{f' ({names_in_words(more)})' if more else ''}"


def cautions_in_short(one: ChosenPairing) -> str:
    """The cautions that a parent or an egg meets, by their genes and the strength of the evidence; "" if none."""
    parents = [caution for state in one.states.values() for caution in state.cautions]
    texts = map(caution_text, (*parents, *(item.caution for item in one.met)))
    return "; ".join(dict.fromkeys(f"{text.partition(':')[0]} [{text.rpartition(' [')[2]}" for text in texts))


def window(earliest: date | None, likely: date | None, latest: date | None) -> str:
    """A window as "3 Jan to 9 May 2027, likely 10 Mar", also where one end is open; "not known" if both are."""
    if earliest and latest:
        if earliest == latest:
            return f"on {_full(earliest)}"
        first = day_in_words(earliest) if earliest.year == latest.year else _full(earliest)
        sure = f", likely {day_in_words(likely)}" if likely else ""
        return f"{first} to {_full(latest)}{sure}"
    if earliest or latest:
        return f"not before {_full(earliest)}" if earliest else f"by {_full(latest or date.min)}"
    return "not known"


def swapped(animals: Collection, pairs: Iterable[tuple[str, str]]) -> str:
    """Pairings by name, in a list."""
    return names_in_words([f"{name_of(animals[dam])} with {name_of(animals[sire])}" for dam, sire in pairs])


def _worth(per_clutch: Mapping[str, Fraction], progress: Mapping[str, Fraction], value: Fraction) -> str:
    if not value:
        return "brings no target nearer"
    several = len(progress) > 1
    parts = []
    for target, brings in progress.items():
        chance = per_clutch.get(target, Fraction(0))
        if brings or chance:
            shows = f", shown in {percent(chance)} of clutches" if chance else ""
            parts.append(f"{mean_text(brings)}{f' toward {target}' if several else ''}{shows}")
    weighted = f"; weighted {mean_text(value)}" if several and value not in progress.values() else ""
    return f"brings {'; '.join(parts)}{weighted}"


def _weight(weight: Fraction) -> str:
    return f"{float(weight):g}"


def _full(day: date) -> str:
    return f"{day_in_words(day)} {day.year}"
