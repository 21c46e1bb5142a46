"""What could hatch, as bars: the likeliest first, the darker the nearer to the target."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from typing import Any

import plotly.graph_objects as go

from ..pairing import one_in, percent
from .labels import wrapped
from .palette import FAINT, STRONG, nearness_shade
from .plain import plain

__all__ = ["MOST_BARS", "Bar", "odds_bars", "odds_in_words"]

MOST_BARS = 12
LABEL_WIDTH, LABEL_LINES, LETTER = 36, 2, 8
ROW_HEIGHT, EDGE = 33, 34


@dataclass(frozen=True)
class Bar:
    """One outcome. label: in trade shorthand; nickname: "" if none; closeness: share of the target, 0 to 1."""

    label: str
    chance: Fraction
    closeness: Fraction
    nickname: str = ""
    cautions: tuple[str, ...] = ()


def odds_bars(bars: Sequence[Bar], total: int | None = None, most: int = MOST_BARS) -> dict[str, Any]:
    """Horizontal bars, likeliest first, at most `most`; what is left out is counted beneath.

    What comes nearest to the target always has a bar, if need be in place of the last one.

    total: how many outcomes there are, if `bars` is only the likeliest of them.
    """
    shown = _chosen(bars, most)
    left = (len(bars) if total is None else total) - len(shown)
    places = list(range(len(shown)))
    top = max((float(bar.chance) for bar in shown), default=1.0)
    figure = go.Figure(
        go.Bar(
            orientation="h",
            x=[float(bar.chance) for bar in shown],
            y=places,
            width=0.62,
            marker={
                "color": [nearness_shade(bar.closeness) for bar in shown],
                "line": {"color": STRONG, "width": 1},
            },
            text=[percent(bar.chance) for bar in shown],
            textposition="outside",
            cliponaxis=False,
            hovertext=[_hover(bar) for bar in shown],
            hoverinfo="text",
        )
    )
    ticks = [_tick(bar) for bar in shown]
    longest = max((len(line) for tick in ticks for line in tick.split("<br>")), default=0)
    figure.update_layout(
        margin={"l": longest * LETTER + 16, "r": 12, "t": 4, "b": EDGE - 4 if left > 0 else 4},
        xaxis={"visible": False, "range": [0, top * 1.22], "fixedrange": True},
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
        place = {"xref": "paper", "yref": "paper", "x": 0, "y": 0, "xanchor": "left", "yanchor": "top", "yshift": -6}
        words = f"and {left:,} more"
        figure.add_annotation(text=words, showarrow=False, font={"color": FAINT}, **place)
    return plain(figure, height=max(2, len(shown)) * ROW_HEIGHT + EDGE)


def odds_in_words(bars: Sequence[Bar], total: int | None = None, most: int = MOST_BARS) -> str:
    """The same bars as text, for those who do not see the chart."""
    shown = _chosen(bars, most)
    left = (len(bars) if total is None else total) - len(shown)
    lines = [f"{bar.label}: {percent(bar.chance)}, {one_in(bar.chance)}" for bar in shown]
    return "; ".join([*lines, *([f"and {left:,} more"] if left > 0 else [])]) or "nothing can hatch"


def _chosen(bars: Sequence[Bar], most: int) -> list[Bar]:
    """The bars to draw: likeliest first, and of those alike the nearest to the target first."""
    ordered = sorted(bars, key=lambda bar: (-bar.chance, -bar.closeness))
    shown = ordered[:most]
    near = max(ordered, key=lambda bar: bar.closeness, default=None)
    if near is not None and shown and near.closeness > max(bar.closeness for bar in shown):
        shown[-1] = near
    return shown


def _tick(bar: Bar) -> str:
    mark = " [caution]" if bar.cautions else ""
    return wrapped(f"{bar.label}{mark}", LABEL_WIDTH, LABEL_LINES)


def _hover(bar: Bar) -> str:
    parts = [f"<b>{wrapped(bar.label, 60, 4)}</b>"]
    if bar.nickname:
        parts.append(f"also called {escape(bar.nickname, quote=False)}")
    parts.append(f"{one_in(bar.chance)} ({percent(bar.chance)})")
    parts.append(f"{percent(bar.closeness)} of the target")
    parts += [wrapped(f"caution: {text}", 60, 4) for text in bar.cautions]
    return "<br>".join(parts)
