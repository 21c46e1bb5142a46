"""How the males are to be shared out: targets with weights, limits, pairings that must be or must not be."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HTML, BoundedIntText, Dropdown, HBox, Layout, Text, VBox

from ..choosing import ROLES, Role, choices
from ..guard import Guard
from ..markup import paragraph
from ..offers import Offer, Problem
from ..parts import Problems, button, row, words
from ..slider import Slider
from .season_model import SeasonModel
from .season_wish_model import NO_LIMIT, Pair

__all__ = ["SeasonOptions", "animal_picker", "fill_picker"]

MOST_FEMALES = 20


class SeasonOptions:
    """`inside` are the widgets. changed: called after every change."""

    def __init__(self, model: SeasonModel, guard: Guard, changed: Callable[[], None]) -> None:
        self.model, self.wishes, self.guard, self._changed = model, model.wishes, guard, changed
        self._filling = False
        self.targets = VBox()
        self.target = Text(description="one more target", placeholder="such as Clown Piebald")
        self.target.layout = Layout(width="430px")
        self.target.add_class("xp-season-target")
        self.target.on_msg(guard(lambda _, message, __: self._sent(message)))
        self.weight = self._weight("1", lambda text: None)
        add = button("add this target", "xp-season-add-target", guard, self._add_target)
        self.per_male = BoundedIntText(
            self.wishes.per_male, min=0, max=MOST_FEMALES, description="females per male", layout=Layout(width="210px")
        )
        self.per_male.add_class("xp-season-per-male")
        self.per_male.observe(guard(lambda change: self._set("per_male", change.new)), "value")
        self.kinship = Slider(label="inbreeding at most", value=NO_LIMIT, min=0, max=NO_LIMIT, step=5, unit=" %")
        self.kinship.observe(guard(lambda change: self._set("most_inbreeding", change.new)), "value")
        self.eggs = Text(description="eggs kept at (°C)", placeholder="31.5", layout=Layout(width="220px"))
        self.eggs.add_class("xp-season-eggs")
        self.eggs.observe(guard(lambda change: self._set("eggs_c", change.new)), "value")
        self.pickers = {role: animal_picker(role) for role in ROLES}
        must = button("make it in any case", "xp-season-force", guard, lambda: self._pair(True))
        never = button("never make it", "xp-season-forbid", guard, lambda: self._pair(False))
        self.pairs, self.allowed = VBox(), VBox()
        self.problems, self.none = Problems(guard, self._use), words("xp-quiet")
        self.inside = (
            self.targets,
            row([self.target, self.weight, add]),
            row([self.per_male, self.kinship, self.eggs]),
            row([*self.pickers.values(), must, never]),
            self.pairs,
            self.allowed,
            *self.problems.widgets,
        )

    def update(self) -> None:
        """Shows the wishes as they are now."""
        self._filling = True
        try:
            self.per_male.value, self.kinship.value = self.wishes.per_male, self.wishes.most_inbreeding
            self._fill_targets()
            for role, picker in self.pickers.items():
                fill_picker(picker, role, self.model, picker.value or "")
        finally:
            self._filling = False
        self.pairs.children = [row([HTML(paragraph(said)), self._free(pair, said)]) for pair, said in self.wishes.pairs]
        self.allowed.children = [
            row([HTML(paragraph(f"{gene} is allowed in plans in spite of its cautions.")), self._bar(gene)])
            for gene in self.model.desk.allow
        ]

    def _fill_targets(self) -> None:
        wishes = self.wishes
        mine = f"{self.model.desk.target} (the target of all tabs)"
        lines = [(mine, self._weight(wishes.weight, lambda text: self._set("weight", text), mine), None)]
        lines += [
            (name, self._weight(text, lambda new, name=name: self._weigh(name, new), name), name)  # type: ignore[misc]
            for name, text in wishes.others.items()
        ]
        self.targets.children = [
            row([field, HTML(paragraph(said)), *([] if name is None else [self._drop(name)])])
            for said, field, name in lines
        ]

    def _weight(self, value: str, take: Callable[[str], object], of: str = "") -> Text:
        made = Text(value, description="weight", layout=Layout(width="130px"), continuous_update=False)
        made.add_class("xp-season-weight")
        made.tooltip = f"weight of {of}" if of else "weight"
        made.observe(self.guard(lambda change: take(change.new)), "value")
        return made

    def _free(self, pair: Pair, said: str) -> HBox:
        return self._small("leave it open again", lambda: self.wishes.free_pair(pair), said)

    def _bar(self, gene: str) -> HBox:
        return self._small("keep it out again", lambda: self.model.allow(gene, False), gene)

    def _drop(self, name: str) -> HBox:
        return self._small("drop it", lambda: self.wishes.others.pop(name), name)

    def _small(self, label: str, action: Callable[[], object], of: str) -> HBox:
        def act() -> None:
            action()
            self.update()
            self._changed()

        made = button(label, "xp-season-drop", self.guard, act)
        made.tooltip = f"{label}: {of}"
        return made

    def _set(self, name: str, value: object) -> None:
        if not self._filling:
            setattr(self.wishes, name, value)
            self.problems.show(self.wishes.problems)
            self._changed()

    def _weigh(self, name: str, text: str) -> None:
        self.wishes.others[name] = text
        self.problems.show(self.wishes.problems)
        self._changed()

    def _add_target(self) -> None:
        self._done(self.wishes.aim_too(self.target.value, self.weight.value), self.target, self.weight)

    def _pair(self, wanted: bool) -> None:
        dam, sire = (self.pickers[role].value for role in ROLES)
        self._done(self.wishes.set_pair(dam, sire, wanted))

    def _done(self, problems: tuple[Problem, ...], *fields: Text) -> None:
        self.problems.show(problems)
        if not problems:
            for field, text in zip(fields, ("", "1"), strict=False):
                field.value = text
            self.update()
            self._changed()

    def _sent(self, message: object) -> None:
        """Enter adds the target."""
        if isinstance(message, dict) and message.get("event") == "submit":
            self._add_target()

    def _use(self, offer: Offer) -> None:
        self.target.value = offer.text


def animal_picker(role: Role, label: str = "") -> Dropdown:
    """A list of animals to choose from; filled by `fill_picker`."""
    made = Dropdown(options=[("", "")], description=label or role)
    made.layout = Layout(width="auto", flex="1 1 200px", min_width="0")
    made.add_class(f"xp-season-{(label or role).replace(' ', '-')}")
    return made


def fill_picker(picker: Dropdown, role: Role, model: SeasonModel, key: str, none: str = "") -> None:
    """Lists who can be the dam or the sire, ready or not, and chooses one. none: what choosing nobody is called."""
    sexed = [one for one in choices(model.desk, role) if model.sex_of(one.id)]
    options = [(none or f"choose the {role}", ""), *((one.label, one.id) for one in sexed)]
    if tuple(options) != tuple(picker.options):
        picker.options = options
    picker.value = key if key in {value for _, value in options} else ""
