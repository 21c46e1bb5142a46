"""Pedigrees and clutches put together: what contradicts the records, who sired what, and all places weighed at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import groupby

from ..genetics import Mating
from ..genetics.factors import Factor
from ..genetics.network import Network
from . import lineage as limits
from .clutch import Clutch
from .lineage import Kin, Lineage
from .told import Dispute, Told
from .ways import Way, counted_together

__all__ = ["Outcome", "reckoned"]

Retold = Callable[[Sequence[str], Sequence[str]], Told]
"""(ids of clutches with too many ways, ids of clutches that no sire fits) -> the clutches without them."""

Pedigrees = Callable[[Mapping[str, Kin]], Mapping[str, Lineage]]
"""Animals -> group name -> their pedigree there, without clutches."""


@dataclass(frozen=True)
class Outcome:
    """What pedigrees and clutches come to. lineages: group name -> the pedigree with everything that is told of it.

    paternity: clutch of unsure sire -> male -> chance that one hatchling of the clutch, no more being known of it, is
    his. disputes: what was left out of account.
    """

    told: Told
    lineages: Mapping[str, Lineage]
    paternity: Mapping[str, Mapping[str, Fraction]]
    disputes: tuple[Dispute, ...]


def reckoned(retold: Retold, pedigrees: Pedigrees) -> Outcome:
    """All clutches that can be reckoned with, and agree, together with the pedigrees.

    Of clutches with unsure sires that contradict the records or one another, those that come first are kept.
    """
    crowded: list[str] = []
    whole = _Together(retold(crowded, ()), pedigrees)
    while (name := whole.most_crowded) is not None:
        crowded.append(name)
        whole = _Together(retold(crowded, ()), pedigrees)
    if whole.possible:
        return whole.outcome(())
    unsure = [clutch.id for clutch in whole.told.unsure]
    refused = list(unsure)
    for name in unsure:
        fewer = [other for other in refused if other != name]
        if _Together(retold(crowded, fewer), pedigrees).possible:
            refused = fewer
    left_out = [clutch for clutch in whole.told.unsure if clutch.id in refused]
    disputes = [Dispute(clutch, "", None, whole.told.seen[clutch.id]) for clutch in left_out]
    return _Together(retold(crowded, refused), pedigrees).outcome(disputes)


class _Together:
    """Clutches and pedigrees. The places are independent of one another but for the ways of clutches of unsure sire:
    each place says something of the ways, and is told what all others say."""

    def __init__(self, told: Told, pedigrees: Pedigrees) -> None:
        self.told = told
        self.disputes: list[Dispute] = []
        self.ways: dict[str, Way] = {}
        for way in told.ways:
            self._add(way)
        self.sure = {name: self._sure(name, one) for name, one in pedigrees(told.kin).items()}
        self.open = {name: self._open(one) for name, one in self.sure.items()} if self.ways else self.sure

    def _sure(self, name: str, lineage: Lineage) -> Lineage:
        """With the clutches of one sire, one by one if they cannot all be true."""
        clutches = self.told.sure
        matings = [self.told.mating(lineage.group, clutch) for clutch in clutches]
        whole = lineage.with_matings(matings)
        if whole is lineage or whole.holds:
            return whole
        whole, kept, counted = lineage, list[Mating](), list[Clutch]()
        for clutch, mating in zip(clutches, matings, strict=True):
            longer = lineage.with_matings([*kept, mating])
            if longer.holds:
                whole, kept, counted = longer, [*kept, mating], [*counted, clutch]
            else:
                self.disputes.append(Dispute(clutch, name, whole, self.told.seen[clutch.id], tuple(counted)))
        return whole

    def _open(self, lineage: Lineage) -> Lineage:
        """With the clutches of unsure sire. Like hatchlings are counted together where their parents' genes are open,
        since the ways then depend on one another."""
        ways: list[Way] = []
        for _, own in groupby(self.told.ways, lambda way: way.clutch):
            here = list(own)
            if any(len(lineage.states_of(key)) > 1 for key in (here[0].dam, *here[0].sires)):
                here = counted_together(lineage.genome, lineage.group, here)
            ways += here
        matings = [one for way in ways for one in way.matings(lineage.genome, lineage.group)]
        matings = [one for one in matings if lineage.says_something(one)]
        for way in ways:
            self._add(way)
        return lineage.given(matings) if matings else lineage

    def _add(self, way: Way) -> None:
        for part in way.parts:
            self._add(part)
        self.ways[way.name] = way

    @cached_property
    def said(self) -> dict[str, list[Factor]]:
        """Group name -> what the place says of the ways; a place that says nothing of them is not listed."""
        found = {name: lineage.pedigree for name, lineage in self.open.items()}
        return {name: one.network.left(one.ways) for name, one in found.items() if one.ways}

    def known(self, name: str = "") -> Network:
        """All that is known of the ways: what was likely before, and what places say; but not by the animals whose
        genes are open at the place of this name."""
        sizes = {way.name: len(way.shares) for way in self.ways.values()}
        factors = [way.prior for way in self.ways.values()]
        for other, said in self.said.items():
            own = {*self.open[name].pedigree.telling_ways} if other == name else set()
            factors += [factor for factor in said if not own & {*factor.names}]
        return Network(sizes, factors)

    @property
    def possible(self) -> bool:
        """Whether all can be true."""
        return self.known().possible

    @property
    def most_crowded(self) -> str | None:
        """The clutch to leave out, if tables grow too large: the one with most ways in the largest of them."""
        for own in [lineage.pedigree for lineage in self.open.values()] if self.ways else ():
            if own.ways and (clutch := self._crowding(*own.network.densest(own.ways))):
                return clutch
        for name in ("", *self.said):
            ways = self.open[name].pedigree.telling_ways if name else ()
            if clutch := self._crowding(*self.known(name).densest(ways)):
                return clutch
        return None

    def _crowding(self, largest: int, crowd: frozenset[str]) -> str | None:
        numbers: dict[str, int] = {}
        for name, way in self.ways.items():
            if name in crowd:
                numbers[way.clutch] = numbers.get(way.clutch, 1) * len(way.shares)
        if largest <= limits.LARGEST_TABLE or not numbers:
            return None
        return max(numbers, key=lambda clutch: (numbers[clutch], clutch))

    def outcome(self, disputes: Sequence[Dispute]) -> Outcome:
        lineages = {}
        for name, lineage in self.open.items():
            ways = lineage.pedigree.telling_ways if name in self.said else ()
            lineages[name] = lineage.given((), self.known(name).left(ways)) if ways else lineage
        return Outcome(self.told, lineages, self._paternity(), (*self.disputes, *disputes))

    def _paternity(self) -> dict[str, dict[str, Fraction]]:
        tables = self.known().marginals
        found: dict[str, dict[str, Fraction]] = {}
        for clutch in self.told.unsure:
            own = [way for way in self.told.ways if way.clutch == clutch.id]
            counts = dict.fromkeys(clutch.sires, Fraction(0))
            for way in own:
                total = sum(int(weight) for weight in tables[way.name])
                for share, weight in zip(way.shares, tables[way.name], strict=True):
                    for sire, number in zip(way.sires, share, strict=True):
                        counts[sire] += Fraction(number * int(weight), total)
            born = sum(counts.values())
            found[clutch.id] = {
                sire: number / born if born else Fraction(1, len(counts)) for sire, number in counts.items()
            }
        return found
