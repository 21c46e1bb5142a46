"""The tab "Read an animal" in a real browser: say where it is from, tick what is seen, read what it may carry."""

import pytest
from on_screen import Axe, Picture, fits, open_tab, pick
from playwright.sync_api import Locator, Page, expect


@pytest.fixture
def tab(page: Page, workbench: str) -> Locator:
    return opened(page, workbench)


def opened(page: Page, workbench: str) -> Locator:
    """The tab on the clutch of F03 Juniper and M03 Plover, with nothing noted."""
    shown = open_tab(page, workbench, "Read an animal").locator(".xp-reading-tab")
    expect(shown.locator(".xp-headline")).to_be_visible()
    shown.get_by_role("button", name="a known clutch").click()
    choose(shown, "dam", "F03 Juniper")
    choose(shown, "sire", "M03 Plover")
    shown.locator(".xp-reset").click()
    expect(headline(shown)).to_contain_text("Before any look: Desert Ghost for certain, Leopard perhaps (50 %).")
    return shown


def choose(tab: Locator, role: str, animal: str) -> None:
    pick(tab.locator(f".xp-animal.xp-{role} select"), animal)


def headline(tab: Locator) -> Locator:
    return tab.locator(".xp-headline")


def cue(tab: Locator, text: str, answer: str) -> Locator:
    """The button that gives a cue this answer."""
    return tab.get_by_role("group", name=text, exact=True).get_by_role("button", name=answer, exact=True)


def labels(tab: Locator) -> Locator:
    return tab.locator(".xp-gene-bars .yaxislayer-above .ytick text")


def test_reading__ticking_cues_changes_the_answer_and_reset_takes_it_back(tab: Locator) -> None:
    before = headline(tab).inner_text()
    expect(labels(tab)).to_have_text(["Desert Ghost", "Leopard"])
    lighter, darker = "the crown mark is lighter than usual", "the crown mark is darker than usual"
    cue(tab, darker, "seen").click()
    cue(tab, lighter, "seen").click()
    expect(cue(tab, lighter, "seen")).to_have_attribute("aria-pressed", "true")
    expect(cue(tab, darker, "seen")).to_have_attribute("aria-pressed", "false")
    expect(tab.get_by_role("group", name=darker)).to_contain_text("ruled out")
    cue(tab, "brighter than usual", "clearly not").click()
    expect(tab.locator(".xp-noted")).to_have_text("two noted")
    expect(headline(tab)).not_to_contain_text("Before any look")
    answer = headline(tab).inner_text()
    cue(tab, "brighter than usual", "clearly not").click()
    expect(tab.locator(".xp-noted")).to_have_text("one noted")
    expect(headline(tab)).not_to_have_text(answer)
    tab.locator(".xp-reset").click()
    expect(headline(tab)).to_have_text(before)
    expect(tab.locator(".xp-cues button[aria-pressed=true]")).to_have_count(0)


def test_reading__the_best_next_look_is_answered_where_it_is_asked(tab: Locator) -> None:
    question, change = tab.locator(".xp-next"), tab.locator(".xp-telling")
    cue(tab, "there is less dark pattern than usual", "seen").click()
    expect(tab.locator(".xp-noted")).to_have_text("one noted")
    expect(change).to_contain_text("if seen")
    first, said = question.inner_text(), change.inner_text()
    tab.locator(".xp-next-skip").click()
    expect(question).not_to_have_text(first)
    second = question.inner_text()
    tab.locator(".xp-next-seen").click()
    expect(tab.locator(".xp-noted")).to_have_text("two noted")
    expect(question).not_to_have_text(second)
    tab.locator(".xp-next-not").click()
    expect(tab.locator(".xp-noted")).to_have_text("three noted")
    expect(tab.locator(".xp-cues button[aria-pressed=true]")).to_have_count(3)
    assert "if seen" in said and "bits" in said


def test_reading__what_the_next_look_promises_is_what_the_answer_then_says(tab: Locator) -> None:
    choose(tab, "dam", "F01 Bracken")
    choose(tab, "sire", "M02 Alder")
    change = tab.locator(".xp-telling p").first
    expect(change).to_contain_text("Leopard, now 50 %")
    expect(change).to_contain_text("if seen")
    promised = change.inner_text().split("50 %: ")[1].split(" if seen")[0]
    tab.locator(".xp-next-seen").click()
    expect(headline(tab)).to_contain_text(f"({promised})")
    expect(tab.locator(".xp-likeliest tr").first).to_contain_text("Leopard")
    expect(tab.locator(".xp-look")).to_contain_text("Likeliest look: Leopard")
    expect(tab.locator(".xp-look svg[role=img]")).to_have_count(1)


def test_reading__the_sketch_shares_no_part_with_one_in_a_hidden_tab(tab: Locator) -> None:
    choose(tab, "sire", "unknown")
    choose(tab, "dam", "F14 Thistle")
    for look in ("Normal", "Spider"):
        answer = "clearly not" if look == "Normal" else "seen"
        cue(tab, "the dark pattern is a fine web", answer).click()
        expect(tab.locator(".xp-look")).to_contain_text(f"Likeliest look: {look}")
        tab.page.wait_for_function(
            """() => {
              const parts = [...document.querySelectorAll(".xp-look svg [id]")];
              return parts.length > 3 && parts.every((part) => document.getElementById(part.id) === part);
            }"""
        )


def test_reading__cautions_show_the_strength_of_their_evidence(tab: Locator) -> None:
    choose(tab, "dam", "F14 Thistle")
    expect(tab.locator(".xp-cautions")).to_contain_text("[published study] (chance here: 50 %)")


def test_reading__unknown_origin_asks_for_genes(tab: Locator) -> None:
    tab.get_by_role("button", name="unknown origin").click()
    for taken in reversed(tab.locator(".xp-candidate").all()):
        taken.click()
    expect(headline(tab)).to_have_text("Which genes come into question? Add one or more.")
    genes = tab.get_by_label("genes that come into question")
    expect(genes.locator("option").nth(1)).to_contain_text("(in the collection)")
    for gene in ("Pastel", "Enchi"):
        genes.select_option(label=f"{gene} (in the collection)")
        expect(tab.get_by_role("button", name=f"{gene} ✕")).to_be_visible()
    expect(labels(tab)).to_have_text(["Pastel", "Enchi"])
    expect(headline(tab)).to_contain_text("most of all Pastel (44 %)")
    share = tab.get_by_label("share of such animals' chromosomes, each")
    share.fill("50")
    expect(headline(tab)).to_contain_text("Pastel likely (75 %)")
    share.fill("25")
    expect(headline(tab)).to_contain_text("most of all Pastel (44 %)")
    tab.get_by_role("button", name="Pastel ✕").click()
    expect(labels(tab)).to_have_text(["Enchi"])


def test_reading__one_parent_may_be_unknown(tab: Locator) -> None:
    choose(tab, "sire", "unknown")
    expect(tab.get_by_label("genes that come into question")).to_be_visible()
    expect(headline(tab)).to_contain_text("Leopard perhaps (50 %)")


def test_reading__every_cue_on_demand(tab: Locator) -> None:
    shown = tab.locator(".xp-cue")
    few = shown.count()
    tab.get_by_role("checkbox").check()
    expect(tab.get_by_role("group", name="the dark pattern is a fine web")).to_contain_text("tells nothing")
    assert shown.count() > few
    tab.get_by_role("checkbox").uncheck()
    expect(shown).to_have_count(few)


def test_reading__by_keyboard_alone(tab: Locator) -> None:
    button = cue(tab, "brighter than usual", "seen")
    button.focus()
    tab.page.keyboard.press("Tab")
    tab.page.keyboard.press("Enter")
    expect(cue(tab, "brighter than usual", "clearly not")).to_have_attribute("aria-pressed", "true")
    expect(tab.locator(".xp-noted")).to_have_text("one noted")
    expect(cue(tab, "brighter than usual", "clearly not")).to_be_focused()


def test_reading__the_answer_stays_in_sight(tab: Locator) -> None:
    tab.locator(".xp-cue").last.scroll_into_view_if_needed()
    tab.page.mouse.move(500, 500)
    tab.page.mouse.wheel(0, 3_000)
    expect(tab.locator(".xp-origin")).not_to_be_in_viewport()
    expect(headline(tab)).to_be_in_viewport(ratio=1)


def test_reading__no_accessibility_findings(tab: Locator, axe: Axe, picture: Picture) -> None:
    choose(tab, "sire", "M04 Teasel")
    cue(tab, "brighter than usual", "seen").click()
    expect(tab.locator(".xp-noted")).to_have_text("one noted")
    assert axe(tab.page) == []
    picture(tab.page, "read_an_animal")
    choose(tab, "sire", "unknown")
    expect(tab.get_by_label("genes that come into question")).to_be_visible()
    assert axe(tab.page) == []


@pytest.mark.parametrize("size", ["page", "wide_page"])
def test_reading__fits_the_window(size: str, workbench: str, request: pytest.FixtureRequest) -> None:
    shown = opened(request.getfixturevalue(size), workbench)
    assert shown.evaluate("e => e.scrollWidth <= e.clientWidth + 1")
    assert fits(shown.page)
    beyond = shown.evaluate(
        """e => [...e.querySelectorAll(".xp-cue, .xp-cue button, .xp-box, svg, table")]
            .filter((part) => part.getBoundingClientRect().right > e.getBoundingClientRect().right + 1).length"""
    )
    assert beyond == 0
    assert shown.locator(".xp-cue").evaluate_all("all => all.every((e) => e.scrollWidth <= e.clientWidth + 1)")
