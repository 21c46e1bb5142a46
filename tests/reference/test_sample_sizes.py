"""Smallest numbers of offspring for at least s wanted ones, through `at_least`.

The question and its tables: Sedcole JR, Crop Science 17:667-668, 1977 (table recalled); Hanson WD, Agronomy Journal
51:711-715, 1959 (recalled); Schwager SJ and co-authors, Theoretical and Applied Genetics 86:964-974, 1993 (abstract
seen). Every entry was computed again from the exact binomial law outside the package.
"""

from fractions import Fraction

import pytest

from explorer.genetics import at_least
from explorer.pairing import cross

WANTED = (1, 2, 3, 4, 5, 6, 8, 10, 15)

SEVERAL = {
    (".95", "3/4"): (3, 5, 6, 8, 9, 11, 14, 17, 25),
    (".95", "1/2"): (5, 8, 11, 13, 16, 18, 23, 28, 40),
    (".95", "1/3"): (8, 13, 17, 21, 25, 29, 37, 44, 62),
    (".95", "1/4"): (11, 18, 23, 29, 34, 40, 50, 60, 84),
    (".95", "1/8"): (23, 37, 49, 60, 71, 82, 103, 123, 172),
    (".95", "1/16"): (47, 75, 99, 122, 144, 166, 208, 248, 347),
    (".95", "1/32"): (95, 150, 200, 246, 291, 334, 418, 500, 697),
    (".95", "1/64"): (191, 302, 401, 494, 584, 671, 839, 1002, 1397),
    (".99", "1/2"): (7, 11, 14, 17, 19, 22, 27, 33, 45),
    (".99", "1/3"): (12, 17, 22, 27, 31, 35, 44, 52, 71),
    (".99", "1/4"): (17, 24, 31, 37, 43, 49, 60, 70, 96),
    (".99", "1/8"): (35, 51, 64, 77, 89, 101, 124, 146, 198),
    (".99", "1/16"): (72, 104, 132, 158, 182, 206, 252, 296, 402),
    (".99", "1/32"): (146, 210, 266, 318, 368, 416, 508, 597, 809),
    (".99", "1/64"): (293, 423, 535, 640, 739, 835, 1020, 1198, 1623),
    (".90", "1/2"): (4, 7, 9, 12, 14, 17, 21, 26, 37),
    (".90", "1/4"): (9, 15, 20, 25, 30, 35, 45, 55, 78),
    (".90", "1/8"): (18, 30, 41, 52, 62, 73, 92, 111, 158),
    (".90", "1/16"): (36, 61, 84, 106, 126, 147, 186, 225, 319),
}
"""(P, q) -> the smallest n for each number wanted."""

ONE_IN = (2, 3, 4, 8, 16, 32, 64, 128, 256, 512, 1024, 4096)

FIRST = {
    ".50": (1, 2, 3, 6, 11, 22, 45, 89, 178, 355, 710, 2839),
    ".80": (3, 4, 6, 13, 25, 51, 103, 206, 412, 824, 1648, 6592),
    ".90": (4, 6, 9, 18, 36, 73, 147, 294, 589, 1178, 2357, 9431),
    ".95": (5, 8, 11, 23, 47, 95, 191, 382, 766, 1533, 3067, 12270),
    ".99": (7, 12, 17, 35, 72, 146, 293, 588, 1177, 2356, 4714, 18861),
    ".999": (10, 18, 25, 52, 108, 218, 439, 881, 1765, 3534, 7071, 28291),
}
"""P -> the smallest n for one wanted, each of chance 1 in 2, 3, 4, ..."""


def chance(wanted, q, n):
    return at_least({Fraction(q): Fraction(1)}, {n: Fraction(1)}, wanted)


@pytest.mark.parametrize(("p", "q"), SEVERAL)
def test_offspring_needed__several_wanted(p, q):
    assert len(SEVERAL[p, q]) == len(WANTED)
    for wanted, n in zip(WANTED, SEVERAL[p, q], strict=True):
        assert chance(wanted, q, n - 1) < Fraction(p) <= chance(wanted, q, n), f"{wanted} wanted"


@pytest.mark.parametrize("p", FIRST)
def test_offspring_needed__one_wanted(p):
    for one_in, n in zip(ONE_IN, FIRST[p], strict=True):
        q = Fraction(1, one_in)
        assert chance(1, q, n - 1) < Fraction(p) <= chance(1, q, n), f"1 in {one_in}"


def test_offspring_needed__16_are_not_enough_for_a_quarter_at_99():
    """Some breeding texts print 16."""
    assert round(float(chance(1, "1/4", 16)), 5) == 0.98998
    assert chance(1, "1/4", 16) < Fraction(99, 100) <= chance(1, "1/4", 17)


def test_offspring_needed__one_half_at_a_half_is_an_exact_tie():
    """Logarithms in floating point may answer 2."""
    assert chance(1, "1/2", 1) == Fraction(1, 2)


@pytest.mark.parametrize(
    ("genes", "one_in", "n"),
    [
        ("Clown", 4, 11),
        ("Clown Piebald", 16, 47),
        ("Clown Piebald Sunset", 64, 191),
    ],
)
def test_offspring_needed__het_with_het_at_95(genes, one_in, n):
    """Derived: n het recessives on both sides, all to show."""
    hets = " ".join(f"het {gene}" for gene in genes.split())
    odds = cross(hets, hets)
    assert odds.chance(genes) == Fraction(1, one_in)
    for eggs, enough in ((n - 1, False), (n, True)):
        assert (odds.chance_in_clutch(genes, eggs=eggs) >= Fraction(95, 100)) is enough
