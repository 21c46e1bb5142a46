"""The keeper's own figures, as the Collection tab has them."""

from datetime import date

import pytest

from explorer.husbandry import care_of, figures_file, readiness
from explorer.panels.collection_tab.figures_model import FiguresModel
from explorer.panels.collection_tab.figures_view import Figures
from explorer.panels.desk import Desk
from explorer.panels.guard import Guard

TODAY = date(2026, 11, 25)
ROWS = "id,sex,genes,hatched,weight_g,weighed_on,status\nF1,female,Pastel,2022-06-01,1550,2026-11-01,kept\n"


@pytest.fixture
def model(tmp_path):
    file = tmp_path / "my.csv"
    file.write_text(ROWS)
    desk = Desk(file, TODAY)
    assert desk.open(file)
    return FiguresModel(desk)


def texts(model):
    return {field.name: field.text for field in model.fields}


def test_fields__say_the_catalogues_figure_and_how_it_is_known(model):
    field = next(one for one in model.fields if one.name == "female_min_g")
    assert (field.text, field.own) == ("1500", False)
    assert "MOR11" in field.default


def test_take__counts_everywhere_and_next_time(model):
    desk = model.desk
    assert readiness(desk.animals["F1"], desk.care, desk.today).ready
    heard = []
    desk.listen("animals", lambda: heard.append("animals"))
    assert model.take({**texts(model), "female_min_g": "1600"})
    assert heard == ["animals"]
    assert not readiness(desk.animals["F1"], desk.care, desk.today).ready
    again = Desk(desk.path, TODAY)
    again.open(desk.path)
    assert again.care == desk.care


def test_take__emptied_field_is_the_catalogues_again(model):
    model.take({**texts(model), "female_min_g": "1600"})
    model.take({**texts(model), "female_min_g": ""})
    assert texts(model)["female_min_g"] == "1500"
    assert figures_file(model.desk.path).read_text() == "figure,value\n"


def test_take__a_higher_least_weight_lifts_the_sure_one(model):
    assert model.take({**texts(model), "female_min_g": "1800"})
    assert texts(model)["female_sure_g"] == "1800"


def test_take__what_is_wrong_is_said_and_nothing_changes(model):
    before = model.desk.care
    assert not model.take({**texts(model), "female_min_g": "many", "lay_rate": "2"})
    assert len(model.problems) == 2
    assert model.desk.care is before
    assert not figures_file(model.desk.path).exists()


def test_broken_file__is_told_of_and_the_catalogue_counts(model):
    figures_file(model.desk.path).write_text("figure,value\nfemale_min_g,heavy\n")
    again = Desk(model.desk.path, TODAY)
    assert again.open(model.desk.path)
    assert again.care.female_min_g == 1500
    assert "heavy" in again.season.refused[0].found


@pytest.mark.parametrize("text", ["1.600", "10.000"])
def test_take__a_mark_for_thousands_is_not_read_as_a_point(model, text):
    """As 1.6 g it would let every female breed."""
    assert not model.take({**texts(model), "female_min_g": text})
    assert f"{text} has two meanings" in model.problems[0]
    assert model.desk.care.female_min_g == 1500
    assert not figures_file(model.desk.path).exists()


def test_take__a_file_that_another_program_changed_is_not_written_over(model):
    file = figures_file(model.desk.path)
    assert model.take({**texts(model), "eggs": "5"})
    assert model.take({**texts(model), "eggs": "4"}), "what was written here is no other program's"
    file.write_text("figure,value\nlay_rate,0.7\n")
    assert not model.take({**texts(model), "eggs": "7"})
    assert model.conflict and "changed by another program" in model.problems[0]
    assert file.read_text() == "figure,value\nlay_rate,0.7\n" and model.desk.care.eggs == 4
    model.read_again()
    assert not model.conflict and texts(model)["lay_rate"] == "0.7"
    assert model.take({**texts(model), "eggs": "7"})
    assert file.read_text() == "figure,value\neggs,7\nlay_rate,0.7\n"


def test_take__a_file_that_appeared_meanwhile_is_not_written_over(model):
    figures_file(model.desk.path).write_text("figure,value\nlay_rate,0.7\n")
    assert not model.take({**texts(model), "eggs": "7"})
    assert "lay_rate" in figures_file(model.desk.path).read_text()


def test_view__what_is_typed_stays_while_other_things_change(model):
    view = Figures(model.desk, Guard("test"))
    view.root.opened = True
    view.update()
    view.texts["eggs"].value = "five"
    model.desk.season.use(care_of({"lay_rate": "0.7"}, model.desk.catalogue))
    view.update()
    assert (view.texts["eggs"].value, view.texts["lay_rate"].value) == ("five", "0.7")
