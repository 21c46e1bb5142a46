"""The bars of genes: what is drawn where, and the same in words."""

import json
from fractions import Fraction

from explorer.pictures.gene_bars import MOST_GENES, SHOWS, UNSEEN, GeneBar, gene_bars, gene_bars_in_words

HALF, THIRD = Fraction(1, 2), Fraction(1, 3)
PASTEL = GeneBar("Pastel", Fraction(96, 100), Fraction(96, 100), HALF)
CLOWN = GeneBar("Clown", Fraction(1, 10), HALF, Fraction(3, 4))


def parts(figure):
    """Bars of what shows, bars of what is carried unseen, the marks, the texts."""
    return figure["data"]


def test_gene_bars__what_shows_and_what_is_carried_unseen_beside_it():
    figure = gene_bars([PASTEL, CLOWN])
    shows, unseen, _, texts = parts(figure)
    assert figure["layout"]["yaxis"]["ticktext"] == ["Pastel", "Clown"]
    assert (shows["x"], shows["marker"]["color"]) == ([0.96, 0.1], SHOWS)
    assert (unseen["base"], unseen["x"], unseen["marker"]["color"]) == ([0.96, 0.1], [0, 0.4], UNSEEN)
    assert [text.strip() for text in texts["text"]] == ["96 %", "50 %"]


def test_gene_bars__marks_the_chance_beforehand_on_each_bar():
    _, _, marks, texts = parts(gene_bars([PASTEL, CLOWN]))
    assert marks["x"] == [0.5, 0.5, None, 0.75, 0.75, None]
    assert [marks["y"][k] < place < marks["y"][k + 1] for k, place in ((0, 0), (3, 1))] == [True, True]
    assert texts["x"] == [0.96, 0.75], "the text stands clear of bar and mark"


def test_gene_bars__one_scale_whatever_the_chances():
    small = GeneBar("Pastel", Fraction(1, 50), Fraction(1, 50), Fraction(1, 50))
    assert gene_bars([small])["layout"]["xaxis"]["range"] == gene_bars([PASTEL])["layout"]["xaxis"]["range"]


def test_gene_bars__hover_says_all_three_chances():
    shows, unseen, *_ = parts(gene_bars([CLOWN]))
    assert shows["hovertext"] == unseen["hovertext"] == ["Clown: 50 %, shows 10 %, before any look 75 %"]


def test_gene_bars__never_nothing_or_all_unless_exact():
    near = GeneBar("Pastel", 1 - Fraction(1, 10**9), 1 - Fraction(1, 10**9), Fraction(1, 10**9))
    assert gene_bars_in_words([near]) == "Pastel: >99.9 %, shows >99.9 %, before any look <0.1 %"


def test_gene_bars__no_more_than_the_most():
    many = [GeneBar(f"gene {k}", THIRD, THIRD, THIRD) for k in range(MOST_GENES + 3)]
    figure = gene_bars(many)
    assert len(parts(figure)[0]["x"]) == MOST_GENES
    (note,) = figure["layout"]["annotations"]
    assert note["text"] == "and 3 more"
    assert gene_bars_in_words(many).endswith("; and 3 more")


def test_gene_bars__text_is_escaped_and_long_names_are_cut():
    figure = gene_bars([GeneBar("<b>x</b>", HALF, HALF, HALF), GeneBar("a" * 90, HALF, HALF, HALF)])
    assert "<b>" not in json.dumps(figure)
    assert figure["layout"]["yaxis"]["ticktext"][1].endswith("…")


def test_gene_bars__none():
    assert parts(gene_bars([]))[0].get("x", []) == []
    assert gene_bars_in_words([]) == "no gene comes into question"


def test_gene_bars_in_words():
    said = "Pastel: 96 %, shows 96 %, before any look 50 %; Clown: 50 %, shows 10 %, before any look 75 %"
    assert gene_bars_in_words([PASTEL, CLOWN]) == said
