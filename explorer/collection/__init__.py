"""Whose animals: the collection file, read and written with care, and what each animal may carry."""

from .animals import Animal, Collection, read_collection
from .clutch import Clutch, Hatchlings
from .clutch_book import ClutchBook, read_clutches
from .findings import CollectionError, Finding, SaveRefused
from .kin_words import Relation, kin_sentence, relation
from .knowledge import Knowledge
from .preferences import (
    opinion,
    opinions_file,
    read_opinions,
    read_taste,
    save_opinions,
    save_taste,
    taste_file,
)
from .sheet import COLUMNS, for_spreadsheet

__all__ = [
    "COLUMNS",
    "Animal",
    "Clutch",
    "ClutchBook",
    "Collection",
    "CollectionError",
    "Finding",
    "Hatchlings",
    "Knowledge",
    "Relation",
    "SaveRefused",
    "for_spreadsheet",
    "kin_sentence",
    "opinion",
    "opinions_file",
    "read_clutches",
    "read_collection",
    "read_opinions",
    "read_taste",
    "relation",
    "save_opinions",
    "save_taste",
    "taste_file",
]
