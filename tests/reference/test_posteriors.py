"""What relatives and offspring say of an animal: prior times likelihood, worked out by hand.

Standard carrier-risk arithmetic (derived; the sib and X-linked settings as in Ogino S, Wilson RB, Journal of Molecular
Diagnostics 6:1-9, 2004, abstract seen).
"""

from fractions import Fraction

import pytest

from explorer.genetics import Genome, Group, Member, gametes, joint, order
from explorer.looks import shown
from explorer.pairing import cross
from tests.reference.genomes import linked, on_x, recessive, unlinked

AUTOSOME = unlinked(recessive("a")).by_name["a"]
WILD, HET, VISUAL = order(("",), ("",)), order(("",), ("a",)), order(("a",), ("a",))
HALF = Fraction(1, 2)


def anything(diplotype):
    return True


def normal(diplotype):
    return not shown(AUTOSOME, diplotype)


def founder(**law):
    """A founder; keywords wild, het, visual -> chance."""
    states = {"wild": WILD, "het": HET, "visual": VISUAL}
    return Member(None, None, {states[name]: Fraction(p) for name, p in law.items()}, None, anything)


def child(dam, sire, fits=normal):
    return Member(dam, sire, None, None, fits)


def chance_of_het(members, key):
    return joint(AUTOSOME, members, (key,)).get((HET,), Fraction(0))


def test_sib_of_a_visual__two_thirds():
    """Normal full sib of a visual recessive, both parents normal and otherwise unknown carriers."""
    mixed = {"wild": HALF, "het": HALF}
    members = {
        "dam": founder(**mixed),
        "sire": founder(**mixed),
        "visual": child("dam", "sire", lambda d: d == VISUAL),
        "sib": child("dam", "sire"),
    }
    assert joint(AUTOSOME, members, ("dam", "sire")) == {(HET, HET): 1}
    assert joint(AUTOSOME, members, ("sib",)) == {(HET,): Fraction(2, 3), (WILD,): Fraction(1, 3)}


@pytest.mark.parametrize(
    ("dam", "sire", "expected"),
    [
        ({"het": 1}, {"wild": 1}, HALF),
        ({"het": 1}, {"het": 1}, Fraction(2, 3)),
        ({"visual": 1}, {"wild": 1}, Fraction(1)),
    ],
)
def test_normal_offspring__of_known_parents(dam, sire, expected):
    members = {"dam": founder(**dam), "sire": founder(**sire), "child": child("dam", "sire")}
    assert chance_of_het(members, "child") == expected


def after_normals(prior, mate, n):
    """Posterior of a parent with this prior of being het, after n normal offspring with the mate."""
    prior = Fraction(prior)
    members = {"parent": founder(wild=1 - prior, het=prior), "mate": founder(**{mate: 1})}
    members |= {f"child {i}": child("parent", "mate") for i in range(n)}
    return chance_of_het(members, "parent")


@pytest.mark.parametrize(
    ("prior", "posteriors"),
    [
        ("2/3", ("2/3", "1/2", "1/3", "1/5", "1/9", "1/17", "1/33")),
        ("1/2", ("1/2", "1/3", "1/5", "1/9", "1/17", "1/33", "1/65")),
    ],
)
def test_proving__visual_mate_as_fractions(prior, posteriors):
    assert [after_normals(prior, "visual", n) for n in range(7)] == [Fraction(p) for p in posteriors]


@pytest.mark.parametrize(
    ("prior", "printed"),
    [
        ("2/3", (0.6667, 0.6, 0.5294, 0.4576, 0.3876, 0.3219, 0.2625)),
        ("1/2", (0.5, 0.4286, 0.36, 0.2967, 0.2404, 0.1918, 0.1511)),
    ],
)
def test_proving__het_mate_table(prior, printed):
    """To four decimals."""
    assert [round(float(after_normals(prior, "het", n)), 4) for n in range(7)] == list(printed)


PERCENT = {
    ("2/3", "visual", 1): (66.7, 50.0, 33.3, 20.0, 11.1, 5.9, 3.0, 1.5, 0.8),
    ("1/2", "visual", 1): (50.0, 33.3, 20.0, 11.1, 5.9, 3.0, 1.5, 0.8, 0.4),
    ("1/3", "visual", 1): (33.3, 20.0, 11.1, 5.9, 3.0, 1.5, 0.8, 0.4, 0.2),
    ("2/3", "het", 2): (66.7, 52.9, 38.8, 26.3, 16.7, 10.1, 6.0, 3.4, 2.0),
    ("1/2", "het", 2): (50.0, 36.0, 24.0, 15.1, 9.1, 5.3, 3.1, 1.8, 1.0),
    ("1/3", "het", 2): (33.3, 22.0, 13.7, 8.2, 4.8, 2.7, 1.6, 0.9, 0.5),
}
"""(prior, mate, step) -> percent still het after 0, step, 2 step, ... normal hatchlings. Derived."""


@pytest.mark.parametrize(("prior", "mate", "step"), PERCENT)
def test_proving__percent_table(prior, mate, step):
    normal_share = {"visual": HALF, "het": Fraction(3, 4)}[mate]
    for i, printed in enumerate(PERCENT[prior, mate, step]):
        found, p = after_normals(prior, mate, i * step), Fraction(prior)
        assert found == p * normal_share ** (i * step) / (p * normal_share ** (i * step) + 1 - p)
        assert round(float(100 * found), 1) == printed


@pytest.mark.parametrize(
    ("prior", "mate", "five", "one"),
    [
        ("2/3", "visual", 6, 8),
        ("1/2", "visual", 5, 7),
        ("1/3", "visual", 4, 6),
        ("2/3", "het", 13, 19),
        ("1/2", "het", 11, 16),
        ("1/3", "het", 8, 14),
    ],
)
def test_proving__hatchlings_to_fall_to_5_and_1_percent(prior, mate, five, one):
    for goal, n in ((Fraction(1, 20), five), (Fraction(1, 100), one)):
        assert after_normals(prior, mate, n) <= goal < after_normals(prior, mate, n - 1)


def test_proving__one_visual_hatchling_is_proof():
    members = {"parent": founder(wild=HALF, het=HALF), "mate": founder(visual=1)}
    members |= {"normal": child("parent", "mate"), "visual": child("parent", "mate", lambda d: d == VISUAL)}
    assert chance_of_het(members, "parent") == 1


def test_two_possible_hets__are_known_jointly():
    """Two 50 % hets, six normal hatchlings: both are het with .056, while the marginals alone would say .137."""
    members = {"dam": founder(wild=HALF, het=HALF), "sire": founder(wild=HALF, het=HALF)}
    members |= {f"child {i}": child("dam", "sire") for i in range(6)}
    both = joint(AUTOSOME, members, ("dam", "sire"))[HET, HET]
    q = Fraction(3, 4) ** 6
    assert both == q / (q + 3)
    apart = chance_of_het(members, "dam") * chance_of_het(members, "sire")
    assert (round(float(both), 3), round(float(apart), 3)) == (0.056, 0.137)


X_GENOME: Genome = on_x(recessive("w"))
X: Group = X_GENOME.groups[0]


def x_pair(first, second, sex):
    return X_GENOME.pair(X, (first,), (second,), sex)


def x_normal(sex):
    return lambda d: X_GENOME.sex_of(d) == sex and not shown(X, d)


def x_founder(sex, first="", second=""):
    return Member(None, None, {x_pair(first, second, sex): Fraction(1)}, None, anything)


def x_family(sons, generations):
    """A known carrier, then `generations` normal daughters in a row, each with a wild mate; the first has the sons."""
    members = {"mother 0": x_founder("female", "w")}
    for i in range(1, generations + 1):
        members[f"father {i}"] = x_founder("male")
        members[f"mother {i}"] = Member(f"mother {i - 1}", f"father {i}", None, None, x_normal("female"))
    members["mate"] = x_founder("male")
    members |= {f"son {i}": Member("mother 1", "mate", None, None, x_normal("male")) for i in range(sons)}
    return members


@pytest.mark.parametrize("sons", range(6))
def test_x_linked__daughter_of_a_carrier_with_normal_sons(sons):
    """1 / (1 + 2^n): 1/9 after three sons; the setting of Ogino and Wilson 2004."""
    found = joint(X, x_family(sons, 1), ("mother 1",))
    assert found[(x_pair("", "w", "female"),)] == Fraction(1, 1 + 2**sons)


def test_x_linked__grandmother_carrier_and_two_normal_sons():
    """Mother 1/5, her daughter 1/10."""
    members = x_family(2, 2)
    carrier = x_pair("", "w", "female")
    assert joint(X, members, ("mother 1",))[(carrier,)] == Fraction(1, 5)
    assert joint(X, members, ("mother 2",))[(carrier,)] == Fraction(1, 10)


@pytest.mark.parametrize(
    ("dam", "sire", "expected"),
    [
        ("Clown", "Normal", "1"),
        ("het Clown", "het Clown", "2/3"),
        ("het Clown", "Normal", "1/2"),
        ("66% het Clown", "66% het Clown", "1/2"),
        ("66% het Clown", "Normal", "1/3"),
        ("50% het Clown", "Normal", "1/4"),
        ("33% het Clown", "Normal", "1/6"),
        ("66% het Clown", "het Clown", "3/5"),
        ("50% het Clown", "het Clown", "4/7"),
        ("50% het Clown", "50% het Clown", "2/5"),
    ],
)
@pytest.mark.parametrize("swapped", [False, True])
def test_labels__of_non_visual_hatchlings(dam, sire, expected, swapped):
    """Where the trade's percentages come from: share of hets among hatchlings that do not show the gene. Derived."""
    odds = cross(sire, dam) if swapped else cross(dam, sire)
    table = odds.genotypes()
    het = table[table.genotype == "het Clown"].fraction.sum()
    assert het / (1 - odds.chance("Clown")) == Fraction(expected)


def test_linked_genes__gamete_posterior_of_a_double_dominant_look():
    """Second generation in coupling, r = .17: the four gametes of one parent, given that the offspring shows nothing.

    Exact classes .672225, .077775, .077775, .172225 and posterior .6174, .0632, .0632, .2562 (general-purpose Bayesian
    network package, run outside the project).
    """
    r = Fraction(17, 100)
    group = linked(recessive("a"), recessive("b"), rate=r).by_name["map"]
    parent = order(("", ""), ("a", "b"))
    passed = gametes(group, parent)
    posterior = {
        mine: sum(p * q for other, q in passed.items() if not shown(group, order(mine, other)))
        for mine, p in passed.items()
    }
    total = sum(posterior.values())
    assert total == (2 + (1 - r) ** 2) / 4 == Fraction("0.672225")
    rounded = {mine: round(float(p / total), 4) for mine, p in posterior.items()}
    assert rounded == {("", ""): 0.6174, ("a", ""): 0.0632, ("", "b"): 0.0632, ("a", "b"): 0.2562}
