"""Words to HTML. Every text is escaped here, and only here."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

__all__ = ["folded", "items", "paragraph"]


def paragraph(text: str, css: str = "", tag: str = "p") -> str:
    """One element with this text. css: classes of it."""
    named = f' class="{escape(css)}"' if css else ""
    return f"<{tag}{named}>{escape(text)}</{tag}>"


def items(texts: Iterable[str], css: str = "") -> str:
    """A bulleted list; "" if there is nothing to list."""
    lines = "".join(paragraph(text, tag="li") for text in texts)
    named = f' class="{escape(css)}"' if css else ""
    return f"<ul{named}>{lines}</ul>" if lines else ""


def folded(summary: str, text: str) -> str:
    """A line that opens to show a longer text as it is."""
    return f"<details>{paragraph(summary, tag='summary')}{paragraph(text, tag='pre')}</details>"
