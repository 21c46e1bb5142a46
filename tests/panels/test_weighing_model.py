"""A day at the scales, as the Collection tab has it."""

from datetime import date

import pytest

from explorer.collection import weights_file
from explorer.panels.collection_tab.collection_model import CollectionModel
from explorer.panels.collection_tab.weighing_model import WeighingModel
from explorer.panels.desk import Desk

TODAY = date(2026, 11, 25)
ROWS = """id,name,sex,genes,hatched,weight_g,weighed_on,status
F1,Juniper,female,Pastel,2022-06-01,1400,2026-08-01,kept
F2,Sorrel,female,Pastel,2022-06-01,,,kept
F3,Gone,female,Pastel,2022-06-01,1900,,sold
"""


@pytest.fixture
def model(tmp_path):
    file = tmp_path / "my.csv"
    file.write_text(ROWS)
    desk = Desk(file, TODAY)
    assert desk.open(file)
    return WeighingModel(desk)


def said(model):
    return {row["id"]: row["said"] for row in model.rows}


def test_rows__are_the_kept_animals_with_their_last_weight(model):
    assert [(row["id"], row["last"]) for row in model.rows] == [
        ("F1", "1,400 g on 2026-08-01"),
        ("F2", "never weighed"),
    ]


def test_type__says_at_once_what_the_weight_means(model):
    model.type("F1", "1499.9")
    model.type("F2", " 1500 ")
    assert said(model) == {"F1": "+99.9 g; not yet: 1,500 g needed; about season 2027/28", "F2": "ready"}
    assert model.count == 2
    assert not weights_file(model.desk.path).exists()


@pytest.mark.parametrize("text", ["heavy", "-5", "1,500", "1e3", "nan", "0", "１５００", "99999"])
def test_type__nonsense_stays_and_is_not_taken_up(model, text):
    model.type("F1", text)
    model.type("F2", "1510")
    assert [row["problem"] for row in model.rows] == [True, False]
    model.take()
    assert model.desk.animals["F2"].weight_g == 1510
    assert model.desk.animals["F1"].weight_g == 1400
    assert [row["typed"] for row in model.rows] == [text, ""]
    assert "1 weight is written down" in model.said


def test_take__writes_the_history_and_the_collection_waits_for_save(model):
    model.type("F1", "1520")
    model.take()
    assert weights_file(model.desk.path).read_text().count("F1,") == 2
    assert model.desk.unsaved
    assert "1520" not in model.desk.path.read_text()
    model.desk.save()
    assert "1520" in model.desk.path.read_text()


def test_earlier_day__changes_the_history_only(model):
    model.on(date(2026, 7, 1))
    model.type("F1", "1300")
    model.take()
    assert model.desk.animals["F1"].weight_g == 1400
    assert [one.grams for one in model.desk.animals["F1"].weighings] == [1300, 1400]


def test_emptied__is_not_taken_up(model):
    model.type("F1", "1520")
    model.type("F1", "")
    assert model.count == 0
    model.take()
    assert model.said == "No weight is typed yet."


def test_files_beside__are_not_offered_as_collections(model):
    model.type("F1", "1520")
    model.take()
    (model.desk.path.parent / "other.csv").write_text("id\n")
    names = [name.rpartition("/")[2] for name in CollectionModel(model.desk).files]
    assert names == ["my.csv", "other.csv"]


def test_collection_table__never_rounds_a_weight_up(model):
    model.type("F1", "1499.9")
    model.take()
    row = next(row for row in CollectionModel(model.desk).rows if row["id"] == "F1")
    assert row["weight"] == "1,499.9 g"
    assert row["fit"].startswith("not yet")


def test_type__says_how_far_it_is_from_the_weight_before(model):
    model.type("F1", "1520")
    assert said(model)["F1"] == "+120 g; ready"
    model.type("F1", "1380.5")
    assert said(model)["F1"].startswith("−19.5 g; ") and "1,500 g needed" in said(model)["F1"]
    model.type("F1", "1400")
    assert said(model)["F1"].startswith("0 g; ")


def test_same_day__a_slip_of_the_finger_can_be_mended(model):
    model.type("F1", "2250")
    model.take()
    assert model.desk.animals["F1"].weight_g == 2250
    model.type("F1", "1250")
    assert said(model)["F1"].startswith("in place of 2,250 g of that day; ") and "1,500 g needed" in said(model)["F1"]
    model.take()
    assert model.desk.animals["F1"].weight_g == 1250
    assert [one.grams for one in model.desk.animals["F1"].weighings] == [1400, 1250]
    written = weights_file(model.desk.path).read_text()
    assert "2250" not in written and written.count("F1,") == 2
    model.desk.save()
    again = Desk(model.desk.path, TODAY)
    assert again.open(model.desk.path) and not again.season.refused
    assert again.animals["F1"].weight_g == 1250


def test_same_day__as_in_the_collection_itself(model):
    model.on(date(2026, 8, 1))
    model.type("F1", "1405")
    assert "in place of 1,400 g" in said(model)["F1"]
    model.take()
    assert [(one.grams, one.on) for one in model.desk.animals["F1"].weighings] == [(1405, date(2026, 8, 1))]


@pytest.mark.parametrize("text", ["1.520", "10.000"])
def test_type__a_mark_for_thousands_is_not_read_as_a_point(model, text):
    model.type("F1", text)
    assert f"{text} has two meanings" in said(model)["F1"]
    assert model.count == 0


def test_changed_meanwhile__nothing_is_lost_and_the_file_can_be_read_again(model):
    model.type("F2", "1510")
    model.take()
    file = weights_file(model.desk.path)
    other = file.read_text() + "F1,2026-09-01,1450,by hand\n"
    file.write_text(other)
    model.type("F1", "1520")
    model.take()
    assert model.conflict and "changed by another program" in model.said
    assert file.read_text() == other and model.desk.animals["F1"].weight_g == 1400
    assert {row["id"]: row["typed"] for row in model.rows}["F1"] == "1520"
    model.read_again()
    assert not model.conflict and said(model)["F1"] == "+70 g; ready"
    model.take()
    assert "by hand" in file.read_text() and "F1,2026-11-25,1520" in file.read_text()
