"""What a search is about: the target, the genes that matter to it, and what a keeper can tell apart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import product

from ..catalogue import Catalogue, Caution
from ..genetics import ABSENT, WILD, Diplotype, Event, Genome, Group, genome_of, order
from ..looks import absent_events, carried, shown, wanted_events
from ..notation import ImpossibleGenes, genes_named, read_wanted, texts_of

__all__ = ["Question", "Requirement", "UnreachableTarget"]


DOUBLES = 2
"""Most genes of a target for which a step may ask for two copies of a gene that is wanted once."""


class UnreachableTarget(ValueError):
    """The target cannot be reached from this collection. `gene` is what is missing."""

    def __init__(self, message: str, gene: str) -> None:
        super().__init__(message)
        self.gene = gene


@dataclass(frozen=True)
class Requirement:
    """What a hatchling must be at one group to be kept.

    counts: (gene, copies) that must show, or be carried if the gene is testable. none_of: genes that must not show.
    """

    counts: tuple[tuple[str, int], ...] = ()
    none_of: tuple[str, ...] = ()


class Question:
    """A target with everything of it that is fixed before the search.

    wanted: gene -> copies that must show. without: genes that must not show. testable: genes a keeper can select
    without seeing them. cautions: those that keep an animal or a pairing out. groups: the groups that matter; the
    sex group comes first.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        target: str,
        *,
        without: Iterable[str] = (),
        testable: Iterable[str] = (),
        allow: Iterable[str] = (),
        present: Iterable[str] = (),
    ) -> None:
        """present: names of the genes that some animal in the search may carry."""
        self.catalogue = catalogue
        self.genome: Genome = genome_of(catalogue)
        self.target = target
        self.wanted = read_wanted(target, catalogue)
        self.without = tuple(dict.fromkeys(g for text in texts_of(without) for g in read_wanted(text, catalogue)))
        both = [gene for gene in self.without if gene in self.wanted]
        if both:
            raise ImpossibleGenes(
                text=target,
                found=f"{', '.join(both)} in what must show and in what must not show",
                needed="a gene in one of the two",
                advice="take it out of one",
            )
        self.testable = genes_named(testable, catalogue, self.wanted)
        here = set(present)
        allowed = genes_named(allow, catalogue, (gene.name for gene in catalogue.genes))
        self.cautions: tuple[Caution, ...] = tuple(
            caution
            for caution in catalogue.cautions
            if caution.keeps_out
            and not caution.allowed_by(allowed)
            and {part.gene for part in caution.parts} <= here | set(self.wanted)
        )
        lethal = {
            name
            for group in self.genome.groups
            for locus in group.loci
            for pair in locus.lethal
            for name in pair
            if name in here
        }
        self.avoid = {part.gene for caution in self.cautions for part in caution.parts} & here - set(self.wanted)
        recessive_loci = {
            self.genome.home[name][1].name for name in self.wanted if catalogue.gene(name).recessive
        }
        self.tracked = frozenset(
            {*self.wanted, *(g for g in self.without if g in here), *self.avoid, *lethal}
            | {name for name in here if self.genome.home[name][1].name in recessive_loci}
        )
        names = {self.genome.home[gene][0].name for gene in self.tracked}
        self.groups: tuple[Group, ...] = tuple(g for g in self.genome.groups if g.sex or g.name in names)
        wanted = wanted_events(self.genome, self.wanted)
        unwanted = absent_events(self.genome, self.without)
        self.hits: tuple[Event, ...] = tuple(
            _all(wanted.get(group.name), unwanted.get(group.name)) for group in self.groups
        )
        self.options: tuple[tuple[Requirement, ...], ...] = tuple(self._options(group) for group in self.groups)

    def project(self, group: Group, diplotype: Diplotype) -> Diplotype:
        """The diplotype with every allele that does not matter read as wild."""
        kept = [
            tuple(a if i < group.sex or a in self.tracked or a == ABSENT else WILD for i, a in enumerate(haplotype))
            for haplotype in diplotype
        ]
        return order(kept[0], kept[1])

    def fits(self, group: Group, requirement: Requirement, diplotype: Diplotype) -> bool:
        """Whether a keeper can tell that a hatchling with this diplotype meets the requirement."""
        if not requirement.counts and not requirement.none_of:
            return True
        seen = dict(shown(group, diplotype))
        copies = carried(group, diplotype)
        for gene, fewest in requirement.counts:
            if gene in self.testable:
                if copies.get(gene, 0) < fewest:
                    return False
            elif gene not in seen or (fewest == 2 and not self._recessive(gene) and seen[gene] < 2):
                return False
        return not any(gene in seen for gene in requirement.none_of)

    def barred(self, caution: Caution, copies: Mapping[str, int], sex: str) -> bool:
        """Whether an animal with these gene copies and this sex meets the caution."""
        return caution.sex in (None, sex) and all(copies.get(part.gene, 0) >= part.copies for part in caution.parts)

    def _recessive(self, gene: str) -> bool:
        return self.catalogue.gene(gene).recessive

    def _options(self, group: Group) -> tuple[Requirement, ...]:
        """Everything a hatchling may be asked to be here, the least first."""
        names = {allele.name for locus in group.loci for allele in locus.alleles}
        wanted = [gene for gene in self.wanted if gene in names]
        avoid = tuple(sorted(gene for gene in {*self.avoid, *self.without} if gene in names and gene in self.tracked))
        ladders = [[0, *self._levels(group, gene)] for gene in wanted]
        found = []
        for levels in product(*ladders):
            counts = tuple((gene, level) for gene, level in zip(wanted, levels, strict=True) if level)
            if self._room(counts):
                found += [Requirement(counts), *([Requirement(counts, avoid)] if avoid else [])]
        return tuple(sorted(found, key=lambda r: (sum(level for _, level in r.counts), len(r.none_of), r.counts)))

    def _levels(self, group: Group, gene: str) -> list[int]:
        locus = self.genome.home[gene][1]
        allele = locus.by_name[gene]
        double = (gene, gene) not in locus.lethal and (self.wanted[gene] == 2 or len(self.wanted) <= DOUBLES)
        if gene in self.testable:
            return [1, 2] if double else [1]
        if not allele.shows_alone:
            return [1] if self.wanted[gene] == 1 else [2]
        return [1, 2] if double and allele.double_differs else [1]

    def _room(self, counts: tuple[tuple[str, int], ...]) -> bool:
        used: dict[str, int] = {}
        for gene, level in counts:
            locus = self.genome.home[gene][1].name
            used[locus] = used.get(locus, 0) + level
        return all(level <= 2 for level in used.values())


def _all(*events: Event | None) -> Event:
    asked = [event for event in events if event is not None]

    def event(diplotype: Diplotype) -> bool:
        return all(one(diplotype) for one in asked)

    return event
