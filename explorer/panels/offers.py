"""From the nearest names of a text that was not understood to corrected texts that can be taken with one click."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches

__all__ = ["Offer", "Problem", "offers"]


@dataclass(frozen=True)
class Offer:
    """name: what would be written in place of what was found. text: the whole text with it. field: where it goes."""

    name: str
    text: str
    field: str = ""


@dataclass(frozen=True)
class Problem:
    """What is wrong with a form, in words, and texts that would mend it."""

    text: str
    offers: tuple[Offer, ...] = ()


def offers(text: str, found: str, names: Sequence[str], field: str = "") -> tuple[Offer, ...]:
    """One offer for each of the nearest names.

    found: what was not understood, each wrong word in double quotes; without any, the name replaces the whole text.
    """
    wrong = [word for word in re.findall(r'"([^"]+)"', found) if word in text]
    return tuple(Offer(name, _corrected(text, wrong, name), field) for name in names)


def _corrected(text: str, wrong: Sequence[str], name: str) -> str:
    if not wrong:
        return name
    word = get_close_matches(name, wrong, n=1, cutoff=0.0)[0]
    start = text.index(word)
    end = start + len(word)
    parts = name.split()
    before, after = len(text[:start].split()), text[end:].split()
    if len(parts) > len(word.split()):  # the name may reach across words that were written rightly
        if [part.casefold() for part in after[: len(parts) - 1]] == [part.casefold() for part in parts[1:]]:
            end = re.compile(rf"(\s+\S+){{{len(parts) - 1}}}").match(text, end).end()  # type: ignore[union-attr]
        elif before and text[:start].split()[-1].casefold() == parts[0].casefold():
            start = text[:start].rstrip().rindex(text[:start].split()[-1])
    return text[:start] + name + text[end:]
