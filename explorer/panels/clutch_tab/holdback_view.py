"""The hatchlings of a clutch, best first, each with a button that makes it an animal of the collection."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HTML, HBox, Layout, Text, VBox

from ...notation import capital
from ..guard import Guard
from ..markup import paragraph
from ..parts import button, show
from .holdback_model import HeldBack

__all__ = ["HeldBackRows"]


class HeldBackRows:
    """`root` is the widget. add: makes an animal of one of the hatchlings, with this id."""

    def __init__(self, guard: Guard, add: Callable[[HeldBack, str], None]) -> None:
        self._guard, self._add = guard, add
        self._lines: dict[tuple[str, str | None], _Line] = {}
        self.root = VBox()
        self.root.add_class("xp-held-back")

    def show(self, rows: tuple[HeldBack, ...]) -> None:
        """Shows these, in this order."""
        lines = []
        for one in rows:
            row = one.found.hatchling.row
            if (key := (row.look, row.sex)) not in self._lines:
                self._lines[key] = _Line(self._guard, self._add)
            line = self._lines[key]
            line.fill(one)
            lines.append(line)
        self.root.children = [line.root for line in lines]
        show(self.root, bool(rows))


class _Line:
    """One row; it is used again for the same look and sex, wherever that stands."""

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
        if self.one is None or self.id.value == self.one.id:
            self.id.value = one.id
        self.one = one
        place = f"{one.rank}. " if one.rank else ""
        reason = paragraph(f"{capital(one.reason)}.", "xp-quiet")
        reason += paragraph(f"{capital(one.step)}.", "xp-held-step") if one.step else ""
        cautions = "".join(paragraph(f"Caution: {text}", "xp-caution") for text in one.cautions)
        remarks = "".join(paragraph(text, "xp-caution") for text in one.remarks)
        self.said.value = paragraph(f"{place}{one.title}", "xp-held-title") + reason + cautions + remarks
