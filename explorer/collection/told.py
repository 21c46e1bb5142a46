"""What clutches tell, together: who may have sired them, and how likely each way is given everything that is known."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

from ..genetics import Genome, Group, Mating
from .clutch import Clutch
from .lineage import Kin, Lineage
from .observations import MOST_WAYS, Assignment, Seen, assignments, mating_of, unkept, ways

__all__ = ["Dispute", "Mixture", "Told", "weighed"]

Mixture = tuple[tuple[Fraction, Lineage], ...]
"""The ways in which one group's pedigree may be, with their chances; sums to 1."""


@dataclass(frozen=True)
class Dispute:
    """A clutch that cannot be as it is written, given everything else. group: the place, "" for the whole clutch.

    It is left out of account there. lineage: everything else at that place; matings: what the clutch says there.
    """

    clutch: Clutch
    group: str
    lineage: Lineage | None = None
    seen: tuple[Seen, ...] = ()


@dataclass(frozen=True)
class Told:
    """Clutches made ready. kin: the animals, with parents filled in for kept hatchlings where the clutch settles them.

    seen: clutch id -> its hatchlings that are no animals of the collection; kept: clutch id -> those that are.
    strangers: kept animals that match no row of their clutch. crowded: ids of clutches left out, with too many ways.
    """

    genome: Genome
    kin: Mapping[str, Kin]
    clutches: tuple[Clutch, ...]
    seen: Mapping[str, tuple[Seen, ...]]
    kept: Mapping[str, tuple[str, ...]]
    strangers: tuple[str, ...]
    crowded: tuple[str, ...]

    @classmethod
    def of(cls, genome: Genome, kin: Mapping[str, Kin], clutches: Sequence[Clutch]) -> Told:
        """From the animals (parents before their offspring) and the clutches; animals name their clutch."""
        filled = dict(kin)
        seen: dict[str, tuple[Seen, ...]] = {}
        kept: dict[str, tuple[str, ...]] = {}
        strangers: list[str] = []
        crowded: list[str] = []
        for clutch in sorted(clutches, key=lambda one: (str(one.laid or one.hatched or ""), one.id)):
            named = sorted(key for key, animal in kin.items() if animal.clutch == clutch.id)
            mine = tuple(key for key in named if _may_be_of(key, clutch, filled))
            strangers += [key for key in named if key not in mine]
            rows, unmatched = unkept(clutch, {key: (kin[key].label, kin[key].sex) for key in mine}, genome)
            seen[clutch.id], kept[clutch.id] = rows, mine
            strangers += unmatched
            for key in mine:
                sire = filled[key].sire or (clutch.sires[0] if len(clutch.sires) == 1 else None)
                filled[key] = replace(filled[key], dam=filled[key].dam or clutch.dam, sire=sire)
        filled = _after_parents(filled, kept, {clutch.id: clutch for clutch in clutches})
        total = 1
        clutches = sorted(clutches, key=lambda one: (str(one.laid or one.hatched or ""), one.id))
        for clutch in clutches:
            total *= ways(clutch, seen[clutch.id], _open(clutch, kept[clutch.id], filled))
            if total > MOST_WAYS:
                total //= max(1, ways(clutch, seen[clutch.id], _open(clutch, kept[clutch.id], filled)))
                crowded.append(clutch.id)
        given = tuple(clutch for clutch in clutches if clutch.id not in crowded)
        return cls(genome, filled, given, seen, kept, tuple(strangers), tuple(crowded))

    def open_kept(self, clutch: Clutch) -> tuple[str, ...]:
        """Kept hatchlings of a clutch whose sire is not settled."""
        return _open(clutch, self.kept[clutch.id], self.kin)


def weighed(
    lineages: Mapping[str, Lineage], told: Told
) -> tuple[dict[str, Mixture], dict[str, dict[str, Fraction]], tuple[Dispute, ...]]:
    """What the clutches make of the pedigrees: group name -> mixture, clutch id -> sire -> chance, and disputes.

    lineages: group name -> the pedigree without clutches. The chance of a sire is that one hatchling of the clutch, no
    more being known of it, is his.
    """
    sure = [clutch for clutch in told.clutches if len(clutch.sires) == 1]
    unsure = [clutch for clutch in told.clutches if len(clutch.sires) > 1]
    disputes: list[Dispute] = []
    settled: dict[str, tuple[Lineage, list[Mating]]] = {}
    for name, lineage in lineages.items():
        matings: list[Mating] = []
        all_at_once = [_mating(told, lineage.group, clutch) for clutch in sure]
        whole = lineage.with_matings(told.kin, all_at_once)
        if all_at_once and not whole.holds:
            whole = lineage
            for clutch, mating in zip(sure, all_at_once, strict=True):
                longer = lineage.with_matings(told.kin, [*matings, mating])
                if longer.holds:
                    matings, whole = [*matings, mating], longer
                else:
                    disputes.append(Dispute(clutch, name, whole, told.seen[clutch.id]))
        else:
            matings = all_at_once
        settled[name] = whole, matings
    if not unsure:
        return {name: ((Fraction(1), one),) for name, (one, _) in settled.items()}, {}, tuple(disputes)
    return _mixed(settled, told, unsure, disputes)


def _mixed(
    settled: Mapping[str, tuple[Lineage, list[Mating]]],
    told: Told,
    unsure: list[Clutch],
    disputes: list[Dispute],
) -> tuple[dict[str, Mixture], dict[str, dict[str, Fraction]], tuple[Dispute, ...]]:
    options = [_options(told, c) for c in unsure]
    concerned = {
        name: [i for i, clutch in enumerate(unsure) if _concerns(told, clutch, name, lineage)]
        for name, (lineage, _) in settled.items()
    }
    lineages: dict[str, dict[tuple[int, ...], Lineage]] = {name: {} for name in settled}
    chances: dict[str, dict[tuple[int, ...], Fraction]] = {name: {} for name in settled}
    for name, (base, matings) in settled.items():
        for at in product(*(range(len(options[i])) for i in concerned[name])):
            chosen = [(unsure[i], options[i][k]) for i, k in zip(concerned[name], at, strict=True)]
            lineages[name][at] = _under(base, matings, told, chosen)
        common = set.intersection(*(one.clashing for one in lineages[name].values()))
        for at, one in lineages[name].items():
            chances[name][at] = Fraction(0) if one.clashing - common else one.chance
    weights: dict[tuple[int, ...], Fraction] = {}
    for at in product(*(range(len(one)) for one in options)):
        weight = math.prod((options[i][k].weight for i, k in enumerate(at)), start=Fraction(1))
        for name in settled:
            weight *= chances[name][tuple(at[i] for i in concerned[name])]
            if not weight:
                break
        weights[at] = weight
    total = sum(weights.values(), Fraction(0))
    if not total:
        gone = unsure.pop()
        disputes.append(Dispute(gone, "", None, told.seen[gone.id]))
        if not unsure:
            return {name: ((Fraction(1), one),) for name, (one, _) in settled.items()}, {}, tuple(disputes)
        return _mixed(settled, told, unsure, disputes)
    mixtures = {}
    for name in settled:
        mixed: dict[tuple[int, ...], Fraction] = {}
        for at, weight in weights.items():
            part = tuple(at[i] for i in concerned[name])
            mixed[part] = mixed.get(part, Fraction(0)) + weight / total
        mixtures[name] = tuple((weight, lineages[name][part]) for part, weight in mixed.items() if weight)
    return mixtures, _paternity(unsure, options, weights, total), tuple(disputes)


def _options(told: Told, c: Clutch) -> list[Assignment]:
    found = list(assignments(c, told.seen[c.id], told.open_kept(c)))
    if c.several:
        return found
    fixed = {told.kin[key].sire for key in told.kept[c.id]} - {None}
    return [way for way in found if fixed <= set(way.broods)]


def _under(
    base: Lineage, matings: list[Mating], told: Told, chosen: Sequence[tuple[Clutch, Assignment]]
) -> Lineage:
    kin, more = dict(told.kin), list(matings)
    for clutch, way in chosen:
        for key, sire in way.sires.items():
            kin[key] = replace(kin[key], sire=sire)
        more += [
            mating_of(told.genome, base.group, clutch.dam, sire, rows) for sire, rows in way.broods.items() if rows
        ]
    if any(way.sires for _, way in chosen):
        base = Lineage.consistent(base.genome, base.group, kin, tested=base.tested)
    return base.with_matings(kin, more)


def _may_be_of(key: str, clutch: Clutch, kin: Mapping[str, Kin]) -> bool:
    """Whether the recorded parents are those of the clutch, and the animal none of their ancestors."""
    if kin[key].dam not in (None, clutch.dam) or kin[key].sire not in (None, *clutch.sires):
        return False
    ahead, above = [clutch.dam, *clutch.sires], set[str]()
    while ahead:
        one = ahead.pop()
        if one not in above:
            above.add(one)
            ahead += kin[one].parents
    return key not in above


def _after_parents(
    kin: Mapping[str, Kin], kept: Mapping[str, Sequence[str]], clutches: Mapping[str, Clutch]
) -> dict[str, Kin]:
    """Parents, and all males that may be, before their offspring."""
    may = {key: clutches[name].sires for name, keys in kept.items() for key in keys if kin[key].sire is None}
    placed: dict[str, Kin] = {}
    waiting = sorted(kin)
    while waiting:
        now = [k for k in waiting if all(p in placed for p in (*kin[k].parents, *may.get(k, ())))]
        placed |= {k: kin[k] for k in now}
        waiting = [k for k in waiting if k not in placed]
    return placed


def _concerns(told: Told, clutch: Clutch, name: str, lineage: Lineage) -> bool:
    if any(name in row.seen for row in clutch.hatchlings):
        return True
    family = (clutch.dam, *clutch.sires, *told.kept[clutch.id])
    return any(lineage.states_of(key) != (lineage.wild(key),) for key in family)


def _paternity(
    unsure: Sequence[Clutch],
    options: Sequence[Sequence[Assignment]],
    weights: Mapping[tuple[int, ...], Fraction],
    total: Fraction,
) -> dict[str, dict[str, Fraction]]:
    found: dict[str, dict[str, Fraction]] = {}
    for i, clutch in enumerate(unsure):
        shares = dict.fromkeys(clutch.sires, Fraction(0))
        for at, weight in weights.items():
            way = options[i][at[i]]
            counts = {sire: sum(n for _, n in way.broods.get(sire, ())) for sire in clutch.sires}
            for sire in way.sires.values():
                counts[sire] += 1
            born = sum(counts.values())
            for sire in clutch.sires:
                own = Fraction(counts[sire], born) if born else Fraction(sire in way.broods, len(way.broods))
                shares[sire] += weight / total * own
        found[clutch.id] = shares
    return found


def _mating(told: Told, group: Group, clutch: Clutch) -> Mating:
    return mating_of(told.genome, group, clutch.dam, clutch.sires[0], told.seen[clutch.id])


def _open(clutch: Clutch, kept: Sequence[str], kin: Mapping[str, Kin]) -> tuple[str, ...]:
    return tuple(key for key in kept if kin[key].sire is None) if len(clutch.sires) > 1 else ()
