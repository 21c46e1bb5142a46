"""The Gene notes tab in a real browser: look up a gene, set others beside it, walk the square, write an opinion."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from on_screen import Axe, Picture, fits, open_tab
from playwright.sync_api import Locator, Page, expect

from explorer import sketch


@pytest.fixture
def tab(page: Page, workbench: str) -> Locator:
    return opened(page, workbench)


def opened(page: Page, workbench: str) -> Locator:
    shown = open_tab(page, workbench, "Gene notes").locator(".xp-notes-tab")
    expect(shown.locator(".xp-forms svg").first).to_be_visible()
    choose(shown, "Leopard")
    return shown


def write(tab: Locator, field: str, text: str) -> None:
    box = tab.get_by_role("combobox", name=field, exact=True)
    box.fill(text)
    box.press("Enter")


def choose(tab: Locator, gene: str) -> None:
    write(tab, "gene", gene)
    expect(tab.get_by_role("combobox", name="gene", exact=True)).to_have_value(gene)
    expect(tab.locator(".xp-notes-slots")).to_be_hidden()


def add(tab: Locator, gene: str) -> None:
    write(tab, "+ another gene", gene)
    expect(tab.locator(".xp-slot-name:visible", has_text=gene)).to_have_count(1)


def cell(tab: Locator, one: str, two: str) -> Locator:
    names = tab.locator(".xp-matrix tbody th").all_inner_texts()
    return tab.locator(f".xp-matrix button[data-at='{names.index(one)},{names.index(two)}']")


def test_notes__one_gene_in_three_sketches_and_words(tab: Locator) -> None:
    choose(tab, "Pastel")
    expect(tab.locator(".xp-headline")).to_have_text(
        "Pastel adds yellow and blushing and brightens; two copies do so more strongly."
    )
    expect(tab.locator(".xp-forms .xp-form-title")).to_have_text(["wild type", "one copy", "two copies"])
    expect(tab.locator(".xp-forms svg")).to_have_count(3)
    expect(tab.locator(".xp-forms figcaption").nth(1)).to_contain_text("more yellow (strongly)")
    head = tab.locator(".xp-word-table tbody tr").first
    expect(head.locator("th, td")).to_have_text(
        ["head", "Pastel", "light crown, thinner eye stripe, white lips", "common practice, no source", "the catalogue"]
    )
    expect(tab.locator(".xp-names")).to_contain_text("Lemon Pastel")


def test_notes__the_list_is_walked_with_the_keyboard(tab: Locator) -> None:
    box = tab.get_by_role("combobox", name="gene", exact=True)
    box.click()
    expect(tab.get_by_role("listbox")).to_be_visible()
    expect(tab.get_by_role("group", name="in your collection").get_by_role("option")).to_have_count(13)
    box.press_sequentially("ghost")
    expect(tab.get_by_role("listbox").get_by_role("option")).to_have_text(["Desert GhostDG", "GhostHypo, Orange Ghost"])
    box.press("ArrowDown")
    box.press("ArrowDown")
    box.press("ArrowUp")
    expect(tab.get_by_role("listbox").get_by_role("option", selected=True)).to_have_text("Desert GhostDG")
    box.press("Enter")
    expect(tab.locator(".xp-headline")).to_contain_text("Desert Ghost with two copies")
    expect(tab.get_by_role("listbox")).to_be_hidden()
    box.press_sequentially("clown")
    box.press("Escape")
    expect(box).to_have_value("Desert Ghost")


def test_notes__another_gene_helps_and_a_full_complex_is_said(tab: Locator) -> None:
    add(tab, "Pinstripe")
    expect(tab.locator(".xp-headline")).to_have_text("Leopard and Pinstripe help each other; nothing spoils.")
    together = tab.locator(".xp-together")
    expect(together.locator("svg")).to_have_count(1)
    expect(together.locator(".xp-said li").first).to_have_text(
        "Leopard and Pinstripe both thin the dark pattern and brighten."
        " [trade opinion; effects: common practice, no source]"
    )
    tab.locator(".xp-notes-slot", has_text="Leopard").get_by_role("button", name="two copies").click()
    expect(together.locator(".xp-form-title")).to_have_text("Super Leopard Pinstripe")
    for gene in ("Mojave", "Lesser"):
        add(tab, gene)
    write(tab, "+ another gene", "White Diamond")
    expect(tab.locator(".xp-form-message")).to_contain_text(["more than two alleles of one complex"])
    tab.locator(".xp-notes-slot", has_text="Mojave").get_by_role("button", name="take out").click()
    expect(tab.locator(".xp-slot-name:visible")).to_have_text(["Leopard", "Pinstripe", "Lesser"])


def test_notes__a_cell_of_the_square_sets_the_pair(tab: Locator) -> None:
    cell(tab, "Desert Ghost", "Leopard").click()
    expect(tab.locator(".xp-headline")).to_have_text("Leopard and Desert Ghost help each other; nothing spoils.")
    expect(cell(tab, "Leopard", "Desert Ghost")).to_have_attribute("aria-pressed", "true")
    expect(tab.locator(".xp-pair-seen svg")).to_be_visible()
    cell(tab, "Pastel", "Banana").focus()
    tab.page.keyboard.press("ArrowDown")
    expect(cell(tab, "Leopard", "Banana")).to_be_focused()
    tab.page.keyboard.press("ArrowRight")
    expect(cell(tab, "Leopard", "Pinstripe")).to_be_focused()
    tab.page.keyboard.press("Enter")
    expect(tab.locator(".xp-headline")).to_contain_text("Leopard and Pinstripe help each other")


def test_notes__an_animal_is_taken_apart_and_its_hets_are_named(tab: Locator) -> None:
    animal = tab.locator(".xp-notes-animal select")
    animal.select_option(label="F08 Whimbrel · Mojave Lesser")
    expect(tab.locator(".xp-headline")).to_contain_text("Mojave and Lesser are of one complex and make one form: white")
    animal.select_option(label="F03 Juniper · Leopard het Desert Ghost")
    expect(tab.locator(".xp-note")).to_contain_text("left out, since it does not show: Desert Ghost")


def test_notes__a_sibling_is_drawn_and_the_seed_brings_it_back(tab: Locator) -> None:
    def network(number: int) -> str:
        found = re.search(r"<path[^>]*data-part=\"network\"[^>]* d=\"([^\"]+)", sketch("Leopard", seed=number))
        assert found is not None
        return found[1]

    seed, drawn = (
        tab.locator(".xp-notes-seed input"),
        tab.locator(".xp-form-seen").nth(1).locator("[data-part=network]"),
    )
    assert network(7) != network(8)
    for _ in range(2):
        seed.fill("7")
        seed.press("Enter")
        expect(drawn).to_have_attribute("d", network(7))
        tab.locator(".xp-notes-again").click()
        expect(seed).to_have_value("8")
        expect(drawn).to_have_attribute("d", network(8))


def test_notes__taste_changes_what_is_suggested_and_a_row_adds_its_gene(tab: Locator, collection_file: Path) -> None:
    file = collection_file.with_suffix(".taste.csv")
    rows = tab.locator(".xp-suggestions tbody tr")
    expect(rows.first).to_contain_text("Desert Ghost")
    gain = rows.first.locator("[data-key=gain]").inner_text()
    bright = tab.get_by_label("bright", exact=True)
    try:
        bright.fill("-2")
        expect(rows.first.locator("[data-key=gain]")).not_to_have_text(gain)
        expect(bright).to_have_attribute("aria-valuetext", "avoid")
        tab.locator(".xp-taste-keep").click()
        expect(tab.locator(".xp-taste-kept")).to_contain_text("is kept in demo_collection.taste.csv")
        assert "bright,-2" in file.read_text(encoding="utf-8")
    finally:
        bright.fill("1")
        expect(rows.first.locator("[data-key=gain]")).to_have_text(gain)
        file.unlink(missing_ok=True)
    rows.first.click()
    expect(tab.locator(".xp-headline")).to_have_text("Leopard and Desert Ghost help each other; nothing spoils.")


@pytest.fixture
def opinions(tab: Locator, collection_file: Path) -> Iterator[Locator]:
    tab.get_by_role("button", name="I see it otherwise").click()
    yield tab.locator(".xp-opinions")
    for file in collection_file.parent.glob("*.opinions*.csv"):
        file.unlink()


def test_notes__an_opinion_is_its_keepers(tab: Locator, opinions: Locator) -> None:
    opinions.get_by_label("what").select_option(label="orange to red")
    opinions.get_by_label("as I see it").select_option(label="+3: more orange or red")
    opinions.get_by_label("my name").fill("Rowan")
    opinions.get_by_label("note").fill("in my line")
    opinions.get_by_role("button", name="write it down").click()
    own = tab.locator(".xp-word-table tr.xp-own")
    expect(own.locator("td").last).to_have_text("Rowan")
    expect(own).to_contain_text("orange to red +3: more orange or red (the catalogue: 0); in my line")
    expect(tab.locator(".xp-forms figcaption").nth(1)).to_contain_text("more orange or red (strongly)")
    expect(tab.get_by_role("button", name="I see it otherwise (1 written)")).to_be_visible()
    opinions.get_by_role("button", name="take back").click()
    expect(own).to_have_count(0)
    expect(opinions.locator(".xp-opinion")).to_have_count(0)
    tab.get_by_role("button", name="I see it otherwise").click()


def test_notes__no_accessibility_findings(tab: Locator, axe: Axe, picture: Picture) -> None:
    picture(tab.page, "gene_notes")
    assert axe(tab.page) == []
    add(tab, "Champagne")
    tab.get_by_role("combobox", name="+ another gene").click()
    expect(tab.get_by_role("listbox")).to_be_visible()
    tab.get_by_role("button", name="I see it otherwise").evaluate("e => e.click()")
    assert axe(tab.page) == []
    tab.get_by_role("button", name="I see it otherwise").click()


@pytest.mark.parametrize("size", ["page", "wide_page"])
def test_notes__fits_the_window(size: str, workbench: str, request: pytest.FixtureRequest) -> None:
    shown = opened(request.getfixturevalue(size), workbench)
    for gene in ("Pinstripe", "Champagne", "Enchi", "Desert Ghost"):
        add(shown, gene)
    assert shown.evaluate("e => e.scrollWidth <= e.clientWidth + 1")
    assert fits(shown.page)
    for part in (".xp-matrix-frame", ".xp-suggestions .xp-table-scroll"):
        assert shown.locator(part).evaluate("e => e.scrollWidth <= e.clientWidth + 1")
