"""The Clutch book tab: links the widgets to the model."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ipywidgets import HTML, HBox, Layout, VBox

from ..background import JobBar, Progress
from ..desk import Desk
from ..file_link import FileLink
from ..guard import Guard
from ..markup import items, paragraph
from ..offers import Problem
from ..parts import Problems, button, row, show, words
from ..table_view import TableView
from .clutch_form import ClutchForm
from .clutch_model import TABLE, ClutchModel
from .holdback_model import Found, HeldBack, Planned
from .holdback_view import HeldBackRows

__all__ = ["ClutchPanel"]

Work = Callable[[Progress], Any]

STYLE = """
.xp-clutch-form { gap: 6px }
.xp-workbench .xp-other-look label { width: auto; margin-right: 8px }
.xp-clutch-fields > .widget-text { flex-direction: column; align-items: stretch; height: auto }
.xp-clutch-fields > .widget-text > label { width: auto; height: 22px; line-height: 22px; text-align: left;
  margin: 0 }
.xp-clutch-fields > .widget-text > input { flex: none; width: auto }
.xp-clutch-parents { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 4px 20px; margin: 0 0 6px;
  align-items: start }
.xp-clutch-parents .widget-dropdown label { width: auto; margin-right: 8px; font-weight: 600 }
.xp-clutch-parents > .widget-vbox, .xp-clutch-parents .widget-vbox .widget-vbox { gap: 4px }
.xp-clutch-form .xp-wrong :is(input, select), .xp-clutch-form select.xp-wrong { border-color: var(--xp-warn) !important;
  box-shadow: inset 0 0 0 1px var(--xp-warn) }
.xp-clutch-form .xp-wrong label { color: var(--xp-warn) }
.xp-workbench .xp-clutch-tab .xp-said p { margin: 0 }
.xp-clutch-tab .xp-row .xp-said { height: auto; margin: 2px }
.xp-workbench .xp-clutch-tab h3.xp-advice-title { margin: 18px 0 2px }
.xp-held-line { align-items: flex-start; gap: 8px; padding: 6px 0; border-bottom: 1px solid var(--jp-border-color2) }
.xp-held-line .xp-held-id label { width: auto; margin-right: 6px }
.xp-workbench .xp-held-line p { margin: 0 }
.xp-workbench .xp-held-title { font-weight: 600 }
.xp-changed { border-collapse: collapse; font-size: 14px; width: 100% }
.xp-changed :is(th, td) { padding: 3px 10px; text-align: left; vertical-align: top; font-weight: 400;
  border-bottom: 1px solid var(--jp-border-color2) }
.xp-changed thead th { font-weight: 600 }
.xp-changed td:last-child { font-weight: 600 }
.xp-changed-scroll { max-height: 260px; overflow: auto }
"""


class ClutchPanel:
    """`root` is the panel."""

    def __init__(self, desk: Desk) -> None:
        self.desk, self.model, self.guard = desk, ClutchModel(desk), Guard("Clutch book")
        self.headline, self.said, self.remarks = words("xp-headline"), words("xp-said"), words("xp-book-findings")
        self.new = button("new clutch", "xp-new-clutch", self.guard, lambda: self._begin(""))
        self.new.button_style = "primary"
        self.again = button("read it again", "xp-read-again", self.guard, self._read_again)
        self.change = button("change this clutch", "xp-change-clutch", self.guard, self._change)
        self.out = button("take it out", "xp-clutch-out", self.guard, lambda: self._do(self.model.take_out()))
        self.list = button("list for a buyer", "xp-buyer-list", self.guard, lambda: self._do(self.model.write_list()))
        self.undo = button("undo", "xp-undo", self.guard, lambda: self._do(self.model.undo()))
        self.keep = button("save the collection", "xp-keep", self.guard, lambda: self._do(self.model.save_collection()))
        self.sheet = FileLink(label="Open the list to print it", layout=Layout(width="auto"))
        self.buttons = row([self.new, self.undo, self.change, self.out, self.list, self.keep, self.again])
        self.came_of_it = row([self.said, self.sheet])
        self.problems = Problems(self.guard, lambda offer: None)
        self.table = TableView(caption="The clutches of this book", columns=list(TABLE), empty="no clutches yet")
        self.table.layout, self.table.height = Layout(flex="1 1 520px", min_width="0"), 260
        self.table.add_class("xp-clutches")
        self.table.observe(self.guard(lambda change: self._choose(change.new)), "selected")
        self.told = words("xp-told")
        side = VBox([self.told], layout=Layout(flex="1 1 480px", min_width="0"))
        side.add_class("xp-box")
        self.advice, self.kept = words("xp-advice"), words("xp-kept")
        self.held = HeldBackRows(self.guard, self._add)
        sides = HBox([self.table, side])
        sides.add_class("xp-sides")
        self.job = JobBar()
        self._asked: object = None
        self.body = VBox([sides, self.advice, self.held.root, self.job, self.kept])
        self.form = ClutchForm(self.model, self.guard, self._show_headline, self.update)
        style = HTML(f"<style>{STYLE}</style>", layout=Layout(display="none"))
        top = [style, self.guard.message, self.buttons, self.came_of_it]
        self.root = VBox([*top, *self.problems.widgets, self.headline, self.remarks, self.body, self.form.root])
        self.root.add_class("xp-clutch-tab")
        for topic in ("animals", "season", "target", "looks"):
            desk.listen(topic, self._refresh)
        self.update()

    def _refresh(self) -> None:
        """Takes up what changed on the desk."""
        self.model.refresh()
        if self.model.editing:
            self.form.refresh()
        self.update()

    def update(self) -> None:
        """Shows the model as it is now."""
        model, editing = self.model, self.model.editing
        self._show_headline()
        self.said.value = paragraph(model.said, "xp-good") if model.said else ""
        self.sheet.content = model.page
        show(self.sheet, bool(model.page))
        show(self.came_of_it, bool(model.said) and not editing)
        chosen = model.clutch is not None and not editing
        if chosen:
            self._show_clutch()
        for one, shown in (
            (self.new, not model.blocker and not editing),
            (self.change, chosen),
            (self.out, chosen),
            (self.list, chosen and bool(model.clutch and model.clutch.hatchlings)),
            (self.undo, bool(self.desk.undoable) and not editing),
            (self.keep, self.desk.unsaved and not editing),
            (self.again, bool(self.desk.book_refused) or model.conflict),
            (self.buttons, not editing or model.conflict),
            (self.body, chosen),
            (self.form.root, editing),
        ):
            show(one, shown)
        self.undo.description = f"undo {self.desk.undoable}"
        self.remarks.value = items(model.remarks, "xp-problem" if model.blocker else "xp-quiet")
        show(self.remarks, bool(model.remarks) and not editing)

    def _show_headline(self) -> None:
        self.headline.value = paragraph(self.model.headline)

    def _show_clutch(self) -> None:
        model = self.model
        if self.table.rows != model.rows:
            self.table.rows = model.rows
        self.table.selected = model.chosen
        self.told.value = _told(model)
        hold = model.hold
        self.advice.value = paragraph(hold.advice, "xp-advice-title", "h3") if hold.advice else ""
        if hold.slow:
            self._ask(hold.state, hold.work, self._found, "working out what each hatchling carries")
        elif hold.unplanned:
            self._ask(hold.plan_state, hold.plan, self._planned, "looking for the best path")
        self.held.show(() if hold.slow else hold.rows)
        self.kept.value = paragraph(hold.kept) if hold.kept else ""

    def _ask(self, state: object, work: Callable[[], Work], done: Callable[[Any], None], words: str) -> None:
        """Works something out in the background, once for each state of things; who stopped it is not asked again."""
        if self._asked != state:
            self._asked = state
            self.job.start(work(), self.guard(done), self.guard(self._failed), words)

    def _found(self, found: Found) -> None:
        self.model.hold.take(found)
        self.update()

    def _planned(self, planned: Planned) -> None:
        self.model.hold.take_plan(planned)
        self.update()

    def _failed(self, error: Exception) -> None:
        raise error

    def _choose(self, key: str) -> None:
        if key and key != self.model.chosen:
            self.model.choose(key)
            self.problems.show(())
            self.update()

    def _begin(self, key: str) -> None:
        self.model.begin(key)
        self.problems.show(())
        self.form.fill()
        self.update()
        self.form.focus()

    def _change(self) -> None:
        self._begin(self.model.chosen)

    def _add(self, one: HeldBack, key: str) -> None:
        self._do(self.model.add(one, key))

    def _do(self, problems: tuple[Problem, ...]) -> None:
        self.problems.show(problems)
        self.update()

    def _read_again(self) -> None:
        self.model.conflict = False
        self.desk.read_book_again()


def _told(model: ClutchModel) -> str:
    clutch = paragraph(f"What {model.chosen} tells", tag="h3")
    disputes = items(model.disputes, "xp-caution")
    paternity = paragraph(model.paternity) if model.paternity else ""
    if not model.changes:
        return clutch + disputes + paternity + paragraph("Nobody changed.", "xp-quiet")
    head = "".join(paragraph(name, tag="th") for name in ("animal", "before", "after"))
    rows = "".join(
        f"<tr>{paragraph(who, tag='th')}{paragraph(before, tag='td')}{paragraph(after, tag='td')}</tr>"
        for who, before, after in model.change_rows
    )
    table = f'<table class="xp-changed"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>'
    scroll = f'<div class="xp-changed-scroll" role="region" aria-label="who changed" tabindex="0">{table}</div>'
    return clutch + disputes + paternity + scroll
