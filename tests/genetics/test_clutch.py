"""From one egg to a clutch."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.genetics import at_least, egg_law, exact, expected_eggs, none_of

HALF = Fraction(1, 2)


@pytest.mark.parametrize(
    ("number", "fraction"),
    [(0.81, "81/100"), (1, "1"), ("3/4", "3/4"), (Fraction(2, 3), "2/3"), (0.1, "1/10"), (np.float64(0.07), "7/100")],
)
def test_exact__a_float_is_the_decimal_that_is_written(number, fraction):
    assert exact(number) == Fraction(fraction)


@pytest.mark.parametrize("number", ["x", float("nan"), float("inf"), "1/0", ""])
def test_exact__says_what_is_no_number(number):
    with pytest.raises(ValueError, match=r"^a number is needed, such as 0\.81 or 3/4, found "):
        exact(number)


@pytest.mark.parametrize(
    ("eggs", "words"),
    [
        (-1, "a clutch has a whole number of eggs from 0 up, found -1"),
        (6.5, "a clutch has a whole number of eggs from 0 up, found 6.5"),
        ("6", "a clutch has a whole number of eggs from 0 up, found '6'"),
        (None, "a clutch has a whole number of eggs from 0 up, found None"),
        (True, "a clutch has a whole number of eggs from 0 up, found True"),
        ({5.0: 1}, "a clutch has a whole number of eggs from 0 up, found 5.0"),
        ({6: 1.5, 5: -0.5}, "the chance of 6 eggs lies from 0 to 1, found 3/2"),
        ({6: -0.5, 5: 1.5}, "the chance of 6 eggs lies from 0 to 1, found -1/2"),
        ({6: 0.5}, "the chances of the clutch sizes must sum to 1, found 1/2"),
        ({}, "the chances of the clutch sizes must sum to 1, found 0"),
        ({6: "many"}, "a number is needed, such as 0.81 or 3/4, found 'many'"),
    ],
)
def test_egg_law__says_what_is_wrong(eggs, words):
    with pytest.raises(ValueError) as caught:
        egg_law(eggs)
    assert str(caught.value) == words


@pytest.mark.parametrize(
    ("eggs", "law"),
    [
        (6, {6: 1}),
        (0, {0: 1}),
        (np.int64(6), {6: 1}),
        ({5: 0.3, 6: 0.7}, {5: Fraction(3, 10), 6: Fraction(7, 10)}),
        ({5: 0, 6: 1}, {6: 1}),
    ],
)
def test_egg_law__number_or_distribution(eggs, law):
    assert egg_law(eggs) == law


def test_expected_eggs__is_the_mean():
    assert expected_eggs({4: HALF, 7: HALF}) == Fraction(11, 2)


def test_none_of__is_the_generating_function():
    law = {0: Fraction(1, 4), 2: Fraction(3, 4)}
    assert none_of(law, Fraction(1, 3)) == Fraction(1, 4) + Fraction(3, 4) * Fraction(4, 9)


laws = st.lists(st.integers(1, 9), min_size=1, max_size=7).map(
    lambda weights: {n: Fraction(w, sum(weights)) for n, w in enumerate(weights)}
)
shares = st.fractions(0, 1, max_denominator=20)


@given(laws, shares)
def test_at_least__one_is_the_complement_of_none(law, q):
    assert at_least({q: Fraction(1)}, law, 1) == 1 - none_of(law, q)


@given(laws, shares, shares, shares)
def test_at_least__tails_fall_and_sum_to_the_mean(law, q, r, weight):
    rates = {q: Fraction(1)} if q == r else {q: weight, r: 1 - weight}
    tails = [at_least(rates, law, wanted) for wanted in range(max(law) + 2)]
    assert tails[0] == 1
    assert tails[-1] == 0
    assert tails == sorted(tails, reverse=True)
    mean = sum(rate * w for rate, w in rates.items())
    assert sum(tails[1:]) == expected_eggs(law) * mean


def test_egg_law__floats_that_miss_one_by_rounding():
    assert egg_law({5: 1 / 3, 6: 1 / 3, 7: 1 / 3}) == {5: Fraction(1, 3), 6: Fraction(1, 3), 7: Fraction(1, 3)}
    with pytest.raises(ValueError, match="must sum to 1"):
        egg_law({5: 0.5, 6: 0.49})
