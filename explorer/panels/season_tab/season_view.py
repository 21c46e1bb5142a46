"""The Season tab: links the widgets to the model."""

from __future__ import annotations

from ipywidgets import HTML, Button, Layout, VBox

from ...pictures.season_band import season_bands
from ...planner import Allotments
from ..background import JobBar
from ..desk import Desk
from ..file_link import FileLink
from ..fold import Fold
from ..guard import Guard
from ..markup import items, paragraph
from ..offers import Problem
from ..parts import Problems, button, row, show, words
from ..table_view import TableView
from .season_diary_view import DiaryView
from .season_model import TABLE, SeasonModel
from .season_options import SeasonOptions, animal_picker, fill_picker
from .season_shares_view import SharesView

__all__ = ["SeasonPanel"]

WIDTH = 1180
"""Units of the drawing, about the pixels that it takes."""

STYLE = """
.xp-season-tab { gap: 4px }
.xp-workbench .xp-season-tab .xp-said p, .xp-workbench .xp-season-tab .xp-row p { margin: 0 }
.xp-season-tab .xp-row .xp-said { height: auto; margin: 2px }
.xp-season-tab .xp-pairings .xp-table-top, .xp-season-tab .xp-shares .xp-table-top { display: none }
.xp-season-tab :is(.widget-text, .widget-dropdown, .widget-datepicker, .widget-inline-hbox) > label { width: auto;
  margin-right: 8px }
.xp-season-tab .xp-box { margin: 4px 0 }
.xp-season-tab .xp-table :is([data-key="dam"], [data-key="sire"]) { min-width: 84px }
.xp-season-tab .widget-dropdown > select { min-width: 0 }
.xp-pairing-form .xp-row { flex-wrap: nowrap }
.xp-season-tab .widget-datepicker > input { font: inherit }
.xp-season-tab .xp-fold-box { padding: 4px 0 }
.xp-out-scroll { max-height: 560px; overflow: auto }
.xp-season-tab .xp-out dl { margin: 0 }
.xp-workbench .xp-season-tab .xp-out dt { float: none; width: auto; font-weight: 600 }
.xp-workbench .xp-season-tab .xp-out dd { float: none; width: auto; margin: 0 0 6px }
.xp-season-tab .xp-bands svg { max-width: 1300px; display: block }
.xp-diary-entries { gap: 2px }
.xp-diary-entries > .xp-row > .widget-html { min-width: 250px }
.xp-workbench .xp-season-tab .xp-pairing-head h4 { margin: 10px 0 2px }
.xp-diary-about dl { display: grid; grid-template-columns: auto 1fr; gap: 3px 12px; margin: 6px 0 10px }
.xp-workbench .xp-diary-about dt { float: none; width: auto; font-weight: 400; color: var(--xp-quiet);
  white-space: nowrap }
.xp-workbench .xp-diary-about dd { float: none; width: auto; margin: 0 }
.xp-season-tab .xp-diary-days .xp-changed :is(td, th) { font-weight: 400; font-size: 13px; padding: 2px 8px }
"""


class SeasonPanel:
    """`root` is the panel."""

    def __init__(self, desk: Desk) -> None:
        self.desk, self.model, self.guard = desk, SeasonModel(desk), Guard("Season")
        self.headline, self.meaning, self.said = words("xp-headline"), words("xp-quiet"), words("xp-said")
        self.remarks = words("xp-remarks")
        self.share = button("share the males", "xp-share", self.guard, self._share)
        self.share.button_style = "primary"
        self.print = button("sheet to print", "xp-season-sheet", self.guard, lambda: self._do(self.model.write_sheet()))
        self.calendar = button(
            "calendar file", "xp-season-calendar", self.guard, lambda: self._do(self.model.write_calendar())
        )
        self.undo = button("undo", "xp-undo", self.guard, lambda: self._do(self.model.plan.undo()))
        self.again, self.form_again = self._again(), self._again()
        self.sheet_link = FileLink(label="Open the sheet to print it", layout=Layout(width="auto"))
        self.file_link = FileLink(label="Save the calendar file", kind="text/calendar;charset=utf-8")
        self.came_of_it = row([self.said, self.sheet_link, self.file_link])
        self.job, self.problems = JobBar(), Problems(self.guard, lambda offer: None)
        self.refused = Problems(self.guard, lambda offer: None)
        self.allow = row([])
        self.options = SeasonOptions(self.model, self.guard, self.update)
        self.fold = Fold("how to share them", self.options.inside, self.guard, "xp-fold-box")
        self.shares = SharesView(self.model, self.guard, self._take)
        self.table = TableView(caption="The pairings of this season", columns=list(TABLE), height=330)
        self.table.empty = "no pairings yet"
        self.table.add_class("xp-pairings")
        self.table.observe(self.guard(lambda change: self._choose(change.new)), "selected")
        self.bands = words("xp-bands")
        self.diary = DiaryView(self.model, self.guard, self._done, self._again())
        self.body = VBox([self.shares.root, self.table, self._form(), self.diary.root, self.bands])
        self.root = VBox(
            [
                HTML(f"<style>{STYLE}</style>", layout=Layout(display="none")),
                self.guard.message,
                self.headline,
                self.meaning,
                self.remarks,
                row([self.share, self.print, self.calendar, self.undo, self.again]),
                self.came_of_it,
                *self.problems.widgets,
                self.job,
                self.fold,
                self.body,
            ]
        )
        self.root.add_class("xp-season-tab")
        for topic in ("animals", "season", "target"):
            desk.listen(topic, self._refresh)
        show(self.form_again, False)
        self.diary.clear()
        self._refresh()

    def _again(self) -> Button:
        """One of those that stand where something could not be written since the log's file was changed."""
        return button("read it again", "xp-read-again", self.guard, self._read_again)

    def _form(self) -> VBox:
        self.dam, self.sire = animal_picker("dam"), animal_picker("sire")
        self.second = animal_picker("sire", "second choice")
        write = button("write this pairing", "xp-write-pairing", self.guard, self._write)
        out = button("take it out", "xp-pairing-out", self.guard, self._take_out)
        head = words("xp-pairing-head")
        head.value = paragraph("A pairing of your own choice", tag="h4")
        inside = [head, row([self.dam, self.sire, self.second, write, out]), *self.refused.widgets, self.form_again]
        form = VBox([*inside, self.allow])
        form.add_class("xp-pairing-form")
        return form

    def _refresh(self) -> None:
        """Takes up what changed on the desk."""
        self.model.refresh()
        self.options.update()
        self._fill_form()
        self.update()

    def update(self) -> None:
        """Shows the model as it is now."""
        model, plan = self.model, self.model.plan
        self.headline.value = paragraph(model.headline)
        self.meaning.value = paragraph(model.meaning, "xp-quiet") if model.meaning else ""
        told = [str(finding) for finding in model.findings] or list(model.remarks)
        self.remarks.value = items(told, "xp-problem")
        self.said.value = paragraph(plan.said, "xp-good") if plan.said else ""
        self.sheet_link.content = model.page
        self.file_link.content, self.file_link.name = model.calendar, model.pages.calendar_path.name
        self.undo.description = f"undo {plan.undoable}"
        counted, blocked = bool(model.standings.counted), bool(model.blocker)
        for one, shown in (
            (self.meaning, bool(model.meaning)),
            (self.remarks, bool(told)),
            (self.came_of_it, bool(plan.said)),
            (self.allow, bool(plan.to_allow)),
            (self.share, not blocked),
            (self.print, counted),
            (self.calendar, counted),
            (self.undo, bool(plan.undoable)),
            (self.again, blocked and self.desk.animals is not None),
            (self.sheet_link, bool(model.page)),
            (self.file_link, bool(model.calendar)),
            (self.fold, not blocked),
            (self.body, not blocked),
            (self.table, bool(model.rows)),
        ):
            show(one, shown)
        self.allow.children = [
            button(f"allow {gene} in plans", "xp-allow-gene", self.guard, lambda gene=gene: self._allow(gene))  # type: ignore[misc]
            for gene in plan.to_allow
        ]
        if blocked:
            return
        if self.table.rows != model.rows:
            self.table.rows = model.rows
        self.table.selected = model.diary.dam
        bands = season_bands(model.pages.bands, self.desk.now, width=WIDTH)
        self.bands.value = bands
        show(self.bands, bool(bands))
        self.shares.update()
        self.diary.update()

    def _fill_form(self) -> None:
        dam, sire, second = self.model.begin_with
        fill_picker(self.dam, "dam", self.model, dam)
        fill_picker(self.sire, "sire", self.model, sire)
        fill_picker(self.second, "sire", self.model, second, "nobody")

    def _share(self) -> None:
        self.problems.show(self.model.wishes.problems)
        begun, given_up = self.model.standings.begun, self.model.standings.given_up
        work = self.model.shares.begin(begun, given_up)
        self.job.start(work, self.guard(self._found), self.guard(self._failed), "sharing out the males")

    def _found(self, found: Allotments) -> None:
        self.model.shares.take(found)
        self.update()

    def _failed(self, error: Exception) -> None:
        try:
            self.model.shares.failed(error)
        finally:
            self.update()

    def _take(self) -> None:
        problems = self.model.plan.take(self.model.shares.pairs)
        self.model.shares.open = bool(problems)
        self._do(problems)

    def _choose(self, dam: str) -> None:
        if dam and dam != self.model.diary.dam:
            self.model.diary.dam, self.model.plan.said = dam, ""
            self._fill_form()
            self._do(())

    def _write(self) -> None:
        dam = self.dam.value
        problems = self.model.plan.write(dam, self.sire.value, self.second.value)
        if not problems:
            self.model.diary.dam = dam
        self._done()
        self._refuse(problems)

    def _take_out(self) -> None:
        problems = self.model.plan.take_out(self.dam.value)
        self._done()
        self._refuse(problems)

    def _refuse(self, problems: tuple[Problem, ...]) -> None:
        self.refused.show(problems)
        show(self.form_again, self.model.plan.conflict)

    def _read_again(self) -> None:
        self.model.plan.read_again()
        self._do(())

    def _allow(self, gene: str) -> None:
        self.model.allow(gene, True)
        self._do(())

    def _do(self, problems: tuple[Problem, ...]) -> None:
        self._done()
        self.problems.show(problems)
        show(self.again, self.model.plan.conflict or (bool(self.model.blocker) and self.desk.animals is not None))

    def _done(self) -> None:
        """Shows everything anew after something was tried; what was wrong before is gone."""
        self.problems.show(())
        self.refused.show(())
        show(self.form_again, False)
        self.diary.clear()
        self.options.update()
        self.update()
