"""A field to type or choose a gene in: it lists the genes whose names or other names hold what is typed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget
import traitlets

__all__ = ["GeneField"]

HERE = Path(__file__).parent


class GeneField(anywidget.AnyWidget):
    """label: the field's name. options: dicts of name, also (other names in one text) and group (a heading); those of
    one group stand together. value: what stands in the field, chosen from the list or typed; taken: how often something
    was, also if it was the same again. empty: said in the field while nothing stands there.
    """

    _esm = HERE / "gene_field.js"
    _css = HERE / "gene_field.css"
    label = traitlets.Unicode("gene").tag(sync=True)
    options: traitlets.List[Any] = traitlets.List().tag(sync=True)
    value = traitlets.Unicode("").tag(sync=True)
    taken = traitlets.Int(0).tag(sync=True)
    empty = traitlets.Unicode("name of a gene").tag(sync=True)
    disabled = traitlets.Bool(False).tag(sync=True)

    def take(self, text: str) -> None:
        """As if this had been chosen."""
        with self.hold_trait_notifications():
            self.value = text
            self.taken += 1
