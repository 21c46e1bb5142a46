"""What an animal is known to carry: for each group, a distribution over diplotypes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from .genome import Diplotype, Genome, Group

__all__ = ["Genotype", "Part", "normalised"]

Part = Mapping[Diplotype, Fraction]
"""Diplotype -> probability, of one group; sums to 1."""


@dataclass(frozen=True, eq=False)
class Genotype:
    """An animal's genotype as far as it is known; groups are independent of one another.

    parts: group name -> distribution. A group that is not listed is wild for certain. The sex group is always
        listed: an animal of unknown sex has diplotypes of both sexes there.
    notices: remarks of whoever read it, in plain words.
    """

    genome: Genome
    parts: Mapping[str, Part]
    notices: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for name, part in self.parts.items():
            if sum(part.values()) != 1 or any(chance <= 0 for chance in part.values()):
                raise ValueError(f"group {name}: chances must be positive and sum to 1, found {dict(part)}")
        if self.genome.groups[0].name not in self.parts:
            raise ValueError("the sex group is missing")

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Genotype) and self.genome is other.genome and self._content() == other._content()

    def __hash__(self) -> int:
        return hash(frozenset((name, frozenset(part.items())) for name, part in self._content().items()))

    def _content(self) -> dict[str, dict[Diplotype, Fraction]]:
        return {name: dict(part) for name, part in self.parts.items() if name in self.varying or name == "sex"}

    @property
    def varying(self) -> tuple[str, ...]:
        """Names of the groups in which a mutant allele is carried or may be."""
        return tuple(
            group.name
            for group in self.genome.groups
            if group.name in self.parts and any(_mutant(group, diplotype) for diplotype in self.parts[group.name])
        )

    @property
    def sex(self) -> str | None:
        """Female, male, or None if both are possible."""
        sexes = {self.genome.sex_of(diplotype) for diplotype in self.parts[self.genome.groups[0].name]}
        return sexes.pop() if len(sexes) == 1 else None

    def part(self, group: Group) -> Part:
        """The distribution at one group, whether listed or wild."""
        known = self.parts.get(group.name)
        return known if known is not None else {self.genome.wild(group, "female"): Fraction(1)}

    def of_sex(self, sex: str) -> Genotype:
        """The same animal once its sex is known. Raises ValueError if it is known to be of the other sex."""
        group = self.genome.groups[0]
        kept = {d: chance for d, chance in self.parts[group.name].items() if self.genome.sex_of(d) == sex}
        if not kept:
            raise ValueError(f"not a {sex}")
        if len(kept) == len(self.parts[group.name]):
            return self
        return Genotype(self.genome, {**self.parts, group.name: normalised(kept)}, self.notices)


def normalised(weights: Part) -> dict[Diplotype, Fraction]:
    """Weights scaled to sum to 1. Raises ValueError if they sum to 0."""
    total = sum(weights.values())
    if not total:
        raise ValueError("nothing is possible")
    return {key: weight / total for key, weight in weights.items() if weight}


def _mutant(group: Group, diplotype: Diplotype) -> bool:
    return any(allele not in ("", "-") for haplotype in diplotype for allele in haplotype[group.sex :])
