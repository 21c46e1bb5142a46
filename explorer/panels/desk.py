"""What all panels share: the collection that is open, the target, the season. No widgets."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path

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
from .clutch_disputes import contradiction, fresh_disputes
from .listeners import Listeners
from .season_desk import SeasonDesk

__all__ = ["Desk"]


class Desk(Listeners):
    """The state that every panel reads. Panels listen to a topic and are told when it changes.

    animals: the collection as it stands, with edits that may not be saved yet; None until a file was opened. refused:
    the file that could not be opened last, with what is wrong in it. unsaved: whether they differ from their file as it
    was last read or saved. today: the day that decides who is ready; it moves with the season that is looked at, and
    `now` does not. target, without, allow, testable: texts found good. taste, opinions: the keeper's own, from the
    files beside the collection; looks_refused: what is wrong in those. book: the clutch book beside the collection, as
    it stands in its file; the animals are given what it says. None if it cannot be read; book_refused: what is wrong
    in it then. season: the weights and the season log beside the collection, which the animals are given too.
    """

    def __init__(self, path: str | Path, today: date, catalogue: Catalogue | None = None) -> None:
        super().__init__()
        self.catalogue = catalogue or load_catalogue()
        self.path = Path(path).expanduser().absolute()
        self.now = self.today = today
        self.care = Husbandry(catalogue=self.catalogue)
        self.animals: Collection | None = None
        self.refused: tuple[Path, tuple[Finding, ...]] | None = None
        self.target = "Leopard Pinstripe Desert Ghost"
        self.without: tuple[str, ...] = ()
        self.allow: tuple[str, ...] = ()
        self.testable: tuple[str, ...] = ()
        self.taste: Taste = dict(DEFAULT_TASTE)
        self.opinions: tuple[Effect, ...] = ()
        self.looks_refused: tuple[Finding, ...] = ()
        self.book: ClutchBook | None = None
        self.book_refused: tuple[Finding, ...] = ()
        self.season = SeasonDesk(self)
        self._saved = ""
        self._in_book: str | None = None
        self._put: list[Mapping[str, str]] = []
        self._done: list[tuple[str, Callable[[bool], None]]] = []

    @property
    def unsaved(self) -> bool:
        return self.animals is not None and self.animals.text != self._saved

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
        self.path, self.animals, self.refused = file, animals, None
        self._saved, self._put = animals.text, []
        self.animals = self.season.read(file, animals)
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
            self.book, self._in_book = opened_book(book_file(self.path), self.animals)
        except CollectionError as error:
            self.book_refused = error.findings
        if self.book or self.animals.clutches:
            self.animals = self.animals.updated(self.book or ())

    def write_clutch(
        self,
        values: Mapping[str, str],
        hatchlings: Sequence[Mapping[str, str]] | None = None,
        overwrite: bool = False,
        despite: bool = False,
    ) -> Path | None:
        """Adds or changes a clutch, arguments as for `ClutchBook.with_clutch`, and saves the book; its backup's path.

        Raises CollectionError, its kind Contradiction if the clutch cannot be true together with the records (unless
        `despite`), and SaveRefused if another program changed the file (unless `overwrite`); then nothing changes.
        """
        assert self.animals is not None and self.book is not None
        key, book = values["clutch"], self.book.with_clutch(values, hatchlings)
        animals = self.animals.updated(book)
        if not despite and (disputes := fresh_disputes(self.animals, animals, key)):
            raise contradiction(animals, disputes, key)
        return self._keep_book(book, animals, f"writing {key}", overwrite)

    def drop_clutch(self, key: str, overwrite: bool = False) -> Path | None:
        """Takes a clutch out of the book and saves it; otherwise as `write_clutch`."""
        assert self.animals is not None and self.book is not None
        book = self.book.without(key)
        return self._keep_book(book, self.animals.updated(book), f"taking {key} out", overwrite)

    def _keep_book(self, book: ClutchBook, animals: Collection, what: str, overwrite: bool) -> Path | None:
        assert self.book is not None
        before, content = self.book, self._in_book
        backup = book.save(book_file(self.path), overwrite=overwrite)
        self.book, self.animals, self._in_book = book, animals, book.text
        self._done.append((what, lambda over: self._back_to(before, content, over)))
        self.tell("animals")
        return backup

    def hold_back(self, row: Mapping[str, str]) -> None:
        """Adds a hatchling of a clutch as an animal; otherwise as `put`. It can be undone."""
        assert self.animals is not None
        before, earlier = self.animals, len(self._put)
        self._take(self.animals.with_animal(row))
        self._done.append((f"adding {row['id']}", lambda _: self._without(row["id"], before, earlier)))
        self.tell("animals")

    @property
    def undoable(self) -> str:
        """What `undo` would undo: "writing C01", "adding F16"; "" if there is nothing."""
        return self._done[-1][0] if self._done else ""

    def undo(self, overwrite: bool = False) -> None:
        """Undoes the last thing that was done to the clutch book or for it.

        The book's file becomes what it was before, to the last byte, and is taken away if there was none; so does the
        collection's text, except for what was edited since. Raises CollectionError if what was done since rests on it,
        and SaveRefused as `write_clutch`; then nothing changes.
        """
        self._done[-1][1](overwrite)
        self._done.pop()
        self.tell("animals")

    def _back_to(self, book: ClutchBook, content: str | None, overwrite: bool) -> None:
        assert self.animals is not None
        former = book.beside(self.animals)
        animals = self.animals.updated(former)
        former.put_back(book_file(self.path), content, overwrite=overwrite)
        self.book, self.animals, self._in_book = former, animals, content

    def _without(self, key: str, before: Collection, earlier: int) -> None:
        """The collection from before this animal was added, with what was put into it since."""
        later = [row for row in self._put[earlier:] if row["id"] != key]
        for row in later:
            before = before.with_animal(row)
        self._take(before)
        self._put[earlier:] = later

    def _take(self, animals: Collection) -> None:
        """Takes up a changed collection. Raises CollectionError if it contradicts what is kept beside it."""
        book = None if self.book is None else self.book.beside(animals)
        self.animals, self.book = self.season.beside(animals), book

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
        self.take_up(self.animals.with_animal(row), [row])

    def take_up(self, animals: Collection, rows: Sequence[Mapping[str, str]] = ()) -> None:
        """Takes up a changed collection. rows: what was put into it.

        Raises CollectionError if it contradicts what is kept beside it; then nothing changes.
        """
        self._take(animals)
        self._put += map(dict, rows)
        self.tell("animals")

    def save(self, overwrite: bool = False) -> Path | None:
        """Saves to the file that is open, after a dated backup; returns the backup's path.

        Raises SaveRefused if another program changed the file since (unless `overwrite`), or it cannot be written.
        """
        assert self.animals is not None
        backup = self.animals.save(self.path, overwrite=overwrite)
        self._saved = self.animals.text
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
