"""Weights over time: a file with a row for each weighing, and what a day at the scales changes."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from .beside import FileBeside, content_of
from .storage import real_path
from .weight_history import Weighing, in_order, weight_text
from .weight_reading import WEIGHTS_BLANK, WeightReading, read_weight_text

if TYPE_CHECKING:
    from .animals import Collection

__all__ = ["Weights", "read_weights", "weighed", "weights_file"]

Grams = float | Fraction


def weights_file(collection: str | os.PathLike[str]) -> Path:
    """Where the weights that go with a collection file are kept."""
    return real_path(collection).with_suffix(".weights.csv")


class Weights(FileBeside):
    """The weighings of one file; made by `read_weights` or `from_text`, and never changed."""

    def __init__(self, reading: WeightReading, animals: Collection, seen: dict[Path, str]) -> None:
        super().__init__(reading.sheet, reading.findings, seen)
        self._written, self._animals = reading.written, animals

    @classmethod
    def from_text(cls, text: str, animals: Collection) -> Weights:
        """Reads the text of a weights file. Raises CollectionError with all findings if one is an error."""
        return cls(read_weight_text(text, animals), animals, {})

    def of(self, key: str) -> tuple[Weighing, ...]:
        """An animal's weighings, the earliest first; the weight in the collection is one of them.

        Raises KeyError if there is no such animal.
        """
        animal = self._animals[key]
        return in_order(self.written(key), animal.weight_g, animal.weighed_on)

    def written(self, key: str) -> tuple[Weighing, ...]:
        """Those of an animal that stand in the file itself, the earliest first."""
        return self._written.get(key, ())

    def with_reading(self, key: str, day: date, grams: Grams, notes: str = "") -> Weights:
        """With one more weighing, in a row at the end; the same again if it is written already.

        Raises CollectionError: for an animal that is not there, a weight that makes no sense, another weight that day.
        """
        return self.with_rows([_texts(key, day, grams, notes)])

    def without_reading(self, key: str, day: date) -> Weights:
        """Without what is written of an animal on one day. Raises KeyError if nothing is."""
        if not any(one.on == day for one in self.written(key)):
            raise KeyError(f"no weight of {key} on {day}")
        sheet = self._sheet
        gone = (key, day.isoformat())
        texts = [sheet.values(row) if row.cells else {} for row in sheet.rows]
        about = [(values.get("id"), values.get("weighed_on")) for values in texts]
        left = [row for row, one in zip(sheet.rows, about, strict=True) if one != gone]
        return self._of(sheet.with_rows(left).text, self._animals)

    def beside(self, animals: Collection) -> Weights:
        """The same file beside a collection that has changed. Raises CollectionError if they contradict each other."""
        return self._of(self.text, animals)

    def with_rows(self, rows: Iterable[Mapping[str, str]]) -> Weights:
        """With these rows (column -> text) at the end, but for those that are written already.

        Raises CollectionError with all that is wrong with them.
        """
        known = {(key, one.on, one.grams) for key, found in self._written.items() for one in found}
        new = [values for values in rows if _meaning(values) not in known]
        sheet = self._sheet.with_columns(dict.fromkeys(name for values in new for name in values))
        return self._of(sheet.with_rows((*sheet.rows, *map(sheet.new_row, new))).text, self._animals) if new else self

    def _of(self, text: str, animals: Collection) -> Weights:
        file = next((path.name for path in self._seen), "the weights file")
        return Weights(read_weight_text(text, animals, file), animals, self._seen)


def read_weights(path: str | os.PathLike[str], animals: Collection) -> Weights:
    """Reads a weights file beside its collection; there need not be one yet.

    Raises CollectionError, which holds all findings, if one of them is an error.
    """
    text, seen = content_of(path, WEIGHTS_BLANK)
    return Weights(read_weight_text(text, animals, real_path(path).name), animals, seen)


def weighed(
    animals: Collection, weights: Weights, scales: Mapping[str, Grams], day: date
) -> tuple[Collection, Weights]:
    """The collection and the weights after a day at the scales. scales: id -> grams.

    Each weighing is added to the weights; an animal's weight_g and weighed_on become it, unless it was weighed later
    already. What they held before is added to the weights first, if it has a day. Raises CollectionError with all that
    is wrong, and nothing is changed.
    """
    written, current = [], []
    for key, grams in scales.items():
        own = (animals[key].weight_g, animals[key].weighed_on) if key in animals else (None, None)
        kept = any(one.on == own[1] for one in weights.written(key))
        if own[0] is not None and own[1] is not None and own[1] < day and not kept:
            written.append(_texts(key, own[1], own[0]))
        written.append(_texts(key, day, grams))
        if own[1] is None or own[1] <= day:
            current.append({"id": key, "weight_g": weight_text(grams), "weighed_on": day.isoformat()})
    more = weights.with_rows(written)
    after = animals.with_animals(current)
    more = more.beside(after)
    return after.with_weights(more), more


def _texts(key: str, day: date, grams: Grams, notes: str = "") -> dict[str, str]:
    """Column -> text of one weighing."""
    texts = {"id": key, "weighed_on": day.isoformat(), "weight_g": weight_text(grams)}
    return {**texts, "notes": notes} if notes else texts


def _meaning(texts: Mapping[str, str]) -> tuple[str, date, float] | None:
    """Whose weighing it is, when and how many grams; None if the number makes no sense."""
    try:
        return texts["id"], date.fromisoformat(texts["weighed_on"]), float(texts["weight_g"])
    except ValueError:
        return None
