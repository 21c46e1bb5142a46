"""The offspring of two animals, kept factored: one small table for each group, never multiplied out unasked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cached_property

from .gametes import viable, zygotes
from .genome import Diplotype, Genome, Group
from .genotype import Genotype

__all__ = ["Brood", "Event", "Parents"]

Parents = Mapping[tuple[Diplotype, Diplotype], Fraction]
"""(dam's, sire's diplotype) of one group -> probability; sums to 1."""

Event = Callable[[Diplotype], bool]
"""Whether a diplotype of one group is of the kind asked for."""

ONE = Fraction(1)


class Brood:
    """What two animals can produce.

    parents: group name -> joint distribution of the two parents' diplotypes. Groups are independent of one another;
        one that is not listed is wild in both parents. The sex group must be listed.
    """

    def __init__(self, genome: Genome, parents: Mapping[str, Parents]) -> None:
        self.genome = genome
        self.parents = parents
        self._tables: dict[str, tuple[tuple[Fraction, dict[Diplotype, Fraction]], ...]] = {}

    @classmethod
    def of(cls, dam: Genotype, sire: Genotype) -> Brood:
        """From two animals whose genotypes are independent. Raises ValueError if dam or sire is of the wrong sex."""
        dam, sire = dam.of_sex("female"), sire.of_sex("male")
        names = {*dam.parts, *sire.parts}
        return cls(
            dam.genome,
            {
                group.name: {
                    (d, s): p * q for d, p in dam.part(group).items() for s, q in sire.part(group).items()
                }
                for group in dam.genome.groups
                if group.name in names
            },
        )

    @property
    def groups(self) -> tuple[Group, ...]:
        """The groups in which at least one parent may carry something, and the sex group."""
        return tuple(group for group in self.genome.groups if group.name in self.parents)

    def table(self, group: Group) -> tuple[tuple[Fraction, dict[Diplotype, Fraction]], ...]:
        """For each possible pair of parental diplotypes: its weight, and diplotype -> chance of one egg."""
        known = self._tables.get(group.name)
        if known is None:
            known = tuple(
                (weight, zygotes(group, dam, sire)) for (dam, sire), weight in self.parents[group.name].items()
            )
            self._tables[group.name] = known
        return known

    @cached_property
    def viable(self) -> Fraction:
        """Share of eggs whose genotype is viable."""
        share = ONE
        for group in self.groups:
            if group.lethal:
                share *= sum((w * self._share(group, t, None) for w, t in self.table(group)), Fraction(0))
        return share

    def distribution(self, group: Group) -> dict[Diplotype, Fraction]:
        """Diplotype -> chance among viable eggs."""
        found: dict[Diplotype, Fraction] = {}
        for weight, table in self.table(group):
            for diplotype, chance in table.items():
                if viable(group, diplotype):
                    found[diplotype] = found.get(diplotype, Fraction(0)) + weight * chance
        total = sum(found.values())
        return {d: chance / total for d, chance in found.items()} if total else {}

    def chance(self, events: Mapping[str, Event]) -> Fraction:
        """Chance that a viable hatchling is of the kind asked for at every group named in `events`.

        0 if no egg is viable.
        """
        asked = ONE
        for name, event in events.items():
            group = self.genome.by_name[name]
            if name not in self.parents:
                if not event(self.genome.wild(group, "female")):
                    return Fraction(0)
                continue
            hit = all_viable = Fraction(0)
            for weight, table in self.table(group):
                hit += weight * self._share(group, table, event)
                all_viable += weight * self._share(group, table, None)
            if not hit:
                return Fraction(0)
            asked *= hit / all_viable
        return asked if self.viable else Fraction(0)

    def rates(self, events: Mapping[str, Event]) -> dict[Fraction, Fraction]:
        """Chance that one egg laid is viable and of the kind asked for -> probability that this is the chance.

        One entry if the parents are certain; sums to 1.
        """
        mixture: dict[Fraction, Fraction] = {ONE: ONE}
        for name in {*events, *(group.name for group in self.groups if group.lethal)}:
            group, event = self.genome.by_name[name], events.get(name)
            if name not in self.parents:
                if event is not None and not event(self.genome.wild(group, "female")):
                    return {Fraction(0): ONE}
                continue
            here: dict[Fraction, Fraction] = {}
            for weight, table in self.table(group):
                q = self._share(group, table, event)
                here[q] = here.get(q, Fraction(0)) + weight
            product: dict[Fraction, Fraction] = {}
            for q, weight in mixture.items():
                for r, other in here.items():
                    product[q * r] = product.get(q * r, Fraction(0)) + weight * other
            mixture = product
        return mixture

    @staticmethod
    def _share(group: Group, table: Mapping[Diplotype, Fraction], event: Event | None) -> Fraction:
        return sum(
            (p for d, p in table.items() if (event is None or event(d)) and viable(group, d)), Fraction(0)
        )
