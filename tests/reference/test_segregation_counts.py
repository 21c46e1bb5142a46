"""Published segregation counts against the exact ratios.

Mendel: Mendel G. Versuche über Pflanzen-Hybriden. Verhandlungen des naturforschenden Vereines in Brünn 4:3-47, 1866.
The single counts of the plants of the two- and three-trait experiments are in part from memory; their sums are checked.
Chi-square values beside the counts were computed from the counts outside the package.
"""

from fractions import Fraction

import pytest
from scipy.stats import chisquare

from explorer.genetics import Brood, none_of
from tests.reference.genomes import animal, genotypes, hets, linked, looks, recessive, unlinked

MENDEL = "Mendel 1866"


def chi_square(counts, ratio):
    """Chi-square and p of counts (class -> number) against exact chances; a class that is not seen counts 0."""
    assert set(counts) <= set(ratio), f"counted, but held to be impossible: {set(counts) - set(ratio)}"
    assert sum(ratio.values()) == 1
    total = sum(counts.values())
    result = chisquare([counts.get(key, 0) for key in ratio], [float(p) * total for p in ratio.values()])
    return float(result.statistic), float(result.pvalue)


def selfed(*names):
    """All hets crossed with one another: the second generation after a cross of true-breeding lines."""
    genome = unlinked(*map(recessive, names))
    return Brood.of(hets(genome, "female"), hets(genome, "male"))


@pytest.mark.parametrize(
    ("dominant", "recessive_", "statistic", "p"),
    [
        pytest.param(5474, 1850, 0.2629, 0.608, id="seed form"),
        pytest.param(6022, 2001, 0.0150, 0.903, id="seed colour"),
        pytest.param(705, 224, 0.3907, 0.532, id="seed coat"),
        pytest.param(882, 299, 0.0635, 0.801, id="pod form"),
        pytest.param(428, 152, 0.4506, 0.502, id="pod colour"),
        pytest.param(651, 207, 0.3497, 0.554, id="flower position"),
        pytest.param(787, 277, 0.6065, 0.436, id="stem length"),
        # Mice, second generation of grey by white; counts of Cuénot as given by Morgan TH, Experimental Zoology, 1907.
        pytest.param(198, 72, 0.4000, 0.527, id="grey mice"),
    ],
)
def test_one_recessive__second_generation_fits_3_to_1(dominant, recessive_, statistic, p):
    found = chi_square({"": dominant, "a": recessive_}, looks(selfed("a")))
    assert found == pytest.approx((statistic, p), abs=6e-4)


def test_one_recessive__3_to_1_is_not_fitted_by_any_counts():
    """The comparison can fail: the seed-form counts against a test cross."""
    genome = unlinked(recessive("a"))
    test_cross = Brood.of(hets(genome, "female"), animal(genome, "male", a=("a", "a")))
    assert chi_square({"": 5474, "a": 1850}, looks(test_cross))[1] < 1e-100


def test_two_recessives__556_seeds():
    """Mendel 1866, round or angular and yellow or green seeds."""
    found = chi_square({"": 315, "b": 101, "a": 108, "ab": 32}, looks(selfed("a", "b")))
    assert found == pytest.approx((0.4700, 0.925), abs=6e-4)


def test_two_recessives__529_plants_by_genotype():
    """Mendel 1866; copies of a and of b. 138 and the group means were seen, the other single counts are from memory."""
    counts = {"00": 38, "02": 35, "20": 28, "22": 30, "01": 65, "21": 68, "10": 60, "12": 67, "11": 138}
    assert sum(counts.values()) == 529
    found = chi_square(counts, genotypes(selfed("a", "b")))
    assert found == pytest.approx((2.8110, 0.946), abs=6e-4)


def plants_of_three_traits():
    """Mendel 1866, 639 plants; "AaBBc" style names turned into copies of a, b and c."""
    named = {
        "ABC": 8, "ABc": 14, "AbC": 9, "Abc": 11, "aBC": 8, "aBc": 10, "abC": 10, "abc": 7,
        "ABCc": 22, "AbCc": 17, "aBCc": 25, "abCc": 20, "ABbC": 15, "ABbc": 18, "aBbC": 19, "aBbc": 24,
        "AaBC": 14, "AaBc": 18, "AabC": 20, "Aabc": 16,
        "ABbCc": 45, "aBbCc": 36, "AaBCc": 38, "AabCc": 40, "AaBbC": 49, "AaBbc": 48,
        "AaBbCc": 78,
    }  # fmt: skip
    found = {}
    for name, count in named.items():
        copies = ""
        for letter in "abc":
            both, low = letter.upper() + letter in name, letter in name
            copies += "1" if both else "2" if low else "0"
        found[copies] = count
    return found


def test_three_recessives__639_plants_by_genotype():
    """Counts in part from memory; the sum and the sums by phenotype are checked."""
    counts = plants_of_three_traits()
    assert (len(counts), sum(counts.values())) == (27, 639)
    assert chi_square(counts, genotypes(selfed("a", "b", "c"))) == pytest.approx((15.3224, 0.951), abs=6e-4)


def test_three_recessives__639_plants_by_look():
    by_look = {}
    for copies, count in plants_of_three_traits().items():
        look = "".join(letter for letter, n in zip("abc", copies, strict=True) if n == "2")
        by_look[look] = by_look.get(look, 0) + count
    assert by_look == {"": 269, "c": 98, "b": 86, "a": 88, "bc": 27, "ac": 34, "ab": 30, "abc": 7}
    assert chi_square(by_look, looks(selfed("a", "b", "c"))) == pytest.approx((2.6730, 0.914), abs=6e-4)


@pytest.mark.parametrize(
    ("counts", "statistic", "p"), [((31, 26, 27, 26), 0.6182, 0.892), ((24, 25, 22, 27), 0.5306, 0.912)]
)
def test_test_cross__two_recessives_with_the_double_recessive(counts, statistic, p):
    """Mendel 1866, seeds of the second and of the fourth experiment on germ cells: AB, Ab, aB, ab."""
    genome = unlinked(recessive("a"), recessive("b"))
    brood = Brood.of(hets(genome, "female"), animal(genome, "male", a=("a", "a"), b=("b", "b")))
    assert looks(brood) == dict.fromkeys(("", "b", "a", "ab"), Fraction(1, 4))
    found = chi_square(dict(zip(("", "b", "a", "ab"), counts, strict=True)), looks(brood))
    assert found == pytest.approx((statistic, p), abs=6e-4)


@pytest.mark.parametrize(
    ("counts", "statistic", "p"), [((20, 23, 25, 22), 0.5778, 0.902), ((25, 19, 22, 21), 0.8621, 0.835)]
)
def test_test_cross__two_recessives_with_the_double_dominant(counts, statistic, p):
    """Mendel 1866, plants of the first and of the third experiment on germ cells, told apart by their own offspring."""
    genome = unlinked(recessive("a"), recessive("b"))
    brood = Brood.of(hets(genome, "female"), animal(genome, "male"))
    assert looks(brood) == {"": 1}
    found = chi_square(dict(zip(("00", "01", "10", "11"), counts, strict=True)), genotypes(brood))
    assert found == pytest.approx((statistic, p), abs=6e-4)


def carriers_among_normals():
    copies = genotypes(selfed("a"))
    return copies["1"] / (copies["0"] + copies["1"])


@pytest.mark.parametrize(("pure", "carriers", "statistic", "p"), [(193, 372, 0.1735, 0.677), (166, 353, 0.4249, 0.515)])
def test_third_generation__two_thirds_of_normals_carry(pure, carriers, statistic, p):
    """Mendel 1866: seeds of dominant look, sown to see whether they breed true."""
    share = carriers_among_normals()
    assert share == Fraction(2, 3)
    found = chi_square({"pure": pure, "carrier": carriers}, {"pure": 1 - share, "carrier": share})
    assert found == pytest.approx((statistic, p), abs=6e-4)


def test_third_generation__ten_offspring_miss_some_carriers():
    """The argument of Fisher RA, Annals of Science 1:115-137, 1936: a carrier with ten normal offspring is missed.

    Set-up seen; the six sets of 100 plants (total 201 to 399) are from memory.
    """
    share = carriers_among_normals()
    missed = none_of({10: Fraction(1)}, looks(selfed("a"))["a"])
    assert missed == Fraction(3, 4) ** 10
    assert (round(float(3 * (1 - share * (1 - missed))), 6), round(float(3 * share * (1 - missed)), 6)) == (
        1.112627,
        1.887373,
    )
    counts = {"seems pure": 201, "carrier": 399}
    naive = {"seems pure": 1 - share, "carrier": share}
    seen = {"seems pure": 1 - share * (1 - missed), "carrier": share * (1 - missed)}
    assert chi_square(counts, naive) == pytest.approx((0.0075, 0.931), abs=6e-4)
    assert chi_square(counts, seen) == pytest.approx((3.3097, 0.069), abs=6e-4)


@pytest.mark.parametrize(
    ("strands", "counts", "rate", "unlinked_statistic"),
    [
        # Purple and vestigial in coupling: counts seen in a secondary account.
        pytest.param((("", ""), ("a", "b")), (1339, 1195, 151, 154), Fraction(305, 2839), 1764.7, id="coupling"),
        # Purple and vestigial in repulsion: counts from memory.
        pytest.param((("a", ""), ("", "b")), (157, 146, 965, 1067), Fraction(303, 2335), 1289.3, id="repulsion"),
        # Black and vestigial in coupling: counts from memory.
        pytest.param((("", ""), ("a", "b")), (965, 944, 206, 185), Fraction(391, 2300), 1002.6, id="black-vestigial"),
    ],
)
def test_fruit_fly_test_cross__linked(strands, counts, rate, unlinked_statistic):
    """Doubly heterozygous females with recessive males; classes wild, both, a alone, b alone."""
    counted = dict(zip(("", "ab", "a", "b"), counts, strict=True))
    free, bound = (linked(recessive("a"), recessive("b"), rate=r) for r in (Fraction(1, 2), rate))
    classes = {}
    for genome in (free, bound):
        female, male = animal(genome, "female", map=strands), animal(genome, "male", map=(("a", "b"), ("a", "b")))
        classes[genome] = looks(Brood.of(female, male))
    assert classes[free] == dict.fromkeys(("", "ab", "a", "b"), Fraction(1, 4))
    statistic, p = chi_square(counted, classes[free])
    assert statistic == pytest.approx(unlinked_statistic, abs=0.06)
    assert p < 1e-200
    parental = ("", "ab") if strands[0] == ("", "") else ("a", "b")
    assert sum(classes[bound][key] for key in parental) == 1 - rate
    # The rate is fitted, so only the unevenness inside parental and recombinant classes is left to see.
    assert chi_square(counted, classes[bound])[1] > 0.01
