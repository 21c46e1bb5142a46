"""The tab "Read an animal": links the widgets to the model."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from ipywidgets import HTML, Checkbox, Dropdown, HBox, Layout, ToggleButtons, VBox

from ...pictures.gene_bars import SHOWS, UNSEEN, gene_bars, gene_bars_in_words
from ..chart import Chart
from ..choosing import ROLES, Role
from ..desk import Desk
from ..guard import Guard
from ..markup import items, paragraph
from ..parts import button, row, show, words
from ..sketch_card import sketch_card
from ..slider import Slider
from .cue_list import CueList
from .reading_model import PROOF, ReadingModel

__all__ = ["ReadingPanel"]

STYLE = f"""
.xp-workbench .xp-reading-tab .widget-dropdown label {{ width: auto; margin-right: 8px }}
.xp-workbench .xp-reading-tab .xp-animal label {{ font-weight: 600 }}
.xp-workbench .xp-reading-tab .xp-animal {{ flex: 1 1 320px; width: auto; min-width: 0 }}
.xp-workbench .xp-reading-tab .xp-origin .jupyter-button.mod-active {{ background: var(--xp-soft);
  border-color: var(--xp-hue); font-weight: 600; box-shadow: none }}
:is(.jp-Cell-outputArea, .jp-OutputArea-child, .widget-tab-contents):has(:not(.lm-mod-hidden) > .xp-reading-tab) {{
  overflow: visible !important }}
.xp-workbench .xp-reading-tab .xp-headline {{ position: sticky; top: 0; z-index: 2;
  background: var(--jp-layout-color1); box-shadow: 0 0 0 4px var(--jp-layout-color1) }}
.xp-reading-tab :is(button, input, select) {{ scroll-margin-top: 80px }}
.xp-key {{ display: flex; flex-wrap: wrap; align-items: center; gap: 2px 16px; margin: 0; font-size: 13px;
  color: var(--xp-quiet) }}
.xp-key span {{ display: flex; align-items: center; gap: 6px }}
.xp-key i {{ width: 18px; height: 12px; border: 1px solid var(--xp-quiet); background: {SHOWS} }}
.xp-key i.xp-unseen {{ background: {UNSEEN} }}
.xp-key i.xp-before {{ width: 3px; height: 16px; border: 0; background: var(--jp-ui-font-color1) }}
.xp-workbench .xp-next p.xp-question {{ font-size: 16px; font-weight: 600 }}
.xp-noted p {{ margin: 0 }}
.xp-likeliest table {{ width: 100%; border-collapse: collapse; font-size: 14px; line-height: 1.35 }}
.xp-likeliest td {{ padding: 2px 0; border-bottom: 1px solid var(--jp-border-color2); vertical-align: top }}
.xp-workbench .xp-reading-tab :is(.xp-cautions, .xp-look, .xp-likeliest) {{ margin-top: 12px }}
.xp-likeliest td:first-child {{ padding-right: 20px }}
.xp-likeliest td:last-child {{ text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums }}
"""


class ReadingPanel:
    """`root` is the panel."""

    def __init__(self, desk: Desk) -> None:
        self.model = ReadingModel(desk)
        self.guard = Guard("Read an animal")
        self._filling = False
        self.headline = words("xp-headline")
        self.proof = HTML(paragraph(PROOF, "xp-note"))
        self.cues = CueList()
        self.cues.on_msg(self.guard(lambda _, said, __: self._answer(said["key"], said["state"])))
        self.noted = words("xp-noted")
        self.every = Checkbox(indent=False)
        self.every.observe(self.guard(lambda _: self._list_every()), "value")
        reset = button("reset", "xp-reset", self.guard, self._reset)
        left = VBox([row([self.noted, reset, self.every]), self.cues], layout=Layout(flex="3 1 620px"))
        self.chart = Chart()
        self.chart.add_class("xp-gene-bars")
        self.cautions, self.look, self.likeliest = words("xp-cautions"), words("xp-look"), words("xp-likeliest")
        found = [HTML(KEY), self.chart, self._next_box(), self.cautions, self.look, self.likeliest]
        right = VBox(found, layout=Layout(flex="2 1 400px"))
        self.sides = HBox([left, right])
        self.sides.add_class("xp-sides")
        for side in (left, right):
            side.layout.min_width = "0"
        self.root = VBox(
            [
                HTML(f"<style>{STYLE}</style>", layout=Layout(display="none")),
                self.guard.message,
                self._origin_row(),
                self.headline,
                self.proof,
                self.sides,
            ]
        )
        self.root.add_class("xp-reading-tab")
        for topic in ("animals", "looks", "season"):
            desk.listen(topic, self.update)
        self._show_all()

    def update(self) -> None:
        """Shows the desk as it is now."""
        self.model.refresh()
        self._show_all()

    def _origin_row(self) -> HBox:
        self.origin = ToggleButtons(options=[("a known clutch", True), ("unknown origin", False)])
        self.origin.style.button_width = "auto"
        self.origin.add_class("xp-origin")
        self.origin.observe(self.guard(lambda _: self._originate()), "value")
        self.animal: dict[Role, Dropdown] = {}
        for role in ROLES:
            made = Dropdown(options=[("unknown", "")], description=role)
            for css in ("xp-animal", f"xp-{role}"):
                made.add_class(css)
            made.observe(self.guard(lambda _: self._originate()), "value")
            self.animal[role] = made
        self.parents = row(list(self.animal.values()))
        self.parents.layout = Layout(flex="1 1 660px", min_width="0")
        self.taken = row([])
        self.gene = Dropdown(options=[("choose a gene", "")], description="genes that come into question")
        self.gene.add_class("xp-gene")
        self.gene.layout = Layout(width="auto")
        self.gene.observe(self.guard(lambda change: self._suppose(change.new)), "value")
        self.share = Slider(label="share of such animals' chromosomes, each", min=5, max=50, step=5, unit=" %")
        self.share.value = self.model.origin.share
        self.share.observe(self.guard(lambda _: self._originate()), "value")
        return row([self.origin, self.parents, self.gene, self.taken, self.share])

    def _next_box(self) -> VBox:
        self.question, self.telling = words("xp-next"), words("xp-telling")
        self.choice = row(
            [
                button("seen", "xp-next-seen", self.guard, lambda: self._answer_next(True)),
                button("clearly not", "xp-next-not", self.guard, lambda: self._answer_next(False)),
                button("cannot tell: ask another", "xp-next-skip", self.guard, self._skip),
            ]
        )
        box = VBox([HTML(paragraph("Best next look", tag="h3")), self.question, self.choice, self.telling])
        box.add_class("xp-box")
        return box

    def _originate(self) -> None:
        if self._filling:
            return
        origin = self.model.origin
        origin.known, origin.share = self.origin.value, self.share.value
        origin.dam, origin.sire = self.animal["dam"].value, self.animal["sire"].value
        self.update()

    def _suppose(self, gene: str, taken: bool = True) -> None:
        if not self._filling and gene:
            self.model.origin.suppose(gene, taken)
            self.update()

    def _answer(self, key: str, state: str) -> None:
        self.model.answer(key, {"seen": True, "not": False}.get(state))
        self._show()

    def _answer_next(self, seen: bool) -> None:
        if self._asked:
            self.model.answer(self._asked, seen)
            self._show()

    def _skip(self) -> None:
        self.model.skip(self._asked)
        self._show_next()

    def _reset(self) -> None:
        self.model.reset()
        self._show()

    def _list_every(self) -> None:
        self.model.every_cue = self.every.value
        self._show()

    def _show_all(self) -> None:
        origin = self.model.origin
        self._filling = True
        try:
            self.origin.value = origin.known
            for role, widget in self.animal.items():
                widget.options = [(choice.label, choice.id) for choice in origin.choices(role)]
                widget.value = origin.dam if role == "dam" else origin.sire
            self.gene.options = [("choose a gene", ""), *((choice.label, choice.id) for choice in origin.gene_choices)]
            self.gene.value = ""
        finally:
            self._filling = False
        self.taken.children = [self._candidate(gene) for gene in origin.candidates]
        show(self.parents, origin.known)
        for widget in (self.gene, self.taken, self.share):
            show(widget, origin.asks_for_genes)
        self._show()

    def _candidate(self, gene: str) -> Any:
        made = button(f"{gene} ✕", "xp-candidate", self.guard, lambda: self._suppose(gene, taken=False))
        made.tooltip = f"take {gene} away"
        return made

    def _show(self) -> None:
        model = self.model
        self.headline.value = paragraph(model.headline)
        for part in (self.sides, self.proof):
            show(part, bool(model.bars))
        if not model.bars:
            return
        self.noted.value = paragraph(model.noted)
        self.every.description = f"list the {model.left_out} cues that tell nothing here"
        show(self.every, bool(model.left_out))
        zones = [{"zone": zone, "cues": [asdict(cue) for cue in cues]} for zone, cues in model.zones]
        self.cues.zones, self.cues.answers = zones, model.states
        self.chart.show(gene_bars(model.bars), f"What it may carry: {gene_bars_in_words(model.bars)}")
        self._show_next()
        self.likeliest.value = _table(model)
        if model.likeliest:
            title, stack = model.likeliest
            self.look.value = sketch_card(stack, title)
        cautions = items(model.cautions, "xp-caution") or paragraph("None is recorded for these genes.", "xp-quiet")
        self.cautions.value = f"{paragraph('Cautions', tag='h3')}{cautions}"

    def _show_next(self) -> None:
        found = self.model.question
        self._asked = found.key if found else ""
        none = "No look that is left would tell these apart."
        self.question.value = paragraph(found.text if found else none, "xp-question")
        self.telling.value = paragraph(found.change) + paragraph(found.telling, "xp-quiet") if found else ""
        show(self.choice, found is not None)


KEY = (
    '<p class="xp-key"><span><i></i> shows</span><span><i class="xp-unseen"></i> carried unseen</span>'
    '<span><i class="xp-before"></i> before any look</span></p>'
)


def _table(model: ReadingModel) -> str:
    found = model.genotypes
    rows = "".join(f"<tr>{paragraph(text, tag='td')}{paragraph(chance, tag='td')}</tr>" for text, chance in found.rows)
    more = paragraph(f"and {found.more:,} more", "xp-quiet") if found.more else ""
    return f"{paragraph('Likeliest genotypes', tag='h3')}<table>{rows}</table>{more}"
