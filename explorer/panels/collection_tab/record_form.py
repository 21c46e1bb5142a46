"""The form for one animal's record."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HTML, Box, Dropdown, Layout, Text, Textarea, VBox, Widget

from ..clock import today
from ..guard import Guard
from ..markup import paragraph
from ..offers import Offer
from ..parts import Problems, button, row, show
from .collection_model import CollectionModel

__all__ = ["RecordForm"]

LABELS = {"weight_g": "weight in g", "weighed_on": "weighed on", "dna": "DNA results"}
HINTS = {
    "id": "such as F16",
    "genes": "such as Pastel het Clown; Normal if nothing is known",
    "hatched": "YYYY-MM-DD",
    "weighed_on": "YYYY-MM-DD",
    "sire": "his id, if he is in this file",
    "dam": "her id, if she is in this file",
}
ORDER = (
    *("id", "name", "sex", "status", "genes", "hatched", "clutch", "weight_g", "weighed_on"),
    *("dam", "sire", "dna", "notes"),
)
CHOICES = {
    "sex": ("female", "male", "unknown"),
    "status": ("kept", "on loan", "for sale", "sold", "dead", "retired"),
}


class RecordForm:
    """All columns of one animal; what is wrong with it stands beneath."""

    def __init__(self, model: CollectionModel, guard: Guard, closed: Callable[[str], None]) -> None:
        self.model, self.guard, self.closed = model, guard, closed
        self.heading = HTML()
        self.fields = {name: _field(name) for name in ORDER}
        self.fields["weight_g"].observe(guard(self._weighed), "value")
        self.problems = Problems(guard, self._use)
        self.before: dict[str, str] = {}
        self.take = button("save row", "xp-save-row", guard, self._take)
        self.take.button_style = "primary"
        cancel = button("cancel", "xp-cancel", guard, self._cancel)
        grid = Box(list(self.fields.values()))
        grid.add_class("xp-grid")
        self.root = VBox([self.heading, grid, *self.problems.widgets, row([self.take, cancel])])
        self.root.add_class("xp-form")

    @property
    def values(self) -> dict[str, str]:
        return {name: field.value for name, field in self.fields.items()}

    @property
    def changed(self) -> bool:
        return self.values != self.before

    def show(self, shown: bool) -> None:
        show(self.root, shown)

    def fill(self) -> None:
        """Puts the record that the model names into the fields."""
        key = self.model.editing or ""
        self.before = {}
        for name, text in self.model.form(key).items():
            field = self.fields[name]
            if isinstance(field, Dropdown) and text not in field.options:
                field.options = (*field.options, text)
            field.value = text
        self.before = self.values
        self.fields["id"].disabled = bool(key)
        self.take.description = "save row" if key else "add"
        self.heading.value = paragraph(f"change {key}" if key else "a new animal", tag="h3")
        self.problems.show(())

    def _weighed(self, _: object) -> None:
        """A new weight is taken to be of today, until the keeper writes another day."""
        if self.before and self.fields["weight_g"].value != self.before["weight_g"]:
            self.fields["weighed_on"].value = str(today())

    def _take(self) -> None:
        problems = self.model.put(self.values)
        self.problems.show(problems)
        if not problems:
            self.closed(self.fields["id"].value.strip())

    def _cancel(self) -> None:
        self.closed(self.model.editing or "")

    def _use(self, offer: Offer) -> None:
        self.fields[offer.field].value = offer.text


def _field(name: str) -> Widget:
    label = LABELS.get(name, name)
    if name in CHOICES:
        field = Dropdown(options=CHOICES[name], description=label)
    elif name in ("genes", "notes"):
        field = Textarea(description=label, placeholder=HINTS.get(name, ""), rows=2)
    else:
        field = Text(description=label, placeholder=HINTS.get(name, ""))
    field.layout = Layout(width="auto", margin="0")
    field.add_class(f"xp-field-{name}")
    return field
