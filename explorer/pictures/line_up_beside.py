"""A few pairings side by side: their looks as bars on one scale and in one order, with what else to know beneath."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape

from ..pairing import one_in, percent
from .palette import nearness_shade

__all__ = ["STYLE", "Beside", "Look", "side_by_side"]

STYLE = """
.xp-beside { border-collapse: collapse; width: 100%; table-layout: fixed; font-size: 13px; line-height: 1.4 }
.xp-beside caption { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%) }
.xp-beside :is(th, td) { padding: 3px 12px 3px 0; text-align: left; vertical-align: top; font-weight: 400;
  overflow-wrap: anywhere }
.xp-beside .xp-beside-names { width: 212px }
.xp-beside thead th { padding-bottom: 6px; font-size: 15px; font-weight: 600; vertical-align: bottom }
.xp-beside thead small { display: block; font-size: 12px; font-weight: 400; color: var(--xp-quiet) }
.xp-beside tbody th { text-align: right; color: var(--jp-ui-font-color1) }
.xp-beside .xp-beside-facts th { color: var(--xp-quiet) }
.xp-beside .xp-beside-facts tr:first-child > * { padding-top: 12px }
.xp-beside .xp-beside-looks td { vertical-align: middle; white-space: nowrap }
.xp-beside .xp-beside-looks th { font-weight: 600 }
.xp-beside-bar { display: flex; align-items: center; gap: 6px; min-height: 20px; border-left: 1px solid #6b7580 }
.xp-beside-bar i { flex: none; height: 17px; border: 1px solid #0b5357; border-left: 0; box-sizing: border-box }
.xp-beside-none { padding-left: 6px; color: var(--xp-quiet) }
.xp-beside p { margin: 0 0 2px }
.xp-beside .xp-beside-out { color: var(--xp-warn) }
"""

ROOM = 78
"""Percent of a column that the longest bar takes; the rest is for its number."""


@dataclass(frozen=True)
class Look:
    """A row of bars. chances: one for each pairing; closeness: share of what is looked for, 0 to 1."""

    name: str
    closeness: Fraction
    chances: tuple[Fraction, ...]
    caution: bool = False


@dataclass(frozen=True)
class Beside:
    """One pairing. note: beneath its name; warning: why it cannot be made, "" if it can; facts: (what, sentences)."""

    name: str
    note: str
    warning: str
    facts: tuple[tuple[str, tuple[str, ...]], ...]


def side_by_side(pairings: Sequence[Beside], looks: Sequence[Look], left: Sequence[str], caption: str) -> str:
    """HTML of a table with a column a pairing. looks: in the order in which they are drawn, bars on one scale.

    left: for each pairing, what is said of the looks that are not drawn, "" for nothing. caption: what it is, for those
    who do not see it. All pairings have the same facts. Every text is escaped.
    """
    longest = max((chance for look in looks for chance in look.chances), default=Fraction(1)) or Fraction(1)
    bars = "".join(_row(look, longest) for look in looks)
    more = _cells("", [_said((text,)) for text in left]) if any(left) else ""
    facts = "".join(
        _cells(what, [_said(one.facts[at][1]) for one in pairings])
        for at, (what, _) in enumerate(pairings[0].facts if pairings else ())
    )
    head = "".join(f'<th scope="col">{_head(one)}</th>' for one in pairings)
    columns = f'<col class="xp-beside-names"/>{"<col/>" * len(pairings)}'
    return (
        f'<table class="xp-beside"><caption>{escape(caption)}</caption><colgroup>{columns}</colgroup>'
        f'<thead><tr><td></td>{head}</tr></thead><tbody class="xp-beside-looks">{bars}{more}</tbody>'
        f'<tbody class="xp-beside-facts">{facts}</tbody></table>'
    )


def _head(one: Beside) -> str:
    warning = f'<small class="xp-beside-out">{escape(one.warning)}</small>' if one.warning else ""
    return f"{escape(one.name)}<small>{escape(one.note)}</small>{warning}"


def _row(look: Look, longest: Fraction) -> str:
    mark = " [caution]" if look.caution else ""
    return _cells(f"{look.name}{mark}", [_bar(chance, look.closeness, longest) for chance in look.chances])


def _bar(chance: Fraction, closeness: Fraction, longest: Fraction) -> str:
    if not chance:
        return '<div class="xp-beside-bar xp-beside-none">0 %</div>'
    width = f"width:max(3px,{float(chance / longest) * ROOM:.2f}%)"
    title = escape(f"{one_in(chance)}; {percent(closeness)} of what is looked for")
    bar = f'<i style="{width};background:{nearness_shade(closeness)}"></i>'
    return f'<div class="xp-beside-bar" title="{title}">{bar}{percent(chance)}</div>'


def _cells(name: str, cells: Sequence[str]) -> str:
    first = f'<th scope="row">{escape(name)}</th>' if name else "<td></td>"
    return f"<tr>{first}{''.join(f'<td>{cell}</td>' for cell in cells)}</tr>"


def _said(sentences: Sequence[str]) -> str:
    return "".join(f"<p>{escape(text)}</p>" for text in sentences)
