"""The fold of the Collection tab in which a keeper sets figures of their own."""

from __future__ import annotations

from ipywidgets import GridBox, Layout, Text, VBox

from ..desk import Desk
from ..fold import Fold
from ..guard import Guard
from ..markup import items, paragraph
from ..parts import button, row, show, words
from .figures_model import FigureField, FiguresModel

__all__ = ["Figures"]

HINT = "These count in every tab. Empty a field to go back to the catalogue's figure."


class Figures:
    """`root` is the fold."""

    def __init__(self, desk: Desk, guard: Guard) -> None:
        self.model = FiguresModel(desk)
        self.texts = {field.name: _field(field) for field in self.model.fields}
        self._counted = {name: text.value for name, text in self.texts.items()}
        self.notes = {name: words("xp-quiet") for name in self.texts}
        cells = [cell for name in self.texts for cell in (self.texts[name], self.notes[name])]
        grid = GridBox(cells, layout=Layout(grid_template_columns="430px 1fr", grid_gap="2px 16px"))
        self.said = words("xp-figures-said")
        take = button("use these figures", "xp-figures-take", guard, self._take)
        self.again = button("read the figures again", "xp-figures-again", guard, self._read_again)
        hint = words("xp-hint")
        hint.value = paragraph(HINT, "xp-quiet")
        inside = [hint, grid, row([take, self.again, self.said])]
        self.root = Fold("your figures: weights, waits, rest, clutches", [VBox(inside)], guard, "xp-figures")
        self.root.filled = self.update

    def update(self) -> None:
        """Shows the figures as they count now; what is typed and not used yet stays typed."""
        if not self.root.opened:
            return
        for field in self.model.fields:
            if self.texts[field.name].value == self._counted[field.name]:
                self.texts[field.name].value = field.text
            self._counted[field.name] = field.text
            mine = "your own; the catalogue has " if field.own else ""
            self.notes[field.name].value = paragraph(mine + field.default)
        self._say()

    def _say(self) -> None:
        model = self.model
        show(self.again, model.conflict)
        self.said.value = items(model.problems, "xp-problem") if model.problems else paragraph(model.said, "xp-good")

    def _read_again(self) -> None:
        self.model.read_again()
        self._fill()

    def _take(self) -> None:
        if self.model.take({name: text.value for name, text in self.texts.items()}):
            self._fill()
        self._say()

    def _fill(self) -> None:
        self._counted = {name: text.value for name, text in self.texts.items()}
        self.update()


def _field(field: FigureField) -> Text:
    made = Text(description=field.words, style={"description_width": "320px"}, layout=Layout(width="420px"))
    made.add_class(f"xp-figure-{field.name}")
    return made
