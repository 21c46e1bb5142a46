"""The hatchlings of a clutch, best first, each with a button that makes it an animal of the collection."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HTML, HBox, Layout, Text, VBox

from .guard import Guard
from .holdback_model import HeldBack
from .markup import paragraph
from .parts import button, show

__all__ = ["HeldBackRows"]


class HeldBackRows:
    """`root` is the widget. add: makes an animal of one of the hatchlings, with this id."""

    def __init__(self, guard: Guard, add: Callable[[HeldBack, str], None]) -> None:
        self._guard, self._add = guard, add
        self._lines: list[_Line] = []
        self.root = VBox()
        self.root.add_class("xp-held-back")

    def show(self, rows: tuple[HeldBack, ...]) -> None:
        """Shows these, in this order."""
        while len(self._lines) < len(rows):
            self._lines.append(_Line(self._guard, self._add))
        for line, one in zip(self._lines, rows, strict=False):
            line.fill(one)
        self.root.children = [line.root for line in self._lines[: len(rows)]]
        show(self.root, bool(rows))


class _Line:
    """One row; it is used again for whatever stands in its place."""

    def __init__(self, guard: Guard, add: Callable[[HeldBack, str], None]) -> None:
        self._add = add
        self.one: HeldBack | None = None
        self.said = HTML(layout=Layout(flex="1 1 600px", min_width="0"))
        self.id = Text(description="as", layout=Layout(width="120px"))
        self.id.add_class("xp-held-id")
        take = button("add to the collection", "xp-hold", guard, self._take)
        self.root = HBox([self.said, self.id, take])
        self.root.add_class("xp-held-line")

    def _take(self) -> None:
        if self.one is not None:
            self._add(self.one, self.id.value)

    def fill(self, one: HeldBack) -> None:
        self.one = one
        self.id.value = one.id
        place = f"{one.rank}. " if one.rank else ""
        reason = paragraph(f"{one.reason}.", "xp-quiet")
        cautions = "".join(paragraph(f"Caution: {text}", "xp-caution") for text in one.cautions)
        remarks = "".join(paragraph(text, "xp-caution") for text in one.remarks)
        self.said.value = paragraph(f"{place}{one.title}", "xp-held-title") + reason + cautions + remarks
