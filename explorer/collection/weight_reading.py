"""From the text of a weights file to weighings that need no further checking, or to all that is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from .beside import RowReader, refusing, sheet_of
from .fields import Fault, read_date, read_weight
from .findings import Finding, nearest
from .sheet import Layout, Sheet
from .weight_history import Weighing, weight_text

if TYPE_CHECKING:
    from .animals import Animal, Collection

__all__ = ["WEIGHTS", "WEIGHTS_BLANK", "WeightReading", "read_weight_text"]

WEIGHTS = Layout(("id", "weighed_on", "weight_g", "notes"), ("id", "weighed_on", "weight_g"), "weighing")
WEIGHTS_BLANK = "id,weighed_on,weight_g,notes\n"
"""A weights file with nothing in it."""

LEAP = 2
"""So many times as much as before and after, or so small a part, is taken for a slip of the pen."""


@dataclass(frozen=True)
class WeightReading:
    """A weights file that could be read. written: id -> its weighings, the earliest first; findings: its notices."""

    sheet: Sheet
    written: Mapping[str, tuple[Weighing, ...]]
    findings: tuple[Finding, ...]


def read_weight_text(text: str, animals: Collection, file: str = "the weights file") -> WeightReading:
    """Reads the text of a weights file. Raises CollectionError with all findings if one of them is an error."""
    sheet, findings = sheet_of(text, WEIGHTS, file)
    written: dict[str, dict[date, Weighing]] = {}
    for row in sheet.rows if set(WEIGHTS.required) <= set(sheet.columns) else ():
        if row.cells:
            _take(RowReader(row.line, sheet.values(row), findings), animals, written)
    histories = {
        key: tuple(sorted(found.values(), key=lambda one: one.on or date.min)) for key, found in written.items()
    }
    for key, history in histories.items():
        findings += _slips(key, history)
        findings += _differing(animals[key], history)
    return WeightReading(sheet, histories, refusing(findings, WEIGHTS.columns, file))


def _take(reader: RowReader, animals: Collection, written: dict[str, dict[date, Weighing]]) -> None:
    """Reads one row into `written`: id -> day -> weighing."""
    reader.key = key = reader.texts.get("id", "")
    if key not in animals:
        _stranger(reader, [animal.id for animal in animals])
    day = reader.field("weighed_on", _day)
    grams = reader.field("weight_g", _grams)
    hatched = animals[key].hatched if key in animals else None
    if day and hatched and day < hatched:
        reader.fault("weighed_on", f"weighed on {day}, before it hatched on {hatched}", "", "mend one of the two days")
    if day is None or grams is None or not reader.sound:
        return
    before = written.setdefault(key, {}).get(day)
    if before is None:
        written[key][day] = Weighing(grams, day, reader.texts.get("notes", ""), reader.line)
    elif before.grams == grams:
        found = f"the same weight of the same day as in row {before.row}"
        reader.findings.append(Finding("notice", reader.line, "weight_g", found, "", "it counts once", key))
    else:
        found = f"{_said(grams)} on {day}, and {_said(before.grams)} in row {before.row}"
        reader.fault("weight_g", found, "one weight a day", "delete one of the two rows")


def _stranger(reader: RowReader, ids: Sequence[str]) -> None:
    if not reader.key:
        reader.fault("id", "no id", "an animal of the collection", "write whose weight it is")
        return
    near = nearest(reader.key, ids)
    advice = f"Nearest: {', '.join(near)}" if near else "add it to the collection first"
    reader.fault("id", f"{reader.key} is not in the collection", "an animal of the collection", advice)


def _day(text: str) -> date:
    day = read_date(text)
    if day is None:
        raise Fault("no day", "the day of the weighing as YYYY-MM-DD", "write it like 2026-11-02")
    return day


def _grams(text: str) -> float:
    grams = read_weight(text)
    if grams is None:
        raise Fault("no weight", "a number of grams alone", "write it like 1320, or delete the row")
    return grams


def _slips(key: str, history: Sequence[Weighing]) -> Iterator[Finding]:
    """Weighings that neither the one before nor the one after makes likely."""
    for before, one, after in zip(history, history[1:], history[2:], strict=False):
        around = sorted((before.grams, after.grams))
        if one.grams > LEAP * around[1] or one.grams * LEAP < around[0]:
            around_it = f"{_said(before.grams)} on {before.on} and {_said(after.grams)} on {after.on}"
            found = f"{_said(one.grams)}, between {around_it}"
            yield Finding("notice", one.row, "weight_g", found, "", "check the number", key)


def _differing(animal: Animal, history: Sequence[Weighing]) -> Iterator[Finding]:
    """A weighing of the day that the collection itself speaks of, with another weight."""
    for one in history:
        if one.on == animal.weighed_on and animal.weight_g is not None and animal.weight_g != one.grams:
            found = f"{_said(one.grams)} on {one.on}, and {_said(animal.weight_g)} in the collection (row {animal.row})"
            advice = "mend one of the two; until then the collection's counts"
            yield Finding("notice", one.row, "weight_g", found, "", advice, animal.id)


def _said(grams: float) -> str:
    whole, point, rest = weight_text(grams).partition(".")
    return f"{int(whole):,}{point}{rest} g"
