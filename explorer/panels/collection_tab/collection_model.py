"""What the Collection tab says and does. No widgets, no HTML, no arithmetic beyond counting."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ...collection import COLUMNS, Animal, CollectionError, Finding, SaveRefused
from ...collection.weight_history import weight_text
from ...husbandry import Readiness, first_season, grams, readiness, season_name
from ...looks import caution_text
from ...notation import write_genes
from ..desk import Desk
from ..offers import Problem, offers

__all__ = ["TABLE", "CollectionModel", "Details"]

TABLE = (
    {"key": "id", "label": "id", "kind": "short"},
    {"key": "name", "label": "name", "kind": "text"},
    {"key": "sex", "label": "sex", "kind": "short"},
    {"key": "genes", "label": "genes", "kind": "text"},
    {"key": "hatched", "label": "hatched", "kind": "short"},
    {"key": "weight", "label": "weight", "kind": "number"},
    {"key": "fit", "label": "fit to breed", "kind": "text"},
)
KEPT_OUT = "kept out of plans by a caution"
NEAREST = "Nearest: "


@dataclass(frozen=True)
class Details:
    """One animal in words. facts: (what, text) in reading order. cautions, remarks: one line each."""

    heading: str
    facts: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    remarks: tuple[str, ...]


class CollectionModel:
    """said: what saving came to. conflict: it was refused, and may be tried with `overwrite`.

    editing: id of the animal in the form, "" for a new one, None if the form is closed.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.said = ""
        self.conflict = False
        self.editing: str | None = None

    @property
    def animals(self) -> tuple[Animal, ...]:
        return tuple(self.desk.animals or ())

    def readiness(self, animal: Animal) -> Readiness:
        return readiness(animal, self.desk.care, self.desk.today, allow=self.desk.allow)

    @property
    def headline(self) -> str:
        """How many are fit to breed, and why the others are not; every animal is counted once."""
        if self.desk.animals is None:
            return "No collection is open. Open a file to begin."
        if not self.animals:
            return "No animals yet. Add the first one, or open another file."
        kinds = [_kind(animal, self.readiness(animal)) for animal in self.animals]
        fit, name = kinds.count("fit"), season_name(self.desk.first_season, self.desk.care)
        later = self.desk.first_season > first_season(self.desk.now, self.desk.care)
        when = f"in season {name}, by the weights written so far" if later else "this season"
        others = [
            (kinds.count("growing"), "is too young or too light", "are too young or too light"),
            (kinds.count("unweighed"), "has no weight written", "have no weight written"),
            (kinds.count("unclear"), "lacks its sex or hatch date", "lack their sex or hatch date"),
            (kinds.count("resting"), "rests after a clutch", "rest after a clutch"),
            (kinds.count("away"), "is not kept for breeding", "are not kept for breeding"),
            (kinds.count("barred"), "is kept out by a caution", "are kept out by a caution"),
        ]
        rest = "; ".join(f"{count} {one if count == 1 else more}" for count, one, more in others if count)
        verb = "is" if fit == 1 else "are"
        return f"{fit} of {len(kinds)} {verb} fit to breed {when}." + (f" {rest}." if rest else "")

    @property
    def summary(self) -> str:
        """The open file in one line, for the frame."""
        if self.desk.animals is None:
            return f"{self.desk.path.name} (could not be opened)"
        fit = sum(_kind(animal, self.readiness(animal)) == "fit" for animal in self.animals)
        count = "1 animal" if len(self.animals) == 1 else f"{len(self.animals):,} animals"
        unsaved = " · unsaved changes" if self.desk.unsaved else ""
        return f"{self.desk.path.name} ({count}, {fit:,} fit to breed){unsaved}"

    @property
    def rows(self) -> list[dict[str, Any]]:
        """The rows of the table, in file order."""
        return [self._row(animal) for animal in self.animals]

    def _row(self, animal: Animal) -> dict[str, Any]:
        ready = self.readiness(animal)
        barred = _kind(animal, ready) == "barred"
        mark = "caution" if ready.cautions else "" if ready.ready else "not-ready"
        return {
            "id": animal.id,
            "name": animal.name,
            "sex": animal.sex or "unknown",
            "genes": animal.genes,
            "hatched": str(animal.hatched or ""),
            "weight": _grams(animal.weight_g),
            "fit": KEPT_OUT if barred else str(ready),
            "order": {"weight": animal.weight_g, "fit": (ready.season or 99) * 2 + barred},
            "mark": mark,
            "word": "caution" if ready.cautions else "",
        }

    def details(self, key: str) -> Details | None:
        """Everything about one animal; None if there is no such animal."""
        animals = self.desk.animals
        if animals is None or key not in animals:
            return None
        animal = animals[key]
        ready = self.readiness(animal)
        barred = _kind(animal, ready) == "barred"
        hatched = [str(animal.hatched or ""), f"in clutch {animal.clutch}" if animal.clutch else ""]
        facts = (
            ("fit to breed", KEPT_OUT if barred else str(ready)),
            ("because", "" if ready.ready else ready.words),
            ("may carry", write_genes(animal.genotype)),
            ("written as", animal.genes if animal.genes != write_genes(animal.genotype) else ""),
            ("hatched", " ".join(filter(None, hatched))),
            ("weight", _grams(animal.weight_g) + (f" on {animal.weighed_on}" if animal.weighed_on else "")),
            ("dam", self._named(animal.dam)),
            ("sire", self._named(animal.sire)),
            ("notes", animal.notes),
        )
        heading = ", ".join((f"{animal.id} {animal.name}".strip(), animal.sex or "sex unknown", animal.status))
        remarks = (*(_without_place(finding) for finding in animals.findings if finding.id == key), *ready.remarks)
        cautions = tuple(caution_text(caution) for caution in ready.cautions)
        return Details(heading, tuple(fact for fact in facts if fact[1]), cautions, remarks)

    def _named(self, key: str | None) -> str:
        animals = self.desk.animals
        return f"{key} {animals[key].name}".strip() if key and animals and key in animals else key or ""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Errors of the file that could not be opened, or remarks on the one that is open and those beside it."""
        if self.desk.refused:
            return self.desk.refused[1]
        return (*self.desk.animals.findings, *self.desk.season.refused) if self.desk.animals is not None else ()

    @property
    def files(self) -> tuple[str, ...]:
        """The CSV files beside the one that is open, without backups and what is kept beside a collection."""
        found = sorted(self.desk.path.parent.glob("*.csv"))
        beside = [path for path in found if path.with_suffix("").suffix and _owner(path) in found]
        return tuple(str(path) for path in found if path not in beside and not path.name.endswith(".bak.csv"))

    def open(self, path: str) -> bool:
        """Opens a file; its name alone will do if it lies beside the open one. Whether it was opened."""
        opened = self.desk.open(self.desk.path.parent / Path(path.strip()).expanduser())
        if opened:
            self.said, self.conflict, self.editing = "", False, None
        return opened

    def save(self, overwrite: bool = False) -> None:
        """Saves, and says in `said` what came of it."""
        try:
            backup = self.desk.save(overwrite)
        except SaveRefused as error:
            self.said, self.conflict = " ".join(str(finding) for finding in error.findings), True
            return
        self.conflict = False
        self.said = f"saved; backup {backup.name}" if backup else "saved"

    def form(self, key: str) -> dict[str, str]:
        """The texts of the form for one animal, or for a new one if there is none of this id."""
        animals = self.desk.animals
        if animals is None or key not in animals:
            return {**dict.fromkeys(COLUMNS, ""), "sex": "unknown", "status": "kept"}
        animal = animals[key]
        texts = {name: "" if getattr(animal, name) is None else str(getattr(animal, name)) for name in COLUMNS}
        weight = "" if animal.weight_g is None else weight_text(animal.weight_g)
        return {**texts, "weight_g": weight, "sex": animal.sex or "unknown"}

    def put(self, values: Mapping[str, str]) -> tuple[Problem, ...]:
        """Takes the form over into the collection; what is wrong with it, if anything. Only what changed is written."""
        key, animals = values["id"].strip(), self.desk.animals
        if self.editing == "" and animals is not None and key in animals:
            name = animals[key].name or "another animal"
            return (Problem(f"id: {key} is taken by {name}. Give this one another id."),)
        before = self.form(key) if self.editing else dict.fromkeys(COLUMNS, "")
        changed = {name: text for name, text in values.items() if text.strip() != before[name]}
        try:
            self.desk.put({**changed, "id": key})
        except CollectionError as error:
            return tuple(_problem(finding, key, values) for finding in error.findings if finding.severity == "error")
        self.said, self.editing = "", None
        return ()


def _kind(animal: Animal, ready: Readiness) -> str:
    if animal.status != "kept":
        return "away"
    if ready.ready:
        return "barred" if ready.barred else "fit"
    if ready.resting:
        return "resting"
    if animal.sex is None or "hatch date missing" in ready.reasons:
        return "unclear"
    return "unweighed" if animal.weight_g is None and len(ready.reasons) == 1 else "growing"


def _problem(finding: Finding, key: str, values: Mapping[str, str]) -> Problem:
    text = _without_place(finding) if finding.id in ("", key) else str(finding)
    names = finding.advice.partition(NEAREST)[2].split(", ") if NEAREST in finding.advice else []
    text = text.partition(NEAREST)[0].rstrip() if names else text
    return Problem(text, offers(values.get(finding.column, ""), finding.found, names, finding.column))


def _without_place(finding: Finding) -> str:
    column = f"{finding.column}: " if finding.column else ""
    needed = f"; needed: {finding.needed}" if finding.needed else ""
    advice = f" {finding.advice[:1].upper()}{finding.advice[1:].rstrip('.')}." if finding.advice else ""
    return f"{column}{finding.found}{needed}.{advice}"


def _grams(weight: float | None) -> str:
    return "" if weight is None else grams(weight)


def _owner(path: Path) -> Path:
    """The collection that a file such as my.weights.csv belongs to."""
    return path.with_name(f"{path.name.split('.')[0]}.csv")
