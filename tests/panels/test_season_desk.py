"""The weights and the season log that the panels share, and their files."""

from datetime import date

import pytest

from explorer.collection import CollectionError, season_file, weights_file
from explorer.husbandry import readiness
from explorer.panels.desk import Desk

TODAY = date(2026, 11, 25)
ROWS = """id,sex,genes,hatched,weight_g,weighed_on,status
F1,female,Pastel,2022-06-01,1499,2026-11-01,kept
M1,male,Leopard,2022-06-01,900,2026-11-01,kept
"""


@pytest.fixture
def desk(tmp_path):
    file = tmp_path / "my.csv"
    file.write_text(ROWS)
    made = Desk(file, TODAY)
    assert made.open(file)
    return made


def state(desk, key="F1"):
    return readiness(desk.animals[key], desk.care, desk.today).state


def test_weigh__makes_a_female_ready_and_keeps_the_history(desk):
    assert state(desk) == "not yet"
    desk.season.weigh({"F1": 1500}, TODAY)
    assert state(desk) == "ready"
    assert desk.unsaved
    written = weights_file(desk.path).read_text().splitlines()
    assert [line.split(",")[:3] for line in written[1:]] == [["F1", "2026-11-01", "1499"], ["F1", "2026-11-25", "1500"]]


def test_weigh__is_kept_when_an_animal_is_edited_later(desk):
    desk.season.weigh({"F1": 1510}, TODAY)
    desk.put({"id": "M1", "name": "Alder"})
    assert desk.animals["F1"].weight_g == 1510
    assert [one.grams for one in desk.animals["F1"].weighings] == [1499, 1510]


def test_weigh__nonsense_changes_nothing(desk):
    before = desk.animals
    with pytest.raises(CollectionError):
        desk.season.weigh({"F1": -3}, TODAY)
    assert desk.animals is before
    assert not weights_file(desk.path).exists()


def test_log__is_saved_and_given_to_the_animals(desk):
    log = desk.season.log.with_event(desk.first_season, "F1", "introduced", sire="M1", on=TODAY)
    desk.season.keep(log)
    assert "introduced" in season_file(desk.path).read_text()
    assert desk.animals.log.pairing(2026, "F1").males == ("M1",)
    again = Desk(desk.path, TODAY)
    assert again.open(desk.path)
    assert again.season.log.pairing(2026, "F1").males == ("M1",)


def test_broken_files__are_refused_and_the_collection_still_opens(desk):
    weights_file(desk.path).write_text("id,weighed_on,weight_g\nF9,2026-01-01,5\n")
    again = Desk(desk.path, TODAY)
    assert again.open(desk.path)
    assert again.season.weights is None
    assert again.season.refused


def test_empty_files__follow_a_changed_collection(desk):
    """An empty log and an empty book count as there, although they have no entries."""
    desk.put({"id": "M2", "sex": "male", "genes": "Clown", "status": "kept"})
    desk.season.keep(desk.season.log.with_event(2026, "F1", "planned", sire="M2"))
    assert desk.animals.log.pairing(2026, "F1").planned == "M2"
