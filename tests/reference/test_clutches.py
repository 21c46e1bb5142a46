"""Clutches instead of single offspring. All values derived outside the package from the generating function of the
clutch size, P(at least one) = 1 - G(1 - q)."""

from fractions import Fraction
from itertools import pairwise
from math import factorial

import pytest

from explorer.genetics import at_least, egg_law, expected_eggs, none_of
from explorer.pairing import cross

HALF = Fraction(1, 2)

UNIFORM = dict.fromkeys(range(4, 9), Fraction(1, 5))


def poisson(mean, fertility=1, most=80):
    """The Poisson law cut off at `most`, as fractions that sum to 1; infertile clutches stand at size 0.

    Cutting a mean of up to 7 off at 80 moves a chance by less than 1e-30.
    """
    weights = {n: Fraction(mean) ** n / factorial(n) for n in range(most + 1)}
    total = sum(weights.values())
    law = {n: Fraction(fertility) * weight / total for n, weight in weights.items()}
    law[0] += 1 - Fraction(fertility)
    return egg_law(law)


LAWS = {
    "fixed 6": egg_law(6),
    "Poisson 6": poisson(6),
    "Poisson 6, fertility .7": poisson(6, ".7"),
    "uniform 4 to 8": egg_law(UNIFORM),
}

AT_LEAST_ONE = {
    "1/2": (".98438", ".95021", ".66515", ".97578"),
    "1/4": (".82202", ".77687", ".54381", ".80694"),
    "1/8": (".55120", ".52763", ".36934", ".54316"),
    "1/16": (".32107", ".31271", ".21890", ".31823"),
}


@pytest.mark.parametrize("q", AT_LEAST_ONE)
@pytest.mark.parametrize("name", LAWS)
def test_at_least_one__table(q, name):
    """To five decimals: the tolerance, 5e-6, is that of the printed table."""
    printed = AT_LEAST_ONE[q][list(LAWS).index(name)]
    found = at_least({Fraction(q): Fraction(1)}, LAWS[name], 1)
    assert found == 1 - none_of(LAWS[name], Fraction(q))
    assert abs(found - Fraction(printed)) <= Fraction(5, 10**6)


@pytest.mark.parametrize("q", [HALF, Fraction(1, 4), Fraction(1, 8), Fraction(1, 16)])
def test_at_least_one__fixed_and_uniform_exactly(q):
    fixed = 1 - (1 - q) ** 6
    uniform = 1 - sum((1 - q) ** n for n in range(4, 9)) / 5
    assert at_least({q: Fraction(1)}, egg_law(6), 1) == fixed
    assert at_least({q: Fraction(1)}, egg_law(UNIFORM), 1) == uniform
    assert expected_eggs(UNIFORM) == 6
    assert uniform < fixed, "the same mean with more variance is always lower"


@pytest.mark.parametrize(
    ("goal", "clutches"),
    [
        ("9/10", {"1/2": 3, "1/4": 3, "1/8": 5, "1/16": 9}),
        ("19/20", {"1/2": 3, "1/4": 4, "1/8": 6, "1/16": 11}),
    ],
)
def test_clutches_needed__poisson_7_with_fertility_70_percent(goal, clutches):
    """The setting of a planning paper on laboratory rodents of 2023; the numbers derived."""
    law = poisson(7, ".7")
    for q, number in clutches.items():
        missed = none_of(law, Fraction(q))
        assert 1 - missed ** (number - 1) < Fraction(goal) <= 1 - missed**number, f"q = {q}"


def both_sexes(law, share=HALF):
    """Chance that one clutch holds a wanted egg of either sex, by inclusion and exclusion."""
    return 1 - none_of(law, share) - none_of(law, 1 - share) + none_of(law, Fraction(1))


@pytest.mark.parametrize(
    ("eggs", "joint", "product"),
    [(1, "0", "1/4"), (2, "1/2", "9/16"), (4, "7/8", "225/256"), (6, "31/32", "3969/4096")],
)
def test_both_sexes__fixed_clutch_is_below_the_product(eggs, joint, product):
    assert both_sexes(egg_law(eggs)) == Fraction(joint)
    assert at_least({HALF: Fraction(1)}, egg_law(eggs), 1) ** 2 == Fraction(product) > Fraction(joint)


def test_both_sexes__poisson_is_the_product():
    """Exactly so for the whole law; within 1e-30 for the law cut off at 80."""
    assert abs(both_sexes(poisson(6)) - at_least({HALF: Fraction(1)}, poisson(6), 1) ** 2) < Fraction(1, 10**30)


def test_both_sexes__infertile_clutches_lie_above_the_product():
    """Poisson 4 with fertility .8: .5981 against .4785, to four decimals."""
    law = poisson(4, ".8")
    together, apart = both_sexes(law), at_least({HALF: Fraction(1)}, law, 1) ** 2
    assert (round(float(together), 4), round(float(apart), 4)) == (0.5981, 0.4785)


def test_both_sexes__the_pairing_gives_each_sex_half():
    odds = cross("Clown", "het Clown")
    table = odds.genotypes()
    assert table.groupby("sex").fraction.sum().to_dict() == {"female": HALF, "male": HALF}


@pytest.mark.parametrize("survival", [Fraction(1), Fraction(81, 100), Fraction(0)])
def test_survival__each_wanted_egg_counts_with_it(survival):
    """Independent survival v: q is replaced by v q."""
    odds = cross("het Clown", "het Clown")
    found = odds.chance_in_clutch("Clown", eggs=UNIFORM, hatch_rate=survival)
    assert found == 1 - none_of(UNIFORM, survival / 4)


@pytest.mark.parametrize(
    ("mate", "share"), [("Clown", HALF), ("het Clown", Fraction(3, 4)), ("50% het Clown", Fraction(7, 8))]
)
@pytest.mark.parametrize("n", [1, 3, 5, 10])
def test_het_proof__all_normal_although_het(mate, share, n):
    """Normal with (1/2)^n, (3/4)^n; with an untested daughter of a het, a fresh one for each offspring, (7/8)^n."""
    odds = cross("het Clown", mate)
    if mate == "50% het Clown":
        assert (1 - odds.chance_in_clutch("Clown", eggs=1)) ** n == share**n
    else:
        assert 1 - odds.chance_in_clutch("Clown", eggs=n) == share**n


@pytest.mark.parametrize("k", [1, 2, 4, 6])
def test_het_proof__several_offspring_of_one_daughter(k):
    """1/2 + 1/2 (3/4)^k: the daughter is a het or not once for the whole clutch."""
    found = 1 - cross("50% het Clown", "het Clown").chance_in_clutch("Clown", eggs=k)
    assert found == HALF + HALF * Fraction(3, 4) ** k


@pytest.mark.parametrize(
    ("share", "needed"), [(HALF, (5, 7, 10)), (Fraction(3, 4), (11, 17, 25)), (Fraction(7, 8), (23, 35, 52))]
)
def test_het_proof__offspring_needed(share, needed):
    """For 95, 99 and 99.9 %."""
    for goal, n in zip(("19/20", "99/100", "999/1000"), needed, strict=True):
        miss = Fraction(1) - Fraction(goal)
        assert none_of(egg_law(n), 1 - share) <= miss < none_of(egg_law(n - 1), 1 - share)


def percent(chance):
    return round(float(100 * chance), 1)


@pytest.mark.parametrize(
    ("n", "visual_mate", "het_mate"),
    [
        (4, 93.8, 68.4),
        (5, 96.9, 76.3),
        (6, 98.4, 82.2),
        (7, 99.2, 86.7),
        (8, 99.6, 90.0),
        (10, 99.9, 94.4),
        (11, 100.0, 95.8),
    ],
)
def test_any_visual__table(n, visual_mate, het_mate):
    """Derived, to one decimal of a percent."""
    found = [cross("het Clown", mate).chance_in_clutch("Clown", eggs=n) for mate in ("Clown", "het Clown")]
    assert found == [1 - HALF**n, 1 - Fraction(3, 4) ** n]
    assert [percent(chance) for chance in found] == [visual_mate, het_mate]


@pytest.mark.parametrize(("mate", "share", "printed"), [("het Clown", "1/4", 79.5), ("Clown", "1/2", 97.4)])
def test_any_visual__seven_eggs_of_which_81_percent_hatch(mate, share, printed):
    """Hatch rate: Morrill BH and co-authors, Herpetological Review 42:226-231, 2011 (summary seen); rest derived."""
    found = cross("het Clown", mate).chance_in_clutch("Clown", eggs=7, hatch_rate=0.81)
    assert found == 1 - (1 - Fraction(81, 100) * Fraction(share)) ** 7
    assert percent(found) == printed


@pytest.mark.parametrize(
    ("dam", "sire", "printed"),
    [
        ("66% het Clown", "het Clown", 54.8),
        ("50% het Clown", "het Clown", 41.1),
        ("66% het Clown", "66% het Clown", 36.5),
        ("50% het Clown", "50% het Clown", 20.6),
    ],
)
def test_any_visual__uncertain_parents_and_six_hatchlings(dam, sire, printed):
    """Derived: the chance that both carry, times 1 - (3/4)^6."""
    carry = {"het Clown": Fraction(1), "66% het Clown": Fraction(2, 3), "50% het Clown": HALF}
    found = cross(dam, sire).chance_in_clutch("Clown", eggs=6)
    assert found == carry[dam] * carry[sire] * (1 - Fraction(3, 4) ** 6)
    assert percent(found) == printed


def test_visuals_among_six__het_with_het():
    """Derived: the binomial law, in percent to one decimal (0.02 % for all six)."""
    odds = cross("het Clown", "het Clown")
    tails = [odds.chance_in_clutch("Clown", eggs=6, at_least=k) for k in range(8)]
    assert tails[0] == 1
    assert tails[7] == 0
    exactly = [one - other for one, other in pairwise(tails)]
    assert [percent(chance) for chance in exactly] == [17.8, 35.6, 29.7, 13.2, 3.3, 0.4, 0.0]
    assert exactly[6] == Fraction(1, 4096)


@pytest.mark.parametrize(
    ("dam", "sire", "eggs", "expected"),
    [
        # Possible hets: one hidden truth for the whole clutch, so never the product over eggs. Derived.
        ("66% het Clown", "Clown", 6, Fraction(21, 32)),
        ("66% het Clown", "Clown", 4, Fraction(5, 8)),
        ("50% het Clown", "50% het Clown", 10, Fraction(1, 4) * (1 - Fraction(3, 4) ** 10)),
        ("66% het Clown", "66% het Clown", 10, Fraction(4, 9) * (1 - Fraction(3, 4) ** 10)),
    ],
)
def test_uncertain_parents__share_one_truth(dam, sire, eggs, expected):
    odds = cross(dam, sire)
    assert odds.chance_in_clutch("Clown", eggs=eggs) == expected
    assert expected < 1 - (1 - odds.chance("Clown")) ** eggs


@pytest.mark.parametrize(("seasons", "expected"), [(1, "5/8"), (2, "85/128"), (3, "1365/2048")])
def test_possible_het__by_the_end_of_a_season(seasons, expected):
    """66 % het with a visual mate, four eggs a season, at least one visual; tends to 2/3. Derived."""
    found = cross("66% het Clown", "Clown").chance_in_clutch("Clown", eggs=4 * seasons)
    assert found == Fraction(expected) < Fraction(2, 3)
