"""How much an animal is worth on the way to a target, by the copies that it carries."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from ..catalogue import Catalogue, Caution
from ..genetics import Diplotype, Event, Genome, Group, genome_of
from ..looks import absent_events, carried, shown
from ..notation import ImpossibleGenes, genes_named, read_wanted, texts_of

__all__ = ["Reading", "Standing"]

Reading = tuple[int, int]
"""What one group of an animal, or the whole of it, adds: its points, and its marks as bits."""

UNWANTED = 1
"""The mark of an animal that shows what must not show."""


class Standing:
    """Worth toward a target: an animal that shows it has 1. A second copy that is needed and missing halves the worth,
    a gene that is missing altogether divides it by four, and by eight if two copies are needed.

    Counted in points: 2 for each different gene of the target that the animal carries, visible or not, and 1 for each
    second copy that the target needs; a recessive's counts once it shows. Each point that is missing halves the worth;
    without any point it is 0. An animal that shows what must not show, or meets a caution that keeps it out of plans,
    has a worth of 0. Cautions on infertile animals are left out of account, as they are where pairings are planned:
    such an animal may be the target itself.

    Halving, and not a share of all points, since a copy reaches half of the hatchlings: by shares, the first step of a
    long way would count as much as the last, and bringing two genes together that an owned animal has together already
    as much as the next step from that animal.

    wanted: gene -> copies. without: genes that must not show. most: the points of the target.
    """

    def __init__(
        self,
        genome: Genome,
        wanted: Mapping[str, int],
        without: Iterable[str] = (),
        cautions: Iterable[Caution] = (),
    ) -> None:
        """wanted: as `notation.read_wanted` gives it. cautions: those that keep animals out."""
        self.genome, self.wanted, self.without = genome, dict(wanted), tuple(without)
        self.cautions = tuple(caution for caution in cautions if caution.severity != "infertile")
        self.most = sum(2 + (copies == 2) for copies in self.wanted.values())
        self._wanted: dict[str, list[tuple[str, bool]]] = {}
        for gene, copies in self.wanted.items():
            self._wanted.setdefault(genome.home[gene][0].name, []).append((gene, copies == 2))
        self._shows_none = absent_events(genome, self.without)
        self._marked: dict[str, list[tuple[int, Event]]] = {}
        self._bars: list[tuple[int, frozenset[str]]] = [(UNWANTED, frozenset())]
        for caution in self.cautions:
            self._add(caution)
        self._readings: dict[tuple[str, Diplotype], Reading] = {}
        self._worths: dict[Reading, Fraction] = {}

    @classmethod
    def of(
        cls, catalogue: Catalogue, target: str, *, without: str | Iterable[str] = (), allow: str | Iterable[str] = ()
    ) -> Standing:
        """Toward a target in shorthand. allow: genes (or "all") whose cautions no longer count.

        Raises GenesError if a text cannot be read, or if a gene must show and must not.
        """
        wanted = read_wanted(target, catalogue)
        unwanted = tuple(dict.fromkeys(g for text in texts_of(without) for g in read_wanted(text, catalogue)))
        both = [gene for gene in unwanted if gene in wanted]
        if both:
            raise ImpossibleGenes(
                text=target,
                found=f"{', '.join(both)} in what must show and in what must not show",
                needed="a gene in one of the two",
                advice="take it out of one",
            )
        allowed = genes_named(allow, catalogue, (gene.name for gene in catalogue.genes))
        cautions = (c for c in catalogue.cautions if c.keeps_out and not c.allowed_by(allowed))
        return cls(genome_of(catalogue), wanted, unwanted, cautions)

    def worth(self, at: Mapping[str, Diplotype]) -> Fraction:
        """The worth of an animal with these diplotypes: group name -> diplotype, else wild."""
        points, marks = 0, 0
        for name, diplotype in at.items():
            more, further = self.reading(self.genome.by_name[name], diplotype)
            points, marks = points + more, marks | further
        return self.worth_of((points, marks))

    def worth_of(self, reading: Reading) -> Fraction:
        """The worth of an animal that reads so as a whole. All animals have 1 if the target asks for nothing."""
        found = self._worths.get(reading)
        if found is None:
            points, marks = reading
            nothing = any(marks & bar == bar for bar, _ in self._bars) or (self.most and not points)
            found = self._worths[reading] = Fraction(0) if nothing else Fraction(1, 2 ** (self.most - points))
        return found

    def reading(self, group: Group, diplotype: Diplotype) -> Reading:
        """What a diplotype adds at one group. Points of all groups are added, their marks united."""
        found = self._readings.get((group.name, diplotype))
        if found is None:
            found = self._readings[group.name, diplotype] = self._read(group, diplotype)
        return found

    def telling(self, present: Iterable[str]) -> int:
        """The marks that can come to anything among animals that carry these genes at most."""
        here = set(present)
        found = 0
        for bar, genes in self._bars:
            if genes <= here:
                found |= bar
        return found

    def matters(self, group: Group) -> bool:
        """Whether the worth of an animal, or its life, may depend on this group."""
        return group.lethal or any(group.name in names for names in (self._wanted, self._shows_none, self._marked))

    def _read(self, group: Group, diplotype: Diplotype) -> Reading:
        copies, seen = carried(group, diplotype), dict(shown(group, diplotype))
        points = 0
        for gene, twice in self._wanted.get(group.name, ()):
            alone = self.genome.home[gene][1].by_name[gene].shows_alone
            whole = copies.get(gene) == 2 if alone else gene in seen
            points += 2 * (gene in copies) + (twice and whole)
        marks = 0
        if group.name in self._shows_none and not self._shows_none[group.name](diplotype):
            marks = UNWANTED
        for mark, event in self._marked.get(group.name, ()):
            marks |= mark if event(diplotype) else 0
        return points, marks

    def _add(self, caution: Caution) -> None:
        """A caution gets a mark for each group that has a part in it, and bars an animal that has all of them."""
        needed: dict[str, dict[str, int]] = {}
        for part in caution.parts:
            needed.setdefault(self.genome.home[part.gene][0].name, {})[part.gene] = part.copies
        if caution.sex is not None:
            needed.setdefault(self.genome.groups[0].name, {})
        whole = 0
        for name, copies in needed.items():
            mark = 1 << sum(map(len, self._marked.values())) + 1
            self._marked.setdefault(name, []).append((mark, self._meets(self.genome.by_name[name], copies, caution)))
            whole |= mark
        self._bars.append((whole, frozenset(part.gene for part in caution.parts)))

    def _meets(self, group: Group, copies: Mapping[str, int], caution: Caution) -> Event:
        def event(diplotype: Diplotype) -> bool:
            if group.sex and caution.sex not in (None, self.genome.sex_of(diplotype)):
                return False
            mine = carried(group, diplotype)
            return all(mine.get(gene, 0) >= fewest for gene, fewest in copies.items())

        return event
