"""The dna column of a collection file: what tests of sheds found."""

from datetime import date
from fractions import Fraction

import pytest

from explorer.collection import Collection, CollectionError
from explorer.looks import carried
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


@pytest.mark.parametrize(("label", "copies"), [("Normal", 1), ("Pastel", 1), ("Normal", 2), ("Candy", 1)])
def test_result__silence_is_no_record(label: str, copies: int) -> None:
    """A founder of which the genes column does not speak: 0, 1 or 2 copies, each as likely, until the test."""
    gene = "Toffee" if label == "Candy" else "Clown"
    label = "het Candy" if label == "Candy" else label
    animals = Collection.from_text(HEAD + f"F1,f,{label},,,2026-03-01 {'het' if copies == 1 else 'super'} {gene}\n")
    group, _ = animals.knowledge.genome.home[gene]
    found = {n: Fraction(0) for n in range(3)}
    for diplotype, chance in animals["F1"].genotype.part(group).items():
        found[carried(group, diplotype).get(gene, 0)] += chance
    room, error = 2 if gene == "Toffee" else 3, Fraction(1, 1000)
    assert found[copies] == (1 - error) / (1 - error + (room - 1) * error / 2)
    (finding,) = animals.findings
    assert finding.column == "dna"
    assert finding.found.endswith(f"of {gene}, of which the genes column does not speak")
    assert finding.advice == "the test counts; add it to the genes column"


def test_result__none_of_what_is_not_mentioned_changes_nothing() -> None:
    animals = Collection.from_text(HEAD + "F1,f,Pastel,,,2026-03-01 not Clown\n")
    assert animals.findings == ()
    assert write_genes(animals["F1"].genotype) == "Pastel"


@pytest.mark.parametrize(
    ("label", "result"), [("het Clown", "not Clown"), ("Clown", "not Clown"), ("50% het Clown", "super Clown")]
)
def test_result__against_the_genes_column(label: str, result: str) -> None:
    """What is written in so many words stays; who is wrong is said."""
    animals = Collection.from_text(HEAD + f"F1,f,{label},,,2026-03-01 {result}\n")
    assert write_genes(animals["F1"].genotype) == label
    (finding,) = animals.findings
    assert finding.found.startswith("the result of 2026-03-01 says ")
    assert finding.found.endswith(" of Clown; all else that is written says otherwise")
    assert "the record of F1" in finding.advice and "the result of 2026-03-01 on F1" in finding.advice


def test_result__of_young_of_silent_parents() -> None:
    """One of the parents must carry it, or the test is wrong."""
    text = HEAD + "D,f,Normal,,,\nS,m,Normal,,,\nK,f,Normal,D,S,2026-03-01 het Clown\n"
    (finding,) = Collection.from_text(text).findings
    assert finding.id == "K"
    assert "the record of D (4" in finding.advice and "the record of S (4" in finding.advice


def test_results__that_contradict_one_another() -> None:
    text = HEAD + "F1,f,50% het Clown,,,2026-03-01 het Clown; 2026-04-01 not Clown\n"
    animals = Collection.from_text(text)
    said = [finding.found for finding in animals.findings]
    assert said == ["the results of 2026-03-01 and 2026-04-01 say one copy and none of Clown"]
    assert write_genes(animals["F1"].genotype) == "50% het Clown"


def test_results__before_hatching() -> None:
    text = "id,sex,genes,hatched,dna\nF1,f,50% het Clown,2026-05-01,2026-03-01 het Clown\n"
    (finding,) = Collection.from_text(text).findings
    assert finding.found == "a test of 2026-03-01, and it hatched on 2026-05-01"
