"""Weights, season log and the keeper's own figures beside the collection that is open, as panels share them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from ..collection import (
    Collection,
    CollectionError,
    Finding,
    SeasonLog,
    Weights,
    read_season_log,
    read_weights,
    season_file,
    weighed,
    weights_file,
)
from ..collection.storage import read_text_if_any
from ..collection.weight_history import weight_text
from ..husbandry import Husbandry, figures_file, read_figures, save_figures
from .book_keeping import refuse_if_changed

if TYPE_CHECKING:
    from .desk import Desk

__all__ = ["SeasonDesk"]


class SeasonDesk:
    """What was weighed, what happened in each season, and the keeper's figures, each in a file beside the collection.

    weights, log: as they stand in their files; None if the file cannot be read, and then `refused` says why. The
    figures are `Desk.care`; those of the catalogue if their file cannot be read. What is
    written here is saved at once; the collection's own weights wait for `Desk.save` like every other edit of it.
    """

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.weights: Weights | None = None
        self.log: SeasonLog | None = None
        self.refused: tuple[Finding, ...] = ()
        self._figures: str | None = None

    def read(self, collection: Path, animals: Collection) -> Collection:
        """Takes up the files beside a collection that was opened, and gives the animals what they say."""
        findings: list[Finding] = []
        self.weights = self.log = None
        try:
            self.weights = read_weights(weights_file(collection), animals)
        except CollectionError as error:
            findings += error.findings
        try:
            self.log = read_season_log(season_file(collection), animals)
        except CollectionError as error:
            findings += error.findings
        findings += self._read_figures(collection)
        self.refused = tuple(findings)
        return animals.with_weights(self.weights).with_log(self.log)

    def _read_figures(self, collection: Path) -> tuple[Finding, ...]:
        file = figures_file(collection)
        try:
            self._figures = read_text_if_any(file)
            self._desk.care = read_figures(file, self._desk.catalogue)
        except CollectionError as error:
            self._desk.care = Husbandry(catalogue=self._desk.catalogue)
            return error.findings
        return ()

    def beside(self, animals: Collection) -> Collection:
        """The files beside a collection that has changed. Raises CollectionError if they contradict each other."""
        weights = None if self.weights is None else self.weights.beside(animals)
        log = None if self.log is None else self.log.beside(animals)
        self.weights, self.log = weights, log
        return animals.with_weights(weights).with_log(log)

    def weigh(self, scales: Mapping[str, float | Fraction], day: date) -> Path | None:
        """Takes up a day at the scales (id -> grams) and saves the weights; the path of the backup, if one was made.

        What was written of an animal for that day before is replaced. Raises CollectionError with all that is wrong,
        and SaveRefused if another program changed the file; then nothing changes.
        """
        desk = self._desk
        assert desk.animals is not None and self.weights is not None
        animals, weights = self.with_scales(scales, day)
        backup = weights.save(weights_file(desk.path))
        self.weights = weights
        changed = [one for one in animals if one.id in scales and one.weighed_on == day]
        rows = [
            {"id": one.id, "weight_g": weight_text(one.weight_g or 0), "weighed_on": day.isoformat()} for one in changed
        ]
        desk.take_up(animals, rows)
        return backup

    def with_scales(self, scales: Mapping[str, float | Fraction], day: date) -> tuple[Collection, Weights]:
        """What `weigh` would make of the animals and their weights. Raises CollectionError with all that is wrong."""
        animals, weights = self._desk.animals, self.weights
        assert animals is not None and weights is not None
        for key in scales:
            if key in animals and any(one.on == day for one in weights.written(key)):
                weights = weights.without_reading(key, day)
        mended = [
            {"id": key, "weight_g": weight_text(grams)}
            for key, grams in scales.items()
            if key in animals and animals[key].weighed_on == day
        ]
        animals = animals.with_weights(weights).with_animals(mended)
        return weighed(animals, weights.beside(animals), scales, day)

    def keep(self, log: SeasonLog) -> Path | None:
        """Takes up a changed log and saves it; otherwise as `weigh`."""
        desk = self._desk
        assert desk.animals is not None
        backup = log.save(season_file(desk.path))
        self.log = log
        desk.take_up(desk.animals.with_log(log))
        return backup

    def read_again(self) -> None:
        """Takes up the three files as they are now."""
        desk = self._desk
        assert desk.animals is not None
        desk.animals = self.read(desk.path, desk.animals)
        desk.tell("animals", "season")

    def use(self, care: Husbandry) -> Path | None:
        """Takes up the keeper's figures and saves them; the path of the backup, if one was made.

        Raises SaveRefused if another program changed the file, or it cannot be written; then nothing changes.
        """
        file = figures_file(self._desk.path)
        refuse_if_changed(file, self._figures)
        backup = save_figures(file, care)
        self._figures = read_text_if_any(file)
        self._desk.care = care
        self._desk.tell("animals", "season")
        return backup
