"""What is known: frozen entries read from TOML facts, and look-up by name. Computes nothing."""

from .drafts import Finding
from .entries import (
    AmbiguousWord,
    Caution,
    Compound,
    Evidence,
    Figure,
    Gene,
    Linkage,
    LocusEntry,
    Nickname,
    Part,
    Sex,
    Source,
    Species,
)
from .lookup import Catalogue, UnknownName, normal
from .reading import CatalogueError, load_catalogue, load_species

__all__ = [
    "AmbiguousWord",
    "Catalogue",
    "CatalogueError",
    "Caution",
    "Compound",
    "Evidence",
    "Figure",
    "Finding",
    "Gene",
    "Linkage",
    "LocusEntry",
    "Nickname",
    "Part",
    "Sex",
    "Source",
    "Species",
    "UnknownName",
    "load_catalogue",
    "load_species",
    "normal",
]
