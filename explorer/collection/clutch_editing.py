"""Changes to the rows of one clutch, so that every other row, and every cell that is as it was, keeps its own text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..catalogue import normal
from .clutch_draft import CLUTCHES, GROUP_COLUMNS
from .fields import Fault, read_sex
from .sheet import Row, Sheet

__all__ = ["edited"]

Texts = Mapping[str, str]
"""Column -> text."""

WHOLE = [name for name in CLUTCHES.columns if name not in GROUP_COLUMNS and name != CLUTCHES.key]
"""Columns about the clutch as a whole: written in its first row, or repeated."""

Planned = tuple[Row | None, dict[str, str]]
"""A row that there is, or a new one, and the texts to be put into it."""


def edited(sheet: Sheet, values: Texts, groups: Sequence[Texts] | None) -> Sheet:
    """The sheet with a clutch changed, or added at the end.

    values: column -> text of the clutch as a whole, its name among them; where a text is repeated in several rows, it
    is changed in all. groups: its hatchlings, in place of those there are; None leaves them.
    """
    key = values[CLUTCHES.key]
    sheet = sheet.with_columns([*values, *(name for group in groups or () for name in group)])
    old = sheet.rows_of(key)
    plan: list[Planned] = [(row, {}) for row in old] or [(None, {})]
    if groups is not None:
        plan = _regrouped(sheet, old, groups)
    _fill(sheet, plan, old, values)
    changed = {id(row): sheet.changed(row, texts) for row, texts in plan if row is not None}
    new = [sheet.new_row({**texts, CLUTCHES.key: key}) for row, texts in plan if row is None]
    ours = {id(row) for row in old}
    last = max((i for i, row in enumerate(sheet.rows) if id(row) in ours), default=len(sheet.rows) - 1)
    rows: list[Row] = []
    for i, row in enumerate(sheet.rows):
        if id(row) not in ours:
            rows.append(row)
        elif id(row) in changed:
            rows.append(changed[id(row)])
        if i == last:
            rows += new
    return sheet.with_rows(rows or new)


def _regrouped(sheet: Sheet, old: Sequence[Row], groups: Sequence[Texts]) -> list[Planned]:
    """A row for each group: the one that has its look and sex, or the first that is free, or a new one."""
    free = list(old)
    found: dict[int, dict[str, str]] = {}
    new: list[dict[str, str]] = []
    for group in groups:
        texts = {**dict.fromkeys(GROUP_COLUMNS, ""), **group}
        row = next((row for row in free if _alike(sheet.values(row), texts)), None)
        if row is None:
            new.append(texts)
        else:
            free.remove(row)
            found[id(row)] = {name: text for name, text in texts.items() if name not in ("look", "sex")}
    for row in free:
        if new:
            found[id(row)] = new.pop(0)
        elif not any(sheet.values(row).get(name) for name in GROUP_COLUMNS):
            found[id(row)] = {}
    if not found and not new:
        return [(old[0], dict.fromkeys(GROUP_COLUMNS, ""))] if old else [(None, {})]
    return [*((row, found[id(row)]) for row in old if id(row) in found), *((None, texts) for texts in new)]


def _fill(sheet: Sheet, plan: Sequence[Planned], old: Sequence[Row], values: Texts) -> None:
    """Puts what is said of the whole clutch where it stands already, and else into the first row."""
    before = [sheet.values(row) for row in old]
    for name in dict.fromkeys([*WHOLE, *values]):
        kept = next((texts[name] for texts in before if texts.get(name)), "")
        text = values.get(name, kept if name in WHOLE else None)
        here = [texts for row, texts in plan if row is not None and sheet.values(row).get(name)]
        if text is None or (name not in values and here):
            continue
        for texts in here if here and name in WHOLE else [plan[0][1]]:
            texts[name] = text


def _alike(one: Texts, two: Texts) -> bool:
    """Whether two rows speak of the same look and sex, however they are written."""
    return normal(one.get("look", "")) == normal(two["look"]) and _sex(one.get("sex", "")) == _sex(two["sex"])


def _sex(text: str) -> str | None:
    try:
        return read_sex(text)
    except Fault:
        return text
