"""Names of sixty characters, and names that are HTML: nothing is pushed out of sight, nothing runs."""

import re
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

Start = Callable[[Path], AbstractContextManager[str]]

LONG = "Name of exactly sixty characters that goes on and on, so on."
WIDE = "N" * 60
EVIL = "<img src=x onerror=alert(1)>"


@pytest.fixture(scope="module")
def address(
    chromium: str, demo_collection: Path, tmp_path_factory: pytest.TempPathFactory, start_workbench: Start
) -> Iterator[str]:
    assert len(LONG) == len(WIDE) == 60
    text = demo_collection.read_text(encoding="utf-8")
    for name, other in (("Juniper", LONG), ("Bracken", WIDE), ("Plover", EVIL), ("Alder", LONG[::-1])):
        text = text.replace(f",{name},", f',"{other}",')
    file = tmp_path_factory.mktemp("collection") / "mine.csv"
    file.write_text(text, encoding="utf-8")
    with start_workbench(file) as address:
        yield address


@pytest.fixture
def workbench_page(page: Page, address: str) -> Page:
    page.on("dialog", lambda dialog: pytest.fail(f"a name ran as a script: {dialog.message}"))
    page.goto(address)
    expect(page.locator(".xp-workbench")).to_be_visible()
    return page


def open_tab(page: Page, name: str) -> Locator:
    page.get_by_role("tab", name=name, exact=True).click()
    return page.locator(".xp-workbench")


def cut_off(page: Page) -> list[str]:
    """Tables that are wider than their room, and cells whose text runs over its neighbours."""
    found: list[str] = page.evaluate(
        """[...document.querySelectorAll(".xp-table-scroll")].filter((one) => one.offsetParent).flatMap((one) => [
             ...(one.scrollWidth > one.clientWidth + 1 ? [`table: ${one.innerText.slice(0, 60)}`] : []),
             ...[...one.querySelectorAll("tbody > tr > *")].filter((cell) => cell.scrollWidth > cell.clientWidth + 1)
               .map((cell) => `cell: ${cell.innerText.slice(0, 60)}`)])"""
    )
    return found


def test_line_up__every_column_stays_in_sight(workbench_page: Page) -> None:
    open_tab(workbench_page, "Line-up")
    expect(workbench_page.locator('.xp-mates tr[data-id="F03"]')).to_be_visible()
    assert cut_off(workbench_page) == []


def test_season__every_column_stays_in_sight(workbench_page: Page) -> None:
    page = workbench_page
    tab = open_tab(page, "Season").locator(".xp-season-tab")
    tab.get_by_role("button", name="share the males", exact=True).click()
    expect(tab.locator(".xp-way-pairings tbody tr").first).to_be_visible()
    expect(tab.locator(".xp-way-pairings")).to_contain_text(EVIL)
    assert cut_off(page) == []
    tab.get_by_role("button", name="take this allotment", exact=True).click()
    expect(tab.locator(".xp-pairings tbody tr").first).to_be_visible()
    assert cut_off(page) == []
    expect(tab.locator(".xp-diary-title")).to_have_text(re.compile("The log of "))
    assert page.evaluate("document.querySelector('.jp-WindowedPanel-outer, .jp-Notebook').scrollWidth <= innerWidth")
    assert page.locator("img[src=x]").count() == 0


def test_collection__every_column_stays_in_sight(workbench_page: Page) -> None:
    open_tab(workbench_page, "Collection")
    expect(workbench_page.locator('.xp-animals tr[data-id="F03"]')).to_be_visible()
    assert cut_off(workbench_page) == []
