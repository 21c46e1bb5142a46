"""The Season tab's widgets: what is clicked does what it says, every text is escaped, nothing fails."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from ipywidgets import Widget
from season_example import ANIMALS, TODAY, opened

from explorer.collection import season_file
from explorer.panels.season_tab.season_view import SeasonPanel


@pytest.fixture
def panel(tmp_path: Path) -> SeasonPanel:
    return SeasonPanel(opened(tmp_path, ANIMALS.replace("Bracken", "<b>Bracken</b>")))


def shown(widget: Widget) -> bool:
    return bool(widget.layout.display != "none")


def every_html(widget: Widget) -> str:
    parts = [str(getattr(widget, "value", ""))] if type(widget).__name__ == "HTML" else []
    return " ".join([*parts, *(every_html(child) for child in getattr(widget, "children", ()))])


def take(panel: SeasonPanel) -> None:
    panel.share.click()
    panel.shares.take.click()


def pair(panel: SeasonPanel, dam: str, sire: str, second: str = "") -> None:
    panel.dam.value, panel.sire.value, panel.second.value = dam, sire, second
    write = next(b for b in panel.body.children[2].children[1].children if "write" in str(b.description))
    write.click()


def well(panel: SeasonPanel) -> None:
    assert panel.guard.message.value == "", panel.guard.message.value
    assert panel.desk.failures == []


def test_share_and_take(panel: SeasonPanel) -> None:
    assert not shown(panel.shares.root) and not shown(panel.table) and not shown(panel.print)
    panel.share.click()
    assert shown(panel.shares.root) and len(panel.shares.ways.rows) == 3
    panel.shares.ways.selected = "1"
    assert "Way 2" in panel.shares.answer.value
    assert "Left out, and why" in panel.shares.left_out.value
    panel.shares.ways.selected = "0"
    panel.shares.take.click()
    assert not shown(panel.shares.root) and len(panel.table.rows) == 3
    assert "Three pairings this season" in panel.headline.value
    assert "<svg" in panel.bands.value and shown(panel.diary.root)
    well(panel)


def test_every_text__is_escaped(panel: SeasonPanel) -> None:
    take(panel)
    panel.table.selected = "F01"
    panel.print.click()
    html = every_html(panel.root)
    assert "<b>Bracken" not in html and "&lt;b&gt;Bracken" in html
    assert "<b>Bracken" not in panel.sheet_link.content
    well(panel)


def test_refusal__stands_under_the_form_with_a_button_to_allow(panel: SeasonPanel) -> None:
    pair(panel, "F03", "M02")
    assert "1,500 g needed" in panel.refused.widgets[0].value and not shown(panel.allow)
    pair(panel, "F04", "M02")
    assert "until you allow it" in panel.refused.widgets[0].value
    [allow] = panel.allow.children
    assert allow.description == "allow Spider in plans"
    allow.click()
    assert panel.desk.allow == ("Spider",) and not shown(panel.refused.widgets[0])
    pair(panel, "F04", "M02")
    assert [row["id"] for row in panel.table.rows] == ["F04"]
    well(panel)


def test_diary__buttons_write_events_and_begin_the_clutch(panel: SeasonPanel) -> None:
    pair(panel, "F01", "M02", "M01")
    diary = panel.diary
    assert diary.male.value == "M02" and "&lt;b&gt;Bracken" in diary.title.value
    for name, day in (
        ("introduced", date(2026, 11, 1)),
        ("lock seen", date(2026, 11, 3)),
        ("ovulation", date(2026, 11, 10)),
        ("laid", date(2026, 12, 28)),
    ):
        diary.on.value = day
        diary.events[name].click()
        assert not shown(diary.problems.widgets[0]), diary.problems.widgets[0].value
    assert len(diary.entries.children) == 5
    assert shown(diary.begin)
    diary.begin.click()
    assert panel.desk.book is not None and panel.desk.book["C01"].sires == ("M02",)
    assert not shown(diary.begin) and "C01" in diary.begun.value
    diary.on.value = date(2026, 12, 29)
    diary.events["ovulation"].click()
    assert "a day after it" in diary.problems.widgets[0].value
    well(panel)


def test_exports__give_links_until_something_else_is_done(panel: SeasonPanel) -> None:
    take(panel)
    panel.calendar.click()
    assert shown(panel.file_link) and panel.file_link.name == "mine.season.ics"
    assert panel.file_link.content.startswith("BEGIN:VCALENDAR")
    panel.print.click()
    assert shown(panel.sheet_link) and not shown(panel.file_link)
    panel.undo.click()
    assert not shown(panel.sheet_link)
    well(panel)


def test_options__change_what_is_asked(panel: SeasonPanel) -> None:
    options = panel.options
    options.target.value, options.weight.value = "Leopardd", "2"
    options.target._handle_custom_msg({"event": "submit"}, [])
    assert options.problems.widgets[1].children[0].description == "use Leopard"
    options.problems.widgets[1].children[0].click()
    options.target._handle_custom_msg({"event": "submit"}, [])
    assert panel.model.wishes.others == {"Leopard": "2"} and options.target.value == ""
    options.per_male.value, options.kinship.value = 1, 10
    assert (panel.model.wishes.per_male, panel.model.wishes.most_inbreeding) == (1, 10)
    options.pickers["dam"].value, options.pickers["sire"].value = "F01", "M02"
    next(b for b in options.inside[3].children if "in any case" in str(b.description)).click()
    assert panel.model.wishes.forced == (("F01", "M02"),)
    panel.share.click()
    assert panel.model.shares.found is not None and not panel.model.shares.stale
    options.pairs.children[0].children[1].click()
    assert panel.model.wishes.forced == () and panel.model.shares.stale
    assert "press “share the males” again" in panel.shares.problems.value
    well(panel)


def test_log_that_cannot_be_read__is_all_that_is_shown(tmp_path: Path) -> None:
    season_file(tmp_path / "mine.csv").write_text("season,dam,sire,event,on,notes\n2026,<i>F99,M01,planned,,\n")
    panel = SeasonPanel(opened(tmp_path))
    assert "could not be read" in panel.headline.value and "&lt;i&gt;F99" in panel.remarks.value
    assert not shown(panel.body) and not shown(panel.share) and shown(panel.again)
    season_file(tmp_path / "mine.csv").unlink()
    panel.again.click()
    assert shown(panel.body) and shown(panel.share) and not shown(panel.again)
    well(panel)


def test_nobody_open__says_so(tmp_path: Path) -> None:
    from explorer.panels.desk import Desk

    panel = SeasonPanel(Desk(tmp_path / "none.csv", TODAY))
    assert "No collection is open" in panel.headline.value and not shown(panel.again)
    well(panel)


def test_changed_meanwhile__the_way_out_stands_beside_what_is_wrong(panel: SeasonPanel) -> None:
    assert not shown(panel.form_again) and not shown(panel.diary.again) and not shown(panel.again)
    pair(panel, "F01", "M02")
    file = season_file(panel.desk.path)
    file.write_text(file.read_text() + "2026,F02,M02,planned,,by hand\n")
    panel.diary.events["ovulation"].click()
    again = panel.diary.again
    assert shown(again) and not shown(panel.again) and not shown(panel.form_again)
    assert "changed by another program" in panel.diary.problems.widgets[0].value
    again.click()
    assert not shown(again) and "changed by" not in panel.diary.problems.widgets[0].value
    assert {row["id"] for row in panel.table.rows} == {"F01", "F02"}
    file.write_text(file.read_text() + "2026,F05,M02,planned,,by hand\n")
    pair(panel, "F02", "M01")
    assert shown(panel.form_again) and not shown(again)
