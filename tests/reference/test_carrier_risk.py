"""Worked examples of carrier risk: prior times likelihood, and what a proof of several genes at once takes.

Marks: seen, recalled or derived, as in test_published_counts.py. More of the same in test_posteriors.py.
"""

from fractions import Fraction
from itertools import combinations, product

import pytest

from explorer.genetics import Allele, Brood, Genome, Group, Locus, Member, joint, order
from explorer.looks import carried, shown
from explorer.pairing import cross
from tests.reference.genomes import animal, linked, looks, on_x, recessive, unlinked

HALF = Fraction(1, 2)


def founder(states, fits=lambda d: True):
    return Member(None, None, states, None, fits)


def child(dam, sire, fits):
    return Member(dam, sire, None, None, fits)


@pytest.mark.parametrize(("n", "expected"), list(enumerate(("2/3", "1/2", "1/3", "1/5", "1/9"))))
def test_sib_of_an_affected__with_normal_test_cross_offspring(n, expected):
    """Two Bayesian network packages and an Elston-Stewart risk engine, run outside the project, gave for the whole
    pedigree 2/3, .5, .3333, .2, .1111 after 0 to 4 offspring, and .20000 and .80000 after three."""
    group = unlinked(recessive("a")).by_name["a"]
    wild, het, visual = order(("",), ("",)), order(("",), ("a",)), order(("a",), ("a",))

    def normal(diplotype):
        return not shown(group, diplotype)

    members = {
        "dam": founder({wild: HALF, het: HALF}),
        "sire": founder({wild: HALF, het: HALF}),
        "affected": child("dam", "sire", visual.__eq__),
        "sib": child("dam", "sire", normal),
        "tester": founder({visual: Fraction(1)}),
    }
    members |= {f"offspring {i}": child("sib", "tester", normal) for i in range(n)}
    found = joint(group, members, ("sib",))
    assert found == {(het,): Fraction(expected), (wild,): 1 - Fraction(expected)}


DETECTED = Locus("a", (Allele("found", shows_alone=False), Allele("missed", shows_alone=False)))
"""A recessive gene of whose variants a DNA test finds one and misses the other."""


def after_negative(founders, asked, family=False):
    """Chance that the animal asked for carries, given a negative DNA test of it. founders: share of carriers.

    The test finds 90 % of the carriers' variants.
    """
    group = Group("a", (DETECTED,))
    wild = order(("",), ("",))
    states = {
        wild: 1 - founders,
        order(("",), ("found",)): founders * Fraction(9, 10),
        order(("",), ("missed",)): founders * Fraction(1, 10),
    }

    def negative(diplotype):
        return not shown(group, diplotype) and "found" not in carried(group, diplotype)

    members = {key: founder(states, negative if key == asked else lambda d: True) for key in ("dam", "sire")}
    if family:
        members["affected"] = child("dam", "sire", lambda d: bool(shown(group, d)))
        members["sib"] = child("dam", "sire", negative)
    return 1 - joint(group, members, (asked,)).get((wild,), 0)


def test_dna_test__negative_in_a_random_animal():
    """One in 25 carries, the test detects 90 %: 1/241. Derived."""
    assert after_negative(Fraction(1, 25), "dam") == Fraction(1, 241)


@pytest.mark.parametrize("share", ["1/2", "1/25"])
def test_dna_test__negative_in_the_sib_of_an_affected(share):
    """Prior 2/3, the test detects 90 %: 1/6, however common carriers are. Derived."""
    assert after_negative(Fraction(share), "sib", family=True) == Fraction(1, 6)


def sons_of_a_carrier():
    """Share of normal sons among sons, and of carriers among daughters, of a female that carries a gene on X alone."""
    genome = on_x(recessive("w"))
    group = genome.groups[0]
    dam = animal(genome, "female", sex=(("",), ("w",)))
    made = Brood.of(dam, animal(genome, "male")).distribution(group)
    sons = {d: p for d, p in made.items() if genome.sex_of(d) == "male"}
    daughters = {d: p for d, p in made.items() if genome.sex_of(d) == "female"}
    return (
        sum(p for d, p in sons.items() if not shown(group, d)) / sum(sons.values()),
        sum(p for d, p in daughters.items() if carried(group, d)) / sum(daughters.values()),
    )


@pytest.mark.parametrize(("brothers", "sons"), list(product(range(4), repeat=2)))
def test_x_linked_lethal__one_affected_son(brothers, sons):
    """Mother of one affected son, equal mutation rates m, b normal brothers, s further normal sons: 2/3 if there are
    none, else (2^b + 1) / (2^(s + b) + 2^b + 1).

    Bridge PJ, The Calculation of Genetic Risks, 1997, seen in an excerpt with 2^s for the last 2^b, which agrees where
    b = s; elsewhere it is a slip, since with b = 1 and s = 0 it would let a normal brother raise the risk to 3/4.
    Derived: in units of m, her own dam carries with 4 (affected males leave no offspring), she is a new carrier with 2,
    or the son is a new mutant with 1; the engine gives what each of them passes on.
    """
    normal, passed = sons_of_a_carrier()
    carrier = (4 * normal**brothers * passed + 2) * (1 - normal) * normal**sons
    found = carrier / (carrier + 1)
    assert found == Fraction(2**brothers + 1, 2 ** (sons + brothers) + 2**brothers + 1)
    printed = Fraction(2**brothers + 1, 2 ** (sons + brothers) + 2**sons + 1)
    assert (found == printed) is (brothers == sons)
    assert found <= Fraction(2, 3)


@pytest.mark.parametrize("daughters", range(5))
@pytest.mark.parametrize("heterogametic", ["female", "male"])
def test_sex_linked__offspring_of_an_obligate_carrier(heterogametic, daughters):
    """Females ZW: the son of a carrier sire, with n normal daughters, carries with 1 / (1 + 2^n); XY is the mirror.

    Derived; 1/9 after three in an Elston-Stewart risk engine, run outside the project.
    """
    homogametic = "male" if heterogametic == "female" else "female"
    names = ("Z", "W") if heterogametic == "female" else ("X", "Y")
    group = Group("sex", (recessive("w"),), (HALF,), sex=True, hemizygous=frozenset({"w"}))
    genome = Genome((group,), heterogametic, *names)
    carrier = genome.pair(group, ("",), ("w",), homogametic)

    def normal(sex):
        return lambda d: genome.sex_of(d) == sex and not shown(group, d)

    def parents(one, other):
        return (one, other) if homogametic == "female" else (other, one)

    members = {
        "obligate": founder({carrier: Fraction(1)}),
        "partner": founder({genome.wild(group, heterogametic): Fraction(1)}),
        "mate": founder({genome.wild(group, heterogametic): Fraction(1)}),
        "asked": child(*parents("obligate", "partner"), normal(homogametic)),
    }
    members |= {f"child {i}": child(*parents("asked", "mate"), normal(heterogametic)) for i in range(daughters)}
    assert joint(group, members, ("asked",))[(carrier,)] == Fraction(1, 1 + 2**daughters)


def test_two_possible_hets__clutch_of_ten():
    """(1/4)(1 - (3/4)^10) = .2359, not 1 - (15/16)^10 = .4755. Derived."""
    odds = cross("50% het Clown", "50% het Clown")
    found = odds.chance_in_clutch("Clown", eggs=10)
    assert found == Fraction(1, 4) * (1 - Fraction(3, 4) ** 10)
    assert round(float(found), 4) == 0.2359
    assert odds.chance("Clown") == Fraction(1, 16)
    assert round(float(1 - (1 - odds.chance("Clown")) ** 10), 4) == 0.4755


def all_shown(classes, genes, n):
    """Chance that each gene shows in at least one of n offspring, by inclusion and exclusion over sets of genes."""
    found = Fraction(0)
    for count in range(len(genes) + 1):
        for absent in combinations(genes, count):
            none = sum((p for look, p in classes.items() if not set(absent) & set(look)), Fraction(0))
            found += (-1) ** count * none**n
    return found


@pytest.mark.parametrize("rate", ["0", "17/100", "1/2"])
@pytest.mark.parametrize("coupled", [True, False])
@pytest.mark.parametrize("n", [1, 3])
def test_proof_of_linked_hets__inclusion_and_exclusion(rate, coupled, n):
    """One tester visual for two linked genes: 1 - 2 (1/2)^n + c^n with c = (1 - r)/2 in coupling, r/2 in repulsion.

    Derived; the product of both genes' chances only if r = 1/2. Checked against every clutch of n offspring counted.
    """
    genome = linked(recessive("a"), recessive("b"), rate=rate)
    strands = (("", ""), ("a", "b")) if coupled else (("a", ""), ("", "b"))
    classes = looks(Brood.of(animal(genome, "female", map=strands), animal(genome, "male", map=(("a", "b"),) * 2)))
    r = Fraction(rate)
    neither = (1 - r) / 2 if coupled else r / 2
    found = all_shown(classes, "ab", n)
    assert found == 1 - 2 * HALF**n + neither**n
    counted = Fraction(0)
    for clutch in product(classes.items(), repeat=n):
        chance = Fraction(1)
        for _, p in clutch:
            chance *= p
        counted += chance if set("ab") <= set("".join(look for look, _ in clutch)) else 0
    assert found == counted
    assert (found == (1 - HALF**n) ** 2) is (r == HALF)
