"""The clutch book: what hatched, clutch by clutch, in a file that is written as carefully as the collection's."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from .animals import Collection as Animals
from .clutch import Clutch
from .clutch_draft import CLUTCHES, GROUP_COLUMNS
from .clutch_editing import edited
from .clutch_reading import ClutchReading, read_clutch_text
from .findings import CollectionError, Finding, SaveRefused, nearest
from .storage import digest, read_text, real_path, write_text

__all__ = ["ClutchBook", "read_clutches"]


class ClutchBook:
    """The clutches of one file, in file order; made by `read_clutches` or `from_text`, and never changed.

    `book["C01"]` is one clutch. clutches: all of them; kept: clutch -> ids of the animals of the collection that
    hatched in it; findings: remarks that did not stop the reading. To undo a change, save the book from before it.
    """

    def __init__(self, reading: ClutchReading, animals: Animals, seen: dict[Path, str]) -> None:
        """seen: file -> digest of what was last read or written there; one for all that come from one reading."""
        self._sheet = reading.sheet
        self._animals = animals
        self._seen = seen
        self.clutches: tuple[Clutch, ...] = reading.clutches
        self.kept: Mapping[str, tuple[str, ...]] = reading.kept
        self.findings: tuple[Finding, ...] = reading.findings

    @classmethod
    def from_text(cls, text: str, animals: Animals) -> ClutchBook:
        """Reads the text of a clutch book. Raises CollectionError with all findings if one is an error."""
        return cls.of(text, animals, {})

    @classmethod
    def of(cls, text: str, animals: Animals, seen: dict[Path, str]) -> ClutchBook:
        """As `from_text`, for the files in `seen`: file -> digest of what is in it, of "" if there is no such file."""
        try:
            return cls(read_clutch_text(text, animals), animals, seen)
        except CollectionError as error:
            file = next((file.name for file in seen), "the clutch book")
            raise CollectionError(error.findings, file) from None

    @property
    def text(self) -> str:
        """The file's text as `save` writes it."""
        return self._sheet.text

    @property
    def columns(self) -> tuple[str, ...]:
        """The file's columns, in its order, in lower case."""
        return self._sheet.columns

    def __getitem__(self, key: str) -> Clutch:
        for clutch in self.clutches:
            if clutch.id == key:
                return clutch
        names = [clutch.id for clutch in self.clutches]
        near = nearest(key, names) or names[:3]
        raise KeyError(f"no clutch {key!r}; nearest: {', '.join(near) or 'there are none'}")

    def __iter__(self) -> Iterator[Clutch]:
        return iter(self.clutches)

    def __len__(self) -> int:
        return len(self.clutches)

    def __contains__(self, key: object) -> bool:
        return any(clutch.id == key for clutch in self.clutches)

    def with_clutch(
        self, values: Mapping[str, str], hatchlings: Sequence[Mapping[str, str]] | None = None
    ) -> ClutchBook:
        """A new book with the clutch of this name added, or changed if there is one.

        values: column -> text of the clutch; "clutch" must be there, and what is not named stays as it is. hatchlings:
        "look", "sex", "count" of each group of like hatchlings, in place of those there are; None leaves them. Rows
        that nothing changes keep their own text. Raises CollectionError with all findings.
        """
        whole = self._named(values, GROUP_COLUMNS, "say it of the hatchlings")
        groups = hatchlings
        if hatchlings is not None:
            others = [name for name in CLUTCHES.columns if name not in GROUP_COLUMNS]
            groups = [self._named(group, others, "say it of the clutch") for group in hatchlings]
        if not whole.get(CLUTCHES.key):
            raise _refused(CLUTCHES.key, "no clutch", "the clutch's name", "give it one, such as C01")
        return self._of(edited(self._sheet, whole, groups).text, self._animals)

    def without(self, key: str) -> ClutchBook:
        """A new book without this clutch. Raises KeyError if there is none."""
        return self._of(self._sheet.without_row(self[key].id).text, self._animals)

    def beside(self, animals: Animals) -> ClutchBook:
        """The same book beside a collection that has changed. Raises CollectionError if they contradict each other."""
        return self._of(self.text, animals)

    def save(
        self, path: str | os.PathLike[str], *, overwrite: bool = False, now: datetime | None = None
    ) -> Path | None:
        """Writes the file in one step; what was there stays beside it as a dated backup, which is returned.

        Raises SaveRefused if the file changed since it was read, or is another one that was never read (unless
        `overwrite`), or cannot be written. now: the moment that names the backup, by default the clock's.
        """
        return self.put_back(path, self.text, overwrite=overwrite, now=now)

    def put_back(
        self,
        path: str | os.PathLike[str],
        content: str | None,
        *,
        overwrite: bool = False,
        now: datetime | None = None,
    ) -> Path | None:
        """As `save`, of a book that becomes again what it was: its file gets the content that it had then.

        content: None if there was no file; then it is taken away.
        """
        file = real_path(path)
        if file not in self._seen and file.exists() and not overwrite:
            found = f"{file.name} is there already, and holds what this clutch book was not read from"
            advice = "open it, save under another name, or choose to overwrite"
            raise SaveRefused([Finding("error", None, "", found, "", advice)], file.name)
        backup = write_text(file, content, seen=self._seen.get(file), overwrite=overwrite, now=now)
        self._seen[file] = digest(content or "")
        return backup

    def _named(self, given: Mapping[str, str], misplaced: Collection[str], advice: str) -> dict[str, str]:
        """Column -> trimmed text. Raises CollectionError for a column that is unknown or misplaced."""
        texts = {name.strip().casefold(): text.strip() for name, text in given.items()}
        for name in texts:
            if name in misplaced:
                raise _refused(name, "a column that stands in the wrong place", "", advice)
            if name not in self.columns and name not in CLUTCHES.columns:
                near = nearest(name, [*self.columns, *CLUTCHES.columns])
                said = f"Nearest: {', '.join(dict.fromkeys(near))}" if near else "add the column to the file first"
                raise _refused(name, "no column of this name", "a column of the file", said)
        return texts

    def _of(self, text: str, animals: Animals) -> ClutchBook:
        return ClutchBook.of(text, animals, self._seen)


def read_clutches(path: str | os.PathLike[str], animals: Animals) -> ClutchBook:
    """Reads a clutch book beside the collection that its parents are in.

    Raises CollectionError, which holds all findings, if one of them is an error.
    """
    try:
        text = read_text(path)
    except CollectionError as error:
        raise CollectionError(map(_of_this_kind, error.findings), error.file) from None
    return ClutchBook.of(text, animals, {real_path(path): digest(text)})


def _of_this_kind(finding: Finding) -> Finding:
    """What is said of an empty file, said of a clutch book."""
    if finding.found != "an empty file":
        return finding
    return replace(finding, needed=f"a header line and a row for each {CLUTCHES.each}", advice=CLUTCHES.start)


def _refused(column: str, found: str, needed: str, advice: str) -> CollectionError:
    return CollectionError([Finding("error", None, column, found, needed, advice)], "the clutch book")
