"""Where the clutch book and the lists made from it lie, how a book is opened, and what is not written over."""

from __future__ import annotations

import re
from pathlib import Path

from ..collection import Collection, CollectionError, Finding, SaveRefused
from ..collection.clutch_book import ClutchBook
from ..collection.storage import digest, read_text_if_any, real_path

__all__ = ["BLANK", "book_file", "list_file", "opened_book", "refuse_if_changed"]

BLANK = "clutch,dam,sire,laid,hatched,eggs,slugs,died,look,sex,count\n"
"""A clutch book with nothing in it."""


def book_file(collection: Path) -> Path:
    """The file of the clutch book that goes with a collection file."""
    return real_path(collection).with_suffix(".clutches.csv")


def list_file(collection: Path, clutch: str) -> Path:
    """The file for the printed list of a clutch."""
    return real_path(collection).with_suffix(f".{re.sub(r'[^A-Za-z0-9_-]+', '-', clutch)}.list.html")


def opened_book(file: Path, animals: Collection) -> tuple[ClutchBook, str | None]:
    """The clutch book in a file, and the file's content, None if there is no file.

    The book is a blank one, to be saved there, if there is no file or nothing in it. Raises CollectionError with all
    that is wrong.
    """
    content = read_text_if_any(file)
    return ClutchBook.of(content or BLANK, animals, {real_path(file): digest(content or "")}), content


def refuse_if_changed(file: Path, seen: str | None) -> None:
    """Raises SaveRefused if a file does not hold what was last read or written there. seen: None if there was none."""
    try:
        same = read_text_if_any(file) == seen
    except CollectionError:
        same = False
    if not same:
        found = f"{file.name} was changed by another program since it was read"
        raise SaveRefused([Finding("error", None, "", found, "", "read it again; nothing was written")], file.name)
