"""The three ways in which a text of genes can be wrong."""

from __future__ import annotations

__all__ = ["AmbiguousGenes", "GenesError", "ImpossibleGenes", "UnreadableGenes"]

_LONGEST = 120


class GenesError(ValueError):
    """A text of genes that could not be used.

    text: what was given. found, needed, advice: what stands there, what could stand there, what to do about it.
    nearest: what may have been meant: names that exist, most alike first; for AmbiguousGenes the meanings.
    """

    failing = "cannot be used"
    offering = "Nearest names"

    def __init__(self, text: str, found: str, needed: str, advice: str, nearest: tuple[str, ...] = ()) -> None:
        super().__init__(text, found, needed, advice, nearest)
        self.text = text
        self.found = found
        self.needed = needed
        self.advice = advice
        self.nearest = nearest

    def __str__(self) -> str:
        text = " ".join(self.text[: _LONGEST + 1].split())
        text = text if len(self.text) <= _LONGEST else f"{text[:_LONGEST]}..."
        near = f" {self.offering}: {', '.join(self.nearest)}." if self.nearest else ""
        return f'"{text}" {self.failing}: found {self.found}; needed {self.needed}. To do: {self.advice}.{near}'


class UnreadableGenes(GenesError):
    """A text that says nothing: a word that is not known, or words in an order without meaning."""

    failing = "cannot be read"


class ImpossibleGenes(GenesError):
    """A text that is understood and that is true of no animal."""

    failing = "cannot be true"


class AmbiguousGenes(GenesError):
    """A text with more than one meaning; `nearest` lists them."""

    failing = "has more than one meaning"
    offering = "Meanings"
