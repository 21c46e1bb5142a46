"""What a test of an animal's shed found: near-certain evidence on one gene."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import combinations

from ..catalogue import Catalogue, UnknownName
from ..genetics import WILD, Diplotype, Genome, Group, Part, order, viable
from ..genetics.pedigree import Fit
from ..looks import carried
from .drafts import Draft
from .fields import Fault, read_date
from .findings import Finding

__all__ = ["ShedTest", "agreement", "contradictory", "read_tests", "unmentioned", "widened"]

NONE = ("not", "no", "without")
RESULT = re.compile(r"(?:(?P<word>not|no|without|het|super|visual)\s+)?(?P<gene>.+)", re.IGNORECASE)
START = "write it like: 2026-03-01 het Clown, not Piebald; 2026-04-02 Albino"


@dataclass(frozen=True)
class ShedTest:
    """A test's result. copies: 0 to 2 of the gene. day: when it was done. error: the chance that a result is wrong."""

    day: date
    gene: str
    copies: int
    error: Fraction


def read_tests(draft: Draft, catalogue: Catalogue) -> tuple[tuple[ShedTest, ...], list[Finding]]:
    """The tests that the dna column of a row tells of, and what is wrong with it.

    It holds entries parted by semicolons, each a day and what was found, parted by commas:
    "2026-03-01 het Clown, not Piebald".
    """
    tests: list[ShedTest] = []
    findings: list[Finding] = []

    def fault(found: str, needed: str, advice: str) -> None:
        findings.append(Finding("error", draft.row, "dna", found, needed, advice, draft.id))

    error = catalogue.figure("shed_test_error").value if draft.dna else Fraction(0)
    for entry in filter(None, (part.strip() for part in draft.dna.split(";"))):
        day_text, _, results = entry.partition(" ")
        try:
            day = read_date(day_text)
        except Fault as problem:
            fault(problem.found, "a day and what was found", START)
            continue
        if day is None or not results.strip():
            fault(f'"{entry}"', "a day and what was found", START)
            continue
        if draft.hatched is not None and day < draft.hatched:
            found, advice = f"a test of {day}, and it hatched on {draft.hatched}", "mend one of the two days"
            findings.append(Finding("notice", draft.row, "dna", found, "", advice, draft.id))
        for result in filter(None, (part.strip() for part in results.split(","))):
            read = RESULT.fullmatch(result)
            assert read is not None
            word, name = (read["word"] or "").casefold(), read["gene"]
            try:
                gene = catalogue.gene(name)
            except UnknownName as unknown:
                fault(f'"{name}"', "the name of a gene", f"Nearest: {', '.join(unknown.nearest)}")
                continue
            copies = 0 if word in NONE else 1 if word == "het" else 2 if word == "super" or gene.recessive else 1
            tests.append(ShedTest(day, gene.name, copies, error))
    return tuple(tests), findings


def agreement(genome: Genome, group: Group, tests: Sequence[ShedTest]) -> Fit | None:
    """How well a diplotype at one group agrees with all tests on it; None if none is on it.

    A wrong result is one of the two others, each as likely.
    """
    here = [test for test in tests if genome.home[test.gene][0] is group]
    if not here:
        return None

    def fits(diplotype: Diplotype) -> Fraction:
        copies = carried(group, diplotype)
        weight = Fraction(1)
        for test in here:
            weight *= 1 - test.error if copies.get(test.gene, 0) == test.copies else test.error / 2
        return weight

    return fits


def contradictory(tests: Sequence[ShedTest]) -> Iterator[tuple[ShedTest, ShedTest]]:
    """Pairs of tests that found another number of copies of the same gene."""
    for one, two in combinations(tests, 2):
        if one.gene == two.gene and one.copies != two.copies:
            yield one, two


def unmentioned(genome: Genome, group: Group, label: Part, tests: Sequence[ShedTest]) -> tuple[str, ...]:
    """The genes that tests found at a group and of which the label does not speak."""
    found = dict.fromkeys(test.gene for test in tests if test.copies and genome.home[test.gene][0] is group)
    return tuple(gene for gene in found if not any(carried(group, diplotype).get(gene) for diplotype in label))


def widened(genome: Genome, group: Group, label: Part, tests: Sequence[ShedTest]) -> Part:
    """The label with any number of copies of the genes that it does not speak of and that tests found, each as likely.

    Silence is no record: what the test says then settles it.
    """
    for gene in unmentioned(genome, group, label, tests):
        at = group.loci.index(genome.home[gene][1]) + int(group.sex)
        wider: dict[Diplotype, Fraction] = {}
        for diplotype, chance in label.items():
            numbers: dict[int, set[Diplotype]] = {}
            for places in ((), (0,), (1,), (0, 1)):
                if all(diplotype[i][at] == WILD for i in places):
                    one, two = (
                        (*half[:at], gene, *half[at + 1 :]) if i in places else half for i, half in enumerate(diplotype)
                    )
                    if viable(group, made := order(one, two)):
                        numbers.setdefault(len(places), set()).add(made)
            for alike in numbers.values():
                for made in alike:
                    wider[made] = wider.get(made, Fraction(0)) + chance / len(numbers) / len(alike)
        label = wider
    return label
