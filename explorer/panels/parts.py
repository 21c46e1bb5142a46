"""The small widgets that every form is put together from."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from ipywidgets import HTML, Button, HBox, Widget

from .guard import Guard
from .markup import items
from .offers import Offer, Problem

__all__ = ["Problems", "button", "row", "show", "words"]


def button(label: str, css: str, guard: Guard, action: Callable[[], object]) -> Button:
    """A button that does this when pressed."""
    made = Button(description=label)
    made.add_class(css)
    made.on_click(guard(lambda _: action()))
    return made


def row(widgets: Sequence[Widget]) -> HBox:
    """Widgets side by side, on further lines if they need it."""
    made = HBox(widgets)
    made.add_class("xp-row")
    return made


def words(css: str) -> HTML:
    """Room for words; the class says how they look."""
    made = HTML()
    made.add_class(css)
    return made


def show(widget: Widget, shown: bool) -> None:
    """Shows or hides a widget."""
    widget.layout.display = "" if shown else "none"


class Problems:
    """What is wrong with a form, and a button for each text that would mend it. `widgets` go under the form."""

    def __init__(self, guard: Guard, use: Callable[[Offer], None]) -> None:
        """use: puts the text of an offer into its field."""
        self._guard, self._use = guard, use
        self._message = words("xp-form-message")
        self._offers = row([])
        self.widgets = (self._message, self._offers)
        self.show(())

    def say(self, text: str) -> None:
        """Shows one problem that no offer mends."""
        self.show((Problem(text),))

    def show(self, problems: Iterable[Problem]) -> None:
        """Shows these in place of what was there."""
        found = list(problems)
        self._message.value = items((problem.text for problem in found), "xp-problem")
        self._offers.children = [self._button(offer) for problem in found for offer in problem.offers]
        for widget in self.widgets:
            show(widget, bool(found))

    def _button(self, offer: Offer) -> Button:
        def take() -> None:
            self.show(())
            self._use(offer)

        return button(f"use {offer.name}", "xp-offer", self._guard, take)
