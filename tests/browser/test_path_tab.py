"""The Path tab in a real browser: set a target, find paths, walk one."""

from collections.abc import Iterator

import pytest
from on_screen import Axe, Picture, open_tab
from playwright.sync_api import Locator, Page, expect

SEARCH_MS = 90_000
TARGET = "Leopard Pinstripe Desert Ghost"


@pytest.fixture
def tab(page: Page, workbench: str) -> Iterator[Locator]:
    shown = open_tab(page, workbench, "Path").locator(".xp-path-tab")
    expect(shown.locator(".xp-headline")).to_be_visible()
    yield shown
    aim(shown, TARGET)


def aim(tab: Locator, must: str) -> None:
    tab.locator(".xp-aim-change").click()
    tab.locator(".xp-aim-must input").fill(must)
    tab.locator(".xp-aim-set").click()
    expect(tab.locator(".xp-aim-set")).to_be_hidden()


def find(tab: Locator) -> None:
    """Searches to the end; for searches that take long enough to be seen."""
    tab.locator(".xp-find").click()
    expect(tab.locator(".xp-job")).to_be_visible()
    expect(tab.locator(".xp-job")).to_be_hidden(timeout=SEARCH_MS)


def test_path__set_a_target_find_paths_and_walk(tab: Locator, axe: Axe, picture: Picture) -> None:
    aim(tab, "dg, Leopard")
    expect(tab.locator(".xp-aim")).to_contain_text("The target must show Leopard and Desert Ghost.")
    expect(tab.page.locator(".xp-top .xp-target")).to_contain_text("Leopard Desert Ghost")
    tab.locator(".xp-find").click()
    expect(tab.locator(".xp-headline")).to_contain_text("Soonest: season 1")
    aim(tab, TARGET)
    expect(tab.locator(".xp-remarks")).to_contain_text("Something has changed")
    find(tab)
    expect(tab.locator(".xp-headline")).to_contain_text("Soonest: season")
    expect(tab.locator(".xp-remarks")).not_to_contain_text("Something has changed")
    expect(tab.locator(".xp-paths tbody tr").first).to_contain_text("path 1")
    expect(tab.locator(".xp-curves .scatterlayer .js-line").first).to_be_visible()

    expect(tab.locator(".xp-place")).to_contain_text("season 1 of")
    expect(tab.locator(".xp-season-words")).to_contain_text("Season 1 (")
    tab.locator('.xp-node[data-id="target"]').click()
    expect(tab.locator(".xp-node-words")).to_contain_text(f"It must show {TARGET}.")
    expect(tab.locator(".xp-node-words .xp-sketch svg title")).to_have_text(f"Sketch of {TARGET}")
    drawn = tab.locator(".xp-node image")
    expect(drawn).to_have_count(tab.locator(".xp-node:not(.xp-pairing)").count())
    assert all(one.evaluate("i => i.getBoundingClientRect().width") > 50 for one in drawn.all())
    tab.locator('.xp-node[data-id="pairing 1"]').focus()
    tab.page.keyboard.press("Enter")
    expect(tab.locator(".xp-node-words")).to_contain_text("Pairing 1, from season")

    tab.locator(".xp-next").click()
    expect(tab.locator(".xp-place")).to_contain_text("season 2 of")
    expect(tab.locator(".xp-season-words")).to_contain_text("Season 2 (")
    tab.locator(".xp-back").click()
    expect(tab.locator(".xp-place")).to_contain_text("season 1 of")
    expect(tab.locator(".xp-back")).to_be_disabled()
    assert axe(tab.page) == []
    picture(tab.page, "path")


def test_path__choosing_another_path_in_the_table(tab: Locator) -> None:
    find(tab)
    tab.locator(".xp-paths tbody tr").nth(1).click()
    expect(tab.locator(".xp-remarks")).to_contain_text("This is path 2 of")
    expect(tab.locator(".xp-paths tbody tr").nth(1).locator("button")).to_have_attribute("aria-pressed", "true")


def test_path__the_search_can_be_stopped(tab: Locator) -> None:
    tab.locator(".xp-find").click()
    tab.get_by_role("button", name="Stop").click()
    expect(tab.locator(".xp-job")).to_contain_text("stopped", timeout=SEARCH_MS)


def test_path__a_gene_that_nobody_carries_is_named(tab: Locator) -> None:
    aim(tab, "Leopard Ultramel")
    tab.locator(".xp-find").click()
    expect(tab.locator(".xp-headline")).to_contain_text("No kept animal carries Ultramel, so no path leads to it")


def test_path__no_path_says_why(tab: Locator) -> None:
    aim(tab, "Super Spider Clown")
    tab.locator(".xp-find").click()
    expect(tab.locator(".xp-headline")).to_contain_text("No path reaches")
    expect(tab.locator(".xp-remarks")).to_contain_text("Every carrier of Spider is out (F14")


def test_path__a_caution_can_be_lifted_here_and_shows_in_the_frame(tab: Locator) -> None:
    tab.locator(".xp-cautions").click()
    box = tab.locator(".xp-allow").get_by_role("checkbox", name="allow Spider in plans")
    box.check()
    expect(tab.page.locator(".xp-top .xp-target")).to_contain_text("Spider")
    box = tab.locator(".xp-allow").get_by_role("checkbox", name="allow Spider in plans")
    expect(box).to_be_checked()
    box.uncheck()
    expect(tab.page.locator(".xp-top .xp-target")).not_to_contain_text("Spider")


def test_path__a_slip_in_the_target_is_mended_by_a_click(tab: Locator) -> None:
    tab.locator(".xp-aim-change").click()
    tab.locator(".xp-aim-must input").fill("Leopart Clown")
    tab.locator(".xp-aim-set").click()
    tab.get_by_role("button", name="use Leopard", exact=True).click()
    expect(tab.locator(".xp-aim-must input")).to_have_value("Leopard Clown")
    tab.locator(".xp-aim-cancel").click()
