"""Reading shorthand as an animal, and as a target."""

from __future__ import annotations

import time
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.catalogue import Catalogue, load_catalogue
from explorer.genetics import Genotype
from explorer.notation import AmbiguousGenes, GenesError, ImpossibleGenes, UnreadableGenes, read_genes, read_wanted

F = Fraction
Alleles = Callable[[Genotype, str], dict[str, Fraction]]


def test_read_genes__one_animal(catalogue: Catalogue, alleles: Alleles) -> None:
    geno = read_genes("super PASTEL, OD + Yellowbelly/Gravel, 66% het DG Clown", "female")
    assert geno.sex == "female"
    assert set(geno.parts) == {"sex", "pastel", "orange dream", "yellow belly", "desert ghost", "clown"}
    assert alleles(geno, "Pastel") == {"Pastel Pastel": 1}
    assert alleles(geno, "Orange Dream") == {"+ Orange Dream": 1}
    assert alleles(geno, "Gravel") == {"Gravel Yellow Belly": 1}
    assert alleles(geno, "Desert Ghost") == {"+ Desert Ghost": F(2, 3), "+ +": F(1, 3)}
    assert alleles(geno, "Clown") == {"+ Clown": F(2, 3), "+ +": F(1, 3)}


@pytest.mark.parametrize("text", ["Normal", "normal", "Wild type", "wildtype", "WILD-TYPE"])
def test_read_genes__normal_is_nothing(text: str) -> None:
    geno = read_genes(text)
    assert set(geno.parts) == {"sex"}
    assert geno.varying == ()
    assert read_wanted(text) == {}


def test_read_genes__normal_may_carry(catalogue: Catalogue) -> None:
    assert read_genes("Normal het Clown") == read_genes("het Clown")
    assert read_genes("het Clown, Normal") == read_genes("het Clown")


@pytest.mark.parametrize(
    "text", ["Normal Pastel", "Pastel Normal", "Normal Clown", "Normal 50% Leopard", "Normal Ivory"]
)
def test_read_genes__normal_shows_nothing(text: str) -> None:
    with pytest.raises(ImpossibleGenes, match=r"found Normal with .*; needed Normal alone or with hets"):
        read_genes(text)
    with pytest.raises(ImpossibleGenes):
        read_wanted(text)


def test_read_genes__repeats_no_notice() -> None:
    assert len(read_genes("possible het Clown possible het DG").notices) == 1


def test_read_genes__order_of_words_is_free() -> None:
    one = read_genes("Pastel Leopard het Clown 66% het Piebald")
    assert one == read_genes("66% het Piebald, het Clown, Leopard, Pastel")


def test_read_genes__every_name_is_the_same_gene(catalogue: Catalogue) -> None:
    for gene in catalogue.genes:
        expected = read_genes(gene.name, catalogue=catalogue)
        for name in (*gene.synonyms, *gene.abbreviations):
            assert read_genes(name.upper(), catalogue=catalogue) == expected
            assert read_wanted(name, catalogue) == {gene.name: 2 if gene.recessive else 1}


def test_read_genes__every_nickname_is_its_meaning(catalogue: Catalogue) -> None:
    for nickname in catalogue.nicknames:
        geno = read_genes(nickname.name, "female", catalogue)
        assert geno == read_genes(nickname.genes, "female", catalogue)
        assert geno.notices == (f'"{nickname.name}" is read as {nickname.genes}',)
        assert read_wanted(nickname.name, catalogue) == read_wanted(nickname.genes, catalogue)
        with pytest.raises(GenesError):
            read_genes(f"50% {nickname.name}", catalogue=catalogue)


def test_read_genes__super_before_a_nickname(catalogue: Catalogue) -> None:
    names = {nickname.name for nickname in catalogue.nicknames}
    assert "Super Pastave" in names
    for name in names:
        if f"Super {name}" not in names:
            with pytest.raises(UnreadableGenes, match="write the genes of the nickname out"):
                read_genes(f"Super {name}", catalogue=catalogue)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Desert Ghost", {"Desert Ghost": 2}),
        ("visual Desert Ghost", {"Desert Ghost": 2}),
        ("Super Desert Ghost", {"Desert Ghost": 2}),
        ("Desert Ghost Leopard Pastel", {"Pastel": 1, "Leopard": 1, "Desert Ghost": 2}),
        ("Super Pastel", {"Pastel": 2}),
        ("Mojave Lesser", {"Mojave": 1, "Lesser": 1}),
        ("Albino Candy", {"Candy": 1, "Albino": 1}),
        ("Clown Cryptic", {"Clown": 1, "Cryptic": 1}),
        ("Cryptic", {"Cryptic": 1}),
        ("Banana", {"Banana": 1}),
        ("Killer Clown", {"Pastel": 2, "Clown": 2}),
        ("Candino", {"Candy": 1, "Albino": 1}),
        ("Pied", {"Piebald": 2}),
    ],
)
def test_read_wanted(text: str, expected: dict[str, int]) -> None:
    wanted = read_wanted(text)
    assert wanted == expected
    assert list(wanted) == list(expected)


@pytest.mark.parametrize(
    ("text", "gene"),
    [
        ("het Clown", "Clown"),
        ("Pastel 66% het Clown", "Clown"),
        ("50% Leopard", "Leopard"),
        ("33% Super Pinstripe", "Pinstripe"),
        ("possible het Clown", "Clown"),
        ("het Candy het Albino", "Candy"),
        ("male maker Banana", "Banana"),
        ("Banana on X", "Banana"),
    ],
)
def test_read_wanted__names_what_shows(text: str, gene: str) -> None:
    with pytest.raises(ImpossibleGenes, match=f"found {gene} as carried, .*a target names what shows"):
        read_wanted(text)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", UnreadableGenes),
        ("Pastell", UnreadableGenes),
        ("Pastel Pastel", ImpossibleGenes),
        ("Mojave Lesser Butter", ImpossibleGenes),
        ("BEL", AmbiguousGenes),
    ],
)
def test_read_wanted__fails_as_reading_does(text: str, kind: type[GenesError]) -> None:
    with pytest.raises(kind):
        read_wanted(text)


def test_read__another_species(lizard: Catalogue) -> None:
    assert read_wanted("Letter", lizard) == {"Cream": 2, "Ink": 1}
    with pytest.raises(UnreadableGenes):
        read_genes("Pastel", catalogue=lizard)


@given(st.text(max_size=80), st.sampled_from(["female", "male", None]))
def test_read__any_text_raises_nothing_but_genes_errors(text: str, sex: str | None) -> None:
    for read in (lambda: read_genes(text, sex), lambda: read_wanted(text)):
        try:
            read()
        except GenesError as error:
            assert error.text == text
            assert str(error)


PIECES = [
    *(
        "het",
        "66%",
        "100%",
        "0%",
        "poss",
        "ph",
        "dh",
        "double",
        "super",
        "visual",
        "normal",
        "male maker",
        "on X",
        "on Y",
    ),
    *("Pastel", "Banana", "Clown", "Cryptic", "Candy", "Albino", "Toffee", "Mojave", "Lesser", "Desert", "Ghost", "DG"),
    *("Ivory", "Killer Clown", "Dreamsicle", "Candino", "BEL", "%", ",", "/", "(", ")", "-", "Pastell"),
]


@given(st.lists(st.sampled_from(PIECES), max_size=8).map(" ".join), st.sampled_from(["female", "male", None]))
def test_read__any_words_raise_nothing_but_genes_errors(text: str, sex: str | None) -> None:
    for read in (lambda: read_genes(text, sex), lambda: read_wanted(text)):
        try:
            read()
        except GenesError as error:
            assert error.text == text
            assert str(error)


@pytest.mark.parametrize(
    "piece", ["x", "Pastel ", "het ", "66% ", "66% het ", "qqq, ", "(", "%", "Desert", "9", "super "]
)
def test_read__a_long_text_takes_no_long_time(piece: str) -> None:
    load_catalogue()
    text = (piece * 5000)[:5000]
    begun = time.perf_counter()
    with pytest.raises(GenesError):
        read_genes(text)
    assert time.perf_counter() - begun < 2
