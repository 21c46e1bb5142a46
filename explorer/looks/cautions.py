"""Cautions and open questions that go with a look or with a whole brood."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Catalogue, Caution
from ..genetics import Brood, Diplotype, Event, Group
from .visible import carried

__all__ = ["BroodCaution", "brood_cautions", "caution_text", "look_cautions", "look_remarks"]


@dataclass(frozen=True)
class BroodCaution:
    """A caution that some eggs of a brood meet. `chance` is the share of all eggs laid, viable or not."""

    caution: Caution
    chance: Fraction


def caution_text(caution: Caution) -> str:
    """The caution in one line: the genes (and the sex) it is about, and the strength of its evidence."""
    genes = " with ".join(f"two copies of {part.gene}" if part.copies == 2 else part.gene for part in caution.parts)
    who = f"{genes}, {caution.sex}s" if caution.sex else genes
    return f"{who}: {caution.text} [{caution.strength}]"


def look_cautions(catalogue: Catalogue, look: Mapping[str, int]) -> tuple[Caution, ...]:
    """Cautions on an animal that shows this, of either sex."""
    return catalogue.cautions_of(look)


def look_remarks(catalogue: Catalogue, look: Mapping[str, int]) -> tuple[str, ...]:
    """All that a table row says in its caution column: cautions, and two-copy forms that are hardly known."""
    remarks = [caution_text(caution) for caution in look_cautions(catalogue, look)]
    for name, copies in look.items():
        status = catalogue.gene(name).two_copies
        if copies == 2 and status in ("few records", "not reported"):
            known = "has few records" if status == "few records" else "is not reported"
            remarks.append(f"the two-copy form of {name} {known}")
    return tuple(remarks)


def brood_cautions(catalogue: Catalogue, brood: Brood) -> tuple[BroodCaution, ...]:
    """The cautions that at least one egg of this brood can meet, likeliest first."""
    present = {
        name
        for group in brood.groups
        for dam, sire in brood.parents[group.name]
        for name in {**carried(group, dam), **carried(group, sire)}
    }
    found = []
    for caution in catalogue.cautions:
        if {part.gene for part in caution.parts} <= present:
            chance = _share_of_eggs(brood, caution)
            if chance:
                found.append(BroodCaution(caution, chance))
    return tuple(sorted(found, key=lambda item: (-item.chance, item.caution.text)))


def _share_of_eggs(brood: Brood, caution: Caution) -> Fraction:
    needed: dict[str, dict[str, int]] = {}
    for part in caution.parts:
        needed.setdefault(brood.genome.home[part.gene][0].name, {})[part.gene] = part.copies
    events: dict[str, Event] = {
        name: _has(brood.genome.by_name[name], copies) for name, copies in needed.items()
    }
    if caution.sex is not None:
        group, inner = brood.genome.groups[0], events.get(brood.genome.groups[0].name)
        events[group.name] = lambda d: brood.genome.sex_of(d) == caution.sex and (inner is None or inner(d))
    share = Fraction(1)
    for name, event in events.items():
        group = brood.genome.by_name[name]
        share *= sum((w * p for w, t in brood.table(group) for d, p in t.items() if event(d)), Fraction(0))
    return share


def _has(group: Group, needed: Mapping[str, int]) -> Event:
    def event(diplotype: Diplotype) -> bool:
        copies = carried(group, diplotype)
        return all(copies.get(name, 0) >= fewest for name, fewest in needed.items())

    return event
