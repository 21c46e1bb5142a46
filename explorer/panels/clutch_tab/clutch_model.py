"""What the Clutch book tab says and does. No widgets, no HTML, no arithmetic beyond counting."""

from __future__ import annotations

from typing import Any

from ...collection import CollectionError, Finding, SaveRefused
from ...collection.clutch import Clutch
from ...notation import capital
from ...pairing import percent
from ...pairing.learning import Change, told_by
from ..book_keeping import book_file
from ..choosing import name_of
from ..clutch_disputes import dispute_in_words
from ..desk import Desk
from ..offers import Problem
from .clutch_form_model import CONTRADICTED, ClutchFormModel
from .clutch_words import told_in_words
from .holdback_model import HeldBack, HoldbackModel

__all__ = ["TABLE", "ClutchModel"]

TABLE = (
    {"key": "clutch", "label": "clutch", "kind": "short"},
    {"key": "parents", "label": "dam × sire", "kind": "text"},
    {"key": "hatched", "label": "hatched", "kind": "short"},
    {"key": "eggs", "label": "eggs", "kind": "number"},
    {"key": "born", "label": "hatchlings", "kind": "number"},
    {"key": "kept", "label": "kept", "kind": "number"},
)


class ClutchModel:
    """chosen: the clutch that is shown, "" if there is none. form: the one that is filled in; editing: whether one is.

    said: what came of the last thing done. conflict: it was refused since another program changed the book's file.
    page: the list for a buyer that was written last, "" once something else was done.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.form = ClutchFormModel(desk)
        self.editing = self.conflict = False
        self.said = self.chosen = self.page = ""
        self._told: tuple[object, str, tuple[Change, ...]] = (None, "", ())
        self.hold = HoldbackModel(desk)
        self.refresh()

    def refresh(self) -> None:
        """Takes up what changed on the desk."""
        book = self.desk.book
        if book is None or self.chosen not in book:
            self.chosen = book.clutches[-1].id if book else ""
        if book is None:
            self.editing = False
        self.hold.clutch = self.clutch

    def choose(self, key: str) -> None:
        """Shows another clutch."""
        self.chosen, self.said, self.page = key, "", ""
        self.refresh()

    @property
    def clutch(self) -> Clutch | None:
        return self.desk.book[self.chosen] if self.desk.book is not None and self.chosen else None

    @property
    def blocker(self) -> str:
        """Why no clutch can be written down; "" if one can."""
        if self.desk.animals is None:
            return "No collection is open. Open a file in the Collection tab."
        if self.desk.book is None:
            return f"{book_file(self.desk.path).name} could not be read. Mend what is listed here, and read it again."
        return ""

    @property
    def headline(self) -> str:
        """The answer in a sentence or two."""
        if self.blocker or self.editing:
            return self.blocker or (CONTRADICTED if self.form.contradicted else self.form.summary)
        if self.clutch is None:
            return "No clutch is written down yet. Press “new clutch” when one hatches."
        if self.disputes:
            return "This clutch cannot be as it is written, given the records of the animals."
        if self.desk.animals is not None and self.chosen in self.desk.animals.knowledge.told.crowded:
            return "This clutch may have come about in too many ways to be told apart. Name its sire, or fewer males."
        if not self.clutch.hatchlings:
            return "No hatchlings are written down of this clutch yet, so it tells nothing."
        return told_in_words(self.changes, (self.clutch.dam, *self.clutch.sires))

    @property
    def rows(self) -> list[dict[str, Any]]:
        """The clutches of the book, for a table, the last one first."""
        book = self.desk.book
        return [
            {
                "id": one.id,
                "clutch": one.id,
                "parents": f"{one.dam} × {(' and ' if one.several else ' or ').join(one.sires)}",
                "hatched": str(one.hatched or ""),
                "eggs": "" if one.eggs is None else str(one.eggs),
                "born": str(sum(row.count for row in one.hatchlings)),
                "kept": str(len(book.kept[one.id]) or "") if book is not None else "",
            }
            for one in reversed(book.clutches if book is not None else ())
        ]

    @property
    def changes(self) -> tuple[Change, ...]:
        """What the chosen clutch tells of the animals, beside all the other clutches; the greatest change first."""
        animals = self.desk.animals
        if animals is None or self.clutch is None:
            return ()
        if self._told[:2] != (animals, self.chosen):
            self._told = animals, self.chosen, told_by(animals, self.clutch)
        return self._told[2]

    @property
    def change_rows(self) -> tuple[tuple[str, str, str], ...]:
        """(animal, before, after) of each that changed."""
        animals = self.desk.animals
        return tuple((name_of(animals[one.id]), one.before, one.after) for one in self.changes) if animals else ()

    @property
    def paternity(self) -> str:
        """How likely each possible sire is; "" if there is only one."""
        animals, clutch = self.desk.animals, self.clutch
        chances = animals.knowledge.paternity.get(self.chosen) if animals is not None else None
        if not chances or clutch is None:
            return ""
        said = ", ".join(f"{sire} {percent(chance)}" for sire, chance in chances.items())
        return f"Sire of any one hatchling, nothing else known of it: {said}." if clutch.several else f"Sire: {said}."

    @property
    def disputes(self) -> tuple[str, ...]:
        """Where the chosen clutch contradicts the records, and who could be wrong; () if it does not."""
        animals = self.desk.animals
        if animals is None or not self.chosen:
            return ()
        mine = [one for one in animals.knowledge.disputes if one.clutch.id == self.chosen]
        said = [f"{capital(dispute_in_words(animals, one, self.chosen))}." for one in mine]
        return (*said, "Until it is mended it is left out of account there.") if said else ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Errors of a book that could not be read, or else remarks on it."""
        book = self.desk.book
        return self.desk.book_refused or (book.findings if book is not None and len(book) else ())

    @property
    def remarks(self) -> tuple[str, ...]:
        """The findings in words."""
        return tuple(str(finding) for finding in self.findings)

    def begin(self, key: str = "") -> None:
        """Opens the form, for a new clutch or for one of the book."""
        self.form.begin(key)
        self.editing, self.said, self.page, self.conflict = True, "", "", False

    def write(self, overwrite: bool = False, despite: bool = False) -> tuple[Problem, ...]:
        """Writes what is in the form into the book; what is wrong with it, if anything.

        despite: also if it contradicts the records.
        """
        before = self.chosen
        self.editing, self.chosen = False, self.form.texts["clutch"].strip()
        try:
            problems = self.form.write(overwrite, despite)
        except SaveRefused as error:
            problems = self._refused(error)
        if problems:
            self.editing, self.chosen = True, before
        else:
            self._done(f"{self.chosen} is written in {book_file(self.desk.path).name}.")
        return problems

    def take_out(self, overwrite: bool = False) -> tuple[Problem, ...]:
        """Takes the chosen clutch out of the book; what stops that, if anything."""
        key = self.chosen
        try:
            self.desk.drop_clutch(key, overwrite)
        except SaveRefused as error:
            return self._refused(error)
        self._done(f"{key} is taken out of {book_file(self.desk.path).name}.")
        return ()

    def undo(self, overwrite: bool = False) -> tuple[Problem, ...]:
        """Undoes the last thing done here; what stops that, if anything."""
        what = self.desk.undoable
        try:
            self.desk.undo(overwrite)
        except SaveRefused as error:
            return self._refused(error)
        except CollectionError as error:
            return tuple(Problem(f"This cannot be undone: {one}") for one in error.findings if one.severity == "error")
        self._done(f"{what} is undone.")
        return ()

    def add(self, one: HeldBack, key: str) -> tuple[Problem, ...]:
        """Makes an animal of the collection of one of these hatchlings; what is wrong with it, if anything."""
        problems = self.hold.add(one, key)
        if not problems:
            self._done(f"{key.strip()} is in the collection now. Save the collection to keep it.")
        return problems

    def save_collection(self) -> tuple[Problem, ...]:
        """Saves the collection with the hatchlings that were added to it; what stops that, if anything."""
        try:
            backup = self.desk.save()
        except SaveRefused as error:
            return tuple(Problem(str(finding)) for finding in error.findings)
        kept = f"; what it held before is kept in {backup.name}" if backup else ""
        self._done(f"{self.desk.path.name} is saved{kept}.")
        return ()

    def write_list(self) -> tuple[Problem, ...]:
        """Writes the list for a buyer; what stops that, if anything."""
        try:
            file, backup = self.hold.write_list()
        except SaveRefused as error:
            return tuple(Problem(str(finding)) for finding in error.findings)
        there = "What lay there before was none of these lists, or was changed by hand; it is kept as"
        self._done(f"The list is written in {file.name}.{f' {there} {backup.name}.' if backup else ''}")
        self.page = self.hold.page
        return ()

    def _done(self, said: str) -> None:
        self.said, self.page, self.conflict = said, "", False
        self.refresh()

    def _refused(self, error: SaveRefused) -> tuple[Problem, ...]:
        self.conflict = True
        return tuple(Problem(str(finding)) for finding in error.findings)
