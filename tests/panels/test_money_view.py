"""Room and money in the Path tab by its widgets' state; what a browser draws is tested there."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path

import pytest

from explorer.panels.desk import Desk
from explorer.panels.path_tab.path_view import PathPanel

TODAY = date(2026, 11, 25)
EVIL = "<b>kr</b>"


@pytest.fixture
def panel(tmp_path: Path) -> PathPanel:
    file = tmp_path / "mine.csv"
    file.write_text(
        "id,sex,genes,hatched,weight_g\nF,female,Pastel,2020-01-01,2000\nM,male,Clown,2020-01-01,900\n",
        encoding="utf-8",
    )
    desk = Desk(file, TODAY)
    assert desk.open(file)
    desk.aim("Pastel Clown")
    made = PathPanel(desk)
    made.model.seasons = 5
    return made


def pressed(action: Callable[[], None]) -> None:
    """Runs it where no event loop is, so that a search is done at once."""
    with ThreadPoolExecutor(1) as thread:
        thread.submit(action).result(60)


def opened(panel: PathPanel) -> None:
    panel.money.root._button.click()
    assert panel.money.root.opened


def test_closed__nothing_is_reckoned(panel: PathPanel) -> None:
    pressed(panel.find.click)
    assert (panel.money.said.value, panel.money.table.value) == ("", "")


def test_figures__are_reckoned_once_stated_and_found(panel: PathPanel) -> None:
    opened(panel)
    money = panel.money
    assert "Write any of your own figures" in money.said.value
    money.figures["cost of an animal a season"].value = "100"
    money.figures["currency"].value = EVIL
    money._state()
    assert "Once paths are found" in money.said.value
    pressed(panel.find.click)
    assert "Until the target hatches" in money.said.value
    assert money.table.value.count("<tr>") == 1 + len(money.model.rows) == 6
    assert "<b>" not in money.table.value + money.said.value
    assert "&lt;b&gt;kr" in money.table.value
    before = money.table.value
    panel.table.selected = "1"
    assert money.table.value != before


def test_figures__of_the_file_stand_in_the_fields(panel: PathPanel) -> None:
    panel.money.figures["places"].value = "7"
    panel.money._state()
    again = PathPanel(panel.desk)
    assert again.money.figures["places"].value == "7"


def test_slip__stands_under_the_fields(panel: PathPanel) -> None:
    opened(panel)
    panel.money.figures["places"].value = "many"
    panel.money._state()
    assert "places: " in panel.money.problems._message.value
    assert panel.money.model.purse.places is None


def test_offer__is_answered(panel: PathPanel) -> None:
    opened(panel)
    money = panel.money
    money.genes.value = "Pastell het Clown"
    money._ask()
    money.wrong._offers.children[0].click()
    assert money.genes.value == "Pastel het Clown"
    pressed(money._ask)
    assert "It would help: " in money.answer.value
    assert "as far as the search found" in money.notes.value
    assert money.weight.layout.display == "none"
    money.age.value = False
    assert money.weight.layout.display == ""
