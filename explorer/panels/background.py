"""Long work beside the screen: a thread with progress and a stop, and the bar that shows both."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from threading import Event, Thread
from typing import Any, Generic, TypeVar

from ipywidgets import HTML, Button, FloatProgress, HBox

from .markup import paragraph

__all__ = ["Job", "JobBar", "Progress", "Stopped"]

T = TypeVar("T")
Progress = Callable[[float, str], None]
"""Told how far the work is, from 0 to 1, and what is being done."""

SECONDS_BETWEEN_NEWS = 0.1


class Stopped(Exception):
    """Raised inside the work, by its progress callback, once it is to end."""


class Job(Generic[T]):
    """Runs `work(progress)` in a thread. All that it reports arrives in the event loop that started the job.

    done: gets the result. failed: gets the exception, of the work or of `done`; `Stopped` if the user stopped the job.
    news: gets the progress. Without a running event loop the work is done at once, in the caller's thread.
    """

    def __init__(
        self,
        work: Callable[[Progress], T],
        done: Callable[[T], None],
        failed: Callable[[Exception], None],
        news: Progress | None = None,
    ) -> None:
        self._work, self._done, self._failed, self._news = work, done, failed, news
        self._stop, self._dropped = Event(), Event()
        self._told = 0.0
        self._loop: asyncio.AbstractEventLoop | None = None
        self.running = True
        try:
            self._loop = asyncio.get_running_loop()
        except RuntimeError:
            self._run()
        else:
            Thread(target=self._run, daemon=True).start()

    def stop(self) -> None:
        """Asks the work to end at its next sign of progress."""
        self._stop.set()

    def drop(self) -> None:
        """Ends the work, and lets nothing of it arrive any more."""
        self._dropped.set()
        self._stop.set()

    def _run(self) -> None:
        try:
            result = self._work(self._progress)
        except Exception as error:
            self._deliver(self._fail, error)
        else:
            self._deliver(self._finish, result)

    def _finish(self, result: T) -> None:
        self.running = False
        try:
            self._done(result)
        except Exception as error:
            self._failed(error)

    def _fail(self, error: Exception) -> None:
        self.running = False
        self._failed(error)

    def _progress(self, share: float, text: str = "") -> None:
        if self._stop.is_set():
            raise Stopped
        now = time.monotonic()
        if self._news is not None and now - self._told >= SECONDS_BETWEEN_NEWS:
            self._told = now
            self._deliver(self._news, share, text)

    def _deliver(self, report: Callable[..., None], *what: Any) -> None:
        def arrive() -> None:
            if not self._dropped.is_set():
                report(*what)

        if self._loop is not None:
            try:
                self._loop.call_soon_threadsafe(arrive)
                return
            except RuntimeError:  # that loop has closed, as when the page was reloaded
                pass
        arrive()


class JobBar(HBox):  # type: ignore[misc]
    """A progress bar with its words and a Stop button; hidden while nothing runs. One job at a time."""

    def __init__(self) -> None:
        self._bar = FloatProgress(min=0.0, max=1.0)
        self._words = HTML()
        self._stop = Button(description="Stop", tooltip="Stop this work; nothing is lost")
        self._stop.on_click(lambda _: self._ask_to_stop())
        self._job: Job[Any] | None = None
        super().__init__([self._bar, self._words, self._stop])
        self.add_class("xp-job")
        self.layout.display = "none"

    @property
    def running(self) -> bool:
        return self._job is not None and self._job.running

    def start(
        self,
        work: Callable[[Progress], T],
        done: Callable[[T], None],
        failed: Callable[[Exception], None],
        words: str = "working",
    ) -> None:
        """Starts a job in place of one that still runs. failed: not told of a stop by the user; the bar says that."""
        if self._job is not None:
            self._job.drop()

        def finish(result: T) -> None:
            self.layout.display = "none"
            done(result)

        def fail(error: Exception) -> None:
            if isinstance(error, Stopped):
                self._show(0.0, "stopped", stoppable=False)
            else:
                self.layout.display = "none"
                failed(error)

        self._show(0.0, words)
        self._job = Job(work, finish, fail, self._show)

    def _show(self, share: float, words: str, *, stoppable: bool = True) -> None:
        self._bar.value = share
        self._words.value = paragraph(words)
        self._bar.layout.display = self._stop.layout.display = "" if stoppable else "none"
        self._stop.disabled = False
        self.layout.display = ""

    def _ask_to_stop(self) -> None:
        if self._job is not None:
            self._job.stop()
            self._stop.disabled = True
            self._words.value = paragraph("stopping")
