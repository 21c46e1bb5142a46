"""The Line-up tab by the state of its widgets; what a browser draws is tested there."""

from datetime import date
from pathlib import Path

import pytest
from ipywidgets import HTML, Widget

import explorer as ex
from explorer.pairing import percent
from explorer.panels.desk import Desk
from explorer.panels.line_up_tab.line_up_grid_view import LineUpGridView
from explorer.panels.line_up_tab.line_up_view import LineUpPanel
from explorer.panels.path_tab.path_view import PathPanel
from explorer.panels.table_view import TableView
from explorer.panels.workbench import Workbench

EVIL = "<img src=x>"
TODAY = date(2026, 11, 25)


def all_html(widget: Widget) -> str:
    own = widget.value if isinstance(widget, HTML) else ""
    return own + "".join(all_html(child) for child in getattr(widget, "children", ()))


@pytest.fixture
def desk(demo_collection: Path) -> Desk:
    made = Desk(demo_collection, TODAY)
    assert made.open(demo_collection)
    return made


@pytest.fixture
def panel(desk: Desk) -> LineUpPanel:
    return LineUpPanel(desk)


def choose(panel: LineUpPanel, key: str) -> None:
    panel.alone.value = key


def test_views__carry_their_own_script_and_nothing_from_outside() -> None:
    for view in (LineUpGridView(), TableView()):
        assert "export default { render }" in view._esm
        assert "https:" not in view._esm + view._css
        assert "innerHTML" not in view._esm


def test_panel__starts_with_the_best_male_of_the_grid(panel: LineUpPanel) -> None:
    assert panel.model.key == panel.alone.value == panel.grid.rows[0]["id"] == "M03"
    assert "M03 Plover cannot give the target this season. Nearest with F03 Juniper" in panel.headline.value


def test_table__is_that_of_line_up(panel: LineUpPanel, desk: Desk) -> None:
    choose(panel, "M02")
    table = ex.line_up("M02", desk.animals, desk.target, husbandry=desk.care, today=TODAY)
    assert [row["id"] for row in panel.table.rows] == list(table["id"])
    assert [row["clutch"] for row in panel.table.rows] == [percent(chance) for chance in table["per_clutch"]]


def test_grid__every_male_beside_every_female_with_the_same_numbers(panel: LineUpPanel, desk: Desk) -> None:
    assert [len(row) for row in panel.grid.cells] == [len(panel.grid.columns)] * len(panel.grid.rows)
    assert (len(panel.grid.rows), len(panel.grid.columns)) == (8, 14)
    assert "No pairing that can be made this season gives the target" in panel.grid_said.value
    words = {row["id"]: row["word"] for row in (*panel.grid.rows, *panel.grid.columns)}
    assert (words["M03"], words["M04"], words["M07"], words["F15"]) == ("", "not ready", "kept out", "kept out")
    marks = {
        (row["id"], column["id"]): cell["marks"]
        for row, cells in zip(panel.grid.rows, panel.grid.cells, strict=True)
        for column, cell in zip(panel.grid.columns, cells, strict=True)
    }
    assert marks["M02", "F03"] == "kin"
    assert marks["M03", "F14"] == "out kept-out caution"
    desk.aim("Leopard Desert Ghost")
    assert panel.grid_said.value == "<p>The darker a cell, the likelier a clutch of that pairing has the target.</p>"
    for row, cells in zip(panel.grid.rows, panel.grid.cells, strict=True):
        table = ex.line_up(row["id"], desk.animals, desk.target, husbandry=desk.care, today=TODAY).set_index("id")
        for column, cell in zip(panel.grid.columns, cells, strict=True):
            assert cell["text"] == percent(table.loc[column["id"], "per_clutch"])


def test_grid__only_those_that_are_ready(panel: LineUpPanel) -> None:
    panel.against.value = "ready only"
    assert not any(one["word"] for one in (*panel.grid.rows, *panel.grid.columns))
    assert len(panel.grid.columns) == len(panel.table.rows) == 8


def test_grid__a_cell_picks_the_pairing_and_may_be_picked_again(panel: LineUpPanel) -> None:
    panel.grid.picked = ["M05", "F02"]
    assert (panel.alone.value, panel.table.ticked, panel.table.selected) == ("M05", ["F02"], "F02")
    assert panel.grid.picked == []
    panel.grid.picked = ["F07"]
    assert (panel.alone.value, panel.table.ticked, panel.grid.alone) == ("F07", [], "F07")


def test_grid__is_not_worked_out_while_it_is_closed(desk: Desk) -> None:
    panel = LineUpPanel(desk)
    panel.grid_fold.opened = False
    before = panel.grid.cells
    desk.aim("Leopard")
    assert panel.grid.cells == before
    assert not panel.model.grid.known(panel.model.aim)
    panel.grid_fold.children[0].click()
    assert panel.model.grid.known(panel.model.aim)
    assert panel.grid.cells != before


def test_grid__says_so_while_its_numbers_are_of_before(panel: LineUpPanel, desk: Desk) -> None:
    start, panel.grid_bar.start = panel.grid_bar.start, lambda *anything: None
    desk.aim("Leopard")
    assert "the grid is that of before" in panel.grid_said.value
    panel.grid_bar.start = start
    panel.update()
    assert "The darker a cell" in panel.grid_said.value, "work that was stopped is taken up again"


def test_ticks__two_stand_side_by_side(panel: LineUpPanel) -> None:
    choose(panel, "M02")
    assert panel.beside.value == ""
    assert panel.clear.layout.display == "none"
    panel.table.ticked = ["F03"]
    assert "Tick another female" in panel.ticking.value
    panel.table.ticked = ["F03", "F04"]
    assert panel.beside.value.count("xp-beside-bar") >= 4
    assert "Half siblings (same sire): 12.5 %" in panel.beside.value
    assert panel.grid.ticked == ["F03", "F04"]
    panel.clear.click()
    assert (panel.table.ticked, panel.beside.value) == ([], "")


def test_look__typed_in_and_a_slip_is_mended(panel: LineUpPanel) -> None:
    choose(panel, "M06")
    panel.kind.value = "a look"
    panel.look.value = "Bananna"
    assert "Found" in all_html(panel.root)
    offer = panel.problems.widgets[1].children[0]
    assert offer.description == "use Banana"
    offer.click()
    assert "the best chance of Banana" in panel.headline.value


def test_panel__a_files_text_is_shown_as_text(tmp_path: Path) -> None:
    file = tmp_path / "evil.csv"
    rows = [f"F1,{EVIL},female,Leopard", "F2,Sedge,female,Pinstripe", f"M1,{EVIL},male,Clown"]
    file.write_text("id,name,sex,genes\n" + "\n".join(rows) + "\n", encoding="utf-8")
    desk = Desk(file, TODAY)
    assert desk.open(file)
    panel = LineUpPanel(desk)
    panel.table.ticked = ["F1", "F2"]
    shown = all_html(panel.root)
    assert "&lt;img src=x&gt;" in shown
    assert "<img" not in shown


def test_next_step__is_known_once_the_path_tab_has_found_paths(desk: Desk) -> None:
    panel, paths = LineUpPanel(desk), PathPanel(desk)
    panel.join(paths)
    panel.kind.value = "the next step"
    assert "No path to the target was looked for yet" in panel.said.value
    assert panel.find.layout.display == ""
    panel.find.click()
    assert paths.model.paths, "the Path tab has them too"
    assert panel.said.value.startswith("<p>Path 1, season 1 (2026/27): ")
    assert panel.find.layout.display == "none"
    keep = next(keep for keep in paths.model.path.steps[0].keeps if keep.shows)
    assert panel.model.aim.look == keep.shows
    panel.kind.value = "the target"
    assert panel.said.value == ""


def test_workbench__joins_the_two_tabs_and_draws_this_one_when_it_is_seen(demo_collection: Path) -> None:
    bench = Workbench(demo_collection)
    panel = bench.panels["Line-up"]
    assert panel.model.aims.paths is bench.panels["Path"].model
    before = panel.headline.value
    bench.desk.aim("Clown")
    assert panel.headline.value == before
    bench.tabs.selected_index = bench.tabs.titles.index("Line-up")
    assert panel.headline.value != before
    assert panel.guard.message.value == ""


def test_panel__without_a_collection_says_so(tmp_path: Path) -> None:
    panel = LineUpPanel(Desk(tmp_path / "none.csv", TODAY))
    assert "No collection is open." in panel.headline.value
    assert panel.table.layout.display == panel.grid_fold.layout.display == "none"
