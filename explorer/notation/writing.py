"""Writes trade shorthand: every gene in full, what shows first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from ..catalogue import normal
from ..genetics import ABSENT, WILD, Diplotype, Genome, Genotype, Group, Part
from .figures import figure, percent

__all__ = ["write_diplotypes", "write_genes", "write_shown"]

HALF, ONE = Fraction(1, 2), Fraction(1)

SHOWN, MAY_SHOW, HET, MAY_BE_HET = range(4)


class _Entry(NamedTuple):
    """The words on one gene, and what they are sorted by: how sure, then falling chance, then catalogue order."""

    tier: int
    chance: Fraction
    rank: int
    text: str


class _Said(NamedTuple):
    """Chances of one gene: that it shows, that it has two copies, that it is a hidden single copy."""

    shows: Fraction = Fraction(0)
    double: Fraction = Fraction(0)
    het: Fraction = Fraction(0)


def write_genes(geno: Genotype) -> str:
    """The genotype as shorthand; "Normal" if it carries nothing.

    What `read_genes` returned is read back the same. Of other genotypes the text may tell less: figures are rounded,
    the phase of linked genes is not written, and where shorthand has no words for what is known of a complex, as of an
    egg not yet seen, it gives the chance of each gene by itself. The sex is not written.
    """
    genome = geno.genome
    return _joined(
        genome, (entry for name, part in geno.parts.items() for entry in _entries(genome, genome.by_name[name], part))
    )


def write_diplotypes(genome: Genome, diplotypes: Mapping[str, Diplotype]) -> str:
    """The shorthand of one certain genotype, group name -> diplotype; a group that is not listed is wild."""
    return _joined(
        genome,
        (entry for name, here in diplotypes.items() for entry in _certain(genome, genome.by_name[name], here)),
    )


def write_shown(genome: Genome, shown: Mapping[str, int]) -> str:
    """The shorthand of a look, gene -> copies that show; "Normal" if nothing does."""
    entries = []
    for name, copies in shown.items():
        doubled = copies == 2 and genome.home[name][1].by_name[name].shows_alone
        if copies:
            entries.append(_Entry(SHOWN, ONE, genome.rank[name], f"Super {name}" if doubled else name))
    return _joined(genome, entries)


@lru_cache(maxsize=8192)
def _certain(genome: Genome, group: Group, diplotype: Diplotype) -> tuple[_Entry, ...]:
    return tuple(_entries(genome, group, {diplotype: ONE}))


def _joined(genome: Genome, entries: Iterable[_Entry]) -> str:
    ordered = sorted(entries, key=lambda entry: (entry.tier, -entry.chance, entry.rank))
    text = ordered[0].text if ordered else "Normal"
    for before, after in pairwise(ordered):
        text += f", {after.text}" if _run_together(genome, before.text, after.text) else f" {after.text}"
    return text


@lru_cache(maxsize=8192)
def _run_together(genome: Genome, before: str, after: str) -> bool:
    """Whether the end of one text and the start of the next would be read as one name, as in "Desert" and "Ghost"."""
    names, ends, starts = _names(genome), before.split(), after.split()
    return any(
        normal("".join([*ends[i:], *starts[:j]])) in names for i in range(len(ends)) for j in range(1, len(starts) + 1)
    )


@lru_cache(maxsize=32)
def _names(genome: Genome) -> frozenset[str]:
    return frozenset(normal(name) for name in genome.home)


def _entries(genome: Genome, group: Group, part: Part) -> Iterator[_Entry]:
    for at, locus in enumerate(group.loci, start=group.sex):
        said = _said(group, at, part)
        options = [(one.shows, one.het, one.double if one.shows == 1 else ONE) for one in said.values()]
        uncertain = [chance for option in options for chance in option if chance < 1]
        down = sum(uncertain) <= 1 < sum(_read_back(chance) for chance in uncertain)
        for name, chance in said.items():
            yield from _gene(genome, group, at, part, name, chance, locus.by_name[name].shows_alone, down)


def _said(group: Group, at: int, part: Part) -> dict[str, _Said]:
    """Gene -> its chances at one locus."""
    alone = {allele.name: allele.shows_alone for allele in group.loci[at - group.sex].alleles}
    said: dict[str, _Said] = {}
    for (one, two), chance in part.items():
        names = {one[at], two[at]} - {WILD, ABSENT}
        for name in names:
            before = said.get(name, _Said())
            if one[at] == two[at]:
                said[name] = before._replace(shows=before.shows + chance, double=before.double + chance)
            elif alone[name] or len(names) == 2 or ABSENT in (one[at], two[at]):
                said[name] = before._replace(shows=before.shows + chance)
            else:
                said[name] = before._replace(het=before.het + chance)
    return said


def _gene(
    genome: Genome, group: Group, at: int, part: Part, name: str, said: _Said, alone: bool, down: bool
) -> Iterator[_Entry]:
    rank = genome.rank[name]
    before, after = _place(genome, group, at, part, name, said.shows == 1 and alone)

    def entry(chance: Fraction, words: str, sure: int) -> _Entry:
        figures = "" if chance == 1 else f"{percent(chance, down=down)} "
        return _Entry(sure if chance == 1 else sure + 1, chance, rank, f"{figures}{words}{name}{after}")

    if alone and said.double == 1:
        yield _Entry(SHOWN, ONE, rank, f"Super {name}")
    elif alone:
        if said.shows == 1 and (before or after or not said.double):
            yield _Entry(SHOWN, ONE, rank, f"{before}{name}{after}")
        elif 0 < said.shows < 1:
            yield entry(said.shows, "", SHOWN)
        if said.double:
            tier = SHOWN if said.shows == 1 else MAY_SHOW
            yield _Entry(tier, said.double if tier else ONE, rank, f"{percent(said.double, down=down)} Super {name}")
    else:
        if said.shows:
            yield entry(said.shows, "" if said.shows == 1 else "visual ", SHOWN)
        if said.het:
            yield entry(said.het, "het ", HET)


def _place(genome: Genome, group: Group, at: int, part: Part, name: str, sure: bool) -> tuple[str, str]:
    """Words before or after a gene for the sex chromosome of its single copy; empty if either is equally likely."""
    if not group.sex or group.loci[at - 1].name in group.hemizygous:
        return "", ""
    on = {genome.same: Fraction(0), genome.other: Fraction(0)}
    mixed = [d for d in part if genome.sex_of(d) == genome.heterogametic]
    for diplotype in mixed:
        carriers = [haplotype[0] for haplotype in diplotype if haplotype[at] == name]
        if len(carriers) == 1:
            on[carriers[0]] += part[diplotype]
    total = sum(on.values())
    likelier = max(on, key=on.__getitem__)
    if not total or on[likelier] * 2 == total:
        return "", ""
    chance = on[likelier] / total
    if len(mixed) < len(part):
        return ("", f" on {likelier}") if chance == 1 and likelier == genome.same else ("", "")
    figures = "" if chance == 1 else f"{percent(chance)} "
    if sure and genome.heterogametic == "male":
        return f"{figures}{'male' if likelier == genome.other else 'female'} maker ", ""
    return "", f" {figures}on {likelier}"


def _read_back(chance: Fraction) -> Fraction:
    return figure(percent(chance)[:-1]) or chance
