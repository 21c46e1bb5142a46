"""Every male beside every female, as a grid of shaded cells with marks and words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from .line_up_shades import tint

__all__ = ["GridCell", "grid_cells", "grid_in_words", "grid_legend"]

MOST_TOLD = 5
"""How many of the best pairings the text alternative names."""


@dataclass(frozen=True)
class GridCell:
    """One pairing. value: what the shade shows; text: the same as it is written; title: all that there is to say.

    out: it cannot be made this season; kept_out: a caution keeps it out of plans; related: "" or how closely, short;
    caution: it meets one that keeps nothing out.
    """

    row: str
    column: str
    value: Fraction
    text: str
    title: str
    out: bool = False
    kept_out: bool = False
    related: str = ""
    caution: bool = False

    @property
    def word(self) -> str:
        """The weightiest thing to know of it, in a word or two; who is not ready has that beside its name."""
        return "kept out" if self.kept_out else self.related or ("caution" if self.caution else "")

    @property
    def marks(self) -> str:
        """Names of the marks that are drawn on it, with spaces between."""
        marks = {"out": self.out, "kept-out": self.kept_out, "kin": bool(self.related), "caution": self.caution}
        return " ".join(name for name, on in marks.items() if on)


def grid_cells(cells: Sequence[Sequence[GridCell]]) -> list[list[dict[str, Any]]]:
    """One dict a cell: text, word, marks, title, shade and ink (#rrggbb), and none: whether its value is 0.

    The largest value is darkest.
    """
    most = max((cell.value for row in cells for cell in row), default=Fraction(0))
    return [[_drawn(cell, most) for cell in row] for row in cells]


def grid_legend(cells: Sequence[Sequence[GridCell]], least: str, most: str) -> list[dict[str, Any]]:
    """What the shades and those marks mean that are on the grid: dicts of words, and marks or ends of the ramp.

    least, most: what the palest and the darkest shade stand for, in words.
    """
    found = {name for row in cells for cell in row for name in cell.marks.split()}
    meanings = {
        "out": "cannot be made this season: one of the two is not ready, or kept out",
        "kept-out": "a caution keeps the pairing out of plans",
        "kin": "close kin: how much inbreeding the offspring have at least",
        "caution": "some eggs meet a caution",
    }
    ramp = [{"words": least, "then": most, "from": tint(1, 1000)[0], "to": tint(1, 1)[0]}]
    return ramp + [{"words": words, "marks": name} for name, words in meanings.items() if name in found]


def grid_in_words(cells: Sequence[Sequence[GridCell]], what: str) -> str:
    """The best pairings of the grid as text, for those who do not see it. what: the number is of this."""
    told = sorted((c for row in cells for c in row if c.value and not c.marks), key=lambda cell: -cell.value)
    best = "; ".join(f"{cell.row} with {cell.column}: {cell.text}" for cell in told[:MOST_TOLD])
    marked = sum(bool(cell.marks) for row in cells for cell in row)
    size = f"{len(cells)} by {len(cells[0]) if cells else 0}"
    return (
        f"{size} pairings, {what}; {marked} have a mark. "
        f"{f'The best without one: {best}.' if best else 'None without a mark is more than 0.'}"
    )


def _drawn(cell: GridCell, most: Fraction) -> dict[str, Any]:
    shade, ink = tint(cell.value, most)
    said = {"text": cell.text, "word": cell.word, "marks": cell.marks, "title": cell.title, "none": not cell.value}
    return {**said, "shade": shade, "ink": ink}
