"""What all panels share: one file, one target, one season, and nobody is hurt by another's error."""

from datetime import date
from pathlib import Path

import pytest

from explorer.collection import CollectionError, opinion, opinions_file, taste_file
from explorer.notation import GenesError
from explorer.panels.desk import Desk

TODAY = date(2026, 11, 25)


@pytest.fixture
def desk(demo_collection: Path) -> Desk:
    desk = Desk(demo_collection, TODAY)
    assert desk.open(demo_collection)
    return desk


def test_open__tells_who_listens(demo_collection: Path) -> None:
    desk, told = Desk(demo_collection, TODAY), []
    desk.listen("animals", lambda: told.append(len(desk.animals or ())))
    assert desk.open(demo_collection)
    assert told == [24]
    assert desk.refused is None


def test_open__a_bad_file_leaves_the_old_one_open(desk: Desk, tmp_path: Path) -> None:
    bad = tmp_path / "bad.csv"
    bad.write_text("id,sex,genes\nF1,female,Pastell\n", encoding="utf-8")
    before = desk.animals
    assert not desk.open(bad)
    assert desk.animals is before
    assert desk.refused is not None
    file, findings = desk.refused
    assert file == bad
    assert [(finding.row, finding.column) for finding in findings] == [(2, "genes")]


def test_put__is_unsaved_until_saved(desk: Desk, tmp_path: Path) -> None:
    desk.path = tmp_path / "mine.csv"
    desk.put({"id": "F09", "weight_g": "1600"})
    assert desk.unsaved
    assert desk.save() is None  # no file was there, so there is nothing to back up
    assert not desk.unsaved
    assert "1600" in desk.path.read_text(encoding="utf-8")
    assert desk.save() in tmp_path.glob("mine.*.bak.csv")


def test_put__error_changes_nothing(desk: Desk) -> None:
    before, told = desk.animals, []
    desk.listen("animals", lambda: told.append(1))
    with pytest.raises(CollectionError, match="Pastell"):
        desk.put({"id": "F09", "genes": "Pastell"})
    assert desk.animals is before
    assert not desk.unsaved
    assert told == []


def test_aim__writes_the_target_in_full(desk: Desk) -> None:
    desk.aim("dg pinstripe", ("Spider",), ("Spider",))
    assert (desk.target, desk.without, desk.allow) == ("Pinstripe Desert Ghost", ("Spider",), ("Spider",))


@pytest.mark.parametrize("target, without", [("Leopart", ()), ("Leopard", ("Spidder",)), ("", ())])
def test_aim__error_changes_nothing(desk: Desk, target: str, without: tuple[str, ...]) -> None:
    before, told = desk.target, []
    desk.listen("target", lambda: told.append(1))
    with pytest.raises(GenesError):
        desk.aim(target, without)
    assert (desk.target, desk.without, told) == (before, (), [])


def test_look_from__moves_the_season_and_not_the_day_of_opening(desk: Desk) -> None:
    assert desk.first_season == 2026
    desk.look_from(date(2028, 11, 1))
    assert desk.first_season == 2028
    assert desk.now == TODAY


def test_tell__an_error_reaches_its_own_panel_and_stops_nobody(desk: Desk) -> None:
    said: dict[str, list[str]] = {"one": [], "two": []}
    heard = []
    with desk.reporting_to(said["one"].append):
        desk.listen("season", lambda: 1 / 0)  # type: ignore[arg-type, return-value]
    with desk.reporting_to(said["two"].append):
        desk.listen("season", lambda: heard.append("two"))
    desk.listen("season", lambda: heard.append("three"))
    desk.tell("season")
    assert heard == ["two", "three"]
    assert "ZeroDivisionError" in said["one"][0]
    assert said["two"] == [""]
    assert desk.failures == []


def test_looks__taste_and_opinions_come_back_with_the_collection(demo_collection: Path, tmp_path: Path) -> None:
    file = tmp_path / "mine.csv"
    file.write_bytes(demo_collection.read_bytes())
    desk, told = Desk(file, TODAY), []
    assert desk.open(file)
    desk.listen("looks", lambda: told.append(1))
    desk.like({"bright": 2})
    assert not taste_file(file).exists()
    desk.like({"bright": 2}, keep=True)
    mine = opinion("Enchi", 1, "brightness", 3, "Rowan", "", desk.catalogue)
    desk.think(opinion("Enchi", 1, "brightness", 1, "Rowan", "", desk.catalogue))
    desk.think(mine)
    assert len(told) == 4
    opinions_file(file).write_text(opinions_file(file).read_text() + "Pastel,1,,white,1,Ann,\n")
    desk.think(mine)
    assert [one.by for one in desk.opinions] == ["Ann", "Rowan"], "what another program added stays"
    desk.forget(desk.opinions[0])
    again = Desk(file, TODAY)
    assert again.open(file)
    assert (again.taste["bright"], again.taste["clean"], again.opinions) == (2, 0, (mine,))
    again.forget(mine)
    assert again.opinions == ()
    assert desk.open(file) and desk.opinions == ()


def test_looks__a_broken_file_stops_nothing_and_is_said(demo_collection: Path, tmp_path: Path) -> None:
    file = tmp_path / "mine.csv"
    file.write_bytes(demo_collection.read_bytes())
    taste_file(file).write_text("wish,weight\nshiny,1\n")
    desk = Desk(file, TODAY)
    assert desk.open(file)
    assert desk.animals is not None
    assert str(desk.looks_refused[0]).startswith('row 2, wish: mine.taste.csv: "shiny"')


def test_tell__who_cannot_be_seen_is_called_once_and_later(desk: Desk) -> None:
    told: list[str] = []
    shown = [False]
    with desk.reporting_to(lambda text: None, lambda: shown[0]):
        desk.listen("animals", lambda: told.append("hidden"))
        callback = lambda: told.append("both")  # noqa: E731
        desk.listen("animals", callback)
        desk.listen("looks", callback)
    desk.tell("animals", "looks")
    desk.tell("animals")
    assert told == []
    shown[0] = True
    desk.catch_up()
    assert sorted(told) == ["both", "hidden"]
    desk.tell("animals", "looks")
    assert sorted(told) == ["both", "both", "hidden", "hidden"]
