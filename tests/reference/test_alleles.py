"""Which traits are alleles of one gene and which are not, and what complexes can give.

Albino, Lavender Albino, Ultramel: Brown AR and co-authors, PLoS ONE 17(10):e0276376, 2022 (abstract seen). Ghost:
Lederer I and co-authors, microPublication Biology, 2023 (counts by way of OMIA 002758-51751). Complex membership of
trade names is common practice or from memory, see the catalogue.
"""

from fractions import Fraction

import pytest

from explorer.looks import shown
from explorer.notation import ImpossibleGenes, read_genes, read_wanted
from explorer.pairing import cross

HALF, QUARTER = Fraction(1, 2), Fraction(1, 4)


def look_table(dam, sire):
    table = cross(dam, sire).looks()
    return dict(zip(table.look, table.fraction, strict=True))


@pytest.mark.parametrize(
    ("one", "other", "carriers"),
    [
        ("Albino", "Lavender Albino", "het Albino het Lavender Albino"),
        ("Albino", "Ultramel", "het Ultramel het Albino"),
        ("Lavender Albino", "Ultramel", "het Ultramel het Lavender Albino"),
        # Lines of axanthic: only line A has a published gene; that the lines are apart is common practice.
        ("Axanthic line A", "Axanthic line B", "het Axanthic line A het Axanthic line B"),
    ],
)
def test_different_genes__give_normal_double_carriers(one, other, carriers):
    odds = cross(one, other)
    assert look_table(one, other) == {"Normal": 1}
    assert set(odds.genotypes().genotype) == {carriers}


@pytest.mark.parametrize(("one", "other"), [("Candy", "Albino"), ("Toffee", "Albino"), ("Candy", "Toffee")])
def test_alleles_of_one_gene__compound_is_visible(one, other):
    """More than one variant of TYR (published); which trade names they are is from memory."""
    odds = cross(one, other)
    assert look_table(one, other) == {f"{one} {other}": 1}
    assert odds.chance(one) == odds.chance(other) == 1
    assert look_table(f"het {one}", f"het {other}") == {"Normal": Fraction(3, 4), f"{one} {other}": QUARTER}


def test_ghost__visual_if_and_only_if_two_copies_in_110_animals():
    """50 Ghost, all with two copies; 60 others, 57 without and 3 with one copy; no exception."""
    animals = [("Ghost", 50, True), ("Normal", 57, False), ("het Ghost", 3, False)]
    agreeing = 0
    for text, count, ghost in animals:
        geno = read_genes(text, sex="female")
        group = geno.genome.home["Ghost"][0]
        (diplotype,) = geno.part(group)
        agreeing += count * ((("Ghost", 2) in shown(group, diplotype)) is ghost)
    assert agreeing == 110


def test_complex__target_of_both_alleles():
    """Two-copy with two-copy: all; one copy each: 1/4; compound with compound: 1/4, 1/2, 1/4. Derived."""
    assert look_table("Super Mojave", "Super Lesser") == {"Mojave Lesser": 1}
    odds = cross("Mojave", "Lesser")
    assert odds.chance("Mojave Lesser") == QUARTER
    assert odds.chance_in_clutch("Mojave Lesser", eggs=6) == 1 - Fraction(3, 4) ** 6
    assert look_table("Mojave Lesser", "Mojave Lesser") == {
        "Super Mojave": QUARTER,
        "Mojave Lesser": HALF,
        "Super Lesser": QUARTER,
    }


@pytest.mark.parametrize(
    ("one", "other"), [("Mojave", "Lesser"), ("Fire", "Vanilla"), ("Yellow Belly", "Asphalt"), ("Spider", "Blackhead")]
)
def test_complex__compound_with_wild_gives_each_allele_and_no_wild(one, other):
    assert look_table(f"{one} {other}", "Normal") == {one: HALF, other: HALF}
    assert cross(f"{one} {other}", "Normal").chance(f"{one} {other}") == 0


def test_complex__three_alleles_are_impossible():
    with pytest.raises(ImpossibleGenes, match="more than two alleles of one complex"):
        read_wanted("Mojave Lesser Butter")


def test_clown_complex__compound_counts_for_either():
    """Allelism of Cryptic: from memory."""
    assert look_table("Clown", "Cryptic") == {"Clown Cryptic": HALF, "Normal": HALF}
    odds = cross("Clown", "Cryptic")
    assert odds.chance("Clown") == odds.chance("Cryptic") == HALF
