"""Names of sixty characters, and names that are HTML: nothing is pushed out of sight, nothing runs."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from on_screen import Start, fits, no_dialog, open_tab
from playwright.sync_api import Page, expect

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
def quiet_page(page: Page) -> Iterator[Page]:
    """No name of it may run as a script."""
    with no_dialog(page):
        yield page


def cut_off(page: Page) -> list[str]:
    """Tables that are wider than their room, and cells whose text runs over its neighbours."""
    found: list[str] = page.evaluate(
        """[...document.querySelectorAll(".xp-table-scroll")].filter((one) => one.offsetParent).flatMap((one) => [
             ...(one.scrollWidth > one.clientWidth + 1 ? [`table: ${one.innerText.slice(0, 60)}`] : []),
             ...[...one.querySelectorAll("tbody > tr > *")].filter((cell) => cell.scrollWidth > cell.clientWidth + 1)
               .map((cell) => `cell: ${cell.innerText.slice(0, 60)}`)])"""
    )
    return found


def test_line_up__every_column_stays_in_sight(quiet_page: Page, address: str) -> None:
    open_tab(quiet_page, address, "Line-up")
    expect(quiet_page.locator('.xp-mates tr[data-id="F03"]')).to_be_visible()
    assert cut_off(quiet_page) == []


def test_season__every_column_stays_in_sight(quiet_page: Page, address: str) -> None:
    page = quiet_page
    tab = open_tab(page, address, "Season").locator(".xp-season-tab")
    tab.get_by_role("button", name="share the males", exact=True).click()
    expect(tab.locator(".xp-way-pairings tbody tr").first).to_be_visible()
    expect(tab.locator(".xp-way-pairings")).to_contain_text(EVIL)
    assert cut_off(page) == []
    tab.get_by_role("button", name="take this allotment", exact=True).click()
    expect(tab.locator(".xp-pairings tbody tr").first).to_be_visible()
    assert cut_off(page) == []
    expect(tab.locator(".xp-diary-title")).to_have_text(re.compile("The log of "))
    assert fits(page)
    assert page.locator("img[src=x]").count() == 0


def test_collection__every_column_stays_in_sight(quiet_page: Page, address: str) -> None:
    open_tab(quiet_page, address, "Collection")
    expect(quiet_page.locator('.xp-animals tr[data-id="F03"]')).to_be_visible()
    assert cut_off(quiet_page) == []
