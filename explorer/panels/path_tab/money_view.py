"""Room and money in the Path tab: the keeper's own figures, what the path takes, an animal on offer. Links only."""

from __future__ import annotations

from ipywidgets import HTML, Box, Dropdown, Layout, Text, VBox, Widget

from ...collection.purse import FIGURES
from ...planner import Help
from ..background import JobBar
from ..desk import Desk
from ..fold import Fold
from ..guard import Guard
from ..markup import items, paragraph
from ..offers import Offer
from ..parts import Problems, button, row, show, words
from .money_model import MoneyModel
from .money_offer_model import MoneyOfferModel, OfferTexts
from .path_model import PathModel

__all__ = ["MoneyFold"]

STYLE = """
.xp-money { margin-top: 10px }
.xp-money .xp-grid { grid-template-columns: repeat(4, minmax(0, 200px)); max-width: 860px; margin-bottom: 6px }
.xp-money .xp-offer-grid { grid-template-columns: minmax(0, 2fr) 110px 220px 120px; max-width: 1060px }
.xp-money .xp-offer-weight { grid-column: 2 }
.xp-money .xp-money-said p { font-size: 16px; margin: 6px 0 2px }
.xp-money .xp-money-table { border-collapse: collapse; margin: 8px 0 6px; font-size: 13px }
.xp-money .xp-money-table caption { text-align: left; color: var(--xp-quiet); padding-bottom: 2px }
.xp-money .xp-money-table :is(th, td) { padding: 3px 18px 3px 0; text-align: right; font-weight: 400;
  border-bottom: 1px solid var(--jp-border-color3); font-variant-numeric: tabular-nums }
.xp-money .xp-money-table :is(th, td):first-child { text-align: left }
.xp-money .xp-money-table thead th { color: var(--xp-quiet); vertical-align: bottom }
.xp-money .xp-money-scroll { overflow-x: auto }
.xp-money .xp-offer-job { align-items: center; gap: 12px }
.xp-money .xp-offer-job .progress-bar { background: var(--xp-hue) }
.xp-money .xp-box { margin-top: 10px }
"""
AGES = (("adult, ready to breed", True), ("by weight and hatch date", False))
CAPTION = "The chosen path, season by season; a season counts only if it begins without the target."


class MoneyFold:
    """`root` is the part of the panel; `update` shows the desk and the chosen path as they are now."""

    def __init__(self, desk: Desk, paths: PathModel, guard: Guard) -> None:
        self.guard = guard
        self.model = MoneyModel(desk, paths)
        self.offer = MoneyOfferModel(desk, paths, self.model)
        self.figures = {name: _text(name, "not stated") for name in FIGURES}
        self.problems = Problems(guard, lambda offer: None)
        keep = button("use and remember", "xp-money-keep", guard, self._state)
        self.again = button("read the figures again", "xp-money-again", guard, self._read_again)
        self.said, self.table, self.basis = words("xp-money-said"), words("xp-money-scroll"), words("xp-money-basis")
        grid = Box(list(self.figures.values()))
        grid.add_class("xp-grid")
        reckoned = [self.said, self.table, self.basis]
        inside = [grid, row([keep, self.again]), *self.problems.widgets, *reckoned, self._offer_box()]
        self.root = Fold("Room and money, optional", inside, guard, "xp-money")
        self.root.children = (HTML(f"<style>{STYLE}</style>", layout=Layout(display="none")), *self.root.children)
        self.root.filled = self.update
        self.update()

    def update(self) -> None:
        """Fills in what changed; nothing is reckoned while the fold is closed."""
        if self.model.catch_up():
            self._fill()
        show(self.again, self.model.conflict)
        if not self.root.opened:
            return
        model = self.model
        wrong = "".join(paragraph(text, "xp-problem") for text in model.problems)
        self.said.value = wrong + "".join(paragraph(text) for text in model.sentences)
        self.table.value = _table(model.head, model.rows)
        self.basis.value = paragraph(model.basis, "xp-quiet") if model.basis else ""
        self._show_answer()

    def _fill(self) -> None:
        for name, text in self.model.purse.texts.items():
            self.figures[name].value = text
        self.problems.show(())

    def _read_again(self) -> None:
        self.model.read_again()
        self._fill()
        self.update()

    def _state(self) -> None:
        problems = self.model.state({name: field.value for name, field in self.figures.items()})
        self.problems.show(problems)
        self.update()

    def _offer_box(self) -> VBox:
        self.genes = _text("genes", "such as Pinstripe het Desert Ghost")
        self.sex = _field(Dropdown(options=("female", "male"), description="sex"))
        self.age = _field(Dropdown(options=AGES, description="ready?"))
        self.price = _text("price", "not stated")
        self.weight, self.hatched = _text("weight in g", "such as 850"), _text("hatched", "YYYY-MM-DD")
        for field, css in ((self.genes, "genes"), (self.price, "price"), (self.weight, "weight")):
            field.add_class(f"xp-offer-{css}")
        grid = Box([self.genes, self.sex, self.age, self.price, self.weight, self.hatched])
        grid.add_class("xp-grid")
        grid.add_class("xp-offer-grid")
        self.wrong = Problems(self.guard, self._use)
        self.bar = JobBar()
        self.bar.remove_class("xp-job")  # that is the bar of the search for paths, of which the tab has one
        self.bar.add_class("xp-offer-job")
        ask = button("would it help?", "xp-offer-ask", self.guard, self._ask)
        self.answer, self.notes = words("xp-money-said"), words("xp-offer-notes")
        self.age.observe(self.guard(lambda _: self._show_age()), "value")
        self._show_age()
        head = HTML(paragraph("An animal on offer", tag="h3"))
        box = VBox([head, grid, row([ask]), *self.wrong.widgets, self.bar, self.answer, self.notes])
        box.add_class("xp-box")
        box.add_class("xp-offer-box")
        return box

    def _show_age(self) -> None:
        for field in (self.weight, self.hatched):
            show(field, not self.age.value)

    def _use(self, offer: Offer) -> None:
        self.genes.value = offer.text

    def _ask(self) -> None:
        texts = OfferTexts(
            self.genes.value, self.sex.value, self.price.value, self.age.value, self.weight.value, self.hatched.value
        )
        problems, search = self.offer.begin(texts)
        self.wrong.show(problems)
        if search is not None:
            self.bar.start(search, self.guard(self._found), self.guard(self._failed), "looking for paths with it")

    def _found(self, found: Help) -> None:
        self.offer.found(found)
        self._show_answer()

    def _failed(self, error: BaseException) -> None:
        try:
            self.offer.failed(error)
        finally:
            self._show_answer()

    def _show_answer(self) -> None:
        offer = self.offer
        self.answer.value = paragraph(offer.answer) if offer.answer else ""
        cautions = "".join(paragraph(f"Caution: {text}", "xp-caution") for text in offer.cautions)
        self.notes.value = cautions + items(offer.remarks, "xp-quiet")


def _text(name: str, hint: str) -> Text:
    return _field(Text(description=name, placeholder=hint))


def _field(field: Widget) -> Widget:
    field.layout = Layout(width="auto", margin="0")
    return field


def _table(head: tuple[str, ...], rows: tuple[tuple[str, ...], ...]) -> str:
    if not rows:
        return ""
    top = "".join(f'<th scope="col">{name}</th>' for name in head)
    lines = "".join(
        f"<tr>{paragraph(first, tag='th')}{''.join(paragraph(cell, tag='td') for cell in rest)}</tr>"
        for first, *rest in rows
    )
    caption = paragraph(CAPTION, tag="caption")
    return f'<table class="xp-money-table">{caption}<thead><tr>{top}</tr></thead><tbody>{lines}</tbody></table>'
