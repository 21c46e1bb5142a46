"""Text for figures: wrapped or elided to fit, and safe to draw."""

from __future__ import annotations

from html import escape
from textwrap import wrap

__all__ = ["elided", "wrapped"]


def elided(text: str, width: int) -> str:
    """The text, or its start with "…" if it has more than `width` characters."""
    return text if len(text) <= width else f"{text[: width - 1].rstrip()}…"


def wrapped(text: str, width: int, lines: int) -> str:
    """The text for plotly: escaped, at most `lines` lines of `width` characters, the last elided if need be."""
    parts = wrap(text, width, break_long_words=True) or [""]
    if len(parts) > lines:
        parts = [*parts[: lines - 1], elided(" ".join(parts[lines - 1 :]), width)]
    return "<br>".join(escape(part, quote=False) for part in parts)
