"""The log of the pairing that is chosen: what it is, what happened, and buttons to write down what happens."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from ipywidgets import HTML, Button, DatePicker, Dropdown, HBox, Layout, VBox

from ...collection import SeasonEvent
from ...notation import capital
from ..guard import Guard
from ..markup import items, paragraph
from ..offers import Problem
from ..parts import Problems, button, row, show, words
from .season_diary_model import DAY_EVENTS, MALE_EVENTS
from .season_model import SeasonModel

__all__ = ["DiaryView"]


class DiaryView:
    """`root` is the widget. done: called after everything that was tried; again: reads the log's file again."""

    def __init__(self, model: SeasonModel, guard: Guard, done: Callable[[], None], again: Button) -> None:
        self.model, self.diary, self.guard, self._told = model, model.diary, guard, done
        self.problems, self.again = Problems(guard, lambda offer: None), again
        self._listed: tuple[str, str, list[tuple[str, str]]] = ("", "", [])
        self.title, self.about, self.days = words("xp-diary-title"), words("xp-diary-about"), words("xp-diary-days")
        self.on = DatePicker(value=model.desk.now, description="on", layout=Layout(width="180px"))
        self.on.add_class("xp-diary-on")
        self.male = Dropdown(options=[("", "")], description="male")
        self.male.layout = Layout(width="auto", flex="1 1 120px", min_width="0")
        self.male.add_class("xp-diary-male")
        self.events = {
            name: button(capital(name), f"xp-event-{_css(name)}", guard, self._writer(name))
            for name in (*MALE_EVENTS, *DAY_EVENTS)
        }
        self.step_in = button("", "xp-step-in", guard, lambda: self._do(model.plan.step_in(self.diary.dam)))
        self.begin = button(
            "begin its clutch in the Clutch book", "xp-begin-clutch", guard, lambda: self._do(self.diary.begin_clutch())
        )
        self.begin.button_style = "primary"
        self.begun = words("xp-clutch-begun")
        self.ends, self.entries = row([self.step_in, self.begin, self.begun]), VBox()
        self.entries.add_class("xp-diary-entries")
        left = VBox(
            [
                row([self.on, self.male]),
                row(list(self.events.values())),
                *self.problems.widgets,
                self.again,
                self.ends,
                self.entries,
            ],
            layout=Layout(flex="1 1 500px", min_width="0"),
        )
        right = VBox([self.about, self.days], layout=Layout(flex="1 1 500px", min_width="0"))
        sides = HBox([left, right])
        sides.add_class("xp-sides")
        self.root = VBox([self.title, sides])
        for css in ("xp-box", "xp-diary"):
            self.root.add_class(css)

    def update(self) -> None:
        """Shows the pairing that is chosen."""
        diary, one = self.diary, self.diary.standing
        show(self.root, one is not None)
        if one is None:
            return
        self.title.value = paragraph(f"The log of {diary.title}", tag="h3")
        options = [(choice.label, choice.id) for choice in diary.males]
        if one.dam != self._listed[0]:
            self.clear()
        if (one.dam, one.sire, options) != self._listed:
            self._listed = one.dam, one.sire, options
            self.male.options = options
            self.male.value = one.sire if one.sire in dict(options).values() else next(iter(options), ("", None))[1]
        self.step_in.description = f"{one.sire} failed: {one.second} steps in"
        show(self.step_in, bool(one.second) and not one.carrying)
        show(self.begin, diary.can_begin)
        self.begun.value = paragraph(f"Its clutch is {diary.clutch} in the Clutch book.") if diary.clutch else ""
        show(self.ends, (bool(one.second) and not one.carrying) or diary.can_begin or bool(diary.clutch))
        entries = [self._entry(event, said) for event, said in diary.entries]
        head = "Written down so far" if entries else "Nothing is written down yet. Choose the day, then what happened."
        title = paragraph(head, tag="h4") if entries else paragraph(head, "xp-quiet")
        self.entries.children = [HTML(title), *entries]
        facts = "".join(f"{paragraph(what, tag='dt')}{paragraph(text, tag='dd')}" for what, text in diary.facts)
        cautions = items((f"Caution: {text}" for text in self.model.standings.cautions(one)), "xp-caution")
        trouble = items(one.trouble, "xp-problem")
        self.about.value = f"{trouble}<dl>{facts}</dl>{cautions}"
        self.days.value = self._calendar()

    def _calendar(self) -> str:
        one = self.diary.standing
        assert one is not None
        head = "".join(f'<th scope="col">{name}</th>' for name in ("event", "when", "source"))
        rows = "".join(
            f'<tr><th scope="row">{paragraph(day.event, tag="span")}</th>{paragraph(day.words, tag="td")}'
            f"{paragraph('; '.join((day.last_source, *day.remarks)), tag='td')}</tr>"
            for day in one.days
            if day.known
        )
        told = paragraph("Each window also rests on the sources of those above it.", "xp-quiet")
        return f'<table class="xp-changed"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>{told}'

    def _entry(self, event: SeasonEvent, said: str) -> HBox:
        out = button("take out", "xp-entry-out", self.guard, lambda: self._do(self.diary.take_out(event)))
        out.tooltip = f"take out: {said}"
        return row([HTML(paragraph(said)), out])

    def _do(self, problems: tuple[Problem, ...]) -> None:
        self._told()
        self.problems.show(problems)
        show(self.again, self.model.plan.conflict)

    def clear(self) -> None:
        """What was wrong before is gone."""
        self.problems.show(())
        show(self.again, False)

    def _writer(self, event: str) -> Callable[[], None]:
        def write() -> None:
            on: date | None = self.on.value
            self._do(self.diary.write(event, on, (self.male.value or "") if event in MALE_EVENTS else ""))

        return write


def _css(event: str) -> str:
    return event.replace(" ", "-")
