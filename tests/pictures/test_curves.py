"""The lines of chance by season: one a path, the chosen one strong and on top."""

from explorer.pictures import Curve, chance_curves, chance_curves_in_words

SEASONS = ("2026/27", "2027/28", "2028/29")
CURVES = (Curve("path 1", [0.0, 0.25, 0.9999999]), Curve("path 2", [0.0, 0.5, 0.75]))


def test_chance_curves__the_chosen_is_strong_labelled_and_drawn_last():
    figure = chance_curves(CURVES, 0, SEASONS)
    weak, strong = figure["data"]
    assert strong["y"] == [0.0, 0.25, 0.9999999]
    assert strong["line"]["width"] > weak["line"]["width"]
    assert strong["text"] == ["", "25 %", ">99.9 %"]
    assert "text" not in weak


def test_chance_curves__hover_names_path_chance_and_season():
    hover = chance_curves(CURVES, 0, SEASONS)["data"][0]["hovertext"]
    assert hover[1] == "path 2: 50 %<br>by the end of season 2 (2027/28)"


def test_chance_curves__seasons_by_number_and_name():
    assert chance_curves(CURVES, 0, SEASONS)["layout"]["xaxis"]["ticktext"] == [
        "1<br>2026/27",
        "2<br>2027/28",
        "3<br>2028/29",
    ]


def test_chance_curves__with_many_seasons_every_other_is_named():
    names = [str(2026 + k) for k in range(12)]
    figure = chance_curves([Curve("path 1", [0.5] * 12)], 0, names)
    assert figure["layout"]["xaxis"]["ticktext"][-3:] == ["10<br>2035", "11<br>", "12<br>2037"]
    assert figure["data"][0]["text"][-3:] == ["50 %", "", "50 %"]


def test_chance_curves_in_words():
    assert chance_curves_in_words(CURVES, 0, SEASONS) == (
        "path 1, chosen: season 1 (2026/27) 0 %, season 2 (2027/28) 25 %, season 3 (2028/29) >99.9 %; "
        "path 2: 75 % by season 3"
    )
    assert chance_curves_in_words((), 0, ()) == "no paths"
