"""What a reader of a collection file has to say, as data: one record for each problem or remark."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

__all__ = ["CollectionError", "Finding", "SaveRefused", "nearest"]

LISTED = 20
"""How many errors a message spells out; `findings` always holds all of them."""

SEARCHED = 500
"""The longest list of names that is searched for look-alikes rather than for other spellings of the same."""


@dataclass(frozen=True)
class Finding:
    """One problem ("error": it stops the reading) or remark ("notice") about a collection file.

    row: line number in the file, the header being line 1 of most files; None for the file as a whole.
    column: name of the column, "" for the whole row. id: the animal's id where it is known.
    """

    severity: Literal["error", "notice"]
    row: int | None
    column: str
    found: str
    needed: str
    advice: str
    id: str = ""

    def __str__(self) -> str:
        place = ", ".join(part for part in (f"row {self.row}" if self.row else "", self.id, self.column) if part)
        needed = f"needed: {self.needed}" if self.needed else ""
        more = [f"{part[0].upper()}{part[1:].rstrip('.')}" for part in (needed, self.advice) if part]
        return (f"{place}: " if place else "") + ". ".join([self.found.rstrip("."), *more]) + "."


class CollectionError(ValueError):
    """A file cannot be read (or changed) so. `findings` holds every error and every notice, in row order.

    file: the one that they are about, by its name or in words.
    """

    def __init__(self, findings: Iterable[Finding], file: str = "the collection file") -> None:
        self.findings: tuple[Finding, ...] = tuple(findings)
        self.file = file
        errors = [finding for finding in self.findings if finding.severity == "error"]
        lines = [str(finding) for finding in errors[:LISTED]]
        if len(errors) > LISTED:
            lines.append(f"and {len(errors) - LISTED:,} more")
        count = "1 error" if len(errors) == 1 else f"{len(errors):,} errors"
        super().__init__("\n".join([f"{count} in {file}", *lines]))


class SaveRefused(CollectionError):
    """A file was not written, and is as it was."""


def nearest(text: str, names: Collection[str]) -> Sequence[str]:
    """Up to three of the names that `text` may stand for: other spellings of the same first, then look-alikes."""
    same = [name for name in names if _bare(name) == _bare(text)]
    if same or len(names) > SEARCHED:
        return same[:3]
    folded = {name.casefold(): name for name in names}
    return [folded[match] for match in get_close_matches(text.casefold(), folded, n=3, cutoff=0.6)]


def _bare(name: str) -> str:
    """A name without case, punctuation and leading zeros: "F03", "f 3" and "F-3" are the same."""
    return re.sub(r"0+(?=\d)", "", re.sub(r"[^a-z]+0+(?=\d)", "", re.sub(r"[\W_]+", "", name.casefold())))
