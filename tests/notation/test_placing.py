"""Which alleles an animal can have at one locus."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from explorer.catalogue import Catalogue
from explorer.genetics import Genotype
from explorer.notation import ImpossibleGenes, read_genes

F = Fraction
Alleles = Callable[[Genotype, str], dict[str, Fraction]]


@pytest.mark.parametrize(
    ("text", "gene", "expected"),
    [
        ("Normal", "Clown", {"+ +": 1}),
        ("Clown", "Clown", {"Clown Clown": 1}),
        ("het Clown", "Clown", {"+ Clown": 1}),
        ("66% het Clown", "Clown", {"+ Clown": F(2, 3), "+ +": F(1, 3)}),
        ("25% visual Clown 50% het Clown", "Clown", {"Clown Clown": F(1, 4), "+ Clown": F(1, 2), "+ +": F(1, 4)}),
        ("Pastel", "Pastel", {"+ Pastel": 1}),
        ("Super Pastel", "Pastel", {"Pastel Pastel": 1}),
        ("33% Super Pinstripe", "Pinstripe", {"Pinstripe Pinstripe": F(1, 3), "+ Pinstripe": F(2, 3)}),
        ("Pinstripe 33% Super Pinstripe", "Pinstripe", {"Pinstripe Pinstripe": F(1, 3), "+ Pinstripe": F(2, 3)}),
        (
            "75% Leopard 25% Super Leopard",
            "Leopard",
            {"Leopard Leopard": F(1, 4), "+ Leopard": F(1, 2), "+ +": F(1, 4)},
        ),
        ("Mojave/Lesser", "Mojave", {"Lesser Mojave": 1}),
        ("Candy Albino", "Albino", {"Albino Candy": 1}),
        ("Albino Candy", "Albino", {"Albino Candy": 1}),
        ("het Candy het Albino", "Albino", {"Albino Candy": 1}),
        ("het Candy Albino", "Albino", {"Albino Candy": 1}),
        ("Clown Cryptic", "Clown", {"Clown Cryptic": 1}),
        ("Cryptic het Clown", "Clown", {"Clown Cryptic": 1}),
        ("Candino", "Albino", {"Albino Candy": 1}),
        ("66% het Albino 33% het Candy", "Albino", {"+ Albino": F(2, 3), "+ Candy": F(1, 3)}),
        ("50% het Albino 25% het Candy", "Albino", {"+ Albino": F(1, 2), "+ Candy": F(1, 4), "+ +": F(1, 4)}),
        ("Mojave 50% Lesser", "Mojave", {"Lesser Mojave": F(1, 2), "+ Mojave": F(1, 2)}),
        ("Cryptic 50% visual Clown", "Clown", {"Clown Cryptic": F(1, 2), "+ Cryptic": F(1, 2)}),
        ("50% Mojave 25% Lesser", "Mojave", {"+ Mojave": F(1, 2), "+ Lesser": F(1, 4), "+ +": F(1, 4)}),
        (
            "Mojave 50% Lesser 25% Super Mojave",
            "Mojave",
            {"Lesser Mojave": F(1, 2), "Mojave Mojave": F(1, 4), "+ Mojave": F(1, 4)},
        ),
    ],
)
def test_alleles(catalogue: Catalogue, alleles: Alleles, text: str, gene: str, expected: dict[str, Fraction]) -> None:
    assert alleles(read_genes(text, catalogue=catalogue), gene) == expected


@pytest.mark.parametrize("text", ["het Candy het Albino", "het Albino Candy", "Cryptic het Clown"])
def test_carriers_of_two_alleles__are_read_as_visible_with_a_notice(catalogue: Catalogue, text: str) -> None:
    (notice,) = read_genes(text, catalogue=catalogue).notices
    assert "these are two alleles of one complex, so the animal shows" in notice


THREE = "found more than two alleles of one complex"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            "Albino het Candy",
            f"{THREE} (albino): Candy, two copies of Albino; needed at most two. To do: write "
            '"Candy Albino" if it has one copy of each, which shows',
        ),
        ("Albino 66% het Candy", f"{THREE} (albino): two copies of Albino, Candy"),
        (
            "Mojave Lesser Butter",
            f"{THREE} (blue-eyed leucistic): Mojave, Lesser, Butter; needed at most two. To do: "
            "name at most two of them",
        ),
        ("Super Mojave Lesser", f"{THREE} (blue-eyed leucistic): two copies of Mojave, Lesser"),
        ("Super Mojave 50% Lesser", f"{THREE} (blue-eyed leucistic): two copies of Mojave, Lesser"),
        ("Mojave 25% Super Lesser", f"{THREE} (blue-eyed leucistic): Mojave, two copies of Lesser"),
        ("Mojave 50% Lesser 25% Super Lesser", f"{THREE} (blue-eyed leucistic): Mojave, two copies of Lesser"),
        ("Mojave Lesser 50% Butter", f"{THREE} (blue-eyed leucistic): Mojave, Lesser, Butter"),
        ("Candy Albino het Toffee", f"{THREE} (albino): Candy, Toffee, Albino"),
        ("het Candy het Albino het Toffee", f"{THREE} (albino): Candy, Toffee, Albino"),
        ("Clown Cryptic 50% het Clown", "Clown as het and as visible"),
        ("66% het Albino 50% het Candy", "percentages of one complex that sum to over 100%"),
        (
            "het Albino 50% het Candy",
            "percentages of one complex that sum to over 100%: 50% het Candy, 100% het Albino",
        ),
        ("66% Mojave 50% Lesser", "percentages of one complex that sum to over 100%: 66% Mojave, 50% Lesser"),
        (
            "Cryptic 66% het Clown",
            "no hidden Clown: it is of one complex with Cryptic, and an animal with both would "
            'show it. To do: write "Clown Cryptic" if it shows both, else "Cryptic"',
        ),
        ("Pastel Pastel", 'found Pastel named twice; needed each gene once. To do: write "Super Pastel" if it has two'),
        ("Pastel Bumblebee", "found Pastel named twice"),
        ("Super Pastel Pastel", "found Pastel named twice"),
        ("Pastel Super Pastel", "found Pastel named twice"),
        ("Super Pastel Super Pastel", "found Pastel named twice"),
        ("Clown Clown", 'found Clown named twice; needed each gene once. To do: write "Clown" if it has two copies'),
        ("het Clown Clown", 'To do: write "het Clown" once'),
        ("het Clown 66% het Clown", "found Clown named twice"),
        ("50% Leopard 25% Leopard", "found Leopard named twice"),
        (
            "Clown het Clown",
            "found Clown as het and as visible; needed one of the two: a gene that shows has two copies",
        ),
        ("Clown 50% het Clown", "found Clown as het and as visible"),
        ("het Clown 25% visual Clown", "found Clown as het and as visible"),
        ("25% Leopard 50% Super Leopard", "found Leopard less likely than two copies of it"),
        ("75% visual Clown 50% het Clown", "percentages of one complex that sum to over 100%"),
    ],
)
def test_alleles__that_no_animal_has(catalogue: Catalogue, text: str, words: str) -> None:
    with pytest.raises(ImpossibleGenes) as caught:
        read_genes(text, catalogue=catalogue)
    assert words in str(caught.value)
