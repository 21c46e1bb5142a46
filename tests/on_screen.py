"""What the tests that drive a browser say alike: opening the workbench on a tab, working it, whether it fits."""

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Dialog, Locator, Page, expect

__all__ = ["ERROR", "Axe", "Picture", "Start", "fits", "no_dialog", "open_tab", "pick", "press"]

Start = Callable[[Path], AbstractContextManager[str]]
Axe = Callable[..., list[dict[str, Any]]]
Picture = Callable[[Page | Locator, str], None]

ERROR = '[data-mime-type="application/vnd.jupyter.error"], [data-mime-type="application/vnd.jupyter.stderr"]'
"""What a cell puts out when it fails."""


def open_tab(page: Page, address: str, name: str) -> Locator:
    """The workbench with one of its tabs in front. It is loaded only if the page does not show it already."""
    there = page.url.partition("?")[0] == address.partition("?")[0]
    if not there or page.locator(".xp-workbench").count() == 0:
        page.goto(address)
    page.get_by_role("tab", name=name, exact=True).click()
    return page.locator(".xp-workbench")


def pick(select: Locator, animal: str) -> None:
    """Chooses the first animal of a list whose line holds the text."""
    value = select.locator("option", has_text=animal).first.get_attribute("value")
    select.select_option(value=value)
    expect(select.locator("option:checked")).to_contain_text(animal)


def press(tab: Locator, name: str) -> None:
    """Clicks the button of exactly that name."""
    tab.get_by_role("button", name=name, exact=True).click()


def fits(page: Page) -> bool:
    """Whether neither the page nor the notebook in it is wider than the window."""
    script = """[document.documentElement, document.querySelector('.jp-WindowedPanel-outer, .jp-Notebook')]
        .every((e) => e.scrollWidth <= innerWidth)"""
    return bool(page.evaluate(script))


@contextmanager
def no_dialog(page: Page) -> Iterator[None]:
    """Fails if the page opened a dialog meanwhile; each is accepted."""
    said: list[str] = []

    def note(dialog: Dialog) -> None:
        said.append(dialog.message)
        dialog.accept()

    page.on("dialog", note)
    yield
    page.remove_listener("dialog", note)
    assert said == []
