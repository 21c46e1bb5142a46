"""Reads a catalogue from TOML: the bundled facts, a keeper's own on top of them, or another species."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from decimal import Decimal
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from .checking import check
from .drafts import Draft, Finding
from .entries import AmbiguousWord, Gene, Nickname, Species
from .look_tables import parts_of
from .lookup import Catalogue
from .tables import KINDS, Held, Override, Shelf, Wording, read_species, shelve

__all__ = ["CatalogueError", "load_catalogue", "load_species"]


class CatalogueError(ValueError):
    """Facts files that cannot be used. `findings` holds every problem of every file."""

    def __init__(self, findings: list[Finding]) -> None:
        super().__init__("\n".join(map(str, findings)))
        self.findings = tuple(findings)


def load_catalogue(folder: str | Path | None = None) -> Catalogue:
    """The bundled Python regius facts, with a keeper's own on top.

    folder: TOML files in the format of the bundled ones, read in alphabetical order. They may add sources, loci,
        genes, linkages, compounds, cautions, nicknames, ambiguous words, effects and cues; a figure of a bundled name,
        a linkage of bundled loci and a cue of a bundled key replace the bundled one; an effect is laid over those of
        its form, value by value; an [[override]] restates what two copies of a gene do.
    Raises CatalogueError, listing all problems at once.
    """
    return _bundled() if folder is None else _load(_facts(), Path(folder))


def load_species(folder: str | Path) -> Catalogue:
    """Another species from its own facts folder: a species.toml that lists the other files. Raises CatalogueError."""
    return _load(Path(folder), None)


@cache
def _bundled() -> Catalogue:
    return _load(_facts(), None)


def _facts() -> Traversable:
    return files(__package__) / "facts" / "python_regius"


def _load(folder: Traversable, own: Path | None) -> Catalogue:
    findings: list[Finding] = []
    shelf = Shelf()
    species = _read_species_folder(folder, shelf, findings)
    if own is not None:
        _read_own_folder(own, shelf, findings)
        _replace(shelf)
    check(shelf)
    if findings or species is None:
        raise CatalogueError(findings)
    return _assemble(species, shelf)


def _read_species_folder(folder: Traversable, shelf: Shelf, findings: list[Finding]) -> Species | None:
    data = _parse(folder / "species.toml", findings)
    table = data.pop("species", None)
    if not isinstance(table, dict):
        if data or not findings:
            findings.append(Finding("species.toml", "[species]", "", "nothing", "one table [species]"))
        return None
    species, names = read_species(Draft("species.toml", "[species]", table, findings))
    _shelve_all("species.toml", data, shelf, findings)
    for name in names:
        _shelve_all(name, _parse(folder / name, findings), shelf, findings)
    for file in sorted(folder.iterdir(), key=lambda entry: entry.name):
        if file.name.endswith(".toml") and file.name not in {"species.toml", *names}:
            needed = "every TOML file of the folder"
            findings.append(Finding("species.toml", "[species]", "files", f"no {file.name}", needed))
    return species


def _read_own_folder(folder: Path, shelf: Shelf, findings: list[Finding]) -> None:
    paths = sorted(folder.glob("*.toml")) if folder.is_dir() else []
    if not paths:
        found = "no file that ends in .toml" if folder.is_dir() else "no folder"
        findings.append(Finding(str(folder), "", "", found, "a folder with TOML files"))
    for path in paths:
        _shelve_all(path.name, _parse(path, findings), shelf, findings, own=True)


def _parse(file: Traversable, findings: list[Finding]) -> dict[str, object]:
    try:
        return tomllib.loads(file.read_bytes().decode("utf-8-sig"), parse_float=Decimal)
    except (OSError, ValueError) as problem:
        found = "no such file" if isinstance(problem, FileNotFoundError) else str(problem)
        findings.append(Finding(file.name, "", "", found, "a file of valid TOML in UTF-8"))
        return {}


def _shelve_all(file: str, data: dict[str, object], shelf: Shelf, findings: list[Finding], own: bool = False) -> None:
    kinds = KINDS if own else tuple(kind for kind in KINDS if kind != "override")
    for kind, tables in data.items():
        if kind not in kinds:
            needed = f"tables of the kinds {', '.join(f'[[{k}]]' for k in kinds)}"
            findings.append(Finding(file, kind, "", "a table that is not known here", needed))
        elif not isinstance(tables, list) or not all(isinstance(table, dict) for table in tables):
            findings.append(Finding(file, kind, "", "a single value", f"a table that opens with [[{kind}]]"))
        else:
            for place, table in enumerate(tables, 1):
                title = next((table[key] for key in ("name", "key", "gene") if isinstance(table.get(key), str)), "")
                where = f"[[{kind}]] {place}" + (f" ({title})" if title else "")
                shelve(kind, Draft(file, where, table, findings, own), shelf)


def _replace(shelf: Shelf) -> None:
    """Take out the bundled figures, linkages and cues that a keeper's own stand in for."""
    figures = {held.record.name for held in shelf.figures if held.draft.own}
    shelf.figures = [held for held in shelf.figures if held.draft.own or held.record.name not in figures]
    loci = {locus for held in shelf.linkages if held.draft.own for locus in held.record.loci}
    shelf.linkages = [held for held in shelf.linkages if held.draft.own or not loci.intersection(held.record.loci)]
    cues = {held.record.key for held in shelf.cues if held.draft.own}
    shelf.cues = [held for held in shelf.cues if held.draft.own or held.record.key not in cues]


def _assemble(species: Species, shelf: Shelf) -> Catalogue:
    overrides = {held.record.gene: held.record for held in shelf.overrides}
    places = shelf.places()
    members: dict[str, list[Gene]] = {}
    for held in shelf.genes:
        gene = _overridden(held.record, overrides.get(held.record.name))
        members.setdefault(gene.locus, []).append(gene)
    by_locus = sorted(members.values(), key=lambda genes: genes[0].recessive)
    loci = [replace(places[first.locus], complex=bool(others)) for first, *others in by_locus]
    genes = tuple(gene for group in by_locus for gene in group)
    rank = {gene.name: place for place, gene in enumerate(genes)}
    return Catalogue(
        species,
        (*loci, *(locus for name, locus in places.items() if name not in members)),
        genes,
        tuple(held.record for held in shelf.linkages),
        tuple(held.record for held in shelf.compounds),
        tuple(held.record for held in shelf.cautions),
        tuple(Nickname(w.names[0], _written(w.meanings[0], rank), w.evidence) for w in _records(shelf.nicknames)),
        tuple(
            AmbiguousWord(name, tuple(_written(meaning, rank) for meaning in w.meanings), w.evidence)
            for w in _records(shelf.ambiguous)
            for name in w.names
        ),
        {held.record.name: held.record for held in shelf.figures},
        {held.record.key: held.record for held in shelf.sources},
        tuple(held.record for held in shelf.effects),
        tuple(held.record for held in shelf.cues),
    )


def _records(held: list[Held[Wording]]) -> list[Wording]:
    return [one.record for one in held]


def _overridden(gene: Gene, override: Override | None) -> Gene:
    return replace(gene, two_copies=override.two_copies, two_copy_note=override.note) if override else gene


def _written(words: tuple[str, ...], rank: dict[str, int]) -> str:
    """A meaning in catalogue order."""
    return " ".join(sorted(words, key=lambda word: rank[parts_of([word])[0].gene]))
