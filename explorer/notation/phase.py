"""Lays the alleles of an animal on its chromosomes: on the sex pair, and where loci are linked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import TypeAlias

from ..genetics import Diplotype, Genome, Group, order
from .claims import Claim, Side
from .errors import GenesError, ImpossibleGenes
from .placing import Pair, pairs

__all__ = ["Claims", "linked_part", "sex_part"]

HALF = Fraction(1, 2)

Claims: TypeAlias = Mapping[str, Sequence[Claim]]
"""Locus name -> its settled claims."""


def linked_part(text: str, claims: Claims, group: Group, genome: Genome) -> dict[Diplotype, Fraction]:
    """The distribution at a group of autosomal loci; every phase that fits is equally likely.

    Raises ImpossibleGenes if no animal is so.
    """
    laws = [_either_way(pairs(text, claims.get(locus.name, ()), genome, 2)) for locus in group.loci]
    part: dict[Diplotype, Fraction] = {}
    for (first, second), chance in _strands(laws):
        diplotype = order(first, second)
        part[diplotype] = part.get(diplotype, Fraction(0)) + chance
    return part


def sex_part(
    text: str, claims: Claims, sides: Sequence[Side], sex: str | None, genome: Genome
) -> tuple[dict[Diplotype, Fraction], list[str]]:
    """The distribution at the sex group, over both sexes if sex is None and both are possible; and notices.

    Raises ImpossibleGenes if no animal of the sex is so.
    """
    notices = []
    found: list[dict[Diplotype, Fraction]] = []
    failures: list[GenesError] = []
    sexes = [sex] if sex else ["female", "male"]
    for each in sexes:
        try:
            found.append(_of_sex(text, sides, claims, each, genome))
        except ImpossibleGenes as failure:
            failures.append(failure)
            if sex is None:
                sex = next(other for other in sexes if other != each)
    if not found:
        raise failures[0]
    if failures:
        notices.append(f"the genes fit a {sex} alone, so the animal is read as a {sex}")
    if sex == genome.heterogametic:
        notices += _unplaced(text, claims, sides, genome)
    return {diplotype: chance / len(found) for part in found for diplotype, chance in part.items()}, notices


def _of_sex(text: str, sides: Sequence[Side], claims: Claims, sex: str, genome: Genome) -> dict[Diplotype, Fraction]:
    group = genome.groups[0]
    mixed = sex == genome.heterogametic
    for side in sides:
        if not mixed and (side.maker or side.second):
            needed = f"a {genome.heterogametic}, the sex with both {genome.same} and {genome.other}"
            found = f'"{side.words}" said of {side.gene.name} in a {sex}'
            raise ImpossibleGenes(text, found, needed, f'mend the sex, or leave out "{side.words}"')
        if mixed and side.second and side.gene.locus in group.hemizygous:
            needed = f"{genome.same}, the one chromosome that it can lie on"
            found = f'"{side.words}" said of {side.gene.name}'
            raise ImpossibleGenes(text, found, needed, f'leave out "{side.words}"')
    laws = []
    for locus in group.loci:
        single = mixed and locus.name in group.hemizygous
        law = pairs(text, claims.get(locus.name, ()), genome, 1 if single else 2)
        here = [side for side in sides if side.gene.locus == locus.name]
        placed = _placed(text, law, here, genome) if here and locus.name not in group.hemizygous else {}
        laws.append(law if single else placed if placed and mixed else _either_way(law))
    part: dict[Diplotype, Fraction] = {}
    for (first, second), chance in _strands(laws):
        diplotype = genome.pair(group, first, second, sex)
        part[diplotype] = part.get(diplotype, Fraction(0)) + chance
    return part


def _placed(text: str, law: Mapping[Pair, Fraction], sides: Sequence[Side], genome: Genome) -> dict[Pair, Fraction]:
    """The pairs with the allele on the second sex chromosome last."""
    for side in sides:
        name = side.gene.name
        if not any(name in pair and pair[0] != pair[1] for pair in law):
            needed = f"one copy: two lie on both {genome.same} and {genome.other}"
            advice = f'leave out "{side.words}"'
            raise ImpossibleGenes(text, f'"{side.words}" said of two copies of {name}', needed, advice)
    placed: dict[Pair, Fraction] = {}
    for (one, two), chance in law.items():
        here = [side for side in sides if side.gene.name in (one, two)]
        ons = {side.second if side.gene.name == two else 1 - side.second for side in here}
        if len(ons) > 1 or len({side.gene.name for side in here}) < len(here):
            found = " and ".join(side.gene.name for side in here)
            needed = "one place for a gene, and the other place for its partner"
            raise ImpossibleGenes(text, f"places of {found} that clash", needed, "name one place")
        second = ons.pop() if ons and one != two else HALF
        for pair, share in (((one, two), second), ((two, one), 1 - second)):
            if share:
                placed[pair] = placed.get(pair, Fraction(0)) + chance * share
    return placed


def _either_way(law: Mapping[Pair, Fraction]) -> dict[Pair, Fraction]:
    """Each pair both ways round, equally likely: which chromosome carries which allele is not known."""
    turned: dict[Pair, Fraction] = {}
    for (one, two), chance in law.items():
        for pair in ((one, two), (two, one)):
            turned[pair] = turned.get(pair, Fraction(0)) + chance / 2
    return turned


def _strands(
    laws: Iterable[Mapping[Pair, Fraction]],
) -> Iterable[tuple[tuple[tuple[str, ...], tuple[str, ...]], Fraction]]:
    """The loci of a group taken together: the alleles on the one and on the other chromosome, with their chance."""
    strands: dict[tuple[tuple[str, ...], tuple[str, ...]], Fraction] = {((), ()): Fraction(1)}
    for law in laws:
        strands = {
            ((*first, one), (*second, two)): chance * share
            for (first, second), chance in strands.items()
            for (one, two), share in law.items()
        }
    return strands.items()


def _unplaced(text: str, claims: Claims, sides: Sequence[Side], genome: Genome) -> list[str]:
    """A notice for each single copy on the sex pair of the heterogametic sex that may lie on either chromosome."""
    group, sex, told = genome.groups[0], genome.heterogametic, {side.gene.locus for side in sides}
    first, second = ("female maker", "male maker") if sex == "male" else (f"on {genome.same}", f"on {genome.other}")
    return [
        f"{claims[locus.name][0].gene.name} in a {sex} may lie on {genome.same} or {genome.other}, taken as equally "
        f'likely; write "{first}" or "{second}" if it is known'
        for locus in group.loci
        if locus.name in claims and locus.name not in told | group.hemizygous
        if any(one != two for one, two in pairs(text, claims[locus.name], genome, 2))
    ]
