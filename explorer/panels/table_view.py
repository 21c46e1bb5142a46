"""A table that can be sorted, searched and chosen from; a real HTML table, filled with plain text."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget
import traitlets

__all__ = ["TableView"]

HERE = Path(__file__).parent


class TableView(anywidget.AnyWidget):
    """columns: dicts of key, label and kind ("text"; "short": never broken; "lines": broken only where the text is;
    "number": to the right, sorted by size).

    rows: dicts of id (of the row, a text), a text for each column's key, and if wanted: order (column key -> value to
    sort by, where the text will not do; None comes last), mark ("not-ready" or "caution", a style; the word must stand
    in the row too), word (said beside the first cell), shades (column key -> colours of the cell's paper and
    ink). selected: id of the chosen row, "" for none. The first column
    names the row. caption: what the table is, for who cannot see it; set once. empty: said when there is no row.
    height: pixels, the most that the table takes before it scrolls; 0 for what the window allows. tick: name of the
    column in which rows can be ticked, "" for none; set once; choosing a row then ticks it, or takes its tick away.
    ticked: ids of the ticked rows, in the order of ticking.
    """

    _esm = HERE / "table_view.js"
    _css = HERE / "table_view.css"
    caption = traitlets.Unicode("Table").tag(sync=True)
    columns: traitlets.List[Any] = traitlets.List().tag(sync=True)
    rows: traitlets.List[Any] = traitlets.List().tag(sync=True)
    selected = traitlets.Unicode("").tag(sync=True)
    empty = traitlets.Unicode("no rows").tag(sync=True)
    height = traitlets.Int(0).tag(sync=True)
    tick = traitlets.Unicode("").tag(sync=True)
    ticked = traitlets.List(traitlets.Unicode()).tag(sync=True)
