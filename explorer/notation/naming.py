"""Sets of genes given as texts, for options such as `allow`, and names and sentences as they are written."""

from __future__ import annotations

from collections.abc import Iterable

from ..catalogue import Catalogue
from .reading import read_wanted

__all__ = ["capital", "genes_named", "names_in_words", "texts_of"]


def texts_of(given: str | Iterable[str]) -> tuple[str, ...]:
    """One text or several, as several."""
    return (given,) if isinstance(given, str) else tuple(given)


def genes_named(given: str | Iterable[str], catalogue: Catalogue, everything: Iterable[str]) -> frozenset[str]:
    """The genes that the texts name in shorthand; "all" stands for `everything`. Raises GenesError."""
    texts = texts_of(given)
    if any(text.strip().casefold() == "all" for text in texts):
        return frozenset(everything)
    return frozenset(name for text in texts for name in read_wanted(text, catalogue))


def names_in_words(names: Iterable[str], word: str = "and") -> str:
    """"A, B and C"; "" for none."""
    given = list(names)
    return f" {word} ".join(filter(None, (", ".join(given[:-1]), *given[-1:])))


def capital(text: str) -> str:
    """The text with its first letter in upper case, the rest as it is."""
    return text[:1].upper() + text[1:]
