"""A small file beside the collection, with one record a row: read whole or not at all, and saved as carefully as it."""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import TypeVar

from .fields import Fault
from .findings import CollectionError, Finding
from .sheet import Layout, Sheet, read_sheet
from .storage import digest, read_text_if_any, real_path, write_text

__all__ = ["FileBeside", "RowReader", "content_of", "refusing", "sheet_of", "table_text"]

Value = TypeVar("Value")


class FileBeside:
    """The text of one file. findings: remarks that did not stop the reading."""

    def __init__(self, sheet: Sheet, findings: Sequence[Finding], seen: dict[Path, str]) -> None:
        """seen: file -> digest of what was last read or written there; one for all that come from one reading."""
        self._sheet, self._seen = sheet, seen
        self.findings: tuple[Finding, ...] = tuple(findings)

    @property
    def text(self) -> str:
        """The file's text as `save` writes it."""
        return self._sheet.text

    @property
    def columns(self) -> tuple[str, ...]:
        """The file's columns, in its order, in lower case."""
        return self._sheet.columns

    def save(
        self, path: str | os.PathLike[str], *, overwrite: bool = False, now: datetime | None = None
    ) -> Path | None:
        """Writes the file in one step; what was there stays beside it as a dated backup, which is returned.

        As `Collection.save`: raises SaveRefused if the file changed since it was read (unless `overwrite`), or cannot
        be written. now: the moment that names the backup, by default the clock's.
        """
        file = real_path(path)
        backup = write_text(file, self.text, seen=self._seen.get(file), overwrite=overwrite, now=now)
        self._seen[file] = digest(self.text)
        return backup


class RowReader:
    """Reads the fields of one row and writes down every fault. key: what the row is about, as far as it is known."""

    def __init__(self, line: int, texts: Mapping[str, str], findings: list[Finding], key: str = "") -> None:
        self.line, self.texts, self.findings, self.key = line, texts, findings, key
        self.sound = True

    def field(self, column: str, read: Callable[[str], Value]) -> Value | None:
        """What `read` makes of the column's text; None if it cannot be read, which is then a finding."""
        try:
            return read(self.texts.get(column, ""))
        except Fault as fault:
            self.fault(column, fault.found, fault.needed, fault.advice)
            return None

    def fault(self, column: str, found: str, needed: str, advice: str) -> None:
        """Writes down an error."""
        self.sound = False
        self.findings.append(Finding("error", self.line, column, found, needed, advice, self.key))


def content_of(path: str | os.PathLike[str], blank: str) -> tuple[str, dict[Path, str]]:
    """The text of a file that need not be there, and what was seen of it; `blank` if there is nothing in it.

    Raises CollectionError if there is a file and it cannot be read.
    """
    file = real_path(path)
    try:
        content = read_text_if_any(file)
    except CollectionError as error:
        if all(finding.found != "an empty file" for finding in error.findings):
            raise
        return blank, {}
    return content or blank, {file: digest(content or "")}


def sheet_of(text: str, layout: Layout, file: str) -> tuple[Sheet, list[Finding]]:
    """The rows of the text, and what is wrong with its shape. Raises CollectionError if there are none to go by.

    file: its name.
    """
    odd = next((i for i, sign in enumerate(text) if sign == "\0" or "\ud800" <= sign <= "\udfff"), None)
    if odd is not None:
        line, found = text[:odd].count("\n") + 1, f"{text[odd]!r}, which is no text"
        raise CollectionError([Finding("error", line, "", found, "plain text", "delete it")], file)
    sheet, findings = read_sheet(text, layout)
    if sheet is None:
        raise CollectionError(findings, file)
    return sheet, findings


def refusing(findings: Sequence[Finding], columns: Sequence[str], file: str) -> tuple[Finding, ...]:
    """The findings in file order. Raises CollectionError with all of them if one is an error. file: its name."""

    def place(finding: Finding) -> tuple[int, int]:
        return finding.row or 0, columns.index(finding.column) if finding.column in columns else -1

    ordered = tuple(sorted(findings, key=place))
    if any(finding.severity == "error" for finding in ordered):
        raise CollectionError(ordered, file)
    return ordered


def table_text(columns: Iterable[str], rows: Iterable[Iterable[object]]) -> str:
    """The text of a file that is written anew each time: a header and rows."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return out.getvalue()
