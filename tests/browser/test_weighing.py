"""The weigh-in and the keeper's own figures in a real browser, on a collection file of its own."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from on_screen import Axe, Start, open_tab
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.browser


@pytest.fixture
def file(demo_collection: Path, tmp_path: Path) -> Path:
    copy = tmp_path / "mine.csv"
    copy.write_bytes(demo_collection.read_bytes())
    return copy


@pytest.fixture
def address(chromium: str, file: Path, start_workbench: Start) -> Iterator[str]:
    with start_workbench(file) as address:
        yield address


def test_weigh_in__with_the_keyboard_then_a_higher_least_weight(page: Page, address: str, file: Path, axe: Axe) -> None:
    shown = open_tab(page, address, "Collection").locator(".xp-collection")
    shown.get_by_role("button", name="weigh-in").click()
    first, second = (shown.locator(".xp-scales label").nth(n) for n in (0, 1))
    first.locator("input").click()
    page.keyboard.type("1499.9")
    page.keyboard.press("Enter")
    expect(second.locator("input")).to_be_focused()
    page.keyboard.type("1,600")
    page.keyboard.press("Enter")
    expect(first.locator("output")).to_contain_text("not yet: 1,500 g needed")
    expect(second.locator("output")).to_contain_text("grams are needed")
    assert axe(page) == []
    shown.get_by_role("button", name="write down 1").click()
    expect(shown.locator(".xp-weigh-said")).to_contain_text("1 weight is written down")
    expect(second.locator("input")).to_have_value("1,600")
    weights = file.with_suffix(".weights.csv").read_text()
    assert "1499.9" in weights and "2450" in weights
    key = shown.locator(".xp-animals tbody tr").first.get_attribute("data-id")
    expect(shown.locator(f'.xp-animals tr[data-id="{key}"]')).to_contain_text("1,499.9 g")
    shown.locator(".xp-weighing").get_by_role("button", name="close").click()

    shown.get_by_role("button", name="your figures").click()
    shown.locator(".xp-figure-female_min_g input").fill("1400")
    shown.get_by_role("button", name="use these figures").click()
    expect(shown.locator(".xp-figures-said")).to_contain_text("saved")
    expect(shown.locator(f'.xp-animals tr[data-id="{key}"]')).to_contain_text("ready")
    assert file.with_suffix(".figures.csv").read_text().splitlines()[1] == "female_min_g,1400"
    assert axe(page) == []
