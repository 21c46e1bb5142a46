"""Days in the incubator at a temperature."""

from __future__ import annotations

from fractions import Fraction

import pytest

from explorer.husbandry import incubation, incubation_table


@pytest.mark.parametrize(
    ("celsius", "low", "likely", "high"),
    [
        (20, 58, None, None),
        (29.1, 58, None, None),
        (29.2, 58, 64, 70),
        (30.1, 56, 61, 65),
        (30.9, 55, 58, 61),
        (31, 55, 58, 60),
        (31.7, 55, 58, 60),
        (32.4, 55, 58, 60),
        (32.5, None, None, 60),
        (40, None, None, 60),
    ],
)
def test_days(celsius: float, low: int | None, likely: int | None, high: int | None) -> None:
    found = incubation(celsius)
    assert (found.low, found.likely, found.high) == (low, likely, high)


def test_days__warmer_is_never_later() -> None:
    found = [incubation(Fraction(2920 + step, 100)) for step in range(0, 326, 5)]
    lows, highs = [one.low or 0 for one in found], [one.high or 0 for one in found]
    assert lows == sorted(lows, reverse=True)
    assert highs == sorted(highs, reverse=True)


def test_words__say_what_a_figure_is_of() -> None:
    assert incubation(29.2).source == "published: ELL87"
    assert incubation(31.5).source == "common practice, no source"
    assert incubation(30).source == "between published: ELL87 and common practice, no source"
    assert incubation(30).note == "in between what is said of 29.2 C and of 31 C"
    assert incubation(32).note == "no figure above 31.7 C: taken as there"
    assert incubation(31.5).note == incubation(29.2).note == ""
    assert incubation(28).note.startswith("no figure below 29.2 C")


@pytest.mark.parametrize("celsius", [19.9, 40.1, 88, -3])
def test_temperature__of_no_incubator_is_refused(celsius: float) -> None:
    with pytest.raises(ValueError, match="incubation_c: needed degrees Celsius from 20 to 40; found"):
        incubation(celsius)


def test_table__is_in_order_and_says_how_each_is_known() -> None:
    table = incubation_table()
    assert list(table.columns) == ["celsius_low", "celsius_high", "days_low", "days_high", "source", "note"]
    assert list(table["celsius_low"]) == sorted(table["celsius_low"])
    assert all(table["source"])
    assert "blamed for kinks" in table["note"].iloc[-1]
