"""What all panels share: the collection that is open, the target, the season. No widgets."""

from __future__ import annotations

import traceback
from collections.abc import Callable, Iterator, Mapping, Sequence
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
from ..collection.clutch_book import ClutchBook
from ..genetics import genome_of
from ..husbandry import Husbandry, first_season
from ..looks import DEFAULT_TASTE, Taste, checked_taste
from ..notation import read_wanted, write_shown
from .book_keeping import book_file, opened_book

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
    book: the clutch book beside the collection, as it stands in its file; the animals are given what it says. None if
    it cannot be read; book_refused: what is wrong in it then.
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
        self.book: ClutchBook | None = None
        self.book_refused: tuple[Finding, ...] = ()
        self._done: list[tuple[str, Callable[[bool], None]]] = []
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
        self._read_book()
        self._read_looks()
        self.tell("animals", "looks")
        return True

    def read_book_again(self) -> None:
        """Takes up the clutch book as it is in its file now. What was done before can no longer be undone."""
        self._read_book()
        self.tell("animals")

    def _read_book(self) -> None:
        assert self.animals is not None
        self.book, self.book_refused, self._done = None, (), []
        try:
            self.book = opened_book(book_file(self.path), self.animals)
        except CollectionError as error:
            self.book_refused = error.findings
        if self.book or self.animals.clutches:
            self.animals = self.animals.updated(self.book or ())

    def write_clutch(
        self, values: Mapping[str, str], hatchlings: Sequence[Mapping[str, str]] | None = None, overwrite: bool = False
    ) -> Path | None:
        """Adds or changes a clutch, arguments as for `ClutchBook.with_clutch`, and saves the book; its backup's path.

        Raises CollectionError, and SaveRefused if another program changed the file (unless `overwrite`); then nothing
        changes.
        """
        assert self.book is not None
        return self._keep_book(self.book.with_clutch(values, hatchlings), f"writing {values['clutch']}", overwrite)

    def drop_clutch(self, key: str, overwrite: bool = False) -> Path | None:
        """Takes a clutch out of the book and saves it; otherwise as `write_clutch`."""
        assert self.book is not None
        return self._keep_book(self.book.without(key), f"taking {key} out", overwrite)

    def _keep_book(self, book: ClutchBook, what: str, overwrite: bool) -> Path | None:
        assert self.animals is not None and self.book is not None
        before, animals = self.book, self.animals.updated(book)
        backup = book.save(book_file(self.path), overwrite=overwrite)
        self.book, self.animals = book, animals
        self._done.append((what, lambda over: self._back_to(before, over)))
        self.tell("animals")
        return backup

    def hold_back(self, row: Mapping[str, str]) -> None:
        """Adds a hatchling of a clutch as an animal; otherwise as `put`. It can be undone."""
        assert self.animals is not None
        self._take(self.animals.with_animal(row))
        self._done.append((f"adding {row['id']}", lambda _: self._without(row["id"])))
        self.tell("animals")

    @property
    def undoable(self) -> str:
        """What `undo` would undo: "writing C01", "adding F16"; "" if there is nothing."""
        return self._done[-1][0] if self._done else ""

    def undo(self, overwrite: bool = False) -> None:
        """Undoes the last thing that was done to the clutch book or for it. A book's file gets its former text back.

        Raises CollectionError if what was done since rests on it, and SaveRefused as `write_clutch`; then nothing
        changes.
        """
        self._done[-1][1](overwrite)
        self._done.pop()
        self.tell("animals")

    def _back_to(self, book: ClutchBook, overwrite: bool) -> None:
        assert self.animals is not None
        former = book.beside(self.animals)
        animals = self.animals.updated(former)
        former.save(book_file(self.path), overwrite=overwrite)
        self.book, self.animals = former, animals

    def _without(self, key: str) -> None:
        assert self.animals is not None
        self._take(self.animals.without(key))

    def _take(self, animals: Collection) -> None:
        """Takes up a changed collection. Raises CollectionError if it contradicts the clutch book."""
        if self.book is not None:
            self.book = self.book.beside(animals)
        self.animals, self.unsaved = animals, True

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
        self._take(self.animals.with_animal(row))
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
