"""Pairings that a keeper chose: what each brings, reckoned as in the allotment, and what stands against it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from ..collection import Collection, Relation, relation
from ..genetics import exact
from ..husbandry import Husbandry, Readiness, readiness
from ..looks import BroodCaution, brood_cautions
from ..notation import genes_named, texts_of
from ..pairing import Couples, Offspring, day_of
from .allotment_couples import couples_of
from .allotment_wishes import Pair, pairs_of, wishes_of

__all__ = ["Chosen", "ChosenPairing", "chosen_pairings"]


@dataclass(frozen=True)
class ChosenPairing:
    """A pairing, whether or not it may be made. progress: target -> progress, without its weight; value: their weighted
    sum; per_clutch: target -> chance that a clutch, once laid, has at least one hatchling that shows it.

    states: of the dam and the sire. met: cautions that an egg can meet. barrier: why the pairing may not be made though
    both may be paired, "" if nothing bars it; to_allow: the genes that the keeper has to allow for it.
    """

    dam: str
    sire: str
    progress: Mapping[str, Fraction]
    value: Fraction
    per_clutch: Mapping[str, Fraction]
    relation: Relation
    states: Mapping[str, Readiness]
    met: tuple[BroodCaution, ...]
    barrier: str
    to_allow: tuple[str, ...]

    @property
    def unfit(self) -> tuple[str, ...]:
        """Those of the two that may not be paired this season."""
        return tuple(key for key, state in self.states.items() if not state.ready or state.barred)


@dataclass(frozen=True)
class Chosen:
    """Pairings in the order in which they were given. targets: target -> weight, those that read the same as one."""

    pairings: tuple[ChosenPairing, ...]
    targets: Mapping[str, Fraction]

    def summed(self, dams: Iterable[str]) -> tuple[Fraction, dict[str, Fraction]]:
        """What the pairings of these females bring in all, weighted, and target -> progress without its weight."""
        wanted = set(dams)
        mine = [one for one in self.pairings if one.dam in wanted]
        by_target = {target: sum((one.progress[target] for one in mine), Fraction(0)) for target in self.targets}
        return sum((one.value for one in mine), Fraction(0)), by_target


def chosen_pairings(
    animals: Collection,
    pairs: Iterable[Pair],
    targets: Mapping[str, float | Fraction] | str,
    *,
    husbandry: Husbandry | None = None,
    today: date,
    most_inbreeding: float | Fraction | None = None,
    without: str | Iterable[str] = (),
    allow: str | Iterable[str] = (),
    forbidden: Iterable[Pair] = (),
) -> Chosen:
    """What these pairings bring. Arguments and errors as of `allot`; nothing is left out for not being ready."""
    day, care = day_of(today), husbandry or Husbandry(catalogue=animals.catalogue)
    unwanted, allowed = texts_of(without), texts_of(allow)
    wishes = wishes_of(animals, targets, care, unwanted, allowed)
    limit = None if most_inbreeding is None else exact(most_inbreeding)
    off, maker, book = pairs_of(animals, forbidden, "forbidden"), Couples(animals), animals.catalogue
    genes = genes_named(allowed, book, (gene.name for gene in book.genes))
    made = []
    for dam, sire in pairs:
        two = animals[dam], animals[sire]
        one = couples_of(animals, two[:1], two[1:], wishes, {sire: 1}, limit, off, lambda share, text: None)[dam, sire]
        brood = maker.brood(dam, sire)
        odds, met = Offspring(brood, book), brood_cautions(book, brood)
        barring = [item.caution for item in met if item.caution in wishes[0].toward.standing.cautions]
        states = {animal.id: readiness(animal, care, day, book, allowed) for animal in two}
        barring += [caution for state in states.values() for caution in state.barring]
        made.append(
            ChosenPairing(
                dam,
                sire,
                {wish.target: brings for wish, brings in zip(wishes, one.progress, strict=True)},
                one.value,
                {
                    wish.target: odds.chance_in_clutch(
                        wish.target, eggs=care.law, hatch_rate=exact(care.hatch_rate), without=unwanted
                    )
                    for wish in wishes
                },
                relation(animals, dam, sire),
                states,
                met,
                one.barrier,
                tuple(sorted({part.gene for caution in barring for part in caution.parts} - genes)),
            )
        )
    return Chosen(tuple(made), {wish.target: wish.weight for wish in wishes})
