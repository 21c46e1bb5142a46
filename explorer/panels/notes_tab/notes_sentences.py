"""The answer of the Gene notes tab in a sentence or two: what one gene does, and what several do to each other."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ...catalogue import MEANINGS, ZONES, Gene, Quality
from ...looks import Stack, Verdict
from ...pairing import names_in_words, number_word

__all__ = ["established", "gene_sentence", "seen", "stack_sentence"]

MOST_SAID = 3
"""How many things a gene does are named in its sentence."""

WHITE, ADDS = 3, "adds "

DOES: Mapping[Quality, tuple[str, str]] = {
    "headstamp": ("darkens the headstamp", "lightens the headstamp"),
    "eye_stripe": ("thins the eye stripes", "widens the eye stripes"),
    "dorsal": ("breaks up the dorsal line", "draws the dorsal line together"),
    "rear": ("breaks up the dorsal line on the rear third", "draws the dorsal line together on the rear third"),
    "banding": ("takes banding away", "adds banding"),
    "flank": ("clears the flanks", "adds marks on the flanks"),
    "dots": ("takes dots out of the flank blotches", "adds dots"),
    "floating": ("ties the flank blotches to the belly", "frees the flank blotches from the belly"),
    "belly": ("cleans the belly edge", "marks the belly edge"),
    "pattern": ("thins the dark pattern", "adds dark pattern"),
    "brightness": ("darkens", "brightens"),
    "contrast": ("lowers the contrast", "raises the contrast"),
    "clean": ("leaves a dirtier look", "cleans"),
    "blush": ("takes blushing away", "adds blushing"),
    "white": ("takes white away", "adds white"),
    "yellow": ("takes yellow away", "adds yellow"),
    "red": ("takes orange and red away", "warms the colour toward orange and red"),
    "lavender": ("takes lavender away", "adds lavender tones"),
    "black": ("fades the black", "deepens the black"),
}
"""Quality -> what a gene does that goes to its minus side, and to its plus side."""

ORDER: tuple[Quality, ...] = tuple(
    quality for zone in ("overall", "back", "flanks", "head", "belly") for quality in ZONES[zone]
)
"""Of qualities that differ alike, those of the whole animal are named first."""


def gene_sentence(gene: Gene, one: Stack, two: Stack) -> str:
    """What a gene does, with one copy and with two. one, two: the stacks of its forms; a recessive shows with two."""
    if gene.recessive:
        does = names_in_words(_does(two)) if established(two) else "has a look that is not established"
        return f"{gene.name} with two copies {does}; one copy does not show: a carrier looks like wild type."
    if not established(one):
        return f"How {gene.name} looks is not established."
    return f"{gene.name} {names_in_words(_does(one))}; {_with_two(gene, one, two)}."


def stack_sentence(stack: Stack) -> str:
    """Who helps, spoils and covers whom among several genes."""
    if not stack.layers:
        return "Wild type."
    if len(stack.layers) == 1:
        look = _in_short(stack) if established(stack) else "its look is not established"
        return f"{names_in_words(stack.look)} are of one complex and make one form: {look}."
    helps, spoils = ([_pair(verdict, stack) for verdict in found] for found in (stack.helps, stack.clashes))
    if helps and helps == spoils:
        said = [f"{helps[0]} help each other in one thing and get in each other's way in another"]
    else:
        said = [*_about(helps, "help each other"), *_about(spoils, "get in each other's way")]
    if not spoils:
        said.append("nothing spoils" if helps else f"{names_in_words(_names(stack))} neither help nor spoil each other")
    covers = dict.fromkeys(_form(verdict.genes[0], stack) for verdict in stack.hidden)
    cover = "cover" if len(covers) > 1 else "covers"
    said += [f"{names_in_words(covers)} {cover} part of what is there"] if covers else []
    text = "; ".join(said)
    return f"{text[0].upper()}{text[1:]}."


def seen(stack: Stack, most: int) -> list[str]:
    """What differs from wild type, in words, the strongest first; "nothing that differs from wild type" if nothing."""
    value = stack.value
    return [MEANINGS[quality][2 if (value(quality) or 0) > 0 else 1] for quality in _far(stack)[:most]] or [
        "nothing that differs from wild type"
    ]


def established(stack: Stack) -> bool:
    """Whether anything is known of how this looks."""
    return any(layer.values for layer in stack.layers)


def _with_two(gene: Gene, one: Stack, two: Stack) -> str:
    if gene.two_copies == "same look":
        return "two copies look the same"
    if gene.two_copies == "not viable":
        return "two copies are recorded as not viable"
    if gene.two_copies == "not reported":
        return "two copies are not reported"
    if not established(two):
        return "how two copies look is not established"
    if (two.value("white") or 0) >= WHITE:
        return f"two copies are {_in_short(two)}"
    shares = [(two.value(quality) or 0) / (one.value(quality) or 1) for quality in _far(one)[:MOST_SAID]]
    if shares and min(shares) >= 1 and max(shares) > 1:
        return "two copies do so more strongly"
    return f"two copies give {names_in_words(seen(two, MOST_SAID))}"


def _in_short(stack: Stack) -> str:
    white = (stack.value("white") or 0) >= WHITE
    return "white, or nearly so" if white else names_in_words(seen(stack, MOST_SAID))


def _does(stack: Stack) -> list[str]:
    does = [DOES[quality][(stack.value(quality) or 0) > 0] for quality in _far(stack)[:MOST_SAID]]
    adds = [text.removeprefix(ADDS) for text in does if text.startswith(ADDS)]
    said = dict.fromkeys(f"{ADDS}{names_in_words(adds)}" if text.startswith(ADDS) else text for text in does)
    return list(said) or ["changes nothing that is known"]


def _far(stack: Stack) -> list[Quality]:
    """The qualities that differ by a step or more, the strongest first."""
    values = {quality: stack.value(quality) or Fraction(0) for quality in ORDER}
    found = [q for q in ORDER if abs(values[q]) >= 1 and (q != "rear" or values["rear"] != values["dorsal"])]
    return sorted(found, key=lambda quality: -abs(values[quality]))


def _about(pairs: list[str], what: str) -> list[str]:
    """Up to two pairs by name; of more, how many and which most."""
    if len(pairs) > 2:
        return [f"{number_word(len(pairs))} pairs {what}, most of all {pairs[0]}"]
    return [" and so do ".join([f"{pairs[0]} {what}", *pairs[1:]])] if pairs else []


def _pair(verdict: Verdict, stack: Stack) -> str:
    return names_in_words(dict.fromkeys(_form(gene, stack) for gene in verdict.genes))


def _form(gene: str, stack: Stack) -> str:
    return next(layer.name for layer in stack.layers if gene in layer.genes)


def _names(stack: Stack) -> list[str]:
    return [layer.name for layer in stack.layers]
