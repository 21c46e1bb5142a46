"""Worked values of proving out and of carrier risk by way of the files a keeper writes: a collection and a clutch book.

The tables and their marks stand in test_posteriors.py and test_carrier_risk.py, which ask the pedigree engine alone.
"""

from fractions import Fraction

import pytest

import explorer as ex
from explorer.looks import carried
from tests.reference.test_posteriors import PERCENT

LABELS = {"2/3": "66% het Clown", "1/2": "50% het Clown", "1/3": "33% het Clown", "visual": "Clown", "het": "het Clown"}


def told(folder, animals, clutches):
    """The collection given the clutch book, both read from files."""
    (folder / "animals.csv").write_text("id,sex,genes,dam,sire,clutch,dna\n" + "\n".join(animals) + "\n")
    (folder / "clutches.csv").write_text("clutch,dam,sire,look,sex,count\n" + "\n".join(clutches) + "\n")
    collection = ex.read_collection(folder / "animals.csv")
    return collection.updated(ex.read_clutches(folder / "clutches.csv", collection))


def chance(animals, key, gene="Clown"):
    genotype = animals[key].genotype
    group, _ = genotype.genome.home[gene]
    return sum((p for d, p in genotype.part(group).items() if gene in carried(group, d)), Fraction(0))


def normals(n, dam="D", sire="S", name="C1"):
    return [f"{name},{dam},{sire},Normal,,{n}"] if n else [f"{name},{dam},{sire},,,"]


@pytest.mark.parametrize(("prior", "mate", "step"), PERCENT)
def test_proving__percent_table(tmp_path, prior, mate, step):
    """A possible het and a visual or a het, and n normal hatchlings."""
    for i, printed in enumerate(PERCENT[prior, mate, step]):
        found = told(tmp_path, [f"D,f,{LABELS[prior]},,,,", f"S,m,{LABELS[mate]},,,,"], normals(i * step))
        assert found.findings == ()
        assert round(float(100 * chance(found, "D")), 1) == printed


@pytest.mark.parametrize(
    ("prior", "mate", "five", "one"),
    [
        ("2/3", "visual", 6, 8),
        ("1/2", "visual", 5, 7),
        ("1/3", "visual", 4, 6),
        ("2/3", "het", 13, 19),
        ("1/2", "het", 11, 16),
        ("1/3", "het", 8, 14),
    ],
)
def test_proving__hatchlings_to_fall_to_5_and_1_percent(tmp_path, prior, mate, five, one):
    rows = [f"D,f,{LABELS[prior]},,,,", f"S,m,{LABELS[mate]},,,,"]
    for goal, n in ((Fraction(1, 20), five), (Fraction(1, 100), one)):
        fewer, enough = (chance(told(tmp_path, rows, normals(count)), "D") for count in (n - 1, n))
        assert enough <= goal < fewer


def test_proving__seven_normals_and_then_a_visual(tmp_path):
    """66 % het by visual, seven hatchlings: 1.5 % (2/3 x 1/128, over that and 1/3); one visual is proof."""
    rows = ["D,f,66% het Clown,,,,", "S,m,Clown,,,,"]
    assert round(float(chance(told(tmp_path, rows, normals(7)), "D")), 3) == 0.015
    assert chance(told(tmp_path, rows, [*normals(7), "C1,D,S,Clown,,1"]), "D") == 1


@pytest.mark.parametrize(("n", "expected"), list(enumerate(("2/3", "1/2", "1/3", "1/5", "1/9"))))
def test_sib_of_a_visual__with_normal_test_cross_hatchlings(tmp_path, n, expected):
    """Two possible hets have a Clown, and a normal daughter that is bred to a Clown: 2/3, 1/2, 1/3, 1/5, 1/9."""
    rows = ["D,f,50% het Clown,,,,", "S,m,50% het Clown,,,,", "K,f,Normal,,,C1,", "T,m,Clown,,,,"]
    book = ["C1,D,S,Clown,,1", "C1,D,S,Normal,,1", *normals(n, "K", "T", "C2")]
    found = told(tmp_path, rows, book)
    assert (found["K"].dam, found["K"].sire) == ("D", "S")
    assert chance(found, "K") == Fraction(expected)
    assert chance(found, "D") == chance(found, "S") == 1


def test_two_possible_hets__are_known_jointly(tmp_path):
    """Six normals: both are het with .056, while the marginals alone would say .137."""
    found = told(tmp_path, ["D,f,50% het Clown,,,,", "S,m,50% het Clown,,,,"], normals(6))
    pair = found.knowledge.pair("D", "S")["clown"]
    both = sum(p for (dam, sire), p in pair.items() if ("Clown",) in dam and ("Clown",) in sire)
    assert round(float(both), 3) == 0.056
    assert round(float(chance(found, "D") * chance(found, "S")), 3) == 0.137


@pytest.mark.parametrize("n", range(4))
def test_dna_test__negative_beside_normal_hatchlings(tmp_path, n):
    """Prior odds 2 to 1, 1 to 2^n, and a test wrong once in 1,000 (of two other results, each as likely). Derived."""
    rows = ["D,f,66% het Clown,,,,2026-03-01 not Clown", "S,m,Clown,,,,"]
    odds = 2 * Fraction(1, 2000) / Fraction(999, 1000) / 2**n
    assert chance(told(tmp_path, rows, normals(n)), "D") == odds / (1 + odds)
