"""The map of alleles, loci and groups."""

from fractions import Fraction

import pytest

from explorer.genetics import Allele, Genome, Group, Locus, order

HALF = Fraction(1, 2)


def locus(name):
    return Locus(name, (Allele(name.upper(), True),))


def group(**changes):
    given = {"name": "g", "loci": (locus("a"), locus("b")), "rates": (HALF,)} | changes
    return Group(**given)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"rates": ()}, "group g: 2 loci do not go with 0 rates"),
        ({"rates": (HALF, HALF)}, "group g: 2 loci do not go with 2 rates"),
        ({"sex": True}, "group g: 2 loci do not go with 1 rates"),
        ({"loci": (), "rates": (HALF,)}, "group g: 0 loci do not go with 1 rates"),
        ({"rates": (Fraction(3, 4),)}, "group g: a recombination fraction lies from 0 to 1/2, found"),
        ({"rates": (Fraction(-1, 4),)}, "group g: a recombination fraction lies from 0 to 1/2, found"),
        (
            {"sex": True, "rates": (HALF, HALF), "hemizygous": frozenset("b")},
            "group g: loci of one sex chromosome alone come first in the sex group",
        ),
        ({"hemizygous": frozenset("a")}, "group g: loci of one sex chromosome alone come first in the sex group"),
    ],
)
def test_group__says_what_does_not_fit(changes, words):
    with pytest.raises(ValueError) as caught:
        group(**changes)
    assert str(caught.value).startswith(words)


@pytest.mark.parametrize("changes", [{}, {"rates": (Fraction(0),)}, {"loci": (locus("a"),), "rates": ()}])
def test_group__bounds_are_allowed(changes):
    assert group(**changes).name == "g"


@pytest.mark.parametrize(
    "groups",
    [
        (),
        (Group("a", (locus("a"),)),),
        (Group("a", (locus("a"),)), Group("sex", (), (), sex=True)),
        (Group("sex", (), (), sex=True), Group("second", (), (), sex=True)),
    ],
)
def test_genome__has_one_sex_group_that_comes_first(groups):
    with pytest.raises(ValueError, match=r"^a genome has one sex group, and it comes first$"):
        Genome(groups)


def genome(heterogametic="male", same="X", other="Y"):
    sex = Group("sex", (locus("s"), locus("t")), (HALF, HALF), sex=True, hemizygous=frozenset("s"))
    return Genome((sex, group()), heterogametic, same, other)


@pytest.mark.parametrize(("heterogametic", "homogametic"), [("male", "female"), ("female", "male")])
def test_genome__sexes(heterogametic, homogametic):
    made = genome(heterogametic)
    sex = made.groups[0]
    assert made.homogametic == homogametic
    for name in ("female", "male"):
        assert made.sex_of(made.wild(sex, name)) == name


def test_genome__wild_and_pair():
    made = genome(same="Z", other="W", heterogametic="female")
    sex, rest = made.groups
    assert made.wild(rest, "female") == made.wild(rest, "male") == (("", ""), ("", ""))
    assert made.wild(sex, "male") == (("Z", "", ""), ("Z", "", ""))
    assert made.wild(sex, "female") == (("W", "-", ""), ("Z", "", ""))
    assert made.pair(sex, ("S", ""), ("", "T"), "female") == (("W", "-", "T"), ("Z", "S", ""))
    assert made.pair(sex, ("S", ""), ("", "T"), "male") == (("Z", "", "T"), ("Z", "S", ""))


def test_genome__home_rank_and_position():
    made = genome()
    sex, rest = made.groups
    assert made.home["T"] == (sex, sex.loci[1])
    assert list(made.rank) == ["S", "T", "A", "B"]
    assert Genome((sex, rest), listing=("B", "A", "T", "S")).rank == {"B": 0, "A": 1, "T": 2, "S": 3}
    assert (sex.position("t"), rest.position("b")) == (2, 1)
    assert made.by_name == {"sex": sex, "g": rest}


def test_order__is_one_for_both_orders():
    assert order(("a",), ("",)) == order(("",), ("a",)) == (("",), ("a",))
