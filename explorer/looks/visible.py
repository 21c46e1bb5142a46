"""What of a genotype a keeper can see, and whether that is what was asked for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from ..genetics import ABSENT, WILD, Diplotype, Event, Genome, Genotype, Group

__all__ = [
    "Look",
    "absent_events",
    "carried",
    "exact_events",
    "likeliest_look",
    "may_carry",
    "merged",
    "shown",
    "wanted_events",
]

Look = tuple[tuple[str, int], ...]
"""(gene, copies) of what is visible at one group; two copies that look the same as one count as one."""


def carried(group: Group, diplotype: Diplotype) -> dict[str, int]:
    """Gene -> number of copies, visible or not."""
    copies: dict[str, int] = {}
    for haplotype in diplotype:
        for allele in haplotype[group.sex :]:
            if allele not in (WILD, ABSENT):
                copies[allele] = copies.get(allele, 0) + 1
    return copies


def may_carry(genotype: Genotype) -> set[str]:
    """Names of the genes that the animal carries or may carry."""
    return {
        gene
        for name in genotype.varying
        for diplotype in genotype.parts[name]
        for gene in carried(genotype.genome.by_name[name], diplotype)
    }


def shown(group: Group, diplotype: Diplotype) -> Look:
    """What is visible at one group, in map order.

    A recessive shows with two copies, beside another gene of its complex, or alone where the other chromosome has no
    such locus; it is then given two copies, or one if it is part of a compound. Any other gene shows with one.
    """
    seen: list[tuple[str, int]] = []
    for i, locus in enumerate(group.loci, start=group.sex):
        one, two = diplotype[0][i], diplotype[1][i]
        mutants = sorted({one, two} - {WILD, ABSENT}, key=[allele.name for allele in locus.alleles].index)
        if len(mutants) == 2:
            seen += [(name, 1) for name in mutants]
        elif mutants:
            allele = locus.by_name[mutants[0]]
            if one == two:
                seen.append((allele.name, 2 if allele.double_differs else 1))
            elif allele.shows_alone:
                seen.append((allele.name, 1))
            elif ABSENT in (one, two):
                seen.append((allele.name, 2))
    return tuple(seen)


def likeliest_look(genotype: Genotype) -> dict[str, int]:
    """Gene -> copies that show, in catalogue order, of the look that is likeliest; the plainer one if two are."""
    look: dict[str, int] = {}
    for name in genotype.varying:
        group = genotype.genome.by_name[name]
        chances: dict[Look, Fraction] = {}
        for diplotype, chance in genotype.parts[name].items():
            seen = shown(group, diplotype)
            chances[seen] = chances.get(seen, Fraction(0)) + chance
        _, _, likeliest = min((-chance, len(seen), seen) for seen, chance in chances.items())
        look.update(likeliest)
    return dict(sorted(look.items(), key=lambda item: genotype.genome.rank[item[0]]))


def merged(genome: Genome, wanted: Mapping[str, int]) -> dict[str, int]:
    """The copy numbers as a look counts them: two copies that look the same as one become one."""
    differs = {name: genome.home[name][1].by_name[name].double_differs for name in wanted}
    return {name: copies if differs[name] else 1 for name, copies in wanted.items()}


def wanted_events(genome: Genome, wanted: Mapping[str, int]) -> dict[str, Event]:
    """For each group, whether a diplotype shows at least what is wanted there.

    wanted: gene -> copies, as `notation.read_wanted` gives it. A recessive is wanted with two copies, and a compound
    shows both of its genes.
    """
    return {group.name: _at_least(group, part) for group, part in _by_group(genome, wanted)}


def exact_events(genome: Genome, wanted: Mapping[str, int], groups: Iterable[Group]) -> dict[str, Event]:
    """For each of `groups` and each group of the wanted genes, whether a diplotype shows just what is wanted there."""
    parts = {group.name: part for group, part in _by_group(genome, wanted)}
    everywhere = {group.name: group for group in (*groups, *(genome.by_name[name] for name in parts))}
    return {name: _just(genome, group, parts.get(name, {})) for name, group in everywhere.items()}


def absent_events(genome: Genome, unwanted: Iterable[str]) -> dict[str, Event]:
    """For each group, whether a diplotype shows none of the unwanted genes."""
    return {group.name: _none(group, frozenset(part)) for group, part in _by_group(genome, dict.fromkeys(unwanted, 1))}


def _by_group(genome: Genome, wanted: Mapping[str, int]) -> list[tuple[Group, dict[str, int]]]:
    parts: dict[str, dict[str, int]] = {}
    for name, copies in wanted.items():
        parts.setdefault(genome.home[name][0].name, {})[name] = copies
    return [(genome.by_name[name], part) for name, part in parts.items()]


def _at_least(group: Group, part: Mapping[str, int]) -> Event:
    doubles = {
        name
        for name, copies in part.items()
        for locus in group.loci
        if copies == 2 and name in locus.by_name and locus.by_name[name].shows_alone
    }

    def event(diplotype: Diplotype) -> bool:
        seen = {name for name, _ in shown(group, diplotype)}
        if not part.keys() <= seen:
            return False
        copies = carried(group, diplotype) if doubles else {}
        return all(copies[name] == 2 for name in doubles)

    return event


def _just(genome: Genome, group: Group, part: Mapping[str, int]) -> Event:
    look, at_least = merged(genome, part), _at_least(group, part)

    def event(diplotype: Diplotype) -> bool:
        return dict(shown(group, diplotype)) == look and at_least(diplotype)

    return event


def _none(group: Group, unwanted: frozenset[str]) -> Event:
    def event(diplotype: Diplotype) -> bool:
        return not any(name in unwanted for name, _ in shown(group, diplotype))

    return event
