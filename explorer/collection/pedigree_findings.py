"""Where what is written of an animal and what else is known of it do not go together, as notices."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from ..notation.figures import percent
from .blame import Suspect, blamed_in_words, conflicts, strained
from .findings import Finding
from .knowledge import Clash, Disagreement, Knowledge
from .shed_tests import ShedTest, contradictory, unmentioned

__all__ = ["pedigree_findings", "settled"]

COPIES = {0: "none", 1: "one copy", 2: "two copies"}

UNPLACED = "may lie on"
"""Stands in the notice on a gene of the sex pair that may lie on either chromosome."""


def pedigree_findings(knowledge: Knowledge, rows: Mapping[str, int]) -> tuple[Finding, ...]:
    """Clashes, disagreements, animals set apart, records that are likely wrong, and what is to be said of tests.

    rows: id -> line of the collection file.
    """
    rate = knowledge.rate
    blamed = {(key, one.group): one.suspects for one in conflicts(knowledge, rate) for key in one.clashing}
    likely = {(key, one.group): one.suspects for one in strained(knowledge, rate) for key in one.clashing}
    doubted = {(key, test.day, test.gene) for key, test in knowledge.doubted_tests()}
    tests = [(key, test) for key, tests in knowledge.tested.items() for test in tests]
    home = knowledge.genome.home

    def notice(key: str, found: str, advice: str) -> Finding:
        return Finding("notice", rows[key], "genes", found, "", advice, key)

    def dna(key: str, found: str, advice: str) -> Finding:
        return Finding("notice", rows[key], "dna", found, "", advice, key)

    return (
        *(notice(one.id, *_clash_text(one, blamed.get((one.id, one.group), ()), rate)) for one in knowledge.clashes()),
        *(notice(one.id, *_disagreement_text(one)) for one in knowledge.disagreements()),
        *(notice(key, *_apart_text(knowledge.place(group))) for key, group in knowledge.set_apart()),
        *(
            notice(key, *_strained_text(knowledge.place(group), named, rate))
            for (key, group), named in likely.items()
            if not any(who == key and home[gene][0].name == group for who, _, gene in doubted)
        ),
        *(
            dna(key, *_test_text(test, likely.get((key, home[test.gene][0].name), ()), rate))
            for key, test in tests
            if (key, test.day, test.gene) in doubted
        ),
        *(
            dna(key, *_silent_text(gene, one.copies))
            for key, gene, one in _silent(knowledge)
            if (key, one.day, gene) not in doubted
        ),
        *(
            dna(key, *_contrary_text(*pair))
            for key, mine in knowledge.tested.items()
            for pair in contradictory(mine)
        ),
    )


def settled(finding: Finding, knowledge: Knowledge) -> bool:
    """Whether a label's notice on where a gene of the sex pair lies is answered by the animal's parents."""
    if finding.column != "genes" or UNPLACED not in finding.found:
        return False
    group, animal = knowledge.genome.groups[0], knowledge.kin[finding.id]
    return bool(animal.parents) and knowledge.genotype(finding.id).part(group) != animal.label.part(group)


def _silent(knowledge: Knowledge) -> Iterator[tuple[str, str, ShedTest]]:
    """(id, gene, test) where a test found what the label of an animal without known parents does not speak of."""
    for key, tests in knowledge.tested.items():
        animal = knowledge.kin[key]
        for group in dict.fromkeys(knowledge.genome.home[test.gene][0] for test in tests):
            if animal.dam is None or (animal.sire is None and not animal.sires):
                for gene in unmentioned(knowledge.genome, group, animal.label.part(group), tests):
                    yield key, gene, next(test for test in tests if test.gene == gene and test.copies)


def _clash_text(clash: Clash, named: Sequence[Suspect], rate: Fraction) -> tuple[str, str]:
    shows = " ".join(clash.genes) if clash.genes else "showing nothing at that place"
    found = f"{shows} ({clash.place}) cannot come from its recorded {_parents(clash.parents)}"
    who = f"{blamed_in_words(named, rate)}. Until then" if named else "until then"
    return found, f"check the genes and the parents: {who} its own label alone counts for this gene"


def _strained_text(place: str, named: Sequence[Suspect], rate: Fraction) -> tuple[str, str]:
    first, second = named[0][1], named[1][1] if len(named) > 1 else Fraction(0)
    sole = first > Fraction(1, 2) and first > 2 * second
    which = f"{named[0][0]} is likelier wrong than right" if sole else "one of these records is likely wrong"
    found = f"what is seen of its young hardly goes with the records at {place}: {which}"
    return found, f"{blamed_in_words(named, rate)}. It counts as it is written until you mend it"


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


def _test_text(test: ShedTest, named: Sequence[Suspect], rate: Fraction) -> tuple[str, str]:
    said = f"the result of {test.day} says {COPIES[test.copies]} of {test.gene}"
    found = f"{said}; all else that is written says otherwise"
    return found, f"{blamed_in_words(named, rate)}. Mend whichever is wrong" if named else "mend whichever is wrong"


def _silent_text(gene: str, copies: int) -> tuple[str, str]:
    found = f"a test found {COPIES[copies]} of {gene}, of which the genes column does not speak"
    return found, "the test counts; add it to the genes column"


def _contrary_text(one: ShedTest, two: ShedTest) -> tuple[str, str]:
    found = f"the results of {one.day} and {two.day} say {COPIES[one.copies]} and {COPIES[two.copies]} of {one.gene}"
    return found, "ask for another test, or delete the one that is wrong; until then both count"


def _parents(parents: Sequence[str]) -> str:
    return f"parents {' and '.join(parents)}" if len(parents) > 1 else f"parent {parents[0]}"
