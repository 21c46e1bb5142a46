"""Reading what was written gives the same genotype, and writing it again the same text."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from explorer.catalogue import Catalogue, load_catalogue
from explorer.genetics import Genotype
from explorer.notation import GenesError, read_genes, write_genes

CATALOGUE = load_catalogue()
SEXES: list[str | None] = ["female", "male", None]
MEMBERS: dict[str, list[str]] = {}
for _gene in CATALOGUE.genes:
    MEMBERS.setdefault(_gene.locus, []).append(_gene.name)
RECESSIVE = {gene.name for gene in CATALOGUE.genes if gene.recessive}

figures = st.one_of(
    st.sampled_from(["66", "67", "33", "57", "17", "50", "25", "12.5", "100"]),
    st.integers(1, 99).map(str),
    st.integers(1, 99_999).map(lambda digits: f"{digits / 1000:.3f}"),
)


def check(text: str, sex: str | None, catalogue: Catalogue = CATALOGUE) -> None:
    geno = read_genes(text, sex, catalogue)
    written = write_genes(geno)
    again = read_genes(written, sex, catalogue)
    assert again == geno, (text, written)
    assert write_genes(again) == written, (text, written)
    assert read_genes(written, geno.sex, catalogue) == geno, (text, written)


@st.composite
def locus_words(draw: st.DrawFn, locus: str) -> str:
    """Words on one locus that an animal can be like."""
    names = draw(st.permutations(MEMBERS[locus]))
    one, two = names[0], names[-1]
    figure, other = draw(figures), draw(figures)
    if draw(st.booleans()) and len(names) > 1:
        halves = [f"{min(float(figure), 48):g}% het {one}", f"{min(float(other), 48):g}% het {two}"]
        return " ".join(halves) if {one, two} <= RECESSIVE else f"{one} {two}"
    if one in RECESSIVE:
        forms = [one, f"het {one}", f"{figure}% het {one}", f"20% visual {one} {min(float(figure), 79):g}% het {one}"]
    else:
        forms = [one, f"Super {one}", f"{figure}% Super {one}", f"{figure}% {one}", f"99% {one} 5% Super {one}"]
    if locus == "banana":
        forms += [f"{one} on X", f"{one} 80% on X", f"{figure}% {one} on X", f"male maker {one} 5% Super {one}"]
        forms += [f"{word} maker {one}" for word in ("male", "female")] if draw(st.booleans()) else []
    return draw(st.sampled_from(forms))


@st.composite
def texts(draw: st.DrawFn) -> str:
    loci = draw(st.lists(st.sampled_from(sorted(MEMBERS)), min_size=1, max_size=8, unique=True))
    return ", ".join(draw(locus_words(locus)) for locus in loci)


@settings(max_examples=400)
@given(texts(), st.sampled_from(SEXES))
def test_read_write_read__generated_animals(text: str, sex: str | None) -> None:
    try:
        read_genes(text, sex, CATALOGUE)
    except GenesError:
        assert sex == "female" or " het " in text, text
        assert "maker" in text or " on X" in text or " het " in text, text
        return
    check(text, sex)


PIECES = [
    *("het", "66%", "30%", "5%", "ph", "super", "visual", "male maker", "on X", ","),
    *("Pastel", "Banana", "Clown", "Cryptic", "Candy", "Albino", "Mojave", "Lesser", "Desert", "Ghost", "Dreamsicle"),
]


@settings(max_examples=1000)
@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=7).map(" ".join), st.sampled_from(SEXES))
def test_read_write_read__any_text_that_can_be_read(text: str, sex: str | None) -> None:
    try:
        read_genes(text, sex, CATALOGUE)
    except GenesError:
        return
    check(text, sex)


@pytest.mark.parametrize("sex", SEXES)
def test_read_write_read__every_gene(sex: str | None) -> None:
    for gene in CATALOGUE.genes:
        for name in (gene.name, *gene.synonyms, *gene.abbreviations):
            check(name, sex)
            check(f"Super {name}", sex)
            check(f"66% het {name}", sex)
        assert write_genes(read_genes(gene.name, sex, CATALOGUE)) == gene.name
    for nickname in CATALOGUE.nicknames:
        check(nickname.name, sex)


def test_read_write_read__every_pair_of_genes_stays_apart() -> None:
    for one, two in combinations(CATALOGUE.genes, 2):
        geno = read_genes(f"{two.name}, {one.name}", "female", CATALOGUE)
        assert read_genes(write_genes(geno), "female", CATALOGUE) == geno


@pytest.mark.parametrize("sex", SEXES)
@pytest.mark.parametrize(
    "text",
    [
        "Dusk",
        "het Dusk",
        "66% het Dusk",
        "25% visual Dusk",
        "Dusk on Z",
        "Ink het Wash",
        "Ink Wash",
        "Cream Rag",
        "Letter",
    ],
)
def test_read_write_read__females_with_two_sex_chromosomes(lizard: Catalogue, text: str, sex: str | None) -> None:
    if sex == "female" and "het Dusk" in text:
        return
    check(text, sex, lizard)


@pytest.mark.parametrize("sex", SEXES)
@pytest.mark.parametrize(
    "text",
    [
        "Fin Silver",
        "Fin on X Silver",
        "Fin 75% on X Silver",
        "Gill Fin",
        "Gill Fin on X",
        "het Gill",
        "Pale Fin Silver",
        "het Pale Fin on X",
        "66% het Pale Fin 80% on X",
        "33% Super Fin",
        "Super Bronze Gill",
        "Tail Eye Scale",
        "Tail het Eye Scale",
        "Tail 66% het Eye 33% Super Scale",
    ],
)
def test_read_write_read__linked_loci_and_a_complex_on_the_sex_pair(
    fish: Catalogue, text: str, sex: str | None
) -> None:
    fits = {"het Gill": "female", "Super Bronze Gill": "female", "Fin 75% on X Silver": "male"}
    fits["66% het Pale Fin 80% on X"] = "male"
    if sex is None or sex == fits.get(text, sex):
        check(text, sex, fish)


@pytest.mark.parametrize("text", ["Pastel under 0.001% het Clown", "under 0.001% Pinstripe 0.0000001% het Clown"])
def test_round_trip__chances_too_small_for_figures(text: str) -> None:
    genotype = read_genes(text)
    assert write_genes(genotype) == text
    assert read_genes(write_genes(genotype)) == genotype


def test_round_trip__a_chance_that_was_worked_out() -> None:
    """A number of a hundred digits would be no help."""
    plain = read_genes("50% het Clown")
    group, _ = plain.genome.home["Clown"]
    wild, het = sorted(plain.part(group))
    tiny = {wild: 1 - Fraction(1, 2**99), het: Fraction(1, 2**99)}
    genotype = Genotype(plain.genome, {**plain.parts, group.name: tiny})
    assert write_genes(genotype) == "under 0.001% het Clown"
    assert write_genes(read_genes(write_genes(genotype))) == write_genes(genotype)
