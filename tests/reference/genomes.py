"""Small genomes of other species, built by hand, and what a brood of them looks like."""

from fractions import Fraction

from explorer.genetics import Allele, Genome, Genotype, Group, Locus, order
from explorer.looks import shown

ONE = Fraction(1)


def recessive(name):
    """A locus with one recessive allele of the same name."""
    return Locus(name, (Allele(name, shows_alone=False),))


def single_copy(name, *, lethal=False):
    """A locus with one allele of the same name that one copy shows; `lethal`: two copies do not hatch."""
    return Locus(name, (Allele(name, shows_alone=True),), frozenset({(name, name)} if lethal else ()))


def no_sex_loci():
    return Group("sex", (), (), sex=True)


def unlinked(*loci):
    """A genome with every locus on a chromosome of its own."""
    return Genome((no_sex_loci(), *(Group(locus.name, (locus,)) for locus in loci)))


def linked(*loci, rate):
    """A genome with one chromosome "map" that holds all loci, `rate` between neighbours."""
    return Genome((no_sex_loci(), Group("map", loci, (Fraction(rate),) * (len(loci) - 1))))


def on_x(*loci, rate=Fraction(1, 2)):
    """A genome of an XY species whose loci all lie on X alone."""
    names = frozenset(locus.name for locus in loci)
    return Genome((Group("sex", loci, (Fraction(rate),) * len(loci), sex=True, hemizygous=names),))


def animal(genome, sex, /, **strands):
    """An animal that is known for certain. strands: group name -> the two haplotypes, alleles in map order.

    In the sex group the second haplotype lies on Y in a male. A group that is not named is wild.
    """
    groups = genome.by_name
    parts = {"sex": {genome.wild(groups["sex"], sex): ONE}}
    for name, (one, two) in strands.items():
        made = genome.pair(groups[name], one, two, sex) if groups[name].sex else order(tuple(one), tuple(two))
        parts[name] = {made: ONE}
    return Genotype(genome, parts)


def hets(genome, sex):
    """An animal with one copy of the first allele at every autosomal locus, each on a chromosome of its own."""
    wild = ("",)
    strands = {group.name: (wild, (group.loci[0].alleles[0].name,)) for group in genome.groups[1:]}
    return animal(genome, sex, **strands)


def looks(brood, *, sexed=False):
    """What shows -> chance among viable hatchlings: shown alleles in map order, run together; "" is wild."""
    found = {"": ONE}
    for group in brood.groups:
        step = {}
        for diplotype, chance in brood.distribution(group).items():
            word = "".join(name for name, _ in shown(group, diplotype))
            sex = f"{brood.genome.sex_of(diplotype)} " if sexed and group.sex else ""
            for before, p in found.items():
                key = f"{sex}{before}{word}"
                step[key] = step.get(key, 0) + p * chance
        found = step
    return found


def genotypes(brood):
    """Copies at each autosomal group, run together in map order, such as "02" -> chance among viable hatchlings."""
    found = {"": ONE}
    for group in brood.groups[1:]:
        step = {}
        for diplotype, chance in brood.distribution(group).items():
            copies = "".join(str(sum(1 for allele in pair if allele)) for pair in zip(*diplotype, strict=True))
            for before, p in found.items():
                step[before + copies] = step.get(before + copies, 0) + p * chance
        found = step
    return found


