"""Published counts that must be rejected, and the recombination fractions that published counts give.

Marks: seen, the counts stand in an abstract or a page that was read; recalled, from memory; derived, computed from the
counts outside the package. The counts that fit simple ratios are in test_segregation_counts.py.
"""

from fractions import Fraction
from math import log

import pytest
from scipy.stats import chisquare

from explorer.genetics import Brood, Contradiction, Member, joint, none_of
from explorer.looks import shown
from tests.reference.genomes import animal, hets, linked, looks, on_x, recessive, unlinked

COUPLED, APART, DOUBLE = (("", ""), ("a", "b")), (("a", ""), ("", "b")), (("a", "b"), ("a", "b"))


def white_eyed(dam, sire):
    """Looks by sex of the offspring of a dam and a sire, each given as the alleles of her and his strands."""
    genome = on_x(recessive("w"))
    return looks(Brood.of(animal(genome, "female", sex=dam), animal(genome, "male", sex=sire)), sexed=True)


def two_recessives():
    genome = unlinked(recessive("a"), recessive("b"))
    return looks(Brood.of(hets(genome, "female"), hets(genome, "male")))


WILD, CARRIER, WHITE_MALE = (("",), ("",)), (("",), ("w",)), (("w",), ("",))


def test_white_eye__the_first_generation_has_three_males_that_cannot_be():
    """Morgan TH, Science 32:120-122, 1910, recalled: 1237 red-eyed, and three white-eyed males, put down to mutation.

    The engine gives a white-eyed male there no chance at all, so a record of one is a contradiction, never bad luck.
    """
    assert white_eyed(WILD, WHITE_MALE) == {"female ": Fraction(1, 2), "male ": Fraction(1, 2)}
    genome = on_x(recessive("w"))
    group = genome.groups[0]

    def family(white):
        def fits(diplotype):
            return genome.sex_of(diplotype) == "male" and bool(shown(group, diplotype)) is white

        return {
            "dam": Member(None, None, {genome.pair(group, *WILD, "female"): Fraction(1)}, None, lambda d: True),
            "sire": Member(None, None, {genome.pair(group, *WHITE_MALE, "male"): Fraction(1)}, None, lambda d: True),
            "son": Member("dam", "sire", None, None, fits),
        }

    assert set(joint(group, family(False), ("son",)).values()) == {1}
    with pytest.raises(Contradiction) as caught:
        joint(group, family(True), ("son",))
    assert set(caught.value.members) == {"son", "dam", "sire"}


REJECTED = {
    # Classes of the cross, counts, chi-square, p to the one digit that is printed; chi-square and p derived.
    "white eye, second generation: Morgan 1910, recalled": (
        white_eyed(CARRIER, WILD),
        {"female ": 2459, "male ": 1011, "male w": 782},
        128.98,
        "1e-28",
    ),
    "white eye, male with a carrier daughter: Morgan 1910, recalled": (
        white_eyed(CARRIER, WHITE_MALE),
        {"female ": 129, "male ": 132, "female w": 88, "male w": 86},
        17.460,
        "6e-04",
    ),
    "sweet pea, 381 plants: Bateson, Saunders and Punnett 1905, seen": (
        two_recessives(),
        {"": 284, "b": 21, "a": 21, "ab": 55},
        134.7,
        "5e-29",
    ),
    "sweet pea, 6952 plants: recalled": (
        two_recessives(),
        {"": 4831, "b": 390, "a": 393, "ab": 1338},
        3371.6,
        "0e+00",
    ),
}


@pytest.mark.parametrize(("ratio", "counts", "statistic", "p"), REJECTED.values(), ids=REJECTED)
def test_rejected__p_as_printed(ratio, counts, statistic, p):
    """Poor viability or linkage: the classes are all possible, the ratio is not."""
    assert set(counts) == set(ratio)
    total = sum(counts.values())
    found = chisquare([counts[key] for key in ratio], [float(chance) * total for chance in ratio.values()])
    assert found.statistic == pytest.approx(statistic, abs=0.05)
    assert f"{found.pvalue:.0e}" == p


def test_third_generation__six_sets_of_100_plants():
    """Mendel 1866, recalled; set-up seen: 36:64, 29:71, 40:60, 35:65, 33:67, 28:72, together 201 to 399.

    No set alone tells 1:2 from what ten offspring each would show (Fisher RA, Annals of Science 1:115-137, 1936).
    """
    sets = [(36, 64), (29, 71), (40, 60), (35, 65), (33, 67), (28, 72)]
    assert [sum(pair) for pair in sets] == [100] * 6
    assert tuple(map(sum, zip(*sets, strict=True))) == (201, 399)
    genome = unlinked(recessive("a"))
    visual = looks(Brood.of(hets(genome, "female"), hets(genome, "male")))["a"]
    missed = none_of({10: Fraction(1)}, visual)
    for carriers in (Fraction(2, 3), Fraction(2, 3) * (1 - missed)):
        for pair in sets:
            assert chisquare(pair, [float(100 * (1 - carriers)), float(100 * carriers)]).pvalue > 0.05


def support(rate, strands, counts, *, tester):
    """Log likelihood of counts of (wild, both, a alone, b alone) under the engine's chances at this rate."""
    genome = linked(recessive("a"), recessive("b"), rate=rate)
    mate = DOUBLE if tester else strands
    found = looks(Brood.of(animal(genome, "female", map=strands), animal(genome, "male", map=mate)))
    return sum(n * log(found[key]) for key, n in zip(("", "ab", "a", "b"), counts, strict=True))


FITTED = {
    "purple and vestigial, coupling: seen in a secondary account": (COUPLED, (1339, 1195, 151, 154), True, 0.1074),
    "purple and vestigial, repulsion: recalled": (APART, (157, 146, 965, 1067), True, 0.1298),
    "black and vestigial: recalled": (COUPLED, (965, 944, 206, 185), True, 0.1700),
    "sweet pea, 381 plants: seen": (COUPLED, (284, 55, 21, 21), False, 0.1280),
    "sweet pea, 6952 plants: recalled": (COUPLED, (4831, 1338, 390, 393), False, 0.1201),
    "maize, starchy and base leaf: recalled": (APART, (1997, 32, 906, 904), False, 0.1890),
}
"""Strands of the double het, counts, whether with the double recessive, and the fitted rate; the rates derived."""


@pytest.mark.parametrize(("strands", "counts", "tester", "rate"), FITTED.values(), ids=FITTED)
def test_fitted_rate__no_other_has_more_support(strands, counts, tester, rate):
    """Maximum likelihood: at four decimals, the printed rate beats its neighbours two steps away."""
    best = support(Fraction(str(rate)), strands, counts, tester=tester)
    for step in (Fraction(-2, 10**4), Fraction(2, 10**4), Fraction(-1, 50), Fraction(1, 50)):
        assert support(Fraction(str(rate)) + step, strands, counts, tester=tester) < best


@pytest.mark.parametrize(
    ("name", "recombinant", "total", "rate", "error"),
    [
        ("purple and vestigial, coupling: seen in a secondary account", 305, 2839, 0.1074, 0.0058),
        ("purple and vestigial, repulsion: recalled", 303, 2335, 0.1298, 0.0070),
        ("black and vestigial: recalled", 391, 2300, 0.1700, 0.0078),
    ],
)
def test_fitted_rate__standard_error_of_a_test_cross(name, recombinant, total, rate, error):
    """Derived. The error is taken from the curvature of the engine's log likelihood at its top."""
    strands, counts, _, _ = FITTED[name]
    assert sum(counts) == total
    top, step = Fraction(recombinant, total), Fraction(1, 10**4)
    assert round(float(top), 4) == rate
    lower, middle, upper = (support(top + k * step, strands, counts, tester=True) for k in (-1, 0, 1))
    curvature = (2 * middle - lower - upper) / float(step) ** 2
    assert round(curvature**-0.5, 4) == error


@pytest.mark.parametrize(
    ("name", "rate", "theta", "statistic"),
    [
        ("sweet pea, 381 plants: seen", "12804/100000", 0.7603, 6.174),
        ("sweet pea, 6952 plants: recalled", "12007/100000", 0.7743, 0.0767),
        ("maize, starchy and base leaf: recalled", "18898/100000", 0.035712, None),
    ],
)
def test_fitted_rate__classes_of_two_double_hets(name, rate, theta, statistic):
    """(2 + theta, theta, 1 - theta, 1 - theta) / 4, with theta = (1 - r)^2 in coupling and r^2 in repulsion; derived.

    Against these classes the sweet peas give the printed chi-square, and the maize none that would reject them.
    """
    strands, counts, _, _ = FITTED[name]
    genome = linked(recessive("a"), recessive("b"), rate=rate)
    found = looks(Brood.of(animal(genome, "female", map=strands), animal(genome, "male", map=strands)))
    t = (1 - Fraction(rate)) ** 2 if strands == COUPLED else Fraction(rate) ** 2
    assert float(t) == pytest.approx(theta, abs=6e-5)
    assert found == {"": (2 + t) / 4, "ab": t / 4, "a": (1 - t) / 4, "b": (1 - t) / 4}
    fit = chisquare(counts, [float(found[key]) * sum(counts) for key in ("", "ab", "a", "b")])
    assert fit.pvalue > 0.05
    assert statistic is None or fit.statistic == pytest.approx(statistic, abs=6e-4)


def test_maize__theta_as_printed():
    """Fisher's example, counts recalled: theta = r^2 = .035712, r = .18898; derived.

    The estimate is the positive root of n t^2 - (a - 2b - 2c - d) t - 2d = 0, which the engine's own likelihood meets.
    """
    a, d, b, c = FITTED["maize, starchy and base leaf: recalled"][1]
    n, middle = a + b + c + d, a - 2 * b - 2 * c - d
    theta = (middle + (middle**2 + 8 * n * d) ** 0.5) / (2 * n)
    assert (round(theta, 6), round(theta**0.5, 5)) == (0.035712, 0.18898)
    fitted, step = Fraction(18898, 10**5), Fraction(2, 10**5)
    tops = [support(fitted + k * step, APART, (a, d, b, c), tester=False) for k in (-1, 0, 1)]
    assert max(tops) == tops[1]
