"""The best ways to share out the males: each with its pairings, what it gives up, and who is left out."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HBox, Layout, VBox

from ..guard import Guard
from ..markup import items, paragraph
from ..parts import button, row, show, words
from ..table_view import TableView
from .season_model import SeasonModel
from .season_shares_model import PAIRINGS, WAYS

__all__ = ["SharesView"]


class SharesView:
    """`root` is the widget. taken: called when the way that is shown is to be the plan."""

    def __init__(self, model: SeasonModel, guard: Guard, taken: Callable[[], None]) -> None:
        self.shares = model.shares
        self.answer, self.problems, self.left_out = words("xp-shares-answer"), words("xp-shares-wrong"), words("xp-out")
        self.ways = TableView(caption="The best ways to share out the males", columns=list(WAYS), height=240)
        self.pairings = TableView(
            caption="The pairings of this way", columns=list(PAIRINGS), height=420, empty="no pairing brings anything"
        )
        for table, css in ((self.ways, "xp-ways"), (self.pairings, "xp-way-pairings")):
            table.add_class(css)
        self.ways.observe(guard(lambda change: self._choose(change.new)), "selected")
        self.take = button("take this allotment", "xp-take-way", guard, taken)
        self.take.button_style = "primary"
        close = button("close", "xp-close-ways", guard, self._close)
        left = VBox([self.ways, self.pairings], layout=Layout(flex="3 1 700px", min_width="0"))
        right = VBox([self.left_out], layout=Layout(flex="1 1 300px", min_width="0"))
        self.sides = HBox([left, right])
        self.sides.add_class("xp-sides")
        self.root = VBox([self.answer, self.problems, row([self.take, close]), self.sides])
        self.root.add_class("xp-box")
        self.root.add_class("xp-shares")

    def update(self) -> None:
        """Shows what was worked out last."""
        shares = self.shares
        show(self.root, shares.open)
        self.answer.value = paragraph(shares.answer, tag="h3") if shares.answer else ""
        stale = ("Something has changed since; press “share the males” again.",) if shares.stale else ()
        self.problems.value = items((*shares.problems, *stale), "xp-problem")
        show(self.problems, bool(shares.problems or stale))
        show(self.take, bool(shares.pairs) and not shares.stale)
        show(self.sides, shares.found is not None)
        for table in (self.ways, self.pairings):
            show(table, bool(shares.pairs))
        if self.ways.rows != shares.rows:
            self.ways.rows = shares.rows
        self.ways.selected = str(shares.chosen)
        self.pairings.rows = shares.pairing_rows
        out = shares.left_out
        head = paragraph("Left out, and why", tag="h4") if out else ""
        lines = "".join(f"{paragraph(who, tag='dt')}{paragraph(why, tag='dd')}" for who, why in out)
        scroll = '<div class="xp-out-scroll" role="region" aria-label="left out, and why" tabindex="0">'
        self.left_out.value = f"{head}{scroll}<dl>{lines}</dl></div>" if out else ""

    def _choose(self, number: str) -> None:
        if number and self.shares.found is not None and int(number) != self.shares.chosen:
            self.shares.chosen = int(number)
            self.update()

    def _close(self) -> None:
        self.shares.open = False
        self.update()
