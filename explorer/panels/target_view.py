"""The target in the frame, and the form that changes it."""

from __future__ import annotations

from ipywidgets import HTML, Checkbox, HBox, Layout, Text, VBox

from .desk import Desk
from .guard import Guard
from .markup import paragraph
from .offers import Offer
from .parts import Problems, button, row, show, words
from .target_model import TargetModel

__all__ = ["TargetEditor"]


class TargetEditor:
    """`line` stands in the frame; `form` opens beneath it."""

    def __init__(self, desk: Desk, guard: Guard) -> None:
        self.desk, self.guard = desk, guard
        self.model = TargetModel(desk)
        self.said = words("xp-target")
        self.line = HBox([self.said, button("change", "xp-target-change", guard, self._open)])
        self.line.add_class("xp-target-line")
        wide = {"layout": Layout(width="640px", max_width="100%"), "style": {"description_width": "110px"}}
        self.must = Text(description="must show", **wide)
        self.must_not = Text(description="must not show", placeholder="nothing is ruled out", **wide)
        self.must.add_class("xp-must")
        self.must_not.add_class("xp-must-not")
        self.allowed = VBox()
        self._boxes: dict[str, Checkbox] = {}
        self.problems = Problems(guard, self._use)
        take = button("set the target", "xp-target-set", guard, self._take)
        take.button_style = "primary"
        cancel = button("cancel", "xp-target-cancel", guard, lambda: show(self.form, False))
        self.form = VBox([self.must, self.must_not, self.allowed, *self.problems.widgets, row([take, cancel])])
        self.form.add_class("xp-box")
        self.form.add_class("xp-target-form")
        self.form.add_class("xp-form")
        show(self.form, False)
        desk.listen("target", self.update)
        self.update()

    def update(self) -> None:
        """Shows the target as it is now."""
        self.said.value = paragraph(f"target: {self.model.sentence}")

    def _open(self) -> None:
        self.must.value, self.must_not.value = self.desk.target, " ".join(self.desk.without)
        self.problems.show(())
        self.allowed.children = self._choices()
        show(self.form, True)

    def _choices(self) -> list[HTML | HBox]:
        self._boxes = {}
        cautions = self.model.cautions(self.desk.target)
        if not cautions:
            return []
        boxes = []
        for gene, texts in cautions.items():
            box = Checkbox(description=f"use {gene} all the same", value=gene in self.desk.allow, indent=False)
            box.layout = Layout(width="250px", flex="0 0 auto")
            self._boxes[gene] = box
            boxes.append(HBox([box, HTML(paragraph("; ".join(texts), "xp-quiet"))]))
        return [HTML(paragraph("Kept out of plans by a caution, unless you choose otherwise:")), *boxes]

    def _use(self, offer: Offer) -> None:
        (self.must if offer.field == "must" else self.must_not).value = offer.text

    def _take(self) -> None:
        allow = tuple(gene for gene, box in self._boxes.items() if box.value)
        problems = self.model.set(self.must.value, self.must_not.value, allow)
        self.problems.show(problems)
        show(self.form, bool(problems))
