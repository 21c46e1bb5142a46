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
from .season_log import SeasonLog, read_season_log, season_file
from .season_log_events import EVENTS, Laying, SeasonEvent
from .season_log_pairings import Meeting, SeasonPairing
from .sheet import COLUMNS, for_spreadsheet
from .weight_history import Weighing
from .weights import Weights, read_weights, weighed, weights_file

__all__ = [
    "COLUMNS",
    "EVENTS",
    "Animal",
    "Clutch",
    "ClutchBook",
    "Collection",
    "CollectionError",
    "Finding",
    "Hatchlings",
    "Knowledge",
    "Laying",
    "Meeting",
    "Relation",
    "SaveRefused",
    "SeasonEvent",
    "SeasonLog",
    "SeasonPairing",
    "Weighing",
    "Weights",
    "for_spreadsheet",
    "kin_sentence",
    "opinion",
    "opinions_file",
    "read_clutches",
    "read_collection",
    "read_opinions",
    "read_season_log",
    "read_taste",
    "read_weights",
    "relation",
    "save_opinions",
    "save_taste",
    "season_file",
    "taste_file",
    "weighed",
    "weights_file",
]
