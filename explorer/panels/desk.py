"""What all panels share: the collection that is open, the target, the season. No widgets."""

from __future__ import annotations

import traceback
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Literal

from ..catalogue import Catalogue, Effect, load_catalogue
from ..collection import (
    Collection,
    CollectionError,
    Finding,
    opinions_file,
    read_collection,
    read_opinions,
    read_taste,
    save_opinions,
    save_taste,
    taste_file,
)
from ..genetics import genome_of
from ..husbandry import Husbandry, first_season
from ..looks import DEFAULT_TASTE, Taste, checked_taste
from ..notation import read_wanted, write_shown

__all__ = ["Desk", "Topic"]

Topic = Literal["animals", "target", "season", "looks"]
TOPICS: tuple[Topic, ...] = ("animals", "target", "season", "looks")
Report = Callable[[str], None]
Shown = Callable[[], bool]


class Desk:
    """The state that every panel reads. Panels listen to a topic and are told when it changes.

    animals: the collection as it stands, with edits that may not be saved yet; None until a file was opened. refused:
    the file that could not be opened last, with what is wrong in it. today: the day that decides who is ready; it moves
    with the season that is looked at, and `now` does not. target, without, allow, testable: texts found good. taste,
    opinions: the keeper's own, from the files beside the collection; looks_refused: what is wrong in those.
    """

    def __init__(self, path: str | Path, today: date, catalogue: Catalogue | None = None) -> None:
        self.catalogue = catalogue or load_catalogue()
        self.path = Path(path).expanduser().absolute()
        self.now = self.today = today
        self.care = Husbandry(catalogue=self.catalogue)
        self.animals: Collection | None = None
        self.refused: tuple[Path, tuple[Finding, ...]] | None = None
        self.unsaved = False
        self.target = "Leopard Pinstripe Desert Ghost"
        self.without: tuple[str, ...] = ()
        self.allow: tuple[str, ...] = ()
        self.testable: tuple[str, ...] = ()
        self.taste: Taste = dict(DEFAULT_TASTE)
        self.opinions: tuple[Effect, ...] = ()
        self.looks_refused: tuple[Finding, ...] = ()
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

    @property
    def first_season(self) -> int:
        """The year in which the first breeding season not yet over starts."""
        return first_season(self.today, self.care)

    def open(self, path: str | Path) -> bool:
        """Opens a file. If it cannot be read, what was open stays and `refused` says why. Whether it was opened."""
        file = Path(path).expanduser().absolute()
        try:
            animals = read_collection(file, catalogue=self.catalogue)
        except CollectionError as error:
            self.refused = (file, error.findings)
            return False
        self.path, self.animals, self.unsaved, self.refused = file, animals, False, None
        self._read_looks()
        self.tell("animals", "looks")
        return True

    def _read_looks(self) -> None:
        findings: list[Finding] = []
        self.taste, self.opinions = dict(DEFAULT_TASTE), ()
        try:
            self.taste = read_taste(taste_file(self.path))
        except CollectionError as error:
            findings += error.findings
        try:
            self.opinions = read_opinions(opinions_file(self.path), self.catalogue)
        except CollectionError as error:
            findings += error.findings
        self.looks_refused = tuple(findings)

    def like(self, taste: Taste, keep: bool = False) -> None:
        """Takes up a taste; `keep` writes it beside the collection. Raises ValueError, and SaveRefused."""
        self.taste = checked_taste(taste)
        if keep:
            save_taste(taste_file(self.path), self.taste)
        self.tell("looks")

    def think(self, one: Effect) -> None:
        """Adds an opinion on one quality of a form, in place of an earlier one, and writes the file of opinions.

        What another program wrote there meanwhile is kept. Raises CollectionError if the file can no longer be read or
        cannot be written; then nothing changes.
        """
        self._keep_opinions(one, (one,))

    def forget(self, one: Effect) -> None:
        """Takes back an opinion; otherwise as `think`."""
        self._keep_opinions(one, ())

    def _keep_opinions(self, instead_of: Effect, more: tuple[Effect, ...]) -> None:
        file = opinions_file(self.path)
        there = read_opinions(file, self.catalogue)
        about = (instead_of.parts, instead_of.on, *instead_of.values)
        opinions = (*(one for one in there if (one.parts, one.on, *one.values) != about), *more)
        save_opinions(file, opinions)
        self.opinions = opinions
        self.tell("looks")

    def put(self, row: Mapping[str, str]) -> None:
        """Adds an animal, or replaces the one with its id. Raises CollectionError, and then nothing changes."""
        assert self.animals is not None
        self.animals = self.animals.with_animal(row)
        self.unsaved = True
        self.tell("animals")

    def save(self, overwrite: bool = False) -> Path | None:
        """Saves to the file that is open, after a dated backup; returns the backup's path.

        Raises SaveRefused if another program changed the file since (unless `overwrite`), or it cannot be written.
        """
        assert self.animals is not None
        backup = self.animals.save(self.path, overwrite=overwrite)
        self.unsaved = False
        self.tell("animals")
        return backup

    def aim(self, target: str, without: tuple[str, ...] = (), allow: tuple[str, ...] = ()) -> None:
        """Sets the target for every panel. Raises GenesError if a text cannot be read; then nothing changes."""
        wanted = read_wanted(target, self.catalogue)
        for text in (*without, *(a for a in allow if a != "all")):
            read_wanted(text, self.catalogue)
        self.target = write_shown(genome_of(self.catalogue), wanted)
        self.without, self.allow = without, allow
        self.tell("target")

    def look_from(self, today: date) -> None:
        """Moves the day that decides the first season and who is ready."""
        self.today = today
        self.tell("season")
