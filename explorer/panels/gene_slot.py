"""One of several genes that are set side by side: its name, its copies, and a button that takes it out."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HBox, ToggleButtons

from .guard import Guard
from .markup import paragraph
from .parts import button, show, words

__all__ = ["GeneSlot"]

COPIES = (("one copy", 1), ("two copies", 2))


class GeneSlot:
    """`root` is the widget. gene: its name, "" while the place is empty."""

    def __init__(self, guard: Guard, take_out: Callable[[str], None], copies: Callable[[str, int], None]) -> None:
        self.gene = ""
        self.name = words("xp-slot-name")
        self.copies = ToggleButtons(options=list(COPIES), style={"button_width": "auto"})
        self.copies.observe(guard(lambda change: copies(self.gene, change.new)), "value")
        self.out = button("take out", "xp-slot-out", guard, lambda: take_out(self.gene))
        self.root = HBox([self.name, self.copies, self.out])
        self.root.add_class("xp-notes-slot")

    def show(self, gene: str, copies: int, offered: bool) -> None:
        """This gene with its copies; "" for none."""
        self.gene = gene
        show(self.root, bool(gene))
        show(self.copies, offered)
        self.name.value = paragraph(gene)
        self.out.tooltip = f"take out {gene}"
        if gene and offered:
            self.copies.value = copies
