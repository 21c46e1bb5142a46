"""The animals of one keeper: what the file says of each, and what each is known to carry."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from fractions import Fraction
from functools import cached_property
from pathlib import Path

import pandas as pd

from ..catalogue import Catalogue, Sex, load_catalogue
from ..genetics import Genotype, Kinship
from .clutch import Clutch
from .clutch_findings import clutch_findings
from .drafts import Draft
from .findings import CollectionError, Finding, nearest
from .knowledge import Knowledge
from .pedigree_findings import pedigree_findings, settled
from .reading import Reading, in_order, read_text_of
from .season_log import SeasonLog, read_season_log
from .season_log_events import Laying, layings
from .sheet import COLUMNS, Sheet
from .storage import digest, read_text, real_path, write_text
from .weight_history import Weighing
from .weight_history import in_order as weighings_in_order
from .weights import Weights, read_weights

__all__ = ["Animal", "Collection", "read_collection"]


@dataclass(frozen=True)
class Animal:
    """One animal. sex is None if unknown. genes: as written in the file; label: the same, read.

    weight_g: grams, None if not written. sire, dam: ids in the same file, or None; a sire that a clutch book settles is
    filled in. sires: all that may be its sire, if that is open. row: its line in the file.
    extra: the file's further columns, as they are. weighings: all that are known, the earliest first. layings: what the
    clutches and the season log that the collection was given say of a female.
    """

    id: str
    name: str
    sex: Sex | None
    genes: str
    label: Genotype = field(repr=False)
    hatched: date | None
    weight_g: float | None
    weighed_on: date | None
    sire: str | None
    dam: str | None
    clutch: str
    status: str
    dna: str
    notes: str
    extra: Mapping[str, str] = field(repr=False, hash=False)
    row: int = field(repr=False)
    knowledge: Knowledge = field(repr=False, compare=False)
    weighings: tuple[Weighing, ...] = field(default=(), repr=False)
    layings: tuple[Laying, ...] = field(default=(), repr=False)
    sires: tuple[str, ...] = ()

    @property
    def parents(self) -> tuple[str | None, str | tuple[str, ...] | None]:
        """(dam, sire), as far as they are known; several sires where it may be any of them."""
        return self.dam, self.sire or self.sires or None

    @property
    def genotype(self) -> Genotype:
        """What it is known to carry, given its own label and looks and its relatives'."""
        return self.knowledge.genotype(self.id)


class Collection:
    """The animals of one file, in file order; made by `read_collection` or `from_text`, and never changed.

    `animals["F03"]` is one animal. knowledge: what all animals may carry, jointly. clutches: those that were given.
    weights, log: the weights over time and the season log that were given, or None.
    """

    def __init__(
        self,
        reading: Reading,
        seen: dict[Path, str],
        knowledge: Knowledge | None = None,
        clutches: tuple[Clutch, ...] = (),
        weights: Weights | None = None,
        log: SeasonLog | None = None,
    ) -> None:
        """seen: file -> digest of what was last read or written there; one for all that come from one reading.

        knowledge: with what clutches say; None if there are none.
        """
        self._sheet: Sheet = reading.sheet
        self._reading, self._seen = reading, seen
        self.knowledge, self.clutches = knowledge or reading.knowledge, clutches
        self.weights, self.log = weights, log
        laid = layings(clutches, log or ())
        self._animals = {}
        for draft in reading.drafts:
            written = weights.written(draft.id) if weights else ()
            self._animals[draft.id] = _animal(draft, self.knowledge, written, laid.get(draft.id, ()))

    @classmethod
    def from_text(cls, text: str, catalogue: Catalogue | None = None) -> Collection:
        """Reads the text of a collection file. Raises CollectionError with all findings if one is an error."""
        return cls(read_text_of(text, catalogue or load_catalogue()), {})

    @property
    def catalogue(self) -> Catalogue:
        return self.knowledge.catalogue

    @property
    def text(self) -> str:
        """The file's text as `save` writes it."""
        return self._sheet.text

    @property
    def columns(self) -> tuple[str, ...]:
        """The file's columns, in its order, in lower case."""
        return self._sheet.columns

    def __getitem__(self, key: str) -> Animal:
        try:
            return self._animals[key]
        except KeyError:
            near = nearest(key, self._animals) or list(self._animals)[:3]
            raise KeyError(f"no animal {key!r}; nearest: {', '.join(near) or 'there are none'}") from None

    def __iter__(self) -> Iterator[Animal]:
        return iter(self._animals.values())

    def __len__(self) -> int:
        return len(self._animals)

    def __contains__(self, key: object) -> bool:
        return key in self._animals

    @property
    def table(self) -> pd.DataFrame:
        """One row an animal, in file order; the known columns, then the file's own. Missing values are missing."""
        further = list(dict.fromkeys(name for name in self.columns if name and name not in COLUMNS))
        rows = [{**{name: getattr(one, name) for name in COLUMNS}, **one.extra} for one in self]
        table = pd.DataFrame(rows, columns=[*COLUMNS, *further])
        for name in ("hatched", "weighed_on"):
            table[name] = pd.to_datetime(table[name])
        table["weight_g"] = table["weight_g"].astype(float)
        return table

    def kinship(self) -> pd.DataFrame:
        """Kinship coefficients, id x id in file order: what the inbreeding coefficient of two animals' offspring is.

        Animals whose parents are not recorded are taken as unrelated and not inbred: the figures are lower bounds.
        Where several males may be an animal's sire, they are the greatest that any of them allows.
        """
        return pd.DataFrame(self._kinship.table(list(self._animals)), list(self._animals), list(self._animals))

    def inbreeding(self, dam: str, sire: str) -> Fraction:
        """The inbreeding coefficient the offspring of two animals would have; a lower bound, as in `kinship`.

        Raises KeyError if there is no such animal.
        """
        return self._kinship.between(self[dam].id, self[sire].id)

    @cached_property
    def _kinship(self) -> Kinship:
        return Kinship({animal.id: animal.parents for animal in self})

    def updated(self, clutches: Iterable[Clutch]) -> Collection:
        """A new collection in which every animal's genotype is given its own look and records, its pedigree, and these
        clutches, all jointly and exactly. The genes column stays as it is; what cannot be true is a finding.

        clutches: a clutch book, or clutches of it; they replace any given before. Those whose dam or sires are not in
        the collection are left out, with a finding.
        """
        given = tuple(clutches)
        known = tuple(one for one in given if self._knows(one))
        return Collection(self._reading, self._seen, self.knowledge.updated(known), given, self.weights, self.log)

    def with_weights(self, weights: Weights | str | os.PathLike[str] | None) -> Collection:
        """The same animals with their weights over time, which then count for who is ready; None takes them away.

        weights: as read, or the path of their file. Raises CollectionError, with all findings, if it cannot be read.
        """
        found = read_weights(weights, self) if isinstance(weights, str | os.PathLike) else weights
        return Collection(self._reading, self._seen, self.knowledge, self.clutches, found, self.log)

    def with_log(self, log: SeasonLog | str | os.PathLike[str] | None) -> Collection:
        """The same animals with what a season log says of who laid when; otherwise as `with_weights`."""
        found = read_season_log(log, self) if isinstance(log, str | os.PathLike) else log
        return Collection(self._reading, self._seen, self.knowledge, self.clutches, self.weights, found)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Remarks that did not stop the reading: on the file in its order, then on the clutches."""
        rows = {animal.id: animal.row for animal in self}
        own = [finding for finding in self._reading.findings if not settled(finding, self.knowledge)]
        unknown = [one for one in self.clutches if not self._knows(one)]
        told = clutch_findings(self.knowledge, unknown, rows) if self.clutches else ()
        return (*in_order([*own, *pedigree_findings(self.knowledge, rows)]), *told)

    def _knows(self, clutch: Clutch) -> bool:
        """Whether its dam and all its sires are here."""
        return all(key in self for key in (clutch.dam, *clutch.sires))

    def _again(self, sheet: Sheet) -> Collection:
        """From a changed sheet, with the same clutches, weights and season log."""
        reading = read_text_of(sheet.text, self.catalogue)
        made = Collection(reading, self._seen, weights=self.weights, log=self.log)
        return made.updated(self.clutches) if self.clutches else made

    def with_animal(self, row: Mapping[str, str]) -> Collection:
        """A new collection with the animal of this id added, or changed if there is one.

        row: column -> text; columns that are not named stay as they are. Raises CollectionError with all findings.
        """
        return self.with_animals([row])

    def with_animals(self, rows: Iterable[Mapping[str, str]]) -> Collection:
        """As `with_animal`, of several animals at once."""
        sheet = self._sheet
        for row in rows:
            values = {name.strip().casefold(): text for name, text in row.items()}
            if not values.get("id", "").strip():
                raise _refused("id", "no id", "an id for each animal", "give it one, such as F01")
            try:
                sheet = sheet.with_row({**values, "id": values["id"].strip()})
            except KeyError as error:
                near = nearest(str(error.args[0]), [*self.columns, *COLUMNS])
                advice = f"Nearest: {', '.join(near)}" if near else "add the column to the file first"
                raise _refused(str(error.args[0]), "no column of this name", "a column of the file", advice) from None
        return self._again(sheet)

    def without(self, key: str) -> Collection:
        """A new collection without this animal. Raises KeyError if there is none."""
        return self._again(self._sheet.without_row(self[key].id))

    def save(
        self, path: str | os.PathLike[str], *, overwrite: bool = False, now: datetime | None = None
    ) -> Path | None:
        """Writes the file in one step; what was there stays beside it as a dated backup, which is returned.

        Rows that were not edited keep their own text. now: the moment that names the backup, by default the clock's.
        Raises SaveRefused if the file changed since it was read (unless `overwrite`), or cannot be written.
        """
        file = real_path(path)
        backup = write_text(file, self.text, seen=self._seen.get(file), overwrite=overwrite, now=now)
        self._seen[file] = digest(self.text)
        return backup


def read_collection(path: str | os.PathLike[str], catalogue: Catalogue | None = None) -> Collection:
    """Reads a collection file. Raises CollectionError, which holds all findings, if one of them is an error."""
    text = read_text(path)
    return Collection(read_text_of(text, catalogue or load_catalogue()), {real_path(path): digest(text)})


def _animal(
    draft: Draft, knowledge: Knowledge, written: tuple[Weighing, ...], laid: tuple[Laying, ...]
) -> Animal:
    kin = knowledge.kin[draft.id]
    sires = knowledge.sires(draft.id)
    sex: Sex | None = "female" if kin.sex == "female" else "male" if kin.sex == "male" else None
    return Animal(
        id=draft.id,
        name=draft.name,
        sex=sex,
        genes=draft.genes,
        label=kin.label,
        hatched=draft.hatched,
        weight_g=draft.weight_g,
        weighed_on=draft.weighed_on,
        sire=sires[0] if len(sires) == 1 else None,
        dam=kin.dam,
        clutch=draft.clutch,
        status=draft.status,
        dna=draft.dna,
        notes=draft.notes,
        extra=draft.extra,
        row=draft.row,
        knowledge=knowledge,
        weighings=weighings_in_order(written, draft.weight_g, draft.weighed_on),
        layings=laid,
        sires=sires if len(sires) > 1 else (),
    )


def _refused(column: str, found: str, needed: str, advice: str) -> CollectionError:
    return CollectionError([Finding("error", None, column, found, needed, advice)])
