"""Slow and obvious: every parental configuration, every crossover pattern, every egg, multiplied out in full.

Shares no code with the package. A chromosome is a dict: loci (names), rates between neighbouring points, sex (whether
the sex-determining point comes first), hemi (loci the odd sex chromosome lacks). An animal is, for each chromosome, a
list of (weight, haplotype, haplotype); a haplotype is a list of alleles, "" for wild, "-" where there is no locus.
"""

from fractions import Fraction
from itertools import combinations, product
from math import comb

HALF = Fraction(1, 2)


def every_gamete(chromosome, one, two):
    """All (haplotype, chance) pairs, one for each starting strand and each set of crossover points."""
    points = len(one)
    odd = chromosome["sex"] and one[0] != two[0]
    rates = list(chromosome["rates"])
    if odd:
        for i, name in enumerate(chromosome["loci"]):
            if name in chromosome["hemi"]:
                rates[i] = Fraction(0)
    for start in (0, 1):
        for count in range(points):
            for crossed in combinations(range(points - 1), count):
                chance, strand, made = HALF, start, [(one, two)[start][0]]
                for i in range(points - 1):
                    chance *= rates[i] if i in crossed else 1 - rates[i]
                    if i in crossed:
                        strand = 1 - strand
                    made.append((one, two)[strand][i + 1])
                yield tuple(made), chance


def genotype_of(chromosomes, haplotypes):
    """Unordered alleles at every locus of every chromosome, the sex chromosomes included."""
    return tuple(
        tuple(tuple(sorted(pair)) for pair in zip(one, two, strict=True))
        for _, (one, two) in zip(chromosomes, haplotypes, strict=True)
    )


def configurations(chromosomes, dam, sire):
    """Every combination of true parental genotypes with its probability."""
    for chosen in product(*(product(d, s) for d, s in zip(dam, sire, strict=True))):
        weight = Fraction(1)
        for (w, _, _), (v, _, _) in chosen:
            weight *= w * v
        yield weight, [((d[1], d[2]), (s[1], s[2])) for d, s in chosen]


def eggs_of(chromosomes, configuration):
    """Genotype -> chance of one egg, for certain parents, everything multiplied out."""
    table = {(): Fraction(1)}
    parts = []
    for chromosome, ((d1, d2), (s1, s2)) in zip(chromosomes, configuration, strict=True):
        here = {}
        for egg, p in every_gamete(chromosome, d1, d2):
            for sperm, q in every_gamete(chromosome, s1, s2):
                key = tuple(tuple(sorted(pair)) for pair in zip(egg, sperm, strict=True))
                here[key] = here.get(key, 0) + p * q
        parts.append(here)
    for here in parts:
        table = {(*key, more): p * q for key, p in table.items() for more, q in here.items() if q}
    return table


def lives(chromosomes, lethal, genotype):
    for chromosome, pairs in zip(chromosomes, genotype, strict=True):
        points = (["sex"] if chromosome["sex"] else []) + chromosome["loci"]
        for name, pair in zip(points, pairs, strict=True):
            if pair in lethal.get(name, ()):
                return False
    return True


def visible(chromosomes, recessive, same_look, genotype):
    """The set of (gene, copies) that can be seen."""
    seen = set()
    for chromosome, pairs in zip(chromosomes, genotype, strict=True):
        points = (["sex"] if chromosome["sex"] else []) + chromosome["loci"]
        for name, (a, b) in zip(points, pairs, strict=True):
            if name == "sex":
                continue
            real = [x for x in (a, b) if x not in ("", "-")]
            if len(real) == 2 and real[0] == real[1]:
                seen.add((real[0], 1 if real[0] in same_look else 2))
            elif len(real) == 2:
                seen |= {(real[0], 1), (real[1], 1)}
            elif len(real) == 1:
                if real[0] not in recessive:
                    seen.add((real[0], 1))
                elif "-" in (a, b):
                    seen.add((real[0], 2))
    return frozenset(seen)


def whole_table(chromosomes, dam, sire):
    """Genotype -> chance of one egg, averaged over the parents' configurations."""
    total = {}
    for weight, configuration in configurations(chromosomes, dam, sire):
        for genotype, chance in eggs_of(chromosomes, configuration).items():
            total[genotype] = total.get(genotype, 0) + weight * chance
    return total


def chance_in_clutch(chromosomes, dam, sire, wanted, law, hatch_rate, fewest):
    """Chance of at least `fewest` wanted hatchlings; wanted(genotype) must include being viable."""
    total = Fraction(0)
    for weight, configuration in configurations(chromosomes, dam, sire):
        q = hatch_rate * sum(p for g, p in eggs_of(chromosomes, configuration).items() if wanted(g))
        for eggs, share in law.items():
            total += weight * share * sum(
                comb(eggs, k) * q**k * (1 - q) ** (eggs - k) for k in range(fewest, eggs + 1)
            )
    return total
