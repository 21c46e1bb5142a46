"""What is said of a pairing, in words that agree with its numbers."""

from fractions import Fraction

import pytest

from explorer.pairing import (
    Clutch,
    cross,
    lacking_in_words,
    look_in_words,
    losses_in_words,
    names_in_words,
    nearest,
    percent,
)

SIX = Clutch(6, Fraction(1))


def test_look_in_words():
    odds = cross("Leopard het Desert Ghost", "het Desert Ghost")
    assert look_in_words(odds, "Leopard Desert Ghost", SIX) == (
        "1 in 8 shows Leopard Desert Ghost. A clutch of six has it with a chance of 55 %."
    )
    assert percent(odds.chance_in_clutch("Leopard Desert Ghost", eggs=6)) == "55 %"


@pytest.mark.parametrize(
    ("dam", "sire", "look", "text"),
    [
        (
            *("Super Pastel", "Normal", "Pastel"),
            "Every hatchling shows Pastel. A clutch of six has it with a chance of 100 %.",
        ),
        ("Pastel", "Pastel", "Pastel", "3 in 4 show Pastel. A clutch of six has it with a chance of >99.9 %."),
        ("Pastel", "Normal", "Leopard", "No hatchling shows Leopard."),
    ],
)
def test_look_in_words__every_some_none(dam, sire, look, text):
    assert look_in_words(cross(dam, sire), look, SIX) == text


def test_look_in_words__says_what_must_not_show():
    said = look_in_words(cross("Pastel Leopard", "Normal"), "Leopard", SIX, ["Pastel"])
    assert said.startswith("1 in 4 shows Leopard and not Pastel.")


def test_clutch__one_egg_and_a_hatch_rate():
    odds, one = cross("Pastel", "Normal"), Clutch(1, Fraction(1, 2))
    assert str(one) == "a clutch of one egg"
    assert one.chance(odds, "Pastel") == one.expected(odds, "Pastel") == Fraction(1, 4)


@pytest.mark.parametrize(
    ("dam", "sire", "target", "without", "text"),
    [
        ("Leopard", "Normal", "Leopard", (), ""),
        ("Leopard", "Normal", "Leopard Pinstripe", (), "Pinstripe is missing"),
        ("Normal", "Normal", "Leopard Pinstripe", (), "Leopard and Pinstripe are missing"),
        ("Super Pastel", "Leopard", "Leopard", ("Pastel",), "every hatchling that shows the target also shows Pastel"),
    ],
)
def test_lacking_in_words(dam, sire, target, without, text):
    assert lacking_in_words(nearest(cross(dam, sire), target, without), without) == text


def test_lacking_in_words__not_together():
    found = nearest(cross("Mojave Lesser", "Normal"), "Mojave Lesser")
    assert lacking_in_words(found) == f"{found.missing[0]} cannot come together with the rest of the target"


def test_losses_in_words():
    odds = cross("Spider", "Spider")
    assert odds.viable == Fraction(3, 4)
    assert losses_in_words(odds).startswith("1 in 4 eggs does not hatch: two copies of Spider")
    assert losses_in_words(cross("Pastel", "Normal")) == ""


def test_names_in_words():
    assert [names_in_words(x) for x in ((), ("A",), ("A", "B"), ("A", "B", "C"))] == ["", "A", "A and B", "A, B and C"]
    assert names_in_words(("A", "B"), "or") == "A or B"
