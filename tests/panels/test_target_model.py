"""The target in the frame."""

from datetime import date
from pathlib import Path

import pytest

from explorer.panels.desk import Desk
from explorer.panels.target_model import TargetModel


@pytest.fixture
def model(demo_collection: Path) -> TargetModel:
    desk = Desk(demo_collection, date(2026, 11, 25))
    assert desk.open(demo_collection)
    return TargetModel(desk)


def test_set__both_sentences_and_cautions(model: TargetModel) -> None:
    assert model.set("pastel, dg", "Spider Champagne", ("Spider",)) == ()
    assert model.sentence == "Pastel Desert Ghost, not Spider Champagne (cautions passed over: Spider)"
    assert model.set("Clown", " ", ()) == ()
    assert model.sentence == "Clown"


def test_set__each_wrong_sentence_has_its_own_problem(model: TargetModel) -> None:
    must, must_not = model.set("Leopart", "Spidder", ())
    assert must.text.startswith('must show: found "Leopart"')
    assert must_not.text.startswith('must not show: found "Spidder"')
    assert (must.offers[0].text, must.offers[0].field) == ("Leopard", "must")
    assert (must_not.offers[0].text, must_not.offers[0].field) == ("Spider", "must_not")
    assert model.sentence == "Leopard Pinstripe Desert Ghost"


def test_set__het_words_and_nothing_are_refused(model: TargetModel) -> None:
    assert model.set("het Clown", "", ())[0].text.startswith("must show: found Clown as carried")
    assert model.set("  ", "", ())[0].text.startswith("must show: found no gene")


def test_cautions__those_of_the_collection_and_of_the_target(model: TargetModel) -> None:
    found = model.cautions("Leopard")
    assert {"Spider", "Champagne", "Desert"} <= found.keys()
    assert any("wobble" in text for text in found["Spider"])
    assert "Woma" not in found
    assert model.cautions("Leopart").keys() == found.keys()
