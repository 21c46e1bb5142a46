"""A keeper's own figures of money and room, in a small file beside the collection. None of them has a default."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from .beside import RowReader, refusing
from .fields import Fault
from .figure_rows import read_figure_rows, save_figure_rows
from .findings import CollectionError, Finding
from .storage import real_path

__all__ = ["FIGURES", "Purse", "purse_file", "purse_of", "read_amount", "read_purse", "save_purse"]

MOST = 1_000_000_000
LONGEST = 12


@dataclass(frozen=True)
class Purse:
    """What the keeper has stated; None, or "", where nothing was.

    upkeep: money for one animal in one season. places: animals that the racks hold. hatchling: price of one that is
    not kept. currency: a label that is written after every amount; nothing is ever converted.
    """

    upkeep: Fraction | None = None
    places: int | None = None
    hatchling: Fraction | None = None
    currency: str = ""

    @property
    def texts(self) -> dict[str, str]:
        """Name of each figure -> how it is written, "" if it is not stated."""
        return {name: _written(getattr(self, field)) for name, (field, _) in FIGURES.items()}


def read_amount(text: str) -> Fraction | None:
    """An amount of money from 0 up, None if blank. Raises Fault."""
    if not text:
        return None
    if re.fullmatch(r"[0-9]+(\.[0-9]+)?", text):
        amount = Fraction(text)
        if amount <= MOST:
            return amount
        raise Fault(text, f"at most {MOST:,}", "check the number")
    advice = f"write {text.replace(',', '.')}, with a point" if re.fullmatch(r"[0-9]+,[0-9]{1,2}", text) else (
        "write it like 120 or 49.50, or leave it blank"
    )
    raise Fault(repr(text), "an amount from 0 up, in digits alone", advice)


def _read_places(text: str) -> int | None:
    if not text:
        return None
    if re.fullmatch(r"[0-9]{1,6}", text):
        return int(text)
    raise Fault(repr(text), "a whole number of animals, from 0 up", "write it like 30, or leave it blank")


def _read_currency(text: str) -> str:
    if len(text) <= LONGEST and text.isprintable() and not any(sign.isdigit() for sign in text):
        return text
    raise Fault(repr(text), f"at most {LONGEST} signs and no digits", "write a short name, or leave it blank")


FIGURES: dict[str, tuple[str, Callable[[str], object]]] = {
    "cost of an animal a season": ("upkeep", read_amount),
    "places": ("places", _read_places),
    "price of a hatchling": ("hatchling", read_amount),
    "currency": ("currency", _read_currency),
}
"""Name in the file -> field of Purse, and how its text is read."""


def purse_file(collection: str | os.PathLike[str]) -> Path:
    """Where the figures that go with a collection file are kept."""
    return real_path(collection).with_suffix(".money.csv")


def purse_of(texts: Mapping[str, str]) -> Purse:
    """The figures as a keeper types them: name -> text, blank for none. Raises CollectionError with all that is wrong;
    the column of a finding is the name of its figure."""
    findings: list[Finding] = []
    found: dict[str, Any] = {}
    for name, text in texts.items():
        field, read = FIGURES[name]
        found[field] = RowReader(0, {name: text.strip()}, findings).field(name, read)
    if findings:
        raise CollectionError([replace(one, row=None) for one in findings], "your own figures")
    return Purse(**found)


def read_purse(path: str | os.PathLike[str]) -> Purse:
    """The figures in a file with the columns figure, value; nothing is stated if there is no file.

    Raises CollectionError with everything that is wrong in the file.
    """
    rows, findings = read_figure_rows(path, FIGURES)
    found: dict[str, Any] = {}
    for row in rows:
        field, read = FIGURES[row.name]
        found[field] = RowReader(row.line, {"value": row.text}, findings, row.name).field("value", read)
    refusing(findings, ("figure", "value"), real_path(path).name)
    return Purse(**found)


def save_purse(path: str | os.PathLike[str], purse: Purse) -> Path | None:
    """Writes the file in one step; the earlier one stays beside it as a dated backup, whose path is returned.

    Raises SaveRefused if it cannot be written.
    """
    return save_figure_rows(path, ((name, text) for name, text in purse.texts.items() if text))


def _written(value: Fraction | int | str | None) -> str:
    """A value as `read_amount` and its like read it; amounts were typed as decimals, so they end."""
    if not isinstance(value, Fraction):
        return "" if value is None else str(value)
    places = 0
    while (value * 10**places).denominator > 1:
        places += 1
    digits = str((value * 10**places).numerator).rjust(places + 1, "0")
    return f"{digits[: len(digits) - places]}.{digits[-places:]}" if places else digits
