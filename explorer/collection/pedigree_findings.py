"""Where what is written of an animal and what else is known of it do not go together, as notices."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..notation.figures import percent
from .findings import Finding
from .knowledge import Clash, Disagreement, Knowledge
from .shed_tests import ShedTest

__all__ = ["pedigree_findings", "settled"]

UNPLACED = "may lie on"
"""Stands in the notice on a gene of the sex pair that may lie on either chromosome."""


def pedigree_findings(knowledge: Knowledge, rows: Mapping[str, int]) -> tuple[Finding, ...]:
    """Clashes, disagreements, animals set apart and doubted tests. rows: id -> line of the collection file."""

    def notice(key: str, found: str, advice: str) -> Finding:
        return Finding("notice", rows[key], "genes", found, "", advice, key)

    return (
        *(notice(clash.id, *_clash_text(clash)) for clash in knowledge.clashes()),
        *(notice(one.id, *_disagreement_text(one)) for one in knowledge.disagreements()),
        *(notice(key, *_apart_text(place)) for key, place in knowledge.set_apart()),
        *(Finding("notice", rows[key], "dna", *_test_text(test), key) for key, test in knowledge.doubted_tests()),
    )


def settled(finding: Finding, knowledge: Knowledge) -> bool:
    """Whether a label's notice on where a gene of the sex pair lies is answered by the animal's parents."""
    if finding.column != "genes" or UNPLACED not in finding.found:
        return False
    group, animal = knowledge.genome.groups[0], knowledge.kin[finding.id]
    return bool(animal.parents) and knowledge.genotype(finding.id).part(group) != animal.label.part(group)


def _clash_text(clash: Clash) -> tuple[str, str]:
    shows = " ".join(clash.genes) if clash.genes else "showing nothing at that place"
    found = f"{shows} ({clash.place}) cannot come from its recorded {_parents(clash.parents)}"
    return found, "check the genes and the parents; until then its own label alone counts for this gene"


def _disagreement_text(one: Disagreement) -> tuple[str, str]:
    name = f"het {one.gene}" if one.copies == 1 else f"Super {one.gene}"
    label = name if one.label == 1 else f"{percent(one.label)} {name}"
    source = f"its recorded {_parents(one.parents)}"
    if one.book:
        found = f"the label says {label}; from {source}, and the clutch book, it is {percent(one.pedigree)}"
        return found, "the parents and the clutch book are taken at their word; mend whichever is wrong"
    found = f"the label says {label}; from {source} it is {percent(one.pedigree)}"
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
