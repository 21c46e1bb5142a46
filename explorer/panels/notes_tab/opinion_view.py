"""The part of the Gene notes tab where a keeper writes what he or she sees otherwise; links widgets to the model."""

from __future__ import annotations

from ipywidgets import Dropdown, Layout, Text, VBox

from ...catalogue import Effect, Gene
from ..guard import Guard
from ..markup import items, paragraph
from ..parts import Problems, button, row, show, words
from .opinion_model import OpinionModel

__all__ = ["OpinionForm"]


class OpinionForm:
    """`root` is the widget. The form is about one gene at a time; the list beneath holds all opinions."""

    def __init__(self, model: OpinionModel, guard: Guard) -> None:
        self._model, self._guard = model, guard
        self._gene: Gene | None = None
        self.about, self.refused = words("xp-opinion-about"), words("xp-looks-refused")
        self.copies = _dropdown("copies", "190px")
        self.quality = _dropdown("what", "270px")
        self.value = _dropdown("as I see it", "310px")
        self.by, self.note = _text("my name", "170px"), _text("note", "330px")
        self.problems = Problems(guard, lambda offer: None)
        self.list = VBox()
        self.quality.options = list(model.qualities)
        self.quality.value = "white"
        self.quality.observe(guard(lambda change: self._fill_values()), "value")
        self._fill_values()
        take = button("write it down", "xp-opinion-take", guard, self._take)
        fields = [self.copies, self.quality, self.value, self.by, self.note, take]
        self.root = VBox([self.refused, self.about, row(fields), *self.problems.widgets, self.list])
        self.root.add_class("xp-opinions")

    def show(self, gene: Gene) -> None:
        """Asks about this gene, and lists what is written."""
        if gene != self._gene:
            self._gene = gene
            self.copies.options = list(self._model.copies(gene))
            self.copies.index = 0
            self.problems.show(())
        self.about.value = paragraph(f"What {gene.name} does, as you see it. It is written beside the collection.")
        refused = self._model.refused
        self.refused.value = paragraph(self._model.refused_remark) + items(refused, "xp-problem") if refused else ""
        show(self.refused, bool(refused))
        self.list.children = [self._line(text, one) for text, one in self._model.own]

    def _line(self, text: str, one: Effect) -> VBox:
        said = words("xp-opinion")
        said.value = paragraph(text)
        return row([said, button("take back", "xp-opinion-forget", self._guard, lambda: self._take_back(one))])

    def _fill_values(self) -> None:
        chosen = self.value.value
        with self.value.hold_sync():  # one message: a choice made on the page in between would be lost
            self.value.options = list(self._model.values(self.quality.value))
            self.value.value = 0 if chosen is None else chosen

    def _take(self) -> None:
        assert self._gene is not None
        said = (self.quality.value, self.value.value, self.by.value, self.note.value)
        wrong = self._model.write(self._gene.name, self.copies.value, *said)
        self._say(wrong)
        if not wrong:
            self.note.value = ""

    def _take_back(self, one: Effect) -> None:
        self._say(self._model.take_back(one))

    def _say(self, wrong: str) -> None:
        if wrong:
            self.problems.say(wrong)
        else:
            self.problems.show(())


def _dropdown(name: str, width: str) -> Dropdown:
    return Dropdown(description=name, layout=Layout(width=width), style={"description_width": "initial"})


def _text(name: str, width: str) -> Text:
    return Text(description=name, layout=Layout(width=width), style={"description_width": "initial"})
