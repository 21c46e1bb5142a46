"""What is known: frozen entries read from TOML facts, and look-up by name. Computes nothing."""

from .drafts import Finding
from .entries import (
    AmbiguousWord,
    Caution,
    Compound,
    Cue,
    Effect,
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
from .lookup import Catalogue, UnknownName, closest, normal
from .qualities import MEANINGS, QUALITIES, ZONES, Cover, Quality, Zone
from .reading import CatalogueError, load_catalogue, load_species

__all__ = [
    "MEANINGS",
    "QUALITIES",
    "ZONES",
    "AmbiguousWord",
    "Catalogue",
    "CatalogueError",
    "Caution",
    "Compound",
    "Cover",
    "Cue",
    "Effect",
    "Evidence",
    "Figure",
    "Finding",
    "Gene",
    "Linkage",
    "LocusEntry",
    "Nickname",
    "Part",
    "Quality",
    "Sex",
    "Source",
    "Species",
    "UnknownName",
    "Zone",
    "closest",
    "load_catalogue",
    "load_species",
    "normal",
]
