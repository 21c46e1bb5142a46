"""Worked instances of crossing schedules, each with its derivation, against `find_paths`.

The values were worked out by hand as fractions, outside the package; the derivation stands beside each. Setting: one
clutch a season for each dam, c eggs, either sex with 1/2, hatchlings breed in the season after their own unless said
otherwise, only what is visible is selected.
"""

import math
from fractions import Fraction

import pytest

from explorer.notation import ImpossibleGenes
from explorer.planner import UnreachableTarget, find_paths
from tests.planner.worked import TODAY, care, collection


@pytest.fixture
def founders_do_not_count(monkeypatch):
    """Some instances ask for what a founder shows already; this sets aside that the target is then owned."""
    monkeypatch.setattr("explorer.planner.paths._shows", lambda question, animal: False)


def paths(folder, rows, target, eggs, seasons=8, **more):
    waits = {k: more.pop(k) for k in ("male_wait", "female_wait") if k in more}
    return find_paths(
        collection(folder, *rows), target, seasons=seasons, husbandry=care(eggs, **waits), today=TODAY, **more
    )


@pytest.mark.usefixtures("founders_do_not_count")
def test_one_recessive__backcross_of_a_daughter(tmp_path):
    """aa male x AA female, c = 4. A daughter with 1 - 1/2^4 = 15/16, then a visual (1/2 an egg) with 15/16."""
    best = paths(tmp_path, [("M", "male", "Clown"), ("F", "female", "Normal")], "Clown", 4)[0]
    assert best.soonest == 2
    expected = [0, Fraction(225, 256), Fraction(2025, 2048), Fraction(65475, 65536)]
    assert best.chance_by_season[:4] == pytest.approx([float(x) for x in expected], abs=1e-12)
    assert best.expected_season == pytest.approx(32 / 15, abs=1e-12)


@pytest.mark.usefixtures("founders_do_not_count")
@pytest.mark.parametrize(("eggs", "mean"), [(2, Fraction(8, 3)), (6, Fraction(128, 63)), (8, Fraction(512, 255))])
def test_one_recessive__mean_by_clutch_size(tmp_path, eggs, mean):
    """2 / (1 - 1/2^c)."""
    best = paths(tmp_path, [("M", "male", "Clown"), ("F", "female", "Normal")], "Clown", eggs)[0]
    assert best.expected_season == pytest.approx(float(mean), abs=1e-12)


def test_four_single_genes__balanced_tree_with_fixed_sexes(tmp_path):
    """Four homozygous single genes, one copy of each wanted, c = 5: 31/32 for each half in season 1, then q = 1/16."""
    rows = [
        ("M1", "male", "Super Pastel"),
        ("F1", "female", "Super Enchi"),
        ("M2", "male", "Super Leopard"),
        ("F2", "female", "Super Orange Dream"),
    ]
    target = "Pastel Enchi Leopard Orange Dream"
    balanced = [p for p in paths(tmp_path, rows, target, 5, seasons=2) if len(p.steps) == 3]
    best = balanced[0]
    assert best.soonest == 2
    last = 1 - (15 / 16) ** 5
    assert best.chance_by_season[1] == pytest.approx((31 / 32) ** 2 * last, abs=1e-12)
    assert round(best.chance_by_season[1], 4) == 0.2588
    assert round(best.expected_season, 4) == 4.6893


@pytest.mark.parametrize(
    ("dam", "sire", "target", "eggs", "chance"),
    [
        ("Super Lesser", "Super Mojave", "Mojave Lesser", 6, 1.0),
        ("Lesser", "Mojave", "Mojave Lesser", 6, 1 - 0.75**6),
    ],
)
def test_complex__two_alleles_in_one_season(tmp_path, dam, sire, target, eggs, chance):
    """t1t1 x t2t2 gives t1/t2 always; t1/+ x t2/+ with 1/4 an egg."""
    found = paths(
        tmp_path, [("F", "female", dam), ("M", "male", sire)], target, eggs, allow=["Lesser", "Mojave", "Butter"]
    )
    assert found[0].chance_by_season[0] == pytest.approx(chance, abs=1e-12)


def test_complex__three_alleles_are_impossible(tmp_path):
    with pytest.raises(ImpossibleGenes):
        paths(tmp_path, [("F", "female", "Lesser"), ("M", "male", "Mojave")], "Mojave Lesser Phantom", 6)


def single_step(found):
    return next(path for path in found if len(path.steps) == 1)


def test_possible_het__one_hidden_animal_not_one_chance_an_egg(tmp_path):
    """2/3 possible het x visual, c = 4: 2/3 (1 - 1/16^n): 5/8, 85/128, 1365/2048; the limit is 2/3, so no mean."""
    rows = [("F", "female", "Super Pastel 66% het Clown"), ("M", "male", "Clown")]
    path = single_step(paths(tmp_path, rows, "Clown Pastel", 4))
    expected = [Fraction(5, 8), Fraction(85, 128), Fraction(1365, 2048)]
    assert path.chance_by_season[:3] == pytest.approx([float(x) for x in expected], abs=1e-12)
    assert path.expected_season == math.inf


def test_two_possible_hets__clutch_mates_share_their_parents(tmp_path):
    """Two 1/2 possible hets, c = 10: (1/4)(1 - (3/4)^10); two 2/3: (4/9)(1 - (3/4)^10)."""
    for figure, share in (("50%", 1 / 4), ("66%", 4 / 9)):
        rows = [("F", "female", f"{figure} het Clown"), ("M", "male", f"{figure} het Clown")]
        found = paths(tmp_path, rows, "Clown", 10, seasons=1)
        assert found[0].chance_by_season == pytest.approx([share * (1 - 0.75**10)], abs=1e-12)
        assert found[0].expected_season == math.inf


@pytest.mark.usefixtures("founders_do_not_count")
def test_maturity__sons_are_ready_sooner_than_daughters(tmp_path):
    """Males after 1 season, females after 2; one recessive, c = 4."""
    sons = paths(tmp_path, [("F", "female", "Clown"), ("M", "male", "Normal")], "Clown", 4, female_wait=2)[0]
    assert sons.soonest == 2
    assert sons.expected_season == pytest.approx(32 / 15, abs=1e-12)
    assert sons.chance_by_season[1] == pytest.approx(225 / 256, abs=1e-12)
    daughters = paths(tmp_path, [("M", "male", "Clown"), ("F", "female", "Normal")], "Clown", 4, female_wait=2)[0]
    assert daughters.soonest == 3
    assert daughters.expected_season == pytest.approx(47 / 15, abs=1e-12)
    assert daughters.chance_by_season[2] == pytest.approx(225 / 256, abs=1e-12)


FIVE = ["Pastel", "Enchi", "Leopard", "Orange Dream", "GHI"]


def test_set_cover__two_founders_one_cross(tmp_path):
    """Founders {1,2,3}, {3,4}, {4,5}, {1,5}, homozygous: {1,2,3} x {4,5} is certain in one season."""

    def supers(*numbers):
        return " ".join(f"Super {FIVE[n - 1]}" for n in numbers)

    rows = [
        ("F1", "female", supers(1, 2, 3)),
        ("M1", "male", supers(3, 4)),
        ("M2", "male", supers(4, 5)),
        ("F2", "female", supers(1, 5)),
    ]
    best = paths(tmp_path, rows, " ".join(FIVE), 6)[0]
    assert [len(best.steps), best.soonest, best.chance_by_season[0]] == [1, 1, 1.0]


def test_set_cover__three_founders_two_seasons(tmp_path):
    """{1,2}, {2,3}, {3,4}, {4,5}, {5,1}: a cover needs three founders, two crosses, two generations."""

    def supers(*numbers):
        return " ".join(f"Super {FIVE[n - 1]}" for n in numbers)

    rows = [
        ("F1", "female", supers(1, 2)),
        ("M1", "male", supers(2, 3)),
        ("F2", "female", supers(3, 4)),
        ("M2", "male", supers(4, 5)),
        ("F3", "female", supers(5, 1)),
    ]
    found = paths(tmp_path, rows, " ".join(FIVE), 6)
    assert min(path.soonest for path in found) == 2
    assert min(len(path.steps) for path in found) == 2


def test_direct_cross__no_generation_between_helps(tmp_path):
    """A_ male x B_ female, one copy each: 1/4 an egg, so the mean is 1 / (1 - (3/4)^c) with one clutch a season.

    Only a path that keeps a daughter, and so has two clutches a season, can be sooner.
    """
    for eggs, mean in ((1, Fraction(4)), (2, Fraction(16, 7)), (4, Fraction(256, 175))):
        found = paths(tmp_path, [("M", "male", "Pastel"), ("F", "female", "Leopard")], "Pastel Leopard", eggs)
        assert single_step(found).expected_season == pytest.approx(float(mean), abs=1e-12)
        for path in found:
            daughters = [keep for step in path.steps for keep in step.keeps if keep.sex == "female"]
            assert daughters or path.expected_season >= float(mean) - 1e-12


def test_same_sex_founders__need_a_third_season(tmp_path):
    """aa female, bb female, wild male, target aabb, c = 8: no mating aa x bb exists, so season 3 at the soonest.

    Within three seasons by sight: a son of aa x wild (255/256); from bb x that son a male and a female (1 - 2/256), all
    of which carry b and half of which carry a; these two: (255/256)(254/256)(1/4)(1 - (15/16)^8). Taking the second
    parent from aa x a son of bb instead gives .0993, so this is the better of the two.
    """
    rows = [("F1", "female", "Clown"), ("F2", "female", "Piebald"), ("M", "male", "Normal")]
    found = paths(tmp_path, rows, "Clown Piebald", 8)
    assert min(path.soonest for path in found) == 3
    soon = paths(tmp_path, rows, "Clown Piebald", 8, seasons=3)
    exact = (255 / 256) * (254 / 256) * (1 - (15 / 16) ** 8) / 4
    assert soon[0].chance_by_season[2] == pytest.approx(exact, abs=1e-12)
    assert any(round(path.chance_by_season[2], 4) == 0.0993 for path in soon)
    assert paths(tmp_path, rows[:2], "Clown Piebald", 8) == []


def test_missing_gene__is_named(tmp_path):
    with pytest.raises(UnreachableTarget, match="no kept animal carries Piebald") as error:
        paths(tmp_path, [("F", "female", "Clown"), ("M", "male", "Clown")], "Clown Piebald", 6)
    assert error.value.gene == "Piebald"


def test_owned_target__is_a_path_of_no_steps(tmp_path):
    found = paths(tmp_path, [("F", "female", "Clown Pastel"), ("M", "male", "Clown")], "Clown Pastel", 6)
    assert [(p.steps, p.chance_by_season) for p in found] == [((), [1.0] * 8)]
