"""Room and money without its widgets: figures typed, kept and reckoned with, in words."""

from datetime import date
from fractions import Fraction

import pytest

from explorer.collection import Collection
from explorer.collection.purse import FIGURES, Purse, purse_file, read_purse
from explorer.panels.desk import Desk
from explorer.panels.path_tab.money_model import NO_PATH, NONE_YET, MoneyModel
from explorer.panels.path_tab.money_words import money
from explorer.panels.path_tab.path_model import PathModel
from explorer.planner import costs

TODAY = date(2026, 11, 25)
ROWS = "id,sex,genes,hatched,weight_g\nF,female,Pastel,2020-01-01,2000\nM,male,Clown,2020-01-01,900\n"


@pytest.fixture
def desk(tmp_path):
    file = tmp_path / "mine.csv"
    file.write_text(ROWS, encoding="utf-8")
    desk = Desk(file, TODAY)
    assert desk.open(file)
    desk.aim("Pastel Clown")
    return desk


@pytest.fixture
def paths(desk):
    model = PathModel(desk)
    model.seasons = 5
    model.found(model.begin()(lambda share, text: None))
    return model


@pytest.fixture
def model(desk, paths):
    made = MoneyModel(desk, paths)
    assert made.catch_up()
    return made


def texts(**more):
    return {**dict.fromkeys(FIGURES, ""), **more}


def test_nothing_stated__nothing_shown(model):
    assert model.sentences == (NONE_YET,)
    assert (model.costs, model.rows, model.basis) == (None, (), "")
    assert model.state(texts(currency="kr")) == ()
    assert model.sentences == (NONE_YET,)


def test_stated__is_remembered_beside_the_collection(model, desk, paths):
    stated = texts(**{"cost of an animal a season": "120", "places": "3", "currency": "kr"})
    assert model.state(stated) == ()
    assert read_purse(purse_file(desk.path)) == model.purse == Purse(Fraction(120), 3, None, "kr")
    again = MoneyModel(desk, paths)
    again.catch_up()
    assert again.purse == model.purse
    assert not again.catch_up()


def test_numbers__are_those_of_the_planner(model, desk, paths):
    model.state(texts(**{"cost of an animal a season": "100", "price of a hatchling": "80", "currency": "kr"}))
    found = costs(paths.path, desk.animals, model.purse, husbandry=desk.care)
    assert model.costs == found
    assert money(found.cost, "kr") in model.sentences[0]
    assert money(found.income, "kr") in model.sentences[1]
    assert len(model.sentences) == 2
    assert [row[-2] for row in model.rows] == [money(season.cost, "kr") for season in found.seasons]
    assert {len(row) for row in model.rows} == {len(model.head)}
    assert model.rows[0][:4] == ("1 (2026/27)", "100 %", "2", "2")


def test_head__has_only_what_was_stated(model):
    model.state(texts(places="2"))
    assert model.head == ("season", "still without the target", "animals, on average", "animals, at most", "places")
    assert model.sentences[0].startswith("2 places may be too few from season 2 (2027/28) on")
    assert (model.rows[0][-1], model.rows[1][-1]) == ("2", "2, 1 too few at most")


def test_places__enough_or_too_few_already(model):
    model.state(texts(places="40"))
    assert model.sentences == ("40 places are enough all along.",)
    model.state(texts(places="1"))
    assert model.sentences == ("1 place is too few for the 2 animals that are kept now.",)


def test_no_path_yet(desk):
    model = MoneyModel(desk, PathModel(desk))
    model.catch_up()
    model.state(texts(places="4"))
    assert model.sentences == (NO_PATH,)
    assert model.rows == ()


def test_owned_already(model, desk, paths):
    desk.aim("Pastel")
    paths.found(paths.begin()(lambda share, text: None))
    model.state(texts(places="4"))
    assert model.sentences == (
        "The target is owned already, so there is no path to reckon.", "4 places are enough all along."
    )


def test_slips__are_told_and_change_nothing(model, desk):
    model.state(texts(places="4"))
    problems = model.state(texts(places="many", **{"price of a hatchling": "49,50"}))
    assert [problem.text.split(":")[0] for problem in problems] == ["places", "price of a hatchling"]
    assert "Write 49.50, with a point." in problems[1].text
    assert model.purse == read_purse(purse_file(desk.path)) == Purse(places=4)


def test_a_bad_file__is_told_and_not_used(desk, paths):
    purse_file(desk.path).write_text("figure,value\nplaces,many\n", encoding="utf-8")
    model = MoneyModel(desk, paths)
    model.catch_up()
    assert model.purse == Purse()
    assert model.problems[0].startswith("mine.money.csv was not read: row 2, places, value")


def test_another_collection__has_its_own_figures(model, desk, tmp_path):
    model.state(texts(places="4"))
    other = tmp_path / "other.csv"
    other.write_text(ROWS, encoding="utf-8")
    assert desk.open(other)
    assert model.catch_up()
    assert model.purse == Purse()


def test_no_collection__no_figures_are_reckoned(tmp_path):
    desk = Desk(tmp_path / "none.csv", TODAY)
    model = MoneyModel(desk, PathModel(desk))
    model.catch_up()
    assert model.sentences == (NONE_YET,)


@pytest.mark.parametrize(
    ("amount", "text"),
    [
        (Fraction(0), "0 kr"),
        (Fraction(1, 1000), "<0.01 kr"),
        (Fraction(99, 2), "49.50 kr"),
        (Fraction(7), "7 kr"),
        (Fraction(12345678, 10), "1,234,568 kr"),
    ],
)
def test_money__in_the_keepers_own_currency(amount, text):
    assert money(amount, "kr") == text
    assert money(amount) == text.removesuffix(" kr")


def test_animals_added_since__count(model, desk):
    """The collection may be changed after the paths were found."""
    desk.animals = Collection.from_text(ROWS + "F2,female,Enchi,2020-01-01,2000\n")
    model.state(texts(places="2"))
    assert model.sentences == ("2 places are too few for the 3 animals that are kept now.",)


def test_file_changed_meanwhile__is_not_written_over(model, desk):
    file = purse_file(desk.path)
    assert model.state(texts(places="3")) == () == model.state(texts(places="4"))
    file.write_text("figure,value\nplaces,9\n", encoding="utf-8")
    [problem] = model.state(texts(places="5"))
    assert model.conflict and "changed by another program" in problem.text
    assert file.read_text(encoding="utf-8") == "figure,value\nplaces,9\n" and model.purse.places == 4
    model.read_again()
    assert not model.conflict and model.purse.places == 9
    assert model.state(texts(places="5")) == ()
