"""Ratios of Mendelian theory, as found in any textbook of genetics; the two-copy rows are derived."""

from fractions import Fraction
from itertools import combinations

import pytest

from explorer.genetics import Brood, none_of, order
from explorer.pairing import cross
from tests.reference.genomes import animal, genotypes, hets, linked, looks, recessive, single_copy, unlinked

THREE, FOUR = Fraction(3, 4), Fraction(1, 4)


def selfed(*loci):
    genome = unlinked(*loci)
    return Brood.of(hets(genome, "female"), hets(genome, "male"))


def by_class(brood, name):
    """Chances of the classes that `name` makes of the shown alleles."""
    found = {}
    for look, chance in looks(brood).items():
        found[name(look)] = found.get(name(look), 0) + chance
    return found


def test_one_locus__1_to_2_to_1():
    assert genotypes(selfed(recessive("a"))) == {"0": FOUR, "1": Fraction(1, 2), "2": FOUR}


@pytest.mark.parametrize("names", ["a", "ab", "abc", "abcd"])
def test_recessives__3_to_1_each(names):
    """3:1, 9:3:3:1, 27:9:9:9:3:3:3:1 and so on; 3^n genotypes; (1/4)^n show all."""
    brood = selfed(*map(recessive, names))
    found = looks(brood)
    assert found == {
        "".join(shown): FOUR ** len(shown) * THREE ** (len(names) - len(shown))
        for count in range(len(names) + 1)
        for shown in combinations(names, count)
    }
    assert found[names] == Fraction(1, 4 ** len(names))
    assert len(genotypes(brood)) == 3 ** len(names)


@pytest.mark.parametrize(
    ("words", "ratio"),
    [
        # Recessive epistasis: bb hides locus a.
        pytest.param(lambda look: "b" if "b" in look else look, {"": 9, "a": 3, "b": 4}, id="9:3:4"),
        # Duplicate recessive epistasis: aa or bb gives the same look.
        pytest.param(lambda look: "either" if look else "", {"": 9, "either": 7}, id="9:7"),
        # Dominant epistasis: one dominant B hides locus a.
        pytest.param(lambda look: look if "b" in look else "B", {"B": 12, "b": 3, "ab": 1}, id="12:3:1"),
        # Duplicate dominant: one dominant of either locus is enough.
        pytest.param(lambda look: "none" if look == "ab" else "some", {"some": 15, "none": 1}, id="15:1"),
    ],
)
def test_two_loci__epistatic_ratios(words, ratio):
    found = by_class(selfed(recessive("a"), recessive("b")), words)
    assert found == {key: Fraction(share, 16) for key, share in ratio.items()}


def test_lethal_two_copies__2_to_1_and_a_quarter_of_eggs_lost():
    brood = selfed(single_copy("a", lethal=True))
    assert looks(brood) == {"": Fraction(1, 3), "a": Fraction(2, 3)}
    assert brood.viable == THREE


def test_two_lethal_loci__4_to_2_to_2_to_1():
    brood = selfed(single_copy("a", lethal=True), single_copy("b", lethal=True))
    assert looks(brood) == {key: Fraction(n, 9) for key, n in {"ab": 4, "a": 2, "b": 2, "": 1}.items()}
    assert brood.viable == Fraction(9, 16)


def test_two_recessives_and_three_single_copy_genes__27_in_1024():
    """(1/4)^2 (3/4)^3."""
    parent = "Pastel Leopard Enchi het Clown het Piebald"
    assert cross(parent, parent).chance("Pastel Leopard Enchi Clown Piebald") == Fraction(27, 1024)


RATIOS = {
    "one copy with wild": ("Pastel", "Normal", {"Pastel": 1, "Normal": 1}),
    "one copy with one copy": ("Pastel", "Pastel", {"Super Pastel": 1, "Pastel": 2, "Normal": 1}),
    "two copies look like one": ("Pinstripe", "Pinstripe", {"Pinstripe": 3, "Normal": 1}),
    "two copies believed lethal": ("Spider", "Spider", {"Spider": 2, "Normal": 1}),
    "double het with double het": (
        "het Clown het Piebald",
        "het Clown het Piebald",
        {"Normal": 9, "Clown": 3, "Piebald": 3, "Clown Piebald": 1},
    ),
    "double recessive with double het": (
        "Clown Piebald",
        "het Clown het Piebald",
        {"Normal": 1, "Clown": 1, "Piebald": 1, "Clown Piebald": 1},
    ),
    "two compounds with wild": (
        "Mojave Lesser Cinnamon Black Pastel",
        "Normal",
        {"Mojave Cinnamon": 1, "Lesser Cinnamon": 1, "Mojave Black Pastel": 1, "Lesser Black Pastel": 1},
    ),
}
"""Derived; the two-copy forms of Pinstripe and Spider are common practice, no source."""


@pytest.mark.parametrize(("dam", "sire", "ratio"), RATIOS.values(), ids=RATIOS)
def test_cross__gives_the_ratio(dam, sire, ratio):
    table = cross(dam, sire).looks()
    total = sum(ratio.values())
    assert dict(zip(table.look, table.fraction, strict=True)) == {k: Fraction(n, total) for k, n in ratio.items()}


def test_two_copies_look_like_one__a_third_of_those_that_show_have_two():
    odds = cross("Pinstripe", "Pinstripe")
    table = odds.genotypes()
    double = table[table.genotype == "Super Pinstripe"].fraction.sum()
    assert double / odds.chance("Pinstripe") == Fraction(1, 3)


def test_lethal__177_hatchlings_tell_2_to_1_from_3_to_1():
    """Sample size of a one-sided 5 % test with 80 % power, normal approximation; 177 and 223 (two-sided) derived.

    n = ((z_a sqrt(p0 q0) + z_b sqrt(p1 q1)) / (p1 - p0))^2, with both proportions taken from the crosses.
    """
    lethal, same = cross("Spider", "Spider").chance("Spider"), cross("Pinstripe", "Pinstripe").chance("Pinstripe")

    def hatchlings(z):
        spread = z * float(same * (1 - same)) ** 0.5 + 0.8416212336 * float(lethal * (1 - lethal)) ** 0.5
        return (spread / float(same - lethal)) ** 2

    assert round(hatchlings(1.6448536270)) == 177
    assert hatchlings(1.9599639845) == pytest.approx(223, abs=1)


@pytest.mark.parametrize("genes", [("Clown",), ("Clown", "Piebald"), ("Clown", "Piebald", "Sunset")])
@pytest.mark.parametrize("n", [1, 2, 5, 7])
def test_proof_of_several_hets__visual_tester(genes, n):
    """All k genes show at least once in n hatchlings: inclusion and exclusion gives (1 - (1/2)^n)^k if unlinked."""
    tester = cross(" ".join(f"het {gene}" for gene in genes), " ".join(genes))
    found = Fraction(0)
    for count in range(len(genes) + 1):
        for missing in combinations(genes, count):
            none = tester.chance("Normal", without=missing)
            assert none == Fraction(1, 2**count)
            found += (-1) ** count * none**n
    assert found == (1 - Fraction(1, 2) ** n) ** len(genes)


def test_proof_of_two_hets__linked_genes_are_not_a_product():
    """Complete linkage in coupling: both show or none, so two genes are as easily proved as one."""
    genome = linked(recessive("a"), recessive("b"), rate=0)
    both, strands = (("a", "b"), ("a", "b")), (("", ""), ("a", "b"))
    found = looks(Brood.of(animal(genome, "female", map=strands), animal(genome, "male", map=both)))
    assert found == {"": Fraction(1, 2), "ab": Fraction(1, 2)}
    proved = 1 - none_of({5: Fraction(1)}, found["ab"])
    assert proved == Fraction(31, 32)
    assert proved > Fraction(31, 32) ** 2


def test_double_test_cross__1_to_1_to_1_to_1():
    genome = unlinked(recessive("a"), recessive("b"))
    tester = animal(genome, "male", a=("a", "a"), b=("b", "b"))
    assert looks(Brood.of(hets(genome, "female"), tester)) == dict.fromkeys(("", "a", "b", "ab"), FOUR)


def test_repulsion__by_three_routes():
    """Ab/Ab with aB/aB, r = 1/10, all to show both recessives. Derived: chances of one egg.

    Second generation at once (r/2)^2 = 1/400; the first generation with aB/aB gives ab/aB with r/2 = 1/20; two of
    these give 1/4, and one of them with the first generation r/4 = 1/40.
    """
    r = Fraction(1, 10)
    genome = linked(recessive("a"), recessive("b"), rate=r)

    def both(one, other):
        pair = animal(genome, "female", map=one), animal(genome, "male", map=other)
        return looks(Brood.of(*pair)).get("ab", 0)

    first, parent, recombinant = (("a", ""), ("", "b")), (("", "b"), ("", "b")), (("a", "b"), ("", "b"))
    assert both((("a", ""), ("a", "")), parent) == 0
    assert both(first, first) == (r / 2) ** 2 == Fraction(1, 400)
    assert both(recombinant, recombinant) == FOUR
    assert both(recombinant, first) == r / 4 == Fraction(1, 40)
    group = genome.by_name["map"]
    made = Brood.of(animal(genome, "female", map=first), animal(genome, "male", map=parent)).distribution(group)
    assert made[order(("a", "b"), ("", "b"))] == r / 2
    assert looks(Brood.of(animal(genome, "female", map=first), animal(genome, "male", map=parent))) == {
        "": Fraction(1, 2),
        "b": Fraction(1, 2),
    }


def test_four_single_copy_genes__one_in_sixteen():
    """Two offspring of true-breeding parents, AB and CD; all four copies with (1/2)^4. Derived."""
    odds = cross("Pastel Leopard", "Enchi Mojave")
    assert odds.chance("Pastel Leopard Enchi Mojave") == Fraction(1, 16)
    assert odds.chance_in_clutch("Pastel Leopard Enchi Mojave", eggs=5) == 1 - Fraction(15, 16) ** 5
