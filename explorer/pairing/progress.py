"""How far a pairing is expected to bring a target nearer: the number that the sharing out of males adds up.

Progress is what the best hatchling of a clutch is worth on average, counting only hatchlings that are worth more than
either parent; if there is none, or no clutch, that is 0. An animal that shows the target is worth 1; a second copy that
is missing halves that, a gene that is missing divides it by four (`standing.Standing`). The mean is exact: the parents'
true genotypes are those of their joint distribution, all eggs of a clutch share them, and eggs that are not viable or
do not hatch count for nothing.

What the hatchling is worth, and not by how much it betters its parents: else a lesser mate would beat a better one with
which the same hatchlings come more often.

Its limits: a hatchling counts as what it is, even where a keeper cannot tell a carrier from its siblings; sex counts
for nothing, and neither do later seasons or what the rest of the collection has.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from math import lcm

from ..genetics import Brood, Diplotype, Group, Parents, egg_law, exact, none_of, viable, zygotes
from ..looks import carried
from .odds import Offspring, checked_rate
from .standing import Reading, Standing

__all__ = ["ProgressToward", "progress"]

Eggs = tuple[tuple[Reading, int], ...]
"""What one egg may be, with its weight. Weights are parts of one total for a table; what is missing does not live."""


@dataclass(frozen=True)
class _Table:
    """One group of a pairing. cases: (dam's reading, sire's, eggs) -> probability; total: of the weights of eggs."""

    cases: tuple[tuple[tuple[Reading, Reading, Eggs], Fraction], ...]
    total: int

    @cached_property
    def empty(self) -> bool:
        """Whether the group says nothing: no points, no marks, every egg alive."""
        return all(case == ((0, 0), (0, 0), (((0, 0), self.total),)) for case, _ in self.cases)


class ProgressToward:
    """Progress toward one target with clutches of one kind; remembers what it has worked out.

    standing: toward the target. eggs: laid in a clutch, or number -> chance; hatch_rate: share of viable eggs that
    hatch; lay_rate: chance that there is a clutch at all. Raises ValueError if one of them makes no sense.
    """

    def __init__(
        self,
        standing: Standing,
        *,
        eggs: int | Mapping[int, float | Fraction],
        hatch_rate: float | Fraction = 1,
        lay_rate: float | Fraction = 1,
    ) -> None:
        self.standing, self.law = standing, egg_law(eggs)
        self.hatch_rate, self.lay_rate = checked_rate(hatch_rate), exact(lay_rate)
        if not 0 <= self.lay_rate <= 1:
            raise ValueError(f"a lay rate lies from 0 to 1, found {lay_rate}")
        self._tables: dict[tuple[str, int, frozenset[tuple[tuple[Diplotype, Diplotype], Fraction]]], _Table] = {}
        self._same: dict[_Table, _Table] = {}
        self._products: dict[tuple[Eggs, Eggs], Eggs] = {}
        self._known: dict[tuple[int, ...], Fraction] = {}

    def of(self, brood: Brood) -> Fraction:
        """Progress of a pairing, from 0 to 1; 0 toward a target that asks for nothing."""
        if not self.standing.most:
            return Fraction(0)
        groups = [group for group in brood.groups if self.standing.matters(group)]
        telling = self.standing.telling(_present(groups, brood))
        tables = [self._table(group, brood.parents[group.name], telling) for group in groups]
        tables = [table for table in tables if not table.empty]
        key = tuple(map(id, tables))
        if key not in self._known:
            self._known[key] = self.lay_rate * self._worth(tables)
        return self._known[key]

    def _table(self, group: Group, parents: Parents, telling: int) -> _Table:
        key = (group.name, telling, frozenset(parents.items()))
        found = self._tables.get(key)
        if found is None:
            found = self._worked_out(group, parents, telling)
            self._tables[key] = found = self._same.setdefault(found, found)
        return found

    def _worked_out(self, group: Group, parents: Parents, telling: int) -> _Table:
        def read(diplotype: Diplotype) -> Reading:
            points, marks = self.standing.reading(group, diplotype)
            return points, marks & telling

        rows: dict[tuple[Reading, Reading, tuple[tuple[Reading, Fraction], ...]], Fraction] = {}
        for (dam, sire), weight in parents.items():
            eggs: dict[Reading, Fraction] = {}
            for diplotype, chance in zygotes(group, dam, sire).items():
                if viable(group, diplotype):
                    eggs[read(diplotype)] = eggs.get(read(diplotype), Fraction(0)) + chance
            case = (read(dam), read(sire), tuple(sorted(eggs.items())))
            rows[case] = rows.get(case, Fraction(0)) + weight
        total = lcm(*(chance.denominator for _, _, eggs in rows for _, chance in eggs))
        cases = {
            (dam, sire, tuple((reading, int(chance * total)) for reading, chance in eggs)): weight
            for (dam, sire, eggs), weight in rows.items()
        }
        return _Table(tuple(sorted(cases.items())), total)

    def _worth(self, tables: Iterable[_Table]) -> Fraction:
        """Mean worth of the best of a clutch among those that are worth more than either parent."""
        nothing: Reading = (0, 0)
        cases: dict[tuple[Reading, Reading, Eggs], Fraction] = {(nothing, nothing, ((nothing, 1),)): Fraction(1)}
        total = 1
        for table in tables:
            total *= table.total
            longer: dict[tuple[Reading, Reading, Eggs], Fraction] = {}
            for (dam, sire, eggs), weight in cases.items():
                for (other_dam, other_sire, more), share in table.cases:
                    case = (_both(dam, other_dam), _both(sire, other_sire), self._product(eggs, more))
                    longer[case] = longer.get(case, Fraction(0)) + weight * share
            cases = longer
        return sum((w * self._clutch(dam, sire, eggs, total) for (dam, sire, eggs), w in cases.items()), Fraction(0))

    def _clutch(self, dam: Reading, sire: Reading, eggs: Eggs, total: int) -> Fraction:
        """The same for parents whose true readings are given."""
        worth = self.standing.worth_of
        start = max(worth(dam), worth(sire))
        better: dict[Fraction, int] = {}
        for reading, weight in eggs:
            if (found := worth(reading)) > start:
                better[found] = better.get(found, 0) + weight
        gain, above = Fraction(0), sum(better.values())
        for below, level in pairwise([Fraction(0), *sorted(better)]):
            gain += (level - below) * (1 - none_of(self.law, self.hatch_rate * Fraction(above, total)))
            above -= better[level]
        return gain

    def _product(self, eggs: Eggs, more: Eggs) -> Eggs:
        found = self._products.get((eggs, more))
        if found is None:
            sums: dict[Reading, int] = {}
            for one, weight in eggs:
                for two, other in more:
                    sums[_both(one, two)] = sums.get(_both(one, two), 0) + weight * other
            found = self._products[eggs, more] = tuple(sorted(sums.items()))
        return found


def progress(
    odds: Offspring,
    target: str,
    *,
    eggs: int | Mapping[int, float | Fraction],
    hatch_rate: float | Fraction = 1,
    lay_rate: float | Fraction = 1,
    without: str | Iterable[str] = (),
    allow: str | Iterable[str] = (),
) -> Fraction:
    """Progress of one pairing toward a target in shorthand, from 0 to 1, as the head of this module defines it.

    without: genes that must not show. allow: genes (or "all") whose cautions no longer count. Raises GenesError if a
    text cannot be read.
    """
    standing = Standing.of(odds.catalogue, target, without=without, allow=allow)
    return ProgressToward(standing, eggs=eggs, hatch_rate=hatch_rate, lay_rate=lay_rate).of(odds.brood)


def _present(groups: Iterable[Group], brood: Brood) -> set[str]:
    """Genes that a parent may carry."""
    return {
        gene
        for group in groups
        for pair in brood.parents[group.name]
        for diplotype in pair
        for gene in carried(group, diplotype)
    }


def _both(one: Reading, two: Reading) -> Reading:
    return one[0] + two[0], one[1] | two[1]
