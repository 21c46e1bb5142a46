"""How people write it: trade shorthand to genotype and back."""

from .errors import AmbiguousGenes, GenesError, ImpossibleGenes, UnreadableGenes
from .naming import capital, genes_named, names_in_words, texts_of
from .reading import read_genes, read_wanted
from .writing import write_diplotypes, write_genes, write_shown

__all__ = [
    "AmbiguousGenes",
    "GenesError",
    "ImpossibleGenes",
    "UnreadableGenes",
    "capital",
    "genes_named",
    "names_in_words",
    "read_genes",
    "read_wanted",
    "texts_of",
    "write_diplotypes",
    "write_genes",
    "write_shown",
]
