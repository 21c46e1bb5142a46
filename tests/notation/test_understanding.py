"""What the words of a text say of each gene."""

from __future__ import annotations

from fractions import Fraction

import pytest

from explorer.catalogue import Catalogue
from explorer.notation import AmbiguousGenes, ImpossibleGenes, UnreadableGenes
from explorer.notation.understanding import understand

F = Fraction


def claims(text: str, catalogue: Catalogue) -> list[tuple[str, str, Fraction]]:
    return [(claim.gene.name, claim.state, claim.chance) for claim in understand(text, catalogue).claims]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Pastel", [("Pastel", "shows", 1)]),
        ("Clown", [("Clown", "shows", 1)]),
        ("visual Clown", [("Clown", "shows", 1)]),
        ("Super Pastel", [("Pastel", "super", 1)]),
        ("het Clown", [("Clown", "het", 1)]),
        ("100% het Clown", [("Clown", "het", 1)]),
        ("66% het Clown", [("Clown", "het", F(2, 3))]),
        ("66% possible het Clown", [("Clown", "het", F(2, 3))]),
        ("possible 66% het Clown", [("Clown", "het", F(2, 3))]),
        ("66% ph Clown", [("Clown", "het", F(2, 3))]),
        ("50% het DG Clown", [("Desert Ghost", "het", F(1, 2)), ("Clown", "het", F(1, 2))]),
        ("het DG 66% het Clown", [("Desert Ghost", "het", 1), ("Clown", "het", F(2, 3))]),
        ("het DG Pastel Clown", [("Desert Ghost", "het", 1), ("Pastel", "shows", 1), ("Clown", "het", 1)]),
        ("het DG Super Pastel Clown", [("Desert Ghost", "het", 1), ("Pastel", "super", 1), ("Clown", "het", 1)]),
        ("het DG visual Clown", [("Desert Ghost", "het", 1), ("Clown", "shows", 1)]),
        ("double het DG Clown", [("Desert Ghost", "het", 1), ("Clown", "het", 1)]),
        ("66% dh DG Clown", [("Desert Ghost", "het", F(2, 3)), ("Clown", "het", F(2, 3))]),
        ("33% Super Pinstripe", [("Pinstripe", "super", F(1, 3))]),
        ("50% Leopard", [("Leopard", "shows", F(1, 2))]),
        ("25% visual Clown", [("Clown", "shows", F(1, 4))]),
        ("Normal", []),
        ("Bumblebee", [("Pastel", "shows", 1), ("Spider", "shows", 1)]),
        ("het Dreamsicle", [("Piebald", "het", 1), ("Lavender Albino", "het", 1)]),
        ("double het Dreamsicle", [("Piebald", "het", 1), ("Lavender Albino", "het", 1)]),
        ("het Clown Bumblebee", [("Clown", "het", 1), ("Pastel", "shows", 1), ("Spider", "shows", 1)]),
    ],
)
def test_understand(catalogue: Catalogue, text: str, expected: list[tuple[str, str, Fraction]]) -> None:
    assert claims(text, catalogue) == expected


@pytest.mark.parametrize(
    ("text", "notice"),
    [
        ("possible het Clown", '"possible het" gives no percentage, and is read as 50%'),
        ("ph Clown", '"ph" gives no percentage, and is read as 50%'),
        ("possible Super Leopard", '"possible Super" gives no percentage, and is read as 50%'),
        ("possible Leopard", '"possible Leopard" gives no percentage, and is read as 50%'),
        ("Super Clown", "Super Clown is read as Clown: a recessive gene shows in two copies"),
        ("het Pastel", '"het Pastel" is read as one copy of Pastel: it is not recessive, so it shows'),
        (
            "66% het Pastel",
            '"66% het Pastel" is read as one copy of Pastel with a chance of 66%: it is not recessive, so it shows',
        ),
        ("Bumblebee", '"Bumblebee" is read as Pastel Spider'),
        ("Ivory", '"Ivory" is read as Super Yellow Belly'),
        ("double het Clown DG Piebald", '"double het" is read as covering all 3 genes after it'),
    ],
)
def test_understand__says_what_the_words_do_not_settle(catalogue: Catalogue, text: str, notice: str) -> None:
    assert understand(text, catalogue).notices == [notice]


@pytest.mark.parametrize(
    "text",
    ["Super Pastel", "66% possible het Clown", "66% het Clown", "50% Leopard", "Normal", "Coral Glow", "dh DG Pied"],
)
def test_understand__has_nothing_to_say_of_plain_words(catalogue: Catalogue, text: str) -> None:
    assert understand(text, catalogue).notices == []


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("het", 'found nothing after "het"; needed the name of a gene after it'),
        ("Pastel het", 'found nothing after "het"'),
        ("66%", 'found nothing after "66%"; needed het or the name of a gene after it'),
        ("Pastel possible", 'found nothing after "possible"'),
        ("Super", 'found nothing after "Super"'),
        ("visual", 'found nothing after "visual"'),
        ("het het Clown", '"het" before "het"; needed the name of a gene right after it'),
        ("het Super Pastel", '"het" before "Super"'),
        ("het visual Clown", '"het" before "visual"'),
        ("het 50% Leopard", '"het" before "Leopard"'),
        ("het Normal", '"het" before "Normal"'),
        ("66% 50% het Clown", '"50%" after "66%"'),
        ("double triple het Clown", '"triple" after "double"'),
        ("50% Normal", '"50%" before "Normal"'),
        ("double Pastel", '"double" before "Pastel"; needed het after it'),
        ("double het Clown", '"double het" before 1 recessive gene; needed 2 recessive genes'),
        ("dh Clown Leopard", '"dh" before 1 recessive gene; needed 2 recessive genes'),
        ("triple het DG Clown, het Piebald", '"triple het" before 2 recessive genes; needed 3 recessive genes'),
        ("Super Ivory", '"Ivory" after "Super"; needed the name of one gene after it. To do: write the genes of the'),
        ("Super het Clown", '"het" after "Super"'),
        ("50% Bumblebee", '"50%" before the nickname "Bumblebee"'),
        ("het Bumblebee", 'the nickname "Bumblebee" after "het"'),
        ("het Piebald Killer Clown", 'the nickname "Killer Clown" after "het"'),
        ("male maker", '"male maker" without a gene'),
        ("on Y", '"on Y" without a gene'),
    ],
)
def test_understand__words_in_an_order_without_meaning(catalogue: Catalogue, text: str, words: str) -> None:
    with pytest.raises(UnreadableGenes) as caught:
        understand(text, catalogue)
    assert words in str(caught.value)


@pytest.mark.parametrize("text", ["50% Clown", "66% DG", "possible Clown", "100% Clown"])
def test_understand__a_figure_on_a_recessive_gene_has_two_meanings(catalogue: Catalogue, text: str) -> None:
    with pytest.raises(AmbiguousGenes, match="needed one meaning: that it may carry one copy") as caught:
        understand(text, catalogue)
    carries, shows = caught.value.nearest
    assert " het " in carries
    assert " visual " in shows


@pytest.mark.parametrize("text", ["Pastel male maker", "male maker Pastel", "Pastel on X", "Bumblebee (female maker)"])
def test_understand__a_place_is_said_of_genes_on_the_sex_pair(catalogue: Catalogue, text: str) -> None:
    with pytest.raises(ImpossibleGenes, match="needed a gene on the sex chromosomes"):
        understand(text, catalogue)


@pytest.mark.parametrize(
    ("text", "second", "maker"),
    [
        ("male maker Banana", 1, True),
        ("Banana male maker", 1, True),
        ("Banana (male-maker) Pastel", 1, True),
        ("Pastel, male maker Banana", 1, True),
        ("female maker Coral Glow", 0, True),
        ("93% female maker Banana", F(7, 100), True),
        ("Banana on X", 0, False),
        ("Banana 93% on Y", F(93, 100), False),
    ],
)
def test_understand__which_sex_chromosome(catalogue: Catalogue, text: str, second: Fraction, maker: bool) -> None:
    (side,) = understand(text, catalogue).sides
    assert (side.gene.name, side.second, side.maker) == ("Banana", second, maker)
    assert ("Banana", "shows", 1) in claims(text, catalogue)
