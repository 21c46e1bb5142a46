"""Reads the map that inheritance works on off a catalogue."""

from __future__ import annotations

from itertools import combinations_with_replacement
from weakref import WeakKeyDictionary

from ..catalogue import Catalogue, LocusEntry
from .genome import Allele, Genome, Group, Locus

__all__ = ["genome_of"]

_known: WeakKeyDictionary[Catalogue, Genome] = WeakKeyDictionary()


def genome_of(catalogue: Catalogue) -> Genome:
    """The genome of a catalogue's species, one for each catalogue. Loci that no linkage names assort independently."""
    if catalogue not in _known:
        _known[catalogue] = _mapped(catalogue)
    return _known[catalogue]


def _mapped(catalogue: Catalogue) -> Genome:
    linked = {name: linkage for linkage in catalogue.linkages for name in linkage.loci}
    sex_loci: list[LocusEntry] = [entry for entry in catalogue.loci if entry.placement != "autosome"]
    sex_linkage = next((linkage for linkage in catalogue.linkages if linkage.sex_pair), None)
    groups = [
        Group(
            "sex",
            tuple(_locus(catalogue, catalogue.locus(name)) for name in (sex_linkage.loci if sex_linkage else ())),
            sex_linkage.rates if sex_linkage else (),
            sex=True,
            hemizygous=frozenset(entry.name for entry in sex_loci if entry.placement == "X only"),
        )
    ]
    done = {entry.name for entry in sex_loci}
    for entry in catalogue.loci:
        if entry.name in done:
            continue
        linkage = linked.get(entry.name)
        names = linkage.loci if linkage else (entry.name,)
        done.update(names)
        loci = tuple(_locus(catalogue, catalogue.locus(name)) for name in names)
        groups.append(Group(" + ".join(names), loci, linkage.rates if linkage else ()))
    species = catalogue.species
    return Genome(
        tuple(groups),
        species.heterogametic,
        species.chromosomes[0],
        species.chromosomes[1],
        tuple(gene.name for gene in catalogue.genes),
    )


def _locus(catalogue: Catalogue, entry: LocusEntry) -> Locus:
    genes = catalogue.genes_at(entry.name)
    lethal = {(gene.name, gene.name) for gene in genes if gene.two_copies == "not viable"}
    for one, two in combinations_with_replacement([gene.name for gene in genes], 2):
        compound = catalogue.compound(one, two) if one != two else None
        if compound is not None and not compound.viable:
            first, second = sorted((one, two))
            lethal.add((first, second))
    return Locus(
        entry.name,
        tuple(Allele(gene.name, not gene.recessive, gene.two_copies != "same look") for gene in genes),
        frozenset(lethal),
    )
