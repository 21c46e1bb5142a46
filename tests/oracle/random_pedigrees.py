"""Random families with clutches, told to the package and to brute force: drawn as they could be, a few miswritten.

Founders carry what their labels allow; everything else is drawn egg by egg. Looks are read off what was drawn.
"""

import random
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from explorer.collection.clutch import Clutch, Hatchlings
from explorer.collection.lineage import Kin
from explorer.collection.shed_tests import ShedTest
from explorer.notation import read_genes
from tests.oracle.pedigree_brute_force import Beast, Litter, Species, hatching, row_fits, sex_of, visible, wild
from tests.oracle.two_species import LABELS, LIZARD, PYTHON, RECESSIVE, catalogue_of, species_of

DAY = date(2024, 6, 1)


@dataclass
class Family:
    """One case, told to both sides. rows: what the collection file says of each animal; features: what it tries."""

    kind: str
    species: Species
    catalogue: object
    kin: dict = field(default_factory=dict)
    tested: dict = field(default_factory=dict)
    clutches: list = field(default_factory=list)
    beasts: list = field(default_factory=list)
    litters: list = field(default_factory=list)
    rows: dict = field(default_factory=dict)
    features: set = field(default_factory=set)

    @property
    def text(self):
        """The collection file, without tests; rows in the order of ids."""
        return "\n".join(["id,sex,genes,dam,sire,clutch", *(self.rows[key] for key in sorted(self.rows))])


def drawn(rng, table):
    return rng.choices(list(table), weights=[float(p) for p in table.values()])[0]


class Maker:
    def __init__(self, seed, size, founders, clutches, slips, played):
        self.rng = rng = random.Random(seed)
        self.kind = "python" if rng.random() < 0.75 else "lizard"
        every = [*(PYTHON if self.kind == "python" else LIZARD)]
        self.hidden = played is not None and played in every
        names = [played] if self.hidden else rng.sample(every, k=min(len(every), rng.choice([1, 1, 2, 2, 3])))
        self.species = species_of(self.kind, names)
        self.catalogue = catalogue_of(self.kind)
        self.family = Family(self.kind, self.species, self.catalogue)
        self.played = [name for name in self.species.chromosomes if name in names]
        self.truth, self.sexes, self.size = {}, {}, size
        self.founders, self.clutches = rng.choice(founders), rng.choice(clutches)
        self.ids = rng.sample([f"{a}{b}" for a in "ABCDEFGH" for b in range(10)], k=size)
        self.slip = slips and rng.random() < 0.25

    def make(self):
        rng, family = self.rng, self.family
        for number in range(self.founders):
            self.founder("female" if number % 2 else "male")
        clutches = self.clutches
        for _ in range(2 * self.size):
            if clutches and rng.random() < 0.4:
                self.clutch()
                clutches -= 1
            elif len(self.truth) < self.size:
                self.born()
        for _ in range(clutches):
            self.clutch()
        if self.tests():
            family.features.add("shed test")
        kinds = {
            "sex": "sex-linked" if self.kind == "python" else "ZW, on Z alone",
            "ink + wash": "linked",
            "spider/blackhead": "lethal",
            **dict.fromkeys(("clown", "albino", "blue-eyed leucistic", "paper"), "complex"),
        }
        family.features |= {kinds[name] for name in self.played if name in kinds}
        if len(self.played) > 1:
            family.features.add("several genes")
        return family

    def pick(self, sex):
        return self.rng.choice(sorted(key for key in self.truth if self.sexes[key] == sex))

    def parents_of(self, key):
        beast = next(one for one in self.family.beasts if one.key == key)
        return {beast.dam, beast.sire} - {None}

    def ancestors(self, key):
        found, ahead = set(), [key]
        while ahead:
            new = self.parents_of(ahead.pop()) - found
            found |= new
            ahead += new
        return found | {key}

    def add(self, key, sex, text, dam=None, sire=None, clutch="", true_parents=None):
        label = read_genes(text, sex=sex, catalogue=self.catalogue)
        self.sexes[key] = sex
        self.family.kin[key] = Kin(sex, label, dam, sire, clutch)
        mother, father = true_parents or (dam, sire)
        self.family.beasts.append(Beast(key, dict(label.parts), mother, father))
        self.family.rows[key] = f"{key},{sex or ''},{text},{dam or ''},{sire or ''},{clutch}"
        return label

    def founder(self, sex):
        words = []
        for name in self.played:
            genes = self.species.chromosomes[name]["genes"]
            options = LABELS.get(genes[0])
            if genes[0] == "Dusk":
                options = ["", "Dusk"] if sex == "female" else ["", "Dusk", "het Dusk", "50% het Dusk"]
            if self.hidden:
                options = [option for option in options if "het" in option] or options
            word = self.rng.choice(options)
            if word == "Banana" and sex == "male" and self.rng.random() < 0.3:
                word = self.rng.choice(["male maker Banana", "female maker Banana"])
            words.append(word)
        key = self.ids.pop()
        words = sorted(filter(None, words), key=lambda word: "het" in word)
        label = self.add(key, sex, " ".join(words) or "Normal")
        self.truth[key] = {}
        for name, its in self.species.chromosomes.items():
            self.truth[key][name] = drawn(self.rng, label.parts.get(name, {wild(its): 1}))

    def fertile(self, dam, sire):
        truth = self.truth[dam], self.truth[sire]
        return all(hatching(self.species, name, truth[0][name], truth[1][name]) for name in self.species.chromosomes)

    def egg(self, dam, sire):
        return {
            name: drawn(self.rng, hatching(self.species, name, self.truth[dam][name], self.truth[sire][name]))
            for name in self.species.chromosomes
        }

    def look(self, truth):
        """Chromosome -> what shows, one gene of it sometimes miswritten."""
        seen = {name: dict(visible(self.species, name, truth[name])) for name in self.played}
        if self.slip and self.rng.random() < 0.3:
            name = self.rng.choice(self.played)
            gene = self.rng.choice(self.species.chromosomes[name]["genes"])
            if gene in seen[name]:
                del seen[name][gene]
            elif not seen[name]:
                seen[name][gene] = 2 if gene in RECESSIVE else 1
        return {name: genes for name, genes in seen.items() if genes}

    def words(self, seen, truth, sex):
        """The look as a label, sometimes with a hidden gene that the parents answer for, or a chromosome."""
        words = [
            f"Super {gene}" if copies == 2 and gene not in RECESSIVE else gene
            for genes in seen.values()
            for gene, copies in genes.items()
        ]
        if self.kind == "python" and words.count("Banana") and sex == "male" and self.rng.random() < 0.4:
            marks = [haplotype[0] for haplotype in truth["sex"] if "Banana" in haplotype]
            if len(marks) == 1:
                words[words.index("Banana")] = f"{'male' if marks == ['Y'] else 'female'} maker Banana"
        hidden = {"clown": "66% het Clown", "albino": "50% het Toffee", "ink + wash": "het Wash"}
        for name, word in hidden.items():
            if name in self.played and name not in seen and self.rng.random() < 0.3:
                words.append(word)
        return " ".join(words) or "Normal"

    def born(self):
        dam, sire = self.pick("female"), self.pick("male")
        if not self.fertile(dam, sire):
            return
        key, truth = self.ids.pop(), self.egg(dam, sire)
        sex = sex_of(self.species, truth["sex"]) if self.rng.random() < 0.9 else None
        if self.ancestors(dam) & self.ancestors(sire):
            self.family.features.add("loop")
        if sex is None:
            self.family.features.add("sex not known")
        self.add(key, sex, self.words(self.look(truth), truth, sex), dam, sire)
        self.truth[key] = truth

    def clutch(self):
        rng = self.rng
        dam, name = self.pick("female"), f"clutch {len(self.family.clutches)}"
        males = sorted(key for key in self.truth if self.sexes[key] == "male" and self.fertile(dam, key))
        if not males:
            return
        sires = rng.sample(males, k=min(len(males), rng.choice([1, 1, 2, 2, 3])))
        several = len(sires) > 1 and rng.random() < 0.5
        sexed, true_sire = rng.random() < 0.5, rng.choice(sires)
        young = []
        for _ in range(rng.choice([1, 2, 3, 3, 4])):
            sire = rng.choice(sires) if several else true_sire
            truth = self.egg(dam, sire)
            young.append((truth, sire, self.row(truth, sexed)))
        rows = []
        for _, _, row in young:
            if row not in rows:
                rows.append(row)
        litter = Litter(name, dam, sires, several, [])
        for truth, sire, row in young:
            litter.young.append(rows[rows.index(row)])
            if len(self.truth) < self.size and rng.random() < 0.5 and not self.slip:
                self.keep(litter, truth, sire, rows)
        counted = tuple(
            Hatchlings(row.look, sum(one == row for *_, one in young), row.sex, row.seen, row.maybe, row.covered)
            for row in rows
        )
        self.family.clutches.append(Clutch(name, dam, tuple(sires), several, None, None, None, counted))
        self.family.litters.append(litter)
        if len(sires) > 1:
            self.family.features.add("one sire of several" if not several else "several sires")
        self.family.features |= {"kept"} if litter.kept else set()

    def keep(self, litter, truth, sire, rows):
        """Adds the hatchling to the collection, which does not say of which row it is; its sex is not always known."""
        rng, species = self.rng, self.species
        if sum(all(row_fits(species, n, row, truth[n]) for n in species.chromosomes) for row in rows) > 1:
            self.family.features.add("kept, of several rows")
        sex = sex_of(species, truth["sex"]) if rng.random() < 0.75 else None
        if sex is None:
            self.family.features.add("kept, sex not known")
        key, said = self.ids.pop(), rng.random()
        shown = {name: dict(visible(species, name, truth[name])) for name in self.played}
        text = self.words({name: genes for name, genes in shown.items() if genes}, truth, sex)
        dam = litter.dam if said < 0.6 else None
        father = sire if said < 0.3 else None
        alone = litter.sires[0] if len(litter.sires) == 1 else None
        self.add(key, sex, text, dam, father, litter.key, (litter.dam, father or alone))
        litter.kept[key] = father or alone
        self.truth[key] = truth
        if father and not alone:
            self.family.features.add("kept, sire recorded")

    def row(self, truth, sexed):
        rng = self.rng
        seen = {
            name: tuple((gene, genes[gene]) for gene in self.species.chromosomes[name]["genes"] if gene in genes)
            for name, genes in self.look(truth).items()
        }
        sex = sex_of(self.species, truth["sex"]) if sexed else None
        kind, maybe = rng.random(), {}
        if kind < 0.2:
            gene = rng.choice([gene for name in self.played for gene in self.species.chromosomes[name]["genes"]])
            maybe = {gene: rng.choice([Fraction(3), Fraction(1, 2), Fraction(9)])}
            seen = {n: left for n, look in seen.items() if (left := tuple(item for item in look if item[0] != gene))}
            self.family.features.add("unsure look")
        elif kind < 0.35:
            listed = rng.sample(sorted(seen), k=min(len(seen), 1))
            seen = {name: seen[name] for name in listed}
            self.family.features.add("covering look")
        return Hatchlings("", 1, sex, seen, maybe, 0.2 <= kind < 0.35)

    def tests(self):
        rng = self.rng
        for beast in self.family.beasts:
            if rng.random() < 0.12:
                name = rng.choice(self.played)
                gene = rng.choice(self.species.chromosomes[name]["genes"])
                true = sum(a == gene for haplotype in self.truth[beast.key][name] for a in haplotype)
                copies = true if rng.random() < 0.9 else rng.choice([0, 1, 2])
                error = rng.choice([Fraction(1, 100), Fraction(1, 20)])
                beast.tests.append((gene, copies, error))
                self.family.tested.setdefault(beast.key, []).append(ShedTest(DAY, gene, copies, error))
        return bool(self.family.tested)


def make(seed, size=7, founders=(3, 3, 4), clutches=(0, 1, 1, 2, 2), slips=True, played=None):
    """One family of at most `size` animals. founders, clutches: how many there may be, one of which is drawn.

    slips: whether one in four families has looks that may be miswritten. played: the one chromosome that is in play,
    if it is of the species that is drawn; all founders then carry something hidden there, if that can be.
    """
    return Maker(seed, size, founders, clutches, slips, played).make()
