"""What the best hatchling of a clutch is worth on average, with every clutch written out egg by egg.

Shares no code with the package but for the random crosses' species. Worth is counted in points here as its definition
says it, from the alleles at each locus.
"""

from fractions import Fraction
from itertools import product
from math import prod

from tests.oracle import brute_force


class Judge:
    """wanted: gene -> copies; unwanted: genes that must not show; barred: (gene -> fewest copies, sex or None)."""

    def __init__(self, cross, wanted, unwanted, barred):
        self.cross, self.wanted, self.unwanted, self.barred = cross, wanted, unwanted, barred

    def worth(self, genotype):
        cross = self.cross
        alleles = [a for chromosome in genotype for pair in chromosome for a in pair]
        copies = {gene: alleles.count(gene) for gene in alleles}
        seen = {g for g, _ in brute_force.visible(cross.chromosomes, cross.recessive, cross.same_look, genotype)}
        if seen & set(self.unwanted):
            return Fraction(0)
        odd = genotype[0][0][0] != genotype[0][0][1]
        sex = cross.genome.heterogametic if odd else cross.genome.homogametic
        for parts, of_sex in self.barred:
            if of_sex in (None, sex) and all(copies.get(gene, 0) >= fewest for gene, fewest in parts.items()):
                return Fraction(0)
        lacking, any_there = 0, False
        for gene, number in self.wanted.items():
            any_there |= gene in copies
            lacking += 0 if gene in copies else 2
            if number == 2:
                lacking += 0 if (gene in seen if gene in cross.recessive else copies.get(gene) == 2) else 1
        return Fraction(1, 2**lacking) if any_there else Fraction(0)


def progress(judge, law, hatch_rate, lay_rate):
    """law: number of eggs -> chance. Every parental configuration, every clutch."""
    cross, total = judge.cross, Fraction(0)
    for weight, configuration in brute_force.configurations(cross.chromosomes, cross.dam, cross.sire):
        dam, sire = (
            judge.worth(brute_force.genotype_of(cross.chromosomes, [pairs[who] for pairs in configuration]))
            for who in (0, 1)
        )
        egg = {}
        for genotype, chance in brute_force.eggs_of(cross.chromosomes, configuration).items():
            lives = brute_force.lives(cross.chromosomes, cross.lethal, genotype)
            worth = judge.worth(genotype) if lives else Fraction(0)
            counts = worth if worth > max(dam, sire) else Fraction(0)
            egg[counts] = egg.get(counts, 0) + chance * hatch_rate
            egg[Fraction(0)] = egg.get(Fraction(0), 0) + chance * (1 - hatch_rate)
        for eggs, share in law.items():
            for clutch in product(egg.items(), repeat=eggs):
                best = max((worth for worth, _ in clutch), default=Fraction(0))
                total += weight * share * best * prod((chance for _, chance in clutch), start=Fraction(1))
    return lay_rate * total
