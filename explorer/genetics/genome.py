"""The map that inheritance works on: alleles, loci, and the groups of loci that travel together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

__all__ = ["ABSENT", "WILD", "Allele", "Diplotype", "Genome", "Group", "Haplotype", "Locus", "order"]

WILD = ""
"""The wild allele of every locus."""

ABSENT = "-"
"""Stands on a Y (or W) where a locus is on the X (or Z) alone."""

Haplotype = tuple[str, ...]
"""One allele for each locus of a group. In the sex group the first entry is the sex chromosome itself."""

Diplotype = tuple[Haplotype, Haplotype]
"""The two haplotypes of an animal at one group, sorted: phase is kept, parental origin is not."""


def order(one: Haplotype, two: Haplotype) -> Diplotype:
    """The two haplotypes as a diplotype, in the one order that stands for both."""
    return (one, two) if one <= two else (two, one)


@dataclass(frozen=True)
class Allele:
    """A mutant allele. `shows_alone`: one copy beside wild is visible. `double_differs`: two copies look unlike one."""

    name: str
    shows_alone: bool
    double_differs: bool = True


@dataclass(frozen=True, eq=False)
class Locus:
    """Alleles of one place; `lethal` holds the sorted allele pairs whose owner does not hatch."""

    name: str
    alleles: tuple[Allele, ...]
    lethal: frozenset[tuple[str, str]] = frozenset()

    @cached_property
    def by_name(self) -> dict[str, Allele]:
        return {allele.name: allele for allele in self.alleles}


@dataclass(frozen=True, eq=False)
class Group:
    """Loci inherited together, in map order. Groups are inherited independently of one another.

    rates: recombination fractions between neighbours, each from 0 to 1/2. In the sex group the sex-determining
        point counts as the first neighbour, so it has as many rates as loci; elsewhere one fewer.
    hemizygous: names of loci absent from the Y (or W). They must come first in the sex group.
    """

    name: str
    loci: tuple[Locus, ...]
    rates: tuple[Fraction, ...] = ()
    sex: bool = False
    hemizygous: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        if len(self.rates) != max(0, len(self.loci) - (0 if self.sex else 1)):
            raise ValueError(f"group {self.name}: {len(self.loci)} loci do not go with {len(self.rates)} rates")
        if any(not 0 <= rate <= Fraction(1, 2) for rate in self.rates):
            raise ValueError(f"group {self.name}: a recombination fraction lies from 0 to 1/2, found {self.rates}")
        first = {locus.name for locus in self.loci[: len(self.hemizygous)]}
        if first != self.hemizygous or (self.hemizygous and not self.sex):
            raise ValueError(f"group {self.name}: loci of one sex chromosome alone come first in the sex group")

    @cached_property
    def lethal(self) -> bool:
        """Whether any genotype of this group is not viable."""
        return any(locus.lethal for locus in self.loci)

    def position(self, locus: str) -> int:
        """Index of a locus inside this group's haplotypes."""
        return next(i for i, entry in enumerate(self.loci) if entry.name == locus) + self.sex


@dataclass(frozen=True, eq=False)
class Genome:
    """All groups of a species. The first is the sex group, which every animal has even if it holds no locus.

    same, other: names of the sex chromosomes; the homogametic sex is same/same, the heterogametic same/other.
    listing: allele names in the order they are listed in; by default the order of groups, loci and alleles.
    """

    groups: tuple[Group, ...]
    heterogametic: str = "male"
    same: str = "X"
    other: str = "Y"
    listing: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.groups or not self.groups[0].sex or any(group.sex for group in self.groups[1:]):
            raise ValueError("a genome has one sex group, and it comes first")

    @cached_property
    def homogametic(self) -> str:
        return "female" if self.heterogametic == "male" else "male"

    @cached_property
    def home(self) -> dict[str, tuple[Group, Locus]]:
        """Allele name -> the group and locus it belongs to."""
        return {a.name: (group, locus) for group in self.groups for locus in group.loci for a in locus.alleles}

    @cached_property
    def rank(self) -> dict[str, int]:
        """Allele name -> its place in the listing."""
        return {name: i for i, name in enumerate(self.listing or self.home)}

    @cached_property
    def by_name(self) -> dict[str, Group]:
        return {group.name: group for group in self.groups}

    def wild(self, group: Group, sex: str) -> Diplotype:
        """The diplotype without any mutant allele."""
        blank = (WILD,) * len(group.loci)
        if not group.sex:
            return (blank, blank)
        return self.pair(group, blank, blank, sex)

    def pair(self, group: Group, first: Iterable[str], second: Iterable[str], sex: str) -> Diplotype:
        """A diplotype of the sex group from the alleles beside each chromosome; `second` lies on Y (W) in its owner."""
        one = (self.same, *first)
        if sex == self.homogametic:
            return order(one, (self.same, *second))
        absent = len(group.hemizygous)
        rest = tuple(second)[absent:]
        return order(one, (self.other, *(ABSENT,) * absent, *rest))

    def sex_of(self, diplotype: Diplotype) -> str:
        """Female or male, read off a diplotype of the sex group."""
        return self.homogametic if diplotype[0][0] == diplotype[1][0] else self.heterogametic

