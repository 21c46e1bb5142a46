"""An animal of unknown origin: what it may carry if genes are as common as stated."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from itertools import product

from ..catalogue import Catalogue
from ..genetics import WILD, Diplotype, Genome, Genotype, Group, Haplotype, exact, genome_of, normalised, order, viable
from ..notation import read_wanted, texts_of

__all__ = ["by_frequency"]


def by_frequency(candidates: Mapping[str, float | Fraction] | str | Iterable[str], catalogue: Catalogue) -> Genotype:
    """The genotype of an animal of unknown sex, its two chromosomes drawn at random (Hardy-Weinberg proportions).

    candidates: gene -> its frequency among chromosomes, or genes alone, with the catalogue's figure for each. Genes of
    one complex share the chromosome's one place. Genotypes that are not viable are left out. Raises GenesError for a
    gene that cannot be read, ValueError for frequencies that do not lie from 0 to 1.
    """
    if isinstance(candidates, Mapping):
        given = candidates
    else:
        given = dict.fromkeys(texts_of(candidates), catalogue.figure("candidate_frequency").value)
    frequency = {gene: exact(value) for text, value in given.items() for gene in read_wanted(text, catalogue)}
    genome = genome_of(catalogue)
    parts: dict[str, Mapping[Diplotype, Fraction]] = {}
    for group in genome.groups:
        if group.sex or any(gene in locus.by_name for locus in group.loci for gene in frequency):
            parts[group.name] = _part(genome, group, frequency)
    return Genotype(genome, parts)


def _part(genome: Genome, group: Group, frequency: Mapping[str, Fraction]) -> dict[Diplotype, Fraction]:
    haplotypes = _haplotypes(group, frequency)
    found: dict[Diplotype, Fraction] = {}
    for (one, p), (two, q) in product(haplotypes.items(), repeat=2):
        pairs = [genome.pair(group, one, two, sex) for sex in ("female", "male")] if group.sex else [order(one, two)]
        for diplotype in pairs:
            if viable(group, diplotype):
                found[diplotype] = found.get(diplotype, Fraction(0)) + p * q
    return normalised(found)


def _haplotypes(group: Group, frequency: Mapping[str, Fraction]) -> dict[Haplotype, Fraction]:
    found: dict[Haplotype, Fraction] = {(): Fraction(1)}
    for locus in group.loci:
        alleles = {name: frequency[name] for name in locus.by_name if frequency.get(name)}
        wild = 1 - sum(alleles.values(), Fraction(0))
        if wild < 0 or any(value < 0 for value in alleles.values()):
            said = ", ".join(f"{name} {value}" for name, value in alleles.items())
            raise ValueError(f"frequencies at one place lie from 0 to 1 and sum to at most 1, found {said}")
        choices = {WILD: wild, **alleles} if wild else alleles
        found = {(*before, name): p * q for before, p in found.items() for name, q in choices.items()}
    return found
