"""Kinship and inbreeding against worked values, with pedigrees written so that a breeder can proof-read them.

Wright: Wright S, Coefficients of inbreeding and relationship, American Naturalist 56:330-338, 1922 (recalled). The
values of single matings and regular systems were derived again by hand and agree with his; those of single matings
stand in encyclopaedias too (seen). Published pedigrees: see beside them.
"""

from fractions import Fraction

import numpy as np
import pytest

from explorer.genetics import Kinship
from tests.oracle.kinship_paths import family

GENERATIONS = range(1, 14)

MATES = family("""
    sister                   = grandmother x grandfather
    brother                  = grandmother x grandfather
    aunt                     = grandmother x grandfather
    half sister              = second wife x grandfather
    three-quarter sister     = grandmother's sister x grandfather
    grandmother              = old dam x old sire
    grandmother's sister     = old dam x old sire

    sister's daughter        = sister x stranger 1
    brother's son            = stranger 2 x brother
    half sister's daughter   = half sister x stranger 3
    brother's grandson       = stranger 4 x brother's son
    sister's granddaughter   = sister's daughter x stranger 5

    sister-in-law            = other dam x other sire
    sister-in-law's brother  = other dam x other sire
    double cousin            = sister-in-law x brother
    other double cousin      = sister x sister-in-law's brother
""")

SINGLE_MATINGS = [
    ("full siblings", "sister", "brother", "1/4"),
    ("parent and offspring", "sister", "sister's daughter", "1/4"),
    ("half siblings", "half sister", "brother", "1/8"),
    ("aunt and nephew", "aunt", "brother's son", "1/8"),
    ("uncle and niece", "sister's daughter", "brother", "1/8"),
    ("double first cousins", "double cousin", "other double cousin", "1/8"),
    ("grandparent and grandchild", "sister", "sister's granddaughter", "1/8"),
    ("first cousins", "sister's daughter", "brother's son", "1/16"),
    ("half first cousins", "half sister's daughter", "brother's son", "1/32"),
    ("first cousins once removed", "sister's daughter", "brother's grandson", "1/32"),
    ("second cousins", "sister's granddaughter", "brother's grandson", "1/64"),
    ("three-quarter siblings: same sire, dams full sisters", "three-quarter sister", "brother", "3/16"),
    ("one animal with itself (selfing)", "stranger 1", "stranger 1", "1/2"),
    ("unrelated animals", "stranger 1", "brother", "0"),
]
"""Relation, its two animals, inbreeding coefficient of their offspring. Standard values: Wright (recalled), derived."""


@pytest.mark.parametrize(("one", "two", "expected"), [pytest.param(*row[1:], id=row[0]) for row in SINGLE_MATINGS])
def test_one_mating__standard_value(one, two, expected):
    assert Kinship(MATES).between(one, two) == Fraction(expected)
    assert Kinship({**MATES, "offspring": (one, two)}).inbreeding("offspring") == Fraction(expected)


def inbreeding_by_generation(pedigree, name):
    found = Kinship(pedigree)
    return [found.inbreeding(name.format(t)) for t in GENERATIONS]


def continued(first, rule):
    """The first values, then each from the two before it."""
    values = [Fraction(value) for value in first]
    while len(values) < len(GENERATIONS):
        values.append(rule(values[-1], values[-2]))
    return values


FULL_SIBLINGS = [
    *("0", "1/4", "3/8", "1/2", "19/32", "43/64", "47/64", "201/256", "423/512", "55/64"),
    *("0.88623046875", "0.907958984375", "0.925537109375"),
]
"""Generation 1 is the first cross of unrelated animals. Wright (recalled), derived."""


def test_regular_system__full_siblings():
    steps = (f"{young} {t} = daughter {t - 1} x son {t - 1}" for t in GENERATIONS for young in ("daughter", "son"))
    found = inbreeding_by_generation(family("\n".join(steps)), "son {}")
    assert found == [Fraction(value) for value in FULL_SIBLINGS]
    assert found == continued(["0", "1/4"], lambda last, before: (1 + 2 * last + before) / 4)


def test_regular_system__offspring_with_the_younger_parent():
    """The same series as full siblings: derived."""
    steps = (f"animal {t} = animal {t - 1} x animal {t - 2}" for t in GENERATIONS)
    found = inbreeding_by_generation(family("\n".join(steps)), "animal {}")
    assert found == [Fraction(value) for value in FULL_SIBLINGS]


def test_regular_system__daughters_to_one_sire():
    """Derived; toward 1/2, as the sire is not inbred."""
    steps = (f"daughter {t} = daughter {t - 1} x old sire" for t in GENERATIONS)
    found = inbreeding_by_generation(family("\n".join(steps)), "daughter {}")
    assert found[:7] == [Fraction(value) for value in ("0", ".25", ".375", ".4375", ".46875", ".484375", ".4921875")]
    assert found == [(1 - Fraction(1, 2 ** (t - 1))) / 2 for t in GENERATIONS]


ALWAYS_HALVED = ["0", ".5", ".75", ".875", ".9375"]
"""F(t) = (1 + F(t-1)) / 2: selfing, or back to a parent that is fully inbred. Derived."""


def test_regular_system__selfing():
    steps = (f"plant {t} = plant {t - 1} x plant {t - 1}" for t in GENERATIONS[1:])
    found = inbreeding_by_generation(family("plant 1 = one line x other line\n" + "\n".join(steps)), "plant {}")
    assert found[:5] == [Fraction(value) for value in ALWAYS_HALVED]
    assert found == continued(["0", ".5"], lambda last, _: (1 + last) / 2)


def test_regular_system__back_to_a_fully_inbred_parent():
    """The parent comes of 60 generations of selfing: short of fully inbred by 2^-60, and so are the values at most."""
    line = [f"line {t} = line {t - 1} x line {t - 1}" for t in range(1, 61)]
    steps = (f"cross {t} = cross {t - 1} x line 60" for t in GENERATIONS)
    pedigree = family("\n".join([*line, *steps]))
    assert Kinship(pedigree).inbreeding("line 60") == 1 - Fraction(1, 2**60)
    found = inbreeding_by_generation(pedigree, "cross {}")
    expected = continued(ALWAYS_HALVED, lambda last, _: (1 + last) / 2)
    assert max(abs(one - other) for one, other in zip(found, expected, strict=True)) <= Fraction(1, 2**60)


HALF_SISTERS = [0, 0.125, 0.21875, 0.3047, 0.3809, 0.4487, 0.5092, 0.5630]
"""One male with a series of his half sisters, to four decimals: derived; the recurrence below was seen."""


def test_regular_system__one_male_with_his_half_sisters():
    """Every female has a dam of her own; of the females that each generation needs, female 0 is the male's dam."""
    steps = [
        line
        for t in GENERATIONS
        for line in (
            f"male {t} = female {t - 1}.0 x male {t - 1}",
            *(f"female {t}.{k} = female {t - 1}.{k + 1} x male {t - 1}" for k in range(GENERATIONS.stop - t)),
        )
    ]
    found = inbreeding_by_generation(family("\n".join(steps)), "male {}")
    assert [float(value) for value in found[:8]] == pytest.approx(HALF_SISTERS, abs=5e-5)
    assert found == continued(["0", "1/8"], lambda last, before: (1 + 6 * last + before) / 8)


TEXTBOOK = family("""
    3 = 2 x 1
    4 = - x 1
    5 = 3 x 4
    6 = 2 x 5
""")
"""Dam x sire. Mrode RA, Linear Models for the Prediction of Animal Breeding Values: the six-animal example (pedigree
and D seen; the relationship matrix computed again by hand)."""

TEXTBOOK_RELATIONSHIP = [
    [1, 0, 0.5, 0.5, 0.5, 0.25],
    [0, 1, 0.5, 0, 0.25, 0.625],
    [0.5, 0.5, 1, 0.25, 0.625, 0.5625],
    [0.5, 0, 0.25, 1, 0.625, 0.3125],
    [0.5, 0.25, 0.625, 0.625, 1.125, 0.6875],
    [0.25, 0.625, 0.5625, 0.3125, 0.6875, 1.125],
]
"""Relationship is twice the kinship."""

TEXTBOOK_OWN_SHARE = [1, 1, 0.5, 0.75, 0.5, 0.46875]
"""D: how much of each animal's variance is not explained by its parents; A = T D T' (Quaas 1976, recalled)."""


def test_published_pedigree__textbook_relationship_matrix():
    found = Kinship(TEXTBOOK)
    assert (2 * found.table(list("123456"))).tolist() == TEXTBOOK_RELATIONSHIP
    assert [found.inbreeding(key) for key in "123456"] == [0, 0, 0, 0, Fraction(1, 8), Fraction(1, 8)]


def test_published_pedigree__textbook_own_shares():
    """By factoring the matrix; tolerance of floats."""
    lower = np.linalg.cholesky(2 * Kinship(TEXTBOOK).table(list("123456")))
    assert (np.diag(lower) ** 2).tolist() == pytest.approx(TEXTBOOK_OWN_SHARE, abs=1e-12)


HALF_SIB_EXAMPLE = family("""
    2 = - x 1
    3 = - x 1
    4 = - x 1
    5 = 3 x 2
    6 = 3 x 4
    7 = 6 x 5
""")
"""Dam x sire. A published example of seven animals, from three half siblings on (pedigree and figures seen; its title
was not written down)."""

HALF_SIB_RELATIONSHIP = {
    **{"56": ".4375", "57": ".78125", "67": ".78125", "77": "1.21875"},
    **{"37": ".625", "27": ".4375", "47": ".4375"},
}


def test_published_pedigree__half_siblings():
    found = Kinship(HALF_SIB_EXAMPLE)
    assert {pair: 2 * found.between(*pair) for pair in HALF_SIB_RELATIONSHIP} == {
        pair: Fraction(value) for pair, value in HALF_SIB_RELATIONSHIP.items()
    }
    expected = ["0", "0", "0", "0", ".125", ".125", ".21875"]
    assert [found.inbreeding(key) for key in "1234567"] == [Fraction(value) for value in expected]


HERD_BOOK = family("""
    Young Strawberry  = Lady Maynard x Dalton Duke
    Bolingbroke       = Young Strawberry x Foljambe
    Phoenix           = Lady Maynard x Foljambe
    Favourite         = Phoenix x Bolingbroke
    Young Phoenix     = Phoenix x Favourite
    Comet             = Young Phoenix x Favourite
""")


@pytest.mark.parametrize(
    ("animal", "derived", "published"),
    [("Favourite", "3/16", 0.192), ("Comet", "15/32", 0.471)],
)
def test_published_pedigree__shorthorn_bulls(animal, derived, published):
    """Two bulls of the first Shorthorn herd book, as in Wright 1922 (see above). Pedigree and his figures are recalled.

    His pedigree reaches further back, so that his figures are a little larger than those of the ancestors above, which
    were derived by hand; encyclopaedias give 46.88 % for Comet (recalled), which is 15/32.
    """
    found = Kinship(HERD_BOOK).inbreeding(animal)
    assert found == Fraction(derived)
    assert 0 <= published - float(found) < 0.005
