"""What the tests that drive a browser say alike: opening the workbench on a tab, and whether it fits its window."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page

__all__ = ["Axe", "Picture", "Start", "fits", "open_tab"]

Start = Callable[[Path], AbstractContextManager[str]]
Axe = Callable[..., list[dict[str, Any]]]
Picture = Callable[[Page | Locator, str], None]


def open_tab(page: Page, address: str, name: str) -> Locator:
    """The workbench with one of its tabs in front. It is loaded only if the page does not show it already."""
    there = page.url.partition("?")[0] == address.partition("?")[0]
    if not there or page.locator(".xp-workbench").count() == 0:
        page.goto(address)
    page.get_by_role("tab", name=name, exact=True).click()
    return page.locator(".xp-workbench")


def fits(page: Page) -> bool:
    """Whether the notebook is no wider than the window."""
    script = "document.querySelector('.jp-WindowedPanel-outer, .jp-Notebook').scrollWidth <= innerWidth"
    return bool(page.evaluate(script))
