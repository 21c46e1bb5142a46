"""Slow and obvious: every genotype of every animal, every sire of every hatchling, every egg, multiplied out in full.

Shares no code with the package; it reads the labels, rows and tests that the package is given. Chromosomes are as in
`brute_force`, by name, and have the names of their genes. A genotype at a chromosome is the sorted pair of its
haplotypes.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from itertools import product

from tests.oracle import brute_force

ONE = Fraction(1)


@dataclass(eq=False)
class Species:
    """pairs: sex -> its two sex chromosomes, sorted; odd: the one that is alone."""

    chromosomes: dict
    lethal: dict
    recessive: set
    same_look: set
    pairs: dict
    odd: str


@dataclass
class Beast:
    """label: chromosome -> {genotype: chance}, one that is not listed is wild. tests: (gene, copies, error)."""

    key: str
    label: dict
    dam: str | None = None
    sire: str | None = None
    tests: list = field(default_factory=list)


@dataclass
class Litter:
    """unkept: the row of each hatchling that is no beast; kept: key of a beast that hatched in it -> its sire or None.

    several: whether each hatchling may be of any of the sires; if not, all are of one.
    """

    key: str
    dam: str
    sires: list
    several: bool
    unkept: list
    kept: dict = field(default_factory=dict)


def in_order(one, two):
    return (one, two) if one <= two else (two, one)


def wild(chromosome):
    blank = ("",) * len(chromosome["loci"])
    return blank, blank


def sex_of(species, genotype):
    pair = tuple(sorted(haplotype[0] for haplotype in genotype))
    return next(sex for sex, marks in species.pairs.items() if marks == pair)


def unphased(genotype):
    return [tuple(tuple(sorted(pair)) for pair in zip(*genotype, strict=True))]


@cache
def visible(species, name, genotype):
    chromosome = species.chromosomes[name]
    return brute_force.visible([chromosome], species.recessive, species.same_look, unphased(genotype))


@cache
def told_apart(species, name, genotype):
    """All that a keeper can see: what shows; the sex, and which visible genes lie on the one Y (or W)."""
    shows = visible(species, name, genotype)
    if not species.chromosomes[name]["sex"]:
        return shows
    odd = [allele for haplotype in genotype if haplotype[0] == species.odd for allele in haplotype[1:]]
    return shows, sex_of(species, genotype), tuple(allele for allele in odd if allele in dict(shows))


@cache
def hatching(species, name, dam, sire):
    """Genotype -> chance of one egg that it has it and hatches."""
    chromosome, made = species.chromosomes[name], {}
    for egg, p in brute_force.every_gamete(chromosome, *dam):
        for sperm, q in brute_force.every_gamete(chromosome, *sire):
            key = in_order(egg, sperm)
            if p * q and brute_force.lives([chromosome], species.lethal, unphased(key)):
                made[key] = made.get(key, 0) + p * q
    return made


def row_fits(species, name, row, genotype):
    if species.chromosomes[name]["sex"] and row.sex is not None and sex_of(species, genotype) != row.sex:
        return Fraction(0)
    if row.covered and name not in row.seen:
        return ONE
    shows, weight = dict(visible(species, name, genotype)), ONE
    for gene, times in row.maybe.items():
        if shows.pop(gene, 0):
            weight *= times
    return weight if shows == dict(row.seen.get(name, ())) else Fraction(0)


def own_weights(species, name, beast, made):
    """`made` (genotype -> chance), weighed with the animal's own tests."""
    found = {}
    for genotype, chance in made.items():
        for gene, copies, error in beast.tests:
            if gene in species.chromosomes[name]["genes"]:
                carried = sum(allele == gene for haplotype in genotype for allele in haplotype)
                chance = chance * (1 - error if carried == copies else error / 2)
        if chance:
            found[genotype] = chance
    return found


def states(species, name, beast, at, sire):
    """Genotype -> chance, given the parents' genotypes in `at`."""
    chromosome = species.chromosomes[name]
    label = beast.label.get(name, {wild(chromosome): ONE})
    if beast.dam is None:
        living = {g: p for g, p in label.items() if brute_force.lives([chromosome], species.lethal, unphased(g))}
        return own_weights(species, name, beast, living)
    looks = {told_apart(species, name, genotype) for genotype in label}
    bred = hatching(species, name, at[beast.dam], at[sire])
    return own_weights(species, name, beast, {g: p for g, p in bred.items() if told_apart(species, name, g) in looks})


def configurations(species, name, beasts, open_sires):
    """Every (weight, animal -> genotype). beasts: parents before their offspring."""
    found = [(ONE, {})]
    for beast in beasts:
        sire = open_sires.get(beast.key, beast.sire)
        found = [
            (weight * chance, {**at, beast.key: genotype})
            for weight, at in found
            for genotype, chance in states(species, name, beast, at, sire).items()
        ]
    return found


def ways(litter):
    """Every (weight, open kept hatchling -> sire, the sires, one for each hatchling, (litter, number of row, sire)).

    Kept hatchlings whose sire is recorded bind a litter of one sire to him, and are not among "each hatchling".
    """
    still_open = [key for key, sire in litter.kept.items() if sire is None]
    born = len(litter.unkept) + len(still_open)
    if litter.several:
        choices = product(litter.sires, repeat=born)
        weight = Fraction(1, len(litter.sires)) ** born
    else:
        fixed = {sire for sire in litter.kept.values() if sire is not None}
        choices = [(sire,) * max(1, born) for sire in litter.sires if fixed <= {sire}]
        weight = Fraction(1, len(litter.sires))
    for choice in choices:
        of_kept = dict(zip(still_open, choice[len(litter.unkept) : born], strict=True))
        rows = [(litter, i, sire) for i, sire in enumerate(choice[: len(litter.unkept)])]
        yield weight, of_kept, choice, rows


def posterior(species, beasts, litters):
    """(whether the records can all be true, (animal, chromosome) -> {genotype: chance}, litter -> sire -> chance).

    The chance of a sire is that a hatchling of the litter is his, each that is not of a recorded sire as likely.
    """
    everything = []
    for chosen in product(*(list(ways(litter)) for litter in litters)):
        weight, of_kept, hatchlings = ONE, {}, []
        for share, kept, _, rows in chosen:
            weight *= share
            of_kept |= kept
            hatchlings += rows
        everything.append((weight, of_kept, hatchlings, [choice for _, _, choice, _ in chosen]))
    chances = [weight for weight, *_ in everything]
    tables = {}
    for name in species.chromosomes:
        tables[name] = [{} for _ in everything]
        made, seen = {}, {}

        def hatched(litter, i, sire, at, name=name, seen=seen):
            key = (litter.key, i, at[litter.dam], at[sire])
            if key not in seen:
                bred = hatching(species, name, at[litter.dam], at[sire])
                row = litter.unkept[i]
                seen[key] = sum((p * row_fits(species, name, row, g) for g, p in bred.items()), Fraction(0))
            return seen[key]

        for number, (_, of_kept, hatchlings, _) in enumerate(everything):
            key = tuple(sorted(of_kept.items()))
            if key not in made:
                made[key] = configurations(species, name, beasts, of_kept)
            whole, table = Fraction(0), tables[name][number]
            for start, at in made[key]:
                weight = start
                for litter, i, sire in hatchlings:
                    weight *= hatched(litter, i, sire, at)
                    if not weight:
                        break
                if weight:
                    whole += weight
                    for beast, genotype in at.items():
                        table[beast, genotype] = table.get((beast, genotype), 0) + weight
            chances[number] *= whole
            for place in table:
                table[place] /= whole
    total = sum(chances)
    if not total:
        return False, {}, {}
    marginals = {}
    for name, by_way in tables.items():
        for chance, table in zip(chances, by_way, strict=True):
            for (beast, genotype), share in table.items() if chance else ():
                here = marginals.setdefault((beast, name), {})
                here[genotype] = here.get(genotype, 0) + chance * share / total
    paternity = {}
    for place, litter in enumerate(litters):
        shares = dict.fromkeys(litter.sires, Fraction(0))
        for chance, (*_, choices) in zip(chances, everything, strict=True):
            fathers = choices[place] or litter.sires
            for sire in fathers:
                shares[sire] += chance / total / len(fathers)
        paternity[litter.key] = shares
    return True, marginals, paternity
