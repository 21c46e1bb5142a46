"""How a doubt about a parent fades with every hatchling that does not end it: one line a doubt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from typing import Any

import plotly.graph_objects as go

from ..pairing import number_word, percent
from .palette import FAINT, STRONG
from .plain import plain

__all__ = ["Doubt", "doubt_lines", "doubt_lines_in_words"]

HEIGHT = 270

LOWEST = -2.4
"""Foot of the scale of chances as a power of ten: it is logarithmic, so that 5 % and 1 % stand well apart."""

OUT_OF_SIGHT = 1e-9
"""Where a chance of 0 is drawn, which has no place on the scale."""

LEVELS = (0.05, 0.01)

STROKES = ((STRONG, "solid", "circle"), ("#b45309", "dash", "square"), ("#5b4a99", "dot", "diamond"))
"""Colour, dash and mark of the lines, in turn, so that equal lines can be told apart where they cover one another."""


@dataclass(frozen=True)
class Doubt:
    """One line. chances: entry n is the chance, after n hatchlings that leave it open, that what `name` says is true.

    name: "F01 carries Clown"; silence: what hatchlings do that leave it open, as in "none shows Clown".
    """

    name: str
    silence: str
    chances: Sequence[Fraction | float]


def doubt_lines(doubts: Sequence[Doubt]) -> dict[str, Any]:
    """Lines over the number of hatchlings that leave the doubt open, from 0, with the 5 % and the 1 % level."""
    last = max((len(doubt.chances) - 1 for doubt in doubts), default=0)
    figure = go.Figure()
    for number, doubt in enumerate(doubts):
        colour, dash, mark = STROKES[number % len(STROKES)]
        figure.add_scatter(
            x=list(range(len(doubt.chances))),
            y=[float(chance) or OUT_OF_SIGHT for chance in doubt.chances],
            mode="lines+markers",
            name=escape(doubt.name, quote=False),
            line={"color": colour, "width": 2.5, "dash": dash},
            marker={"size": 6, "symbol": mark},
            hovertext=[
                f"{escape(doubt.name, quote=False)}: {percent(chance)}<br>{escape(_when(doubt, n), quote=False)}"
                for n, chance in enumerate(doubt.chances)
            ],
            hoverinfo="text",
        )
    for level in LEVELS:
        figure.add_hline(y=level, line={"color": FAINT, "width": 1, "dash": "dot"}, layer="below")
    figure.update_layout(
        margin={"l": 56, "r": 26, "t": 34, "b": 46},
        legend={"orientation": "h", "x": 0, "y": 1.02, "xanchor": "left", "yanchor": "bottom", "itemclick": False},
        xaxis={
            "title": {"text": "hatchlings, none of which settles it", "font": {"size": 13}},
            "tick0": 0,
            "dtick": next(step for step in (1, 2, 5, 10, 20, 50, 100, last) if step * 15 >= last),
            "range": [-0.2, max(last, 1) + 0.2],
            "showgrid": False,
            "zeroline": False,
            "showline": True,
            "linecolor": FAINT,
            "fixedrange": True,
        },
        yaxis={
            "type": "log",
            "tickvals": [1, 0.5, 0.2, 0.1, *LEVELS],
            "ticktext": ["100 %", "50 %", "20 %", "10 %", "5 %", "1 %"],
            "range": [LOWEST, 0.04],
            "showgrid": False,
            "zeroline": False,
            "fixedrange": True,
        },
    )
    spec = plain(figure, height=HEIGHT)
    spec["layout"]["showlegend"] = bool(doubts)
    return spec


def doubt_lines_in_words(doubts: Sequence[Doubt]) -> str:
    """Every line number by number, as text."""
    lines = []
    for doubt in doubts:
        points = (f"{percent(c)} {f'after {n}' if n else 'now'}" for n, c in enumerate(doubt.chances))
        lines.append(f"{doubt.name}, if of the hatchlings {doubt.silence}: {', '.join(points)}")
    return "; ".join(lines) or "nothing in doubt"


def _when(doubt: Doubt, n: int) -> str:
    if n == 0:
        return "as things stand"
    return f"after {number_word(n)} hatchling{'' if n == 1 else 's'}, if {doubt.silence}"
