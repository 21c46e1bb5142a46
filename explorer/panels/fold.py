"""A part of a panel that opens and closes under a button with its name."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ipywidgets import VBox, Widget

from .guard import Guard
from .parts import button, show

__all__ = ["Fold"]


class Fold(VBox):  # type: ignore[misc]
    """opened: whether what is inside is shown; the button says so. filled: called when it was opened."""

    def __init__(self, name: str, inside: Sequence[Widget], guard: Guard, css: str, opened: bool = False) -> None:
        """name: what is inside."""
        self._name, self._inside, self.opened = name, VBox(inside), opened
        self.filled: Callable[[], None] = lambda: None
        self._button = button("", "xp-fold", guard, self._turn)
        super().__init__([self._button, self._inside])
        self.add_class(css)
        show(self._inside, opened)
        self.rename(name)

    def _turn(self) -> None:
        self.opened = not self.opened
        show(self._inside, self.opened)
        self.rename(self._name)
        if self.opened:
            self.filled()

    def rename(self, name: str) -> None:
        """Says otherwise what is inside."""
        self._name = name
        self._button.description = f"{'▾' if self.opened else '▸'} {name}"
