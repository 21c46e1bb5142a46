"""A keeper's own view of looks, in two small files beside the collection: opinions on what genes do, and a taste."""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path

from ..catalogue import MEANINGS, QUALITIES, Catalogue, Effect, Evidence, Part
from ..looks import TASTES, Taste, checked_taste
from ..notation import GenesError, read_wanted
from .beside import table_text
from .findings import CollectionError, Finding, nearest
from .storage import read_text_if_any, real_path, write_text

__all__ = ["opinion", "opinions_file", "read_opinions", "read_taste", "save_opinions", "save_taste", "taste_file"]

OPINION_COLUMNS = ("gene", "copies", "on", "quality", "value", "by", "note")
TASTE_COLUMNS = ("wish", "weight")
WORDS = {MEANINGS[quality][0]: quality for quality in QUALITIES}


def opinions_file(collection: str | os.PathLike[str]) -> Path:
    """Where the opinions that go with a collection file are kept."""
    return real_path(collection).with_suffix(".opinions.csv")


def taste_file(collection: str | os.PathLike[str]) -> Path:
    """Where the taste that goes with a collection file is kept."""
    return real_path(collection).with_suffix(".taste.csv")


def opinion(
    gene: str, copies: int, quality: str, value: int, by: str, note: str, catalogue: Catalogue, on: str = ""
) -> Effect:
    """One opinion: what a gene form does to one quality, in its keeper's eyes.

    gene: a gene, or two of one complex, which then count as one copy each. quality: its key or its name in words. on:
    genes that must show besides, in shorthand; "" for any animal. Raises CollectionError with all that is wrong.
    """
    row = (gene, str(copies), on, quality, str(value), by, note)
    findings: list[Finding] = []
    made = _opinion(dict(zip(OPINION_COLUMNS, row, strict=True)), None, catalogue, findings)
    if made is None:
        raise CollectionError(findings, "this opinion")
    return made


def read_opinions(path: str | os.PathLike[str], catalogue: Catalogue) -> tuple[Effect, ...]:
    """The opinions in a file with the columns gene, copies, on, quality, value, by, note; none if there is no file.

    Later rows win over earlier ones. Raises CollectionError with everything that is wrong in the file.
    """
    findings: list[Finding] = []
    rows = _rows(path, OPINION_COLUMNS, ("gene", "copies", "quality", "value"), findings)
    found = [_opinion(row, line, catalogue, findings) for line, row in rows]
    if findings:
        raise CollectionError(_of_file(path, findings), real_path(path).name)
    return tuple(one for one in found if one is not None)


def save_opinions(path: str | os.PathLike[str], opinions: Iterable[Effect]) -> Path | None:
    """Writes the file in one step; the earlier one stays beside it as a dated backup, whose path is returned."""
    rows = [
        (*_form(entry), quality, value, entry.by, entry.note)
        for entry in opinions
        for quality, value in entry.values.items()
    ]
    return write_text(path, table_text(OPINION_COLUMNS, rows))


def read_taste(path: str | os.PathLike[str]) -> dict[str, int]:
    """The taste in a file with the columns wish, weight; the default one if there is no file.

    Raises CollectionError with everything that is wrong in the file.
    """
    findings: list[Finding] = []
    rows = _rows(path, TASTE_COLUMNS, TASTE_COLUMNS, findings)
    taste: dict[str, int] = {}
    for line, row in rows:
        if row["wish"] not in TASTES:
            near = ", ".join(nearest(row["wish"], list(TASTES))) or ", ".join(TASTES)
            findings.append(_error(line, "wish", _quoted(row["wish"]), "a wish that is known", f"Nearest: {near}"))
        elif row["weight"].removeprefix("+") not in ("-2", "-1", "0", "1", "2"):
            findings.append(_error(line, "weight", _quoted(row["weight"]), "a whole number from -2 to 2"))
        else:
            taste[row["wish"]] = int(row["weight"])
    if findings:
        raise CollectionError(_of_file(path, findings), real_path(path).name)
    return checked_taste(taste if rows else None)


def save_taste(path: str | os.PathLike[str], taste: Taste) -> Path | None:
    """Writes the file in one step; the earlier one stays beside it as a dated backup, whose path is returned."""
    return write_text(path, table_text(TASTE_COLUMNS, list(checked_taste(taste).items())))


def _opinion(row: Mapping[str, str], line: int | None, catalogue: Catalogue, findings: list[Finding]) -> Effect | None:
    before = len(findings)
    parts = _parts(row, line, catalogue, findings)
    base = _genes(row["on"], "on", line, catalogue, findings) if row["on"] else {}
    quality = WORDS.get(row["quality"], row["quality"])
    known = next((q for q in QUALITIES if q == quality), None)
    if known is None:
        near = ", ".join(nearest(quality, [*QUALITIES, *WORDS])) or ", ".join(QUALITIES)
        findings.append(_error(line, "quality", _quoted(quality), "a quality that is known", f"Nearest: {near}"))
    value = row["value"].removeprefix("+")
    if value not in map(str, range(-3, 4)):
        findings.append(_error(line, "value", _quoted(row["value"]), "a whole number from -3 to 3"))
    if len(findings) > before or known is None:
        return None
    by = row["by"] or "the keeper"
    return Effect(
        parts,
        {known: int(value)},
        Evidence("trade opinion", (), f"{by}'s own"),
        on=tuple(Part(name, copies) for name, copies in base.items()),
        note=row["note"],
        by=by,
    )


def _parts(
    row: Mapping[str, str], line: int | None, catalogue: Catalogue, findings: list[Finding]
) -> tuple[Part, ...]:
    """The form that an opinion is about: one gene with its copies, or two genes of one complex."""
    found = _genes(row["gene"], "gene", line, catalogue, findings)
    genes = [catalogue.gene(name) for name in found]
    if len(genes) == 2 and genes[0].locus == genes[1].locus:
        return tuple(Part(gene.name) for gene in genes)
    if len(genes) > 1:
        findings.append(_error(line, "gene", _quoted(row["gene"]), "one gene, or two of one complex"))
    if len(genes) != 1:
        return ()
    gene, copies = genes[0], row["copies"]
    if copies not in (("2",) if gene.recessive else ("1", "2")):
        needed = "2: one copy of a recessive gene shows nothing" if gene.recessive else "1 or 2"
        findings.append(_error(line, "copies", _quoted(copies), needed))
        return ()
    return (Part(gene.name, 1 if gene.two_copies == "same look" else int(copies)),)


def _genes(
    text: str, column: str, line: int | None, catalogue: Catalogue, findings: list[Finding]
) -> dict[str, int]:
    try:
        found = read_wanted(text, catalogue)
    except GenesError as error:
        near = f"Nearest: {', '.join(error.nearest)}" if error.nearest else error.advice
        findings.append(_error(line, column, error.found, "the name of a gene", near))
        return {}
    if not found:
        findings.append(_error(line, column, _quoted(text), "the name of a gene"))
    return found


def _form(entry: Effect) -> tuple[str, int, str]:
    """What an opinion is about, as the first three columns have it."""
    gene = " ".join(part.gene for part in entry.parts)
    on = " ".join(f"Super {part.gene}" if part.copies == 2 else part.gene for part in entry.on)
    return gene, entry.parts[0].copies, on


def _rows(
    path: str | os.PathLike[str], columns: Iterable[str], required: Iterable[str], findings: list[Finding]
) -> list[tuple[int, dict[str, str]]]:
    """(line, column -> text) of each row that has any; nothing if there is no file."""
    text = (read_text_if_any(path) or "").removeprefix("\ufeff")
    top = text.lstrip().split("\n", 1)[0]
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=";" if ";" in top and "," not in top else ",")
    header = [cell.strip().casefold() for cell in next(reader, [])]
    if text.strip():
        for name in required:
            if name not in header:
                findings.append(_error(1, name, "no column of this name", f"the columns {', '.join(columns)}"))
    if findings:
        return []
    found = []
    for cells in reader:
        if any(cell.strip() for cell in cells):
            given = {name: cell.strip() for name, cell in zip(header, cells, strict=False)}
            found.append((reader.line_num, {name: given.get(name, "") for name in columns}))
    return found


def _of_file(path: str | os.PathLike[str], findings: Iterable[Finding]) -> list[Finding]:
    return [replace(finding, found=f"{real_path(path).name}: {finding.found}") for finding in findings]


def _error(line: int | None, column: str, found: str, needed: str, advice: str = "") -> Finding:
    return Finding("error", line, column, found, needed, advice)


def _quoted(text: str) -> str:
    return f'"{text}"' if text else "nothing"
