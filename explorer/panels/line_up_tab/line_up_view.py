"""The Line-up tab: links the widgets to the model."""

from __future__ import annotations

from collections.abc import Iterable

from ipywidgets import HTML, Dropdown, HBox, Layout, Text, ToggleButtons, VBox

from ...pictures.line_up_beside import STYLE as BESIDE
from ...pictures.line_up_beside import side_by_side
from ..background import JobBar
from ..desk import Desk
from ..fold import Fold
from ..guard import Guard
from ..markup import paragraph
from ..parts import Problems, button, row, show, words
from ..path_tab.path_view import PathPanel
from ..table_view import TableView
from .line_up_aim import KINDS
from .line_up_beside_model import beside_caption, beside_looks, beside_pairings
from .line_up_grid_model import Pairs
from .line_up_grid_view import LineUpGridView
from .line_up_model import AGAINST, LineUpModel

__all__ = ["LineUpPanel"]

STYLE = """
.xp-line-up-tab .xp-alone { flex: 1 1 420px; width: auto; max-width: 560px; min-width: 0 }
.xp-workbench .xp-line-up-tab :is(.widget-text, .widget-dropdown, .widget-toggle-buttons) > label { width: auto;
  margin-right: 8px }
.xp-workbench .xp-line-up-tab .xp-alone label { font-weight: 600 }
.xp-workbench .xp-line-up-tab .xp-alone-search { width: 190px }
.xp-workbench .xp-line-up-tab .xp-look { width: 300px }
.xp-workbench .xp-line-up-tab .widget-toggle-buttons .jupyter-button.mod-active { background: var(--xp-soft);
  border-color: var(--xp-hue); font-weight: 600; box-shadow: none }
.xp-line-up-tab .widget-toggle-buttons .jupyter-button { padding: 0 10px }
.xp-line-up-tab .xp-grid-sentence p { margin: 0 0 6px; color: var(--xp-quiet) }
.xp-line-up-tab .widget-toggle-buttons { display: flex; align-items: center; width: auto }
.xp-line-up-tab .xp-line-up-grid { margin-bottom: 10px }
.xp-workbench .xp-line-up-grid > .xp-fold { margin-top: 2px }
.xp-line-up-tab .xp-mates table { table-layout: fixed }
.xp-line-up-tab .xp-mates :is(th, td) { padding: 5px 6px }
.xp-line-up-tab .xp-mates thead button { padding: 5px 6px; font-size: 12px; white-space: normal }
.xp-line-up-tab .xp-mates th.xp-table-tick { width: 30px; font-size: 12px; vertical-align: top;
  padding: 5px 1px }
.xp-line-up-tab .xp-mates th[data-key="mate"] { width: 11.3% }
.xp-line-up-tab .xp-mates th:is([data-key="egg"], [data-key="clutch"]) { width: 62px }
.xp-line-up-tab .xp-mates th:is([data-key="expected"], [data-key="progress"]) { width: 82px }
.xp-line-up-tab .xp-mates th:is([data-key="nearest"], [data-key="related"], [data-key="ready"]) { width: 8.8% }
.xp-line-up-tab .xp-mates thead th { padding: 0 }
.xp-line-up-tab .xp-mates tbody th { overflow-wrap: anywhere }
.xp-line-up-tab .xp-mates td { font-size: 12px; line-height: 1.35; overflow-wrap: anywhere }
.xp-line-up-tab .xp-mates td.xp-kind-number { font-size: 13px }
.xp-line-up-tab .xp-mates [data-key="mate"] .xp-table-word { font-style: normal; white-space: normal;
  overflow-wrap: anywhere; color: var(--xp-quiet) }
.xp-line-up-tab .xp-mates tr[data-mark="not-ready"] td[style] { font-style: italic;
  background-image: repeating-linear-gradient(135deg, transparent 0 6px, rgb(90 101 112 / .3) 6px 7px) }
.xp-line-up-tab .xp-mates td[data-key="cautions"] { color: var(--xp-quiet) }
.xp-line-up-tab .xp-mates tr[data-mark="caution"] td[data-key="cautions"] { color: var(--xp-warn) }
.xp-line-up-tab .xp-beside-box { margin-top: 8px }
"""


UNKNOWN = "The pairings are not all worked out yet for what is looked for; until then the grid is that of before."


class LineUpPanel:
    """`root` is the panel. With `join` it knows the paths of the Path tab."""

    def __init__(self, desk: Desk) -> None:
        self.desk, self.model, self.guard = desk, LineUpModel(desk), Guard("Line-up")
        self._filling = False
        self._paths: PathPanel | None = None
        self.headline, self.said, self.warned = words("xp-headline"), words("xp-note"), words("xp-unready")
        self.find = button("find paths", "xp-line-up-find", self.guard, self._find)
        self.search_room = HBox([])
        self.grid, self.grid_said, self.grid_bar = LineUpGridView(), words("xp-grid-sentence"), JobBar()
        self.grid.add_class("xp-pairs")
        inside = [self.grid_said, self.grid, self.grid_bar]
        self.grid_fold = Fold("Every male beside every female", inside, self.guard, "xp-line-up-grid", opened=True)
        self.grid_fold.filled = self._show_grid
        self.note, self.table = words("xp-table-note"), TableView(caption="Line-up", tick="tick", height=520)
        self.table.add_class("xp-mates")
        self.ticking, self.beside = words("xp-ticking"), words("xp-beside-box")
        self.clear = button("clear ticks", "xp-clear", self.guard, lambda: self._tick([]))
        self.root = VBox(
            [
                HTML(f"<style>{STYLE}{BESIDE}</style>", layout=Layout(display="none")),
                self.guard.message,
                self._choice(),
                self._looking(),
                *self.problems.widgets,
                self.said,
                self.headline,
                self.warned,
                self.grid_fold,
                self.note,
                self.table,
                row([self.ticking, self.clear]),
                self.beside,
            ]
        )
        self.root.add_class("xp-line-up-tab")
        self.table.observe(self.guard(lambda change: self._tick(change.new)), "ticked")
        self.grid.observe(self.guard(lambda change: self._picked(change.new)), "picked")
        for topic in ("animals", "season", "target", "looks"):
            desk.listen(topic, self.update)
        self.update()

    def join(self, panel: PathPanel) -> None:
        """Takes up the paths of the Path tab, now and whenever it has found others."""
        self._paths, self.model.aims.paths = panel, panel.model
        self.search_room.children = [panel.bar]
        for widget in (panel.headline, panel.remarks):
            widget.observe(self.guard(lambda _: self._paths_changed()), "value")
        panel.table.observe(self.guard(lambda _: self._paths_changed()), "rows")

    def update(self) -> None:
        """Shows the desk as it is now."""
        self.model.refresh()
        self._fill()
        self._show()

    def _choice(self) -> HBox:
        self.alone = Dropdown(options=[("", "")], description="animal")
        self.search = Text(placeholder="name or gene", description="find")
        self.against = ToggleButtons(options=list(AGAINST), description="against", style={"button_width": "auto"})
        for widget, css in ((self.alone, "xp-alone"), (self.search, "xp-alone-search"), (self.against, "xp-against")):
            widget.add_class(css)
        self.alone.observe(self.guard(lambda change: self._chosen(change.new)), "value")
        self.search.observe(self.guard(lambda change: self._searched(change.new)), "value")
        self.against.observe(self.guard(lambda change: self._against_changed(change.new)), "value")
        return row([self.alone, self.search, self.against])

    def _looking(self) -> HBox:
        self.kind = ToggleButtons(options=list(KINDS), description="looking for", style={"button_width": "auto"})
        self.kind.add_class("xp-aim-kind")
        self.look = Text(placeholder="a look, such as Leopard Desert Ghost", continuous_update=False)
        self.look.add_class("xp-look")
        self.problems = Problems(self.guard, lambda offer: setattr(self.look, "value", offer.text))
        self.kind.observe(self.guard(lambda change: self._kind_changed(change.new)), "value")
        self.look.observe(self.guard(lambda change: self._typed(change.new)), "value")
        return row([self.kind, self.look, self.find, self.search_room])

    def _fill(self) -> None:
        """Lists the animals again; the chosen one stays chosen."""
        self._filling = True
        try:
            found = self.model.choices(self.search.value)
            mine = [one for one in self.model.choices() if one.id == self.model.key and one not in found]
            self.alone.options = [(choice.label, choice.id) for choice in (*mine, *found)] or [("nobody", "")]
            self.alone.value = self.model.key
        finally:
            self._filling = False

    def _searched(self, text: str) -> None:
        found = self.model.choices(text)
        if found and self.model.key not in {choice.id for choice in found}:
            self.model.choose(found[0].id)
        self._fill()
        self._show()

    def _chosen(self, key: str) -> None:
        if not self._filling and key:
            self.model.choose(key)
            self._show()

    def _against_changed(self, against: str) -> None:
        self.model.against = next(one for one in AGAINST if one == against)
        self._show()

    def _kind_changed(self, kind: str) -> None:
        self.model.aims.kind = next(one for one in KINDS if one == kind)
        self._show()

    def _typed(self, text: str) -> None:
        self.model.aims.type(text)
        self._show()

    def _find(self) -> None:
        """The same search as in the Path tab, where the paths can be read."""
        if self._paths is not None:
            self._paths.find.click()

    def _paths_changed(self) -> None:
        if self.model.aims.kind == "the next step":
            self._show()

    def _picked(self, keys: list[str]) -> None:
        if keys:
            self.grid.picked = []
            self.model.pick(*keys)
            self._fill()
            self._show()

    def _tick(self, keys: list[str]) -> None:
        if not self._filling and keys != self.model.ticked:
            self.model.tick(keys)
            if self.model.against == "ticked only":
                self._show_table()
            self._show_ticks()

    def _show(self) -> None:
        aims = self.model.aims
        show(self.look, aims.kind == "a look")
        show(self.find, aims.searchable)
        show(self.search_room, aims.kind == "the next step")
        self.problems.show(aims.problems if aims.kind == "a look" else ())
        self._say(self.said, self.model.aim.words, "")
        self._show_table()
        self._show_ticks()
        self._show_grid()

    def _show_table(self) -> None:
        model = self.model
        self.headline.value = paragraph(model.headline)
        self._say(self.warned, model.warnings, "xp-caution")
        for widget in (self.note, self.table, self.grid_fold):
            show(widget, not model.blockers)
        self.note.value = paragraph(model.note, "xp-quiet") if not model.blockers else ""
        with self.table.hold_sync():
            self.table.empty, self.table.columns, self.table.rows = model.empty, model.columns, model.table
            self.table.selected = model.picked

    def _say(self, room: HTML, sentences: Iterable[str], css: str) -> None:
        room.value = "".join(paragraph(text, css) for text in sentences)
        show(room, bool(room.value))

    def _show_ticks(self) -> None:
        model = self.model
        self._filling = True
        try:
            self.table.ticked, self.table.selected = list(model.ticked), model.picked
        finally:
            self._filling = False
        self.grid.alone, self.grid.ticked = model.key, list(model.ticked)
        self.ticking.value = paragraph(model.ticking)
        show(self.clear, bool(model.ticked))
        rows, line, aim = model.beside, model.line, model.aim
        self.beside.value = ""
        if rows and line is not None:
            looks, left = beside_looks(rows, aim)
            self.beside.value = side_by_side(beside_pairings(line, rows, aim), looks, left, beside_caption(line, rows))

    def _show_grid(self) -> None:
        """What is worked out for every pairing is left until somebody looks, and done beside the screen."""
        model, aim = self.model, self.model.aim
        if not self.grid_fold.opened or model.blockers:
            return
        if not model.grid.asked(aim) or not (model.grid.known(aim) or self.grid_bar.running):
            failed = self.guard(self._grid_failed)
            self.grid_bar.start(model.grid.work(aim), self.guard(self._grid_found), failed, "working out all pairings")
        found = model.grid.grid(aim, model.against != "everybody")
        self.grid_said.value = paragraph(found.sentence if found else UNKNOWN)
        if found is not None:
            with self.grid.hold_sync():
                self.grid.rows, self.grid.columns, self.grid.cells = found.rows, found.columns, found.cells
                self.grid.legend, self.grid.summary = found.legend, found.words

    def _grid_found(self, found: tuple[object, Pairs]) -> None:
        self.model.grid.take(found)
        before, grid = self.model.key, self.model.grid.grid(self.model.aim, self.model.against != "everybody")
        if grid is not None and grid.rows:
            self.model.suggest(grid.rows[0]["id"])
        if self.model.key != before:
            self._fill()
            self._show()
        else:
            self._show_grid()

    def _grid_failed(self, error: Exception) -> None:
        self.model.grid.drop()
        raise error
