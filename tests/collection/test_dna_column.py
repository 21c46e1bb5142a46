"""The dna column of a collection file: what tests of sheds found."""

from datetime import date
from fractions import Fraction

import pytest

from explorer.collection import Collection, CollectionError
from explorer.notation import write_genes

HEAD = "id,sex,genes,dam,sire,dna\n"


def test_result__settles_a_possible_het() -> None:
    animals = Collection.from_text(HEAD + "F1,f,66% het Clown,,,2026-03-01 het Clown\n")
    (table,) = [animals["F1"].genotype.parts[name] for name in animals["F1"].genotype.varying]
    # prior 2/3, the test right in 999 of 1,000: odds 2 : 1 times 999/1000 : 1/2000
    assert max(table.values()) == Fraction(3996, 3997)
    negative = Collection.from_text(HEAD + "F1,f,66% het Clown,,,2026-03-01 not Clown\n")
    assert write_genes(negative["F1"].genotype).startswith("0.1")


def test_result__of_a_parent_speaks_for_its_offspring() -> None:
    rows = "F1,f,66% het Clown,,,2026-03-01 not Clown\nM1,m,Clown,,,\nF2,f,66% het Clown,F1,M1,\n"
    assert "het Clown" in write_genes(Collection.from_text(HEAD + rows)["F2"].genotype)


def test_results__several_on_one_animal() -> None:
    text = HEAD + 'F1,f,66% het Clown 50% het Piebald,,,"2026-03-01 het Clown, not Piebald; 2026-04-02 no Albino"\n'
    tests = Collection.from_text(text).knowledge.tested["F1"]
    assert [(test.day, test.gene, test.copies) for test in tests] == [
        (date(2026, 3, 1), "Clown", 1),
        (date(2026, 3, 1), "Piebald", 0),
        (date(2026, 4, 2), "Albino", 0),
    ]


def test_mistakes__all_at_once_with_row_and_column() -> None:
    text = HEAD + "F1,f,Normal,,,2026-03-01 het Clownn; het Clown; 1.3.2026 Clown\nF2,f,Normal,,,2026-03-01\n"
    with pytest.raises(CollectionError) as caught:
        Collection.from_text(text)
    said = [(finding.row, finding.column, finding.found) for finding in caught.value.findings]
    assert said == [
        (2, "dna", '"Clownn"'),
        (2, "dna", "'het'"),
        (2, "dna", "'1.3.2026'"),
        (3, "dna", '"2026-03-01"'),
    ]


def test_result__against_the_records_is_a_notice() -> None:
    animals = Collection.from_text(HEAD + "F1,f,Normal,,,2026-03-01 het Clown\n")
    (finding,) = animals.findings
    assert finding.column == "dna"
    assert "one copy of Clown, which the records make all but impossible" in finding.found
