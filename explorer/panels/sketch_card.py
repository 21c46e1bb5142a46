"""A sketch with what stands beneath it."""

from __future__ import annotations

from itertools import count

from ..looks import Stack, caution_text
from ..pictures import sketch_of
from .markup import paragraph

__all__ = ["STYLE", "drawing", "sketch_card"]

STYLE = """
.xp-sketch { margin: 6px 0 }
.xp-sketch svg { display: block; width: 100%; height: auto }
.xp-workbench .xp-sketch p { margin: 2px 0 0; font-size: 13px; line-height: 1.35 }
.xp-workbench .xp-sketch p.xp-sketch-title { font-weight: 600; font-size: 14px }
.xp-workbench .xp-sketches { display: grid; grid-template-columns: repeat(auto-fit, minmax(250px, 1fr)); gap: 6px 18px }
"""

PLACES = count()
"""A number for each card ever shown: two drawings on one page must not share their ids."""

MOST_SAID = 6
"""How many differences from wild type are named beneath a sketch."""


def drawing(stack: Stack, seed: int = 0) -> str:
    """A sketch that may stand on the page beside others, be they the same."""
    return sketch_of(stack, seed, str(next(PLACES)))


def sketch_card(stack: Stack, title: str = "", lines: tuple[str, ...] = (), seed: int = 0) -> str:
    """HTML of a sketch with its title above, and beneath it further lines and what differs most from wild type."""
    plain = "as wild type, as far as is established" if stack.not_established else "as wild type"
    said = "; ".join(stack.notable[:MOST_SAID]) or plain
    head = paragraph(title, "xp-sketch-title") if title else ""
    text = "".join(paragraph(line) for line in lines)
    cautions = "".join(paragraph(f"Caution: {caution_text(one)}", "xp-caution") for one in stack.cautions)
    beneath = text + cautions + paragraph(f"{stack.text}: {said}.", "xp-quiet")
    return f'<div class="xp-sketch">{head}{drawing(stack, seed)}{beneath}</div>'
