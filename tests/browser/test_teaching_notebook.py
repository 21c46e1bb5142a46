"""The teaching notebook as a reader meets it: opened in JupyterLab, run from the menu, every guess answered."""

import json
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
from on_screen import ERROR, Axe, Start
from playwright.sync_api import Locator, Page, expect

NOTEBOOK = "how_stacking_works.ipynb"


@pytest.fixture(scope="module")
def content(project: Path) -> dict[str, Any]:
    return json.loads((project / "notebooks" / NOTEBOOK).read_text(encoding="utf-8"))  # type: ignore[no-any-return]


@pytest.fixture(scope="module")
def count(content: dict[str, Any]) -> int:
    """The number of cells that ask for a guess."""
    return sum("\nguess(" in "".join(cell["source"]) for cell in content["cells"] if cell["cell_type"] == "code")


@contextmanager
def served(page: Page, server: str, content: dict[str, Any], theme: str = "") -> Iterator[str]:
    """The notebook's address beside the server's own, in a workspace of its own; taken away at the end."""
    parts = urlsplit(server)
    base, token = f"{parts.scheme}://{parts.netloc}", parse_qs(parts.query)["token"][0]
    file, signed = f"{base}/api/contents/{NOTEBOOK}", {"Authorization": f"token {token}"}
    put = page.request.put(file, headers=signed, data={"type": "notebook", "format": "json", "content": content})
    assert put.ok, put.text()
    if theme:
        themes = f"{base}/lab/api/settings/@jupyterlab/apputils-extension:themes"
        assert page.request.put(themes, headers=signed, data={"raw": json.dumps({"theme": theme})}).ok
    try:
        yield f"{base}/lab/workspaces/lesson/tree/{NOTEBOOK}?token={token}"
    finally:
        for session in page.request.get(f"{base}/api/sessions", headers=signed).json():
            if session["path"] == NOTEBOOK:
                page.request.delete(f"{base}/api/sessions/{session['id']}", headers=signed)
        page.request.delete(file, headers=signed)


@pytest.fixture
def asked(page: Page, workbench: str, content: dict[str, Any], count: int) -> Iterator[Locator]:
    """All guesses of the notebook, opened and run; none is answered yet."""
    with served(page, workbench, content) as address:
        yield run_all(page, address, count)


def run_all(page: Page, address: str, count: int) -> Locator:
    """Opens the notebook and runs it as its first paragraphs say; gives all guesses."""
    page.goto(address)
    expect(page.locator(".jp-MarkdownOutput h1")).to_contain_text("How stacking works")
    expect(page.locator(".jp-Notebook-ExecutionIndicator")).to_have_attribute("data-status", "idle")
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
    asked = page.locator(".xp-guess")
    expect(asked).to_have_count(count)
    expect(page.locator(".jp-CodeCell").last.locator(".jp-OutputArea-output")).to_be_visible()
    expect(page.locator(ERROR)).to_have_count(0)
    return asked


def answer(asked: Locator, choice: int) -> str:
    """Clicks a choice; gives the verdict."""
    button = asked.locator("button").nth(choice)
    button.click()
    expect(button).to_have_attribute("aria-pressed", "true")
    expect(asked.locator("button[aria-pressed=true]")).to_have_count(1)
    said = asked.get_by_role("status").locator("p")
    expect(said.nth(1)).to_be_visible()
    return said.first.text_content() or ""


def guesses_fit(asked: Locator) -> bool:
    """No guess is wider than its room, whatever is unfolded."""
    return bool(asked.evaluate_all("all => all.every((e) => e.scrollWidth <= e.clientWidth + 1)"))


def test_notebook__every_guess_is_answered_whatever_is_chosen(asked: Locator, count: int, axe: Axe) -> None:
    for number in range(count):
        one = asked.nth(number)
        expect(one.get_by_role("status")).to_be_empty()
        expect(one.locator(".xp-shown")).to_be_hidden()
        names = one.locator("button").all_text_contents()
        verdicts = {name: answer(one, choice) for choice, name in enumerate(names)}
        (right,) = (name for name, verdict in verdicts.items() if verdict.startswith("Right"))
        expected = dict.fromkeys(names, f"Not quite. The answer: {right}.") | {right: f"Right: {right}."}
        assert verdicts == expected
        if one.locator(".xp-shown > *").count():
            expect(one.locator(".xp-shown").locator("table, svg").first).to_be_visible()
    page = asked.page
    expect(page.locator(ERROR)).to_have_count(0)
    expect(page.locator("body")).to_have_attribute("data-jp-theme-light", "true")
    assert guesses_fit(asked)
    assert axe(page, ".xp-guess") == []


def test_notebook__answers_by_keyboard_and_code_unfolds_at_a_click(asked: Locator) -> None:
    page, one = asked.page, asked.first
    cells = page.locator(".jp-Cell").count()
    one.locator("button").first.focus()
    for key, choice in (("Enter", 0), ("Space", 1)):
        page.keyboard.press(key)
        expect(one.locator("button").nth(choice)).to_have_attribute("aria-pressed", "true")
        expect(one.locator("button").nth(choice)).to_be_focused()
        page.keyboard.press("Tab")
    for key in ("d", "d", "x"):
        page.keyboard.press(key)
    expect(page.locator(".jp-Cell")).to_have_count(cells)
    cell = page.locator(".jp-CodeCell").nth(1)
    expect(cell.locator(".cm-content")).to_be_hidden()
    cell.locator(".jp-InputPlaceholder").click()
    expect(cell.locator(".cm-content")).to_contain_text("guess(")


def test_notebook__fits_in_the_dark_theme_and_has_no_accessibility_findings(
    page: Page,
    tmp_path: Path,
    demo_collection: Path,
    content: dict[str, Any],
    count: int,
    start_workbench: Start,
    axe: Axe,
) -> None:
    """On a server of its own, which keeps the theme that is chosen."""
    copy = Path(shutil.copy(demo_collection, tmp_path))
    with start_workbench(copy) as server, served(page, server, content, "JupyterLab Dark") as address:
        asked = run_all(page, address, count)
        expect(page.locator("body")).to_have_attribute("data-jp-theme-light", "false")
        for number in range(count):
            answer(asked.nth(number), 0)
        assert guesses_fit(asked)
        assert axe(page, ".xp-guess") == []
