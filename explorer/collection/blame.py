"""Who could be wrong where a clutch contradicts the records."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product

from ..genetics import WILD, Diplotype, Genome, Genotype, Group, order, viable
from ..looks import shown
from .knowledge import Knowledge
from .lineage import Kin, Lineage
from .observations import Seen, mating_of
from .told import Dispute

__all__ = ["suspects"]


def suspects(knowledge: Knowledge, dispute: Dispute, rate: Fraction) -> tuple[tuple[str, Fraction], ...]:
    """Records that could be wrong, each with the chance that it is, if as few are wrong as will do; likeliest first.

    rate: the chance that a record is wrong. A wrong label may hide any genotype of its place, each as likely; a wrong
    hatchling may be of any other look of its place. Empty for a dispute about who sired a clutch.
    """
    if dispute.lineage is None or not rate:
        return ()
    lineage, clutch, genome = dispute.lineage, dispute.clutch, knowledge.genome
    anything = _anything(knowledge, lineage.group, dispute.seen)
    parents = (clutch.dam, clutch.sires[0])

    def chance(seen: tuple[Seen, ...], doubted: tuple[str, ...] = ()) -> Fraction:
        """The chance of everything, with these hatchlings, and with the labels of some animals taken for nothing."""
        kin = dict(lineage.kin)
        for key in doubted:
            label = Genotype(genome, {**kin[key].label.parts, lineage.group.name: anything})
            kin[key] = Kin(kin[key].sex, label)
        loose = Lineage(genome, lineage.group, kin, lineage.clashing, (), lineage.tested, lineage.apart)
        mating = mating_of(genome, lineage.group, clutch.dam, clutch.sires[0], seen)
        return loose.with_matings(kin, [*lineage.matings, mating]).chance

    others = max(1, len({shown(lineage.group, diplotype) for diplotype in anything}) - 1)
    weights: dict[str, Fraction] = {}
    for (row, count), fewer in zip(dispute.seen, _one_fewer(dispute.seen), strict=True):
        if count:
            weights[f"one hatchling written as {row.look}"] = chance(fewer) * rate * count / others
    for key in parents:
        weights[f"the record of {key}"] = chance(dispute.seen, (key,)) * rate
    if not any(weights.values()):
        weights[f"the records of {' and '.join(parents)} both"] = chance(dispute.seen, parents)
    total = sum(weights.values(), Fraction(0))
    found = [(name, weight / total) for name, weight in weights.items() if weight]
    return tuple(sorted(found, key=lambda item: (-item[1], item[0])))


def _one_fewer(seen: tuple[Seen, ...]) -> Iterator[tuple[Seen, ...]]:
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
