"""Percentages as written, and the fractions they stand for."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.notation.figures import TINY, TINY_TEXT, figure, percent

F = Fraction


@pytest.mark.parametrize(
    ("number", "chance"),
    [
        ("66", F(2, 3)),
        ("67", F(2, 3)),
        ("66.0", F(2, 3)),
        ("33", F(1, 3)),
        ("57", F(4, 7)),
        ("17", F(1, 6)),
        ("66.7", F(667, 1000)),
        ("50", F(1, 2)),
        ("12.5", F(1, 8)),
        (".5", F(1, 200)),
        ("100", F(1)),
        ("0", F(0)),
        ("150", F(3, 2)),
        ("0.0000954", F(954, 10**9)),
        ("1234567", None),
        ("5.", None),
        ("1e3", None),
        ("٣٣", None),
        ("9" * 5000, None),
        ("", None),
    ],
)
def test_figure(number: str, chance: Fraction | None) -> None:
    assert figure(number) == chance


@pytest.mark.parametrize(
    ("chance", "text"),
    [
        (F(2, 3), "66%"),
        (F(1, 3), "33%"),
        (F(4, 7), "57%"),
        (F(1, 6), "17%"),
        (F(1), "100%"),
        (F(1, 2), "50%"),
        (F(1, 8), "12.5%"),
        (F(63, 64), "98.4375%"),
        (F(1, 10), "10%"),
        (F(127, 128), "99.2%"),
        (F(1, 7), "14.3%"),
        (F(3, 7), "42.9%"),
        (F(1, 3000), "0.0333%"),
        (F(2999, 3000), "99.9%"),
        (F(1, 10**9), "0.0000001%"),
        (F(1, 2**40), "under 0.001%"),
        (F(1, 99_999), "0.001%"),
        (TINY, TINY_TEXT),
        (1 - F(1, 10**9), "99.9%"),
    ],
)
def test_percent(chance: Fraction, text: str) -> None:
    assert percent(chance) == text


@given(st.integers(1, 999_999), st.integers(0, 4))
def test_figure_percent_figure__is_a_fixed_point(digits: int, decimals: int) -> None:
    number = f"{digits / 10**decimals:.{decimals}f}"
    chance = figure(number)
    assert chance is not None
    assert figure(percent(chance)[:-1]) == chance


@given(st.fractions(0, 1).filter(lambda chance: 0 < chance < 1))
def test_percent__is_near_and_never_0_or_100(chance: Fraction) -> None:
    for down in (False, True):
        text = percent(chance, down=down)
        if text == TINY_TEXT:
            assert chance < Fraction(1, 100_000)
            continue
        again = figure(text[:-1])
        assert again is not None
        assert 0 < again < 1
        assert abs(again - chance) <= chance / 50
