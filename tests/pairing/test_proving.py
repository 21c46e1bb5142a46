"""What hatchlings say of a doubt about a parent.

Sources: prior times likelihood, the arithmetic of any textbook of genetic counselling; tables derived outside the
package. Offspring needed in a test cross: Mather K, The Measurement of Linkage in Heredity, 1951 (recalled), computed
again outside the package from the binomial law.
"""

import itertools
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.catalogue import load_catalogue, load_species
from explorer.collection import Collection
from explorer.genetics import Brood, genome_of, order, viable
from explorer.looks import carried, shown
from explorer.pairing import Offspring, cross
from explorer.pairing.proving import proofs

SECOND = load_species(Path(__file__).parents[1] / "catalogue" / "second_species")
HALF, THIRD, QUARTER, TWO_THIRDS = Fraction(1, 2), Fraction(1, 3), Fraction(1, 4), Fraction(2, 3)
LABEL = {"2/3": "66% het Clown", "1/2": "50% het Clown", "1/3": "33% het Clown"}


def only(dam, sire, **keywords):
    (proof,) = proofs(cross(dam, sire, **keywords))
    return proof


def missed(proof, n):
    """Chance that none of n hatchlings tells although the claim is true of the parent."""
    at = ("dam", "sire").index(proof.role)
    true = {key: weight for key, weight in proof.law.items() if key[at]}
    return sum(weight * key[2] ** n for key, weight in true.items()) / sum(true.values())


# What a possible het is after 0, 1, 2, ... hatchlings none of which is visual: 2 / (2 + 2^n) and 1 / (1 + 2^n) with a
# visual mate, seen and derived; with a het mate to four decimals, derived.
FRACTIONS = {
    "2/3": ("2/3", "1/2", "1/3", "1/5", "1/9", "1/17", "1/33"),
    "1/2": ("1/2", "1/3", "1/5", "1/9", "1/17", "1/33", "1/65"),
}
DECIMALS = {
    "2/3": (0.6667, 0.6, 0.5294, 0.4576, 0.3876, 0.3219, 0.2625),
    "1/2": (0.5, 0.4286, 0.36, 0.2967, 0.2404, 0.1918, 0.1511),
}


@pytest.mark.parametrize("prior", FRACTIONS)
@pytest.mark.parametrize("swapped", [False, True])
def test_after__visual_mate(prior, swapped):
    pair = (LABEL[prior], "Clown")
    proof = only(*(reversed(pair) if swapped else pair))
    assert proof.role == ("sire" if swapped else "dam")
    assert proof.chance == Fraction(prior)
    assert proof.chances(6) == tuple(map(Fraction, FRACTIONS[prior]))


@pytest.mark.parametrize("prior", DECIMALS)
def test_after__het_mate(prior):
    assert [round(float(chance), 4) for chance in only("het Clown", LABEL[prior]).chances(6)] == [*DECIMALS[prior]]


@pytest.mark.parametrize("prior", LABEL)
@pytest.mark.parametrize(("mate", "normal"), [("Clown", HALF), ("het Clown", Fraction(3, 4))])
def test_after__is_bayes_rule(prior, mate, normal):
    """p q^n / (p q^n + 1 - p); derived."""
    proof, p = only(LABEL[prior], mate), Fraction(prior)
    for n in (0, 1, 5, 16, 40):
        assert proof.after(n) == p * normal**n / (p * normal**n + 1 - p)


def test_after__seven_hatchlings_of_a_66_percent_het():
    """Worked example, derived: 2/3 / 128 = .005208; against .33333 that is 1.5 %."""
    found = only("66% het Clown", "Clown").after(7)
    assert found == TWO_THIRDS / 128 / (TWO_THIRDS / 128 + THIRD)
    assert round(float(100 * found), 1) == 1.5


@pytest.mark.parametrize(
    ("prior", "mate", "at_95", "at_99"),
    [
        # Hatchlings needed for a possible het to fall to 5 % and to 1 %; derived.
        ("2/3", "Clown", 6, 8),
        ("1/2", "Clown", 5, 7),
        ("1/3", "Clown", 4, 6),
        ("2/3", "het Clown", 13, 19),
        ("1/2", "het Clown", 11, 16),
        ("1/3", "het Clown", 8, 14),
    ],
)
def test_needed__to_be_95_and_99_percent_sure(prior, mate, at_95, at_99):
    proof = only(LABEL[prior], mate)
    for sure, n in ((0.95, at_95), (0.99, at_99)):
        assert proof.needed(sure) == proof.needed(Fraction(str(sure))) == n
        assert 1 - proof.after(n - 1) < Fraction(str(sure)) <= 1 - proof.after(n)


def test_needed__none_if_sure_already():
    assert only("33% het Clown", "Clown").needed(0.6) == 0


def test_needed__none_at_all_where_the_mate_may_be_unable_to_show_it():
    """Two 50 % hets: however many normal hatchlings, the mate alone may be without it; the chance tends to 1/3."""
    dam, sire = proofs(cross("50% het Clown", "50% het Clown"))
    assert dam.needed(0.95) is sire.needed(0.95) is None
    assert dam.needed(TWO_THIRDS) is None, "is never quite reached"
    assert THIRD < dam.after(60) < THIRD + Fraction(1, 10**6)
    n = dam.needed(0.66)
    assert 1 - dam.after(n - 1) < Fraction(66, 100) <= 1 - dam.after(n)


def test_needed__one_where_the_first_says_all_that_can_be_said():
    """Parents of unknown look, each with two copies or none: one normal hatchling, and each has none with 2/3."""
    catalogue = load_catalogue()
    genome = genome_of(catalogue)
    group, _ = genome.home["Clown"]
    wild, double = genome.wild(group, "female"), order(("Clown",), ("Clown",))
    sexes = {(genome.wild(genome.groups[0], "female"), genome.wild(genome.groups[0], "male")): Fraction(1)}
    table = dict.fromkeys(itertools.product((wild, double), repeat=2), QUARTER)
    for proof in proofs(Offspring(Brood(genome, {"sex": sexes, group.name: table}), catalogue)):
        assert proof.chances(2) == (HALF, THIRD, THIRD)
        assert (proof.needed(HALF), proof.needed(TWO_THIRDS), proof.needed(0.67)) == (0, 1, None)


@pytest.mark.parametrize("sure", [0, 1, -0.5, 95])
def test_needed__how_sure_lies_between_0_and_1(sure):
    with pytest.raises(ValueError, match="between 0 and 1"):
        only("50% het Clown", "Clown").needed(sure)


def test_after__no_fewer_than_none():
    proof = only("50% het Clown", "Clown")
    for ask in (proof.after, proof.both_after):
        with pytest.raises(ValueError, match="from 0 up"):
            ask(-1)


@pytest.mark.parametrize(
    ("mate", "miss", "needed"),
    [
        # Test mate homozygous recessive, (1/2)^n, and known het, (3/4)^n: n for 95, 99 and 99.9 %; derived.
        ("Clown", HALF, (5, 7, 10)),
        ("het Clown", Fraction(3, 4), (11, 17, 25)),
    ],
)
def test_telling__chance_that_a_het_is_missed(mate, miss, needed):
    proof = only("50% het Clown", mate)
    for goal, n in zip(("1/20", "1/100", "1/1000"), needed, strict=True):
        assert missed(proof, n) == miss**n <= Fraction(goal) < missed(proof, n - 1)


def test_telling__daughters_of_a_known_het():
    """Unknown herself, 1/2: (7/8)^n with a fresh daughter for each offspring; 23, 35, 52 for 95, 99, 99.9 %; derived.

    k offspring of one daughter: 1/2 + 1/2 (3/4)^k.
    """
    _, sire = proofs(cross("50% het Clown", "50% het Clown"))
    assert missed(sire, 1) == Fraction(7, 8)
    for goal, n in (("1/20", 23), ("1/100", 35), ("1/1000", 52)):
        assert missed(sire, 1) ** n <= Fraction(goal) < missed(sire, 1) ** (n - 1)
    for k in (1, 2, 4, 6):
        assert missed(sire, k) == HALF + HALF * Fraction(3, 4) ** k


def test_telling__ten_normal_offspring_miss_some_hets():
    """Fisher RA, Annals of Science 1:115-137, 1936, of Mendel's test with ten offspring each: .0563; set-up seen."""
    assert round(float(missed(only("66% het Clown", "het Clown"), 10)), 4) == 0.0563


def test_proves__a_recessive_proves_every_parent_in_doubt():
    for proof in proofs(cross("66% het Clown", "50% het Clown")):
        assert (proof.proves, proof.looks, proof.telling, proof.silence) == (
            ("dam", "sire"),
            ("Clown",),
            "shows Clown",
            "none shows Clown",
        )
    assert only("66% het Clown", "Clown").proves == ("dam",), "the other is no doubt"
    assert only("het Clown", "66% het Clown").claim == "carries Clown"


def test_both_after__two_possible_hets():
    """Two 50 % hets, six normal hatchlings: both are het with .056, not .137, the product; derived."""
    dam, sire = proofs(cross("50% het Clown", "50% het Clown"))
    q = Fraction(3, 4) ** 6
    assert dam.both_after(6) == sire.both_after(6) == q / (q + 3)
    assert round(float(dam.both_after(6)), 3) == 0.056
    assert round(float(dam.after(6) * sire.after(6)), 3) == 0.137
    assert dam.both_after(0) == QUARTER


def test_law__two_possible_hets_share_one_truth():
    """Chance of at least one visual among ten: (1/4)(1 - (3/4)^10) = .2359, not 1 - (15/16)^10 = .4755; derived."""
    dam, _ = proofs(cross("50% het Clown", "50% het Clown"))
    visual = 1 - sum(weight * miss**10 for (_, _, miss), weight in dam.law.items())
    assert visual == QUARTER * (1 - Fraction(3, 4) ** 10)
    assert (round(float(visual), 4), round(float(1 - Fraction(15, 16) ** 10), 4)) == (0.2359, 0.4755)


def test_law__kin_are_taken_jointly():
    """Parents that carry together or not at all: a doubt about one is a doubt about both."""
    catalogue = load_catalogue()
    genome = genome_of(catalogue)
    group, _ = genome.home["Clown"]
    sexes = {(genome.wild(genome.groups[0], "female"), genome.wild(genome.groups[0], "male")): Fraction(1)}
    wild, het = genome.wild(group, "female"), order(("",), ("Clown",))
    for table, expected in (
        ({(het, het): HALF, (wild, wild): HALF}, 11),
        ({(het, wild): HALF, (wild, het): HALF}, None),
    ):
        found = proofs(Offspring(Brood(genome, {"sex": sexes, group.name: table}), catalogue))
        assert [proof.needed(0.95) for proof in found] == ([expected, expected] if expected else [])


def test_law__sibs_of_a_collection():
    """Full sibs of known hets: 2/3 each, and independent once the parents are known for certain."""
    animals = Collection.from_text(
        "id,sex,genes,dam,sire\nA,female,het Clown,,\nB,male,het Clown,,\nC,female,Normal,A,B\nD,male,Normal,A,B\n"
    )
    dam, sire = proofs(cross(animals["C"], animals["D"]))
    assert dam.chance == sire.chance == TWO_THIRDS
    assert dam.law[True, True, Fraction(3, 4)] == Fraction(4, 9)
    assert dam.after(1) == (Fraction(4, 9) * Fraction(3, 4) + Fraction(2, 9)) / (1 - Fraction(4, 9) * QUARTER)


def test_second_copy__one_hatchling_without_it_settles_it():
    """With a wild mate every hatchling of two copies shows it, and half of those of one: 1 / (1 + 2^n). Derived."""
    proof = only("possible super Pinstripe", "Normal")
    assert (proof.double, proof.claim) == (True, "has only one copy of Pinstripe")
    assert (proof.looks, proof.telling, proof.silence) == (
        ("Normal",),
        "does not show Pinstripe",
        "all show Pinstripe",
    )
    assert proof.chances(3) == (HALF, THIRD, Fraction(1, 5), Fraction(1, 9))
    assert (proof.needed(0.95), proof.needed(0.99)) == (5, 7)


def test_second_copy__lethal_in_two_copies_is_no_doubt():
    assert proofs(cross("Spider", "Spider")) == ()


@pytest.mark.parametrize(
    ("dam", "sire"),
    [
        ("het Clown", "Clown"),  # certain
        ("50% het Clown", "Normal"),  # the mate can show nothing
        ("50% het Clown", "Albino"),
        ("possible super Pinstripe", "Super Pinstripe"),  # every hatchling shows it
        ("Banana", "Banana"),  # where it lies is in doubt, not whether it is there
    ],
)
def test_proofs__none(dam, sire):
    assert proofs(cross(dam, sire)) == ()


def test_proofs__nothing_hatches():
    catalogue = load_catalogue()
    odds = cross("50% het Clown", "Clown")
    spider, _ = odds.brood.genome.home["Spider"]
    double = order(("Spider",), ("Spider",))
    brood = Brood(odds.brood.genome, {**odds.brood.parents, spider.name: {(double, double): Fraction(1)}})
    assert brood.viable == 0
    assert proofs(Offspring(brood, catalogue)) == ()


def test_proofs__in_catalogue_order_dam_first():
    rank = cross("Normal", "Normal").brood.genome.rank
    found = proofs(cross("50% het Piebald 66% het Clown", "Clown Piebald 50% het Ghost Pinstripe"))
    assert [(p.gene, p.role) for p in found] == sorted((("Piebald", "dam"), ("Clown", "dam")), key=lambda k: rank[k[0]])
    both = proofs(cross("50% het Clown", "50% het Clown"))
    assert [proof.role for proof in both] == ["dam", "sire"]


def test_complex__another_gene_of_it_may_tell():
    """A visual Candy shows a het Albino: the compound is visible."""
    proof = only("50% het Albino", "Candy")
    assert (proof.looks, proof.telling) == (("Candy Albino",), "shows Albino")
    assert proof.chances(2) == (HALF, THIRD, Fraction(1, 5))


def test_complex__a_look_that_the_mate_could_give_alone_does_not_tell():
    """The dam carries Albino, Candy or neither; the sire is a visual Albino: a compound speaks for Candy alone."""
    catalogue = load_catalogue()
    genome = genome_of(catalogue)
    group, _ = genome.home["Albino"]
    dam = {order(("",), ("Albino",)): THIRD, order(("",), ("Candy",)): THIRD, genome.wild(group, "female"): THIRD}
    sire = order(("Albino",), ("Albino",))
    sexes = {(genome.wild(genome.groups[0], "female"), genome.wild(genome.groups[0], "male")): Fraction(1)}
    parents = {"sex": sexes, group.name: {(state, sire): chance for state, chance in dam.items()}}
    found = {proof.gene: proof for proof in proofs(Offspring(Brood(genome, parents), catalogue))}
    assert (found["Albino"].looks, found["Albino"].telling) == (("Albino",), "is Albino")
    assert (found["Candy"].looks, found["Candy"].telling) == (("Candy Albino",), "shows Candy")
    for proof in found.values():
        assert proof.chances(1) == (THIRD, Fraction(1, 5))


def test_sex_linked__a_gene_of_one_chromosome_alone():
    """Females are ZW: a wild dam's daughters show what the sire carries, one hatchling in four; with a dam that shows
    it, one in two. It proves the sire alone; a dam is never in doubt. Derived."""
    wild = only("Normal", "50% het Dusk", catalogue=SECOND)
    assert (wild.role, wild.proves) == ("sire", ("sire",))
    assert wild.after(3) == Fraction(27, 64) / (Fraction(27, 64) + 1)
    visual = only("Dusk", "50% het Dusk", catalogue=SECOND)
    assert visual.chances(3) == (HALF, THIRD, Fraction(1, 5), Fraction(1, 9))


def test_linked__what_shows_beside_it_does_not_matter():
    """A dam with Ink may carry Wash on the same chromosome, r = 1/5; the sire is a visual Wash: two looks tell."""
    genome = genome_of(SECOND)
    group, _ = genome.home["Ink"]
    sexes = {(genome.wild(genome.groups[0], "female"), genome.wild(genome.groups[0], "male")): Fraction(1)}
    blank, mate = ("", ""), order(("", "Wash"), ("", "Wash"))
    table = {(order(blank, ("Ink", "Wash")), mate): HALF, (order(blank, ("Ink", "")), mate): HALF}
    (proof,) = proofs(Offspring(Brood(genome, {"sex": sexes, group.name: table}), SECOND))
    assert (proof.looks, proof.telling) == (("Ink Wash", "Wash"), "shows Wash")
    assert proof.after(2) == Fraction(1, 5)


def test_linked__a_lethal_gene_beside_it_is_counted_among_hatchlings():
    """Both parents have Ink, lethal in two copies, in coupling with Wash: visual with 3/25, not 1/4. Derived.

    Of all eggs 1/4 have two Ink; of the 3/4 that hatch, Wash shows in (1/10)^2 + 2 (4/10)(1/10) = 9/100 of eggs.
    """
    genome = genome_of(SECOND)
    group, _ = genome.home["Ink"]
    sexes = {(genome.wild(genome.groups[0], "female"), genome.wild(genome.groups[0], "male")): Fraction(1)}
    carrier = order(("", ""), ("Ink", "Wash"))
    table = {(carrier, carrier): HALF, (order(("", ""), ("Ink", "")), carrier): HALF}
    (proof,) = proofs(Offspring(Brood(genome, {"sex": sexes, group.name: table}), SECOND))
    shown_by = Fraction(9, 100) / Fraction(3, 4)
    assert proof.after(2) == (1 - shown_by) ** 2 / ((1 - shown_by) ** 2 + 1)
    n = proof.needed(0.95)
    assert proof.after(n) <= Fraction(1, 20) < proof.after(n - 1)


def test_lethal_gene__hatchlings_count_not_eggs():
    """A dam with both Ink and Wash, or neither: with the former a quarter of the eggs dies, which tells nothing here.

    The sire is as the dam may be. Of the carrier's hatchlings 3/25 are visual, of the other's none. Derived.
    """
    genome = genome_of(SECOND)
    group, _ = genome.home["Ink"]
    sexes = {(genome.wild(genome.groups[0], "female"), genome.wild(genome.groups[0], "male")): Fraction(1)}
    carrier, wild = order(("", ""), ("Ink", "Wash")), genome.wild(group, "female")
    table = {(carrier, carrier): HALF, (wild, carrier): HALF}
    found = {p.gene: p for p in proofs(Offspring(Brood(genome, {"sex": sexes, group.name: table}), SECOND))}
    q = Fraction(22, 25)
    assert found["Wash"].role == "dam"
    assert found["Wash"].after(3) == q**3 / (q**3 + 1)


GENES = ["66% het Clown", "50% het Clown", "het Clown", "Clown", "50% het Albino", "Candy", "het Albino"]
GENES += ["Pinstripe", "possible super Pinstripe", "Spider", "Banana", "33% het Piebald", "Piebald"]


def at_once(texts):
    """The words of one animal, at most one for each complex."""
    return " ".join({text.split()[-1].replace("Candy", "Albino"): text for text in texts}.values())


animals = st.lists(st.sampled_from(GENES), min_size=1, max_size=3).map(at_once)


def egg_by_egg(odds, proof, n):
    """Chance of the claim given n viable hatchlings that do not tell, counting every clutch of n hatchlings."""
    group, _ = odds.brood.genome.home[proof.gene]
    yes = every = Fraction(0)
    for parents, (weight, eggs) in zip(odds.brood.parents[group.name], odds.brood.table(group), strict=True):
        hatching = {egg: chance for egg, chance in eggs.items() if viable(group, egg)}
        copies = carried(group, parents[("dam", "sire").index(proof.role)]).get(proof.gene, 0)
        for clutch in itertools.product(hatching.items(), repeat=n):
            chance = weight
            for egg, share in clutch:
                chance *= share / sum(hatching.values())
                if (proof.gene in dict(shown(group, egg))) is not proof.double:
                    chance = Fraction(0)
            every += chance
            yes += chance if copies == 1 or (copies and not proof.double) else 0
    return yes / every


@given(animals, animals, st.integers(0, 3))
def test_proofs__against_every_clutch_counted(dam, sire, n):
    odds = cross(dam, sire)
    for proof in proofs(odds):
        assert sum(proof.law.values()) == 1
        assert 0 < proof.chance < 1
        assert proof.after(n) == egg_by_egg(odds, proof, n)
        assert proof.both_after(n) <= proof.after(n)
        assert list(proof.chances(6)) == sorted(proof.chances(6), reverse=True)
        assert proof.role in proof.proves
        enough = proof.needed(0.9)
        if enough is None:
            assert proof.after(400) > Fraction(1, 10)
        else:
            assert proof.after(enough) <= Fraction(1, 10)
            assert enough == 0 or proof.after(enough - 1) > Fraction(1, 10)
