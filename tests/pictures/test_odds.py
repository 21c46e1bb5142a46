"""The bars: what they show, in which order and shade, and what is left out."""

import json
from fractions import Fraction

import pytest

from explorer.pictures import MOST_BARS, Bar, odds_bars, odds_in_words
from explorer.pictures.palette import nearness_shade

EIGHTH = Fraction(1, 8)


def bar(label, chance=EIGHTH, closeness=Fraction(0), **more):
    return Bar(label, chance, closeness, **more)


def the_trace(figure):
    (trace,) = figure["data"]
    return trace


def test_odds_bars__likeliest_first_nearest_first_among_equals():
    figure = odds_bars([bar("a"), bar("b", Fraction(1, 2)), bar("c", EIGHTH, Fraction(1))])
    assert figure["layout"]["yaxis"]["ticktext"] == ["b", "c", "a"]
    assert figure["layout"]["yaxis"]["range"][0] > figure["layout"]["yaxis"]["range"][1]
    assert the_trace(figure)["text"] == ["50 %", "12.5 %", "12.5 %"]


def test_odds_bars__darker_is_nearer():
    figure = odds_bars([bar("far", Fraction(1, 2)), bar("near", EIGHTH, Fraction(1))])
    assert the_trace(figure)["marker"]["color"] == [nearness_shade(0), nearness_shade(1)]
    shades = [sum(int(nearness_shade(k / 4)[i : i + 2], 16) for i in (1, 3, 5)) for k in range(5)]
    assert shades == sorted(shades, reverse=True)


def test_odds_bars__hover_says_counted_cases_nickname_and_cautions():
    figure = odds_bars([bar("Spider", Fraction(1, 16), nickname="Web", cautions=("wobble [published study]",))])
    (hover,) = the_trace(figure)["hovertext"]
    assert "1 in 16 (6.3 %)" in hover
    assert "also called Web" in hover
    assert "caution: wobble [published study]" in hover
    assert "[caution]" in figure["layout"]["yaxis"]["ticktext"][0]


def test_odds_bars__no_more_than_the_most_and_says_how_many_are_left():
    bars = [bar(f"look {k}") for k in range(40)]
    figure = odds_bars(bars, total=1_200)
    assert len(the_trace(figure)["x"]) == MOST_BARS
    (note,) = figure["layout"]["annotations"]
    assert note["text"] == f"and {1_200 - MOST_BARS:,} more"
    assert odds_in_words(bars, 1_200).endswith(f"and {1_200 - MOST_BARS:,} more")


def test_odds_bars__what_comes_nearest_always_has_a_bar():
    bars = [bar(f"look {k}", EIGHTH) for k in range(40)] + [bar("the target", Fraction(1, 900), Fraction(1))]
    assert odds_bars(bars)["layout"]["yaxis"]["ticktext"][-1] == "the target"


def test_odds_bars__long_labels_are_cut_with_the_whole_on_hover():
    label = " ".join(["Super Pastel Yellow Belly"] * 6)
    figure = odds_bars([bar(label)])
    (tick,), (hover,) = figure["layout"]["yaxis"]["ticktext"], the_trace(figure)["hovertext"]
    assert tick.count("<br>") == 1
    assert tick.endswith("…")
    assert label in hover.replace("<br>", " ")


def test_odds_bars__text_is_escaped():
    figure = odds_bars([bar("<b>x</b>", nickname="<i>y</i>", cautions=("<u>z</u>",))])
    text = json.dumps(figure)
    assert not any(tag in text for tag in ("<b>x", "<i>", "<u>"))


def test_odds_bars__stays_on_this_computer():
    figure = odds_bars([bar("a")])
    assert figure["config"] == {"showSendToCloud": False, "displaylogo": False, "displayModeBar": False}


@pytest.mark.parametrize("bars", [[], [bar("Normal", Fraction(1))]])
def test_odds_bars__nothing_or_one(bars):
    assert len(the_trace(odds_bars(bars)).get("x", [])) == len(bars)


def test_odds_in_words():
    assert odds_in_words([bar("a"), bar("b", Fraction(1, 2))]) == "b: 50 %, 1 in 2; a: 12.5 %, 1 in 8"
    assert odds_in_words([]) == "nothing can hatch"
