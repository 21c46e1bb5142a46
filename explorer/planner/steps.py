"""Writes a plan and its score down as a path."""

from __future__ import annotations

from fractions import Fraction

from ..genetics import WILD, Diplotype, Genotype, Group, Part, normalised, order
from ..husbandry import Husbandry
from ..looks import carried, shown
from ..notation import write_genes, write_shown
from .chain import Odds, Score
from .kinds import Kinds, LocalCross
from .path import Keep, Path, Step
from .plan import Pairing, Plan
from .question import Question

__all__ = ["owned_path", "path_of"]


def owned_path(question: Question, seasons: int, start: int, owners: tuple[str, ...]) -> Path:
    """The path of a target that somebody in the collection already shows."""
    text = write_shown(question.genome, question.wanted)
    return Path(text, [1.0] * seasons, 0.0, 0.0, 0, 0, start, (), {}, owners)


def path_of(question: Question, kinds: Kinds, plan: Plan, found: Score, care: Husbandry, start: int) -> Path:
    """The plan and its score in a keeper's terms."""
    waits = {"female": care.female_wait, "male": care.male_wait}
    _, starts = plan.soonest(waits)
    kept = [keep for pairing in plan.pairings for keep in pairing.keeps]
    names = {keep: f"hatchling {number}" for number, keep in enumerate(kept, start=1)}
    writer = _Writer(question, kinds, plan, found, names)
    steps = tuple(writer.step(*entry) for entry in zip(plan.pairings, starts, found.odds, strict=True))
    soonest = next(k + 1 for k, chance in enumerate(found.curve) if chance > 0)
    ready = {place.owned: place.ready for place in plan.places if place.owned is not None}
    text = write_shown(question.genome, question.wanted)
    return Path(
        text, list(found.curve), found.expected, found.clutches, len(names), soonest, start, steps, ready
    )


class _Writer:
    def __init__(self, question: Question, kinds: Kinds, plan: Plan, found: Score, names: dict[int, str]) -> None:
        self.question, self.kinds, self.plan, self.found, self.names = question, kinds, plan, found, names

    def step(self, pairing: Pairing, season: int, odds: tuple[Odds, ...]) -> Step:
        target, *kept = odds
        return Step(
            season,
            self._name(pairing.dam),
            self._name(pairing.sire),
            self._genes(pairing.dam),
            self._genes(pairing.sire),
            tuple(self._keep(pairing, *pair) for pair in zip(pairing.keeps, kept, strict=True)),
            target.per_egg,
            target.in_clutch,
        )

    def _keep(self, pairing: Pairing, number: int, odds: Odds) -> Keep:
        place, question = self.plan.places[number], self.question
        shows: dict[str, int] = {}
        tested: dict[str, int] = {}
        hides: list[str] = []
        for at in range(len(question.groups)):
            option = question.options[at][place.options[at]]
            here = self._cross(pairing, at)
            possible = {gene for copies in here.support[place.sex] for gene, _ in copies}
            for gene, copies in option.counts:
                (tested if gene in question.testable else shows)[gene] = copies
            hides += [gene for gene in option.none_of if gene in possible]
        return Keep(
            self.names[number],
            place.sex,
            write_shown(question.genome, shows) if shows else "",
            tuple(hides),
            ", ".join(f"{gene} ({'two copies' if n == 2 else 'one copy'})" for gene, n in tested.items()),
            self._genes(number),
            odds.per_egg,
            odds.in_clutch,
            self.found.filled[number],
        )

    def _cross(self, pairing: Pairing, at: int) -> LocalCross:
        places = self.plan.places
        return self.kinds.cross(at, places[pairing.dam].kinds[at], places[pairing.sire].kinds[at])

    def _name(self, number: int) -> str:
        return self.plan.places[number].owned or self.names[number]

    def _genes(self, number: int) -> str:
        """What is certain of the animal and what may be hidden in it, leaving out what a keeper would see."""
        place = self.plan.places[number]
        parts = {
            group.name: self._told(group, self.kinds.parts[at][place.kinds[at]])
            for at, group in enumerate(self.question.groups)
        }
        return write_genes(Genotype(self.question.genome, parts))

    def _told(self, group: Group, part: Part) -> Part:
        hidden = {d: chance for d, chance in part.items() if not self._recessives_shown(group, d)}
        part = normalised(hidden) if hidden else part
        fewest = {
            gene: min(carried(group, diplotype).get(gene, 0) for diplotype in part)
            for diplotype in part
            for gene in carried(group, diplotype)
            if not self.question.catalogue.gene(gene).recessive
        }
        told: dict[Diplotype, Fraction] = {}
        for diplotype, chance in part.items():
            left = dict(fewest)
            haplotypes = []
            for haplotype in diplotype:
                alleles = list(haplotype)
                for i, allele in enumerate(haplotype):
                    if allele in fewest:
                        left[allele] -= 1
                        alleles[i] = allele if left[allele] >= 0 else WILD
                haplotypes.append(tuple(alleles))
            key = order(haplotypes[0], haplotypes[1])
            told[key] = told.get(key, Fraction(0)) + chance
        return told

    def _recessives_shown(self, group: Group, diplotype: Diplotype) -> bool:
        return any(self.question.catalogue.gene(gene).recessive for gene, _ in shown(group, diplotype))
