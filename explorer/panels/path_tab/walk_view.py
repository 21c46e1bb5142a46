"""The drawing of a path: seasons from left to right, animals as boxes, pairings as pills between them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget
import traitlets

__all__ = ["WalkView"]

HERE = Path(__file__).parent


class WalkView(anywidget.AnyWidget):
    """nodes: dicts of id, label, lines (two or three texts), title (read aloud), x, y (any unit, y grows downward; the
    drawing stretches them to the room it has), kind ("animal", "hatchling", "pairing" or "target") and owned. edges:
    dicts of a and b (ids of nodes) and, if wanted, pts (from a to b by bends on the way, each [x, y]). columns: dicts
    of label, name (a second line, if wanted) and x, or x0 and x1; what stands left of x (or x1) belongs to the column.
    selected: id of the chosen node, "" for none. highlight: ids of the nodes of the season in hand.
    """

    _esm = HERE / "walk_view.js"
    _css = HERE / "walk_view.css"
    label = traitlets.Unicode("The walk, season by season").tag(sync=True)
    nodes: traitlets.List[Any] = traitlets.List().tag(sync=True)
    edges: traitlets.List[Any] = traitlets.List().tag(sync=True)
    columns: traitlets.List[Any] = traitlets.List().tag(sync=True)
    selected = traitlets.Unicode("").tag(sync=True)
    highlight = traitlets.List(traitlets.Unicode()).tag(sync=True)
