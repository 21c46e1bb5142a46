"""The square of genes: what each cell says, in sign, shade and words."""

import re
from dataclasses import replace
from fractions import Fraction

from explorer.catalogue import load_catalogue
from explorer.looks.pairs import gene_pairs
from explorer.pictures.matrix import LEGEND, matrix_cells, matrix_in_words, pair_in_words

CATALOGUE = load_catalogue()
GENES = ("Pastel", "Banana", "Leopard", "Pinstripe", "Champagne", "Mojave", "Lesser", "Spider", "Piebald")
PAIRS = gene_pairs(GENES, CATALOGUE)
CELLS = matrix_cells(GENES, PAIRS)
INK = (0x1F, 0x29, 0x33)


def cell(one, two):
    return CELLS[GENES.index(one)][GENES.index(two)]


def luminance(shade):
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in (part / 255 for part in shade)]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def parts(shade):
    assert re.fullmatch(r"#[0-9a-f]{6}", shade)
    return tuple(int(shade[i : i + 2], 16) for i in (1, 3, 5))


def test_cells__a_square_that_mirrors_itself():
    for i in range(len(GENES)):
        assert CELLS[i][i] is None
        for j in range(i):
            assert CELLS[i][j] == CELLS[j][i] is not None


def test_cells__signs_by_the_net_strength():
    signs = {frozenset(pair.genes): cell(*pair.genes)["sign"] for pair in PAIRS.values()}
    for genes, pair in PAIRS.items():
        if pair.net is None:
            assert signs[genes] == "◇"
        elif pair.net:
            assert set(signs[genes]) == {"+" if pair.net > 0 else "−"}
            assert len(signs[genes]) == (2 if abs(pair.net) >= 4 else 1)
        else:
            assert signs[genes] == "·"
    assert signs[frozenset(("Leopard", "Pinstripe"))] == "+"
    assert signs[frozenset(("Pastel", "Banana"))] == "++"
    assert signs[frozenset(("Leopard", "Champagne"))] == "−−"
    assert signs[frozenset(("Mojave", "Lesser"))] == "◇"


def test_cells__covers_is_a_word():
    assert cell("Leopard", "Champagne")["word"] == "covers caution"
    assert cell("Leopard", "Pinstripe")["word"] == ""


def test_shades__help_is_bluer_and_spoiling_redder_the_stronger():
    def lean(one, two):
        red, _, blue = parts(cell(one, two)["shade"])
        return blue - red

    assert lean("Pastel", "Banana") > lean("Leopard", "Pinstripe") > 0
    assert lean("Banana", "Piebald") < lean("Pastel", "Piebald") < 0


def test_shades__signs_can_be_read_on_them():
    shades = {one["shade"] for row in CELLS for one in row if one} | {shade for _, shade, _ in LEGEND}
    for shade in shades:
        assert (luminance(parts(shade)) + 0.05) / (luminance(INK) + 0.05) >= 4.5


def test_pair_in_words():
    def said(*genes):
        return pair_in_words(PAIRS[frozenset(genes)])

    assert said("Leopard", "Pinstripe") == "Leopard and Pinstripe: they help each other, net strength +3"
    assert said("Leopard", "Champagne") == (
        "Leopard and Champagne: they spoil each other, net strength −4; Champagne covers part of what is seen; "
        "caution: Champagne: wobble, milder than Spider's: reported, frequency unknown [anecdotal, widely repeated]"
    )
    assert said("Mojave", "Lesser") == "Mojave and Lesser: one complex, they make one form together"
    assert PAIRS[frozenset(("Champagne", "Piebald"))].net == Fraction(0)
    assert "neither help nor spoil" in said("Champagne", "Piebald")
    assert cell("Leopard", "Pinstripe")["title"] == said("Leopard", "Pinstripe")


def test_matrix_in_words__the_strongest_first():
    text = matrix_in_words(GENES, PAIRS)
    assert text.startswith("help each other: Pastel and Banana (+10.25), ")
    assert "spoil each other: Banana and Piebald (−4.5), " in text
    assert "make one form: Mojave and Lesser" in text
    assert "Champagne in Leopard Champagne" in text
    assert matrix_in_words(["Leopard"], PAIRS) == "no two of these genes help or spoil each other"


def test_cells__what_is_not_known_or_does_not_live_says_so():
    bare = replace(CATALOGUE, effects=())
    pair = gene_pairs(("Leopard", "Pastel"), bare)
    assert matrix_cells(("Leopard", "Pastel"), pair)[0][1]["sign"] == "?"
    assert "not established" in pair_in_words(pair[frozenset(("Leopard", "Pastel"))])
    deadly = replace(CATALOGUE, compounds=tuple(replace(one, viable=False) for one in CATALOGUE.compounds))
    pair = gene_pairs(("Mojave", "Lesser"), deadly)
    assert matrix_cells(("Mojave", "Lesser"), pair)[0][1]["sign"] == "†"
    assert pair_in_words(pair[frozenset(("Mojave", "Lesser"))]).endswith("recorded as not viable together")
