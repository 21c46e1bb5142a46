"""What a hatchling of a clutch that was written down carries, given its look and everything else that is known."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ..collection import Collection, Knowledge
from ..collection.clutch import Clutch, Hatchlings
from ..genetics import Diplotype, Genome, Genotype, Group, Part, normalised, viable, zygotes
from ..notation import read_genes, write_shown

__all__ = ["Hatched", "hatched"]

APART = " "
"""Name of a clutch of one hatchling that is looked at by itself; no clutch of a file can have it."""

Parts = Mapping[str, Part]
"""Group name -> what a hatchling has there."""

Way = tuple[Knowledge, str, Fraction]
"""What is known if this sire sired a clutch, the sire, and the chance that he did."""


@dataclass(frozen=True)
class Hatched:
    """Like hatchlings of a clutch. left: how many of them are no animals of the collection, at least 1.

    genotype: of each of them by itself, exact at each place. sires: male -> chance that he is its sire; sums to 1.
    explained: whether its parents can have given it that look; where not, its look alone says what it carries.
    """

    row: Hatchlings
    left: int
    genotype: Genotype
    sires: Mapping[str, Fraction]
    explained: bool = True

    @property
    def look(self) -> str:
        """What surely shows, in shorthand."""
        return write_shown(self.genotype.genome, {gene: n for part in self.row.seen.values() for gene, n in part})

    @property
    def sire(self) -> str | None:
        """Its sire, where that is certain."""
        return next((key for key, chance in self.sires.items() if chance == 1), None)


def hatched(
    animals: Collection, clutch: Clutch, progress: Callable[[float, str], None] | None = None
) -> tuple[Hatched, ...]:
    """The hatchlings that are no animals of the collection yet, in the order of the clutch's rows.

    animals: after `Collection.updated` with a clutch book that holds the clutch. progress: told the share of the work
    that is done; where several males may have sired a clutch, each row is work by itself.
    """
    shared = clutch.several and len(clutch.sires) > 1
    ways = [] if shared else _ways(animals, animals.clutches, clutch.id)
    found, seen = [], animals.knowledge.told.seen[clutch.id]
    for number, (row, left) in enumerate(seen):
        if progress is not None:
            progress(number / len(seen), row.look)
        if left and shared:
            ways = _ways(animals, _one_apart(animals, clutch, number), APART)
        if left:
            found.append(_of(animals.knowledge, APART if shared else clutch.id, clutch, row, left, ways))
    return tuple(found)


def _one_apart(animals: Collection, clutch: Clutch, number: int) -> list[Clutch]:
    """All clutches, with one hatchling of a row taken out of its clutch; it is of one sire, whoever else is."""
    rows = list(clutch.hatchlings)
    alone = replace(clutch, id=APART, several=False, hatchlings=(replace(rows[number], count=1),))
    rows[number] = replace(rows[number], count=rows[number].count - 1)
    rest = replace(clutch, hatchlings=tuple(rows))
    return [*(rest if one.id == clutch.id else one for one in animals.clutches), alone]


def _ways(animals: Collection, clutches: Iterable[Clutch], key: str) -> list[Way]:
    """One for each sire that the clutch of this name may have; none if none fits."""
    known = [one for one in clutches if all(parent in animals for parent in (one.dam, *one.sires))]
    clutch = next(one for one in known if one.id == key)
    if len(clutch.sires) == 1:
        return [(animals.knowledge, clutch.sires[0], Fraction(1))]
    told = animals.knowledge if key != APART else animals.knowledge.updated(known)
    found = []
    for sire, chance in told.paternity.get(key, {}).items():
        if chance:
            sure = [replace(one, sires=(sire,), several=False) if one.id == key else one for one in known]
            found.append((animals.knowledge.updated(sure), sire, chance))
    return found


def _of(knowledge: Knowledge, key: str, clutch: Clutch, row: Hatchlings, left: int, ways: Sequence[Way]) -> Hatched:
    genome = knowledge.genome
    carried = [_carried(told, key, clutch.dam, sire, row) for told, sire, _ in ways]
    tables = [(parts, chance) for (parts, _), (_, _, chance) in zip(carried, ways, strict=True)]
    if not tables:
        places = [genome.groups[0], *(genome.by_name[name] for name in row.seen)]
        tables = [({group.name: _by_look(knowledge, group, row) for group in places}, Fraction(1))]
    sires = {sire: chance for _, sire, chance in ways} or dict.fromkeys(clutch.sires, Fraction(1, len(clutch.sires)))
    explained = bool(ways) and all(fits for _, fits in carried)
    return Hatched(row, left, _mixed(genome, tables), sires, explained)


def _carried(knowledge: Knowledge, key: str, dam: str, sire: str, row: Hatchlings) -> tuple[Parts, bool]:
    """Group name -> what the hatchling has there, and whether these parents can have given it its look everywhere.

    Where its clutch was taken into account, its own look is in the parents' chances already; elsewhere it is not.
    """
    genome = knowledge.genome
    left_out = {one.group for one in knowledge.disputes if one.clutch.id == key}
    left_out |= {group for clutch, group in knowledge.tangled if clutch == key}
    pairs, parts, explained = knowledge.pair(dam, sire), {}, True
    for name in dict.fromkeys([*pairs, *row.seen]):
        group = genome.by_name[name]
        wild = genome.wild(group, "female")
        counted = key not in knowledge.told.crowded and not left_out & {"", name}
        found: dict[Diplotype, Fraction] = {}
        for (one, two), weight in pairs.get(name, {(wild, wild): Fraction(1)}).items():
            eggs = zygotes(group, one, two).items()
            fitting = {d: p * row.fits(genome, group, d) for d, p in eggs if viable(group, d)}
            total = sum(fitting.values(), Fraction(0))
            for diplotype, chance in fitting.items():
                if chance:
                    share = weight * (chance / total if counted else chance)
                    found[diplotype] = found.get(diplotype, Fraction(0)) + share
        explained = explained and bool(found)
        parts[name] = normalised(found) if found else _by_look(knowledge, group, row)
    return parts, explained


def _by_look(knowledge: Knowledge, group: Group, row: Hatchlings) -> Part:
    """What the look alone says at a group; nothing is known there of what does not show."""
    text = write_shown(knowledge.genome, dict(row.seen.get(group.name, ())))
    return read_genes(text, row.sex, knowledge.catalogue).part(group)


def _mixed(genome: Genome, tables: Sequence[tuple[Parts, Fraction]]) -> Genotype:
    """The genotype if each of the tables holds with its chance."""
    parts: dict[str, dict[Diplotype, Fraction]] = {}
    for name in dict.fromkeys(name for table, _ in tables for name in table):
        wild = {genome.wild(genome.by_name[name], "female"): Fraction(1)}
        here = parts.setdefault(name, {})
        for table, share in tables:
            for diplotype, chance in table.get(name, wild).items():
                here[diplotype] = here.get(diplotype, Fraction(0)) + share * chance
    return Genotype(genome, parts)
