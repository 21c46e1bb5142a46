"""The form for one clutch: its parents, dates and eggs, and how many hatchlings have which look."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HTML, Box, Dropdown, Layout, Text, VBox, Widget

from ...pictures.palette import nearness_shade
from ..choosing import Role, choices
from ..guard import Guard
from ..markup import paragraph
from ..offers import Offer, Problem
from ..parts import Problems, button, row, show, words
from .clutch_form_model import FIELDS, Misfit
from .clutch_model import ClutchModel
from .tally_view import TallyView

__all__ = ["ClutchForm"]

LABELS = {"died": "died in the egg"}
HINTS = {"clutch": "such as C01", "laid": "YYYY-MM-DD", "hatched": "YYYY-MM-DD"}
WIDTHS = {"clutch": "120px", "laid": "140px", "hatched": "140px", "eggs": "90px", "slugs": "90px", "died": "120px"}
LOOK_FIELDS = ("look", "sex", "count")
"""Fields of what hatched; the others, but for "", are of the clutch as a whole."""

HOW_MANY = (("one sired the clutch", False), ("several may have sired it", True))


class ClutchForm:
    """`root` is the widget. changed: called after every change of the form; closed: once it is written or cancelled."""

    def __init__(
        self, model: ClutchModel, guard: Guard, changed: Callable[[], None], closed: Callable[[], None]
    ) -> None:
        self.model, self.form, self.guard = model, model.form, guard
        self._changed, self._closed = changed, closed
        self._filling = self._sure = False
        self.heading = HTML()
        self.fields: dict[str, Text] = {name: self._field(name) for name in FIELDS}
        self.dam = self._picker("dam", lambda key: setattr(self.form, "dam", key))
        self.sires = VBox()
        self.more_males = button("another male", "xp-more-males", guard, self._another_male)
        self.several = Dropdown(options=HOW_MANY, description="of these", layout=Layout(width="330px"))
        self.several.add_class("xp-several")
        self.several.observe(guard(lambda change: self._set(lambda: self._share(change.new))), "value")
        self.tally = TallyView(layout=Layout(width="auto"))
        self.tally.observe(guard(lambda change: self._set(lambda: self.form.count(change.new))), "counts")
        self.none = words("xp-quiet")
        self.wrong, self.wrong_looks = Problems(guard, self._use), Problems(guard, self._use)
        self.more_looks = button("list more looks", "xp-more-looks", guard, self._list_more)
        self.look = Text(description="another look", placeholder="such as Pastel, maybe Yellow Belly")
        self.look.layout = Layout(flex="1 1 240px", width="auto", min_width="0")
        self.look.add_class("xp-other-look")
        self.look.observe(guard(lambda change: self._look_typed(change.new)), "value")
        self.look.on_msg(guard(lambda _, message, __: self._look_sent(message)))
        add = button("add this look", "xp-add-look", guard, self._add_look)
        self.problems = Problems(guard, self._use)
        self.take = button("write it down", "xp-write-clutch", guard, self._write)
        self.take.button_style = "primary"
        self.over = button("write over that", "xp-write-over", guard, lambda: self._write(True))
        self.despite = button("write it down all the same", "xp-write-despite", guard, lambda: self._write(False, True))
        cancel = button("cancel", "xp-cancel-clutch", guard, self._cancel)
        ends = row([self.take, self.despite, self.over, cancel])
        whole, looks = [self.heading, self._top(), *self.wrong.widgets], [*self._looks(add), *self.wrong_looks.widgets]
        self.root = VBox([*whole, *looks, *self.problems.widgets, ends])
        self.root.add_class("xp-clutch-form")

    def _top(self) -> Widget:
        parents = Box([self.dam, VBox([self.sires, row([self.more_males, self.several])])])
        parents.add_class("xp-clutch-parents")
        fields = row(list(self.fields.values()))
        fields.add_class("xp-clutch-fields")
        return VBox([parents, fields])

    def _looks(self, add: Widget) -> list[Widget]:
        return [self.none, self.tally, row([self.look, add, self.more_looks])]

    def fill(self) -> None:
        """Puts what the model holds into the fields."""
        self._filling, self._sure = True, False
        try:
            self.heading.value = paragraph(self.form.heading, tag="h3")
            for name, field in self.fields.items():
                field.value = self.form.texts[name]
            self.fields["clutch"].disabled = bool(self.form.key)
            self.look.value = ""
            self.several.value = self.form.several
            self._fill_parents()
            self.say(())
            self.tally.fill(self.form.counts)
        finally:
            self._filling = False
        self.update()

    def refresh(self) -> None:
        """Takes up what changed on the desk; what is filled in stays."""
        self._fill_parents()
        self.update()

    def update(self) -> None:
        """Shows the looks of the parents as they are known now."""
        looks = self.form.looks
        rows = [
            {"look": one.text, "chance": one.chance, "note": one.note, "shade": nearness_shade(one.closeness)}
            for one in looks
        ]
        if rows != self.tally.rows:
            self.tally.rows = rows
        show(self.tally, bool(looks))
        self.none.value = "" if looks else paragraph("Choose the dam and the sire to see the looks they can give.")
        show(self.none, not looks)
        show(self.more_looks, self.form.more)
        show(self.several, len(self.form.sires) > 1)
        show(self.over, self.model.conflict)
        show(self.despite, self.form.contradicted)

    def focus(self) -> None:
        """Puts the cursor where filling in begins."""
        (self.fields["eggs"] if self.form.dam else self.dam).focus()

    def say(self, problems: tuple[Problem, ...]) -> None:
        """Shows what is wrong, each near its field, which is marked."""
        placed: dict[Problems, list[Problem]] = {self.wrong: [], self.wrong_looks: [], self.problems: []}
        named = {problem.field for problem in problems if isinstance(problem, Misfit)}
        for problem in problems:
            name = problem.field if isinstance(problem, Misfit) else ""
            near = self.wrong_looks if name in LOOK_FIELDS else self.wrong if name else self.problems
            placed[near].append(problem)
        for place, found in placed.items():
            place.show(found)
        marked = {**self.fields, "dam": self.dam, "sire": self.sires, "look": self.look}
        for name, field in marked.items():
            (field.add_class if name in named else field.remove_class)("xp-wrong")

    def _field(self, name: str) -> Text:
        field = Text(description=LABELS.get(name, name), placeholder=HINTS.get(name, ""))
        field.layout = Layout(width=WIDTHS[name], margin="0")
        field.add_class(f"xp-field-{name}")
        field.observe(self.guard(lambda change: self._set(lambda: self.form.texts.update({name: change.new}))), "value")
        return field

    def _picker(self, role: Role, choose: Callable[[str], None]) -> Dropdown:
        made = Dropdown(options=[("", "")], description=role, layout=Layout(width="auto", margin="0"))
        made.add_class(f"xp-clutch-{role}")
        made.observe(self.guard(lambda change: self._set(lambda: choose(change.new))), "value")
        return made

    def _fill_parents(self) -> None:
        """Lists the animals again, with as many males as the model holds."""
        before, self._filling = self._filling, True
        try:
            pickers = list(self.sires.children)[: len(self.form.sires)]
            for place in range(len(pickers), len(self.form.sires)):
                pickers.append(self._picker("sire", lambda key, at=place: self._choose_sire(at, key)))  # type: ignore[misc]
            self.sires.children = pickers
            listed: list[tuple[Role, Dropdown, str]] = [("dam", self.dam, self.form.dam)]
            listed += [("sire", one, key) for one, key in zip(pickers, self.form.sires, strict=True)]
            for role, picker, key in listed:
                found = [(f"choose the {role}", ""), *((one.label, one.id) for one in choices(self.form.desk, role))]
                known = key in {value for _, value in found}
                picker.options = found if known else [*found, (key, key)]
                picker.value = key
        finally:
            self._filling = before

    def _choose_sire(self, at: int, key: str) -> None:
        self.form.sires[at] = key

    def _share(self, several: bool) -> None:
        self.form.several = several

    def _set(self, take: Callable[[], object]) -> None:
        if not self._filling:
            self._sure = False
            self.form.reconsider()
            take()
            self.update()
            self._changed()

    def _another_male(self) -> None:
        self.form.sires.append("")
        self._fill_parents()
        self.update()

    def _list_more(self) -> None:
        self.form.list_more()
        self.update()

    def _add_look(self) -> None:
        self.say(self.form.add_look(self.look.value))
        self.look.value = self.form.look
        self.update()

    def _look_typed(self, text: str) -> None:
        self.form.look = text

    def _look_sent(self, message: object) -> None:
        """Enter adds the look."""
        if isinstance(message, dict) and message.get("event") == "submit":
            self._add_look()

    def _write(self, overwrite: bool = False, despite: bool = False) -> None:
        problems = self.model.write(overwrite, despite)
        self.say(problems)
        self.update()
        (self._changed if problems else self._closed)()

    def _cancel(self) -> None:
        if self.form.changed and not self._sure:
            self._sure = True
            self.say((Problem("What is filled in would be lost. Press “cancel” again to drop it."),))
            return
        self.model.editing = self.model.conflict = False
        self._closed()

    def _use(self, offer: Offer) -> None:
        field = self.look if offer.field == "look" else self.fields.get(offer.field)
        if field is not None:
            field.value = offer.text
