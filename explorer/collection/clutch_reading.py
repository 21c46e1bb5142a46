"""From the text of a clutch book to clutches that need no further checking, or to everything that is wrong with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .animals import Collection
from .clutch import Clutch
from .clutch_doubles import double_findings, unclaimed_findings
from .clutch_draft import CLUTCHES, ClutchDraft
from .clutch_relations import day_findings, kept_findings, loop_findings, parent_findings, role_findings
from .findings import CollectionError, Finding
from .sheet import Sheet, read_sheet

__all__ = ["ClutchReading", "read_clutch_text"]


@dataclass(frozen=True)
class ClutchReading:
    """A clutch book that could be read. clutches: in file order; kept: clutch -> ids of the animals that hatched in it;
    findings: its notices, in file order."""

    sheet: Sheet
    clutches: tuple[Clutch, ...]
    kept: Mapping[str, tuple[str, ...]]
    findings: tuple[Finding, ...]


def read_clutch_text(text: str, animals: Collection) -> ClutchReading:
    """Reads the text of a clutch book. Raises CollectionError with all findings if one of them is an error."""
    odd = next((i for i, sign in enumerate(text) if sign == "\0" or "\ud800" <= sign <= "\udfff"), None)
    if odd is not None:
        line, found = text[:odd].count("\n") + 1, f"{text[odd]!r}, which is no text"
        raise CollectionError([Finding("error", line, "", found, "plain text", "delete it")])
    sheet, findings = read_sheet(text, CLUTCHES)
    if sheet is None:
        raise CollectionError(findings)
    shaped = not any(finding.severity == "error" for finding in findings)
    rows, faults = _by_clutch(sheet)
    findings += faults
    ids = {animal.id: None for animal in animals}
    kept: dict[str, tuple[str, ...]] = {}
    clutches = []
    for key, texts in rows.items():
        draft = ClutchDraft.read(key, texts, sheet.columns, ids, animals.catalogue)
        here = [animal for animal in animals if animal.clutch == key]
        kept[key] = tuple(animal.id for animal in here)
        clutches.append(draft.clutch)
        findings += draft.findings
        findings += parent_findings(draft.clutch, draft.rows, animals)
        findings += day_findings(draft.clutch, here, draft.rows)
        findings += kept_findings(draft.clutch, here, complete=shaped and draft.complete)
    findings += role_findings(clutches, animals)
    findings += loop_findings(clutches, kept, animals)
    findings += double_findings(clutches, animals)
    findings += unclaimed_findings(clutches, animals)
    findings.sort(key=_place)
    if any(finding.severity == "error" for finding in findings):
        raise CollectionError(findings)
    if not clutches:
        findings.append(Finding("notice", None, "", "no clutches yet", "", "add a row for each group of hatchlings"))
    return ClutchReading(sheet, tuple(clutches), kept, tuple(findings))


def _by_clutch(sheet: Sheet) -> tuple[dict[str, list[tuple[int, dict[str, str]]]], list[Finding]]:
    """Clutch -> (line, column -> text) of each of its rows."""
    found: dict[str, list[tuple[int, dict[str, str]]]] = {}
    findings = []
    for row in sheet.rows if CLUTCHES.key in sheet.columns else ():
        texts = sheet.values(row) if row.cells else {}
        if texts.get(CLUTCHES.key):
            found.setdefault(texts[CLUTCHES.key], []).append((row.line, texts))
        elif texts:
            advice = "write it in each of its rows, such as C01"
            findings.append(Finding("error", row.line, CLUTCHES.key, "no clutch", "the clutch's name", advice))
    return found, findings


def _place(finding: Finding) -> tuple[int, int]:
    known = finding.column in CLUTCHES.columns
    return finding.row or 0, CLUTCHES.columns.index(finding.column) if known else -1
