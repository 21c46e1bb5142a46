"""Progress equals every clutch written out, as fractions, on random crosses."""

import random
from fractions import Fraction

import pytest

from explorer.catalogue import Caution, Evidence, Part
from explorer.genetics import Brood
from explorer.looks import wanted_events
from explorer.pairing import ProgressToward, Standing
from tests.oracle import whole_clutches
from tests.oracle.random_crosses import make

CROSSES = 240
BATCHES = 6


def question(cross, rng):
    """Wanted genes with copies, genes that must not show, and cautions, all drawn at random."""
    loci = [locus for group in cross.genome.groups for locus in group.loci]
    wanted = {}
    for locus in rng.sample(loci, k=min(len(loci), rng.choice([1, 2, 3]))):
        genes = rng.sample([a.name for a in locus.alleles], k=min(len(locus.alleles), rng.choice([1, 1, 2])))
        twice = len(genes) == 1 and (genes[0] in cross.recessive or rng.random() < 0.4)
        wanted |= dict.fromkeys(genes, 2 if twice else 1)
    others = [a.name for locus in loci for a in locus.alleles if a.name not in wanted]
    unwanted = rng.sample(others, k=min(len(others), rng.choice([0, 0, 1])))
    everything = [a.name for locus in loci for a in locus.alleles]
    barred = []
    for _ in range(rng.choice([0, 1, 2])):
        genes = rng.sample(everything, k=min(len(everything), rng.choice([1, 2])))
        barred.append(({gene: rng.choice([1, 1, 2]) for gene in genes}, rng.choice([None, None, "female", "male"])))
    return wanted, unwanted, barred


def cautions_of(barred):
    known = Evidence("from memory")
    return [
        Caution(tuple(Part(g, n) for g, n in parts.items()), "ill", "severe", "published study", known, sex)
        for parts, sex in barred
    ]


@pytest.mark.parametrize("batch", range(BATCHES))
def test_progress__equals_every_clutch_written_out(batch):
    positive, met = 0, set()
    for seed in range(batch, CROSSES, BATCHES):
        cross, rng = make(seed), random.Random(seed)
        wanted, unwanted, barred = question(cross, rng)
        law = rng.choice([{1: Fraction(1)}, {2: Fraction(1)}, {0: Fraction(1, 3), 2: Fraction(2, 3)}])
        hatch, lay = rng.choice([Fraction(1), Fraction(4, 5)]), rng.choice([Fraction(1), Fraction(2, 3)])
        judge = whole_clutches.Judge(cross, wanted, unwanted, barred)
        slow = whole_clutches.progress(judge, law, hatch, lay)
        standing = Standing(cross.genome, wanted, unwanted, cautions_of(barred))
        toward = ProgressToward(standing, eggs=law, hatch_rate=hatch, lay_rate=lay)
        brood = Brood.of(cross.genotype(cross.dam), cross.genotype(cross.sire))
        assert toward.of(brood) == toward.of(brood) == slow, f"seed {seed}"
        positive += slow > 0
        met |= {len(parts) for parts, _ in barred} | {sex for _, sex in barred}
    assert positive > CROSSES / BATCHES / 8
    assert met >= {1, 2, None}


def test_worth__is_one_just_where_the_target_shows():
    shows = 0
    for seed in range(200):
        cross, rng = make(seed), random.Random(seed)
        wanted, _, _ = question(cross, rng)
        standing, events = Standing(cross.genome, wanted), wanted_events(cross.genome, wanted)
        brood = Brood.of(cross.genotype(cross.dam), cross.genotype(cross.sire))
        laws = {group.name: list(brood.distribution(group)) for group in brood.groups}
        if not all(laws.values()):
            continue
        for _ in range(10):
            at = {name: rng.choice(law) for name, law in laws.items()}
            hit = all(event(at[name]) for name, event in events.items())
            assert (standing.worth(at) == 1) == hit, f"seed {seed}"
            shows += hit
    assert shows > 20
