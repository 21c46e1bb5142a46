"""A keeper's own taste and opinions: written beside the collection, taken back, and refused in plain words."""

from datetime import date

import pytest

from explorer.catalogue import MEANINGS, load_catalogue
from explorer.collection import Collection, read_opinions, read_taste
from explorer.looks import DEFAULT_TASTE
from explorer.panels.desk import Desk
from explorer.panels.notes_tab.opinion_model import OpinionModel

CATALOGUE = load_catalogue()
ANIMALS = "id,name,sex,genes\nF1,Juniper,f,Leopard het Desert Ghost\n"


@pytest.fixture
def desk(tmp_path):
    desk = Desk(tmp_path / "mine.csv", date(2026, 11, 25), CATALOGUE)
    desk.animals = Collection.from_text(ANIMALS, CATALOGUE)
    return desk


def test_opinion__is_written_and_taken_back(desk):
    own, file = OpinionModel(desk), desk.path.with_name("mine.opinions.csv")
    assert own.write("Leopard", 1, "orange to red", 3, " Rowan ", "in my line") == ""
    ((text, effect),) = own.own
    assert text == "Rowan on Leopard, one copy: orange to red +3: more orange or red (in my line)"
    assert read_opinions(file, CATALOGUE) == (effect,)
    assert own.write("Clown", 2, "white", -1, "", "") == ""
    assert own.own[1][0] == "the keeper on Clown: white −1: less white"
    assert own.take_back(effect) == ""
    assert [text for text, _ in own.own] == ["the keeper on Clown: white −1: less white"]
    assert len(read_opinions(file, CATALOGUE)) == 1


def test_opinion__fields_fit_the_gene(desk):
    own = OpinionModel(desk)
    assert own.copies(CATALOGUE.gene("Clown")) == (("two copies", 2),)
    assert own.copies(CATALOGUE.gene("Leopard")) == (("one copy", 1), ("two copies", 2))
    assert own.values("white")[0] == ("+3: white", 3)
    assert own.values("white")[3] == ("0: as wild type", 0)
    assert own.values("brightness")[-1] == ("−3: a darker body", -3)
    assert len(own.qualities) == len(MEANINGS)
    assert own.write("Clown", 1, "white", 1, "", "").startswith('copies: "1". Needed: 2')


def test_opinion__needs_a_collection_to_stand_beside(tmp_path):
    own = OpinionModel(Desk(tmp_path / "none.csv", date(2026, 11, 25), CATALOGUE))
    assert own.write("Leopard", 1, "white", 1, "", "").startswith("Open a collection first")
    assert own.keep_taste() == (own.write("Leopard", 1, "white", 1, "", ""), False)
    assert not list(tmp_path.iterdir())


def test_taste__acts_at_once_and_is_kept_when_asked(desk):
    own = OpinionModel(desk)
    own.like("white", -2)
    assert desk.taste == {**DEFAULT_TASTE, "white": -2}
    assert read_taste(desk.path.with_name("mine.taste.csv")) == DEFAULT_TASTE
    assert own.keep_taste() == ("This taste is kept in mine.taste.csv, beside the collection.", True)
    assert read_taste(desk.path.with_name("mine.taste.csv"))["white"] == -2


def test_taste__that_cannot_be_written_is_said(desk, tmp_path):
    desk.path = tmp_path / "no such folder" / "mine.csv"
    said, kept = OpinionModel(desk).keep_taste()
    assert not kept
    assert "mine.taste.csv" in said


def test_refused__row_and_column(tmp_path):
    (tmp_path / "mine.csv").write_text(ANIMALS, encoding="utf-8")
    (tmp_path / "mine.opinions.csv").write_text("gene,copies,quality,value\nLeopard,1,shine,9\n", encoding="utf-8")
    desk = Desk(tmp_path / "mine.csv", date(2026, 11, 25), CATALOGUE)
    assert OpinionModel(desk).refused == ()
    assert desk.open(desk.path)
    first, second = OpinionModel(desk).refused
    assert first.startswith('row 2, quality: mine.opinions.csv: "shine"')
    assert second.startswith('row 2, value: mine.opinions.csv: "9"')
    assert "mine.opinions.csv" in OpinionModel(desk).refused_remark
