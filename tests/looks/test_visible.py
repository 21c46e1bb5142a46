"""What of a genotype shows, and whether that is what was asked for."""

from fractions import Fraction
from itertools import combinations_with_replacement

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.genetics import Allele, Brood, Genome, Group, Locus, order
from explorer.looks import absent_events, carried, exact_events, merged, shown, wanted_events
from explorer.notation import read_genes, read_wanted
from tests.oracle.random_crosses import make
from tests.reference.genomes import no_sex_loci, on_x, recessive

LOCUS = Locus(
    "complex",
    (
        Allele("rec", False),
        Allele("rec2", False),
        Allele("dom", True),
        Allele("same", True, double_differs=False),
    ),
)
GENOME = Genome((no_sex_loci(), Group("complex", (LOCUS,)), Group("other", (Locus("other", (Allele("far", True),)),))))
COMPLEX = GENOME.by_name["complex"]


def pair(one, two):
    return order((one,), (two,))


@pytest.mark.parametrize(
    ("one", "two", "look"),
    [
        ("", "", ()),
        ("rec", "", ()),
        ("rec", "rec", (("rec", 2),)),
        ("dom", "", (("dom", 1),)),
        ("dom", "dom", (("dom", 2),)),
        ("same", "", (("same", 1),)),
        ("same", "same", (("same", 1),)),
        # Compounds show both names, one copy each, in map order, whatever the inheritance.
        ("rec2", "rec", (("rec", 1), ("rec2", 1))),
        ("dom", "rec", (("rec", 1), ("dom", 1))),
        ("same", "dom", (("dom", 1), ("same", 1))),
    ],
)
def test_shown__rules(one, two, look):
    assert shown(COMPLEX, pair(one, two)) == look


def test_shown__recessive_alone_on_one_sex_chromosome():
    genome = on_x(recessive("w"), Locus("d", (Allele("d", True),)))
    group = genome.groups[0]
    assert shown(group, genome.pair(group, ("w", ""), ("", ""), "male")) == (("w", 2),)
    assert shown(group, genome.pair(group, ("w", ""), ("", ""), "female")) == ()
    assert shown(group, genome.pair(group, ("w", ""), ("w", ""), "female")) == (("w", 2),)
    assert shown(group, genome.pair(group, ("", "d"), ("", ""), "male")) == (("d", 1),)
    assert shown(group, genome.wild(group, "male")) == ()


def test_shown__several_loci_of_a_group_in_map_order():
    group = Group("map", (recessive("a"), Locus("b", (Allele("b", True),))), (Fraction(1, 10),))
    assert shown(group, order(("a", "b"), ("a", ""))) == (("a", 2), ("b", 1))


@pytest.mark.parametrize(
    ("one", "two", "copies"),
    [("", "", {}), ("rec", "", {"rec": 1}), ("rec", "rec", {"rec": 2}), ("rec", "dom", {"rec": 1, "dom": 1})],
)
def test_carried__counts_hidden_copies_too(one, two, copies):
    assert carried(COMPLEX, pair(one, two)) == copies


def test_carried__absent_locus_is_no_copy():
    genome = on_x(recessive("w"))
    group = genome.groups[0]
    assert carried(group, genome.pair(group, ("w",), ("",), "male")) == {"w": 1}


def test_merged__two_copies_that_look_the_same_are_one():
    assert merged(GENOME, {"same": 2, "dom": 2, "rec": 2}) == {"same": 1, "dom": 2, "rec": 2}


DIPLOTYPES = [pair(a, b) for a, b in combinations_with_replacement(("", "rec", "rec2", "dom", "same"), 2)]


def accepted(events):
    return {d for d in DIPLOTYPES if events["complex"](d)}


@pytest.mark.parametrize(
    ("wanted", "pairs"),
    [
        ({"rec": 2}, [("rec", "rec"), ("rec", "rec2"), ("dom", "rec"), ("rec", "same")]),
        ({"dom": 1}, [("", "dom"), ("dom", "dom"), ("dom", "rec"), ("dom", "rec2"), ("dom", "same")]),
        ({"dom": 2}, [("dom", "dom")]),
        ({"same": 2}, [("same", "same")]),
        ({"rec": 1, "rec2": 1}, [("rec", "rec2")]),
        ({"rec": 1, "dom": 1}, [("dom", "rec")]),
    ],
)
def test_wanted__at_least(wanted, pairs):
    """A compound counts for a target of either gene; "Super" asks for two copies even where they look like one."""
    assert accepted(wanted_events(GENOME, wanted)) == {pair(*one) for one in pairs}


@pytest.mark.parametrize(
    ("wanted", "pairs"),
    [
        ({}, [("", ""), ("", "rec"), ("", "rec2")]),
        ({"rec": 2}, [("rec", "rec")]),
        ({"dom": 1}, [("", "dom")]),
        ({"dom": 2}, [("dom", "dom")]),
        ({"same": 1}, [("", "same"), ("same", "same")]),
        ({"same": 2}, [("same", "same")]),
        ({"rec": 1, "rec2": 1}, [("rec", "rec2")]),
    ],
)
def test_exact__these_copies_and_nothing_else(wanted, pairs):
    """Hidden hets never matter; forms that look the same are not told apart."""
    assert accepted(exact_events(GENOME, wanted, [COMPLEX])) == {pair(*one) for one in pairs}


def test_exact__covers_the_groups_of_the_brood_and_of_the_target():
    events = exact_events(GENOME, {"far": 1}, [COMPLEX])
    assert set(events) == {"complex", "other"}
    assert not events["other"](pair("", ""))
    assert events["complex"](pair("", "rec"))
    assert not events["complex"](pair("", "dom"))


def test_absent__none_of_the_unwanted_shows():
    events = absent_events(GENOME, ["rec", "far"])
    assert set(events) == {"complex", "other"}
    refused = {d for d in DIPLOTYPES if not events["complex"](d)}
    assert refused == {pair("rec", "rec"), pair("rec", "rec2"), pair("dom", "rec"), pair("rec", "same")}
    assert absent_events(GENOME, []) == {}


@given(st.integers(0, 10**6))
def test_events__agree_with_what_is_shown(seed):
    """For each look of a random cross: `wanted` takes what shows at least it, `exact` takes what shows it alone."""
    cross = make(seed)
    brood = Brood.of(cross.genotype(cross.dam), cross.genotype(cross.sire))
    for group in brood.groups:
        table = list(brood.distribution(group))
        for target in table:
            look = dict(shown(group, target))
            if not look:
                continue
            wanted = wanted_events(brood.genome, look)[group.name]
            exact = exact_events(brood.genome, look, [group])[group.name]
            absent = absent_events(brood.genome, look)[group.name]
            for diplotype in table:
                seen = dict(shown(group, diplotype))
                assert exact(diplotype) == (seen == look)
                assert absent(diplotype) == (not look.keys() & seen.keys())
                assert not exact(diplotype) or wanted(diplotype)
                assert not wanted(diplotype) or look.keys() <= seen.keys()


@pytest.mark.parametrize(
    ("text", "look"),
    [
        ("het Clown", {}),
        ("Clown", {"Clown": 2}),
        ("Clown Cryptic", {"Clown": 1, "Cryptic": 1}),
        ("het Candy het Albino", {"Candy": 1, "Albino": 1}),
        ("Super Pinstripe", {"Pinstripe": 1}),
        ("Super Woma", {"Woma": 2}),
        ("Mojave Lesser", {"Mojave": 1, "Lesser": 1}),
        ("Super Banana", {"Banana": 2}),
    ],
)
def test_shown__bundled_species(text, look):
    """Two-copy forms: common practice, no source. That compounds of recessives show: Brown and co-authors 2022."""
    geno = read_genes(text, sex="female")
    found = {}
    for group in geno.genome.groups:
        (diplotype,) = geno.part(group)
        found |= dict(shown(group, diplotype))
    assert found == look


@pytest.mark.parametrize(("target", "met"), [("Clown", True), ("Cryptic", True), ("Super Cryptic", False)])
def test_wanted__compound_counts_for_a_target_of_either(target, met):
    geno = read_genes("Clown Cryptic", sex="female")
    group = geno.genome.home["Clown"][0]
    (diplotype,) = geno.part(group)
    assert wanted_events(geno.genome, read_wanted(target))[group.name](diplotype) is met
