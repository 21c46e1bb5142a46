"""The part of the Pairing tab that ranks this season's pairings: links the widgets to the model."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import VBox

from ...collection import Animal
from ...pairing import Promise
from ..background import JobBar
from ..guard import Guard
from ..markup import paragraph
from ..parts import button, show, words
from ..table_view import TableView
from .ranking_model import RankedPairings

__all__ = ["Ranking"]


class Ranking:
    """`root` is the widget."""

    def __init__(self, model: RankedPairings, guard: Guard, choose: Callable[[str, str], None]) -> None:
        """choose: shows the pairing of this dam and this sire."""
        self._model, self._guard, self._choose = model, guard, choose
        self._summary, self._bar = words("xp-ranking"), JobBar()
        self._table = TableView(caption="This season's pairings, by your taste", columns=list(RankedPairings.columns))
        self._table.height = 260
        self._table.add_class("xp-ranks")
        self._table.observe(guard(lambda change: self._chosen(change.new)), "selected")
        rank = button("rank this season's pairings by your taste", "xp-rank", guard, self._rank)
        self.root = VBox([rank, self._bar, self._summary, self._table])
        self.root.add_class("xp-ranking-box")
        self.update()

    def update(self) -> None:
        """Shows the ranking as it is now, marked as old if it is."""
        self._summary.value = paragraph(self._model.summary)
        show(self._table, bool(self._model.found))

    def _rank(self) -> None:
        self._bar.start(self._model.work(), self._guard(self._found), self._guard(self._failed), "looking at pairings")

    def _found(self, found: list[tuple[Animal, Animal, Promise]]) -> None:
        self._model.take(found)
        self._table.selected, self._table.rows = "", self._model.rows
        self.update()

    def _failed(self, error: Exception) -> None:
        raise error

    def _chosen(self, row: str) -> None:
        if row and self._model.found:
            dam, sire, _ = self._model.found[int(row)]
            self._choose(dam.id, sire.id)
