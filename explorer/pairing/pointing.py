"""How strongly cues point, what a further one would change, and which cautions an animal that was read may meet."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Catalogue, Caution, Cue
from ..looks import look_cautions
from .identifying import Reading

__all__ = ["Pointer", "Swing", "cautions_met", "crowded", "pointers", "swing"]


@dataclass(frozen=True)
class Pointer:
    """By what factor a cue's chance differs at most between two looks that are possible; 1: it tells nothing.

    seen: of the chance that it is seen; missing: of the chance that it is clearly not.
    """

    cue: Cue
    seen: Fraction
    missing: Fraction


@dataclass(frozen=True)
class Swing:
    """The gene that the answer to one more cue moves most: its chance now, if the cue is seen, and if it is not."""

    gene: str
    now: Fraction
    seen: Fraction
    missing: Fraction


def pointers(reading: Reading) -> tuple[Pointer, ...]:
    """Every cue of the catalogue, in its order, over all looks that are possible, whatever was answered so far."""
    found = []
    for cue, chances in zip(reading.catalogue.cues, zip(*reading.cue_rows, strict=True), strict=True):
        low, high = min(chances), max(chances)
        found.append(Pointer(cue, high / low, (1 - low) / (1 - high)))
    return tuple(found)


def swing(reading: Reading, cue: Cue) -> Swing | None:
    """What the answer to a cue that was not asked about yet would move most; None if it would move nothing."""
    now, seen, missing = (
        {item.gene: item.carries for item in one.genes}
        for one in (reading, *(reading.answered({**reading.cues, cue.key: answer}) for answer in (True, False)))
    )
    gene = max(now, key=lambda name: abs(seen[name] - missing[name]), default=None)
    if gene is None or seen[gene] == missing[gene]:
        return None
    return Swing(gene, now[gene], seen[gene], missing[gene])


def cautions_met(reading: Reading) -> tuple[tuple[Caution, Fraction], ...]:
    """The cautions on looks that are possible, each with the chance that it applies, likeliest first.

    Cautions on one sex are taken to apply: the sex is not known.
    """
    met: dict[Caution, Fraction] = {}
    for look, chance in reading.looks():
        for caution in look_cautions(reading.catalogue, look):
            met[caution] = met.get(caution, Fraction(0)) + chance
    return tuple(sorted(met.items(), key=lambda item: (-item[1], item[0].text)))


def crowded(candidates: Iterable[str], share: Fraction, catalogue: Catalogue) -> tuple[str, ...]:
    """Candidates that stand at one place and together would be on more than all chromosomes; () if none do.

    share: how common each of them is among chromosomes, from 0 to 1.
    """
    at: dict[str, list[str]] = {}
    for name in candidates:
        gene = catalogue.gene(name)
        at.setdefault(gene.locus, []).append(gene.name)
    return next((tuple(names) for names in at.values() if len(names) * share > 1), ())
