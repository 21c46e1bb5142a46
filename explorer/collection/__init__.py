"""Whose animals: the collection file, read and written with care, and what each animal may carry."""

from .animals import Animal, Collection, read_collection
from .findings import CollectionError, Finding, SaveRefused
from .knowledge import Knowledge
from .sheet import COLUMNS, for_spreadsheet

__all__ = [
    "COLUMNS",
    "Animal",
    "Collection",
    "CollectionError",
    "Finding",
    "Knowledge",
    "SaveRefused",
    "for_spreadsheet",
    "read_collection",
]
