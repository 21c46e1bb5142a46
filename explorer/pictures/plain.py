"""From a plotly figure to a plain dict, without its defaults and without anything that leaves this computer."""

from __future__ import annotations

import json
from typing import Any

import plotly.graph_objects as go
import plotly.io

from .palette import INK, PAPER

__all__ = ["plain"]

CONFIG = {"showSendToCloud": False, "displaylogo": False, "displayModeBar": False}
FONT = {"family": "system-ui, -apple-system, 'Segoe UI', 'DejaVu Sans', sans-serif", "size": 14, "color": INK}


def plain(figure: go.Figure, *, height: int) -> dict[str, Any]:
    """The figure as data, layout and config. It takes the width that it is given; height is in pixels."""
    figure.update_layout(
        template="none",
        height=height,
        autosize=True,
        font=FONT,
        paper_bgcolor=PAPER,
        plot_bgcolor=PAPER,
        showlegend=False,
        dragmode=False,
        hoverlabel={"bgcolor": PAPER, "bordercolor": INK, "font": FONT, "align": "left"},
    )
    spec: dict[str, Any] = json.loads(plotly.io.to_json(figure, validate=False))
    spec["config"] = dict(CONFIG)
    return spec
