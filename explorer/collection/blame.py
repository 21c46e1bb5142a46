"""Who could be wrong where records contradict one another, or hardly go together, by name and with the chance."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from ..genetics import ABSENT, WILD, Diplotype, Mating, order, viable
from ..looks import carried
from ..notation.figures import percent
from .clutch import Clutch
from .doubt import Doubt, Scene
from .knowledge import Knowledge
from .lineage import Lineage
from .told import Dispute

__all__ = ["Conflict", "Suspect", "blamed_in_words", "conflicts", "strained", "suspects"]

Suspect = tuple[str, Fraction]
"""A record, and the chance that it is wrong."""

WORTH_NAMING = Fraction(1, 20)
"""A record that is wrong with less than this chance is not named, unless none is likelier."""

LIKELY = Fraction(1, 10)
"""Records that are wrong with less than this chance do not make one of several likely to be wrong."""

FEW = 5
"""How many are named if none is likely."""


@dataclass(frozen=True)
class Conflict:
    """Records at one place that cannot all be true, or hardly. group: the place.

    clutches: those that are left out of account there; clashing: animals whose parents are. suspects: the records that
    may be wrong, the likeliest first; () if that cannot be worked out.
    """

    group: str
    clutches: tuple[Clutch, ...]
    clashing: tuple[str, ...]
    suspects: tuple[Suspect, ...]


def suspects(knowledge: Knowledge, dispute: Dispute, rate: Fraction) -> tuple[Suspect, ...]:
    """Records that could be wrong, each with the chance that it is, all records of the conflict being weighed at once.

    rate: the chance that a record is wrong, whatever else is known. Empty if that is 0, and for a dispute over who
    sired a clutch that several places have together.
    """
    for conflict in conflicts(knowledge, rate):
        if conflict.group == dispute.group and dispute.clutch.id in [one.id for one in conflict.clutches]:
            return conflict.suspects
    return ()


def conflicts(knowledge: Knowledge, rate: Fraction) -> tuple[Conflict, ...]:
    """Every conflict at one place. Clutches and animals that have an ancestor in common are in one conflict."""
    if rate not in knowledge.weighed:
        found = (one for name in knowledge.places for one in _conflicts_at(knowledge, name, rate))
        knowledge.weighed[rate] = tuple(found)
    return tuple(one for one in knowledge.weighed[rate] if isinstance(one, Conflict))


def strained(knowledge: Knowledge, rate: Fraction) -> tuple[Conflict, ...]:
    """Records that can all be true, though a founder's label, or its mate's, or a test's result, is likelier wrong than
    right. clashing: the animal."""
    found: list[Conflict] = []
    doubted = [(key, knowledge.genome.home[test.gene][0].name) for key, test in knowledge.doubted_tests()]
    for name in knowledge.places if rate else ():
        lineage = knowledge.lineage(name)
        tested = {key for key, group in doubted if group == name}
        strange = [*_strange(knowledge, lineage, tested, rate)]
        scene, taken = knowledge.scene(name) if strange else None, set[str]()
        for key, about in strange:
            assert scene is not None
            if not taken:
                here = [one for one in conflicts(knowledge, rate) if one.group == name]
                taken = {one for each in here for one in scene.ancestry(_about(scene, each.clutches, each.clashing))}
            if key not in taken:
                weighed = _Weighed(knowledge, scene, about, rate, booked=True)
                labels = weighed.doubt.of_labels()
                own = [labels.get(one, 0) for one in about if not lineage.kin[one].possible_parents]
                wrong = sum((chance for chance in own if chance >= LIKELY), Fraction(0))
                if wrong > Fraction(1, 2) or key in tested:
                    found.append(Conflict(name, (), (key,), weighed.named))
                    taken |= about
    return tuple(one for one in found if one.suspects)


def blamed_in_words(named: Sequence[Suspect], rate: Fraction) -> str:
    """The records in one sentence, without its full stop."""
    said = "; ".join(f"{name} ({percent(chance)})" for name, chance in named)
    return f"who could be wrong, if {percent(rate)} of records are: {said}"


def _conflicts_at(knowledge: Knowledge, name: str, rate: Fraction) -> Iterator[Conflict]:
    disputed = [one.clutch for one in knowledge.disputes if one.group == name]
    clashing = sorted(knowledge.lineage(name).clashing)
    if not disputed and not clashing:
        return
    scene = knowledge.scene(name)
    parts: list[tuple[set[str], list[Clutch], list[str]]] = []
    for clutches, animals in [*(([one], []) for one in disputed), *(([], [key]) for key in clashing)]:
        about = scene.ancestry(_about(scene, clutches, animals))
        joined: tuple[set[str], list[Clutch], list[str]] = (about, list(clutches), list(animals))
        for part in [part for part in parts if part[0] & about]:
            parts.remove(part)
            joined = joined[0] | part[0], [*part[1], *joined[1]], [*part[2], *joined[2]]
        parts.append(joined)
    for about, clutches, animals in parts:
        named = _Weighed(knowledge, scene, about, rate).named if rate else ()
        yield Conflict(name, tuple(clutches), tuple(animals), named)


def _about(scene: Scene, clutches: Sequence[Clutch], animals: Sequence[str]) -> set[str]:
    """The parents, the hatchlings that were kept, and the animals."""
    found = {key for one in clutches for key in (one.dam, *one.sires, *scene.told.kept.get(one.id, ()))}
    return found | {*animals}


class _Weighed:
    """The records that have to do with some animals at a place, weighed."""

    def __init__(
        self, knowledge: Knowledge, scene: Scene, about: set[str], rate: Fraction, *, booked: bool = False
    ) -> None:
        self.group, home = scene.lineage.group, knowledge.genome.home
        self.tests = {
            key: [one for one in every if home[one.gene][0] is self.group] for key, every in knowledge.tested.items()
        }
        genes = {one.gene for key in about for one in self.tests.get(key, ())}
        self.doubt = Doubt(scene, about, rate, genes, booked=booked)
        if self.doubt.pedigree is None:
            self.doubt = Doubt(scene, about, rate, genes, narrow=True, booked=booked)

    @property
    def named(self) -> tuple[Suspect, ...]:
        """The records that are worth naming, the likeliest to be wrong first."""
        found = {f"the record of {key}": chance for key, chance in self.doubt.of_labels().items()}
        for (clutch, looks), chance in self.doubt.of_hatchlings().items():
            found[f"one hatchling written as {' or '.join(looks)} in clutch {clutch}"] = chance
        for key in self.doubt.core:
            for test in self.tests.get(key, ()):
                has = self.doubt.carries(key).items()
                wrong = (p for d, p in has if carried(self.group, d).get(test.gene, 0) != test.copies)
                found[f"the result of {test.day} on {key}"] = sum(wrong, Fraction(0))
        ranked = sorted(((name, chance) for name, chance in found.items() if chance), key=lambda one: (-one[1], one[0]))
        return tuple(one for one in ranked if one[1] >= WORTH_NAMING) or tuple(ranked[:FEW])


def _strange(
    knowledge: Knowledge, lineage: Lineage, tested: set[str], rate: Fraction
) -> Iterator[tuple[str, set[str]]]:
    """Animals of which a record may well be wrong, each with its mates: one of which a test is likelier wrong than
    right, or a founder that could hardly have the young it has. By a bound on how much likelier other genes make them.
    """
    booked = knowledge.told.places.keys()
    young = [one for key, one in lineage.members.items() if lineage.kin[key].clutch in booked]
    for key in sorted(lineage.states):
        bred = [one for one in lineage.matings if key in (one.dam, one.sire)]
        kept = [one for one in young if key in one.parents]
        if key in tested or _bound(lineage, key, bred) * 2.0 ** len(kept) > (1 - rate) / rate:
            mates = {parent for one in bred for parent in (one.dam, one.sire)}
            yield key, {key, *mates, *(parent for one in kept for parent in one.parents)}


def _bound(lineage: Lineage, key: str, bred: Sequence[Mating]) -> float:
    """At most so many times likelier other genes of a founder make its hatchlings that are no animals here; 0 if its
    own are not written for certain, or are none."""
    own, *more = lineage.states_of(key)
    if more or lineage.members[key].parents or all(not allele for half in own for allele in half[lineage.group.sex :]):
        return 0
    return max((_times(lineage, key, bred, own, other) for other in _others(lineage, own)), default=0.0)


def _times(lineage: Lineage, key: str, bred: Sequence[Mating], own: Diplotype, other: Diplotype) -> float:
    """At most so many times likelier other genes of an animal make its hatchlings that are no animals here."""
    found = 1.0
    for one in bred:
        mate = one.sire if key == one.dam else one.dam
        ratios = [1.0] if one.way else []
        for state in lineage.states_of(mate):
            pairs = [(genes, state) if key == one.dam else (state, genes) for genes in (own, other)]
            mine, theirs = (one.weight(*pair) for pair in pairs)
            if theirs:
                ratios.append(float(theirs / mine) if mine else math.inf)
        found *= max(ratios, default=0.0) ** max(one.times or (1,))
    return found


def _others(lineage: Lineage, own: Diplotype) -> set[Diplotype]:
    """Genotypes with some of its haplotypes wild, or one of them twice."""
    start = int(lineage.group.sex)
    choices = [{half, (*half[:start], *(a if a == ABSENT else WILD for a in half[start:]))} for half in own]
    made = {order(one, two) for one, two in product(*choices)}
    made |= set() if start else {(half, half) for half in own}
    return {diplotype for diplotype in made - {own} if viable(lineage.group, diplotype)}
