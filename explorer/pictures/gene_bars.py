"""Which genes an animal may carry, as bars: what shows, what is carried unseen, and what was thought beforehand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from typing import Any

import plotly.graph_objects as go

from ..pairing import percent
from .labels import elided
from .palette import FAINT, INK
from .plain import plain

__all__ = ["SHOWS", "UNSEEN", "GeneBar", "gene_bars", "gene_bars_in_words"]

SHOWS, UNSEEN = "#7b8794", "#e4e8ec"
"""The fills of what shows and of what is carried unseen; both neutral."""

MOST_GENES = 12
LABEL_WIDTH, LETTER = 24, 8
ROW_HEIGHT, EDGE = 28, 26
THICK = 0.56


@dataclass(frozen=True)
class GeneBar:
    """One gene. shows: the chance that it can be seen; carries: that it is there, seen or not; before: the same before
    anything was looked at.
    """

    gene: str
    shows: Fraction
    carries: Fraction
    before: Fraction


def gene_bars(bars: Sequence[GeneBar], most: int = MOST_GENES) -> dict[str, Any]:
    """Horizontal bars in the order given, at most `most`, from 0 to 100 %; what is left out is counted beneath."""
    shown, left = bars[:most], len(bars) - most
    places = list(range(len(shown)))
    figure = go.Figure()
    parts = (([float(bar.shows) for bar in shown], SHOWS), ([float(bar.carries - bar.shows) for bar in shown], UNSEEN))
    for number, (widths, fill) in enumerate(parts):
        figure.add_bar(
            orientation="h",
            x=widths,
            y=places,
            base=[float(bar.shows) for bar in shown] if number else 0,
            width=THICK,
            marker={"color": fill, "line": {"color": FAINT, "width": [1 if width else 0 for width in widths]}},
            hovertext=[escape(_said(bar), quote=False) for bar in shown],
            hoverinfo="text",
        )
    half = THICK / 2 + 0.1
    figure.add_scatter(
        x=[x for bar in shown for x in (float(bar.before), float(bar.before), None)],
        y=[y for place in places for y in (place - half, place + half, None)],
        mode="lines",
        line={"color": INK, "width": 3},
        hoverinfo="skip",
        cliponaxis=False,
    )
    figure.add_scatter(
        x=[max(float(bar.carries), float(bar.before)) for bar in shown],
        y=places,
        mode="text",
        text=[f"  {percent(bar.carries)}" for bar in shown],
        textposition="middle right",
        cliponaxis=False,
        hoverinfo="skip",
    )
    ticks = [escape(elided(bar.gene, LABEL_WIDTH), quote=False) for bar in shown]
    longest = max((len(elided(bar.gene, LABEL_WIDTH)) for bar in shown), default=0)
    figure.update_layout(
        barmode="overlay",
        margin={"l": longest * LETTER + 26, "r": 12, "t": 2, "b": EDGE},
        xaxis={
            "range": [0, 1.16],
            "tickvals": [0, 0.25, 0.5, 0.75, 1],
            "ticktext": ["0", "25", "50", "75", "100 %"],
            "tickfont": {"size": 12, "color": FAINT},
            "gridcolor": "#e4e8ec",
            "zeroline": False,
            "fixedrange": True,
        },
        yaxis={
            "tickmode": "array",
            "tickvals": places,
            "ticktext": ticks,
            "range": [len(shown) - 0.5, -0.5],
            "ticks": "",
            "ticklabelstandoff": 8,
            "showgrid": False,
            "zeroline": False,
            "fixedrange": True,
        },
    )
    if left > 0:
        place = {"xref": "paper", "yref": "paper", "x": 1, "y": 0, "xanchor": "right", "yanchor": "bottom"}
        figure.add_annotation(text=f"and {left:,} more", showarrow=False, font={"color": FAINT}, **place)
    return plain(figure, height=max(1, len(shown)) * ROW_HEIGHT + EDGE)


def gene_bars_in_words(bars: Sequence[GeneBar], most: int = MOST_GENES) -> str:
    """The same bars as text, for those who do not see the chart."""
    left = len(bars) - most
    lines = [*map(_said, bars[:most]), *([f"and {left:,} more"] if left > 0 else [])]
    return "; ".join(lines) or "no gene comes into question"


def _said(bar: GeneBar) -> str:
    return f"{bar.gene}: {percent(bar.carries)}, shows {percent(bar.shows)}, before any look {percent(bar.before)}"
