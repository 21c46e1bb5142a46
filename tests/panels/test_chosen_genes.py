"""Genes set side by side: what no animal can be is refused in words, and nothing is lost by it."""

from datetime import date

import pytest

from explorer.catalogue import load_catalogue
from explorer.collection import Collection
from explorer.panels.chosen_genes import MOST_GENES, ChosenGenes
from explorer.panels.desk import Desk

CATALOGUE = load_catalogue()
ROWS = (
    "F1,Juniper,f,Leopard het Desert Ghost",
    "F2,Sedge,f,66% het Clown",
    "F3,Moth,f,Super Pastel Clown",
    "M1,Larch,m,Pastel Leopard Pinstripe Enchi Fire Vanilla het Clown",
)


@pytest.fixture
def genes():
    desk = Desk("animals.csv", date(2026, 11, 25), CATALOGUE)
    desk.animals = Collection.from_text("id,name,sex,genes\n" + "\n".join(ROWS) + "\n", CATALOGUE)
    return ChosenGenes(desk)


def test_choose__by_any_name(genes):
    for text, look in (("dg", {"Desert Ghost": 2}), ("Coral Glow", {"Banana": 1}), ("super pastel", {"Pastel": 2})):
        assert genes.choose(text) == ()
        assert genes.look == look


def test_choose__a_nickname_or_several_genes(genes):
    assert genes.choose("Killer Clown") == ()
    assert genes.look == {"Pastel": 2, "Clown": 2}
    assert genes.choose("Desert, Ghost") == ()
    assert genes.look == {"Desert": 1, "Ghost": 2}


def test_choose__a_slip_is_offered_the_nearest(genes):
    (problem,) = genes.choose("Leopart")
    assert 'Found "Leopart"' in problem.text
    assert problem.offers[0].text == "Leopard"
    assert genes.look == {"Leopard": 1}
    assert "names no gene" in genes.choose("Normal")[0].text
    assert "het" in genes.choose("het Clown")[0].text


def test_add__in_the_order_of_choice(genes):
    for text in ("Clown", "Pastel"):
        assert genes.add(text) == ()
    assert list(genes.look.items()) == [("Leopard", 1), ("Clown", 2), ("Pastel", 1)]


def test_add__what_is_there_already(genes):
    (problem,) = genes.add("Leopard")
    assert problem.text.startswith("Leopard is there already.")


def test_add__a_complex_that_is_full(genes):
    genes.choose("Mojave")
    assert genes.add("Lesser") == ()
    (problem,) = genes.add("White Diamond")
    assert problem.text.startswith("Nothing was changed. Found more than two alleles of one complex")
    assert genes.look == {"Mojave": 1, "Lesser": 1}


def test_add__two_alleles_count_one_each_and_two_again_alone(genes):
    genes.choose("Clown")
    assert genes.add("Cryptic") == ()
    assert genes.look == {"Clown": 1, "Cryptic": 1}
    genes.take_out("Cryptic")
    assert genes.look == {"Clown": 2}


def test_add__no_more_than_five(genes):
    for text in ("Pastel", "Enchi", "Fire", "Clown"):
        assert genes.add(text) == ()
    assert len(genes.look) == MOST_GENES
    (problem,) = genes.add("Vanilla")
    assert problem.text.startswith("At most 5 genes")


def test_copies__offered_where_they_can_be_told_apart(genes):
    offered = {}
    for text in ("Leopard", "Pinstripe", "Clown", "Spider", "Calico", "Daddy"):
        genes.choose(text)
        offered[text] = genes.offers_copies(text)
    assert offered == {
        **dict.fromkeys(("Leopard", "Daddy"), True),
        **dict.fromkeys(("Pinstripe", "Clown", "Spider", "Calico"), False),
    }
    genes.choose("Mojave")
    assert genes.offers_copies("Mojave")
    genes.add("Lesser")
    assert not genes.offers_copies("Mojave")
    (problem,) = genes.set_copies("Mojave", 2)
    assert "two copies of Mojave, Lesser" in problem.text
    assert genes.look == {"Mojave": 1, "Lesser": 1}


def test_add_suggested__as_it_shows_or_its_second_copy(genes):
    assert genes.add_suggested("Clown") == ()
    assert genes.add_suggested("Leopard") == ()
    assert genes.look == {"Leopard": 2, "Clown": 2}


def test_take_out__the_last_one_stays(genes):
    genes.add("Clown")
    genes.take_out("Leopard")
    genes.take_out("Clown")
    assert genes.look == {"Clown": 2}


def test_start_from__what_shows_and_hets_are_left_out_by_name(genes):
    genes.start_from("F1")
    assert genes.look == {"Leopard": 1}
    assert genes.said == ("F1 Juniper is Leopard het Desert Ghost; left out, since it does not show: Desert Ghost.")
    genes.start_from("F3")
    assert genes.look == {"Pastel": 2, "Clown": 2}
    assert genes.said == "F3 Moth is Super Pastel Clown."


def test_start_from__nothing_shows(genes):
    genes.start_from("F2")
    assert genes.look == {"Leopard": 1}
    assert "left out, since it does not show: Clown; nothing of it shows" in genes.said
    genes.add("Pastel")
    assert genes.said == ""


def test_start_from__at_most_five(genes):
    genes.start_from("M1")
    assert len(genes.look) == MOST_GENES
    assert "at most 5 genes are set side by side: " in genes.said
