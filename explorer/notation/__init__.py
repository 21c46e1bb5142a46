"""How people write it: trade shorthand to genotype and back."""

from .errors import AmbiguousGenes, GenesError, ImpossibleGenes, UnreadableGenes
from .reading import read_genes, read_wanted
from .writing import write_diplotypes, write_genes, write_shown

__all__ = [
    "AmbiguousGenes",
    "GenesError",
    "ImpossibleGenes",
    "UnreadableGenes",
    "read_genes",
    "read_wanted",
    "write_diplotypes",
    "write_genes",
    "write_shown",
]
