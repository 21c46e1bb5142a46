"""Which pairs of gene forms help each other to what is wanted, and which spoil it. No list of pairs: only rules."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from ..catalogue import MEANINGS, Cover, Effect, Quality
from ..notation import names_in_words
from .covering import Hiding, seen_beside
from .layers import Layer
from .tastes import TASTES, Taste, leaning

__all__ = ["Verdict", "clashes", "helps", "hidden"]

NOTABLE = 1
"""How far, in steps of the scale, a form must lean towards or away from a wish to count."""

MUCH_WHITE = 2
"""From this much white on, white takes the room of colour and blushing."""

VERBS: Mapping[str, tuple[str, str, str, str]] = {
    "reduced pattern": (
        *("thin the dark pattern", "thins the dark pattern"),
        *("add dark pattern", "adds dark pattern"),
    ),
    "bright": ("brighten", "brightens", "darken", "darkens"),
    "high contrast": ("raise the contrast", "raises the contrast", "lower the contrast", "lowers the contrast"),
    "clean": ("clean", "cleans", "leave it less clean", "leaves it less clean"),
    "orange": (
        *("warm the colour", "warms the colour"),
        *("take warmth from the colour", "takes warmth from the colour"),
    ),
    "blushing": ("add blushing", "adds blushing", "take blushing away", "takes blushing away"),
    "whole dorsal line": (
        *("draw the dorsal line together", "draws the dorsal line together"),
        *("break up the dorsal line", "breaks up the dorsal line"),
    ),
    "banding": ("add banding", "adds banding", "take banding away", "takes banding away"),
    "white": ("add white", "adds white", "take white away", "takes white away"),
}
"""Wish -> what several forms and what one do that lean towards it, and what they do that lean the other way."""

COVERS: Mapping[Cover, str] = {
    "all": "everything",
    "pattern": "the pattern",
    "banding": "the banding",
    "black": "the black",
    "yellow": "the yellow",
    "flank blush": "the blushing of the flanks",
}


@dataclass(frozen=True)
class Verdict:
    """What two gene forms do to each other.

    genes: catalogue names; of a hiding, the one that hides comes first. qualities: what it is about. strength: how much
    it matters, 1 or more; steps of the scale, multiplied. evidence: how the effects are known that it rests on, in
    words. by: whose opinions take part, "" if only the catalogue's.
    """

    genes: tuple[str, ...]
    reason: str
    evidence: str
    qualities: tuple[Quality, ...]
    strength: Fraction
    by: str = ""


def helps(layers: Sequence[Layer], taste: Taste) -> tuple[Verdict, ...]:
    """Pairs that lean the same way on a wish; strongest first."""
    found = []
    for one, two in combinations(layers, 2):
        shared = _shared(one, two, taste)
        if shared:
            reason = f"{one.name} and {two.name} both {names_in_words(_verb(w, taste, several=True) for w in shared)}"
            found.append(_verdict((one, two), f"{reason}{_remark(one, two, taste)}.", shared))
    return _ordered(found)


def clashes(layers: Sequence[Layer], taste: Taste, hiding: Sequence[Hiding]) -> tuple[Verdict, ...]:
    """Pairs of which one works against the other, or covers its best feature; strongest first."""
    found = []
    for one, two in combinations(layers, 2):
        against = _spoiled(one, two, taste)
        rules = [*_rules(one, two, taste), *_rules(two, one, taste)]
        covers = [(h, best) for h in hiding if {h.over, h.under} == {one, two} and (best := _best_lost(h))]
        if not (against or rules or covers):
            continue
        said = [_opposed(one, two, wish, taste) for wish in against]
        said += [text for text, _, _ in rules]
        said += [f"{h.over.name} covers what {h.under.name} does most: {_look(h.under, best)}" for h, best in covers]
        strengths = {**against, **{wish: strength for _, wish, strength in rules}}
        qualities = tuple(quality for _, best in covers for quality in best)
        strengths |= {"": Fraction(len(qualities))} if covers else {}
        reason = f"{'; '.join(said)}."
        doubtful = [h.over for h, _ in covers]
        found.append(_verdict((one, two), f"{reason[0].upper()}{reason[1:]}", strengths, qualities, doubtful))
    return _ordered(found)


def hidden(layers: Sequence[Layer], hiding: Iterable[Hiding]) -> tuple[Verdict, ...]:
    """What is covered, one verdict a pair and cover; before them one for each form that covers everything."""
    found = []
    for layer in layers:
        if "all" in layer.covers:
            evidence = names_in_words(dict.fromkeys(str(entry.evidence) for entry in layer.entries))
            reason = f"{layer.name} covers everything: other genes may be there unseen. Hidden genes possible."
            found.append(Verdict(layer.genes, reason, f"trade opinion; effects: {evidence}", (), Fraction(0)))
    for item in hiding:
        over, under, what = item.over.name, item.under.name, _look(item.under, item.lost)
        if item.cover == "all":
            reason = f"{over} covers everything: {under} cannot be seen on it."
        else:
            reason = f"{over} covers {COVERS[item.cover]}: little or nothing is seen of {under}'s part in it ({what})."
        found.append(_verdict((item.over, item.under), reason, {}, item.lost, [item.over]))
    return tuple(found)


def _leanings(one: Layer, two: Layer, taste: Taste) -> dict[str, tuple[Fraction, Fraction]]:
    """Wish -> how far each of the two is seen to lean towards it, where both do notably and at least one towards it."""
    found = {}
    beside = seen_beside(one, two), seen_beside(two, one)
    for wish, weight in taste.items():
        if not weight:
            continue
        a, b = (leaning(wish, values) * weight for values in beside)
        if min(abs(a), abs(b)) >= NOTABLE and max(a, b) > 0:
            found[wish] = (a, b)
    return found


def _shared(one: Layer, two: Layer, taste: Taste) -> dict[str, Fraction]:
    """Wish -> strength, where both lean towards it."""
    return {wish: a * b for wish, (a, b) in _leanings(one, two, taste).items() if min(a, b) > 0}


def _spoiled(one: Layer, two: Layer, taste: Taste) -> dict[str, Fraction]:
    """Wish -> strength, where one takes more than the other gives; to darken at all spoils what brightens."""
    return {
        wish: -a * b
        for wish, (a, b) in _leanings(one, two, taste).items()
        if min(a, b) < 0 and (a + b < 0 or wish == "bright")
    }


def _rules(one: Layer, two: Layer, taste: Taste) -> list[tuple[str, str, Fraction]]:
    """What `one` does to a wish that only `two` leans towards: (sentence, wish, strength)."""
    found = []
    beside = seen_beside(two, one)
    own = seen_beside(one, two)
    white, dark = own.get("white", Fraction(0)), -own.get("brightness", Fraction(0))
    whitens = white >= MUCH_WHITE and taste.get("white", 0) <= 0 and beside.get("white", 0) < MUCH_WHITE
    for wish, thing in (("bright", "colour"), ("blushing", "blushing")):
        gain = leaning(wish, beside) * max(taste.get(wish, 0), 0)
        if gain >= NOTABLE and whitens:
            found.append((f"the white of {one.name} takes the room of {two.name}'s {thing}", wish, white * gain))
        if gain >= NOTABLE and wish == "blushing" and dark >= NOTABLE:
            found.append((f"{one.name} darkens what {two.name}'s blushing should lighten", wish, dark * gain))
    return found


def _best_lost(item: Hiding) -> tuple[Quality, ...]:
    """The strongest features of what is covered, as far as they are lost."""
    most = max(map(abs, item.under.values.values()), default=0)
    return tuple(quality for quality in item.lost if most and abs(item.under.values[quality]) == most)


def _remark(one: Layer, two: Layer, taste: Taste) -> str:
    """What one makes up for, of the other's."""
    spoiled = _spoiled(one, two, taste)
    against = {w: pair for w, pair in _leanings(one, two, taste).items() if min(pair) < 0 and w not in spoiled}
    said = []
    for wish, (a, _) in against.items():
        good, bad = (one, two) if a > 0 else (two, one)
        said.append(f"; {good.name} makes up for it where {bad.name} {_verb(wish, taste, away=True)}")
    return "".join(said)


def _opposed(one: Layer, two: Layer, wish: str, taste: Taste) -> str:
    if leaning(wish, one.values) * taste[wish] > 0:
        one, two = two, one
    return f"{one.name} {_verb(wish, taste, away=True)} where {two.name} {_verb(wish, taste)}"


def _verb(wish: str, taste: Taste, away: bool = False, several: bool = False) -> str:
    """What forms do that lean towards a wish, or away from it; an unwanted wish turns the sides round."""
    return VERBS[wish][2 * (away == (taste[wish] > 0)) + (not several)]


def _verdict(
    pair: tuple[Layer, Layer],
    reason: str,
    strengths: Mapping[str, Fraction],
    qualities: tuple[Quality, ...] = (),
    doubtful: Sequence[Layer] = (),
) -> Verdict:
    """doubtful: forms whose general notes belong to the reason; notes on forms in this company always do."""
    about = tuple(dict.fromkeys([*(q for wish in strengths for q in TASTES.get(wish, ())), *qualities]))
    entries = [entry for layer in pair for entry in _sources(layer, about)]
    general = {entry.note for layer in doubtful for entry in layer.entries}
    doubts = list(dict.fromkeys(e.note for e in entries if e.note and (e.on or e.note in general)))
    known = names_in_words(dict.fromkeys(str(entry.evidence) for entry in entries)) or "not established"
    return Verdict(
        tuple(gene for layer in pair for gene in layer.genes),
        " ".join([reason, *(f"({note})" for note in doubts)]),
        f"trade opinion; effects: {known}",
        about,
        sum(strengths.values(), Fraction(0)),
        names_in_words(dict.fromkeys(entry.by for entry in entries if entry.by)),
    )


def _sources(layer: Layer, about: Sequence[Quality]) -> list[Effect]:
    found = [layer.origin[quality] for quality in about if quality in layer.origin]
    return list({id(entry): entry for entry in found}.values())


def _ordered(found: Iterable[Verdict]) -> tuple[Verdict, ...]:
    return tuple(sorted(found, key=lambda verdict: (-verdict.strength, verdict.genes)))


def _look(layer: Layer, qualities: Iterable[Quality]) -> str:
    return names_in_words(MEANINGS[quality][2 if layer.values[quality] > 0 else 1] for quality in qualities)
