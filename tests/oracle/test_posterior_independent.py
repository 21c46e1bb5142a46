"""What animals carry equals what a Bayesian-network library finds on the same pedigrees, of up to 30 animals.

The network has a node for each animal, each hatchling and each unsure sire; looks, tests and death in the egg enter as
likelihoods. The library works in floating point, on numbers between 0 and 1 with some hundred factors, so that its own
rounding is near 1e-14; the tolerance of 1e-9 leaves room for that and for nothing else.
"""

from itertools import product
from math import prod
from random import Random

import numpy as np
import pytest

from tests.oracle.pedigree_brute_force import (
    as_tested,
    hatching,
    own_weights,
    places,
    row_fits,
    sex_of,
    told_apart,
    wild,
)
from tests.oracle.random_pedigrees import make
from tests.oracle.test_posterior_brute_force import knowledge_of

gum = pytest.importorskip("pyagrum")

FAMILIES, BATCHES = 100, 10
TOLERANCE = 1e-9


PLAYED = ["clown", "albino", "sex", None]
"""The chromosome in play, by turns; None for any of them, and several at once."""


def family_of(seed, most=30):
    """Linked loci have so many genotypes that the library takes a minute for 30 animals; there are fewer then."""
    size = Random(seed).randint(8, most)
    founders = (size // 4 + 2, size // 3 + 2)
    family = make(seed, size, founders, clutches=(0, 1, 2, 3), slips=False, played=PLAYED[seed % len(PLAYED)])
    linked = "ink + wash" in family.species.chromosomes
    return family_of(seed, 12) if linked and most > 12 else family


def states_of(family, name):
    """Every genotype that anyone can have there, given the alleles that founders or labels hold."""
    species, chromosome = family.species, family.species.chromosomes[name]
    start = 1 if chromosome["sex"] else 0
    strands = {wild(chromosome)[0]} if not start else set()
    for beast in family.beasts:
        for genotype in beast.label.get(name, ()):
            strands.update(genotype)
    if start:
        for key in species.pairs["female"] + species.pairs["male"]:
            absent = "-" if key == species.odd and chromosome["hemi"] else ""
            strands.add((key, *(absent for _ in chromosome["loci"])))
    mixed = {
        alleles
        for alleles in product(*({strand[i] for strand in strands} for i in range(len(chromosome["loci"]) + start)))
        if not start or (("-" in alleles) == (alleles[0] == species.odd and bool(chromosome["hemi"])))
    }
    pairs = {(one, two) for one, two in product(mixed, repeat=2) if one <= two}
    if start:
        marks = set(species.pairs.values())
        pairs = {pair for pair in pairs if (pair[0][0], pair[1][0]) in marks}
    return sorted(pairs)


class Bayes:
    """The family as a network of the library. chosen: for each litter, the rows of the kept hatchlings, and the rest.

    scale: what the evidence was divided by.
    """

    def __init__(self, family, chosen):
        self.family, self.species, self.scale = family, family.species, 1.0
        self.rows = {key: row for _, rows, _ in chosen for key, row in rows.items()}
        self.rest = {litter.key: rest for litter, (_, _, rest) in zip(family.litters, chosen, strict=True)}
        self.net = gum.BayesNet()
        self.evidence, self.fathers = {}, {}
        self.states = {name: states_of(family, name) for name in self.species.chromosomes}
        self.bred = {name: self.bred_table(name) for name in self.species.chromosomes}
        of_kept = {key: litter for litter in family.litters for key, sire in litter.kept.items() if sire is None}
        for litter in family.litters:
            self.choose(litter)
        for beast in family.beasts:
            for name in self.species.chromosomes:
                self.add_beast(name, beast, of_kept.get(beast.key))
        for litter in family.litters:
            for number, place in enumerate(self.rest[litter.key]):
                row = litter.young[place]
                for name in self.species.chromosomes:
                    node = f"{litter.key}, {number}, {name}"
                    self.add_young(name, node, litter, number)
                    self.likely(name, node, lambda g, name=name, row=row: row_fits(self.species, name, row, g))
        if not self.scale:
            return
        self.inference = gum.LazyPropagation(self.net)
        for node, weights in self.evidence.items():
            self.inference.addEvidence(node, weights)
        self.inference.makeInference()
        self.chance = self.scale * self.inference.evidenceProbability()

    def bred_table(self, name):
        """[dam, sire, child]; the last state of each stands for one that died in the egg."""
        species, states = self.species, self.states[name]
        table = np.zeros([len(states) + 1] * 3)
        for dam, sire in product(states, repeat=2):
            fits = not species.chromosomes[name]["sex"] or (
                sex_of(species, dam) == "female" and sex_of(species, sire) == "male"
            )
            made = hatching(species, name, dam, sire) if fits else {}
            for child, chance in made.items():
                table[states.index(dam), states.index(sire), states.index(child)] = chance
        table[..., -1] = 1 - table[..., :-1].sum(axis=-1)
        return table

    def variable(self, node, count):
        self.net.add(gum.LabelizedVariable(node, "", count))

    def likely(self, name, node, fits):
        """The largest weight is made 1: the library takes a single weight above 0 for certainty, whatever it is."""
        weights = np.array([float(fits(genotype)) for genotype in self.states[name]] + [0.0])
        top = weights.max() or 1.0
        self.scale *= top if weights.any() else 0.0
        self.evidence[node] = (weights / top).tolist()

    def choose(self, litter):
        """A node for the sire, or one for each hatchling where there may be several."""
        born = [*range(len(self.rest[litter.key])), *(key for key, sire in litter.kept.items() if sire is None)]
        fixed = {sire for sire in litter.kept.values() if sire is not None}
        for one in born if litter.several else ["all"]:
            node = f"sire of {litter.key}, {one}"
            self.fathers.setdefault(litter.key, []).append(node)
            if len(litter.sires) > 1:
                self.variable(node, len(litter.sires))
                self.net.cpt(node).fillWith(1 / len(litter.sires))
                if fixed and not litter.several:
                    self.evidence[node] = [float(sire in fixed) for sire in litter.sires]

    def add_beast(self, name, beast, litter):
        node, states = f"{beast.key}, {name}", self.states[name]
        chromosome = self.species.chromosomes[name]
        label = beast.label.get(name, {wild(chromosome): 1})
        if beast.dam is None:
            self.variable(node, len(states) + 1)
            label = as_tested(chromosome, label, beast.tests)
            self.net.cpt(node).fillWith([float(label.get(genotype, 0)) for genotype in states] + [0.0])
            self.likely(name, node, lambda g: own_weights(self.species, name, beast, {g: 1}).get(g, 0))
            return
        if litter is None:
            self.add_bred(name, node, beast.dam, f"{beast.sire}, {name}")
        else:
            self.add_young(name, node, litter, beast.key)
        looks = {told_apart(self.species, name, genotype) for genotype in label}
        row = self.rows.get(beast.key)
        seen = {
            g: 1 if row is None else row_fits(self.species, name, row, g)
            for g in states
            if told_apart(self.species, name, g) in looks
        }
        weights = own_weights(self.species, name, beast, seen)
        self.likely(name, node, lambda genotype: weights.get(genotype, 0))

    def add_young(self, name, node, litter, one):
        chooser = f"sire of {litter.key}, {one if litter.several else 'all'}"
        father = f"{litter.sires[0]}, {name}"
        if len(litter.sires) > 1:
            father = f"{chooser}, {name}"
            if father not in self.net.names():
                self.add_chosen(name, father, chooser, litter.sires)
        self.add_bred(name, node, litter.dam, father)

    def add_chosen(self, name, node, chooser, sires):
        """A node that has the genotype of whichever sire is chosen."""
        size = len(self.states[name]) + 1
        whole = np.zeros([size] * len(sires) + [len(sires), size])
        for *at, chosen in product(*[range(size)] * len(sires), range(len(sires))):
            whole[(*at, chosen, at[chosen])] = 1
        self.add_table(node, [*(f"{sire}, {name}" for sire in sires), chooser], whole)

    def add_bred(self, name, node, dam, father):
        self.add_table(node, [f"{dam}, {name}", father], self.bred[name])

    def add_table(self, node, parents, table):
        """table: one axis for each parent, then the node's own."""
        self.variable(node, table.shape[-1])
        for parent in parents:
            self.net.addArc(parent, node)
        axes = [*parents, node]
        order = [axes.index(axis) for axis in reversed(self.net.cpt(node).names)]
        self.net.cpt(node).fillWith(table.transpose(order).flatten().tolist())

    def chances(self, key, name):
        return dict(zip(self.states[name], self.inference.posterior(f"{key}, {name}").tolist(), strict=False))

    def paternity(self, litter):
        tables = [self.inference.posterior(node).tolist() for node in self.fathers[litter.key]]
        shares = [sum(column) / len(tables) for column in zip(*tables, strict=True)]
        return dict(zip(litter.sires, shares, strict=True))


def compare(family):
    """The largest difference of two chances."""
    knowledge = knowledge_of(family)
    assert not knowledge.disputes
    assert not [*knowledge.clashes()]
    every, worst = [], 0.0
    for chosen in product(*(list(places(litter)) for litter in family.litters)):
        bayes = Bayes(family, chosen)
        if bayes.scale:
            every.append((bayes, bayes.chance * prod(float(weight) for weight, _, _ in chosen)))
    total = sum(weight for _, weight in every)

    def mixed(tables):
        return {
            key: sum(table[key] * weight for table, (_, weight) in zip(tables, every, strict=True)) / total
            for key in tables[0]
        }

    for beast in family.beasts:
        for name in family.species.chromosomes:
            found = knowledge.joint_of(knowledge.genome.by_name[name], (beast.key,))
            expected = mixed([bayes.chances(beast.key, name) for bayes, _ in every])
            assert {genotype for (genotype,) in found} <= expected.keys()
            worst = max(worst, *(abs(chance - float(found.get((g,), 0))) for g, chance in expected.items()))
    for litter in family.litters:
        if len(litter.sires) > 1 and litter.key in bayes.fathers:
            for sire, chance in mixed([bayes.paternity(litter) for bayes, _ in every]).items():
                worst = max(worst, abs(chance - float(knowledge.paternity[litter.key][sire])))
    return worst


@pytest.mark.parametrize("batch", range(BATCHES))
def test_posterior__equals_the_library(batch):
    for seed in range(batch, FAMILIES, BATCHES):
        assert compare(family_of(seed)) < TOLERANCE, f"seed {seed}"


def test_families__are_large_and_looped():
    families = [family_of(seed) for seed in range(FAMILIES)]
    assert sum("loop" in family.features for family in families) >= FAMILIES * 3 / 4
    assert max(len(family.beasts) for family in families) == 30
    assert sum(len(family.beasts) > 15 for family in families) >= FAMILIES / 2
