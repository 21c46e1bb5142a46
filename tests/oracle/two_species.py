"""Some chromosomes of the two catalogues, written out by hand: what brute force goes by, and what founders may have."""

from fractions import Fraction
from functools import cache
from pathlib import Path

from explorer.catalogue import load_catalogue, load_species
from tests.oracle.pedigree_brute_force import Species

SECOND = Path(__file__).parents[1] / "catalogue" / "second_species"


def chromosome(*loci, genes, rates=(), sex=False, hemi=()):
    return {"loci": list(loci), "rates": list(rates), "sex": sex, "hemi": set(hemi), "genes": genes}


PYTHON = {
    "sex": chromosome("banana", genes=["Banana"], rates=[Fraction(7, 100)], sex=True),
    "pastel": chromosome("pastel", genes=["Pastel"]),
    "pinstripe": chromosome("pinstripe", genes=["Pinstripe"]),
    "spider/blackhead": chromosome("spider/blackhead", genes=["Spider", "Blackhead"]),
    "clown": chromosome("clown", genes=["Clown", "Cryptic"]),
    "albino": chromosome("albino", genes=["Candy", "Toffee", "Albino"]),
    "blue-eyed leucistic": chromosome("blue-eyed leucistic", genes=["Mojave", "Lesser"]),
}
LIZARD = {
    "sex": chromosome("dusk", genes=["Dusk"], rates=[Fraction(1, 2)], sex=True, hemi=["dusk"]),
    "ink + wash": chromosome("ink", "wash", genes=["Ink", "Wash"], rates=[Fraction(1, 5)]),
    "paper": chromosome("paper", genes=["Cream", "Rag"]),
}
RECESSIVE = {"Clown", "Candy", "Toffee", "Albino", "Dusk", "Wash"}
LETHAL = {"spider/blackhead": {("Spider", "Spider")}, "ink": {("Ink", "Ink")}, "paper": {("Cream", "Rag")}}

SEXES = {
    "python": ({"female": ("X", "X"), "male": ("X", "Y")}, "Y"),
    "lizard": ({"female": ("W", "Z"), "male": ("Z", "Z")}, "W"),
}
"""The two sex chromosomes of each sex, and the one that is alone."""

LABELS = {
    "Banana": ["", "Banana", "Super Banana"],
    "Pastel": ["", "Pastel", "Super Pastel"],
    "Pinstripe": ["", "Pinstripe"],
    "Spider": ["", "Spider", "Blackhead", "Spider Blackhead"],
    "Clown": ["", "het Clown", "66% het Clown", "50% het Clown", "Clown", "Cryptic", "Clown Cryptic"],
    "Candy": ["", "het Albino", "50% het Candy", "66% het Toffee", "Candy Albino", "Albino", "Toffee"],
    "Mojave": ["", "Mojave", "Lesser", "Mojave Lesser", "Super Mojave"],
    "Ink": ["", "Ink", "het Wash", "66% het Wash", "Ink het Wash", "Wash", "Ink 50% het Wash"],
    "Cream": ["", "Cream", "Rag", "Super Cream"],
}
"""First gene of a chromosome -> what a founder may be said to have there."""


@cache
def catalogue_of(kind):
    return load_catalogue() if kind == "python" else load_species(SECOND)


def species_of(kind, names):
    """The chromosomes that are in play, and the sex pair."""
    every = PYTHON if kind == "python" else LIZARD
    chosen = {name: every[name] for name in every if name in names or name == "sex"}
    pairs, odd = SEXES[kind]
    return Species(chosen, LETHAL, RECESSIVE, {"Pinstripe"}, pairs, odd)
