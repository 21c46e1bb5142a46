"""Pedigrees and clutches put together: what contradicts the records, who sired what, and all places weighed at once."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from itertools import groupby

from ..genetics.factors import Factor, Table
from ..genetics.network import Network
from . import lineage as limits
from .clutch import Clutch
from .doubt import Doubt, Scene
from .lineage import Kin, Lineage
from .told import Dispute, Told
from .ways import Way, counted_together

__all__ = ["Outcome", "reckoned"]

Retold = Callable[[Sequence[str], Sequence[str]], Told]
"""(ids of clutches with too many ways, ids of clutches that no sire fits) -> the clutches without them."""

Pedigrees = Callable[[Mapping[str, Kin]], Mapping[str, Lineage]]
"""Animals -> group name -> their pedigree there, without clutches."""

Place = tuple[str, str]
"""(clutch, group)"""


@dataclass(frozen=True)
class Outcome:
    """What pedigrees and clutches come to. lineages: group name -> the pedigree with everything that is told of it.

    paternity: clutch of unsure sire -> male -> chance that one hatchling of the clutch, no more being known of it, is
    his. fathers: kept animal of open sire -> male -> chance that he is its sire. disputes: what was left out of
    account; tangled: and what was since it entangles the animals too much. scene: group name -> what is written there,
    with nothing left out.
    """

    told: Told
    lineages: Mapping[str, Lineage]
    paternity: Mapping[str, Mapping[str, Fraction]]
    fathers: Mapping[str, Mapping[str, Fraction]]
    disputes: tuple[Dispute, ...]
    tangled: tuple[Place, ...]
    scene: Callable[[str], Scene] = field(compare=False)


def reckoned(retold: Retold, pedigrees: Pedigrees, rate: Fraction) -> Outcome:
    """All clutches that can be reckoned with, and agree, together with the pedigrees.

    A clutch that contradicts the records, or other clutches, is left out at that place; of clutches that contradict one
    another those that are likeliest to hold a mistake, if `rate` of records are wrong. If the places contradict one
    another on who sired what, whole clutches are left out, so that those that come first by id are kept.
    """
    crowded: list[str] = []
    whole = _Together(retold(crowded, ()), pedigrees)
    while (name := whole.most_crowded) is not None:
        crowded.append(name)
        whole = _Together(retold(crowded, ()), pedigrees)
    scene = whole.scene
    tangled = tuple((clutch, name) for name in whole.plain for clutch in whole.tangled(name))
    out = {*tangled}
    if tangled:
        whole = _Together(whole.told, pedigrees, out)
    out |= {(clutch, name) for name in whole.plain for clutch in whole.contradicting(name, rate)}
    refused: list[str] = []
    if out - {*tangled}:
        whole = _Together(whole.told, pedigrees, out)
    if not whole.possible:
        refused = unsure = [clutch.id for clutch in whole.told.unsure]
        for one in unsure:
            fewer = [other for other in refused if other != one]
            if _Together(retold(crowded, fewer), pedigrees, out).possible:
                refused = fewer
        whole = _Together(retold(crowded, refused), pedigrees, out)
    by_id = {clutch.id: clutch for clutch in whole.told.clutches}
    disputes = [Dispute(by_id[key], name) for key, name in sorted(out - {*tangled}) if key not in refused]
    return whole.outcome([*disputes, *(Dispute(by_id[key], "") for key in refused)], tangled, scene)


class _Together:
    """Clutches and pedigrees. The places are independent of one another but for the ways of the clutches: each place
    says something of the ways, and is told what all others say."""

    def __init__(self, told: Told, pedigrees: Pedigrees, out: Collection[Place] = ()) -> None:
        """out: what is left out of account."""
        self.told, self.out = told, out
        self.ways: dict[str, Way] = {}
        for way in told.ways:
            self._add(way)
        self.plain = pedigrees(told.kin)
        self.open = {name: self._with(name, [clutch.id for clutch in told.clutches]) for name in self.plain}

    def _with(self, name: str, ids: Collection[str]) -> Lineage:
        """The pedigree at a place with these clutches."""
        lineage = self.plain[name]
        here = [one for one in self.told.clutches if one.id in ids and (one.id, name) not in self.out]
        closed = [one for one in here if one.id not in self.told.open and one.id not in self.told.refused]
        sure = [self.told.mating(lineage.group, one) for one in closed]
        noted = [note for one in here for note in self.told.notes(lineage.group, one)]
        lineage = lineage.given(sure, (), [note for note in noted if not note.way])
        if lineage is not self.plain[name]:
            lineage = lineage.untangled()
        ways = self._ways_at(lineage, {one.id for one in here})
        matings = [one for way in ways for one in way.matings(lineage.genome, lineage.group)]
        return lineage.given(matings, (), [note for note in noted if note.way])

    def _ways_at(self, lineage: Lineage, ids: Collection[str]) -> list[Way]:
        """The ways of these clutches. Like hatchlings are counted together where their parents' genes are open, since
        the ways then depend on one another."""
        ways: list[Way] = []
        for _, own in groupby((way for way in self.told.ways if way.clutch in ids), lambda way: way.clutch):
            here = list(own)
            if any(len(lineage.states_of(key)) > 1 for key in (here[0].dam, *here[0].sires)):
                here = counted_together(lineage.genome, lineage.group, here)
            ways += here
        for way in ways:
            self._add(way)
        return ways

    def _add(self, way: Way) -> None:
        for part in way.parts:
            self._add(part)
        self.ways[way.name] = way

    @cached_property
    def said(self) -> dict[str, list[Factor]]:
        """Group name -> what the place says of the ways; a place that says nothing of them is not listed."""
        return {name: one.pedigree.network.left(one.pedigree.ways) for name, one in self.open.items() if _ways(one)}

    def known(self, name: str = "") -> Network:
        """All that is known of the ways: what was likely before, and what places say; but not by the animals whose
        genes are open at the place of this name."""
        factors = [way.prior for way in self.ways.values()]
        for other, said in self.said.items():
            own = {*self.open[name].pedigree.telling_ways} if other == name else set()
            factors += [factor for factor in said if not own & {*factor.names}]
        return Network(self._sizes, factors)

    @property
    def _sizes(self) -> dict[str, int]:
        return {way.name: len(way.shares) for way in self.ways.values()}

    def _holds(self, lineage: Lineage) -> bool:
        """Whether all that is told at one place can be true there."""
        ways = _ways(lineage)
        if not ways:
            return lineage.holds
        priors = [way.prior for way in self.ways.values()]
        return Network(self._sizes, [*priors, *lineage.pedigree.network.left(ways)]).possible

    def contradicting(self, name: str, rate: Fraction) -> list[str]:
        """Ids of the clutches to leave out at a place so that the others can all be true there."""
        if self._holds(self.open[name]):
            return []
        order = self._by_trust(name, rate)
        kept: list[str] = []
        out: list[str] = []
        while order:
            low, high = 0, len(order) + 1  # so many more fit, so many do not
            while high - low > 1:
                middle = (low + high) // 2
                if self._holds(self._with(name, {*kept, *order[:middle]})):
                    low = middle
                else:
                    high = middle
            kept, out, order = [*kept, *order[:low]], [*out, *order[low : low + 1]], order[low + 1 :]
        return out

    def tangled(self, name: str) -> list[str]:
        """Ids of the clutches of one sire to leave out at a place since with them too many animals would have to be
        reckoned together. Those that close no loop stay, and of the others as many as can, the largest first."""
        network = self.open[name].pedigree.network
        if network.densest(_ways(self.open[name]))[0] <= limits.LARGEST_TABLE:
            return []
        closed = [one for one in self.told.clutches if one.id not in self.told.open]
        closed.sort(key=lambda one: (-sum(row.count for row in one.hatchlings), one.id))
        ids = [one.id for one in closed]
        if self._fits(name, ids):
            return []
        part = {key: {key} for one in closed for key in (one.dam, one.sires[0])}
        first, later = list[str](), list[str]()
        for one in closed:
            if one.sires[0] in part[one.dam]:
                later.append(one.id)
                continue
            first.append(one.id)
            joined = part[one.dam] | part[one.sires[0]]
            part |= dict.fromkeys(joined, joined)
        low, high = 0, len(later)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self._fits(name, [*first, *later[:middle]]) else (low, middle)
        return later[low:]

    def _fits(self, name: str, ids: Collection[str]) -> bool:
        return self._with(name, ids).pedigree.network.densest()[0] <= limits.LARGEST_TABLE

    def _by_trust(self, name: str, rate: Fraction) -> list[str]:
        """All clutches that have to do with a place, the likeliest to be right first."""
        empty = self._with(name, ())
        ids = [one.id for one in self.told.clutches if self._with(name, [one.id]) is not empty]
        alone = [key for key in ids if not self._holds(self._with(name, [key]))]
        others = [key for key in ids if key not in alone]
        if not rate or self._holds(self._with(name, others)):
            return [*others, *alone]
        about = {key for one in self.told.clutches if one.id in ids for key in (one.dam, *one.sires)}
        doubt = Doubt(self.scene(name), about, rate)
        doubt = doubt if doubt.pedigree else Doubt(self.scene(name), about, rate, narrow=True)
        return [*sorted(others, key=lambda key: (doubt.of_clutch(key), key)), *alone]

    def scene(self, name: str) -> Scene:
        """What is written at a place, and what the others say of the ways."""
        here = self._ways_at(self.plain[name], {one.id for one in self.told.clutches})
        priors = [way.prior for way in self.ways.values()]
        elsewhere = [factor for other, said in self.said.items() if other != name for factor in said]
        both = Network(self._sizes, [*priors, *elsewhere])
        return Scene(self.told, self.plain[name], tuple(here), tuple(both.factors if both.possible else priors))

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

    def outcome(
        self, disputes: Sequence[Dispute], tangled: tuple[Place, ...], scene: Callable[[str], Scene]
    ) -> Outcome:
        lineages = {}
        for name, lineage in self.open.items():
            ways = lineage.pedigree.telling_ways if name in self.said else ()
            lineages[name] = lineage.given((), self.known(name).left(ways)) if ways else lineage
        tables = self.known().marginals if self.ways else {}
        paternity, fathers = self._paternity(tables), self._fathers(tables)
        return Outcome(self.told, lineages, paternity, fathers, tuple(disputes), tangled, scene)

    def _fathers(self, tables: Mapping[str, Table]) -> dict[str, dict[str, Fraction]]:
        found: dict[str, dict[str, Fraction]] = {}
        for way in self.told.ways:
            total = sum(int(weight) for weight in tables[way.name])
            for key in way.kept:
                found[key] = dict.fromkeys(way.sires, Fraction(0))
                for male, weight in zip(way.males, tables[way.name], strict=True):
                    found[key][male] += Fraction(int(weight), total)
        return found

    def _paternity(self, tables: Mapping[str, Table]) -> dict[str, dict[str, Fraction]]:
        found: dict[str, dict[str, Fraction]] = {}
        for clutch in self.told.unsure:
            own = [way for way in self.told.ways if way.clutch == clutch.id and way.sires]
            found[clutch.id] = _shares(clutch, own, tables)
        return found


def _ways(lineage: Lineage) -> tuple[str, ...]:
    """The ways on which chances depend, where clutches or kept animals bring any."""
    return lineage.pedigree.ways if lineage.states or lineage.matings else ()


def _shares(clutch: Clutch, ways: Iterable[Way], tables: Mapping[str, Table]) -> dict[str, Fraction]:
    counts = dict.fromkeys(clutch.sires, Fraction(0))
    for way in ways:
        total = sum(int(weight) for weight in tables[way.name])
        for share, weight in zip(way.shares, tables[way.name], strict=True):
            for sire, number in zip(way.sires, share, strict=True):
                counts[sire] += Fraction(number * int(weight), total)
    born = sum(counts.values())
    return {sire: number / born if born else Fraction(1, len(counts)) for sire, number in counts.items()}
