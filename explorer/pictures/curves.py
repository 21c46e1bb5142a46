"""The chance that the target has hatched, season by season: one line a path, the chosen one strong."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

import plotly.graph_objects as go

from ..pairing import percent
from .palette import FAINT, INK, STRONG
from .plain import plain

__all__ = ["Curve", "chance_curves", "chance_curves_in_words"]

HEIGHT = 270

MOST_NAMED = 8
"""With more seasons than this, only every other one has its name and its chance written, so that none run together."""


@dataclass(frozen=True)
class Curve:
    """One path's chances: entry k is the chance that the target has hatched by the end of season k + 1."""

    name: str
    chances: Sequence[float]


def chance_curves(curves: Sequence[Curve], chosen: int, seasons: Sequence[str]) -> dict[str, Any]:
    """Lines from season 1 to the horizon. chosen: index of the strong line; seasons: names of the seasons."""
    last = max((len(curve.chances) for curve in curves), default=1)
    named = [last <= MOST_NAMED or (last - 1 - k) % 2 == 0 for k in range(last)]
    figure = go.Figure()
    for number, curve in sorted(enumerate(curves), key=lambda item: item[0] == chosen):
        strong = number == chosen
        figure.add_scatter(
            x=list(range(1, len(curve.chances) + 1)),
            y=list(curve.chances),
            mode="lines+markers+text" if strong else "lines+markers",
            line={"color": STRONG if strong else "#9aa5b1", "width": 3.5 if strong else 1.5},
            marker={"size": 8 if strong else 4},
            text=[percent(chance) if chance and named[k] else "" for k, chance in enumerate(curve.chances)]
            if strong
            else None,
            textposition="top center",
            textfont={"size": 13, "color": INK},
            cliponaxis=False,
            hovertext=[
                f"{escape(curve.name, quote=False)}: {percent(chance)}<br>by the end of season {k + 1} ({seasons[k]})"
                for k, chance in enumerate(curve.chances)
            ],
            hoverinfo="text",
        )
    for level, words in ((0.5, "even"), (0.9, "nine in ten")):
        figure.add_hline(y=level, line={"color": FAINT, "width": 1, "dash": "dot"}, layer="below")
        place = {"xref": "paper", "x": 0, "y": level, "xanchor": "left", "yanchor": "bottom", "xshift": 4}
        figure.add_annotation(text=words, showarrow=False, font={"color": FAINT, "size": 13}, **place)
    figure.update_layout(
        margin={"l": 56, "r": 26, "t": 14, "b": 46},
        xaxis={
            "tickmode": "array",
            "tickvals": list(range(1, last + 1)),
            "ticktext": [f"{k + 1}<br>{escape(seasons[k]) if named[k] else ''}" for k in range(last)],
            "tickfont": {"size": 11},
            "tickangle": 0,
            "range": [0.7, last + 0.4],
            "showgrid": False,
            "zeroline": False,
            "showline": True,
            "linecolor": FAINT,
            "fixedrange": True,
        },
        yaxis={
            "tickvals": [0, 0.25, 0.5, 0.75, 1],
            "ticktext": ["0 %", "25 %", "50 %", "75 %", "100 %"],
            "range": [-0.02, 1.1],
            "showgrid": False,
            "zeroline": False,
            "fixedrange": True,
        },
    )
    return plain(figure, height=HEIGHT)


def chance_curves_in_words(curves: Sequence[Curve], chosen: int, seasons: Sequence[str]) -> str:
    """The chosen line season by season, and where the others end, as text."""
    lines = []
    for number, curve in enumerate(curves):
        if number == chosen:
            points = (f"season {k + 1} ({seasons[k]}) {percent(c)}" for k, c in enumerate(curve.chances))
            lines.append(f"{curve.name}, chosen: {', '.join(points)}")
        elif curve.chances:
            lines.append(f"{curve.name}: {percent(curve.chances[-1])} by season {len(curve.chances)}")
    return "; ".join(lines) or "no paths"
