"""The workbench: the frame that all tabs share, and the tabs, each of which may fail by itself."""

from __future__ import annotations

import traceback
from collections.abc import Callable
from pathlib import Path
from typing import Any

from ipywidgets import Dropdown, HBox, Tab, VBox, Widget

from ..catalogue import Catalogue
from ..husbandry import first_season, season_name, season_span
from .clock import today
from .clutch_tab.clutch_view import ClutchPanel
from .collection_tab.collection_model import CollectionModel
from .collection_tab.collection_view import CollectionPanel
from .desk import Desk
from .guard import Guard
from .line_up_tab.line_up_view import LineUpPanel
from .markup import paragraph
from .notes_tab.notes_view import NotesPanel
from .pairing_tab.pairing_view import PairingPanel
from .parts import words
from .path_tab.path_view import PathPanel
from .reading_tab.reading_view import ReadingPanel
from .season_tab.season_view import SeasonPanel
from .stylesheet import style_sheet
from .target_view import TargetEditor

__all__ = ["Workbench", "open_workbench"]

TABS: tuple[tuple[str, Callable[[Desk], Any]], ...] = (
    ("Collection", CollectionPanel),
    ("Pairing", PairingPanel),
    ("Line-up", LineUpPanel),
    ("Path", PathPanel),
    ("Season", SeasonPanel),
    ("Clutch book", ClutchPanel),
    ("Gene notes", NotesPanel),
    ("Read an animal", ReadingPanel),
)
SEASONS_AHEAD = 8
PACKAGE = Path(__file__).resolve().parents[1]
DEMO = "demo_collection.csv"

_open: dict[Path, Workbench] = {}


def open_workbench(path: str | Path | None = None, catalogue: Catalogue | None = None) -> Widget:
    """The workbench on a collection file, by default the demo collection. One for each file: a second call shows the
    same one, with everything as it was left."""
    file = (Path(path) if path is not None else _demo()).expanduser().resolve()
    if file not in _open:
        _open[file] = Workbench(file, catalogue)
    return _open[file].root


class Workbench:
    """`root` is the widget to show, `desk` what all panels share, `panels` the panels by the title of their tab."""

    def __init__(self, path: Path, catalogue: Catalogue | None = None) -> None:
        self.desk = Desk(path, today(), catalogue)
        self.desk.open(path)
        self.guard = Guard("The workbench")
        self.collection = CollectionModel(self.desk)
        self.file = words("xp-file")
        self.season = Dropdown(options=self._seasons(), description="season")
        self.season.add_class("xp-season")
        self.season.observe(self.guard(lambda change: self._look_from(change.new)), "value")
        self.target = TargetEditor(self.desk, self.guard)
        top = HBox([self.file, self.season, self.target.line])
        top.add_class("xp-top")
        self.panels: dict[str, Any] = {}
        self.tabs: Tab | None = None
        self.tabs = Tab([self._tab(*tab) for tab in TABS], titles=[title for title, _ in TABS])
        if {"Line-up", "Path"} <= self.panels.keys():
            self.panels["Line-up"].join(self.panels["Path"])
        self.tabs.add_class("xp-tabs")
        self.tabs.observe(self.guard(lambda _: self.desk.catch_up()), "selected_index")
        self.root = VBox([style_sheet(), top, self.target.form, self.guard.message, self.tabs])
        self.root.add_class("xp-workbench")
        with self.desk.reporting_to(self.guard.report):
            for topic in ("animals", "season", "target"):
                self.desk.listen(topic, self._update)
        self._update()

    def _update(self) -> None:
        self.file.value = paragraph(f"collection: {self.collection.summary}")

    def _tab(self, title: str, make: Callable[[Desk], Any]) -> Widget:
        """A panel, or in its place a message if it could not be built."""
        guard = Guard(title)
        with self.desk.reporting_to(guard.report, lambda: self._seen(title)):
            try:
                self.panels[title] = make(self.desk)
            except Exception:
                guard.report(traceback.format_exc())
                return VBox([guard.message])
        return VBox([guard.message, self.panels[title].root])

    def _seen(self, title: str) -> bool:
        """Whether this tab is the one that is shown; the others are drawn again once they are."""
        return self.tabs is None or TABS[self.tabs.selected_index or 0][0] == title

    def _seasons(self) -> list[tuple[str, int]]:
        first = first_season(self.desk.now, self.desk.care)
        return [(season_name(year, self.desk.care), year) for year in range(first, first + SEASONS_AHEAD)]

    def _look_from(self, year: int) -> None:
        now = year == self.season.options[0][1]
        self.desk.look_from(self.desk.now if now else season_span(year, self.desk.care)[0])


def _demo() -> Path:
    """The demo collection: at its place in a checkout, inside the package in an installed copy."""
    checkout = PACKAGE.parent / DEMO
    return checkout if checkout.is_file() else PACKAGE / "bundled" / DEMO
