"""Clutches made ready: which of them can be used, whose the kept hatchlings are, and what is open about their sires."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from ..genetics import Genome, Group, Mating
from .clutch import Clutch
from .lineage import Kin, Lineage, in_pedigree_order
from .observations import Seen, mating_of, unkept
from .ways import MOST_WAYS, Way, number_of_ways, ways_of

__all__ = ["Dispute", "Told"]


@dataclass(frozen=True)
class Dispute:
    """A clutch that cannot be as it is written, given everything else. group: the place, "" for the whole clutch.

    It is left out of account there. lineage: everything else at that place; seen: the clutch's hatchlings that are no
    animals of the collection; others: the clutches of one sire that are part of "everything else".
    """

    clutch: Clutch
    group: str
    lineage: Lineage | None = None
    seen: tuple[Seen, ...] = ()
    others: tuple[Clutch, ...] = ()


@dataclass(frozen=True)
class Told:
    """Clutches made ready. kin: the animals, with parents filled in for kept hatchlings, and the sexes of parents.

    clutches: all that are taken into account, if nothing contradicts them. seen: clutch id -> its hatchlings that are
    no animals of the collection; kept: clutch id -> those that are. ways: what is open about the clutches of unsure
    sire. strangers: kept animals that match no row of their clutch. crowded: ids of clutches left out, with too many
    ways; refused: of those of which no sire fits; misplaced: (id, parent, role) of those left out since the parent is
    of the other sex.
    """

    genome: Genome
    kin: Mapping[str, Kin]
    clutches: tuple[Clutch, ...]
    seen: Mapping[str, tuple[Seen, ...]]
    kept: Mapping[str, tuple[str, ...]]
    ways: tuple[Way, ...]
    strangers: tuple[str, ...]
    crowded: tuple[str, ...]
    refused: tuple[str, ...]
    misplaced: tuple[tuple[str, str, str], ...]

    @classmethod
    def of(
        cls,
        genome: Genome,
        kin: Mapping[str, Kin],
        clutches: Sequence[Clutch],
        crowded: Sequence[str] = (),
        refused: Sequence[str] = (),
    ) -> Told:
        """From the animals and the clutches; animals name their clutch. Whose young a clutch is stays open if it is
        crowded or refused: the kept ones then have a dam and no sires."""
        filled = dict(kin)
        seen: dict[str, tuple[Seen, ...]] = {}
        kept: dict[str, tuple[str, ...]] = {}
        ways: list[Way] = []
        strangers: list[str] = []
        misplaced: list[tuple[str, str, str]] = []
        given: list[Clutch] = []
        crowded = list(crowded)
        for clutch in sorted(clutches, key=lambda one: (str(one.laid or one.hatched or ""), one.id)):
            wrong = [*_misplaced(clutch, filled)]
            named = sorted(key for key, animal in kin.items() if animal.clutch == clutch.id and not wrong)
            mine = tuple(key for key in named if _may_be_of(key, clutch, filled))
            strangers += [key for key in named if key not in mine]
            rows, unmatched = unkept(clutch, {key: (kin[key].label, kin[key].sex) for key in mine}, genome)
            seen[clutch.id], kept[clutch.id] = rows, mine
            strangers += unmatched
            if wrong:
                misplaced += wrong
                continue
            filled[clutch.dam] = replace(filled[clutch.dam], sex="female")
            filled |= {key: replace(filled[key], sex="male") for key in clutch.sires}
            if clutch.id not in crowded and number_of_ways(clutch, rows) > MOST_WAYS:
                crowded.append(clutch.id)
            if clutch.id not in crowded:
                given.append(clutch)
            sire = clutch.sires[0] if len(clutch.sires) == 1 else None
            for key in mine:
                animal = filled[key]
                filled[key] = replace(animal, dam=animal.dam or clutch.dam, sire=animal.sire or sire)
            if sire is None and clutch.id not in (*crowded, *refused):
                fixed = {animal.sire for key in mine if (animal := filled[key]).sire is not None}
                for way in ways_of(clutch, rows, [key for key in mine if filled[key].sire is None], fixed):
                    ways.append(way)
                    filled |= {key: replace(filled[key], sires=way.sires, way=way.name) for key in way.kept}
        return cls(
            genome=genome,
            kin=in_pedigree_order(filled),
            clutches=tuple(given),
            seen=seen,
            kept=kept,
            ways=tuple(ways),
            strangers=tuple(strangers),
            crowded=tuple(crowded),
            refused=tuple(refused),
            misplaced=tuple(misplaced),
        )

    @property
    def sure(self) -> tuple[Clutch, ...]:
        return tuple(clutch for clutch in self.clutches if len(clutch.sires) == 1)

    @property
    def unsure(self) -> tuple[Clutch, ...]:
        return tuple(clutch for clutch in self.clutches if len(clutch.sires) > 1 and clutch.id not in self.refused)

    def mating(self, group: Group, clutch: Clutch) -> Mating:
        """What a clutch of one sire says at a group."""
        return mating_of(self.genome, group, clutch.dam, clutch.sires[0], self.seen[clutch.id])


def _misplaced(clutch: Clutch, kin: Mapping[str, Kin]) -> Iterator[tuple[str, str, str]]:
    """(id, parent, role) of parents that cannot be what they are written as."""
    if kin[clutch.dam].sex == "male":
        yield clutch.id, clutch.dam, "dam"
    for key in clutch.sires:
        if kin[key].sex == "female":
            yield clutch.id, key, "sire"
        elif key == clutch.dam:
            yield clutch.id, key, "dam and sire"


def _may_be_of(key: str, clutch: Clutch, kin: Mapping[str, Kin]) -> bool:
    """Whether the recorded parents are those of the clutch, and the animal can be no ancestor of theirs."""
    if kin[key].dam not in (None, clutch.dam) or kin[key].sire not in (None, *clutch.sires):
        return False
    ahead, above = [clutch.dam, *clutch.sires], set[str]()
    while ahead:
        one = ahead.pop()
        if one not in above:
            above.add(one)
            ahead += kin[one].possible_parents
    return key not in above
