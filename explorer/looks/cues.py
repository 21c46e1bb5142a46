"""What a keeper notes on an animal, as chances given what the animal shows."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..catalogue import QUALITIES, Cue, Quality
from .covering import combined
from .layers import Layer

__all__ = ["Known", "chance_of_answers", "cue_chances"]

Known = dict[tuple[str, Fraction | None], Fraction]
"""(cue key, value) -> chance, as far as it was worked out."""


def cue_chances(cues: Sequence[Cue], layers: Sequence[Layer], known: Known | None = None) -> list[Fraction]:
    """For each cue, the chance that it is noted on an animal with these gene forms.

    A cue on a quality goes by the combined value, between whole values in proportion; where nothing is established
    of the quality, by the mean of its curve. A cue on forms is noted if at least one of them makes it noted, each by
    itself. A form that covers all makes noted only what is said of just so many copies of it. known: kept from call to
    call, to save work.
    """
    wanted: list[Quality] = [q for q in QUALITIES if any(cue.quality == q for cue in cues)]
    values = combined(layers, wanted)
    known = {} if known is None else known
    found = []
    for cue in cues:
        if cue.quality is None:
            found.append(_by_form(cue, layers))
            continue
        at = (cue.key, values[cue.quality])
        if at not in known:
            known[at] = _on_curve(cue.curve, values[cue.quality])
        found.append(known[at])
    return found


def chance_of_answers(cues: Sequence[Cue], chances: Sequence[Fraction], answers: Mapping[str, bool]) -> Fraction:
    """The chance of these answers (cue key -> whether it is seen), given each cue's own chance.

    Cues on different qualities are taken as independent given the look. Those on one quality exclude one another: the
    flanks are cleared, or busy, or neither.
    """
    found = Fraction(1)
    left: dict[Quality, Fraction] = {}
    for cue, chance in zip(cues, chances, strict=True):
        seen = answers.get(cue.key)
        if seen is None:
            continue
        if cue.quality is None:
            found *= chance if seen else 1 - chance
        elif seen:
            found *= chance
            left[cue.quality] = Fraction(1)
        elif not any(answers.get(other.key) for other in cues if other.quality == cue.quality):
            left[cue.quality] = left.get(cue.quality, Fraction(1)) - chance
    return found * math.prod(left.values())


def _on_curve(curve: Sequence[Fraction], value: Fraction | None) -> Fraction:
    if value is None:
        return sum(curve, Fraction(0)) / len(curve)
    below = min(int(value + 3), 5)
    share = value + 3 - below
    return curve[below] * (1 - share) + curve[below + 1] * share


def _by_form(cue: Cue, layers: Sequence[Layer]) -> Fraction:
    covering = [layer for layer in layers if "all" in layer.covers]
    copies: Mapping[str, int] = {part.gene: part.copies for layer in covering or layers for part in layer.parts}
    missed = Fraction(1)
    for part, chance in cue.shown_by:
        here = copies.get(part.gene, 0)
        if here == part.copies or (here > part.copies and not covering):
            missed *= 1 - chance
    return max(1 - missed, cue.otherwise) if missed < 1 else cue.otherwise
