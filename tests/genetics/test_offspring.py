"""The offspring of two animals, kept factored."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.genetics import Brood, Genotype, order
from tests.oracle.random_crosses import make
from tests.reference.genomes import animal, hets, looks, recessive, single_copy, unlinked

HALF, QUARTER, ONE = Fraction(1, 2), Fraction(1, 4), Fraction(1)
GENOME = unlinked(recessive("a"), single_copy("b", lethal=True), single_copy("c"))
SEX, A, B, C = GENOME.groups


def has(name):
    return lambda diplotype: any(name in haplotype for haplotype in diplotype)


def uncertain(sex, **laws):
    """Keywords: group name -> chance of one copy, else wild."""
    parts = {"sex": {GENOME.wild(SEX, sex): ONE}}
    for name, chance in laws.items():
        law = {order(("",), ("",)): 1 - Fraction(chance), order(("",), (name,)): Fraction(chance)}
        parts[name] = {diplotype: p for diplotype, p in law.items() if p}
    return Genotype(GENOME, parts)


@pytest.mark.parametrize(
    ("dam", "sire", "words"), [("male", "male", "not a female"), ("female", "female", "not a male")]
)
def test_brood__needs_a_female_and_a_male(dam, sire, words):
    with pytest.raises(ValueError, match=f"^{words}$"):
        Brood.of(animal(GENOME, dam), animal(GENOME, sire))


def test_brood__holds_only_groups_that_may_carry_something():
    brood = Brood.of(animal(GENOME, "female", a=(("a",), ("",))), animal(GENOME, "male"))
    assert brood.groups == (SEX, A)
    assert brood.chance({"c": has("c")}) == 0
    assert brood.chance({"c": lambda d: not has("c")(d)}) == 1
    assert brood.rates({"c": has("c")}) == {0: 1}


def test_chance__is_among_viable_hatchlings():
    brood = Brood.of(hets(GENOME, "female"), hets(GENOME, "male"))
    assert brood.viable == Fraction(3, 4)
    assert brood.chance({"b": has("b")}) == Fraction(2, 3)
    assert brood.rates({"b": has("b")}) == {HALF: 1}
    assert brood.chance({"b": has("b"), "c": has("c")}) == Fraction(2, 3) * Fraction(3, 4)
    assert brood.rates({}) == {Fraction(3, 4): 1}


def test_chance__no_egg_is_viable():
    both = animal(GENOME, "female", b=(("b",), ("b",))), animal(GENOME, "male", b=(("b",), ("b",)))
    brood = Brood.of(*both)
    assert brood.viable == 0
    assert brood.distribution(B) == {}
    assert brood.chance({}) == brood.chance({"c": lambda d: True}) == 0
    assert brood.rates({}) == {0: 1}


def test_rates__one_entry_for_each_truth_about_the_parents():
    brood = Brood.of(uncertain("female", a="2/3"), uncertain("male", a="1/2"))
    shows = {"a": lambda d: d == order(("a",), ("a",))}
    assert brood.rates(shows) == {QUARTER: Fraction(1, 3), Fraction(0): Fraction(2, 3)}
    assert brood.chance(shows) == Fraction(1, 12)


def test_rates__equal_chances_of_different_truths_are_one_entry():
    brood = Brood.of(uncertain("female", a="1/2", c="1/2"), uncertain("male", a=1))
    both = {"a": lambda d: d == order(("a",), ("a",)), "c": has("c")}
    assert brood.rates(both) == {Fraction(1, 8): QUARTER, Fraction(0): Fraction(3, 4)}


def test_rates__uncertain_lethal_counts_even_if_not_asked_for():
    brood = Brood.of(uncertain("female", b="1/2"), uncertain("male", b=1))
    assert brood.rates({}) == {Fraction(3, 4): HALF, ONE: HALF}
    assert brood.viable == Fraction(7, 8)


def test_joint_parents__are_not_multiplied():
    """Either both parents carry or neither does."""
    wild, het = order(("",), ("",)), order(("",), ("a",))
    pair = {"sex": {(GENOME.wild(SEX, "female"), GENOME.wild(SEX, "male")): ONE}}
    brood = Brood(GENOME, {**pair, "a": {(wild, wild): HALF, (het, het): HALF}})
    assert brood.chance({"a": lambda d: d == order(("a",), ("a",))}) == Fraction(1, 8)
    assert looks(brood)["a"] == Fraction(1, 8)


@given(st.integers(0, 10**6))
def test_distribution__sums_to_1(seed):
    cross = make(seed)
    brood = Brood.of(cross.genotype(cross.dam), cross.genotype(cross.sire))
    for group in brood.groups:
        table = brood.table(group)
        assert sum(weight for weight, _ in table) == 1
        assert all(sum(eggs.values()) == 1 for _, eggs in table)
        assert sum(brood.distribution(group).values()) in ((0, 1) if group.lethal else (1,))
    assert sum(brood.rates({}).values()) == 1
    assert sum(q * weight for q, weight in brood.rates({}).items()) == brood.viable


@given(st.integers(0, 10**6))
def test_distribution__autosomes_do_not_care_which_parent_is_which(seed):
    cross = make(seed)
    dam, sire = cross.genotype(cross.dam), cross.genotype(cross.sire)

    def turned(one, other):
        """Genotype `one` with the sex chromosomes of `other`."""
        return Genotype(one.genome, {**one.parts, "sex": other.parts["sex"]})

    straight, exchanged = Brood.of(dam, sire), Brood.of(turned(sire, dam), turned(dam, sire))
    for group in straight.groups[1:]:
        assert straight.distribution(group) == exchanged.distribution(group)
