"""From a file's text to animals that need no further checking, or to everything that is wrong with it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..catalogue import Catalogue
from ..notation.figures import percent
from .drafts import Draft, read_draft, read_label
from .findings import CollectionError, Finding
from .knowledge import Clash, Disagreement, Knowledge
from .lineage import Kin
from .relations import relate
from .shed_tests import ShedTest, read_tests
from .sheet import COLUMNS, Sheet, read_sheet

__all__ = ["Reading", "read_text_of"]

UNPLACED = "may lie on"
"""Stands in the notice on a gene of the sex pair that may lie on either chromosome."""


@dataclass(frozen=True)
class Reading:
    """A file that could be read. drafts: in file order; findings: its notices, in file order."""

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
    findings = _in_order(findings)
    if any(finding.severity == "error" for finding in findings):
        raise CollectionError(findings)
    knowledge = Knowledge(catalogue, kin, tested)
    findings = [finding for finding in findings if not _settled(finding, knowledge)]
    findings += _pedigree_notices(knowledge, drafts)
    if not drafts:
        findings.append(Finding("notice", None, "", "no animals yet", "", "add a row for each"))
    return Reading(sheet, tuple(drafts), knowledge, tuple(_in_order(findings)))


def _in_order(findings: Iterable[Finding]) -> list[Finding]:
    def place(finding: Finding) -> tuple[int, int]:
        known = finding.column in COLUMNS
        return finding.row or 0, COLUMNS.index(finding.column) if known else -1

    return sorted(findings, key=place)


def _settled(finding: Finding, knowledge: Knowledge) -> bool:
    """Whether a label's notice on where a gene of the sex pair lies is answered by the animal's recorded parents."""
    if finding.column != "genes" or UNPLACED not in finding.found:
        return False
    group, animal = knowledge.genome.groups[0], knowledge.kin[finding.id]
    return bool(animal.parents) and knowledge.genotype(finding.id).part(group) != animal.label.part(group)


def _pedigree_notices(knowledge: Knowledge, drafts: Sequence[Draft]) -> list[Finding]:
    rows = {draft.id: draft.row for draft in drafts}

    def notice(key: str, found: str, advice: str) -> Finding:
        return Finding("notice", rows[key], "genes", found, "", advice, key)

    return [
        *(notice(clash.id, *_clash_text(clash)) for clash in knowledge.clashes()),
        *(notice(one.id, *_disagreement_text(one)) for one in knowledge.disagreements()),
        *(notice(key, *_apart_text(place)) for key, place in knowledge.set_apart()),
        *(Finding("notice", rows[key], "dna", *_test_text(test), key) for key, test in knowledge.doubted_tests()),
    ]


def _clash_text(clash: Clash) -> tuple[str, str]:
    shows = " ".join(clash.genes) if clash.genes else "showing nothing at that place"
    found = f"{shows} ({clash.place}) cannot come from its recorded {_parents(clash.parents)}"
    return found, "check the genes and the parents; until then its own label alone counts for this gene"


def _disagreement_text(one: Disagreement) -> tuple[str, str]:
    name = f"het {one.gene}" if one.copies == 1 else f"Super {one.gene}"
    label = name if one.label == 1 else f"{percent(one.label)} {name}"
    chance = percent(one.pedigree)
    found = f"the label says {label}; from its recorded {_parents(one.parents)} it is {chance}"
    return found, "the recorded parents are taken at their word; mend whichever is wrong"


def _apart_text(place: str) -> tuple[str, str]:
    found = f"its recorded parents are left out of account at {place}"
    return found, "too many related animals may carry it to reckon them all together; a test or a clutch would help"


def _test_text(test: ShedTest) -> tuple[str, str, str]:
    copies = {0: "none", 1: "one copy", 2: "two copies"}[test.copies]
    found = f"the result of {test.day} says {copies} of {test.gene}, which the records make all but impossible"
    return found, "", "check the result and the genes column, and mend whichever is wrong"


def _parents(parents: Sequence[str]) -> str:
    return f"parents {' and '.join(parents)}" if len(parents) > 1 else f"parent {parents[0]}"
