"""Who could be wrong where a clutch contradicts the records."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

from ..genetics import WILD, Diplotype, Genome, Genotype, Group, Mating, order, viable
from ..looks import shown
from .clutch import Clutch
from .knowledge import Knowledge
from .lineage import Kin, Lineage
from .observations import Seen, mating_of
from .told import Dispute

__all__ = ["suspects"]


def suspects(knowledge: Knowledge, dispute: Dispute, rate: Fraction) -> tuple[tuple[str, Fraction], ...]:
    """Records that could be wrong, each with the chance that it is, if as few are wrong as will do; likeliest first.

    Any animal or hatchling that has to do with the clutch at that place may be written wrong. rate: the chance that a
    record is. A wrong label may hide any genotype of its place, each as likely; a wrong hatchling may be of any other
    look of its place. Empty for a dispute about who sired a clutch.
    """
    if dispute.lineage is None or not rate:
        return ()
    case = _Case(knowledge, dispute)
    weights: dict[str, Fraction] = {}
    for clutch in (dispute.clutch, *case.others):
        place = "" if clutch is dispute.clutch else f" in clutch {clutch.id}"
        for (row, count), fewer in zip(case.seen[clutch.id], _one_fewer(case.seen[clutch.id]), strict=True):
            if count:
                name = f"one hatchling written as {row.look}{place}"
                chance = case.chance((), [(clutch, fewer)]) * rate * count / case.other_looks
                weights[name] = weights.get(name, Fraction(0)) + chance
    for key in case.family:
        weights[f"the record of {key}"] = case.chance((key,)) * rate
    if not any(weights.values()):
        parents = (dispute.clutch.dam, dispute.clutch.sires[0])
        weights[f"the records of {' and '.join(parents)} both"] = case.chance(parents)
    total = sum(weights.values(), Fraction(0))
    found = [(name, weight / total) for name, weight in weights.items() if weight]
    return tuple(sorted(found, key=lambda item: (-item[1], item[0])))


class _Case:
    """A dispute taken up. family: the animals that have to do with it at its place, sorted; others: the clutches of
    theirs that were counted before it; seen: clutch -> its hatchlings."""

    def __init__(self, knowledge: Knowledge, dispute: Dispute) -> None:
        assert dispute.lineage is not None
        self.lineage, self.genome = dispute.lineage, knowledge.genome
        clutches = (dispute.clutch, *dispute.others)
        self.seen = {one.id: knowledge.told.seen[one.id] for one in clutches}
        self.matings = {one.id: self._mating(one, self.seen[one.id]) for one in clutches}
        self.family = sorted(_family(self.lineage, (dispute.clutch.dam, dispute.clutch.sires[0])))
        open_ones = {key for key in self.family if len(self.lineage.states_of(key)) > 1}
        self.others = [one for one in dispute.others if open_ones & {one.dam, *one.sires}]
        self.anything = _anything(knowledge, self.lineage.group, dispute.seen)
        self.other_looks = max(1, len({shown(self.lineage.group, diplotype) for diplotype in self.anything}) - 1)
        self.bare = self._without(())

    def chance(self, doubted: Sequence[str] = (), instead: Sequence[tuple[Clutch, Sequence[Seen]]] = ()) -> Fraction:
        """The chance of everything, with the labels of some animals taken for nothing, and other hatchlings in some
        clutches."""
        changed = {one.id: self._mating(one, seen) for one, seen in instead}
        loose = self._without(doubted) if doubted else self.bare
        return loose.with_matings([*{**self.matings, **changed}.values()]).chance

    def _mating(self, clutch: Clutch, seen: Sequence[Seen]) -> Mating:
        return mating_of(self.genome, self.lineage.group, clutch.dam, clutch.sires[0], seen)

    def _without(self, doubted: Sequence[str]) -> Lineage:
        """The pedigree without clutches, and without what is written of these."""
        kin = dict(self.lineage.kin)
        for key in doubted:
            label = Genotype(self.genome, {**kin[key].label.parts, self.lineage.group.name: self.anything})
            kin[key] = Kin(kin[key].sex, label)
        one = self.lineage
        return Lineage(self.genome, one.group, kin, one.clashing, one.tested, one.apart)


def _family(lineage: Lineage, pair: Sequence[str]) -> set[str]:
    """The pair, all before them, and whoever a change of their genes could reach: beyond an animal that is certain of
    its genes only what made it so."""
    young: dict[str, list[str]] = {}
    for key, member in lineage.members.items():
        for parent in member.parents:
            young.setdefault(parent, []).append(key)
    for mating in lineage.matings:
        young.setdefault(mating.dam, []).append(mating.sire)
        young.setdefault(mating.sire, []).append(mating.dam)
    found, ahead = set[str](), [*pair]
    while ahead:
        key = ahead.pop()
        if key not in found:
            found.add(key)
            ahead += lineage.kin[key].possible_parents
            if len(lineage.states_of(key)) > 1:
                ahead += young.get(key, ())
    return found


def _one_fewer(seen: Sequence[Seen]) -> Iterator[tuple[Seen, ...]]:
    for i, (row, count) in enumerate(seen):
        yield (*seen[:i], (row, max(0, count - 1)), *seen[i + 1 :])


def _anything(knowledge: Knowledge, group: Group, seen: tuple[Seen, ...]) -> dict[Diplotype, Fraction]:
    """Every viable genotype of the genes met at a group, each as likely."""
    genome: Genome = knowledge.genome
    met = {gene for row, _ in seen for gene, _ in row.seen.get(group.name, ())}
    met |= {
        allele
        for animal in knowledge.kin.values()
        for diplotype in animal.label.part(group)
        for haplotype in diplotype
        for allele in haplotype[group.sex :]
    }
    choices = [[WILD, *(name for name in locus.by_name if name in met)] for locus in group.loci]
    pairs = list(product(product(*choices), repeat=2))
    if group.sex:
        made = {genome.pair(group, one, two, sex) for one, two in pairs for sex in ("female", "male")}
    else:
        made = {order(one, two) for one, two in pairs}
    living = sorted(diplotype for diplotype in made if viable(group, diplotype))
    return {diplotype: Fraction(1, len(living)) for diplotype in living}
