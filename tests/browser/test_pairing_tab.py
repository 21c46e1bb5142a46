"""The Pairing tab in a real browser: choose two animals, read the odds, hatch a pretend clutch."""

import pytest
from on_screen import Axe, Picture, fits, open_tab, pick
from playwright.sync_api import Locator, Page, expect


@pytest.fixture
def tab(page: Page, workbench: str) -> Locator:
    return opened(page, workbench)


def opened(page: Page, workbench: str) -> Locator:
    shown = open_tab(page, workbench, "Pairing").locator(".xp-pairing-tab")
    expect(shown.locator(".xp-headline")).to_be_visible()
    return shown


def choose(tab: Locator, role: str, animal: str) -> None:
    pick(tab.locator(f".xp-animal.xp-{role} select"), animal)


def bars(tab: Locator) -> Locator:
    return tab.locator(".xp-odds .barlayer .point path")


def ticks(tab: Locator) -> Locator:
    return tab.locator(".xp-odds .yaxislayer-above .ytick text")


def test_pairing__choosing_animals_changes_the_odds(tab: Locator) -> None:
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M03 Plover")
    expect(tab.locator(".xp-headline")).to_contain_text("1 in 4 shows Leopard Desert Ghost")
    expect(bars(tab)).to_have_count(4)
    choose(tab, "sire", "M02 Alder")
    expect(tab.locator(".xp-headline")).to_have_text(
        "Pinstripe is missing. Nearest to the target: 1 in 8 shows Leopard Desert Ghost. "
        "A clutch of six has it with a chance of 55 %."
    )
    expect(tab.locator(".xp-facts")).to_contain_text("1 in 8 (12.5 %)")


def test_pairing__an_animal_that_is_not_ready_can_be_chosen_and_says_why(tab: Locator) -> None:
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M04 Teasel")
    expect(tab.locator(".xp-headline")).to_contain_text("1 in 16 shows Leopard Pinstripe Desert Ghost.")
    expect(tab.locator(".xp-unready")).to_contain_text("M04 Teasel, not yet: too young")


def test_pairing__search_finds_by_name_or_gene(tab: Locator) -> None:
    choose(tab, "dam", "F01 Bracken")
    search = tab.locator(".xp-search.xp-dam input")
    search.fill("juniper")
    expect(tab.locator(".xp-animal.xp-dam select option:checked")).to_contain_text("F03 Juniper")
    search.fill("clown")
    expect(tab.locator(".xp-animal.xp-dam select option", has_text="Bracken")).to_have_count(0)
    search.fill("")
    expect(tab.locator(".xp-animal.xp-dam select option", has_text="Bracken")).to_have_count(1)


def test_pairing__eggs_and_hatch_rate_are_counted_in(tab: Locator) -> None:
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M02 Alder")
    eggs, rate = tab.get_by_label("eggs in a clutch"), tab.get_by_label("hatch rate")
    eggs.fill("8")
    rate.fill("50")
    expect(tab.locator(".xp-headline")).to_contain_text("A clutch of eight has it with a chance of 40 %.")
    expect(tab.locator(".xp-facts")).to_contain_text("50 % of viable eggs")
    eggs.fill("6")
    rate.fill("100")
    expect(tab.locator(".xp-headline")).to_contain_text("A clutch of six has it with a chance of 55 %.")


def test_pairing__looks_and_genotypes(tab: Locator) -> None:
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M02 Alder")
    expect(ticks(tab).filter(has_text="het Desert Ghost")).to_have_count(0)
    tab.get_by_role("button", name="genotypes").click()
    expect(ticks(tab).filter(has_text="Leopard het Desert Ghost")).to_have_count(1)
    tab.get_by_role("button", name="looks").click()
    expect(ticks(tab).filter(has_text="het Desert Ghost")).to_have_count(0)


def test_pairing__the_same_seed_hatches_the_same_clutch(tab: Locator) -> None:
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M02 Alder")
    seed, eggs = tab.locator(".xp-seed input"), tab.locator(".xp-clutch li")
    seed.fill("7")
    seed.press("Enter")
    tab.locator(".xp-hatch-clutch").click()
    expect(eggs).to_have_count(6)
    first = eggs.all_inner_texts()
    tab.locator(".xp-next-seed").click()
    expect(seed).to_have_value("8")
    expect(tab.locator(".xp-clutch ul")).not_to_have_text("".join(first))
    seed.fill("7")
    seed.press("Enter")
    expect(eggs).to_have_text(first)


def test_pairing__another_look_is_asked_for_and_a_slip_is_mended(tab: Locator) -> None:
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M02 Alder")
    question = tab.locator(".xp-question input")
    question.fill("Leopart")
    tab.locator(".xp-ask").click()
    expect(tab.locator(".xp-form-message")).to_contain_text('Found "Leopart"')
    tab.get_by_role("button", name="use Leopard", exact=True).click()
    expect(tab.locator(".xp-answer")).to_contain_text("1 in 2 shows Leopard.")


def test_pairing__cautions_are_shown_with_their_evidence(tab: Locator) -> None:
    choose(tab, "dam", "F14 Thistle")
    expect(tab.locator(".xp-side")).to_contain_text("[published study] (F14 Thistle and 1 in 2 eggs)")


def test_pairing__no_accessibility_findings(tab: Locator, axe: Axe, picture: Picture) -> None:
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M04 Teasel")
    tab.locator(".xp-hatch-clutch").click()
    expect(tab.locator(".xp-clutch li")).to_have_count(6)
    assert axe(tab.page) == []
    picture(tab.page, "pairing")


@pytest.mark.parametrize("size", ["page", "wide_page"])
def test_pairing__fits_the_window(size: str, workbench: str, request: pytest.FixtureRequest) -> None:
    shown = opened(request.getfixturevalue(size), workbench)
    expect(bars(shown).first).to_be_visible()
    assert shown.evaluate("e => e.scrollWidth <= e.clientWidth + 1")
    assert fits(shown.page)
    right = shown.page.locator(".xp-odds .barlayer .bartext").evaluate_all(
        "all => Math.max(...all.map(e => e.getBoundingClientRect().right))"
    )
    box = shown.locator(".xp-odds").bounding_box()
    assert box is not None
    assert right <= box["x"] + box["width"]


def test_pairing__sketches_and_what_helps_or_spoils(tab: Locator) -> None:
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M03 Plover")
    sketches = tab.locator(".xp-hatchlings .xp-sketch")
    expect(sketches).to_have_count(2)
    expect(sketches.last).to_contain_text("Nearest to the target and best for your taste: Leopard Desert Ghost")
    expect(sketches.last.locator("svg text")).to_have_text("schematic: animals vary")
    drawn = sketches.last.locator("svg").bounding_box()
    assert drawn is not None and drawn["width"] > 200
    expect(tab.locator(".xp-side")).to_contain_text("Leopard and Desert Ghost both thin the dark pattern")
    expect(tab.locator(".xp-side")).to_contain_text("trade opinion")


def test_pairing__ranking_by_taste_leads_to_a_pairing(tab: Locator) -> None:
    tab.get_by_role("button", name="rank this season's pairings by your taste").click()
    rows = tab.locator(".xp-ranks tbody tr")
    expect(rows.first).to_be_visible()
    expect(tab.locator(".xp-ranking")).to_contain_text("promises most")
    dam = rows.nth(4).locator("th, td").first.inner_text()
    rows.nth(4).click()
    expect(tab.locator(".xp-animal.xp-dam select option:checked")).to_contain_text(dam)
