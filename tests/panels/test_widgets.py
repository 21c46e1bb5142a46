"""The widgets by their synced state, and the workbench as a kernel sees it; what a browser draws is tested there."""

import asyncio
import json
import threading
from collections.abc import Callable, Coroutine
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path
from typing import TypeVar

import pytest
from ipywidgets import HTML, Widget

from explorer.panels import open_workbench, workbench
from explorer.panels.background import Job, JobBar, Progress
from explorer.panels.chart import Chart
from explorer.panels.collection_tab.collection_view import CollectionPanel
from explorer.panels.desk import Desk
from explorer.panels.guard import Guard
from explorer.panels.markup import folded, items, paragraph
from explorer.panels.path_tab.walk_view import WalkView
from explorer.panels.table_view import TableView
from explorer.panels.workbench import Workbench

T = TypeVar("T")
EVIL = "<script>alert(1)</script>"
PLOTLY = "application/vnd.plotly.v1+json"


def all_html(widget: Widget) -> str:
    """The HTML of every HTML widget in the tree."""
    own = widget.value if isinstance(widget, HTML) else ""
    return own + "".join(all_html(child) for child in getattr(widget, "children", ()))


def test_markup__escapes_every_text() -> None:
    for made in (paragraph(EVIL), items([EVIL]), folded(EVIL, EVIL)):
        assert "<script" not in made
        assert "&lt;script&gt;" in made


def test_chart__keeps_the_figure_as_state_without_an_upload_button() -> None:
    chart = Chart()
    figure = {"data": [{"type": "bar", "x": [1]}], "layout": {}, "config": {"staticPlot": True}}
    chart.show(json.dumps(figure), f"one bar {EVIL}")
    words, drawn = (output["data"] for output in chart.outputs)
    assert "<script" not in words["text/html"]
    assert drawn[PLOTLY]["data"] == figure["data"]
    assert drawn[PLOTLY]["config"]["showSendToCloud"] is False
    assert drawn[PLOTLY]["config"]["staticPlot"] is True
    assert drawn["text/plain"] == f"one bar {EVIL}"
    chart.clear()
    assert chart.outputs == ()


def test_views__carry_their_own_script_and_style() -> None:
    for view in (TableView(), WalkView()):
        assert "export default { render }" in view._esm
        assert "https:" not in view._esm + view._css
        assert "innerHTML" not in view._esm


def test_guard__says_so_and_folds_the_details() -> None:
    guard = Guard("Path")
    guard(lambda: int(EVIL))()
    assert guard.message.value.startswith("<p>Path: this could not be shown.")
    assert "<details>" in guard.message.value
    assert "<script" not in guard.message.value
    guard(lambda: None)()
    assert guard.message.value == ""


def apart(check: Callable[[], T]) -> T:
    """Runs the check in a thread of its own: the browser tests leave an event loop running in this one."""
    with ThreadPoolExecutor(1) as thread:
        return thread.submit(check).result(30)


def in_a_loop(check: Callable[[], Coroutine[None, None, None]]) -> None:
    """Runs the check to its end in an event loop, as a kernel would."""
    apart(lambda: asyncio.run(asyncio.wait_for(check(), 20)))


def test_job__without_an_event_loop_is_done_at_once() -> None:
    got: list[object] = []

    def work(progress: Progress) -> int:
        progress(0.5, "half")
        return 42

    apart(lambda: Job(work, got.append, got.append, lambda *news: got.append(news)))
    assert got == [(0.5, "half"), 42]


def test_job__error_of_the_work_and_of_what_follows() -> None:
    got: list[Exception] = []
    apart(lambda: Job(lambda progress: 1 / 0, lambda result: None, got.append))
    apart(lambda: Job(lambda progress: 1, lambda result: [][result], got.append))  # type: ignore[misc, list-item]
    assert [type(error) for error in got] == [ZeroDivisionError, IndexError]


def test_job__works_in_a_thread_and_reports_in_the_loop() -> None:
    async def check() -> None:
        ended = asyncio.Event()
        threads: list[threading.Thread] = []

        def work(progress: Progress) -> str:
            threads.append(threading.current_thread())
            return "found"

        def done(result: str) -> None:
            threads.append(threading.current_thread())
            assert result == "found"
            ended.set()

        Job(work, done, lambda error: pytest.fail(str(error)))
        await ended.wait()
        assert threads[0] is not threading.current_thread()
        assert threads[1] is threading.current_thread()

    in_a_loop(check)


def test_job_bar__stop_ends_the_work_and_says_so() -> None:
    async def check() -> None:
        bar, inside = JobBar(), threading.Event()

        def work(progress: Progress) -> None:
            for _ in range(10_000):
                progress(0.25, f"trying {EVIL}")
                inside.set()
                threading.Event().wait(0.001)

        bar.start(work, lambda result: pytest.fail("not stopped"), lambda error: pytest.fail(str(error)))
        assert bar.running
        await asyncio.to_thread(inside.wait, 10)
        await asyncio.sleep(0.05)
        assert "&lt;script&gt;" in all_html(bar)
        bar._stop.click()
        while bar.running:
            await asyncio.sleep(0.005)
        assert "stopped" in all_html(bar)

    in_a_loop(check)


def test_job_bar__a_new_job_takes_the_place_of_the_old_one() -> None:
    async def check() -> None:
        bar, got, hold = JobBar(), [], threading.Event()

        def slow(progress: Progress) -> str:
            hold.wait(10)
            return "old"

        bar.start(slow, got.append, got.append)  # type: ignore[arg-type]
        bar.start(lambda progress: "new", got.append, got.append)  # type: ignore[arg-type]
        hold.set()
        while bar.running:
            await asyncio.sleep(0.005)
        await asyncio.sleep(0.05)
        assert got == ["new"]
        assert bar.layout.display == "none"

    in_a_loop(check)


def test_collection_panel__shows_a_files_text_as_text(tmp_path: Path) -> None:
    file = tmp_path / "evil.csv"
    file.write_text(f"id,sex,genes,name,notes\nF1,female,poss het Clown,{EVIL},<img src=x>\n", encoding="utf-8")
    desk = Desk(file, date(2026, 11, 25))
    assert desk.open(file)
    panel = CollectionPanel(desk)
    panel.table.selected = "F1"
    shown = all_html(panel.root)
    assert "&lt;script&gt;" in shown and "&lt;img" in shown
    assert "<script" not in shown and "<img" not in shown
    (tmp_path / "worse.csv").write_text(f"id,sex,genes\n{EVIL},{EVIL},{EVIL}\n", encoding="utf-8")
    assert not desk.open(tmp_path / "worse.csv")
    panel.update()
    shown = all_html(panel.root)
    assert "worse.csv could not be opened" in shown
    assert "<script" not in shown


@pytest.fixture
def panel(demo_collection: Path) -> CollectionPanel:
    desk = Desk(demo_collection, date(2026, 11, 25))
    assert desk.open(demo_collection)
    return CollectionPanel(desk)


def test_collection_panel__an_error_loses_nothing_from_the_form(panel: CollectionPanel) -> None:
    panel.table.selected = "F02"
    panel.edit.click()
    panel.form.fields["genes"].value = "Pastell"
    panel.form.fields["name"].value = "Milfoil"
    panel.form.take.click()
    assert panel.form.values["genes"] == "Pastell" and panel.form.values["name"] == "Milfoil"
    assert "Pastell" in all_html(panel.form.root)
    panel.table.selected = "F03"
    assert panel.table.selected == "F02", "a record with changes stays until it is saved or cancelled"
    panel.form.take.click()
    panel.form.problems.widgets[1].children[0].click()
    assert panel.form.values["genes"] == "Pastel"
    panel.form.take.click()
    assert {row["id"]: row["name"] for row in panel.table.rows}["F02"] == "Milfoil"
    assert "unsaved changes" in panel.said.value


def test_collection_panel__a_new_weight_is_of_today_unless_said(panel: CollectionPanel) -> None:
    panel.table.selected = "F09"
    panel.edit.click()
    assert panel.form.values["weighed_on"] == "2026-11-08"
    panel.form.fields["weight_g"].value = "1500"
    assert panel.form.values["weighed_on"] == str(date.today())


def test_workbench__one_for_each_file(demo_collection: Path, tmp_path: Path) -> None:
    copy = tmp_path / "mine.csv"
    copy.write_bytes(demo_collection.read_bytes())
    first = open_workbench(copy)
    assert open_workbench(str(copy)) is first
    assert open_workbench() is not first
    assert open_workbench() is open_workbench(demo_collection)
    assert "collection: mine.csv (24 animals, " in all_html(first)


def test_workbench__no_panel_fails_on_the_demo(demo_collection: Path) -> None:
    bench = Workbench(demo_collection)
    assert list(bench.panels) == [title for title, _ in workbench.TABS]
    assert {"Collection", "Pairing", "Line-up", "Path"} <= bench.panels.keys()
    bench.season.value = bench.season.options[2][1]
    bench.desk.aim("Clown")
    bench.season.value = bench.season.options[0][1]
    assert bench.desk.today == bench.desk.now
    assert "could not be shown" not in all_html(bench.root)
    assert bench.desk.failures == []


def test_workbench__a_file_that_cannot_be_opened_is_said_in_words(tmp_path: Path) -> None:
    shown = all_html(Workbench(tmp_path / "none.csv").root)
    assert "No collection is open. Open a file to begin." in shown
    assert "there is no file" in shown
    assert "could not be shown" not in shown


def test_workbench__a_panel_that_fails_hurts_no_other(demo_collection: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    class Late:
        def __init__(self, desk: Desk) -> None:
            self.root = HTML("late")
            desk.listen("season", lambda: 1 / 0)  # type: ignore[arg-type, return-value]

    tabs = (("Broken", lambda desk: 1 / 0), ("Late", Late), ("Collection", CollectionPanel))
    monkeypatch.setattr(workbench, "TABS", tabs)
    bench = Workbench(demo_collection)
    assert list(bench.panels) == ["Late", "Collection"]
    broken, late, collection = bench.tabs.children
    assert "Broken: this could not be shown." in all_html(broken)
    assert "could not be shown" not in all_html(late)
    bench.season.value = bench.season.options[1][1]
    assert "Late: this could not be shown." not in all_html(late), "it is drawn again once it is seen"
    bench.tabs.selected_index = 1
    assert "Late: this could not be shown." in all_html(late)
    bench.tabs.selected_index = 2
    assert "in season" in all_html(collection)
    assert "could not be shown" not in all_html(collection)
