"""How far a look goes toward a target, and what a pairing lacks of one."""

from fractions import Fraction

import pytest

from explorer.pairing import cross, look_closeness, look_count, nearest, top_genotypes


@pytest.mark.parametrize(
    ("look", "target", "share"),
    [
        ("Leopard Desert Ghost", "Leopard Pinstripe Desert Ghost", Fraction(2, 3)),
        ("Normal", "Leopard Pinstripe", Fraction(0)),
        ("Leopard Pinstripe Pastel", "Leopard Pinstripe", Fraction(1)),
        ("Pastel", "Super Pastel", Fraction(1, 2)),
        ("Super Pastel", "Pastel", Fraction(1)),
        ("Desert Ghost", "Pastel Desert Ghost", Fraction(1, 2)),
        ("Pastel", "Normal", Fraction(1)),
    ],
)
def test_look_closeness(look, target, share):
    assert look_closeness(cross("Normal", "Normal"), look, target) == share


def test_look_closeness__what_must_not_show_counts_for_nothing():
    assert look_closeness(cross("Normal", "Normal"), "Leopard Spider", "Leopard", ["Spider"]) == 0


def test_nearest__the_whole_target_if_the_pair_can_give_it():
    found = nearest(cross("Leopard het Desert Ghost", "Pinstripe het Desert Ghost"), "Leopard Pinstripe Desert Ghost")
    assert (found.look, found.chance, found.missing) == ("Leopard Pinstripe Desert Ghost", Fraction(1, 16), ())


def test_nearest__names_what_is_missing():
    found = nearest(cross("Leopard het Desert Ghost", "het Desert Ghost"), "Leopard Pinstripe Desert Ghost")
    assert (found.look, found.chance) == ("Leopard Desert Ghost", Fraction(1, 8))
    assert found.missing == found.alone == ("Pinstripe",)


def test_nearest__one_copy_where_two_are_wanted():
    found = nearest(cross("Pastel", "Normal"), "Super Pastel")
    assert (found.look, found.chance, found.missing) == ("Pastel", Fraction(1, 2), ("Super Pastel",))


def test_nearest__nothing_at_all():
    found = nearest(cross("Pastel", "Normal"), "Leopard")
    assert (found.look, found.chance, found.missing) == ("", 0, ("Leopard",))


def test_nearest__genes_that_cannot_come_together():
    """A Mojave Lesser gives each egg one of its two genes, and a Normal gives neither."""
    found = nearest(cross("Mojave Lesser", "Normal"), "Mojave Lesser")
    assert (found.chance, len(found.missing), found.alone) == (Fraction(1, 2), 1, ())


def test_nearest__shut_out_by_what_must_not_show():
    found = nearest(cross("Super Pastel", "Leopard"), "Leopard", ["Pastel"])
    assert found.shut_out
    assert found.look == ""


def test_look_count__is_the_length_of_the_table():
    odds = cross("Pastel Leopard het Desert Ghost", "Pastel Pinstripe het Desert Ghost")
    assert look_count(odds) == len(odds.looks())


@pytest.mark.parametrize(
    ("dam", "sire"),
    [
        ("Leopard het Desert Ghost", "Pinstripe het Desert Ghost"),
        ("Mojave Lesser 66% het Clown", "Banana het Clown"),
        ("Spider", "Spider Pastel"),
    ],
)
def test_top_genotypes__agrees_with_the_full_table(dam, sire):
    odds = cross(dam, sire)
    rows, total = top_genotypes(odds, 10_000)
    table = odds.genotypes()
    chances = {(g, s): f for g, s, f in zip(table["genotype"], table["sex"], table["fraction"], strict=True)}
    assert sum(row.chance for row in rows) == 1
    assert total == len(rows)
    for row in rows:
        sexes = [row.sex] if row.sex else ["female", "male"]
        assert row.chance == sum(chances.pop((row.genotype, sex)) for sex in sexes)
    assert not chances


def test_top_genotypes__counts_hidden_copies_toward_the_target():
    rows, _ = top_genotypes(cross("Leopard het Desert Ghost", "Normal"), 50, "Leopard Desert Ghost")
    assert {row.genotype: row.closeness for row in rows} == {
        "Leopard het Desert Ghost": Fraction(2, 3),
        "Leopard": Fraction(1, 3),
        "het Desert Ghost": Fraction(1, 3),
        "Normal": 0,
    }


def test_top_genotypes__carries_cautions():
    rows, _ = top_genotypes(cross("Spider", "Normal"), 50)
    assert {row.genotype: bool(row.cautions) for row in rows} == {"Normal": False, "Spider": True}
