"""What one parent passes on, and what two parents' gametes make."""

from __future__ import annotations

from fractions import Fraction

from .genome import Diplotype, Group, Haplotype, order

__all__ = ["gametes", "viable", "zygotes"]

HALF = Fraction(1, 2)


def gametes(group: Group, diplotype: Diplotype) -> dict[Haplotype, Fraction]:
    """Haplotype -> chance that one gamete carries it; sums to 1. Crossovers in different intervals are independent.

    In the heterogametic sex nothing crosses over between the sex-determining point and a locus that the Y (or W)
    lacks.
    """
    one, two = diplotype
    if one == two:
        return {one: Fraction(1)}
    if len(one) == 1:
        return {one: HALF, two: HALF}
    fixed = len(group.hemizygous) if group.sex and one[0] != two[0] else 0
    strands: dict[tuple[Haplotype, int], Fraction] = {((one[0],), 0): HALF, ((two[0],), 1): HALF}
    for i, rate in enumerate(group.rates, start=1):
        crossing = Fraction(0) if i <= fixed else rate
        longer: dict[tuple[Haplotype, int], Fraction] = {}
        for (so_far, strand), chance in strands.items():
            for switch, share in ((0, 1 - crossing), (1, crossing)):
                if share:
                    now = strand ^ switch
                    key = ((*so_far, diplotype[now][i]), now)
                    longer[key] = longer.get(key, Fraction(0)) + chance * share
        strands = longer
    made: dict[Haplotype, Fraction] = {}
    for (haplotype, _), chance in strands.items():
        made[haplotype] = made.get(haplotype, Fraction(0)) + chance
    return made


def zygotes(group: Group, dam: Diplotype, sire: Diplotype) -> dict[Diplotype, Fraction]:
    """Diplotype -> chance that one egg has it, viable or not; sums to 1."""
    made: dict[Diplotype, Fraction] = {}
    from_sire = gametes(group, sire)
    for egg, p in gametes(group, dam).items():
        for sperm, q in from_sire.items():
            key = order(egg, sperm)
            made[key] = made.get(key, Fraction(0)) + p * q
    return made


def viable(group: Group, diplotype: Diplotype) -> bool:
    """Whether an animal with this diplotype hatches, as far as this group decides it."""
    if not group.lethal:
        return True
    one, two = diplotype
    pairs = zip(one[group.sex :], two[group.sex :], strict=True)
    return not any(
        ((a, b) if a <= b else (b, a)) in locus.lethal for locus, (a, b) in zip(group.loci, pairs, strict=True)
    )
