"""Sets of genes given as texts, for options such as `allow`."""

from __future__ import annotations

from collections.abc import Iterable

from ..catalogue import Catalogue
from .reading import read_wanted

__all__ = ["genes_named", "texts_of"]


def texts_of(given: str | Iterable[str]) -> tuple[str, ...]:
    """One text or several, as several."""
    return (given,) if isinstance(given, str) else tuple(given)


def genes_named(given: str | Iterable[str], catalogue: Catalogue, everything: Iterable[str]) -> frozenset[str]:
    """The genes that the texts name in shorthand; "all" stands for `everything`. Raises GenesError."""
    texts = texts_of(given)
    if any(text.strip().casefold() == "all" for text in texts):
        return frozenset(everything)
    return frozenset(name for text in texts for name in read_wanted(text, catalogue))
