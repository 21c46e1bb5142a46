"""What an animal may carry, from what can be seen on it and from where it came."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import product
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from ..catalogue import Catalogue, Cue, Effect, closest, load_catalogue
from ..collection import Animal
from ..genetics import Diplotype, Genome, Genotype, Group, genome_of
from ..looks import Known, Look, carried, chance_of_answers, cue_chances, layers_of, shown
from ..notation import texts_of, write_diplotypes
from .crossing import cross
from .origins import by_frequency

__all__ = ["GeneChance", "Reading", "identify", "read_animal"]

MOST_LOOKS = 6_000
MOST_GENOTYPES = 30_000
"""The most that are told apart; more would take many seconds, and fewer candidates or the parents would help."""

Cues = Mapping[str, bool] | str | Iterable[str]


@dataclass(frozen=True)
class GeneChance:
    """Of one gene: the chance that it shows, that it is carried (shown or not), and that it was carried beforehand."""

    gene: str
    shows: Fraction
    carries: Fraction
    before: Fraction


@dataclass(frozen=True)
class _Side:
    """One way to look at one group: its chance beforehand, and what lies under it."""

    look: Look
    chance: Fraction
    under: Mapping[Diplotype, Fraction]


class Reading:
    """What the cues say. Chances are exact, given the cues' own figures, over all joint genotypes.

    cues: those asked about, with whether they are seen. groups: those in which something may be carried.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        origin: Mapping[str, Mapping[Diplotype, Fraction]],
        cues: Mapping[str, bool],
        opinions: Iterable[Effect] = (),
    ) -> None:
        """origin: group name -> diplotype -> chance before anything was seen. Raises ValueError for too many looks."""
        self.catalogue, self.cues = catalogue, dict(cues)
        self.genome: Genome = genome_of(catalogue)
        self.groups: tuple[Group, ...] = tuple(group for group in self.genome.groups if group.name in origin)
        self._sides = [_sides(group, origin[group.name]) for group in self.groups]
        if self.look_count > MOST_LOOKS:
            found = f"{self.look_count:,} looks are possible, more than {MOST_LOOKS:,}"
            raise ValueError(f"{found}; name fewer candidates")
        self._opinions = tuple(opinions)
        self._all_cues: Sequence[Cue] = catalogue.cues

    def answered(self, cues: Cues) -> Reading:
        """The same origin with other cues; much faster than starting anew. Raises ValueError as `identify` does."""
        fresh = Reading.__new__(Reading)
        kept = {name: value for name, value in vars(self).items() if name not in ("posterior", "genes")}
        vars(fresh).update(kept, cues=_checked(cues, self.catalogue))
        return fresh

    @cached_property
    def _looks(self) -> list[tuple[tuple[_Side, ...], Fraction, list[Fraction]]]:
        """Each look: its sides, its chance beforehand, and the chance of each cue of the catalogue on it."""
        found = []
        known: Known = {}
        for sides in product(*self._sides):
            look = dict(sorted((entry for side in sides for entry in side.look), key=self._rank))
            layers = layers_of(look, self.catalogue, self._opinions)
            prior = math.prod((side.chance for side in sides), start=Fraction(1))
            found.append((sides, prior, cue_chances(self._all_cues, layers, known)))
        return found

    @property
    def look_count(self) -> int:
        """How many looks are told apart, without working them out."""
        return math.prod(map(len, self._sides))

    @property
    def cue_rows(self) -> list[list[Fraction]]:
        """For each look, the chance of each cue of the catalogue, in its order."""
        return [row for _, _, row in self._looks]

    def _rank(self, entry: tuple[str, int]) -> int:
        return self.genome.rank[entry[0]]

    @cached_property
    def posterior(self) -> list[Fraction]:
        """The chance of each look after the cues; sums to 1."""
        asked = self._all_cues
        weights = [prior * chance_of_answers(asked, chances, self.cues) for _, prior, chances in self._looks]
        total = sum(weights, Fraction(0))
        return [weight / total for weight in weights]

    @cached_property
    def genes(self) -> tuple[GeneChance, ...]:
        """Each gene that may be carried, likeliest to be carried first."""
        before: dict[str, Fraction] = {}
        shows: dict[str, Fraction] = {}
        carries: dict[str, Fraction] = {}
        for group, sides in zip(self.groups, self._sides, strict=True):
            after = self._after(group)
            for side in sides:
                for gene, share in _carried_under(group, side).items():
                    before[gene] = before.get(gene, Fraction(0)) + side.chance * share
                    carries[gene] = carries.get(gene, Fraction(0)) + after[side.look] * share
                for gene, _ in side.look:
                    shows[gene] = shows.get(gene, Fraction(0)) + after[side.look]
        found = [GeneChance(gene, shows.get(gene, Fraction(0)), carries[gene], before[gene]) for gene in carries]
        return tuple(sorted(found, key=lambda item: (-item.carries, self.genome.rank[item.gene])))

    def looks(self) -> list[tuple[dict[str, int], Fraction]]:
        """Each look (gene -> copies, in catalogue order) with its chance, likeliest first."""
        found = [
            (dict(sorted((entry for side in sides for entry in side.look), key=self._rank)), chance)
            for (sides, _, _), chance in zip(self._looks, self.posterior, strict=True)
        ]
        return sorted(found, key=lambda item: (-item[1], len(item[0]), list(item[0].items())))

    def genotypes(self) -> pd.DataFrame:
        """All genotypes: columns genotype (shorthand), probability (float), fraction; likeliest first, sum 1.

        Raises ValueError if there are more than 30,000, phases and sexes counted.
        """
        count = math.prod(sum(len(side.under) for side in sides) for sides in self._sides)
        if count > MOST_GENOTYPES:
            raise ValueError(f"{count:,} genotypes are possible, more than {MOST_GENOTYPES:,}; name fewer candidates")
        rows: dict[str, Fraction] = {}
        for (sides, _, _), chance in zip(self._looks, self.posterior, strict=True):
            for chosen in product(*(side.under.items() for side in sides)):
                at = {group.name: diplotype for group, (diplotype, _) in zip(self.groups, chosen, strict=True)}
                text = write_diplotypes(self.genome, at)
                share = math.prod((part for _, part in chosen), start=chance)
                rows[text] = rows.get(text, Fraction(0)) + share
        ordered = sorted(rows.items(), key=lambda item: (-item[1], item[0]))
        return pd.DataFrame(
            [(text, float(chance), chance) for text, chance in ordered],
            columns=["genotype", "probability", "fraction"],
        )

    def further_cues(self) -> list[tuple[Cue, float]]:
        """Cues not asked about yet, each with what it is expected to tell, in bits; the most telling first."""
        weights = np.array([float(chance) for chance in self.posterior])
        chances = np.array([[float(chance) for chance in row] for row in self.cue_rows]).T
        found = []
        for cue, row in zip(self._all_cues, chances, strict=True):
            if cue.key not in self.cues:
                still = row * self._room(cue, chances)
                told = _bits(weights @ still) - float(weights @ _bits(still))
                found.append((cue, max(float(told), 0.0)))
        return sorted(found, key=lambda item: (-item[1], item[0].key))

    def _room(self, cue: Cue, chances: NDArray[np.float64]) -> NDArray[np.float64]:
        """For each look, the factor on a cue's chance after what was answered of cues that it excludes."""
        rest = np.ones(len(self._looks))
        for other, row in zip(self._all_cues, chances, strict=True):
            if cue.quality is not None and other.quality == cue.quality and other.key in self.cues:
                if self.cues[other.key]:
                    return np.zeros(len(self._looks))
                rest = rest - row
        return 1 / rest

    def _after(self, group: Group) -> dict[Look, Fraction]:
        """Look of one group -> its chance after the cues."""
        place = self.groups.index(group)
        found: dict[Look, Fraction] = {}
        for (sides, _, _), chance in zip(self._looks, self.posterior, strict=True):
            look = sides[place].look
            found[look] = found.get(look, Fraction(0)) + chance
        return found


def read_animal(
    cues: Cues,
    dam: str | Genotype | Animal | None = None,
    sire: str | Genotype | Animal | None = None,
    candidates: Mapping[str, float | Fraction] | str | Iterable[str] | None = None,
    *,
    opinions: Iterable[Effect] = (),
    catalogue: Catalogue | None = None,
) -> Reading:
    """As `identify`, with everything that can be asked of the answer."""
    for parent in (dam, sire):
        if isinstance(parent, Animal) and catalogue is None:
            catalogue = parent.knowledge.catalogue
    catalogue = catalogue or load_catalogue()
    seen = _checked(cues, catalogue)
    if dam is None and sire is None:
        if candidates is None:
            raise ValueError("where the animal comes from is needed: a dam and a sire, or candidate genes")
        origin = by_frequency(candidates, catalogue).parts
    else:
        if dam is None or sire is None:
            if candidates is None:
                lacking = "dam" if dam is None else "sire"
                raise ValueError(f"the {lacking} is needed as well, or candidate genes that it may carry")
            unknown = by_frequency(candidates, catalogue)
            dam, sire = (unknown if dam is None else dam), (unknown if sire is None else sire)
        brood = cross(dam, sire, catalogue=catalogue).brood
        if not brood.viable:
            raise ValueError("no egg of these parents is viable, so no animal can come from them")
        origin = {group.name: brood.distribution(group) for group in brood.groups}
    return Reading(catalogue, origin, seen, opinions)


def identify(
    cues: Cues,
    dam: str | Genotype | Animal | None = None,
    sire: str | Genotype | Animal | None = None,
    candidates: Mapping[str, float | Fraction] | str | Iterable[str] | None = None,
    *,
    opinions: Iterable[Effect] = (),
    catalogue: Catalogue | None = None,
) -> pd.DataFrame:
    """What an animal may carry: columns genotype (shorthand), probability, fraction; likeliest first, sum 1.

    cues: keys of the catalogue's cues that are seen, or key -> whether it is seen; those not named were not looked at.
    dam, sire: the parents, if known; the clutch then is the prior. candidates: without them, or in place of a missing
        one, the genes that come into question, each with its frequency among such animals' chromosomes (default: the
        catalogue's figure).
    The cues' own figures are remembered, not measured, and taken as independent given the look. Raises ValueError for
    a cue that is not known, if no origin is given, or if too many are possible; GenesError for genes.
    """
    return read_animal(cues, dam, sire, candidates, opinions=opinions, catalogue=catalogue).genotypes()


def _checked(cues: Cues, catalogue: Catalogue) -> dict[str, bool]:
    given = dict(cues) if isinstance(cues, Mapping) else dict.fromkeys(texts_of(cues), True)
    keys = [cue.key for cue in catalogue.cues]
    for key, seen_or_not in given.items():
        if key not in keys:
            near = ", ".join(closest(str(key), keys)) or "none: the catalogue has no cues"
            raise ValueError(f"no cue is called {key!r}; the nearest are {near}")
        if not isinstance(seen_or_not, bool):
            raise ValueError(f"{key}: True or False is needed, found {seen_or_not!r}; leave out what was not looked at")
    seen: dict[str, str] = {}
    for cue in catalogue.cues:
        if cue.quality is not None and given.get(cue.key):
            if cue.quality in seen:
                raise ValueError(f"{seen[cue.quality]!r} and {cue.key!r} cannot both be seen; leave one out")
            seen[cue.quality] = cue.key
    return given


def _sides(group: Group, part: Mapping[Diplotype, Fraction]) -> list[_Side]:
    found: dict[Look, dict[Diplotype, Fraction]] = {}
    for diplotype, chance in part.items():
        found.setdefault(shown(group, diplotype), {})[diplotype] = chance
    sides = []
    for look, under in sorted(found.items()):
        total = sum(under.values(), Fraction(0))
        sides.append(_Side(look, total, {diplotype: chance / total for diplotype, chance in under.items()}))
    return sides


def _carried_under(group: Group, side: _Side) -> dict[str, Fraction]:
    found: dict[str, Fraction] = {}
    for diplotype, share in side.under.items():
        for gene in carried(group, diplotype):
            found[gene] = found.get(gene, Fraction(0)) + share
    return found


def _bits(chance: Any) -> Any:
    """The uncertainty of a yes or no with this chance, or of each of several, in bits."""
    p = np.clip(chance, 1e-300, 1 - 1e-16)
    return -(p * np.log2(p) + (1 - p) * np.log2(1 - p))
