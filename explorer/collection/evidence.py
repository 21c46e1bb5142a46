"""What an animal's own label says at one group, beside what its recorded parents can have passed on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator
from fractions import Fraction
from itertools import product

from ..genetics import ABSENT, WILD, Diplotype, Genome, Group, Haplotype, Part, order, viable
from ..looks import carried, shown

__all__ = ["claims", "fits_label", "from_missing_parent", "seen"]


def seen(genome: Genome, group: Group, diplotype: Diplotype) -> tuple[object, ...]:
    """What is visible; in the sex group also the sex, and which visible genes lie on the one Y (or W)."""
    visible = shown(group, diplotype)
    if not group.sex:
        return visible
    names = {name for name, _ in visible}
    chromosomes = (diplotype[0][0], diplotype[1][0])
    apart = [haplotype for haplotype in diplotype if haplotype[0] == genome.other]
    return visible, chromosomes, tuple(allele for haplotype in apart for allele in haplotype[1:] if allele in names)


def fits_label(genome: Genome, group: Group, label: Part) -> Callable[[Diplotype], bool]:
    """Whether a diplotype looks as the label says. Hidden copies play no part."""
    looks = {seen(genome, group, diplotype) for diplotype in label}
    return lambda diplotype: seen(genome, group, diplotype) in looks


def claims(group: Group, part: Part) -> dict[tuple[str, int], Fraction]:
    """(gene, copies) -> chance of at least so many copies, for every gene with copies that cannot be seen."""
    found: dict[tuple[str, int], Fraction] = {}
    for diplotype, chance in part.items():
        visible = dict(shown(group, diplotype))
        for gene, copies in carried(group, diplotype).items():
            if copies > visible.get(gene, 0):
                found[gene, copies] = found.get((gene, copies), Fraction(0)) + chance
    return found


def from_missing_parent(
    genome: Genome, group: Group, label: Part, passed: Collection[Haplotype], missing_sex: str
) -> dict[Haplotype, Fraction] | None:
    """What the one parent that is not recorded passed on: haplotype -> chance; None if nothing would explain the look.

    It is wild wherever the recorded parent, which can pass `passed`, explains what the label says; what that parent
    cannot have passed comes from the missing one, with the label's chance.
    """
    ways: dict[Haplotype, Fraction] = {}
    for diplotypes, chance in _alike(group, label):
        donors = sorted(_donors(genome, group, diplotypes, missing_sex), key=lambda h: (_mutants(group, h), h))
        for claimed in (True, False):
            fitting = [h for h in donors if _explains(genome, group, diplotypes, passed, h, claimed=claimed)]
            fewest = [h for h in fitting if _mutants(group, h) == _mutants(group, fitting[0])]
            for haplotype in fewest:
                ways[haplotype] = ways.get(haplotype, Fraction(0)) + chance / len(fewest)
            if fewest:
                break
    total = sum(ways.values())
    return {haplotype: chance / total for haplotype, chance in ways.items()} if ways else None


def _alike(group: Group, label: Part) -> Iterable[tuple[list[Diplotype], Fraction]]:
    """The label's diplotypes, those together that differ in phase alone, with their chance."""
    found: dict[object, tuple[list[Diplotype], Fraction]] = {}
    for diplotype, chance in label.items():
        chromosomes = [haplotype[0] for haplotype in diplotype] if group.sex else []
        key = (tuple(chromosomes), tuple(sorted(carried(group, diplotype).items())))
        diplotypes, total = found.get(key, ([], Fraction(0)))
        found[key] = ([*diplotypes, diplotype], total + chance)
    return found.values()


def _donors(genome: Genome, group: Group, diplotypes: Iterable[Diplotype], sex: str) -> set[Haplotype]:
    """Haplotypes that a parent of this sex may have added, each with some or none of the genes."""
    found = {*genome.wild(group, sex), *(h for d in diplotypes for whole in d for h in _lighter(group, whole))}
    return {h for h in found if not (group.sex and sex == genome.homogametic and h[0] == genome.other)}


def _lighter(group: Group, haplotype: Haplotype) -> Iterator[Haplotype]:
    start = int(group.sex)
    choices = [(allele,) if allele in (WILD, ABSENT) else (WILD, allele) for allele in haplotype[start:]]
    return ((*haplotype[:start], *rest) for rest in product(*choices))


def _explains(
    genome: Genome,
    group: Group,
    diplotypes: Iterable[Diplotype],
    passed: Collection[Haplotype],
    added: Haplotype,
    *,
    claimed: bool,
) -> bool:
    """Whether a gamete of the recorded parent and `added` look as labelled; `claimed`: and hold all that it says."""
    for diplotype in diplotypes:
        look, said = seen(genome, group, diplotype), Counter(carried(group, diplotype))
        for haplotype in passed:
            child = order(haplotype, added)
            if not viable(group, child) or seen(genome, group, child) != look:
                continue
            if not claimed or said <= Counter(carried(group, child)):
                return True
    return False


def _mutants(group: Group, haplotype: Haplotype) -> int:
    return sum(allele not in (WILD, ABSENT) for allele in haplotype[group.sex :])
