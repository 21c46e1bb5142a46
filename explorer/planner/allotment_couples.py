"""Every pairing that this season's animals could make: what it brings toward the targets, and what bars it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Caution
from ..collection import Animal, Collection
from ..genetics import Brood, Group
from ..looks import brood_cautions, caution_text, may_carry
from ..pairing import Couples, percent
from .allotment_wishes import Pair, Wish

__all__ = ["Couple", "couples_of"]

Tell = Callable[[float, str], None]


@dataclass(frozen=True)
class Couple:
    """A pairing of two animals that are ready. progress: toward each target, without its weight; value: their weighted
    sum. kinship: the inbreeding coefficient of the offspring, at least. barrier: why it may not be made, "" if it may.
    """

    dam: str
    sire: str
    progress: tuple[Fraction, ...]
    value: Fraction
    kinship: Fraction
    barrier: str = ""


def couples_of(
    animals: Collection,
    dams: Sequence[Animal],
    sires: Sequence[Animal],
    wishes: Sequence[Wish],
    room: Mapping[str, int],
    most_inbreeding: Fraction | None,
    forbidden: Sequence[Pair],
    tell: Tell,
) -> dict[Pair, Couple]:
    """All pairings of these animals. room: how many females each male may have. tell: told the share that is done and
    what is being done.
    """
    maker, off = Couples(animals), set(forbidden)
    cautions = wishes[0].toward.standing.cautions
    carry = {animal.id: may_carry(animal.genotype) for animal in (*dams, *sires)}
    found: dict[Pair, Couple] = {}
    for number, dam in enumerate(dams):
        tell(number / len(dams), f"working out the pairings of {dam.id}")
        for sire in sires:
            here = carry[dam.id] | carry[sire.id]
            met = [caution for caution in cautions if {part.gene for part in caution.parts} <= here]
            brood = maker.brood(dam.id, sire.id, _matters(animals, wishes, met))
            progress = tuple(wish.toward.of(brood) for wish in wishes)
            value = sum((w.weight * one for w, one in zip(wishes, progress, strict=True)), Fraction(0))
            kinship = animals.inbreeding(dam.id, sire.id)
            barrier = ""
            if (dam.id, sire.id) in off:
                barrier = "forbidden by you"
            elif not room[sire.id]:
                barrier = "he may have no female this season"
            elif most_inbreeding is not None and kinship > most_inbreeding:
                barrier = (
                    f"too closely related: offspring's inbreeding coefficient {percent(kinship)} or more,"
                    f" over your limit of {percent(most_inbreeding)}"
                )
            elif met and (reason := _caution(animals, brood, met)):
                barrier = f"an egg could meet a caution: {reason}"
            found[dam.id, sire.id] = Couple(dam.id, sire.id, progress, value, kinship, barrier)
    return found


def _matters(animals: Collection, wishes: Sequence[Wish], met: Sequence[Caution]) -> Callable[[Group], bool]:
    home = animals.knowledge.genome.home
    names = {home[part.gene][0].name for caution in met for part in caution.parts}
    standings = [wish.toward.standing for wish in wishes]
    names |= {
        home[gene][0].name for standing in standings for gene in (*standing.wanted, *standing.without)
    }
    return lambda group: group.lethal or group.name in names


def _caution(animals: Collection, brood: Brood, met: Sequence[Caution]) -> str:
    found = [item.caution for item in brood_cautions(animals.catalogue, brood) if item.caution in met]
    return caution_text(found[0]) if found else ""
