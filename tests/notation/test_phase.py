"""Where the alleles of an animal lie: on the sex pair, and where loci are linked."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from explorer.catalogue import Catalogue
from explorer.genetics import Genotype
from explorer.notation import ImpossibleGenes, read_genes

F = Fraction
HALF, QUARTER = F(1, 2), F(1, 4)
Alleles = Callable[[Genotype, str], dict[str, Fraction]]


def sex_pair(geno: Genotype) -> dict[str, Fraction]:
    """Each diplotype of the sex group as "X Banana/Y +" -> chance."""
    part = geno.parts[geno.genome.groups[0].name]
    return {
        "/".join(" ".join(allele or "+" for allele in haplotype) for haplotype in diplotype): chance
        for diplotype, chance in part.items()
    }


@pytest.mark.parametrize(
    ("text", "sex", "expected"),
    [
        ("Normal", "female", {"X +/X +": 1}),
        ("Normal", "male", {"X +/Y +": 1}),
        ("Normal", None, {"X +/X +": HALF, "X +/Y +": HALF}),
        ("Banana", "female", {"X +/X Banana": 1}),
        ("Banana", "male", {"X Banana/Y +": HALF, "X +/Y Banana": HALF}),
        ("Banana", None, {"X +/X Banana": HALF, "X Banana/Y +": QUARTER, "X +/Y Banana": QUARTER}),
        ("Super Banana", "female", {"X Banana/X Banana": 1}),
        ("Super Banana", "male", {"X Banana/Y Banana": 1}),
        ("male maker Banana", "male", {"X +/Y Banana": 1}),
        ("Banana (male-maker)", "male", {"X +/Y Banana": 1}),
        ("female maker Banana", "male", {"X Banana/Y +": 1}),
        ("Banana on Y", "male", {"X +/Y Banana": 1}),
        ("Banana on X", "male", {"X Banana/Y +": 1}),
        ("Banana on X", "female", {"X +/X Banana": 1}),
        ("Banana on X", None, {"X +/X Banana": HALF, "X Banana/Y +": HALF}),
        ("male maker Banana", None, {"X +/Y Banana": 1}),
        ("female maker Banana", None, {"X Banana/Y +": 1}),
        ("Banana on Y", None, {"X +/Y Banana": 1}),
        ("93% female maker Banana", "male", {"X Banana/Y +": F(93, 100), "X +/Y Banana": F(7, 100)}),
        ("Banana 93% on X", "male", {"X Banana/Y +": F(93, 100), "X +/Y Banana": F(7, 100)}),
        ("50% Banana on X", "male", {"X Banana/Y +": HALF, "X +/Y +": HALF}),
        (
            "50% Banana",
            None,
            {
                "X +/X +": QUARTER,
                "X +/X Banana": QUARTER,
                "X +/Y +": QUARTER,
                "X Banana/Y +": F(1, 8),
                "X +/Y Banana": F(1, 8),
            },
        ),
        ("50% Super Banana", "male", {"X Banana/Y Banana": HALF, "X Banana/Y +": QUARTER, "X +/Y Banana": QUARTER}),
        ("50% Super Banana male maker", "male", {"X Banana/Y Banana": HALF, "X +/Y Banana": HALF}),
    ],
)
def test_sex_pair(catalogue: Catalogue, text: str, sex: str | None, expected: dict[str, Fraction]) -> None:
    assert sex_pair(read_genes(text, sex=sex, catalogue=catalogue)) == expected


@pytest.mark.parametrize(
    ("text", "sex", "notices"),
    [
        ("Banana", "female", []),
        ("Banana", None, []),
        ("Super Banana", "male", []),
        ("male maker Banana", "male", []),
        (
            "Banana",
            "male",
            [
                'Banana in a male may lie on X or Y, taken as equally likely; write "female maker" or '
                '"male maker" if it is known'
            ],
        ),
        ("male maker Banana", None, ["the genes fit a male alone, so the animal is read as a male"]),
    ],
)
def test_sex_pair__notices(catalogue: Catalogue, text: str, sex: str | None, notices: list[str]) -> None:
    assert list(read_genes(text, sex=sex, catalogue=catalogue).notices) == notices


@pytest.mark.parametrize(
    ("text", "sex", "words"),
    [
        (
            "male maker Banana",
            "female",
            '"male maker" said of Banana in a female; needed a male, the sex with both X and Y',
        ),
        ("female maker Banana", "female", '"female maker" said of Banana in a female'),
        ("Banana on Y", "female", '"on Y" said of Banana in a female'),
        (
            "Super Banana male maker",
            "male",
            '"male maker" said of two copies of Banana; needed one copy: two lie on both',
        ),
        ("Super Banana male maker", None, '"male maker" said of'),
        ("Super Banana on X", "female", '"on X" said of two copies of Banana'),
        ("Banana on X on X", None, "places of Banana and Banana that clash"),
        ("male maker Banana on X", "male", "places of Banana and Banana that clash; needed one place for a gene"),
    ],
)
def test_sex_pair__places_that_cannot_be(catalogue: Catalogue, text: str, sex: str | None, words: str) -> None:
    with pytest.raises(ImpossibleGenes) as caught:
        read_genes(text, sex=sex, catalogue=catalogue)
    assert words in str(caught.value)


def test_sex__is_one_of_two_or_unknown(catalogue: Catalogue) -> None:
    assert read_genes("Pastel", "female", catalogue).sex == "female"
    assert read_genes("Pastel", "male", catalogue).sex == "male"
    assert read_genes("Pastel", None, catalogue).sex is None
    with pytest.raises(ValueError, match='found the sex "dam"; needed female, male or None'):
        read_genes("Pastel", "dam", catalogue)


@pytest.mark.parametrize(
    ("text", "sex", "expected"),
    [
        ("Dusk", "female", {"W -/Z Dusk": 1}),
        ("Dusk", "male", {"Z Dusk/Z Dusk": 1}),
        ("Dusk", None, {"W -/Z Dusk": HALF, "Z Dusk/Z Dusk": HALF}),
        ("Dusk on Z", "female", {"W -/Z Dusk": 1}),
        ("het Dusk", "male", {"Z +/Z Dusk": 1}),
        ("het Dusk", None, {"Z +/Z Dusk": 1}),
        ("66% het Dusk", None, {"Z +/Z Dusk": F(2, 3), "Z +/Z +": F(1, 3)}),
        ("25% visual Dusk", "female", {"W -/Z Dusk": QUARTER, "W -/Z +": F(3, 4)}),
    ],
)
def test_one_chromosome_alone(lizard: Catalogue, text: str, sex: str | None, expected: dict[str, Fraction]) -> None:
    assert sex_pair(read_genes(text, sex=sex, catalogue=lizard)) == expected


def test_one_chromosome_alone__sex_that_the_genes_imply(lizard: Catalogue) -> None:
    geno = read_genes("het Dusk", catalogue=lizard)
    assert geno.sex == "male"
    assert geno.notices == ("the genes fit a male alone, so the animal is read as a male",)


@pytest.mark.parametrize(
    ("text", "sex", "words"),
    [
        (
            "het Dusk",
            "female",
            "het Dusk in a female; needed at most one copy: a female has one Z, and the gene lies on "
            'it. To do: write "Dusk": one copy shows in a female',
        ),
        ("66% het Dusk", "female", "het Dusk in a female"),
        ("Dusk on W", "female", '"on W" said of Dusk; needed Z, the one chromosome that it can lie on'),
        ("Dusk on W", "male", '"on W" said of Dusk in a male; needed a female, the sex with both Z and W'),
    ],
)
def test_one_chromosome_alone__what_cannot_be(lizard: Catalogue, text: str, sex: str, words: str) -> None:
    with pytest.raises(ImpossibleGenes) as caught:
        read_genes(text, sex=sex, catalogue=lizard)
    assert words in str(caught.value)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Super Bronze Gill", "found Super Bronze Gill in a male; needed at most one copy: a male has one X"),
        ("33% Super Bronze Gill", "found Super Bronze Gill in a male"),
        ("Gill Bronze Gill", "found Gill and Bronze Gill in a male"),
        ("Bronze Gill 50% visual Gill", "Gill in a male"),
    ],
)
def test_one_chromosome_alone__has_room_for_one_allele(fish: Catalogue, text: str, words: str) -> None:
    assert read_genes(text, catalogue=fish).sex == "female"
    with pytest.raises(ImpossibleGenes) as caught:
        read_genes(text, sex="male", catalogue=fish)
    assert words in str(caught.value)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Fin Silver", {"X + Fin/Y - Silver": HALF, "X + Silver/Y - Fin": HALF}),
        ("Fin on X Silver", {"X + Fin/Y - Silver": 1}),
        ("male maker Fin Silver", {"X + Silver/Y - Fin": 1}),
        ("Fin on X Silver on Y", {"X + Fin/Y - Silver": 1}),
        ("Fin 75% on X Silver 75% on Y", {"X + Fin/Y - Silver": F(3, 4), "X + Silver/Y - Fin": QUARTER}),
        ("het Pale Fin on Y", {"X + +/Y - Pale Fin": 1}),
        ("66% het Pale Fin on Y", {"X + +/Y - Pale Fin": F(2, 3), "X + +/Y - +": F(1, 3)}),
        ("Pale Fin", {"X + Pale Fin/Y - Pale Fin": 1}),
        ("Gill Fin on Y", {"X Gill +/Y - Fin": 1}),
        ("Gill Fin", {"X Gill +/Y - Fin": HALF, "X Gill Fin/Y - +": HALF}),
    ],
)
def test_sex_pair__several_loci_and_alleles(fish: Catalogue, text: str, expected: dict[str, Fraction]) -> None:
    assert sex_pair(read_genes(text, sex="male", catalogue=fish)) == expected


def test_sex_pair__two_genes_on_one_chromosome_clash(fish: Catalogue) -> None:
    with pytest.raises(ImpossibleGenes, match="places of Fin and Silver that clash"):
        read_genes("Fin on X Silver on X", sex="male", catalogue=fish)


def test_sex_pair__both_chromosomes_of_a_female_are_alike(fish: Catalogue) -> None:
    expected = {"X + +/X Gill Fin": HALF, "X + Fin/X Gill +": HALF}
    assert sex_pair(read_genes("het Gill Fin", sex="female", catalogue=fish)) == expected


def linked(geno: Genotype) -> dict[str, Fraction]:
    part = geno.parts["tail + eye + scale"]
    return {"/".join("".join(a[:1] or "+" for a in one) for one in diplotype): p for diplotype, p in part.items()}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Tail", {"+++/T++": 1}),
        ("Super Tail", {"T++/T++": 1}),
        ("Tail het Eye", {"+++/TE+": HALF, "+E+/T++": HALF}),
        ("Super Tail het Eye", {"T++/TE+": 1}),
        ("Tail Eye", {"+E+/TE+": 1}),
        ("Tail Scale het Eye", {"+++/TES": QUARTER, "++S/TE+": QUARTER, "+E+/T+S": QUARTER, "+ES/T++": QUARTER}),
        ("Tail 50% het Eye", {"+++/T++": HALF, "+++/TE+": QUARTER, "+E+/T++": QUARTER}),
    ],
)
def test_linked_loci__each_phase_is_equally_likely(fish: Catalogue, text: str, expected: dict[str, Fraction]) -> None:
    assert linked(read_genes(text, catalogue=fish)) == expected
