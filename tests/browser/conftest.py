"""A real Chromium on a real JupyterLab, started by the project's own launcher.

Without a browser these tests are skipped; with EXPLORER_REQUIRE_BROWSER set they fail instead. EXPLORER_PICTURES=1
makes the README's pictures again from the same run. CHROMIUM may name the browser's program.
"""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import axe_playwright_python
import pytest
from on_screen import Axe, Picture, Start
from playwright.sync_api import Browser, Locator, Page, expect, sync_playwright

__all__ = [
    "Opened",
    "Window",
    "axe",
    "browser",
    "chromium",
    "collection_file",
    "page",
    "picture",
    "start_workbench",
    "wide_page",
    "window",
    "workbench",
]

PROGRAMS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
FLAGS = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync", "--disable-dev-shm-usage"),
)
SEEN = pytest.StashKey[dict[str, Any]]()
FAILED = pytest.StashKey[bool]()

PATIENCE_MS = 60_000
"""How long a page may take to do what it is asked, and to show what is expected."""

expect.set_options(timeout=PATIENCE_MS)


@dataclass
class Opened:
    """What a page did that a test must hear of: errors in it, and requests to anything but this computer."""

    errors: list[str] = field(default_factory=list)
    outside: list[str] = field(default_factory=list)
    console: list[str] = field(default_factory=list)

    def watch(self, page: Page) -> None:
        page.on("pageerror", lambda error: self.errors.append(str(error)))
        page.on("console", lambda said: self.console.append(f"{said.type}: {said.text[:300]}"))
        page.on("request", lambda request: self._note(request.url))
        page.on("websocket", lambda socket: self._note(socket.url))

    def _note(self, url: str) -> None:
        if not re.match(r"(http|ws)://(127\.0\.0\.1|localhost):|data:|blob:", url):
            self.outside.append(url)


def pytest_collection_modifyitems(items: Sequence[pytest.Item]) -> None:
    for item in items:
        if "chromium" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.browser)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Iterator[None]:
    """Keep what a failed test's pages looked like, in pytest's temporary folder."""
    report: Any = yield
    if report.failed:
        item.stash[FAILED] = True
    if report.when == "call" and report.failed:
        for name, (opened, watched) in item.stash.get(SEEN, {}).items():
            shot = watched["folder"] / f"{name}.png"
            watched["page"].screenshot(path=shot)
            report.sections.append((name, f"picture: {shot}\n{opened}"))
    return report  # type: ignore[no-any-return]


@pytest.fixture(scope="session")
def chromium() -> str:
    """The path of a Chromium or Chrome."""
    found = os.environ.get("CHROMIUM") or next(filter(None, map(shutil.which, PROGRAMS)), None)
    if found is None:
        reason = f"no browser found: none of {', '.join(PROGRAMS)} on the PATH, and CHROMIUM is not set"
        if os.environ.get("EXPLORER_REQUIRE_BROWSER"):
            pytest.fail(reason)
        pytest.skip(reason)
    return found


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Browser]:
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium, headless=True, args=list(FLAGS))
        yield started
        started.close()


@pytest.fixture(scope="session")
def start_workbench() -> Start:
    """A function that starts the launcher on a collection file, for the length of a `with`; gives the address."""

    @contextmanager
    def start(collection: Path) -> Iterator[str]:
        command = [sys.executable, "-m", "explorer", str(collection), "--no-browser", "--port", "0"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as launcher:
            assert launcher.stdout is not None
            said = []
            try:
                for line in launcher.stdout:
                    said.append(line)
                    if address := re.search(r"http://\S+", line):
                        yield address[0]
                        return
                pytest.fail(f"the launcher printed no address:\n{''.join(said)}")
            finally:
                launcher.terminate()

    return start


@pytest.fixture(scope="session")
def collection_file(demo_collection: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The copy of the demo collection that the shared workbench has open."""
    return Path(shutil.copy(demo_collection, tmp_path_factory.mktemp("collection")))


@pytest.fixture(scope="session")
def workbench(chromium: str, collection_file: Path, start_workbench: Start) -> Iterator[str]:
    """The address of one workbench that all tests share; what one does in it, the next one sees."""
    with start_workbench(collection_file) as address:
        yield address


class Window:
    """One page for all tests, since loading JupyterLab takes longer than most of them."""

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._shown: tuple[Page, Opened] | None = None

    def lend(self, width: int, height: int) -> tuple[Page, Opened]:
        """The page, alone in its browser, and what it does from now on; new if there is none."""
        if self._shown is None:
            context = self._browser.new_context()
            context.set_default_timeout(PATIENCE_MS)
            self._shown = context.new_page(), Opened()
            self._shown[1].watch(self._shown[0])
        page, opened = self._shown
        for other in page.context.pages:
            if other is not page:
                other.close()
        for said in (opened.errors, opened.outside, opened.console):
            said.clear()
        page.set_viewport_size({"width": width, "height": height})
        return page, opened

    def close(self) -> None:
        if self._shown is not None:
            self._shown[0].context.close()
        self._shown = None


@pytest.fixture(scope="session")
def window(browser: Browser) -> Iterator[Window]:
    shared = Window(browser)
    yield shared
    shared.close()


@contextmanager
def _lent(window: Window, request: pytest.FixtureRequest, folder: Path, width: int, height: int) -> Iterator[Page]:
    page, opened = window.lend(width, height)
    name = f"{request.node.name}-{width}"
    request.node.stash.setdefault(SEEN, {})[name] = (opened, {"page": page, "folder": folder})
    yield page
    errors, outside = list(opened.errors), list(opened.outside)
    if errors or outside or request.node.stash.get(FAILED, False):
        window.close()
    assert errors == [], "the page raised errors"
    assert outside == [], "the page asked for something outside this computer"


@pytest.fixture
def page(window: Window, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Page]:
    """A page of 1280 x 800, the smallest window that every panel must fit, as the last test left it."""
    with _lent(window, request, tmp_path, 1280, 800) as page:
        yield page


@pytest.fixture
def wide_page(window: Window, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Page]:
    """The same page at 1600 x 1000."""
    with _lent(window, request, tmp_path, 1600, 1000) as page:
        yield page


@pytest.fixture(scope="session")
def axe() -> Axe:
    """A function (page, selector) -> accessibility findings in that part of the page; by default, the workbench."""
    source = next(Path(axe_playwright_python.__file__).parent.rglob("axe.min.js")).read_text(encoding="utf-8")

    def check(page: Page, selector: str = ".xp-workbench") -> list[dict[str, Any]]:
        if not page.evaluate("!!window.axe"):
            page.evaluate(source)
        found: list[dict[str, Any]] = page.evaluate(
            """async (selector) => {
                const rules = { runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "best-practice"] };
                const { violations } = await axe.run({ include: [[selector]] }, rules);
                return violations.map((v) => ({
                    id: v.id, impact: v.impact, help: v.help, where: v.nodes.map((n) => n.target.join(" ")) }));
            }""",
            selector,
        )
        return found

    return check


@pytest.fixture(scope="session")
def picture(project: Path) -> Picture:
    """A function (page or part of it, name) that makes notebooks/images/<name>.png if EXPLORER_PICTURES is set."""

    def take(shown: Page | Locator, name: str) -> None:
        if os.environ.get("EXPLORER_PICTURES"):
            folder = project / "notebooks" / "images"
            folder.mkdir(exist_ok=True)
            shown.screenshot(path=folder / f"{name}.png")

    return take
