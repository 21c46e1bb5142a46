"""Genes two by two: how far each pair helps or spoils what is wanted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import combinations

from ..catalogue import Catalogue, Effect
from .stacking import Stack, stack_of
from .tastes import Taste

__all__ = ["GenePair", "gene_pairs", "pair_look"]


@dataclass(frozen=True)
class GenePair:
    """Two genes on one animal. genes: in catalogue order. stack: their look, each gene as it shows.

    viable: False if the two are of one complex and recorded as not viable together.
    """

    genes: tuple[str, str]
    stack: Stack
    viable: bool = True

    @property
    def compound(self) -> bool:
        """Whether the two are of one complex, so that they make one form and cannot be set against each other."""
        return len(self.stack.layers) == 1

    @property
    def established(self) -> bool:
        """Whether something is known of how each form of the two looks."""
        return all(layer.values for layer in self.stack.layers)

    @cached_property
    def net(self) -> Fraction | None:
        """The strengths with which the two help each other less those with which they spoil each other.

        0 if they do neither or as much of both; None for a compound, and where the look of one is not established.
        """
        if self.compound or not self.established:
            return None
        helps = sum((verdict.strength for verdict in self.stack.helps), Fraction(0))
        return helps - sum((verdict.strength for verdict in self.stack.clashes), Fraction(0))

    @property
    def over(self) -> tuple[str, ...]:
        """Names of the forms that cover something of the other."""
        names = {gene: layer.name for layer in self.stack.layers for gene in layer.genes}
        of_two = [verdict for verdict in self.stack.hidden if len({names[gene] for gene in verdict.genes}) > 1]
        return tuple(dict.fromkeys(names[verdict.genes[0]] for verdict in of_two))


def pair_look(one: str, two: str, catalogue: Catalogue) -> dict[str, int]:
    """Gene -> copies that show, in catalogue order, of an animal with two different genes, by any of their names.

    A recessive shows with two copies; two genes of one complex count one each. Raises UnknownName.
    """
    genes = sorted((catalogue.gene(name) for name in (one, two)), key=catalogue.genes.index)
    complex_ = genes[0].locus == genes[1].locus
    return {gene.name: 2 if gene.recessive and not complex_ else 1 for gene in genes}


def gene_pairs(
    genes: Iterable[str], catalogue: Catalogue, *, taste: Taste | None = None, opinions: Iterable[Effect] = ()
) -> dict[frozenset[str], GenePair]:
    """Every two of these genes -> what they do to each other; genes by full names, each once or more.

    Raises ValueError for a taste that is not known.
    """
    names, given = sorted(set(genes), key=[gene.name for gene in catalogue.genes].index), tuple(opinions)
    found = {}
    for one, two in combinations(names, 2):
        look = pair_look(one, two, catalogue)
        stack = stack_of(look, taste=taste, opinions=given, catalogue=catalogue)
        compound = catalogue.compound(one, two)
        found[frozenset((one, two))] = GenePair((one, two), stack, compound is None or compound.viable)
    return found
