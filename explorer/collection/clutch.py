"""What was written down of a clutch: its parents, and how many hatchlings looked how."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from ..genetics import Diplotype, Genome, Group
from ..looks import Look, shown

__all__ = ["Clutch", "Hatchlings"]


@dataclass(frozen=True)
class Hatchlings:
    """Hatchlings of one clutch that look alike. look: as written; row: its line in the file.

    seen: linkage group -> what shows there; in a group that is not listed nothing shows. maybe: gene -> how many times
    likelier this is written of a hatchling that shows the gene than of one that does not (above 0); beside a recessive
    gene of the same complex it may stand in place of one of its two copies. covered: whether
    the look hides everything else, so that nothing is known of the groups that are not listed. sex: None if not known.
    """

    look: str
    count: int
    sex: str | None
    seen: Mapping[str, Look]
    maybe: Mapping[str, Fraction] = field(default_factory=dict)
    covered: bool = False
    row: int = 0

    def fits(self, genome: Genome, group: Group, diplotype: Diplotype) -> Fraction:
        """How well a genotype at one group agrees with what is written: 0 if not at all, 1 where nothing is unsure."""
        if group.sex and self.sex is not None and genome.sex_of(diplotype) != self.sex:
            return Fraction(0)
        if self.covered and group.name not in self.seen:
            return Fraction(1)
        unsure = {gene for gene in self.maybe if genome.home[gene][0] is group}
        here = dict(shown(group, diplotype))
        sure, written = tuple(item for item in here.items() if item[0] not in unsure), self.seen.get(group.name, ())
        if sure not in (written, _compound(genome, written, unsure & here.keys())):
            return Fraction(0)
        weight = Fraction(1)
        for gene in unsure:
            weight *= self.maybe[gene] if gene in here else 1
        return weight


@dataclass(frozen=True)
class Clutch:
    """One clutch. sires: the males it may be of. several: whether hatchlings of one clutch may have different sires.

    eggs: laid, None if not written. further: the other columns, as they are written. row: its first line in the file.
    """

    id: str
    dam: str
    sires: tuple[str, ...]
    several: bool
    laid: date | None
    hatched: date | None
    eggs: int | None
    hatchlings: tuple[Hatchlings, ...]
    further: Mapping[str, str] = field(default_factory=dict, hash=False)
    row: int = 0


def _compound(genome: Genome, look: Look, showing: Collection[str]) -> Look:
    """The look if unsure genes stand in place of one of two copies of recessive genes of their own complex."""
    loci = [genome.home[gene][1] for gene in showing]

    def left(gene: str, copies: int) -> int:
        locus = genome.home[gene][1]
        return 1 if copies == 2 and locus in loci and not locus.by_name[gene].shows_alone else copies

    return tuple((gene, left(gene, copies)) for gene, copies in look)
