"""From the tables of facts files to records of looks: effects and cues."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import get_args

from .drafts import Draft, shown
from .entries import Cue, Effect, Part
from .qualities import QUALITIES, Cover, Quality, Zone

__all__ = ["effect_key", "parts_of", "read_cue", "read_effect"]

ZONE_NAMES: tuple[Zone, ...] = get_args(Zone)


def parts_of(words: Iterable[str]) -> tuple[Part, ...]:
    """The genes of a meaning: "Super Pastel" is two copies of Pastel, "Spider" one of Spider."""
    return tuple(Part(w[6:], 2) if w.startswith("Super ") and w[6:] else Part(w) for w in words)


def effect_key(effect: Effect) -> tuple[object, ...]:
    """What an effect is of, and on what base: two effects of one key say the same twice."""
    return effect.complex, *_sorted(effect.parts), "on", *_sorted(effect.on)


def _sorted(parts: tuple[Part, ...]) -> list[tuple[str, int]]:
    return sorted((part.gene, part.copies) for part in parts)


def read_effect(draft: Draft) -> Effect:
    """An [[effect]]: of one gene, of a pair of one complex, of any pair of a complex, or (copies = 0) of wild type."""
    parts, complex_name = _subject(draft)
    inner = draft.inner("values")
    values: dict[Quality, int] = {q: inner.whole(q, -3, 3) for q in QUALITIES if q in inner}
    inner.close()
    inner = draft.inner("words")
    words = {zone: inner.text(zone) for zone in ZONE_NAMES if zone in inner}
    inner.close()
    return Effect(
        parts,
        values,
        draft.evidence(),
        complex_name,
        parts_of(draft.texts("on")),
        draft.text("hue", ""),
        words,
        draft.choices("covers", get_args(Cover)),
        draft.text("note", ""),
        "the keeper" if draft.own else "",
    )


def read_cue(draft: Draft) -> Cue:
    """A [[cue]]: with a quality and its curve, or with the forms that show it."""
    one = Fraction(1)
    quality: Quality | None = draft.choice("quality", QUALITIES) if "quality" in draft else None
    curve = draft.numbers("curve", one) if quality else ()
    if quality and len(curve) != 7:
        draft.report("curve", f"{len(curve)} numbers", "seven, for the values -3 to 3")
    forms = []
    for form in [] if quality else draft.tables("shown_by"):
        forms.append((Part(form.text("gene"), form.choice("copies", (1, 2), 1)), form.number("chance", one)))
        form.close()
    return Cue(
        draft.name("key"),
        draft.choice("zone", ZONE_NAMES),
        draft.text("text"),
        draft.evidence(),
        quality,
        curve,
        tuple(forms),
        Fraction(0) if quality else draft.number("otherwise", one),
    )


def _subject(draft: Draft) -> tuple[tuple[Part, ...], str]:
    if "complex" in draft:
        return (), draft.text("complex")
    if "genes" in draft:
        names = draft.texts("genes", least=2)
        if len(names) > 2 or len(set(names)) < len(names):
            draft.report("genes", shown(names), "two different gene names")
        return tuple(Part(name) for name in names), ""
    copies = draft.whole("copies", 0, 2)
    if copies:
        return (Part(draft.text("gene"), copies),), ""
    return (), ""
