"""Shades of numbers: the more, the darker; nothing has none; every ink can be read."""

from fractions import Fraction

from explorer.pictures.line_up_shades import tint, tints
from explorer.pictures.palette import PAPER, nearness_shade


def luminance(colour):
    linear = [
        c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4
        for c in (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    ]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def test_tint__on_the_one_ramp_and_the_most_is_darkest():
    papers = [paper for paper, _ in tints([Fraction(1, 8), Fraction(1, 4), Fraction(1, 2)])]
    assert papers == [nearness_shade(0.25), nearness_shade(0.5), nearness_shade(1)]
    assert sorted(papers, key=luminance, reverse=True) == papers


def test_tint__nothing_has_no_shade():
    assert tint(0, Fraction(1, 2))[0] == PAPER
    assert tints([0, 0]) == [tint(0, 0)] * 2
    assert tint(Fraction(1, 10**9), 1)[0] != PAPER
    assert tints([]) == []


def test_tint__ink_can_be_read_on_every_shade():
    for step in range(101):
        paper, ink = tint(step / 100, 1)
        light, dark = sorted((luminance(paper), luminance(ink)), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= 4.5
