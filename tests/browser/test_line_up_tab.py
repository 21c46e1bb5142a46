"""The Line-up tab in a real browser: one animal beside many, the grid of all pairings, and a few side by side."""

import re
from pathlib import Path

import pytest
from on_screen import Axe, Picture, Start, fits, open_tab, pick
from playwright.sync_api import Locator, Page, expect


@pytest.fixture
def tab(page: Page, workbench: str) -> Locator:
    return opened(page, workbench)


def opened(page: Page, workbench: str) -> Locator:
    shown = open_tab(page, workbench, "Line-up").locator(".xp-line-up-tab")
    expect(shown.locator(".xp-headline")).to_be_visible()
    expect(cell(shown, "M02 Alder", "F03 Juniper")).to_be_visible()
    reset(shown)
    return shown


def reset(tab: Locator) -> None:
    """What another test left behind in the workbench that all share."""
    tab.get_by_role("button", name="everybody").click()
    tab.get_by_role("button", name="the target").click()
    choose(tab, "M02 Alder")
    if tab.locator(".xp-clear").is_visible():
        tab.locator(".xp-clear").click()
    expect(tab.locator(".xp-ticking")).to_contain_text("Tick two or three females")


def choose(tab: Locator, animal: str) -> None:
    pick(tab.locator(".xp-alone select"), animal)
    expect(tab.locator('.xp-pairs th button[aria-pressed="true"]')).to_contain_text(animal)


def mates(tab: Locator) -> Locator:
    return tab.locator(".xp-mates tbody tr")


def tick(tab: Locator, animal: str) -> Locator:
    return tab.get_by_label(f"tick {animal}")


def cell(tab: Locator, male: str, female: str) -> Locator:
    return tab.locator(f'.xp-pairs td button[title^="{male} with {female}:"]')


def test_line_up__a_male_beside_all_females(tab: Locator) -> None:
    expect(tab.locator(".xp-headline")).to_have_text(
        "M02 Alder cannot give the target this season. Nearest with F03 Juniper: 1 in 8 shows Leopard Desert Ghost, "
        "though they are half siblings (same sire); not related on record: F01 Bracken, 1 in 2 shows Leopard."
    )
    expect(mates(tab)).to_have_count(14)
    expect(mates(tab).first).to_contain_text("half siblings (same sire): 12.5 %")
    expect(tab.locator('.xp-mates tr[data-id="F09"]')).to_contain_text("not yet: 1,500 g needed; about season 2027/28")
    expect(tab.locator('.xp-mates tr[data-id="F14"]')).to_contain_text("[published study]; kept out of plans")
    expect(tab.locator('.xp-mates tr[data-mark="not-ready"]')).to_have_count(6)


def test_line_up__a_female_beside_all_males(tab: Locator) -> None:
    choose(tab, "F03 Juniper")
    expect(tab.locator(".xp-headline")).to_contain_text(
        "M04 Teasel would give the target (1 in 16 an egg), but is not ready before 2027/28."
    )
    expect(mates(tab)).to_have_count(8)
    expect(tab.locator(".xp-ticking")).to_contain_text("Tick two or three males")


def test_line_up__search_and_who_is_shown(tab: Locator) -> None:
    tab.locator(".xp-alone-search input").fill("dunlin")
    expect(tab.locator(".xp-alone select option:checked")).to_contain_text("M05 Dunlin")
    tab.locator(".xp-alone-search input").fill("")
    tab.get_by_role("button", name="ready only").click()
    expect(mates(tab)).to_have_count(8)
    expect(tab.locator(".xp-pairs thead button")).to_have_count(8)
    tab.get_by_role("button", name="ticked only").click()
    expect(tab.locator(".xp-headline")).to_contain_text("Nobody is ticked.")
    tab.get_by_role("button", name="everybody").click()
    expect(mates(tab)).to_have_count(14)


def test_line_up__the_table_is_sorted_by_size(tab: Locator) -> None:
    tab.get_by_role("button", name="a look").click()
    tab.locator(".xp-look input").fill("Pinstripe")
    tab.locator(".xp-look input").press("Enter")
    expect(tab.locator(".xp-headline")).to_contain_text("F04 Sedge gives M02 Alder the best chance of Pinstripe")
    header = tab.get_by_role("button", name="expected")
    header.click()
    header.click()
    expect(mates(tab).first).to_contain_text("F04 Sedge")
    expect(mates(tab).locator('[data-key="expected"]').first).to_have_text("3")
    shade = mates(tab).first.locator('[data-key="expected"]').evaluate("e => getComputedStyle(e).backgroundColor")
    assert shade == "rgb(11, 83, 87)"
    expect(cell(tab, "M02 Alder", "F04 Sedge")).to_contain_text("98.4 %")


def test_line_up__a_slip_in_a_look_is_mended(tab: Locator) -> None:
    tab.get_by_role("button", name="a look").click()
    tab.locator(".xp-look input").fill("Leopart")
    tab.locator(".xp-look input").press("Enter")
    expect(tab.locator(".xp-form-message")).to_contain_text('Found "Leopart"')
    tab.get_by_role("button", name="use Leopard", exact=True).click()
    expect(tab.locator(".xp-headline")).to_contain_text("the best chance of Leopard")


def test_line_up__a_cell_of_the_grid_picks_the_pairing(tab: Locator) -> None:
    cell(tab, "M03 Plover", "F01 Bracken").click()
    expect(tab.locator(".xp-alone select option:checked")).to_contain_text("M03 Plover")
    expect(tick(tab, "F01 Bracken")).to_be_checked()
    expect(cell(tab, "M03 Plover", "F01 Bracken")).to_have_attribute("aria-pressed", "true")
    tab.locator(".xp-pairs thead button", has_text="F04").click()
    expect(tab.locator(".xp-alone select option:checked")).to_contain_text("F04 Sedge")
    expect(mates(tab)).to_have_count(8)


def test_line_up__the_grid_is_walked_by_keyboard(tab: Locator) -> None:
    cell(tab, "M02 Alder", "F03 Juniper").focus()
    tab.page.keyboard.press("ArrowRight")
    tab.page.keyboard.press("ArrowRight")
    tab.page.keyboard.press("ArrowLeft")
    tab.page.keyboard.press("Enter")
    expect(cell(tab, "M02 Alder", "F01 Bracken")).to_have_attribute("aria-pressed", "true")
    tab.page.keyboard.press("ArrowUp")
    tab.page.keyboard.press("ArrowUp")
    expect(tab.locator(".xp-pairs thead button", has_text="F01")).to_be_focused()
    tab.page.keyboard.press("Space")
    expect(tab.locator(".xp-alone select option:checked")).to_contain_text("F01 Bracken")


def test_line_up__marks_are_said_in_words(tab: Locator) -> None:
    related = cell(tab, "M02 Alder", "F03 Juniper")
    expect(related).to_contain_text("kin 12.5 %")
    expect(related).to_have_attribute("aria-label", related.get_attribute("title") or "")
    expect(cell(tab, "M03 Plover", "F14 Thistle")).to_have_attribute("title", re.compile("published study"))
    expect(cell(tab, "M03 Plover", "F09 Sorrel")).to_have_attribute("title", re.compile("not yet: 1,500 g needed"))
    expect(tab.locator(".xp-grid-legend")).to_contain_text("cannot be made this season")
    expect(tab.locator(".xp-grid-summary")).to_contain_text("M03 Plover with F03 Juniper: 0.21")


def test_line_up__two_or_three_ticked_stand_side_by_side(tab: Locator) -> None:
    beside = tab.locator(".xp-beside")
    expect(beside).to_have_count(0)
    tick(tab, "F03 Juniper").click()
    expect(tab.locator(".xp-ticking")).to_contain_text("Tick another female")
    mates(tab).locator("button", has_text="F04 Sedge").press("Enter")
    heads = ["with F03 JuniperLeopard het Desert Ghost", "with F04 SedgePinstripe"]
    expect(beside.locator("thead th")).to_have_text(heads)
    rows = beside.locator(".xp-beside-looks tr")
    expect(rows.filter(has_text="Leopard Desert Ghost").locator("td")).to_have_text(["12.5 %", "0 %"])
    widths = beside.locator(".xp-beside-bar i").evaluate_all("all => all.map(e => e.getBoundingClientRect().width)")
    assert max(widths) == pytest.approx(4 * min(widths), rel=0.03), "50 % and 12.5 % on one scale"
    expect(beside).to_contain_text("Half siblings (same sire): 12.5 %")
    tick(tab, "F14 Thistle").click()
    expect(beside.locator("thead th")).to_have_count(3)
    expect(beside).to_contain_text("Cannot be paired this season: kept out by a caution.")
    expect(beside).to_contain_text("[published study]; kept out of plans")
    tick(tab, "F04 Sedge").click()
    expect(beside.locator("thead th")).to_have_count(2)
    tab.locator(".xp-clear").click()
    expect(beside).to_have_count(0)


def test_line_up__no_accessibility_findings(tab: Locator, axe: Axe, picture: Picture) -> None:
    tick(tab, "F03 Juniper").click()
    tick(tab, "F14 Thistle").click()
    expect(tab.locator(".xp-beside thead th")).to_have_count(2)
    assert axe(tab.page) == []
    tab.page.evaluate("document.querySelector('.xp-workbench').scrollIntoView()")
    picture(tab.page, "line_up")


@pytest.mark.parametrize("size", ["page", "wide_page"])
def test_line_up__fits_the_window(size: str, workbench: str, request: pytest.FixtureRequest) -> None:
    shown = opened(request.getfixturevalue(size), workbench)
    for animal in ("F03 Juniper", "F14 Thistle", "F12 Fescue"):
        tick(shown, animal).click()
    expect(shown.locator(".xp-beside thead th")).to_have_count(3)
    assert fits(shown.page)
    for part in ("", ".xp-table-scroll", ".xp-grid-frame", ".xp-beside"):
        box = shown.locator(part) if part else shown
        assert box.evaluate("e => e.scrollWidth <= e.clientWidth + 1"), f"{part or 'the tab'} is wider than its room"
    cut = shown.locator(".xp-pairs td button, .xp-mates thead button").evaluate_all(
        "all => all.filter(e => e.scrollWidth > e.clientWidth + 1).map(e => e.textContent)"
    )
    assert cut == []


def test_line_up__the_next_step_comes_from_the_path_tab(
    page: Page, demo_collection: Path, tmp_path: Path, start_workbench: Start
) -> None:
    file = tmp_path / "mine.csv"
    file.write_bytes(demo_collection.read_bytes())
    with start_workbench(file) as address:
        shown = opened(page, address)
        shown.get_by_role("button", name="the next step").click()
        expect(shown.locator(".xp-note").first).to_contain_text("No path to the target was looked for yet")
        shown.locator(".xp-line-up-find").click()
        expect(shown.locator(".xp-note").first).to_contain_text("Path 1, season 1 (2026/27)")
        expect(shown.locator(".xp-line-up-find")).to_be_hidden()
        choose(shown, "M03 Plover")
        expect(shown.locator(".xp-note").first).to_contain_text("with M03 Plover, keep a")
        page.get_by_role("tab", name="Path").click()
        expect(page.locator(".xp-paths tbody tr").first).to_be_visible()
