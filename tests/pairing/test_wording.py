"""How chances are written: never rounded to 0 or 100 %, counted in whole cases where that is short."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.pairing import bits_text, gain_text, mean_text, number_word, one_in, percent, score_text, times_text


@pytest.mark.parametrize(
    ("chance", "text"),
    [
        (Fraction(0), "0 %"),
        (Fraction(1), "100 %"),
        (Fraction(1, 8), "12.5 %"),
        (Fraction(1, 3), "33 %"),
        (Fraction(1, 16), "6.3 %"),
        (Fraction(3, 16), "19 %"),
        (Fraction(1, 20), "5 %"),
        (Fraction(1, 999), "0.1 %"),
        (Fraction(1, 1001), "<0.1 %"),
        (Fraction(1, 10**30), "<0.1 %"),
        (Fraction(901, 1000), "90.1 %"),
        (Fraction(10**30 - 1, 10**30), ">99.9 %"),
        (Fraction(9994, 10000), ">99.9 %"),
        (0.5512046813964844, "55 %"),
        (1 - 2**-40, ">99.9 %"),
        (1.0, "100 %"),
        (0.0, "0 %"),
        (5e-324, "<0.1 %"),
    ],
)
def test_percent(chance, text):
    assert percent(chance) == text


@given(st.fractions(min_value=0, max_value=1))
def test_percent__is_0_or_100_only_if_exact(chance):
    assert (percent(chance) == "0 %") == (chance == 0)
    assert (percent(chance) == "100 %") == (chance == 1)


@pytest.mark.parametrize("chance", [-0.1, 1.5, Fraction(9, 8)])
def test_percent__refuses_what_is_no_chance(chance):
    with pytest.raises(ValueError, match="a chance lies from 0 to 1, found"):
        percent(chance)


@pytest.mark.parametrize(
    ("chance", "text"),
    [
        (Fraction(1), "every one"),
        (Fraction(0), "none"),
        (Fraction(1, 8), "1 in 8"),
        (Fraction(21, 32), "21 in 32"),
        (Fraction(1, 1024), "1 in 1,024"),
        (1 / 6, "1 in 6"),
        (0.0625, "1 in 16"),
        (Fraction(1, 4096), "about 1 in 4,100"),
        (Fraction(300, 4099), "about 1 in 14"),
        (Fraction(1500, 4099), "about 4 in 11"),
        (Fraction(4098, 4099), "all but about 1 in 4,100"),
    ],
)
def test_one_in(chance, text):
    assert one_in(chance) == text


@pytest.mark.parametrize(
    ("mean", "text"), [(Fraction(0), "0"), (Fraction(3, 4), "0.75"), (Fraction(3), "3"), (0.001, "<0.01"), (1.5, "1.5")]
)
def test_mean_text(mean, text):
    assert mean_text(mean) == text


def test_number_word():
    assert [number_word(n) for n in (0, 6, 15, 16)] == ["no", "six", "fifteen", "16"]


def test_score_text__on_the_scale() -> None:
    assert score_text(Fraction(7, 4)) == "meets your taste 1.8 of 3"
    assert score_text(Fraction(0), short=True) == "0 of 3"
    assert score_text(Fraction(-1, 2), short=True) == "−0.5 of 3"
    assert score_text(Fraction(-1, 100), short=True) == "0 of 3"
    assert score_text(Fraction(2), short=True) == "2 of 3"


def test_gain_bits_and_times() -> None:
    said = {64: "+0.64 of 3", -20: "−0.2 of 3", 0: "0 of 3", 150: "+1.5 of 3"}
    assert {n: gain_text(Fraction(n, 100)) for n in said} == said
    assert bits_text(0.4321) == "0.43 bits"
    assert [times_text(Fraction(n)) for n in (20, 3)] == ["20 times", "3 times"]
    assert times_text(Fraction(5, 2)) == "2.5 times"
