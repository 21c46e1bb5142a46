"""One table of a facts file, read key by key. What is wrong becomes a finding, and reading goes on with a stand-in."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TypeVar, get_args

from .entries import Evidence, EvidenceKind

__all__ = ["Draft", "Finding", "shown"]

T = TypeVar("T")
_MISSING = object()
_NAME = re.compile(r"\w[\w'’ /-]*")
_NUMBER = re.compile(r"\d{1,9}(/[1-9]\d{0,8}|\.\d{1,9})?")
_OWN_NOTE = "the keeper's own"


def shown(value: object) -> str:
    """A value as a file would have it: texts in quotes."""
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(shown, value))}]"
    return repr(value) if isinstance(value, str) else str(value).lower() if isinstance(value, bool) else str(value)


def _is_texts(value: object) -> bool:
    return isinstance(value, list) and value != [] and all(isinstance(item, str) and item for item in value)


@dataclass(frozen=True)
class Finding:
    """Something wrong in a facts file: where it is, what was found, and what was needed instead."""

    file: str
    table: str
    key: str
    found: str
    needed: str

    def __str__(self) -> str:
        where = ", ".join(part for part in (self.file, self.table, self.key) if part)
        return f"{where}: found {self.found}, needed {self.needed}"


class Draft:
    """The values of one table. Each method takes one key; `close` reports the keys that nobody took.

    own: whether the table comes from a keeper's folder. There evidence may be left out. `key in draft` says whether a
        key is given, and counts as asking for it.
    cited: source keys of the evidence, once that has been read.
    """

    def __init__(
        self, file: str, table: str, values: Mapping[str, object], findings: list[Finding], own: bool = False
    ) -> None:
        self.file = file
        self.table = table
        self.own = own
        self.cited: tuple[str, ...] = ()
        self._values = dict(values)
        self._findings = findings
        self._taken: dict[str, bool] = {}

    def __contains__(self, key: str) -> bool:
        self._taken[key] = True
        return key in self._values

    def report(self, key: str, found: str, needed: str) -> None:
        """Write a finding on one key of this table."""
        self._findings.append(Finding(self.file, self.table, key, found, needed))

    def text(self, key: str, default: str | None = None) -> str:
        """Text; required if there is no default."""
        value = self._take(key, default, "text")
        if isinstance(value, str) and (value.strip() or default == ""):
            return value.strip()
        if value is not _MISSING:
            self.report(key, shown(value), "text")
        return default or ""

    def name(self, key: str) -> str:
        """A required name: letters, digits, spaces, hyphens, apostrophes and slashes."""
        value = self.text(key)
        if value:
            self._check_name(key, value)
        return value

    def texts(self, key: str, least: int = 0, names: bool = False) -> tuple[str, ...]:
        """A list of at least `least` texts; empty if the key is left out and `least` is 0."""
        needed = f"a list of {f'at least {least} ' if least else ''}texts"
        value = self._take(key, () if least == 0 else None, needed)
        if value is _MISSING or value == ():
            return ()
        if not isinstance(value, list) or len(value) < least or not (value == [] or _is_texts(value)):
            self.report(key, shown(value), needed)
            return ()
        for item in value if names else ():
            self._check_name(key, item)
        return tuple(value)

    def groups(self, key: str) -> tuple[tuple[str, ...], ...]:
        """A required list of at least two lists of texts."""
        needed = "a list of at least two lists of gene names"
        value = self._take(key, None, needed)
        if value is _MISSING:
            return ()
        if isinstance(value, list) and len(value) > 1 and all(map(_is_texts, value)):
            return tuple(tuple(group) for group in value)
        self.report(key, shown(value), needed)
        return ()

    def choice(self, key: str, allowed: tuple[T, ...], default: T | None = None) -> T:
        """One of the allowed values; required if there is no default."""
        needed = f"one of {', '.join(map(shown, allowed))}"
        value = self._take(key, default, needed)
        for option in allowed:
            if value == option and type(value) is type(option):
                return option
        if value is not _MISSING:
            self.report(key, shown(value), needed)
        return allowed[0]

    def number(self, key: str, most: Fraction | None = None) -> Fraction:
        """A required number from 0 to `most`: 2, 0.07 or "7/100"."""
        needed = 'a number such as 2, 0.07 or "7/100"'
        value = self._take(key, None, needed)
        return Fraction(0) if value is _MISSING else self._number(key, value, most)

    def numbers(self, key: str, most: Fraction | None = None) -> tuple[Fraction, ...]:
        """A list of numbers from 0 to `most`; empty if the key is left out."""
        value = self._take(key, (), "a list of numbers")
        if not isinstance(value, list | tuple):
            self.report(key, shown(value), "a list of numbers")
            return ()
        return tuple(self._number(key, item, most) for item in value)

    def tables(self, key: str) -> list[Draft]:
        """A required list of inline tables, each as a draft of its own."""
        value = self._take(key, None, "a list of tables")
        if isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
            return [Draft(self.file, self.table, item, self._findings, self.own) for item in value]
        if value is not _MISSING:
            self.report(key, shown(value), "a list of tables")
        return []

    def inner(self, key: str) -> Draft:
        """A table inside this one, as a draft of its own; empty if the key is left out."""
        value = self._take(key, {}, "a table")
        if not isinstance(value, dict):
            self.report(key, shown(value), "a table in braces, { name = value, ... }")
        return Draft(self.file, self.table, value if isinstance(value, dict) else {}, self._findings, self.own)

    def whole(self, key: str, least: int, most: int) -> int:
        """A required whole number from `least` to `most`."""
        needed = f"a whole number from {least} to {most}"
        value = self._take(key, None, needed)
        if isinstance(value, int) and not isinstance(value, bool) and least <= value <= most:
            return value
        if value is not _MISSING:
            self.report(key, shown(value), needed)
        return 0

    def choices(self, key: str, allowed: tuple[T, ...]) -> tuple[T, ...]:
        """A list of allowed values; empty if the key is left out."""
        value = self._take(key, [], "a list")
        if isinstance(value, list) and all(item in allowed for item in value):
            return tuple(allowed[allowed.index(item)] for item in value)
        self.report(key, shown(value), f"a list of {', '.join(map(shown, allowed))}")
        return ()

    def evidence(self) -> Evidence:
        """The keys `evidence` ("published: KEY, KEY", or a kind without sources) and `evidence_note`."""
        stated = self.text("evidence", "from memory" if self.own else None)
        note = self.text("evidence_note", _OWN_NOTE if self.own else "")
        kind, _, keys = stated.partition(":")
        self.cited = tuple(key.strip() for key in keys.split(",") if key.strip())
        for option in get_args(EvidenceKind):
            if kind.strip() == option and bool(self.cited) == (option == "published"):
                return Evidence(option, self.cited, note)
        if stated:
            kinds = ", ".join(map(shown, get_args(EvidenceKind)[1:]))
            self.report("evidence", shown(stated), f"'published: ' and source keys, or one of {kinds}")
        return Evidence("from memory", (), note)

    def close(self) -> None:
        """Report every key that was not asked for."""
        for key in self._values:
            if key not in self._taken:
                self.report(key, "a key that is not known here", f"one of {', '.join(self._taken)}")

    def _take(self, key: str, default: object, needed: str) -> object:
        self._taken[key] = True
        if key in self._values:
            return self._values[key]
        if default is None:
            self.report(key, "nothing", needed)
            return _MISSING
        return default

    def _check_name(self, key: str, value: str) -> None:
        if not _NAME.fullmatch(value):
            self.report(key, shown(value), "letters, digits, spaces, hyphens, apostrophes or slashes")

    def _number(self, key: str, value: object, most: Fraction | None) -> Fraction:
        if isinstance(value, int | str | Decimal) and not isinstance(value, bool) and _NUMBER.fullmatch(str(value)):
            number = Fraction(str(value))
            if most is None or number <= most:
                return number
            self.report(key, shown(value), f"a number from 0 to {most}")
        else:
            self.report(key, shown(value), 'a number such as 2, 0.07 or "7/100", not below 0')
        return Fraction(0)
