"""Random crosses for comparing the package with brute force: complexes, uncertain parents, linkage, sex, lethality."""

import random
from dataclasses import dataclass
from fractions import Fraction

from explorer.genetics import Allele, Genome, Genotype, Group, Locus, order


@dataclass
class Cross:
    """One cross, told to both sides."""

    genome: Genome
    chromosomes: list
    dam: list
    sire: list
    lethal: dict
    recessive: set
    same_look: set

    def genotype(self, animal):
        parts = {}
        for group, states in zip(self.genome.groups, animal, strict=True):
            part = {}
            for weight, one, two in states:
                key = order(one, two)
                part[key] = part.get(key, 0) + weight
            parts[group.name] = part
        return Genotype(self.genome, parts)


def make(seed):
    rng = random.Random(seed)
    zw = rng.random() < 0.3
    same, odd = ("Z", "W") if zw else ("X", "Y")
    heterogametic = "female" if zw else "male"
    recessive, same_look, lethal = set(), set(), {}
    serial = iter(range(1000))

    def locus(name):
        alleles = []
        for _ in range(rng.choice([1, 1, 2, 3])):
            gene = f"g{next(serial)}"
            alleles.append(Allele(gene, rng.random() < 0.5, rng.random() < 0.75))
            if not alleles[-1].shows_alone:
                recessive.add(gene)
                alleles[-1] = Allele(gene, False)
            if not alleles[-1].double_differs:
                same_look.add(gene)
        pairs = set()
        for allele in alleles:
            if rng.random() < 0.15:
                pairs.add((allele.name, allele.name))
        if len(alleles) > 1 and rng.random() < 0.1:
            pairs.add(tuple(sorted((alleles[0].name, alleles[1].name))))
        lethal[name] = pairs
        return Locus(name, tuple(alleles), frozenset(pairs))

    def rate():
        return Fraction(rng.randint(0, 10), 20)

    sex_loci = [locus(f"s{i}") for i in range(rng.choice([0, 1, 1, 2]))]
    hemi = {entry.name for entry in sex_loci[: rng.choice([0, 0, 1, 2])]}
    groups = [Group("sex", tuple(sex_loci), tuple(rate() for _ in sex_loci), True, frozenset(hemi))]
    for i in range(rng.choice([1, 2, 3])):
        loci = [locus(f"a{i}{k}") for k in range(rng.choice([1, 1, 1, 2, 3]))]
        groups.append(Group(f"c{i}", tuple(loci), tuple(rate() for _ in loci[1:])))
    chromosomes = [
        {"loci": [e.name for e in g.loci], "rates": list(g.rates), "sex": g.sex, "hemi": set(g.hemizygous)}
        for g in groups
    ]
    genome = Genome(tuple(groups), heterogametic, same, odd)

    def haplotype(group, mark):
        alleles = []
        for entry in group.loci:
            if mark == odd and entry.name in group.hemizygous:
                alleles.append("-")
            else:
                alleles.append(rng.choice(["", *(a.name for a in entry.alleles)]))
        return ((mark, *alleles) if group.sex else tuple(alleles))

    def animal(sex, uncertain):
        states = []
        for i, group in enumerate(groups):
            marks = (same, same) if sex != heterogametic else (same, odd)
            if not group.sex:
                marks = ("", "")
            number = 2 if i in uncertain else 1
            weights = [Fraction(1)] if number == 1 else [Fraction(2, 3), Fraction(1, 3)]
            states.append([(w, haplotype(group, marks[0]), haplotype(group, marks[1])) for w in weights])
        return states

    pick = lambda: set(rng.sample(range(len(groups)), k=min(len(groups), rng.choice([0, 0, 1, 2]))))  # noqa: E731
    return Cross(genome, chromosomes, animal("female", pick()), animal("male", pick()), lethal, recessive, same_look)
