"""The grid of males and females: cells and names that can be clicked, or walked with the arrow keys."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget
import traitlets

__all__ = ["LineUpGridView"]

HERE = Path(__file__).parent


class LineUpGridView(anywidget.AnyWidget):
    """rows, columns: dicts of id, label, word ("" for none) and title (read aloud). cells: a row of dicts a row, each
    of text, word, marks (names, with spaces between), title, shade, ink, and none (whether its number is 0). legend:
    dicts of words, with marks, or with the ends of a ramp (from, to) and what stands at its other end (then). summary:
    the whole in words, for who does not see it. alone: id of the animal that stands alone; ticked: ids of those that
    are ticked beside it. picked: what was chosen last, ids of a row and a column, or of one of them; it is for Python
    to empty it again.
    """

    _esm = HERE / "line_up_grid_view.js"
    _css = HERE / "line_up_grid_view.css"
    caption = traitlets.Unicode("Every male beside every female").tag(sync=True)
    summary = traitlets.Unicode("").tag(sync=True)
    rows: traitlets.List[Any] = traitlets.List().tag(sync=True)
    columns: traitlets.List[Any] = traitlets.List().tag(sync=True)
    cells: traitlets.List[Any] = traitlets.List().tag(sync=True)
    legend: traitlets.List[Any] = traitlets.List().tag(sync=True)
    alone = traitlets.Unicode("").tag(sync=True)
    ticked = traitlets.List(traitlets.Unicode()).tag(sync=True)
    picked = traitlets.List(traitlets.Unicode()).tag(sync=True)
