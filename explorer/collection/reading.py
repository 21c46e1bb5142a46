"""From a file's text to animals that need no further checking, or to everything that is wrong with it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..catalogue import Catalogue
from .drafts import Draft, read_draft, read_label
from .findings import CollectionError, Finding
from .knowledge import Knowledge
from .lineage import Kin
from .relations import relate
from .shed_tests import ShedTest, read_tests
from .sheet import COLUMNS, Sheet, read_sheet

__all__ = ["Reading", "in_order", "read_text_of"]

@dataclass(frozen=True)
class Reading:
    """A file that could be read. drafts: in file order; findings: notices on its rows, each taken by itself."""

    sheet: Sheet
    drafts: tuple[Draft, ...]
    knowledge: Knowledge
    findings: tuple[Finding, ...]


def read_text_of(text: str, catalogue: Catalogue) -> Reading:
    """Reads the text of a collection file. Raises CollectionError with all findings if one of them is an error."""
    odd = next((i for i, sign in enumerate(text) if sign == "\0" or "\ud800" <= sign <= "\udfff"), None)
    if odd is not None:
        line, found = text[:odd].count("\n") + 1, f"{text[odd]!r}, which is no text"
        raise CollectionError([Finding("error", line, "", found, "plain text", "delete it")])
    sheet, findings = read_sheet(text)
    if sheet is None:
        raise CollectionError(findings)
    drafts: list[Draft] = []
    for row in sheet.rows:
        if row.cells:
            draft, faults = read_draft(row.line, sheet.values(row))
            drafts.append(draft)
            findings += faults
    relations, faults = relate(drafts)
    findings += faults
    kin: dict[str, Kin] = {}
    tested: dict[str, tuple[ShedTest, ...]] = {}
    for draft in drafts if "genes" in sheet.columns else ():
        sex = relations.sexes.get(draft.id, draft.sex)
        label, faults = read_label(draft, sex, catalogue)
        findings += faults
        if label is not None:
            kin[draft.id] = Kin(sex, label, relations.dams.get(draft.id), relations.sires.get(draft.id), draft.clutch)
            tests, faults = read_tests(draft, catalogue)
            findings += faults
            if tests:
                tested[draft.id] = tests
    findings = in_order(findings)
    if any(finding.severity == "error" for finding in findings):
        raise CollectionError(findings)
    knowledge = Knowledge(catalogue, kin, tested)
    if not drafts:
        findings.append(Finding("notice", None, "", "no animals yet", "", "add a row for each"))
    return Reading(sheet, tuple(drafts), knowledge, tuple(in_order(findings)))


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """By line of the file, then by column."""

    def place(finding: Finding) -> tuple[int, int]:
        known = finding.column in COLUMNS
        return finding.row or 0, COLUMNS.index(finding.column) if known else -1

    return sorted(findings, key=place)
