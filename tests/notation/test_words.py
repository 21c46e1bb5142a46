"""Cutting a text into names and shorthand words."""

from __future__ import annotations

import pytest

from explorer.catalogue import AmbiguousWord, Catalogue, Gene, Nickname
from explorer.notation import AmbiguousGenes, ImpossibleGenes, UnreadableGenes
from explorer.notation.words import cut


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("Desert Ghost", "gene"),
        ("Desert, Ghost", "gene gene"),
        ("Desert + Ghost", "gene gene"),
        ("Desert/Ghost", "gene gene"),
        ("Desert - Ghost", "gene gene"),
        ("Desert-Ghost", "gene"),
        ("desertghost", "gene"),
        ("DESERT\n  GHOST", "gene"),
        ("Mojave/Lesser", "gene gene"),
        ("X-treme Gene", "gene"),
        ("Super Stripe", "nickname"),
        ("Super Pastel", "super gene"),
        ("66% het Clown", "figure het gene"),
        ("66 % het Clown", "figure het gene"),
        ("66%het Clown", "figure het gene"),
        ("100% het Clown", "figure het gene"),
        ("ph Clown", "possible het gene"),
        ("poss. het Clown", "possible het gene"),
        ("dh Clown Piebald", "times het gene gene"),
        ("dbl het Clown Piebald", "times het gene gene"),
        ("Triple-Het Clown", "times het gene"),
        ("male maker Banana", "maker gene"),
        ("Banana (Male-Maker)", "gene maker"),
        ("Banana on Y", "gene on"),
        ("wild type", "normal"),
        ("wild-type", "normal"),
        ("25% visual Clown", "figure visual gene"),
    ],
)
def test_cut(catalogue: Catalogue, text: str, kinds: str) -> None:
    assert " ".join(word.kind for word in cut(text, catalogue)) == kinds


def test_cut__every_name_of_the_catalogue_is_one_word(catalogue: Catalogue) -> None:
    for gene in catalogue.genes:
        for name in (gene.name, *gene.synonyms, *gene.abbreviations):
            for spelling in (name, name.upper(), name.lower()):
                (word,) = cut(spelling, catalogue)
                assert word.means is gene
    for nickname in catalogue.nicknames:
        (word,) = cut(nickname.name, catalogue)
        assert word.means is nickname
    kinds = {type(entry) for entry in catalogue.names.values()}
    assert kinds == {Gene, Nickname, AmbiguousWord}


def test_cut__every_ambiguous_word_lists_its_meanings(catalogue: Catalogue) -> None:
    assert catalogue.ambiguous
    for entry in catalogue.ambiguous:
        with pytest.raises(AmbiguousGenes) as caught:
            cut(f"Pastel, {entry.name}", catalogue)
        assert caught.value.nearest == entry.meanings
        assert f"Meanings: {', '.join(entry.meanings)}." in str(caught.value)


@pytest.mark.parametrize("text", ["", "   ", "\t\n", ",", ", + /", "()", "-"])
def test_cut__nothing_to_read(catalogue: Catalogue, text: str) -> None:
    with pytest.raises(UnreadableGenes, match=r"found no gene; needed the name of a gene\. To do: write Normal"):
        cut(text, catalogue)


@pytest.mark.parametrize(
    ("text", "found", "near"),
    [
        ("Pastell", '"Pastell"', "Pastel"),
        ("Leopard Pinstipe", '"Pinstipe"', "Pinstripe"),
        ("Dessert Ghost", '"Dessert"', "Desert Ghost"),
        ("Desert Gost", '"Gost"', "Desert Ghost"),
        ("het Dessert Gost", '"Dessert Gost"', "Desert Ghost"),
        ("Clown; Pastel", '"Clown;"', "Clown"),
    ],
)
def test_cut__unknown_words_come_with_the_nearest_names(catalogue: Catalogue, text: str, found: str, near: str) -> None:
    with pytest.raises(UnreadableGenes) as caught:
        cut(text, catalogue)
    assert caught.value.found == found
    assert near in caught.value.nearest[:2]


def test_cut__names_all_unknown_words_at_once(catalogue: Catalogue) -> None:
    with pytest.raises(UnreadableGenes) as caught:
        cut("Pastell, Leopard, Clwn", catalogue)
    assert caught.value.found == '"Pastell", "Clwn"'
    assert {"Pastel", "Clown"} <= set(caught.value.nearest)


def test_cut__counts_unknown_words_beyond_the_first(catalogue: Catalogue) -> None:
    with pytest.raises(UnreadableGenes, match="and 6 more"):
        cut(",".join(["qqq"] * 10), catalogue)


def test_cut__a_number_without_its_sign(catalogue: Catalogue) -> None:
    with pytest.raises(UnreadableGenes, match="a percentage with its sign, as in 66%"):
        cut("66 het Clown", catalogue)


@pytest.mark.parametrize("text", ["0% het Clown", "0.0% het Clown", "101% het Clown", "1000% Super Pastel"])
def test_cut__a_percentage_that_is_no_chance(catalogue: Catalogue, text: str) -> None:
    with pytest.raises(ImpossibleGenes, match="needed a percentage above 0 and up to 100"):
        cut(text, catalogue)


@pytest.mark.parametrize("text", ["66,7% het Clown", "Clown% het", "1.2.3% het Clown", "33.333333% het Clown", "%%"])
def test_cut__a_percentage_that_is_no_number(catalogue: Catalogue, text: str) -> None:
    with pytest.raises(UnreadableGenes):
        cut(text, catalogue)


def test_cut__maker_words_belong_to_species_with_heterogametic_males(lizard: Catalogue) -> None:
    assert [word.kind for word in cut("Dusk on Z", lizard)] == ["gene", "on"]
    for text in ("male maker Dusk", "Dusk on X"):
        with pytest.raises(UnreadableGenes):
            cut(text, lizard)
