"""A file of a keeper's figures beside the collection: the columns figure, value."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from pathlib import Path

from .beside import RowReader, content_of, refusing, sheet_of, table_text
from .findings import Finding, nearest
from .sheet import Layout
from .storage import real_path, write_text

__all__ = ["FigureRow", "read_figure_rows", "save_figure_rows", "unknown_figure"]

LAYOUT = Layout(("figure", "value"), ("figure", "value"), "figure")
BLANK = "figure,value\n"


@dataclass(frozen=True)
class FigureRow:
    """One figure as it stands in the file. line: the file's line."""

    name: str
    text: str
    line: int


def read_figure_rows(
    path: str | os.PathLike[str], known: Collection[str]
) -> tuple[tuple[FigureRow, ...], list[Finding]]:
    """The figures that are known, each once, and what is wrong with the other rows; nothing if there is no file.

    Raises CollectionError if the file as a whole cannot be read.
    """
    file = real_path(path).name
    sheet, findings = sheet_of(content_of(path, BLANK)[0], LAYOUT, file)
    refusing(findings, sheet.columns, file)
    rows: dict[str, FigureRow] = {}
    for row in sheet.rows:
        if not row.cells:
            continue
        texts = sheet.values(row)
        name = " ".join(texts["figure"].casefold().split())
        if name not in known:
            findings.append(unknown_figure(name, known, row.line))
        elif name in rows:
            advice = f"delete one of the rows {rows[name].line} and {row.line}"
            again = f'"{name}" a second time'
            RowReader(row.line, texts, findings, name).fault("figure", again, "each figure once", advice)
        else:
            rows[name] = FigureRow(name, texts["value"], row.line)
    return tuple(rows.values()), findings


def unknown_figure(name: str, known: Collection[str], line: int | None) -> Finding:
    """That no figure has this name, with those nearest to it."""
    near = ", ".join(nearest(name, list(known))) or ", ".join(known)
    return Finding("error", line, "figure", f'"{name}"', "a figure that is known", f"Nearest: {near}", name)


def save_figure_rows(path: str | os.PathLike[str], figures: Iterable[tuple[str, str]]) -> Path | None:
    """Writes (name, text) each in a row, in one step; the earlier file stays as a dated backup, which is returned.

    Raises SaveRefused if it cannot be written.
    """
    return write_text(path, table_text(LAYOUT.columns, figures))
