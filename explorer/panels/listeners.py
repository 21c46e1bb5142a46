"""Who is told of which change, so that nobody is hurt by another's error. No widgets."""

from __future__ import annotations

import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Literal

__all__ = ["Listeners", "Topic"]

Topic = Literal["animals", "target", "season", "looks"]
TOPICS: tuple[Topic, ...] = ("animals", "target", "season", "looks")
Report = Callable[[str], None]
Shown = Callable[[], bool]


class Listeners:
    """failures: errors of those who listen without saying where to report them."""

    def __init__(self) -> None:
        self.failures: list[str] = []
        self._listeners: dict[Topic, list[tuple[Callable[[], None], Report, Shown]]] = {topic: [] for topic in TOPICS}
        self._late: dict[Callable[[], None], tuple[Report, Shown]] = {}
        self._report: Report = self._note
        self._shown: Shown = lambda: True

    def listen(self, topic: Topic, callback: Callable[[], None]) -> None:
        """Calls back after each change of the topic. An error in one callback does not stop the others."""
        self._listeners[topic].append((callback, self._report, self._shown))

    @contextmanager
    def reporting_to(self, report: Report, shown: Shown = lambda: True) -> Iterator[None]:
        """Who listens from in here has the errors of its callbacks told to `report`, and "" once they work again.

        shown: whether it can be seen; if not, it is called back once, when `catch_up` finds that it can.
        """
        before = self._report, self._shown
        self._report, self._shown = report, shown
        try:
            yield
        finally:
            self._report, self._shown = before

    def tell(self, *topics: Topic) -> None:
        """Calls everybody who listens to one of the topics, once."""
        called = {callback: (report, shown) for t in topics for callback, report, shown in self._listeners[t]}
        self._late.update(called)
        self.catch_up()

    def catch_up(self) -> None:
        """Calls everybody who was told of something while out of sight and can be seen now."""
        details: dict[Report, str] = {}
        for callback, (report, shown) in list(self._late.items()):
            if callback in self._late and shown():
                del self._late[callback]
                details.setdefault(report, "")
                try:
                    callback()
                except Exception:
                    details[report] += traceback.format_exc()
        for report, text in details.items():
            report(text)

    def _note(self, details: str) -> None:
        if details:
            self.failures.append(details)
