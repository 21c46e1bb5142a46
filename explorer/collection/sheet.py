"""Text of a CSV file to rows and back. What nobody edited keeps its own text to the last byte."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from .findings import Finding, nearest

__all__ = ["ANIMALS", "COLUMNS", "REQUIRED", "Layout", "Row", "Sheet", "for_spreadsheet", "read_sheet"]

COLUMNS = (
    *("id", "name", "sex", "genes", "hatched", "weight_g"),
    *("weighed_on", "sire", "dam", "clutch", "status", "dna", "notes"),
)
"""The columns that mean something, in their usual order. Any others are kept as they are."""

REQUIRED = ("id", "sex", "genes")

DELIMITERS = (",", ";")
WRONG_DELIMITERS = {"\t": "tabs", "|": "upright bars", ":": "colons", " ": "spaces"}
LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")
LINE_END = re.compile(r"(?:\r\n|\r|\n)\Z")
MOST_ROWS = 5_000


@dataclass(frozen=True)
class Layout:
    """What a kind of file holds. columns: those that mean something; required: those that it must have, first the one
    that names what a row is about. each: what there is a row for."""

    columns: tuple[str, ...]
    required: tuple[str, ...]
    each: str

    @property
    def key(self) -> str:
        """The column that names what a row is about."""
        return self.required[0]

    @property
    def start(self) -> str:
        """Advice for a file without a header."""
        return f"start with: {','.join(self.required)}"


ANIMALS = Layout(COLUMNS, REQUIRED, "animal")


@dataclass(frozen=True)
class Row:
    """One record of the file. line: the number of its first line, 0 if it is new. raw: its own text with its line end.

    cells: one for each column, or None if the record cannot be read; () for a blank line.
    """

    line: int
    raw: str
    cells: tuple[str, ...] | None


@dataclass(frozen=True)
class Sheet:
    """A file's text, cut into rows. columns: the header's names in lower case and trimmed. top: text up to and
    including the header line."""

    columns: tuple[str, ...]
    delimiter: str
    top: str
    rows: tuple[Row, ...]
    layout: Layout = ANIMALS

    @property
    def text(self) -> str:
        """The whole file."""
        return self.top + "".join(row.raw for row in self.rows)

    def values(self, row: Row) -> dict[str, str]:
        """Column -> text of one readable row, trimmed."""
        return {name: cell.strip() for name, cell in zip(self.columns, row.cells or (), strict=True) if name}

    def rows_of(self, key: str) -> list[Row]:
        """The readable rows that are about this animal or clutch."""
        at = self.columns.index(self.layout.key)
        return [row for row in self.rows if row.cells and row.cells[at].strip() == key]

    def with_row(self, values: Mapping[str, str]) -> Sheet:
        """With the row of this id changed, or a row added at the end. Columns that are not named keep their text.

        values: column -> text; the key column must be there. Raises KeyError as `with_columns` does.
        """
        sheet = self.with_columns(values)
        old = next(iter(sheet.rows_of(values[self.layout.key])), None)
        if old is None:
            return sheet.with_rows((*sheet.rows, sheet.new_row(values)))
        new = sheet.changed(old, values)
        return sheet.with_rows([new if row is old else row for row in sheet.rows])

    def without_row(self, key: str) -> Sheet:
        """With all rows of this animal or clutch left out. Raises KeyError if there is none."""
        gone = {id(row) for row in self.rows_of(key)}
        if not gone:
            raise KeyError(key)
        return replace(self, rows=tuple(row for row in self.rows if id(row) not in gone))

    def changed(self, row: Row, values: Mapping[str, str]) -> Row:
        """The row with these texts: column -> text. What is as it was keeps its own, to the last byte."""
        before = self.values(row)
        cells = tuple(
            values[name] if name in values and values[name].strip() != before.get(name, "") else cell
            for name, cell in zip(self.columns, row.cells or (), strict=True)
        )
        if cells == row.cells:
            return row
        return replace(row, raw=_written(cells, self.delimiter) + _line_end(row.raw), cells=cells)

    def new_row(self, values: Mapping[str, str]) -> Row:
        """A row that the file does not have yet; it gets its line end in `with_rows`."""
        cells = tuple(values.get(name, "") for name in self.columns)
        return Row(0, _written(cells, self.delimiter), cells)

    def with_rows(self, rows: Sequence[Row]) -> Sheet:
        """With these rows instead, in the style of the file: each has a line end, the last one if the file has one."""
        end = _line_end(self.top) or "\n"
        ended = not self.rows or self.text.endswith(("\r", "\n"))
        top = self.top if _line_end(self.top) or not rows else self.top + end
        last = len(rows) - 1
        whole = tuple(
            row if _line_end(row.raw) or (i == last and not ended) else replace(row, raw=row.raw + end)
            for i, row in enumerate(rows)
        )
        return replace(self, top=top, rows=whole)

    def with_columns(self, names: Iterable[str]) -> Sheet:
        """With the columns that the file lacks added to it. Raises KeyError naming one that is not of the layout."""
        sheet = self
        for name in names:
            if name not in sheet.columns:
                sheet = sheet._with_column(name)
        return sheet

    def _with_column(self, name: str) -> Sheet:
        if name not in self.layout.columns:
            raise KeyError(name)

        def longer(raw: str, more: str) -> str:
            end = _line_end(raw)
            return raw[: len(raw) - len(end)] + self.delimiter + more + end

        rows = tuple(
            replace(row, raw=longer(row.raw, ""), cells=(*row.cells, "")) if row.cells else row for row in self.rows
        )
        return replace(self, columns=(*self.columns, name), top=longer(self.top, name), rows=rows)


def read_sheet(text: str, layout: Layout = ANIMALS) -> tuple[Sheet | None, list[Finding]]:
    """The rows of a file's text, and what is wrong with its shape; no sheet if there is no header to go by."""
    lines = LINE.findall(text)
    start = next((i for i, line in enumerate(lines) if line.strip("\ufeff \t\r\n")), None)
    if start is None:
        needed = f"a header line and a row for each {layout.each}"
        return None, [_error(None, "an empty file", needed, layout.start)]
    delimiter, findings = _delimiter(lines[start].lstrip("\ufeff"), start + 1, layout)
    if delimiter is None:
        return None, findings
    records = _records(lines[start:], start + 1, delimiter)
    header = next(records)
    if isinstance(header, Finding) or header.cells is None:
        found = header.found if isinstance(header, Finding) else "a header that cannot be read"
        return None, [_error(start + 1, found, "names of columns", layout.start)]
    columns = tuple(cell.strip().casefold() for cell in header.cells)
    findings = _header_findings(columns, header.line, layout)
    rows: list[Row] = []
    for record in records:
        if isinstance(record, Finding):
            findings.append(record)
            continue
        if len(rows) == MOST_ROWS:
            findings.append(_error(record.line, "more rows", f"at most {MOST_ROWS:,}", "split the file"))
            break
        shaped, finding = _shaped(record, columns, delimiter, layout)
        rows.append(shaped)
        findings += [finding] if finding else []
    unnamed = [i for i, name in enumerate(columns) if not name]
    if any(row.cells and row.cells[i].strip() for row in rows for i in unnamed):
        found = "a column without a name"
        findings.append(Finding("notice", header.line, "", found, "", "its text is kept in the file and not used"))
    return Sheet(columns, delimiter, "".join(lines[:start]) + header.raw, tuple(rows), layout), findings


def for_spreadsheet(text: str) -> str:
    """Text for an export that a spreadsheet will open: what it would take for a formula is marked as text."""
    return f"'{text}" if text.lstrip().startswith(("=", "+", "-", "@")) or text.startswith(("\t", "\r", "\n")) else text


def _delimiter(header: str, line: int, layout: Layout) -> tuple[str | None, list[Finding]]:
    scores: dict[str, int] = {}
    for mark in (*DELIMITERS, *WRONG_DELIMITERS):
        names = [cell.strip().strip('"').strip().casefold() for cell in header.split(mark)]
        scores[mark] = len(names) > 1 and sum(name in layout.columns for name in names)
    best = max(scores, key=lambda mark: scores[mark])
    if scores[best] > 1 and best in WRONG_DELIMITERS:
        found = f"columns parted by {WRONG_DELIMITERS[best]}"
        return None, [_error(line, found, "commas or semicolons between columns", "save it as a CSV file with commas")]
    return (best if best in DELIMITERS else ","), []


def _records(lines: Sequence[str], first: int, delimiter: str) -> Iterator[Row | Finding]:
    """Each record of the file as it stands; after one that cannot be read, a finding, and reading goes on below it."""
    at = 0
    while at < len(lines):
        rest = (lines[i].lstrip("\ufeff") for i in range(at, len(lines)))
        reader = csv.reader(rest, delimiter=delimiter, strict=True)
        done = 0
        try:
            for cells in reader:
                raw = "".join(lines[at + done : at + reader.line_num])
                yield Row(first + at + done, raw, tuple(cells))
                done = reader.line_num
            return
        except csv.Error as error:
            if "field limit" in str(error):
                found, advice = "a field of over 131,072 characters", "look for a quotation mark too many"
            else:
                found, advice = "a quotation mark without its partner", 'close it, or write "" for a mark inside quotes'
            yield _error(first + at + done, found, "quotation marks in pairs", advice)
            yield Row(first + at + done, lines[at + done], None)
            at += done + 1


def _header_findings(columns: tuple[str, ...], line: int, layout: Layout) -> list[Finding]:
    findings = []
    for name in dict.fromkeys(columns):
        if name and columns.count(name) > 1:
            found = f"{columns.count(name)} columns of this name"
            findings.append(Finding("error", line, name, found, "one", "rename or delete one"))
    for name in layout.required:
        if name not in columns:
            near = nearest(name, [column for column in columns if column and column not in layout.columns])
            advice = f'is it the column "{near[0]}"? Rename it' if near else f'add a column "{name}"'
            findings.append(Finding("error", line, name, "no column of this name", ", ".join(layout.required), advice))
    for name in dict.fromkeys(columns):
        if name and name not in layout.columns and (meant := _meant(name, columns, layout)):
            found, advice = "a column that means nothing here, and is kept as it is", f'is it "{meant}"? Rename it then'
            findings.append(Finding("notice", line, name, found, "", advice))
    return findings


def _meant(name: str, columns: Sequence[str], layout: Layout) -> str | None:
    """The column that is not there and of which this may be another name: such as starts with the same word."""
    free = [one for one in layout.columns if one not in columns and one not in layout.required]
    words = re.split(r"[\W_]+", name)
    alike = [one for one in free if one == words[0] or (len(words) > 1 and one.split("_")[0] == words[0])]
    return next(iter(alike), None)


def _shaped(row: Row, columns: tuple[str, ...], delimiter: str, layout: Layout) -> tuple[Row, Finding | None]:
    if row.cells is None:
        return row, None
    if not any(cell.strip() for cell in row.cells):
        return replace(row, cells=()), None
    if len(row.cells) == len(columns):
        return row, None
    named = layout.key in columns[: len(row.cells)]
    key = row.cells[columns.index(layout.key)].strip() if named else ""
    if len(row.cells) > len(columns):
        advice = f'put quotation marks around text that holds a "{delimiter}"'
    else:
        advice = "fill it up with empty columns"
    found = "1 column" if len(row.cells) == 1 else f"{len(row.cells)} columns"
    finding = Finding("error", row.line, "", found, f"{len(columns)}, as in the header", advice, key)
    return replace(row, cells=None), finding


def _written(cells: Sequence[str], delimiter: str) -> str:
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter, lineterminator="\r\n").writerow(cells)
    return out.getvalue().removesuffix("\r\n")


def _line_end(raw: str) -> str:
    ended = LINE_END.search(raw)
    return ended.group() if ended else ""


def _error(line: int | None, found: str, needed: str, advice: str) -> Finding:
    return Finding("error", line, "", found, needed, advice)
