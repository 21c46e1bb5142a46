"""What an animal is known to carry."""

from fractions import Fraction

import pytest

from explorer.genetics import Genotype, normalised, order
from tests.reference.genomes import animal, hets, recessive, single_copy, unlinked

HALF, ONE = Fraction(1, 2), Fraction(1)
GENOME = unlinked(recessive("a"), single_copy("b"))
SEX, A, B = GENOME.groups
FEMALE, MALE = GENOME.wild(SEX, "female"), GENOME.wild(SEX, "male")
WILD, HET = order(("",), ("",)), order(("",), ("a",))


@pytest.mark.parametrize("part", [{WILD: HALF}, {WILD: HALF, HET: Fraction(3, 4)}, {WILD: ONE, HET: Fraction(0)}, {}])
def test_genotype__chances_are_positive_and_sum_to_1(part):
    with pytest.raises(ValueError, match=r"^group a: chances must be positive and sum to 1, found "):
        Genotype(GENOME, {"sex": {FEMALE: ONE}, "a": part})


def test_genotype__negative_chance_is_refused():
    with pytest.raises(ValueError, match="chances must be positive"):
        Genotype(GENOME, {"sex": {FEMALE: ONE}, "a": {WILD: Fraction(3, 2), HET: -HALF}})


def test_genotype__needs_the_sex_group():
    with pytest.raises(ValueError, match=r"^the sex group is missing$"):
        Genotype(GENOME, {"a": {WILD: ONE}})


def test_of_sex__wrong_sex_is_refused():
    with pytest.raises(ValueError, match=r"^not a male$"):
        animal(GENOME, "female").of_sex("male")


def test_of_sex__settles_an_unknown_sex():
    unknown = Genotype(GENOME, {"sex": {FEMALE: HALF, MALE: HALF}, "a": {HET: ONE}}, ("a remark",))
    assert unknown.sex is None
    known = unknown.of_sex("male")
    assert (known.sex, dict(known.parts["sex"]), known.part(A), known.notices) == (
        "male",
        {MALE: ONE},
        {HET: ONE},
        ("a remark",),
    )
    assert known.of_sex("male") is known


def test_varying__names_the_groups_with_a_mutant():
    partly = Genotype(GENOME, {"sex": {FEMALE: ONE}, "a": {WILD: HALF, HET: HALF}, "b": {WILD: ONE}})
    assert partly.varying == ("a",)
    assert hets(GENOME, "female").varying == ("a", "b")
    assert animal(GENOME, "female").varying == ()


def test_part__of_a_group_that_is_not_listed_is_wild():
    assert animal(GENOME, "female").part(B) == {WILD: ONE}


def test_equality__looks_at_what_is_carried():
    listed = Genotype(GENOME, {"sex": {FEMALE: ONE}, "a": {WILD: ONE}}, ("a remark",))
    plain = animal(GENOME, "female")
    assert listed == plain
    assert hash(listed) == hash(plain)
    assert plain != animal(GENOME, "male")
    assert plain != hets(GENOME, "female")
    assert plain != animal(unlinked(recessive("a"), single_copy("b")), "female"), "another genome"
    assert plain != "Normal"


def test_normalised__scales_and_drops_zeros():
    assert normalised({WILD: Fraction(2), HET: Fraction(0)}) == {WILD: 1}
    assert normalised({WILD: Fraction(2), HET: Fraction(6)}) == {WILD: Fraction(1, 4), HET: Fraction(3, 4)}


@pytest.mark.parametrize("weights", [{}, {WILD: Fraction(0)}])
def test_normalised__nothing_is_possible(weights):
    with pytest.raises(ValueError, match=r"^nothing is possible$"):
        normalised(weights)
