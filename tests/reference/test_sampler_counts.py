"""Counts drawn by general-purpose samplers outside the package, against the engine's exact chances.

simuPOP 1.1.18 (source build) and R/qtl 1.58; the counts, chi-square values and p were computed outside the package.
24 more crosses of the first sampler are compared in tests/agreement/test_simupop_draws.py.
"""

from fractions import Fraction

import pytest
from scipy.stats import chisquare

from explorer.genetics import Brood
from tests.reference.genomes import animal, hets, linked, looks, on_x, recessive, unlinked

R = Fraction(17, 100)
COUPLED, DOUBLE = (("", ""), ("a", "b")), (("a", "b"), ("a", "b"))


def independent():
    genome = unlinked(recessive("a"), recessive("b"))
    return looks(Brood.of(hets(genome, "female"), hets(genome, "male")))


def on_one_chromosome(mate):
    genome = linked(recessive("a"), recessive("b"), rate=R)
    return looks(Brood.of(animal(genome, "female", map=COUPLED), animal(genome, "male", map=mate)))


DRAWN = {
    # Counts of: nothing, b alone, a alone, both.
    "independent, second generation": (independent(), (90120, 29907, 30027, 9946), 0.764, 0.86),
    "linked test cross, r = .17": (on_one_chromosome(DOUBLE), (41511, 8647, 8544, 41298), 3.76, 0.29),
    "linked second generation, r = .17": (on_one_chromosome(COUPLED), (67238, 7736, 7804, 17222), 0.315, 0.96),
}


@pytest.mark.parametrize(("ratio", "counts", "statistic", "p"), DRAWN.values(), ids=DRAWN)
def test_simupop__chi_square_as_found(ratio, counts, statistic, p):
    n = sum(counts)
    found = chisquare(counts, [float(ratio[key]) * n for key in ("", "b", "a", "ab")])
    assert found.statistic == pytest.approx(statistic, abs=5e-3)
    assert round(float(found.pvalue), 2) == p


def test_linked_second_generation__classes():
    """.672225, .077775, .077775, .172225 (general-purpose Bayesian network package; derived as well)."""
    found = on_one_chromosome(COUPLED)
    assert [str(float(found[key])) for key in ("", "b", "a", "ab")] == ["0.672225", "0.077775", "0.077775", "0.172225"]


def test_simupop__gene_on_x_alone():
    """White male with a wild female: all sons normal, all daughters carriers. Their offspring, 100,000 drawn:
    24980 carrier and 25168 wild females, 24785 normal and 25067 white males."""
    genome = on_x(recessive("w"))
    first = Brood.of(animal(genome, "female"), animal(genome, "male", sex=(("w",), ("",)))).distribution(
        genome.groups[0]
    )
    assert len(first) == 2
    (carrier,) = (d for d in first if genome.sex_of(d) == "female")
    assert carrier == genome.pair(genome.groups[0], ("",), ("w",), "female")
    dam = animal(genome, "female", sex=(("",), ("w",)))
    second = Brood.of(dam, animal(genome, "male")).distribution(genome.groups[0])
    drawn = {
        carrier: 24980,
        genome.wild(genome.groups[0], "female"): 25168,
        genome.wild(genome.groups[0], "male"): 24785,
        genome.pair(genome.groups[0], ("w",), ("",), "male"): 25067,
    }
    assert set(drawn) == set(second)
    found = chisquare(list(drawn.values()), [float(second[key]) * 100_000 for key in drawn])
    assert found.pvalue > 0.05


def test_r_qtl__backcross_estimate():
    """100,000 offspring at r = .17 gave the estimate .1707: within two standard errors of what the engine gives."""
    found = on_one_chromosome(DOUBLE)
    share = found["a"] + found["b"]
    assert share == R
    error = float(share * (1 - share) / 100_000) ** 0.5
    assert abs(0.1707 - float(share)) < 2 * error
