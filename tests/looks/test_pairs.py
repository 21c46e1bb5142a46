"""Genes two by two: the net strength is that of the pair's own stack, and says nothing where nothing is known."""

from fractions import Fraction

import pytest

from explorer.catalogue import Effect, Evidence, Part, UnknownName, load_catalogue
from explorer.looks import stack_of
from explorer.looks.pairs import gene_pairs, pair_look

CATALOGUE = load_catalogue()
GENES = ("Leopard", "Pinstripe", "Clown", "Champagne", "Mojave", "Lesser", "Cryptic", "Piebald")
PAIRS = gene_pairs(GENES, CATALOGUE)


def pair(*genes):
    return PAIRS[frozenset(genes)]


def test_gene_pairs__each_two_once():
    assert len(PAIRS) == len(GENES) * (len(GENES) - 1) // 2
    assert gene_pairs(["Leopard", "Leopard"], CATALOGUE) == {}
    assert pair("Clown", "Leopard").genes == ("Leopard", "Clown")


@pytest.mark.parametrize("genes", [("Leopard", "Pinstripe"), ("Leopard", "Champagne"), ("Clown", "Champagne")])
def test_net__helps_less_clashes_of_the_pair(genes):
    stack = stack_of(pair_look(*genes, CATALOGUE), catalogue=CATALOGUE)
    net = sum(v.strength for v in stack.helps) - sum(v.strength for v in stack.clashes)
    assert stack.helps or stack.clashes
    assert pair(*genes).net == net


def test_net__by_hand():
    """Leopard and Pinstripe: pattern -1 and -2, brightness 1 and 1; both wishes count once."""
    assert pair("Leopard", "Pinstripe").net == Fraction(2 + 1)


def test_net__follows_the_taste():
    turned = gene_pairs(GENES, CATALOGUE, taste={"reduced pattern": -1})[frozenset(("Leopard", "Pinstripe"))]
    assert turned.net == 0
    with pytest.raises(ValueError, match="no wish"):
        gene_pairs(GENES, CATALOGUE, taste={"shine": 1})


def test_net__follows_opinions():
    dull = Effect((Part("Leopard", 1),), {"brightness": -2}, Evidence("trade opinion"), by="Rowan")
    seen = gene_pairs(GENES, CATALOGUE, opinions=[dull])[frozenset(("Leopard", "Pinstripe"))]
    assert seen.net == Fraction(2 - 2)
    assert [verdict.by for verdict in seen.stack.clashes] == ["Rowan"]


def test_pair_look__as_each_shows():
    assert pair_look("Clown", "Leopard", CATALOGUE) == {"Leopard": 1, "Clown": 2}
    assert pair_look("Clown", "Cryptic", CATALOGUE) == {"Clown": 1, "Cryptic": 1}
    assert pair_look("Pied", "coral glow", CATALOGUE) == {"Banana": 1, "Piebald": 2}
    with pytest.raises(UnknownName):
        pair_look("Leopart", "Clown", CATALOGUE)


def test_compound__one_form_and_no_number():
    for genes in (("Mojave", "Lesser"), ("Clown", "Cryptic")):
        assert pair(*genes).compound
        assert pair(*genes).net is None
        assert pair(*genes).viable
    assert not pair("Mojave", "Clown").compound


def test_over__the_form_that_covers():
    assert pair("Champagne", "Leopard").over == ("Champagne",)
    assert pair("Champagne", "Piebald").over == ("Champagne", "Piebald")
    assert pair("Leopard", "Pinstripe").over == ()
