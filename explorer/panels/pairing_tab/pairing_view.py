"""The Pairing tab: links the widgets to the model."""

from __future__ import annotations

from ipywidgets import HTML, BoundedIntText, Dropdown, HBox, Layout, Text, ToggleButtons, VBox

from ...pictures import odds_bars, odds_in_words
from ...pictures.proving import doubt_lines, doubt_lines_in_words
from ..chart import Chart
from ..choosing import Role
from ..clock import fresh_seed
from ..desk import Desk
from ..guard import Guard
from ..markup import items, paragraph
from ..parts import Problems, button, row, show, words
from ..sketch_card import sketch_card
from ..slider import Slider
from .pairing_model import HatchedEgg, PairingModel
from .ranking_view import Ranking

__all__ = ["PairingPanel"]

STYLE = """
.xp-picker { flex: 1 1 480px; min-width: 0; gap: 2px }
.xp-workbench .xp-picker .xp-search { flex: 0 0 138px; width: 138px; min-width: 0 }
.xp-workbench .xp-asking { margin-top: 10px }
.xp-workbench .xp-picker .xp-animal { flex: 1 1 auto; width: auto; min-width: 0 }
.xp-workbench .xp-pairing-tab :is(.widget-text, .widget-dropdown) label { width: auto; margin-right: 8px }
.xp-workbench .xp-picker .xp-animal label { font-weight: 600 }
.xp-workbench dl.xp-facts { display: grid; grid-template-columns: max-content 1fr; gap: 2px 14px; margin: 0 }
.xp-workbench .xp-facts :is(dt, dd) { float: none; width: auto; margin: 0; padding: 0; font-weight: 400 }
.xp-workbench .xp-facts dt { color: var(--xp-quiet) }
.xp-workbench .xp-facts dd { font-weight: 600; overflow-wrap: anywhere }
.xp-workbench .xp-kind .jupyter-button.mod-active { background: var(--xp-soft); border-color: var(--xp-hue);
  font-weight: 600; box-shadow: none }
.xp-shades { display: flex; align-items: center; gap: 8px; margin: 0; font-size: 13px; color: var(--xp-quiet) }
.xp-shades i { width: 90px; height: 12px; border: 1px solid #0b5357;
  background: linear-gradient(to right, #eaf2f2, #0b5357) }
.xp-workbench ul.xp-eggs { display: flex; flex-wrap: wrap; gap: 8px 10px; margin: 6px 0 0; padding: 0;
  list-style: none }
.xp-eggs li { width: 132px; font-size: 13px; line-height: 1.3; text-align: center }
.xp-eggs li::before { content: ""; display: block; box-sizing: border-box; width: 22px; height: 28px;
  margin: 0 auto 3px; border: 2px solid var(--xp-hue); border-radius: 50% 50% 50% 50% / 60% 60% 40% 40% }
.xp-eggs li.xp-hit::before { background: var(--xp-hue) }
.xp-eggs li.xp-lost::before { border-style: dashed; border-color: var(--xp-edge) }
"""


class PairingPanel:
    """`root` is the panel."""

    def __init__(self, desk: Desk) -> None:
        self.model = PairingModel(desk, fresh_seed())
        self.guard = Guard("Pairing")
        self._filling = False
        self.search: dict[Role, Text] = {}
        self.animal: dict[Role, Dropdown] = {}
        pickers = HBox([self._picker("dam"), self._picker("sire")])
        pickers.add_class("xp-sides")
        self.eggs = Slider(label="eggs in a clutch", value=self.model.eggs, min=1, max=15)
        self.rate = Slider(label="hatch rate", value=self.model.hatch_percent, min=1, max=100, unit=" %")
        self.eggs.add_class("xp-eggs-slider")
        self.rate.add_class("xp-rate-slider")
        self.headline, self.unready = words("xp-headline"), words("xp-unready")
        self.kind = ToggleButtons(options=["looks", "genotypes"], style={"button_width": "124px"})
        self.kind.add_class("xp-kind")
        self.chart, self.facts = Chart(), words("xp-side")
        self.chart.add_class("xp-odds")
        shades = HTML('<p class="xp-shades">far from the target <i></i> the target</p>')
        self.sketches = words("xp-hatchlings")
        chart = [row([self.kind, shades]), self.chart, self.sketches]
        left = VBox(chart, layout=Layout(flex="1 1 640px", min_width="0"))
        box = VBox([self.facts])
        box.add_class("xp-box")
        self.proof_words, self.proof_chart = words("xp-proof"), Chart()
        self.proof = VBox([self.proof_words, self.proof_chart])
        self.proof.add_class("xp-proving")
        side = VBox([box, self.proof, self._question_box()], layout=Layout(flex="1 1 340px", max_width="520px"))
        self.sides = HBox([left, side])
        self.sides.add_class("xp-sides")
        self.more = self._clutch_box()
        self.ranking = Ranking(self.model.ranked, self.guard, self._choose_pair)
        self.root = VBox(
            [
                HTML(f"<style>{STYLE}</style>", layout=Layout(display="none")),
                self.guard.message,
                pickers,
                row([self.eggs, self.rate, self.unready]),
                self.headline,
                self.sides,
                self.more,
                self.ranking.root,
            ]
        )
        self.root.add_class("xp-pairing-tab")
        for slider in (self.eggs, self.rate):
            slider.observe(self.guard(lambda _: self._care_changed()), "value")
        self.kind.observe(self.guard(lambda _: self._kind_changed()), "value")
        for topic in ("animals", "season", "target", "looks"):
            desk.listen(topic, self.update)
        self._fill()
        self._show()

    def update(self) -> None:
        """Shows the desk as it is now."""
        self.model.refresh()
        self._fill()
        self._show()

    def _picker(self, role: Role) -> VBox:
        search = Text(placeholder="name or gene", description="find")
        animal = Dropdown(options=[("", "")], description=role)
        for widget, css in ((search, "xp-search"), (animal, "xp-animal")):
            widget.add_class(css)
            widget.add_class(f"xp-{role}")
        search.observe(self.guard(lambda change: self._searched(role, change.new)), "value")
        animal.observe(self.guard(lambda change: self._chosen(role, change.new)), "value")
        self.search[role], self.animal[role] = search, animal
        box = HBox([animal, search])
        box.add_class("xp-picker")
        return box

    def _clutch_box(self) -> VBox:
        self.seed = BoundedIntText(self.model.seed, 0, 999_999, description="seed", layout=Layout(width="150px"))
        self.seed.add_class("xp-seed")
        self.hatched = words("xp-clutch")
        self.seed.observe(self.guard(lambda _: self._hatch() if self.model.pretended else None), "value")
        hatch = button("hatch a pretend clutch", "xp-hatch-clutch", self.guard, self._hatch)
        again = button("next seed", "xp-next-seed", self.guard, self._next_seed)
        box = VBox([row([hatch, self.seed, again]), self.hatched])
        box.add_class("xp-pretend")
        return box

    def _choose_pair(self, dam: str, sire: str) -> None:
        self.model.choose("dam", dam)
        self.model.choose("sire", sire)
        self._fill()
        self._show()

    def _question_box(self) -> VBox:
        self.question = Text(placeholder="any other look", description="chance of")
        self.question.layout = Layout(flex="1 1 200px", width="auto")
        self.question.add_class("xp-question")
        self.answer = words("xp-answer")
        self.problems = Problems(self.guard, lambda offer: setattr(self.question, "value", offer.text))
        self.question.continuous_update = False
        self.question.observe(self.guard(lambda _: self._ask()), "value")
        ask = button("work it out", "xp-ask", self.guard, self._ask)
        box = VBox([row([self.question, ask]), *self.problems.widgets, self.answer])
        box.add_class("xp-asking")
        return box

    def _fill(self) -> None:
        """Lists the animals again; the chosen ones stay chosen. The sliders follow changed figures."""
        self._filling = True
        try:
            self.eggs.max = max(self.eggs.max, self.model.eggs)
            self.eggs.value, self.rate.value = self.model.eggs, self.model.hatch_percent
            for role, widget in self.animal.items():
                chosen = self.model.dam if role == "dam" else self.model.sire
                found = self.model.choices(role, self.search[role].value)
                mine = [choice for choice in self.model.choices(role) if choice.id == chosen and choice not in found]
                widget.options = [(choice.label, choice.id) for choice in (*mine, *found)] or [("nobody", "")]
                widget.value = chosen
        finally:
            self._filling = False

    def _searched(self, role: Role, text: str) -> None:
        found = self.model.choices(role, text)
        chosen = self.model.dam if role == "dam" else self.model.sire
        if found and chosen not in {choice.id for choice in found}:
            self.model.choose(role, found[0].id)
        self._fill()
        self._show()

    def _chosen(self, role: Role, key: str) -> None:
        if not self._filling and key:
            self.model.choose(role, key)
            self._show()

    def _care_changed(self) -> None:
        if self._filling:
            return
        self.model.eggs, self.model.hatch_percent = self.eggs.value, self.rate.value
        self.model.pretended = ()
        self._show()

    def _kind_changed(self) -> None:
        self.model.genotypes = self.kind.value == "genotypes"
        self._show_chart()

    def _hatch(self) -> None:
        self.model.hatch(self.seed.value)
        self._show_clutch()

    def _next_seed(self) -> None:
        self.model.hatch(self.model.seed)
        self.seed.value += 1
        self._hatch()

    def _ask(self) -> None:
        found = self.model.ask(self.question.value)
        self.answer.value = "".join(paragraph(line) for line in found.lines)
        self.problems.show(found.problems)

    def _show(self) -> None:
        self.headline.value = paragraph(self.model.headline)
        self.unready.value = "".join(paragraph(text, "xp-caution") for text in self.model.not_ready)
        for widget in (self.sides, self.more):
            show(widget, self.model.odds is not None)
        if self.model.odds is not None:
            self.facts.value = _facts(self.model)
            self._show_chart()
            self._show_looks()
            self._show_proof()
        self._show_clutch()
        self._ask()

    def _show_chart(self) -> None:
        bars, total = self.model.bars
        self.chart.show(odds_bars(bars, total), f"What could hatch: {odds_in_words(bars, total)}")

    def _show_looks(self) -> None:
        looks = self.model.looks
        seen = looks.hatchlings if looks else ()
        cards = "".join(sketch_card(one.stack, one.title, one.lines) for one in seen)
        self.sketches.value = f'<div class="xp-sketches">{cards}</div>' if cards else ""
        self.ranking.update()

    def _show_proof(self) -> None:
        proving = self.model.proving
        doubts = proving.doubts if proving else ()
        show(self.proof, bool(doubts))
        if proving and doubts:
            said = "".join(paragraph(line) for line in proving.lines)
            self.proof_words.value = paragraph("Proving out", tag="h3") + said
            self.proof_chart.show(doubt_lines(doubts), f"Chance that it is carried: {doubt_lines_in_words(doubts)}")

    def _show_clutch(self) -> None:
        eggs = "".join(paragraph(egg.text, _look_of(egg), "li") for egg in self.model.hatched)
        summary = self.model.clutch_summary
        legend = paragraph(self.model.clutch_legend, "xp-quiet") if eggs else ""
        self.hatched.value = f'{paragraph(summary)}<ul class="xp-eggs">{eggs}</ul>{legend}' if eggs else ""


def _look_of(egg: HatchedEgg) -> str:
    return "xp-hit" if egg.hit else "xp-other" if egg.hatched else "xp-lost"


def _facts(model: PairingModel) -> str:
    facts = "".join(paragraph(what, tag="dt") + paragraph(text, tag="dd") for what, text in model.facts)
    losses = paragraph(model.losses, "xp-caution") if model.losses else ""
    cautions = items(model.cautions, "xp-caution") or paragraph("None is recorded for this pair.", "xp-quiet")
    looks = model.looks
    helps = items(looks.helps) if looks else ""
    spoils = items(looks.spoils) if looks else ""
    return (
        f"{paragraph('This pairing', tag='h3')}<dl class='xp-facts'>{facts}</dl>{losses}"
        f"{paragraph('Cautions', tag='h4')}{cautions}"
        f"{paragraph('Helps, in its hatchlings', tag='h4')}{helps or paragraph('No two genes do.', 'xp-quiet')}"
        f"{paragraph('Spoils', tag='h4')}{spoils or paragraph('No two genes do.', 'xp-quiet')}"
    )
