"""Asks for another collection file."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HTML, Combobox, Layout, VBox

from ..guard import Guard
from ..markup import paragraph
from ..parts import button, row, show
from .collection_model import CollectionModel

__all__ = ["FileOpener"]


class FileOpener:
    """Asks for a file: by its path, or one of those that lie beside the open one."""

    def __init__(self, model: CollectionModel, guard: Guard, opened: Callable[[], None]) -> None:
        self.model, self.opened = model, opened
        self.path = Combobox(placeholder="/home/me/my_collection.csv", description="file", ensure_option=False)
        self.path.layout = Layout(width="600px", max_width="100%")
        self.path.style.description_width = "40px"
        self.path.add_class("xp-path")
        self.message = HTML()
        self.go = button("open", "xp-open-go", guard, self._open)
        self.go.button_style = "primary"
        close = button("cancel", "xp-open-cancel", guard, lambda: self.show(False))
        self.root = VBox([self.message, row([self.path, self.go, close])])
        self.root.add_class("xp-box")
        self.root.add_class("xp-opener")
        self.show(False)

    def show(self, shown: bool) -> None:
        show(self.root, shown)
        if shown:
            self.path.options = self.model.files
            unsaved = "There are unsaved changes; opening another file drops them. " if self.model.desk.unsaved else ""
            words = "Write the path of a CSV file. Those beside the open file are offered as you type."
            self.message.value = paragraph(unsaved + words, "xp-problem" if unsaved else "")

    def _open(self) -> None:
        if self.model.open(self.path.value):
            self.show(False)
        self.opened()
