"""Slow and obvious: every genotype of every animal, every sire of every hatchling, every egg, multiplied out in full.

Shares no code with the package; it reads the labels, rows and tests that the package is given. Chromosomes are as in
`brute_force`, by name, and have the names of their genes. A genotype at a chromosome is the sorted pair of its
haplotypes.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from itertools import permutations, product

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
    """young: the row of each hatchling; kept: key of a beast that is one of them, but not which -> its sire or None.

    several: whether each hatchling may be of any of the sires; if not, all are of one.
    """

    key: str
    dam: str
    sires: list
    several: bool
    young: list
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
    """Genotype -> chance that one hatchling has it."""
    chromosome, made = species.chromosomes[name], {}
    for egg, p in brute_force.every_gamete(chromosome, *dam):
        for sperm, q in brute_force.every_gamete(chromosome, *sire):
            key = in_order(egg, sperm)
            if p * q and brute_force.lives([chromosome], species.lethal, unphased(key)):
                made[key] = made.get(key, 0) + p * q
    return {genotype: chance / sum(made.values()) for genotype, chance in made.items()}


def row_fits(species, name, row, genotype):
    if species.chromosomes[name]["sex"] and row.sex is not None and sex_of(species, genotype) != row.sex:
        return Fraction(0)
    if row.covered and name not in row.seen:
        return ONE
    shows, weight, beside = dict(visible(species, name, genotype)), ONE, False
    for gene, times in row.maybe.items():
        if shows.pop(gene, 0):
            weight *= times
            beside = len(species.chromosomes[name]["loci"]) == 1
    as_two = {gene: 2 if beside and gene in species.recessive else n for gene, n in shows.items()}
    return weight if dict(row.seen.get(name, ())) in (shows, as_two) else Fraction(0)


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


def as_tested(chromosome, label, tests):
    """The label of a founder: a gene that it does not name and a test found may be there in any number, all alike."""
    for gene in dict.fromkeys(gene for gene, copies, _ in tests if copies and gene in chromosome["genes"]):
        if any(gene in strand for genotype in label for strand in genotype):
            continue
        at = chromosome["sex"] + (chromosome["loci"].index(gene.lower()) if gene.lower() in chromosome["loci"] else 0)
        wider = {}
        for genotype, chance in label.items():
            by_number = {}
            for put in product((False, True), repeat=2):
                strands = [
                    (*strand[:at], gene, *strand[at + 1 :]) if there else strand
                    for strand, there in zip(genotype, put, strict=True)
                ]
                if all(strand[at] == "" for strand, there in zip(genotype, put, strict=True) if there):
                    by_number.setdefault(sum(put), set()).add(in_order(*strands))
            for made in by_number.values():
                for one in made:
                    wider[one] = wider.get(one, 0) + chance / len(made) / len(by_number)
        label = wider
    return label


def states(species, name, beast, at, sire):
    """Genotype -> chance, given the parents' genotypes in `at`."""
    chromosome = species.chromosomes[name]
    label = beast.label.get(name, {wild(chromosome): ONE})
    if beast.dam is None:
        label = as_tested(chromosome, label, beast.tests)
        living = {g: p for g, p in label.items() if brute_force.lives([chromosome], species.lethal, unphased(g))}
        return own_weights(species, name, beast, living)
    looks = {told_apart(species, name, genotype) for genotype in label}
    bred = hatching(species, name, at[beast.dam], at[sire])
    return own_weights(species, name, beast, {g: p for g, p in bred.items() if told_apart(species, name, g) in looks})


def configurations(species, name, beasts, open_sires, rows):
    """Every (weight, animal -> genotype). beasts: parents before their offspring; rows: kept beast -> its row."""
    found = [(ONE, {})]
    for beast in beasts:
        sire = open_sires.get(beast.key, beast.sire)
        found = [
            (weight * chance * fit, {**at, beast.key: genotype})
            for weight, at in found
            for genotype, chance in states(species, name, beast, at, sire).items()
            if (fit := row_fits(species, name, rows[beast.key], genotype) if beast.key in rows else 1)
        ]
    return found


def places(litter):
    """Every (weight, kept hatchling -> its row, the rows of the others): each may be any of the hatchlings."""
    found, number = {}, len(litter.young)
    for chosen in permutations(range(number), len(litter.kept)):
        rest = [litter.young.index(row) for i, row in enumerate(litter.young) if i not in chosen]
        key = tuple(litter.young.index(litter.young[i]) for i in chosen), tuple(rest)
        found[key] = found.get(key, 0) + 1
    for (chosen, rest), times in found.items():
        rows = {key: litter.young[i] for key, i in zip(litter.kept, chosen, strict=True)}
        yield Fraction(times, sum(found.values())), rows, rest


def ways(litter):
    """Every (weight, open kept hatchling -> sire, kept hatchling -> row, the sires of all, (litter, row, sire)).

    Kept hatchlings whose sire is recorded bind a litter of one sire to him, and are not among "all".
    """
    still_open = [key for key, sire in litter.kept.items() if sire is None]
    found = {}
    for weight, of_row, rest in places(litter):
        born = len(rest) + len(still_open)
        if litter.several:
            choices = product(litter.sires, repeat=born)
            weight *= Fraction(1, len(litter.sires)) ** born
        else:
            fixed = {sire for sire in litter.kept.values() if sire is not None}
            choices = [(sire,) * max(1, born) for sire in litter.sires if fixed <= {sire}]
            weight *= Fraction(1, len(litter.sires))
        for choice in choices:
            of_kept = dict(zip(still_open, choice[len(rest) : born], strict=True))
            rows = sorted(zip(rest, choice[: len(rest)], strict=True))
            key = repr((of_kept, [(one, id(row)) for one, row in of_row.items()], rows, sorted(choice)))
            before = found[key][0] if key in found else 0
            hatchlings = [(litter, i, sire) for i, sire in rows]
            found[key] = before + weight, of_kept, of_row, choice, hatchlings
    return list(found.values())


def posterior(species, beasts, litters):
    """(whether the records can all be true, (animal, chromosome) -> {genotype: chance}, litter -> sire -> chance).

    The chance of a sire is that a hatchling of the litter is his, each that is not of a recorded sire as likely.
    """
    everything = []
    for chosen in product(*(ways(litter) for litter in litters)):
        weight, of_kept, of_row, hatchlings = ONE, {}, {}, []
        for share, kept, row, _, more in chosen:
            weight *= share
            of_kept |= kept
            of_row |= row
            hatchlings += more
        everything.append((weight, (of_kept, of_row), hatchlings, [choice for _, _, _, choice, _ in chosen]))
    chances = [weight for weight, *_ in everything]
    tables = {}
    for name in species.chromosomes:
        tables[name] = [{} for _ in everything]
        made, seen = {}, {}

        def hatched(litter, i, sire, at, name=name, seen=seen):
            key = (litter.key, i, at[litter.dam], at[sire])
            if key not in seen:
                bred = hatching(species, name, at[litter.dam], at[sire])
                row = litter.young[i]
                seen[key] = sum((p * row_fits(species, name, row, g) for g, p in bred.items()), Fraction(0))
            return seen[key]

        for number, (_, (of_kept, of_row), hatchlings, _) in enumerate(everything):
            if not chances[number]:
                continue
            key = (*sorted(of_kept.items()), *sorted((one, id(row)) for one, row in of_row.items()))
            if key not in made:
                made[key] = configurations(species, name, beasts, of_kept, of_row)
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
