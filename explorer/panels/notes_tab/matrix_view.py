"""The square of genes, who helps whom: a grid whose cells can be clicked, or walked with the arrow keys."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget
import traitlets

__all__ = ["MatrixView"]

HERE = Path(__file__).parent


class MatrixView(anywidget.AnyWidget):
    """genes: names of the rows and columns. cells: a row a gene, in it a dict a gene of sign, word, shade and title
    (read aloud), or None on the diagonal. legend: [sign, shade, meaning] each. caption: what the grid is. summary: the
    whole in words, for who does not see it. selected: the two genes of the chosen cell, or nothing.
    """

    _esm = HERE / "matrix_view.js"
    _css = HERE / "matrix_view.css"
    caption = traitlets.Unicode("Who helps whom").tag(sync=True)
    summary = traitlets.Unicode("").tag(sync=True)
    genes = traitlets.List(traitlets.Unicode()).tag(sync=True)
    cells: traitlets.List[Any] = traitlets.List().tag(sync=True)
    legend: traitlets.List[Any] = traitlets.List().tag(sync=True)
    selected = traitlets.List(traitlets.Unicode()).tag(sync=True)
