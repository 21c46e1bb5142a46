"""What all panels share: the collection that is open, the target, the season. No widgets."""

from __future__ import annotations

import traceback
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Literal

from ..catalogue import Catalogue, load_catalogue
from ..collection import Collection, CollectionError, Finding, read_collection
from ..genetics import genome_of
from ..husbandry import Husbandry, first_season
from ..notation import read_wanted, write_shown

__all__ = ["Desk", "Topic"]

Topic = Literal["animals", "target", "season"]
TOPICS: tuple[Topic, ...] = ("animals", "target", "season")
Report = Callable[[str], None]


class Desk:
    """The state that every panel reads. Panels listen to a topic and are told when it changes.

    animals: the collection as it stands, with edits that may not be saved yet; None until a file was opened. refused:
    the file that could not be opened last, with what is wrong in it. today: the day that decides who is ready; it moves
    with the season that is looked at, and `now` does not. target, without, allow, testable: texts found good.
    """

    def __init__(self, path: str | Path, today: date, catalogue: Catalogue | None = None) -> None:
        self.catalogue = catalogue or load_catalogue()
        self.path = Path(path).expanduser().absolute()
        self.now = self.today = today
        self.care = Husbandry(catalogue=self.catalogue)
        self.animals: Collection | None = None
        self.refused: tuple[Path, tuple[Finding, ...]] | None = None
        self.unsaved = False
        self.target = "Leopard Pinstripe Desert Ghost"
        self.without: tuple[str, ...] = ()
        self.allow: tuple[str, ...] = ()
        self.testable: tuple[str, ...] = ()
        self.failures: list[str] = []
        self._listeners: dict[Topic, list[tuple[Callable[[], None], Report]]] = {topic: [] for topic in TOPICS}
        self._report: Report = self._note

    def listen(self, topic: Topic, callback: Callable[[], None]) -> None:
        """Calls back after each change of the topic. An error in one callback does not stop the others."""
        self._listeners[topic].append((callback, self._report))

    @contextmanager
    def reporting_to(self, report: Report) -> Iterator[None]:
        """Who listens from in here has the errors of its callbacks told to `report`, and "" once they work again."""
        before, self._report = self._report, report
        try:
            yield
        finally:
            self._report = before

    def tell(self, topic: Topic) -> None:
        """Calls everybody who listens to the topic."""
        details: dict[Report, str] = {}
        for callback, report in self._listeners[topic]:
            details.setdefault(report, "")
            try:
                callback()
            except Exception:
                details[report] += traceback.format_exc()
        for report, text in details.items():
            report(text)

    def _note(self, details: str) -> None:
        if details:
            self.failures.append(details)

    @property
    def first_season(self) -> int:
        """The year in which the first breeding season not yet over starts."""
        return first_season(self.today, self.care)

    def open(self, path: str | Path) -> bool:
        """Opens a file. If it cannot be read, what was open stays and `refused` says why. Whether it was opened."""
        file = Path(path).expanduser().absolute()
        try:
            animals = read_collection(file, catalogue=self.catalogue)
        except CollectionError as error:
            self.refused = (file, error.findings)
            return False
        self.path, self.animals, self.unsaved, self.refused = file, animals, False, None
        self.tell("animals")
        return True

    def put(self, row: Mapping[str, str]) -> None:
        """Adds an animal, or replaces the one with its id. Raises CollectionError, and then nothing changes."""
        assert self.animals is not None
        self.animals = self.animals.with_animal(row)
        self.unsaved = True
        self.tell("animals")

    def save(self, overwrite: bool = False) -> Path | None:
        """Saves to the file that is open, after a dated backup; returns the backup's path.

        Raises SaveRefused if another program changed the file since (unless `overwrite`), or it cannot be written.
        """
        assert self.animals is not None
        backup = self.animals.save(self.path, overwrite=overwrite)
        self.unsaved = False
        self.tell("animals")
        return backup

    def aim(self, target: str, without: tuple[str, ...] = (), allow: tuple[str, ...] = ()) -> None:
        """Sets the target for every panel. Raises GenesError if a text cannot be read; then nothing changes."""
        wanted = read_wanted(target, self.catalogue)
        for text in (*without, *(a for a in allow if a != "all")):
            read_wanted(text, self.catalogue)
        self.target = write_shown(genome_of(self.catalogue), wanted)
        self.without, self.allow = without, allow
        self.tell("target")

    def look_from(self, today: date) -> None:
        """Moves the day that decides the first season and who is ready."""
        self.today = today
        self.tell("season")
