"""The map read off a catalogue, for the bundled species and for an invented one that differs in everything."""

import re
from fractions import Fraction
from pathlib import Path

from explorer.catalogue import load_catalogue, load_species
from explorer.genetics import gametes, genome_of
from explorer.pairing import cross

FOLDER = Path(__file__).parents[1] / "catalogue" / "second_species"
SECOND = load_species(FOLDER)
HALF, QUARTER = Fraction(1, 2), Fraction(1, 4)


def test_genome_of__bundled_species():
    catalogue = load_catalogue()
    genome = genome_of(catalogue)
    sex = genome.groups[0]
    assert (genome.heterogametic, genome.same, genome.other) == ("male", "X", "Y")
    assert ([locus.name for locus in sex.loci], sex.rates, sex.hemizygous) == (["banana"], (Fraction(7, 100),), set())
    assert set(genome.home) == {gene.name for gene in catalogue.genes}
    assert list(genome.rank) == [gene.name for gene in catalogue.genes]
    assert all(len(group.loci) == 1 for group in genome.groups[1:])


def test_genome_of__alleles_of_the_bundled_species():
    genome = genome_of(load_catalogue())

    def allele(name):
        return genome.home[name][1].by_name[name]

    assert (allele("Clown").shows_alone, allele("Cryptic").shows_alone) == (False, True)
    assert (allele("Pinstripe").double_differs, allele("Pastel").double_differs) == (False, True)
    assert genome.home["Spider"][1].lethal == {("Spider", "Spider")}
    assert genome.home["Pastel"][1].lethal == set()
    assert genome.home["Mojave"][1] is genome.home["Lesser"][1]
    assert genome.home["Albino"][1] is not genome.home["Lavender Albino"][1]


def test_genome_of__second_species():
    genome = genome_of(SECOND)
    sex, linked = genome.groups[0], genome.home["Ink"][0]
    assert (genome.heterogametic, genome.homogametic, genome.same, genome.other) == ("female", "male", "Z", "W")
    assert sex.hemizygous == {"dusk"}
    assert ([locus.name for locus in linked.loci], linked.rates) == (["ink", "wash"], (Fraction(1, 5),))
    assert genome.home["Cream"][1].lethal == {("Cream", "Rag")}
    assert genome.home["Ink"][1].lethal == {("Ink", "Ink")}


def test_genome_of__is_the_same_map_every_time():
    """However many other catalogues were read in between, since genotypes are held to their own map."""
    genome = genome_of(SECOND)
    others = [load_species(FOLDER) for _ in range(40)]
    assert len({id(genome_of(other)) for other in others}) == 40
    assert genome_of(SECOND) is genome


def fractions(table, *columns):
    return {" ".join(row[c] for c in columns): row["fraction"] for row in table.to_dict("records")}


def test_second_species__locus_on_z_alone():
    """Derived: a ZW female has one Z, so a Dusk dam gives carrier sons and wild daughters."""
    odds = cross("Dusk", "Normal", catalogue=SECOND)
    assert fractions(odds.genotypes(), "genotype", "sex") == {"het Dusk male": HALF, "Normal female": HALF}
    assert odds.chance("Dusk") == 0
    assert cross("Normal", "Dusk", catalogue=SECOND).chance("Dusk") == HALF


def test_second_species__linked_genes_of_unknown_phase():
    """Ink and Wash are linked, r = 1/5, but one phase is as likely as the other, so the four looks are even."""
    odds = cross("Ink het Wash", "Wash", catalogue=SECOND)
    assert fractions(odds.looks(), "look") == dict.fromkeys(("Normal", "Ink", "Wash", "Ink Wash"), QUARTER)


def test_second_species__linked_genes_in_a_clutch_show_their_phase():
    """Both phases give 1/4 Ink Wash an egg on average, but 2/5 in one and 1/10 in the other. Derived."""
    odds = cross("Ink het Wash", "Wash", catalogue=SECOND)
    assert odds.brood.rates(odds.events("Ink Wash")) == {Fraction(2, 5): HALF, Fraction(1, 10): HALF}
    found = odds.chance_in_clutch("Ink Wash", eggs=4)
    assert found == 1 - (Fraction(3, 5) ** 4 + Fraction(9, 10) ** 4) / 2


def test_second_species__lethal_compound():
    odds = cross("Cream", "Rag", catalogue=SECOND)
    assert odds.viable == Fraction(3, 4)
    assert fractions(odds.looks(), "look") == {"Cream": Fraction(1, 3), "Rag": Fraction(1, 3), "Normal": Fraction(1, 3)}
    assert odds.chance("Cream Rag") == 0


def test_second_species__two_lethal_copies():
    odds = cross("Ink", "Ink", catalogue=SECOND)
    assert odds.viable == Fraction(3, 4)
    assert fractions(odds.looks(), "look") == {"Ink": Fraction(2, 3), "Normal": Fraction(1, 3)}
    (caution,) = odds.cautions
    assert (caution.caution.text, caution.chance) == ("two copies do not hatch", QUARTER)


def test_second_species__nickname_and_marks():
    """Ink with two copies of Cream is a Letter; the two-copy form of Rag has few records."""
    letter = cross("Ink Cream", "Cream", catalogue=SECOND).looks().set_index("look")
    assert letter.loc["Ink Super Cream", "nickname"] == "Letter"
    rag = cross("Rag", "Rag", catalogue=SECOND).looks().set_index("look")
    assert rag.loc["Super Rag", "cautions"] == "the two-copy form of Rag has few records"


def test_genetics__names_no_gene_and_no_species():
    """The room works for any species: its files hold no gene name and no species name."""
    catalogue = load_catalogue()
    names = {gene.name for gene in catalogue.genes} | {catalogue.species.name, catalogue.species.latin, "snake"}
    files = sorted(Path(gametes.__code__.co_filename).parent.glob("*.py"))
    assert len(files) > 5
    for file in files:
        text = file.read_text(encoding="utf-8")
        assert not [name for name in names if re.search(rf"\b{re.escape(name)}\b", text)], file.name
