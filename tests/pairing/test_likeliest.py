"""The likeliest combinations without the full table, against the full table."""

from fractions import Fraction
from itertools import islice, product
from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.pairing import likeliest


@st.composite
def choices(draw):
    """Up to five sequences of up to four items with falling chances, many of them equal."""
    made = []
    for k in range(draw(st.integers(0, 5))):
        weights = sorted(draw(st.lists(st.integers(1, 4), min_size=1, max_size=4)), reverse=True)
        made.append([(f"{k}{i}", Fraction(w, sum(weights))) for i, w in enumerate(weights)])
    return made


def full_table(choices):
    """Every combination with its chance, sorted: falling chance, then the order of the sequences."""
    rows = [(tuple(item for item, _ in row), prod((p for _, p in row), start=Fraction(1))) for row in product(*choices)]
    return sorted(rows, key=lambda row: -row[1])


@given(choices())
def test_likeliest__is_the_sorted_table(choices):
    assert list(likeliest(choices)) == full_table(choices)


@given(choices(), st.integers(0, 30))
def test_likeliest__head_alone(choices, n):
    assert list(islice(likeliest(choices), n)) == full_table(choices)[:n]


def test_likeliest__nothing_to_choose():
    assert list(likeliest([])) == [((), 1)]


def test_likeliest__fifty_out_of_many():
    """40 choices of two make 2^40 rows; the likeliest first item each, then one second item at a time."""
    many = [[("often", Fraction(3, 4)), ("seldom", Fraction(1, 4))] for _ in range(40)]
    rows = list(islice(likeliest(many), 41))
    assert rows[0] == (("often",) * 40, Fraction(3, 4) ** 40)
    assert [chance for _, chance in rows[1:]] == [Fraction(3, 4) ** 39 / 4] * 40


@pytest.mark.parametrize("chance", [Fraction(0), Fraction(-1, 2)])
def test_likeliest__chances_must_be_positive(chance):
    with pytest.raises(ValueError, match=r"^chances must be positive$"):
        next(likeliest([[("a", Fraction(1)), ("b", chance)]]))
