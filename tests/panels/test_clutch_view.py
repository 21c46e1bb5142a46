"""The Clutch book tab's widgets: what is wrong stands near its field, and the headline follows."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from ipywidgets import Widget

from explorer.panels.book_keeping import book_file
from explorer.panels.clutch_tab.clutch_view import ClutchPanel
from explorer.panels.desk import Desk

ANIMALS = (
    "id,name,sex,genes,hatched,weight_g,status\n"
    "F01,<b>Juniper</b>,f,Leopard 66% het Desert Ghost,2020-01-01,1900,kept\n"
    "M01,Alder,m,50% het Desert Ghost,2020-01-01,900,kept\n"
)


@pytest.fixture
def panel(tmp_path: Path) -> ClutchPanel:
    file = tmp_path / "mine.csv"
    file.write_text(ANIMALS, encoding="utf-8")
    desk = Desk(file, date(2026, 11, 25))
    assert desk.open(file)
    return ClutchPanel(desk)


def fill(panel: ClutchPanel, look: str = "Leopard Desert Ghost") -> None:
    panel.new.click()
    panel.form.dam.value = "F01"
    panel.form.sires.children[0].value = "M01"
    panel.form.look.value = look
    panel.form.look._handle_custom_msg({"event": "submit"}, [])
    panel.form.tally.counts = {look: [1, 0, 0]}


def shown(widget: Widget) -> bool:
    return bool(widget.layout.display != "none")


def test_form__what_is_wrong_stands_near_its_field(panel: ClutchPanel) -> None:
    fill(panel)
    panel.form.fields["laid"].value = "yesterday"
    panel.form.look.value = "Enchi"
    panel.form.take.click()
    whole, looks, rest = (place.widgets[0] for place in (panel.form.wrong, panel.form.wrong_looks, panel.form.problems))
    assert "laid: " in whole.value and "Enchi is not counted" in looks.value and not shown(rest)
    marked = {name for name, field in panel.form.fields.items() if "xp-wrong" in field._dom_classes}
    assert marked == {"laid"} and "xp-wrong" in panel.form.look._dom_classes
    assert not book_file(panel.desk.path).exists()
    panel.form.fields["laid"].value = panel.form.look.value = ""
    panel.form.take.click()
    assert book_file(panel.desk.path).exists() and not shown(panel.form.root)
    assert "xp-wrong" not in panel.form.fields["laid"]._dom_classes


def test_form__a_contradiction_leads_and_can_be_written_all_the_same(panel: ClutchPanel) -> None:
    fill(panel, "Clown")
    assert not shown(panel.form.despite)
    panel.form.take.click()
    assert "cannot be as it is written" in panel.headline.value and "Every file is as it was" in panel.headline.value
    assert shown(panel.form.despite) and "who could be wrong" in panel.form.problems.widgets[0].value
    panel.form.fields["eggs"].value = "3"
    assert not shown(panel.form.despite) and "One of three eggs" in panel.headline.value
    panel.form.take.click()
    panel.form.despite.click()
    assert "who could be wrong" in panel.told.value and b"Clown" in book_file(panel.desk.path).read_bytes()


def test_tally__what_is_counted_arrives_as_messages(panel: ClutchPanel) -> None:
    fill(panel)
    tally, filled = panel.form.tally, panel.form.tally.filled
    tally._handle_custom_msg({"look": "Leopard", "numbers": [0, 2, 0]}, [])
    for odd in ({}, {"look": "Leopard", "numbers": [1]}, {"look": 1, "numbers": [1, 1, 1]}):
        tally._handle_custom_msg(odd, [])
    assert panel.model.form.counts == {"Leopard Desert Ghost": [1, 0, 0], "Leopard": [0, 2, 0]}
    assert tally.filled == filled, "the screen is not overruled while it counts"
    panel.form.take.click()
    panel.change.click()
    assert tally.filled == filled + 1 and tally.counts["Leopard"] == [0, 2, 0]


def test_form__cancel_asks_once_where_something_would_be_lost(panel: ClutchPanel) -> None:
    cancel = panel.form.root.children[-1].children[-1]
    panel.new.click()
    cancel.click()
    assert not panel.model.editing
    fill(panel)
    cancel.click()
    assert panel.model.editing and "would be lost" in panel.form.problems.widgets[0].value
    panel.form.fields["eggs"].value = "3"
    cancel.click()
    assert panel.model.editing, "it asks again for what was filled in since"
    cancel.click()
    assert not panel.model.editing and not book_file(panel.desk.path).exists()


def test_panel__steps_list_and_saving(panel: ClutchPanel) -> None:
    fill(panel)
    panel.form.take.click()
    line = panel.held.root.children[0]
    assert "No path reaches the target within 8 seasons, with it or without." in line.children[0].value
    assert not shown(panel.keep) and not shown(panel.sheet)
    line.children[1].value = "F77"
    panel._refresh()
    assert line.children[1].value == "F77", "a name that was typed stays"
    line.children[2].click()
    assert "F77" in panel.desk.animals and shown(panel.keep)
    panel.list.click()
    assert shown(panel.sheet) and "F77" in panel.sheet.content
    assert "&lt;b&gt;Juniper" in panel.sheet.content and "<b>Juniper" not in panel.sheet.content
    panel.keep.click()
    assert not shown(panel.keep) and not shown(panel.sheet) and b"F77" in panel.desk.path.read_bytes()
