"""Cuts a text into the names and shorthand words that it is made of."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from fractions import Fraction
from functools import lru_cache
from typing import Literal, TypeAlias

from ..catalogue import AmbiguousWord, Catalogue, Gene, Nickname, normal
from .errors import AmbiguousGenes, ImpossibleGenes, UnreadableGenes
from .figures import DIGITS, TINY, TINY_TEXT, figure

__all__ = ["Kind", "Word", "cut"]

Kind: TypeAlias = Literal[
    "gene", "nickname", "figure", "possible", "times", "het", "super", "visual", "maker", "on", "normal"
]


@dataclass(frozen=True)
class Word:
    """One name or shorthand word. text: as it was written.

    number: the chance of a "figure", the count of "times", for "maker" and "on" whether the second sex chromosome
        is meant (1) or the first (0). means: the record of a "gene" or "nickname".
    """

    kind: Kind
    text: str
    number: Fraction = Fraction(0)
    means: Gene | Nickname | None = None


Entry: TypeAlias = AmbiguousWord | tuple[tuple[Kind, int], ...] | Gene | Nickname

_SHORTHAND: dict[str, tuple[tuple[Kind, int], ...]] = {
    "het": (("het", 0),),
    "dh": (("times", 2), ("het", 0)),
    "ph": (("possible", 0), ("het", 0)),
    "double": (("times", 2),),
    "dbl": (("times", 2),),
    "triple": (("times", 3),),
    "possible": (("possible", 0),),
    "poss": (("possible", 0),),
    "poss.": (("possible", 0),),
    "super": (("super", 0),),
    "visual": (("visual", 0),),
    "normal": (("normal", 0),),
    "wildtype": (("normal", 0),),
}

_HYPHENS = "‐‑‒–—−-"
_TOKEN = re.compile(rf"%|[^\s,+/()%{_HYPHENS}]+")
_REPORTED = 4


@dataclass(frozen=True)
class _Token:
    start: int
    end: int
    broken: bool
    """Whether a comma or the like stands before it, so that no name reaches across."""


def cut(text: str, catalogue: Catalogue) -> list[Word]:
    """The words of a text; a name is read as long as it can be, so that "Desert Ghost" is one gene.

    Raises UnreadableGenes if a word is not known or there is none, ImpossibleGenes if a percentage is 0 or above 100,
    AmbiguousGenes if a word has more than one meaning.
    """
    tokens = _tokens(text)
    if not tokens:
        raise UnreadableGenes(text, "no gene", "the name of a gene", "write Normal for an animal without any")
    table, longest = _table(catalogue)
    words: list[Word] = []
    unknown: list[int] = []
    at = 0
    while at < len(tokens):
        if " ".join(text[tokens[at].start : tokens[min(at + 2, len(tokens) - 1)].end].casefold().split()) == TINY_TEXT:
            words.append(Word("figure", TINY_TEXT, TINY))
            at += 3
            continue
        if at + 1 < len(tokens) and text[tokens[at + 1].start] == "%" and not tokens[at + 1].broken:
            words.append(_percentage(text, text[tokens[at].start : tokens[at].end]))
            at += 2
            continue
        end, entry = _longest(text, tokens, at, table, longest)
        if entry is None:
            unknown.append(at)
        else:
            written = " ".join(text[tokens[at].start : tokens[end - 1].end].split())
            words.extend(_words(text, written, entry))
        at = end
    if unknown:
        raise _not_known(text, tokens, unknown, catalogue)
    return words


def _tokens(text: str) -> list[_Token]:
    found: list[_Token] = []
    end = 0
    for match in _TOKEN.finditer(text):
        gap = text[end : match.start()]
        found.append(_Token(match.start(), match.end(), bool(gap.strip()) and not (len(gap) == 1 and gap in _HYPHENS)))
        end = match.end()
    return found


@lru_cache(maxsize=32)
def _table(catalogue: Catalogue) -> tuple[dict[str, Entry], int]:
    """Everything that is known, by its normal form, and the length of the longest."""
    table: dict[str, Entry] = {**catalogue.names, **_SHORTHAND}
    for number, name in enumerate(catalogue.species.chromosomes):
        table[f"on{normal(name)}"] = (("on", number),)
    if catalogue.species.heterogametic == "male":
        table["femalemaker"] = (("maker", 0),)
        table["malemaker"] = (("maker", 1),)
    return table, max(map(len, table))


def _longest(
    text: str, tokens: Sequence[_Token], at: int, table: dict[str, Entry], longest: int
) -> tuple[int, Entry | None]:
    """Where the longest known name from token `at` ends, and what it is; one token if nothing is known."""
    found: tuple[int, Entry | None] = (at + 1, None)
    for end in range(at + 1, len(tokens) + 1):
        if end > at + 1 and tokens[end - 1].broken:
            break
        name = normal(text[tokens[at].start : tokens[end - 1].end])
        if len(name) > longest:
            break
        if name in table:
            found = (end, table[name])
    return found


def _words(text: str, written: str, entry: Entry) -> list[Word]:
    if isinstance(entry, Gene):
        return [Word("gene", written, means=entry)]
    if isinstance(entry, Nickname):
        return [Word("nickname", written, means=entry)]
    if isinstance(entry, AmbiguousWord):
        raise AmbiguousGenes(text, f'"{written}"', "one meaning", "write the one that is meant", entry.meanings)
    return [Word(kind, written, Fraction(number)) for kind, number in entry]


def _percentage(text: str, number: str) -> Word:
    chance = figure(number)
    if chance is None:
        needed = f"a number of at most {DIGITS} digits, with a point for decimals"
        raise UnreadableGenes(text, f'"{_clipped(number)}%"', needed, "write a percentage as 66% or 12.5%")
    if not 0 < chance <= 1:
        advice = "leave out what has no chance" if not chance else "write 100% or leave the figure out"
        raise ImpossibleGenes(text, f'"{number}%"', "a percentage above 0 and up to 100", advice)
    return Word("figure", f"{number}%", chance)


def _not_known(text: str, tokens: Sequence[_Token], unknown: Sequence[int], catalogue: Catalogue) -> UnreadableGenes:
    runs: list[tuple[int, int]] = []
    for at in unknown:
        if runs and runs[-1][1] == at and not tokens[at].broken:
            runs[-1] = (runs[-1][0], at + 1)
        else:
            runs.append((at, at + 1))
    shown = [_clipped(text[tokens[a].start : tokens[b - 1].end]) for a, b in runs[:_REPORTED]]
    found = ", ".join(f'"{word}"' for word in shown)
    more = f" and {len(runs) - _REPORTED} more" if len(runs) > _REPORTED else ""
    advice = "write a name that the catalogue holds"
    if any(figure(word) for word in shown):
        advice += ", and a percentage with its sign, as in 66%"
    each = 3 if len(unknown) == 1 else 2
    near = [name for at in unknown[:_REPORTED] for name in _nearest(text, tokens, at, catalogue)[:each]]
    return UnreadableGenes(
        text,
        f"{found}{more}",
        "names of genes and words of shorthand",
        advice,
        tuple(dict.fromkeys(near)),
    )


def _nearest(text: str, tokens: Sequence[_Token], at: int, catalogue: Catalogue) -> list[str]:
    """Names near the unknown token, alone or together with its neighbours."""
    spans = [(at, at + 1)]
    spans += [(at, end) for end in (at + 2, at + 3) if end <= len(tokens)]
    spans += [(at - 1, at + 1)] if at else []
    scores: dict[str, float] = {}
    for first, end in spans:
        if any(token.broken for token in tokens[first + 1 : end]):
            continue
        asked = _clipped(text[tokens[first].start : tokens[end - 1].end])
        for name in catalogue.nearest(asked):
            score = SequenceMatcher(None, normal(asked), normal(name)).ratio()
            scores[name] = max(score, scores.get(name, 0))
    return sorted(scores, key=lambda name: -scores[name])


def _clipped(word: str) -> str:
    return word if len(word) <= 40 else f"{word[:40]}..."
