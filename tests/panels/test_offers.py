"""From the nearest name to a corrected text."""

import pytest

from explorer.notation import GenesError, read_genes
from explorer.panels.offers import offers


@pytest.mark.parametrize(
    "text, found, name, corrected",
    [
        ("Pastell", '"Pastell"', "Pastel", "Pastel"),
        ("Super Pastell het Clown", '"Pastell"', "Pastel", "Super Pastel het Clown"),
        ("Leopard, Desrt Ghost", '"Desrt"', "Desert Ghost", "Leopard, Desert Ghost"),
        ("Desert Gost Leopard", '"Gost"', "Desert Ghost", "Desert Ghost Leopard"),
        ("Yelowbelly Clown", '"Yelowbelly"', "Yellow Belly", "Yellow Belly Clown"),
        ("Bananna het Desrt Ghost", '"Bananna", "Desrt"', "Desert Ghost", "Bananna het Desert Ghost"),
        ("Bananna het Desrt Ghost", '"Bananna", "Desrt"', "Banana", "Banana het Desrt Ghost"),
        ("M2", "M2 is not in this file", "M02", "M02"),
    ],
)
def test_offers__replace_what_was_wrong_and_nothing_else(text: str, found: str, name: str, corrected: str) -> None:
    (offer,) = offers(text, found, [name])
    assert (offer.name, offer.text) == (name, corrected)


@pytest.mark.parametrize("text", ["Pastell", "Leopard Desrt Ghost", "Desert Gost", "Super Pasel, Clown"])
def test_offers__the_first_of_them_can_be_read(text: str) -> None:
    with pytest.raises(GenesError) as raised:
        read_genes(text)
    read_genes(offers(text, raised.value.found, raised.value.nearest)[0].text)
