"""The front door: what users of the pairing explorer call. Everything else is behind it."""

import typing as _typing

from .catalogue import load_catalogue
from .collection import CollectionError, read_clutches, read_collection
from .husbandry import Husbandry, season_dates
from .looks import stack
from .notation import AmbiguousGenes, GenesError, ImpossibleGenes, UnreadableGenes, read_genes, write_genes
from .pairing import cross, identify, line_up
from .planner import UnreachableTarget, allot, find_paths

if _typing.TYPE_CHECKING:
    from pathlib import Path

    from .catalogue import Catalogue
    from .genetics import Genotype
    from .looks import HasGenotype

__all__ = [
    "AmbiguousGenes",
    "CollectionError",
    "GenesError",
    "Husbandry",
    "ImpossibleGenes",
    "UnreachableTarget",
    "UnreadableGenes",
    "allot",
    "cross",
    "find_paths",
    "identify",
    "line_up",
    "load_catalogue",
    "open_workbench",
    "read_clutches",
    "read_collection",
    "read_genes",
    "season_dates",
    "sketch",
    "stack",
    "write_genes",
]


def sketch(genes: "str | Genotype | HasGenotype", *, seed: int = 0, catalogue: "Catalogue | None" = None) -> str:
    """A schematic of what these genes look like together: SVG text, with a text alternative.

    genes: shorthand, a genotype or an animal, as for `stack`. seed: chooses among clutch mates, which vary.
    Raises GenesError for genes that cannot be read.
    """
    from .pictures import sketch as draw

    return draw(genes, seed=seed, catalogue=catalogue)


def open_workbench(path: "str | Path | None" = None, catalogue: "Catalogue | None" = None) -> _typing.Any:
    """The workbench for a notebook cell, on the collection file at `path` (default: the demo collection)."""
    from .panels import open_workbench as build

    return build(path, catalogue)
