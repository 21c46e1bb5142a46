"""The front door: what users of the pairing explorer call. Everything else is behind it."""

import typing as _typing

from .catalogue import load_catalogue
from .collection import CollectionError, read_collection
from .husbandry import Husbandry
from .looks import stack
from .notation import AmbiguousGenes, GenesError, ImpossibleGenes, UnreadableGenes, read_genes, write_genes
from .pairing import cross, identify
from .planner import UnreachableTarget, find_paths

if _typing.TYPE_CHECKING:
    from pathlib import Path

    from .catalogue import Catalogue

__all__ = [
    "AmbiguousGenes",
    "CollectionError",
    "GenesError",
    "Husbandry",
    "ImpossibleGenes",
    "UnreachableTarget",
    "UnreadableGenes",
    "cross",
    "find_paths",
    "identify",
    "load_catalogue",
    "open_workbench",
    "read_collection",
    "read_genes",
    "stack",
    "write_genes",
]


def open_workbench(path: "str | Path | None" = None, catalogue: "Catalogue | None" = None) -> _typing.Any:
    """The workbench for a notebook cell, on the collection file at `path` (default: the demo collection)."""
    from .panels import open_workbench as build

    return build(path, catalogue)
