"""The lines of a doubt that fades: one a doubt, with the 5 % and the 1 % level."""

from fractions import Fraction

from explorer.pairing import cross
from explorer.pairing.proving import proofs
from explorer.pictures.proving import Doubt, doubt_lines, doubt_lines_in_words

DOUBTS = (
    Doubt("F01 carries Clown", "none shows Clown", [Fraction(2, 3), Fraction(1, 2), Fraction(1, 3)]),
    Doubt("M02 has only one copy of Pinstripe", "all show Pinstripe", [0.5, 0.0]),
)


def test_doubt_lines__one_a_doubt_from_no_hatchling_on():
    first, second = doubt_lines(DOUBTS)["data"]
    assert (first["x"], first["y"]) == ([0, 1, 2], [2 / 3, 1 / 2, 1 / 3])
    assert second["x"] == [0, 1]
    assert [line["name"] for line in (first, second)] == [doubt.name for doubt in DOUBTS]


def test_doubt_lines__equal_lines_can_be_told_apart_without_colour():
    lines = doubt_lines([DOUBTS[0]] * 3)["data"]
    for part, key in (("line", "dash"), ("marker", "symbol"), ("line", "color")):
        assert len({line[part][key] for line in lines}) == 3


def test_doubt_lines__a_chance_of_0_leaves_the_picture():
    figure = doubt_lines(DOUBTS)
    assert 0 < figure["data"][1]["y"][1] < 10 ** figure["layout"]["yaxis"]["range"][0]
    assert figure["data"][1]["hovertext"][1].startswith("M02 has only one copy of Pinstripe: 0 %")


def test_doubt_lines__the_two_levels_are_drawn_and_named():
    layout = doubt_lines(DOUBTS)["layout"]
    assert [shape["y0"] for shape in layout["shapes"]] == [0.05, 0.01]
    names = dict(zip(layout["yaxis"]["tickvals"], layout["yaxis"]["ticktext"], strict=True))
    assert (names[0.05], names[0.01]) == ("5 %", "1 %")
    assert layout["yaxis"]["type"] == "log"
    assert layout["showlegend"] is True


def test_doubt_lines__hover_says_after_how_many():
    first, second = doubt_lines(DOUBTS)["data"]
    assert first["hovertext"] == [
        "F01 carries Clown: 67 %<br>as things stand",
        "F01 carries Clown: 50 %<br>after one hatchling, if none shows Clown",
        "F01 carries Clown: 33 %<br>after two hatchlings, if none shows Clown",
    ]
    assert second["hovertext"][1].endswith("after one hatchling, if all show Pinstripe")


def test_doubt_lines__names_are_text_not_markup():
    (line,) = doubt_lines([Doubt("<b>F01</b>", "none shows <i>", [0.5, 0.2])])["data"]
    assert line["name"] == "&lt;b&gt;F01&lt;/b&gt;"
    assert "<b>" not in "".join(line["hovertext"])
    assert "<i>" not in "".join(line["hovertext"])


def test_doubt_lines__few_numbers_on_a_long_axis():
    for last in (1, 12, 52, 300):
        axis = doubt_lines([Doubt("x", "y", [0.5] * (last + 1))])["layout"]["xaxis"]
        assert last / axis["dtick"] <= 15
        assert axis["range"][1] > last


def test_doubt_lines__nothing_in_doubt():
    figure = doubt_lines(())
    assert figure["data"] == []
    assert figure["layout"]["showlegend"] is False
    assert doubt_lines_in_words(()) == "nothing in doubt"


def test_doubt_lines_in_words():
    assert doubt_lines_in_words(DOUBTS) == (
        "F01 carries Clown, if of the hatchlings none shows Clown: 67 % now, 50 % after 1, 33 % after 2; "
        "M02 has only one copy of Pinstripe, if of the hatchlings all show Pinstripe: 50 % now, 0 % after 1"
    )


def test_doubt_lines__of_a_pairing():
    (proof,) = proofs(cross("66% het Clown", "Clown"))
    doubts = [Doubt(f"F01 {proof.claim}", proof.silence, proof.chances(8))]
    figure = doubt_lines(doubts)
    assert figure["data"][0]["y"] == [2 / (2 + 2**n) for n in range(9)]
    assert doubt_lines_in_words(doubts).endswith("1.5 % after 7, 0.8 % after 8")
