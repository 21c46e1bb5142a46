"""From the tables of facts files to records: which keys each kind of table has."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Generic, TypeVar, get_args

from .drafts import Draft, shown
from .entries import (
    Caution,
    Compound,
    Cue,
    Effect,
    Evidence,
    Figure,
    Gene,
    Inheritance,
    Linkage,
    LocusEntry,
    Part,
    Placement,
    Severity,
    Sex,
    Source,
    Species,
    Strength,
    TwoCopies,
)
from .look_tables import read_cue, read_effect

__all__ = ["KINDS", "Held", "Override", "Shelf", "Wording", "read_species", "shelve"]

R = TypeVar("R")


@dataclass(frozen=True)
class Held(Generic[R]):
    """A record and the table it came from, for findings about it."""

    draft: Draft
    record: R


@dataclass(frozen=True)
class Wording:
    """A nickname (one meaning) or ambiguous words (several), each meaning a list of gene names, "Super" before some."""

    names: tuple[str, ...]
    meanings: tuple[tuple[str, ...], ...]
    evidence: Evidence


@dataclass(frozen=True)
class Override:
    """A keeper's own word on the two-copy form of a gene."""

    gene: str
    two_copies: TwoCopies
    note: str


@dataclass
class Shelf:
    """Records as they stand in the files, in reading order, before they are checked against one another."""

    sources: list[Held[Source]] = field(default_factory=list)
    loci: list[Held[LocusEntry]] = field(default_factory=list)
    genes: list[Held[Gene]] = field(default_factory=list)
    linkages: list[Held[Linkage]] = field(default_factory=list)
    compounds: list[Held[Compound]] = field(default_factory=list)
    cautions: list[Held[Caution]] = field(default_factory=list)
    nicknames: list[Held[Wording]] = field(default_factory=list)
    ambiguous: list[Held[Wording]] = field(default_factory=list)
    figures: list[Held[Figure]] = field(default_factory=list)
    overrides: list[Held[Override]] = field(default_factory=list)
    effects: list[Held[Effect]] = field(default_factory=list)
    cues: list[Held[Cue]] = field(default_factory=list)
    drafts: list[Draft] = field(default_factory=list)

    def places(self) -> dict[str, LocusEntry]:
        """Every locus by name: those with a table, and one of its own for each gene that names none."""
        own = {h.record.locus: h.record.evidence for h in self.genes if h.record.locus and "locus" not in h.draft}
        alone = {name: LocusEntry(name, "autosome", evidence) for name, evidence in own.items()}
        return alone | {held.record.name: held.record for held in self.loci}


def read_species(draft: Draft) -> tuple[Species, tuple[str, ...]]:
    """The species and the names of its facts files, in reading order."""
    files = draft.texts("files")
    same, other, *more = draft.texts("chromosomes", least=2) or ("X", "Y")
    if more or same == other:
        draft.report("chromosomes", shown([same, other, *more]), "two different names")
    sex: Sex = draft.choice("heterogametic", get_args(Sex))
    species = Species(draft.text("key"), draft.name("name"), draft.text("latin"), sex, draft.evidence(), (same, other))
    draft.close()
    return species, files


def shelve(kind: str, draft: Draft, shelf: Shelf) -> None:
    """Read one table of a known kind, and put its record on the shelf."""
    _READERS[kind](draft, shelf)
    draft.close()
    shelf.drafts.append(draft)


def _source(draft: Draft, shelf: Shelf) -> None:
    record = Source(draft.name("key"), draft.text("reference"), draft.text("identifier", ""), draft.text("access"))
    shelf.sources.append(Held(draft, record))


def _locus(draft: Draft, shelf: Shelf) -> None:
    placement: Placement = draft.choice("placement", get_args(Placement), "autosome")
    record = LocusEntry(
        draft.name("name"), placement, draft.evidence(), notes=draft.text("notes", ""), symbol=draft.text("symbol", "")
    )
    shelf.loci.append(Held(draft, record))


def _gene(draft: Draft, shelf: Shelf) -> None:
    name = draft.name("name")
    record = Gene(
        name,
        draft.text("locus", name.lower()),
        draft.choice("inheritance", get_args(Inheritance)),
        draft.choice("two_copies", get_args(TwoCopies)),
        draft.evidence(),
        draft.texts("synonyms", names=True),
        draft.texts("abbreviations", names=True),
        draft.text("two_copy_note", ""),
        draft.text("doubt", ""),
        draft.text("notes", ""),
    )
    shelf.genes.append(Held(draft, record))


def _linkage(draft: Draft, shelf: Shelf) -> None:
    half = Fraction(1, 2)
    record = Linkage(
        draft.texts("loci", least=1),
        draft.numbers("rates", half),
        draft.evidence(),
        draft.choice("sex_pair", (True, False), False),
        draft.number("low", half) if "low" in draft else None,
        draft.number("high", half) if "high" in draft else None,
    )
    shelf.linkages.append(Held(draft, record))


def _compound(draft: Draft, shelf: Shelf) -> None:
    one, two, *more = draft.texts("genes", least=2) or ("", "")
    if more:
        draft.report("genes", shown([one, two, *more]), "two gene names")
    viable = draft.choice("viable", (True, False), True)
    record = Compound((one, two), draft.text("look"), viable, draft.evidence())
    shelf.compounds.append(Held(draft, record))


def _caution(draft: Draft, shelf: Shelf) -> None:
    parts = []
    for part in draft.tables("parts"):
        parts.append(Part(part.text("gene"), part.choice("copies", (1, 2), 1)))
        part.close()
    sexes: tuple[Sex, ...] = get_args(Sex)
    record = Caution(
        tuple(parts),
        draft.text("text"),
        draft.choice("severity", get_args(Severity)),
        draft.choice("strength", get_args(Strength)),
        draft.evidence(),
        draft.choice("sex", sexes) if "sex" in draft else None,
    )
    shelf.cautions.append(Held(draft, record))


def _nickname(draft: Draft, shelf: Shelf) -> None:
    record = Wording((draft.name("name"),), (draft.texts("genes", least=1),), draft.evidence())
    shelf.nicknames.append(Held(draft, record))


def _ambiguous(draft: Draft, shelf: Shelf) -> None:
    record = Wording(draft.texts("words", least=1, names=True), draft.groups("meanings"), draft.evidence())
    shelf.ambiguous.append(Held(draft, record))


def _figure(draft: Draft, shelf: Shelf) -> None:
    record = Figure(draft.text("name"), draft.number("value"), draft.text("unit"), draft.evidence())
    if record.name and not (record.name.isidentifier() and record.name == record.name.lower()):
        draft.report("name", shown(record.name), "a name in snake_case")
    shelf.figures.append(Held(draft, record))


def _override(draft: Draft, shelf: Shelf) -> None:
    status: TwoCopies = draft.choice("two_copies", get_args(TwoCopies))
    record = Override(draft.text("gene"), status, draft.text("note", "the keeper's own"))
    shelf.overrides.append(Held(draft, record))


def _effect(draft: Draft, shelf: Shelf) -> None:
    shelf.effects.append(Held(draft, read_effect(draft)))


def _cue(draft: Draft, shelf: Shelf) -> None:
    shelf.cues.append(Held(draft, read_cue(draft)))


_READERS: dict[str, Callable[[Draft, Shelf], None]] = {
    "source": _source,
    "locus": _locus,
    "gene": _gene,
    "linkage": _linkage,
    "compound": _compound,
    "caution": _caution,
    "nickname": _nickname,
    "ambiguous": _ambiguous,
    "figure": _figure,
    "override": _override,
    "effect": _effect,
    "cue": _cue,
}

KINDS = tuple(_READERS)
"""The kinds of table a facts file may hold, beside the one [species]."""
