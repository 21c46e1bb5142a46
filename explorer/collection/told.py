"""Clutches made ready: which of them can be used, whose the kept hatchlings are, and what is open about their sires."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial

from ..genetics import Genome, Group, Mating, Note
from .clutch import Clutch
from .kept_places import Places, left_over
from .lineage import Kin, in_pedigree_order
from .observations import Seen, mating_of
from .ways import MOST_WAYS, Way, number_of_ways, ways_of

__all__ = ["Dispute", "Told"]


@dataclass(frozen=True)
class Dispute:
    """A clutch that cannot be as it is written, given everything else. group: the place, "" for the whole clutch.

    It is left out of account there.
    """

    clutch: Clutch
    group: str


@dataclass(frozen=True)
class Told:
    """Clutches made ready. kin: the animals, with parents filled in for kept hatchlings, and the sexes of parents.

    clutches: all that are taken into account, if nothing contradicts them. seen: clutch id -> its rows, with how
    many of their hatchlings are no animals of the collection, one way that may be if it is open; kept: clutch id ->
    those that are animals; places: clutch id -> which hatchlings they may be. ways: what is open about the clutches.
    strangers: kept animals that match no row of their clutch. crowded: ids of clutches left out, with too many ways;
    refused: of those of which no sire fits; misplaced: (id, parent, role) of those left out since the parent is of the
    other sex.
    """

    genome: Genome
    kin: Mapping[str, Kin]
    clutches: tuple[Clutch, ...]
    seen: Mapping[str, tuple[Seen, ...]]
    kept: Mapping[str, tuple[str, ...]]
    places: Mapping[str, Places]
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
        found: dict[str, Places] = {}
        ways: list[Way] = []
        strangers: list[str] = []
        misplaced: list[tuple[str, str, str]] = []
        given: list[Clutch] = []
        crowded = list(crowded)
        for clutch in sorted(clutches, key=lambda one: one.id):
            if wrong := [*_misplaced(clutch, filled)]:
                misplaced += wrong
                seen[clutch.id], kept[clutch.id] = tuple((row, row.count) for row in clutch.hatchlings), ()
                continue
            filled[clutch.dam] = replace(filled[clutch.dam], sex="female")
            filled |= {key: replace(filled[key], sex="male") for key in clutch.sires}
            given.append(clutch)
        for clutch in given[:]:
            named = sorted(key for key, animal in kin.items() if animal.clutch == clutch.id)
            mine = tuple(key for key in named if _may_be_of(key, clutch, filled))
            labels = {key: (kin[key].label, filled[key].sex) for key in mine}
            places = Places.of(clutch.hatchlings, labels, genome, MOST_WAYS)
            seen[clutch.id], kept[clutch.id] = left_over(clutch.hatchlings, places), mine
            strangers += [*(key for key in named if key not in mine), *places.strangers]
            if clutch.id not in crowded and not 0 < number_of_ways(clutch, places) <= MOST_WAYS:
                crowded.append(clutch.id)
            sire = clutch.sires[0] if len(clutch.sires) == 1 else None
            for key in mine:
                animal = filled[key]
                filled[key] = replace(animal, dam=animal.dam or clutch.dam, sire=animal.sire or sire)
            if clutch.id in crowded:
                given.remove(clutch)
                continue
            found[clutch.id] = places
            for key, row in zip(places.kept, zip(*places.choices, strict=True), strict=False):
                sexes = {places.rows[i][0].sex for i in row}
                if filled[key].sex is None and len(sexes) == 1:
                    filled[key] = replace(filled[key], sex=sexes.pop())
            if clutch.id not in refused:
                fixed = {animal.sire for key in mine if (animal := filled[key]).sire is not None}
                for way in ways_of(clutch, places, [key for key in mine if filled[key].sire is None], fixed):
                    ways.append(way)
                    filled |= {key: replace(filled[key], sires=way.males, way=way.name) for key in way.kept}
        return cls(
            genome=genome,
            kin=in_pedigree_order(filled),
            clutches=tuple(given),
            seen=seen,
            kept=kept,
            places=found,
            ways=tuple(ways),
            strangers=tuple(strangers),
            crowded=tuple(crowded),
            refused=tuple(refused),
            misplaced=tuple(misplaced),
        )

    @property
    def unsure(self) -> tuple[Clutch, ...]:
        """The clutches of several possible sires."""
        return tuple(clutch for clutch in self.clutches if len(clutch.sires) > 1 and clutch.id not in self.refused)

    @cached_property
    def open(self) -> frozenset[str]:
        """Ids of the clutches of which something is open, so that a way says what their hatchlings say."""
        return frozenset(way.clutch for way in self.ways)

    def mating(self, group: Group, clutch: Clutch) -> Mating:
        """What a clutch of which nothing is open says at a group."""
        return mating_of(self.genome, group, clutch.dam, clutch.sires[0], self.seen[clutch.id])

    def notes(self, group: Group, clutch: Clutch) -> Iterator[Note]:
        """What the rows of a clutch say at a group of its kept hatchlings."""
        if clutch.id in self.refused:
            return
        places = self.places[clutch.id]
        chooser = next((way for way in self.ways if way.clutch == clutch.id and len({*way.choices}) > 1), None)
        for key, numbers in zip(places.kept, zip(*places.choices, strict=True), strict=False):
            fits = [partial(places.rows[i][0].fits, self.genome, group) for i in numbers]
            if chooser is None:
                yield Note(key, (fits[0],))
            else:
                yield Note(key, tuple(fits[i] for i in chooser.choices), chooser.name)


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
