"""The Path tab: links the widgets to the model."""

from __future__ import annotations

from ipywidgets import HTML, Checkbox, HBox, Layout, Text, VBox

from ...pictures import chance_curves, chance_curves_in_words
from ...planner import NodeWords, Path
from ..background import JobBar
from ..chart import Chart
from ..desk import Desk
from ..guard import Guard
from ..markup import items, paragraph
from ..offers import Offer
from ..parts import Problems, button, row, show, words
from ..sketch_card import sketch_card
from ..slider import Slider
from ..table_view import TableView
from ..target_model import TargetModel
from .money_view import MoneyFold
from .path_model import NO_LIMIT, PathModel
from .walk_view import WalkView

__all__ = ["PathPanel"]

STYLE = """
.xp-path-tab .xp-aim p { display: inline; margin: 0 18px 0 0 }
.xp-path-tab .xp-paths .xp-table-top { display: none }
.xp-path-tab .xp-box { margin-bottom: 8px }
.xp-path-tab .xp-place { min-width: 120px; text-align: center }
.xp-path-tab .xp-place p { margin: 0 }
.xp-path-tab .xp-remarks p { display: inline; margin-right: 14px; color: var(--xp-quiet) }
.xp-path-tab .xp-remarks .xp-problem { color: var(--xp-warn) }
"""
HINT = "Nothing to pair in this season. Choose a box in the drawing to read what to do with it."


class PathPanel:
    """`root` is the panel."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.model = PathModel(desk)
        self.guard = Guard("Path")
        self.aim, self.headline, self.remarks = words("xp-aim"), words("xp-headline"), words("xp-remarks")
        self.seasons = Slider(label="by season", value=self.model.seasons, min=1, max=12)
        self.seasons.add_class("xp-seasons")
        self.kinship = Slider(
            label="inbreeding at most", value=self.model.most_inbreeding, min=0, max=NO_LIMIT, step=5, unit=" %"
        )
        self.kinship.add_class("xp-kinship")
        self.find = button("find paths", "xp-find", self.guard, self._find)
        self.find.button_style = "primary"
        self.bar = JobBar()
        self.cautions = button("cautions", "xp-cautions", self.guard, self._open_cautions)
        change = button("change", "xp-aim-change", self.guard, self._open_form)
        self.form, self.allowances = self._form(), VBox()
        self.allowances.add_class("xp-box")
        self.allowances.add_class("xp-allow")
        self.chart, self.walk = Chart(), WalkView()
        self.chart.add_class("xp-curves")
        self.table = TableView(caption="The paths that were found", height=300)
        self.table.add_class("xp-paths")
        self.result = VBox([self._evidence(), self._walk()])
        self.money = MoneyFold(desk, self.model, self.guard)
        self.root = VBox(
            [
                HTML(f"<style>{STYLE}</style>", layout=Layout(display="none")),
                self.guard.message,
                row([self.aim, change, self.cautions, self.seasons, self.kinship, self.find]),
                self.form,
                self.allowances,
                self.bar,
                self.headline,
                self.remarks,
                self.result,
                self.money.root,
            ]
        )
        self.root.add_class("xp-path-tab")
        show(self.form, False)
        show(self.allowances, False)
        self.seasons.observe(self.guard(lambda change: self._horizon_changed(change.new)), "value")
        self.kinship.observe(self.guard(lambda change: self._kinship_changed(change.new)), "value")
        self.table.observe(self.guard(lambda change: self._path_chosen(change.new)), "selected")
        self.walk.observe(self.guard(lambda change: self._node_chosen(change.new)), "selected")
        for topic in ("animals", "season", "target"):
            desk.listen(topic, self.update)
        desk.listen("looks", self._show_paths)
        self.update()
        self._show_paths()

    def update(self) -> None:
        """Shows the desk as it is now; paths that were found stay, marked as old if they are."""
        model = self.model
        self.aim.value = paragraph(f"The target {model.must_show}.") + paragraph(f"{model.must_not_show}.".capitalize())
        self.find.disabled = bool(model.blockers)
        self._fill_cautions()
        self._show_words()
        self.money.update()

    def _form(self) -> VBox:
        wide, style = Layout(width="640px", max_width="100%"), {"description_width": "110px"}
        self.must = Text(description="must show", layout=wide, style=style)
        self.must_not = Text(description="must not show", layout=wide, style=style, placeholder="nothing is ruled out")
        self.must.add_class("xp-aim-must")
        self.must_not.add_class("xp-aim-must-not")
        self.problems = Problems(self.guard, self._use)
        take = button("use this target", "xp-aim-set", self.guard, self._take)
        take.button_style = "primary"
        cancel = button("cancel", "xp-aim-cancel", self.guard, lambda: show(self.form, False))
        form = VBox([self.must, self.must_not, *self.problems.widgets, row([take, cancel])])
        for css in ("xp-box", "xp-form"):
            form.add_class(css)
        return form

    def _evidence(self) -> HBox:
        left = VBox([self.chart], layout=Layout(flex="1 1 470px", min_width="0"))
        right = VBox([self.table], layout=Layout(flex="1 1 610px", min_width="0"))
        sides = HBox([left, right])
        sides.add_class("xp-sides")
        return sides

    def _walk(self) -> VBox:
        self.node, self.season, self.place = words("xp-node-words"), words("xp-season-words"), words("xp-place")
        self.back = button("◀ back", "xp-back", self.guard, lambda: self._step(-1))
        self.next = button("next ▶", "xp-next", self.guard, lambda: self._step(1))
        side = VBox([self.node], layout=Layout(flex="1 1 300px", max_width="420px"))
        side.add_class("xp-box")
        self.walk.layout = Layout(flex="1 1 760px", min_width="0")
        sides = HBox([self.walk, side])
        sides.add_class("xp-sides")
        return VBox([sides, row([self.back, self.place, self.next]), self.season])

    def _open_form(self) -> None:
        self.must.value, self.must_not.value = self.desk.target, " ".join(self.desk.without)
        self.problems.show(())
        show(self.form, True)

    def _use(self, offer: Offer) -> None:
        (self.must if offer.field == "must" else self.must_not).value = offer.text

    def _take(self) -> None:
        problems = TargetModel(self.desk).set(self.must.value, self.must_not.value, self.desk.allow)
        self.problems.show(problems)
        show(self.form, bool(problems))

    def _open_cautions(self) -> None:
        show(self.allowances, self.allowances.layout.display == "none")

    def _fill_cautions(self) -> None:
        found = self.model.allowances
        barring = sum(not one.allowed for one in found)
        genes = f"{barring} gene" if barring == 1 else f"{barring} genes"
        self.cautions.description = f"cautions on {genes}" if barring else "cautions: none in the way"
        rows = []
        for one in found:
            box = Checkbox(description=f"allow {one.gene} in plans", value=one.allowed, indent=False)
            box.observe(self.guard(lambda change, gene=one.gene: self.model.allow(gene, change.new)), "value")
            rows.append(VBox([box, HTML(items(one.lines, "xp-quiet"))]))
        head = "These cautions keep animals out of plans. Tick a gene to use it all the same."
        self.allowances.children = [HTML(paragraph(head if rows else "No caution keeps an animal out.")), *rows]

    def _horizon_changed(self, seasons: int) -> None:
        self.model.seasons = seasons
        self._show_words()

    def _kinship_changed(self, percent: int) -> None:
        self.model.most_inbreeding = percent
        self._show_words()

    def _find(self) -> None:
        self.bar.start(self.model.begin(), self.guard(self._found), self.guard(self._failed), "looking for pairings")

    def _found(self, paths: list[Path]) -> None:
        self.model.found(paths)
        self._show_paths()

    def _failed(self, error: BaseException) -> None:
        try:
            self.model.failed(error)
        finally:
            self._show_paths()

    def _path_chosen(self, number: str) -> None:
        if number and self.model.paths and int(number) != self.model.chosen:
            self.model.choose(int(number))
            self._show_paths()

    def _node_chosen(self, node: str) -> None:
        if node and node != self.model.walk.node:
            self.model.walk.node = node
            self._show_node()

    def _step(self, by: int) -> None:
        self.model.walk.walk_to(self.model.walk.season + by)
        self._show_season()

    def _show_paths(self) -> None:
        show(self.result, bool(self.model.paths))
        self._show_words()
        if self.model.paths:
            curves, seasons = self.model.curves
            words = f"Chance that the target has hatched: {chance_curves_in_words(curves, self.model.chosen, seasons)}"
            self.chart.show(chance_curves(curves, self.model.chosen, seasons), words)
            self.table.columns, self.table.rows = self.model.columns, self.model.rows
            self.table.selected = str(self.model.chosen)
            walk = self.model.walk.drawing
            with self.walk.hold_sync():
                self.walk.nodes, self.walk.edges, self.walk.columns = walk.nodes, walk.edges, walk.columns
                self.walk.label = f"The walk, season by season: {walk.words}"
            self._show_season()
        self.money.update()

    def _show_words(self) -> None:
        self.headline.value = paragraph(self.model.headline)
        css = "xp-problem" if self.model.stale else ""
        self.remarks.value = "".join(paragraph(line, css) for line in self.model.remarks)

    def _show_season(self) -> None:
        walk = self.model.walk
        self.place.value = paragraph(walk.place)
        self.back.disabled, self.next.disabled = walk.season == 1, walk.season == walk.length
        self.season.value = _said(walk.season_words)
        self.walk.highlight = walk.highlight
        self.walk.selected = walk.node
        self._show_node()

    def _show_node(self) -> None:
        walk = self.model.walk
        said = _said(walk.node_words) if walk.node else paragraph(HINT, "xp-quiet")
        cautions = "".join(paragraph(f"Caution: {text}", "xp-caution") for text in walk.cautions)
        seen = walk.stack
        self.node.value = said + cautions + (sketch_card(seen) if seen else "")


def _said(said: NodeWords) -> str:
    return paragraph(said.title, tag="h3") + "".join(paragraph(line) for line in said.lines)
