"""Room and money in a real browser: state figures, read what a path takes, ask about an animal on offer."""

from pathlib import Path

import pytest
from on_screen import Axe, fits, open_tab
from playwright.sync_api import Locator, Page, expect

SEARCH_MS = 90_000


@pytest.fixture
def fold(page: Page, workbench: str) -> Locator:
    fold = open_tab(page, workbench, "Path").locator(".xp-path-tab .xp-money")
    title = fold.get_by_role("button", name="Room and money, optional")
    if "▸" in (title.text_content() or ""):
        title.click()
    expect(fold.get_by_label("places")).to_be_visible()
    return fold


def test_money__figures_are_kept_and_reckoned_with(fold: Locator, collection_file: Path, axe: Axe) -> None:
    for name, text in (("cost of an animal a season", "120"), ("places", "23"), ("currency", "kr")):
        fold.get_by_label(name, exact=True).fill(text)
    fold.locator(".xp-money-keep").click()
    page = fold.page
    page.locator(".xp-path-tab .xp-find").click()
    expect(fold.locator(".xp-money-said").first).to_contain_text(" kr on average", timeout=SEARCH_MS)
    expect(fold.locator(".xp-money-said").first).to_contain_text("23 places may be too few from season 2")
    expect(fold.locator(".xp-money-table tbody tr")).to_have_count(8)
    assert "places,23" in collection_file.with_suffix(".money.csv").read_text(encoding="utf-8")
    assert axe(page) == []
    assert fits(page)
    inside = fold.locator(".xp-money-table").evaluate("t => t.getBoundingClientRect().right")
    assert inside < 1280


def test_money__an_animal_on_offer(fold: Locator) -> None:
    box = fold.locator(".xp-offer-box")
    box.get_by_label("genes").fill("Leopard Pinstripe het Desert Gost")
    box.get_by_label("price").fill("350")
    box.locator(".xp-offer-ask").click()
    box.get_by_role("button", name="use Desert Ghost", exact=True).click()
    expect(box.get_by_label("genes")).to_have_value("Leopard Pinstripe het Desert Ghost")
    box.locator(".xp-offer-ask").click()
    expect(box.locator(".xp-money-said")).to_contain_text("It would help, for 350", timeout=SEARCH_MS)
    expect(box.locator(".xp-offer-notes")).to_contain_text("as far as the search found")


def test_money__a_young_animal_needs_a_weight_or_a_hatch_date(fold: Locator) -> None:
    box = fold.locator(".xp-offer-box")
    box.get_by_label("genes").fill("Spider")
    box.get_by_label("ready?").select_option("by weight and hatch date")
    box.locator(".xp-offer-ask").click()
    expect(box.locator(".xp-form-message")).to_contain_text("Found neither weight nor hatch date")
    box.get_by_label("weight in g").fill("900")
    box.locator(".xp-offer-ask").click()
    expect(box.locator(".xp-money-said")).to_contain_text("No gain: a caution keeps it out", timeout=SEARCH_MS)
    expect(box.locator(".xp-caution")).to_contain_text("Spider: wobble")
