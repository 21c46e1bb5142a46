"""What a parent passes on."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.genetics import Allele, Group, Locus, gametes, order, viable, zygotes

HALF, QUARTER = Fraction(1, 2), Fraction(1, 4)


def loci(count):
    return tuple(Locus(f"l{i}", (Allele(f"a{i}", True), Allele(f"b{i}", False))) for i in range(count))


@st.composite
def groups(draw):
    """A group of up to four loci, which may be the sex group with some loci on one chromosome alone."""
    count, sex = draw(st.integers(0, 4)), draw(st.booleans())
    alone = draw(st.integers(0, count)) if sex else 0
    rates = draw(st.lists(st.fractions(0, HALF, max_denominator=20), min_size=count, max_size=count))
    rates = rates if sex else rates[1:]
    return Group("g", loci(count), tuple(rates), sex, frozenset(f"l{i}" for i in range(alone)))


@st.composite
def animals(draw, group, sex=None):
    """A diplotype of the group, of an XY species."""

    def strand(odd):
        return tuple(
            "-" if odd and entry.name in group.hemizygous else draw(st.sampled_from(["", f"a{i}", f"b{i}"]))
            for i, entry in enumerate(group.loci)
        )

    if not group.sex:
        return order(strand(False), strand(False))
    odd = draw(st.booleans()) if sex is None else sex == "male"
    return order(("X", *strand(False)), ("Y" if odd else "X", *strand(odd)))


@given(st.data())
def test_gametes__sum_to_1_and_each_locus_is_fair(data):
    group = data.draw(groups())
    diplotype = data.draw(animals(group))
    made = gametes(group, diplotype)
    assert sum(made.values()) == 1
    assert all(chance > 0 for chance in made.values())
    for i in range(len(group.loci) + group.sex):
        one, two = (haplotype[i] for haplotype in diplotype)
        share = sum(p for haplotype, p in made.items() if haplotype[i] == one)
        assert share == (1 if one == two else HALF)


@given(st.data())
def test_gametes__a_lone_locus_never_leaves_its_chromosome(data):
    group = data.draw(groups())
    diplotype = data.draw(animals(group))
    for haplotype in gametes(group, diplotype):
        assert not group.sex or ("-" in haplotype) == (haplotype[0] == "Y" and bool(group.hemizygous))


@given(st.data())
def test_zygotes__sum_to_1(data):
    group = data.draw(groups())
    dam, sire = data.draw(animals(group, "female")), data.draw(animals(group, "male"))
    assert sum(zygotes(group, dam, sire).values()) == 1


@given(st.data())
def test_zygotes__parents_may_be_exchanged_where_sex_does_not_matter(data):
    group = data.draw(groups().filter(lambda made: not made.sex))
    one, two = data.draw(animals(group)), data.draw(animals(group))
    assert zygotes(group, one, two) == zygotes(group, two, one)


def pair(rate):
    return Group("g", loci(2), (Fraction(rate),))


@pytest.mark.parametrize("rate", ["0", "1/10", "1/2"])
def test_gametes__two_loci(rate):
    r = Fraction(rate)
    made = gametes(pair(rate), order(("", ""), ("a0", "a1")))
    expected = {("", ""): (1 - r) / 2, ("a0", "a1"): (1 - r) / 2, ("a0", ""): r / 2, ("", "a1"): r / 2}
    assert made == {haplotype: chance for haplotype, chance in expected.items() if chance}


def test_gametes__crossovers_of_two_intervals_are_independent():
    group = Group("g", loci(3), (Fraction(1, 10), Fraction(1, 5)))
    made = gametes(group, order(("", "", ""), ("a0", "a1", "a2")))
    assert made["", "a1", ""] == HALF * Fraction(1, 10) * Fraction(1, 5)
    ends_apart = sum(p for h, p in made.items() if bool(h[0]) != bool(h[2]))
    assert ends_apart == Fraction(1, 10) * Fraction(4, 5) + Fraction(9, 10) * Fraction(1, 5)


@pytest.mark.parametrize(("kind", "moved"), [(frozenset(), Fraction(7, 200)), (frozenset({"l0"}), 0)])
def test_gametes__sex_pair_and_lone_locus(kind, moved):
    """On the pair the allele moves to Y with r; alone on X it cannot."""
    group = Group("g", loci(1), (Fraction(7, 100),), True, kind)
    male = order(("X", "a0"), ("Y", "-" if kind else ""))
    made = gametes(group, male)
    assert made.get(("Y", "a0"), 0) == moved
    assert sum(p for haplotype, p in made.items() if haplotype[0] == "Y") == HALF


def test_gametes__lone_locus_recombines_in_the_sex_with_two():
    group = Group("g", loci(2), (HALF, Fraction(1, 10)), True, frozenset({"l0", "l1"}))
    female, male = order(("X", "a0", "a1"), ("X", "", "")), order(("X", "a0", "a1"), ("Y", "-", "-"))
    assert gametes(group, female)["X", "a0", ""] == Fraction(1, 20)
    assert gametes(group, male) == {("X", "a0", "a1"): HALF, ("Y", "-", "-"): HALF}


def test_viable__lethal_pair_in_either_order_at_any_locus():
    lethal = frozenset({("a1", "a1"), ("a1", "b1")})
    one, two = loci(2)
    group = Group("g", (one, Locus(two.name, two.alleles, lethal)), (HALF,))
    for first, second, lives in (("a1", "a1", False), ("b1", "a1", False), ("b1", "b1", True), ("", "a1", True)):
        assert viable(group, (("", first), ("", second))) is lives
        assert viable(group, (("", second), ("", first))) is lives


def test_viable__in_the_sex_group():
    group = Group("g", (Locus("l0", loci(1)[0].alleles, frozenset({("a0", "a0")})),), (HALF,), True)
    assert not viable(group, order(("X", "a0"), ("Y", "a0")))
    assert viable(group, order(("X", "a0"), ("Y", "")))
