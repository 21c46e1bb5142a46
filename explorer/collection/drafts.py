"""One row to one draft of an animal: every field read by itself, every fault written down."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import TypeVar

from ..catalogue import Catalogue, Sex
from ..genetics import Genotype, viable
from ..notation import GenesError, read_genes, write_genes
from .fields import Fault, read_date, read_id, read_sex, read_status, read_weight
from .findings import Finding
from .sheet import COLUMNS

__all__ = ["Draft", "read_draft", "read_label"]

LIGHTEST = 20
"""Grams: less than any hatchling weighs."""

Value = TypeVar("Value")


@dataclass(frozen=True)
class Draft:
    """A row as far as it could be read. id is "" if it could not; sire and dam are what the row says."""

    row: int
    id: str
    name: str
    sex: Sex | None
    genes: str
    hatched: date | None
    weight_g: float | None
    weighed_on: date | None
    sire: str
    dam: str
    clutch: str
    status: str
    dna: str
    notes: str
    extra: Mapping[str, str]


def read_draft(row: int, values: Mapping[str, str]) -> tuple[Draft, list[Finding]]:
    """The draft of one row and what is wrong with it. values: column -> trimmed text; a missing column is blank."""
    findings: list[Finding] = []
    key = values.get("id", "")

    def field(column: str, read: Callable[[str], Value], otherwise: Value) -> Value:
        try:
            return read(values.get(column, ""))
        except Fault as fault:
            findings.append(Finding("error", row, column, fault.found, fault.needed, fault.advice, key))
            return otherwise

    draft = Draft(
        row=row,
        id=field("id", read_id, "") if "id" in values else "",
        name=values.get("name", ""),
        sex=field("sex", read_sex, None),
        genes=values.get("genes", ""),
        hatched=field("hatched", read_date, None),
        weight_g=field("weight_g", read_weight, None),
        weighed_on=field("weighed_on", read_date, None),
        sire=_parent(values.get("sire", "")),
        dam=_parent(values.get("dam", "")),
        clutch=values.get("clutch", ""),
        status=field("status", read_status, "kept"),
        dna=values.get("dna", ""),
        notes=values.get("notes", ""),
        extra={name: text for name, text in values.items() if name not in COLUMNS},
    )
    if draft.hatched and draft.weighed_on and draft.weighed_on < draft.hatched:
        found = f"weighed on {draft.weighed_on}, before it hatched on {draft.hatched}"
        findings.append(Finding("error", row, "weighed_on", found, "", "mend one of the two days", key))
    if draft.weight_g is not None and draft.weight_g < LIGHTEST:
        found = f"{draft.weight_g:g} g, lighter than any hatchling"
        findings.append(Finding("notice", row, "weight_g", found, "", "check that it is in grams", key))
    return draft, findings


def read_label(draft: Draft, sex: Sex | None, catalogue: Catalogue) -> tuple[Genotype | None, list[Finding]]:
    """What the genes column says of an animal of this sex, and what is wrong or uncertain about it."""

    def finding(found: str, needed: str, advice: str) -> Finding:
        return Finding("error", draft.row, "genes", found, needed, advice, draft.id)

    if not draft.genes:
        return None, [finding("no genes", "what the animal shows and carries", "write Normal if it is nothing known")]
    try:
        label = _genes(draft.genes, sex, catalogue)
    except GenesError as error:
        near = f". Nearest: {', '.join(error.nearest)}" if error.nearest else ""
        return None, [finding(error.found, error.needed, error.advice + near)]
    for name in label.varying:
        group = label.genome.by_name[name]
        if not any(viable(group, diplotype) for diplotype in label.parts[name]):
            found = f"{write_genes(label)}, which is recorded as not viable"
            return None, [finding(found, "a genotype that hatches", "check how many copies it has")]
    notices = [Finding("notice", draft.row, "genes", said, "", "", draft.id) for said in label.notices]
    return label, notices


def _parent(text: str) -> str:
    return "" if text.casefold() in ("", "?", "-", "unknown") else text


@lru_cache(maxsize=4096)
def _genes(text: str, sex: Sex | None, catalogue: Catalogue) -> Genotype:
    return read_genes(text, sex, catalogue)
