"""Putting two animals together, however they are given, and the words of each refusal."""

from fractions import Fraction
from pathlib import Path

import pytest

from explorer.catalogue import load_catalogue, load_species
from explorer.collection import Collection
from explorer.notation import AmbiguousGenes, GenesError, ImpossibleGenes, UnreadableGenes, read_genes
from explorer.pairing import Offspring, cross

SECOND = load_species(Path(__file__).parents[1] / "catalogue" / "second_species")

ANIMALS = Collection.from_text(
    "id,sex,genes,dam,sire\n"
    "F1,female,Pastel het Clown,,\n"
    "M1,male,Leopard het Clown,,\n"
    "F2,female,Normal,F1,M1\n"
    "M2,male,Normal,F1,M1\n"
    "U1,,50% het Clown,,\n"
)


def looks(odds):
    table = odds.looks()
    return dict(zip(table.look, table.fraction, strict=True))


EXPECTED = looks(cross("Pastel het Clown", "Leopard het Clown"))


@pytest.mark.parametrize("dam", ["Pastel het Clown", read_genes("Pastel het Clown", sex="female"), ANIMALS["F1"]])
@pytest.mark.parametrize("sire", ["Leopard het Clown", read_genes("Leopard het Clown", sex="male"), ANIMALS["M1"]])
def test_cross__text_genotype_and_animal_mixed(dam, sire):
    odds = cross(dam, sire)
    assert isinstance(odds, Offspring)
    assert looks(odds) == EXPECTED
    assert odds.chance("Pastel Leopard Clown") == Fraction(1, 16)


def test_cross__genotype_of_unknown_sex_takes_the_place_it_is_given():
    unknown = read_genes("het Clown")
    assert unknown.sex is None
    assert cross(unknown, "Clown").chance("Clown") == cross("Clown", unknown).chance("Clown") == Fraction(1, 2)
    assert cross(ANIMALS["U1"], "Clown").chance("Clown") == cross("Clown", ANIMALS["U1"]).chance("Clown")


def test_cross__exchanged_parents_of_autosomal_genes():
    assert looks(cross("Leopard het Clown", "Pastel het Clown")) == EXPECTED


def test_cross__animals_of_one_collection_are_known_jointly():
    """Full sibs of het parents, neither visual: each is het with 2/3, and they are independent given the parents."""
    odds = cross(ANIMALS["F2"], ANIMALS["M2"])
    assert odds.chance("Clown") == Fraction(4, 9) * Fraction(1, 4)


def test_cross__kin_are_not_taken_as_strangers():
    """A sire that is 50 % het, with his own daughter by a wild dam: both het 1/4, and 1/8 if taken as strangers."""
    kin = Collection.from_text(
        "id,sex,genes,dam,sire\nM,male,50% het Clown,,\nF,female,Normal,,\nD,female,Normal,F,M\n"
    )
    assert cross(kin["D"], kin["M"]).chance("Clown") == Fraction(1, 4) * Fraction(1, 4)
    assert cross(kin["D"], kin["M"].genotype).chance("Clown") == Fraction(1, 8) * Fraction(1, 4)


def test_cross__animals_of_two_collections_are_strangers():
    other = Collection.from_text("id,sex,genes\nM9,male,66% het Clown\n")
    assert cross(ANIMALS["F1"], other["M9"]).chance("Clown") == Fraction(1, 6)


def test_cross__catalogue_of_the_animals_is_used():
    own = Collection.from_text("id,sex,genes\nF,female,Ink\nM,male,Ink\n", SECOND)
    assert cross(own["F"], own["M"]).viable == Fraction(3, 4)
    assert cross(own["F"], "Ink").viable == Fraction(3, 4)
    assert cross("Ink", own["M"]).viable == Fraction(3, 4)


@pytest.mark.parametrize(
    ("dam", "sire", "words"),
    [
        (
            read_genes("Clown", sex="male"),
            "Clown",
            '"Clown" cannot be true: found a male as the dam; needed a female. '
            "To do: choose another dam, or mend the sex of Clown.",
        ),
        (
            "Clown",
            read_genes("het Clown", sex="female"),
            '"het Clown" cannot be true: found a female as the sire; needed a male. '
            "To do: choose another sire, or mend the sex of het Clown.",
        ),
        (
            ANIMALS["M1"],
            ANIMALS["F1"],
            '"M1" cannot be true: found a male as the dam; needed a female. '
            "To do: choose another dam, or mend the sex of M1.",
        ),
        (
            ANIMALS["F1"],
            ANIMALS["F1"],
            '"F1" cannot be true: found a female as the sire; needed a male. '
            "To do: choose another sire, or mend the sex of F1.",
        ),
        (
            ANIMALS["M1"],
            "Clown",
            '"M1" cannot be true: found a male as the dam; needed a female. '
            "To do: choose another dam, or mend the sex of M1.",
        ),
        (
            "male maker Banana",
            "Clown",
            '"male maker Banana" cannot be true: found "male maker" said of Banana in a female; needed a male, the sex '
            'with both X and Y. To do: mend the sex, or leave out "male maker".',
        ),
        (
            "Mojave Lesser Butter",
            "Clown",
            '"Mojave Lesser Butter" cannot be true: found more than two alleles of one complex (blue-eyed leucistic): '
            "Mojave, Lesser, Butter; needed at most two. To do: name at most two of them.",
        ),
    ],
)
def test_cross__impossible_parents(dam, sire, words):
    with pytest.raises(ImpossibleGenes) as caught:
        cross(dam, sire)
    assert str(caught.value) == words


def test_cross__text_that_cannot_be_read():
    with pytest.raises(UnreadableGenes) as caught:
        cross("Cloun", "Clown")
    assert str(caught.value) == (
        '"Cloun" cannot be read: found "Cloun"; needed names of genes and words of shorthand. '
        "To do: write a name that the catalogue holds. Nearest names: Clown, Congo, Calico."
    )


@pytest.mark.parametrize("text", ["", "   ", ","])
def test_cross__no_text(text):
    with pytest.raises(UnreadableGenes, match=r"found no gene; needed the name of a gene\. To do: write Normal"):
        cross("Clown", text)


def test_cross__text_with_more_than_one_meaning():
    with pytest.raises(AmbiguousGenes) as caught:
        cross("Clown", "Snow")
    assert str(caught.value) == (
        '"Snow" has more than one meaning: found "Snow"; needed one meaning. To do: write the one that is meant. '
        "Meanings: Albino Axanthic line A, Albino Axanthic line B, Albino Axanthic line C."
    )


def test_cross__its_errors_have_one_base():
    for dam in ("Cloun", "Snow", "Mojave Lesser Butter"):
        with pytest.raises(GenesError):
            cross(dam, "Normal")


OTHER_CATALOGUE = "the {} was read with another catalogue; read both with one, and give it as catalogue="


@pytest.mark.parametrize(
    ("dam", "sire", "catalogue", "role"),
    [
        (read_genes("Clown", sex="female"), "Ink", SECOND, "dam"),
        ("Ink", read_genes("Clown", sex="male"), SECOND, "sire"),
        (read_genes("Ink", sex="female", catalogue=SECOND), "Clown", None, "dam"),
        (ANIMALS["F1"], "Ink", SECOND, "dam"),
        (ANIMALS["F1"], read_genes("Ink", sex="male", catalogue=SECOND), None, "sire"),
    ],
)
def test_cross__another_catalogue(dam, sire, catalogue, role):
    with pytest.raises(ValueError) as caught:
        cross(dam, sire, catalogue=catalogue)
    assert str(caught.value) == OTHER_CATALOGUE.format(role)


def test_cross__animals_of_two_collections_with_two_catalogues():
    own = Collection.from_text("id,sex,genes\nM,male,Ink\n", SECOND)
    with pytest.raises(ValueError, match="the sire was read with another catalogue"):
        cross(ANIMALS["F1"], own["M"])


def test_cross__an_animal_of_unknown_sex_is_no_mate_for_itself():
    with pytest.raises(ImpossibleGenes, match="found one animal as both parents; needed two animals"):
        cross(ANIMALS["U1"], ANIMALS["U1"])


def test_cross__given_catalogue_equals_the_bundled_one():
    assert looks(cross("Pastel het Clown", "Leopard het Clown", catalogue=load_catalogue())) == EXPECTED
