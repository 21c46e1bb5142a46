"""The Clutch book tab in a real browser: a clutch from its eggs to the collection, and back. Works on its own files."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from on_screen import Axe, Picture, Start, fits, open_tab, pick, press
from playwright.sync_api import Locator, Page, expect

UNSURE = (
    ("Leopard het Desert Ghost,2022-07-14,1820,2026-11-08,M01", "Leopard 50% het Desert Ghost,2022-07-14,1820,,"),
    ("het Desert Ghost,2022-07-30,860,2026-11-08,M01", "66% het Desert Ghost,2022-07-30,860,,"),
)
"""The records of F03 and M02, whose sire the demo collection knows, and the same without him."""

STEP = re.compile(
    r"Could be the dam in season \d \(20\d\d/\d\d\), bred to .+; the target by season 8: "
    r"\d\d(\.\d)? % with it, \d\d(\.\d)? % without\."
)

ODD = b"\xef\xbb\xbfclutch;dam;sire;LOOK;sex;count;shelf\r\nK7;F12;M09;Pastel;f; 2 ;\"=1+1\"\r\n\r\nK7;;;Normal;;1;"
"""A book with a mark at its start, a blank line, a column of its own, and no end to its last line."""


@pytest.fixture(scope="module")
def file(demo_collection: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    text = demo_collection.read_text(encoding="utf-8")
    for sure, unsure in UNSURE:
        assert sure in text
        text = text.replace(sure, unsure)
    copy = tmp_path_factory.mktemp("collection") / "mine.csv"
    copy.write_text(text, encoding="utf-8")
    return copy


@pytest.fixture(scope="module")
def address(chromium: str, file: Path, start_workbench: Start) -> Iterator[str]:
    with start_workbench(file) as address:
        yield address


def opened(page: Page, address: str) -> Locator:
    """The Clutch book tab, drawn."""
    shown = open_tab(page, address, "Clutch book").locator(".xp-clutch-tab")
    expect(shown.locator(".xp-headline p")).to_be_visible()
    return shown


def choose(tab: Locator, role: str, animal: str, pickers: int = 1) -> None:
    select = tab.locator(f".xp-clutch-{role} select")
    expect(select).to_have_count(pickers)
    pick(select.last, animal)


def begin(tab: Locator, dam: str, sire: str) -> None:
    press(tab, "new clutch")
    choose(tab, "dam", dam)
    choose(tab, "sire", sire)


def changed(tab: Locator, animal: str) -> Locator:
    return tab.locator(".xp-changed tbody tr", has_text=animal)


def test_clutch__from_the_eggs_to_the_collection_and_back(
    page: Page, address: str, file: Path, axe: Axe, picture: Picture
) -> None:
    before = file.read_bytes()
    book = file.with_name("mine.clutches.csv")
    tab = opened(page, address)
    expect(tab.locator(".xp-headline")).to_contain_text("No clutch is written down yet.")
    begin(tab, "F03 Juniper", "M02 Alder")
    looks = tab.locator(".xp-tally tbody tr")
    expect(looks).to_have_count(4)
    expect(looks.first).to_contain_text("Normal")
    tab.get_by_label("eggs").fill("6")
    press(tab, "one more Leopard Desert Ghost, female")
    for _ in range(3):
        press(tab, "one more Leopard, male")
    press(tab, "one fewer Leopard, male")
    expect(tab.locator(".xp-headline")).to_have_text(
        "Three of six eggs are accounted for: three hatchlings. Three are not."
    )
    assert axe(page) == []
    assert fits(page)
    press(tab, "write it down")
    proved = "This clutch proves F03 and M02 carry Desert Ghost. Four animals changed."
    expect(tab.locator(".xp-headline")).to_have_text(proved)
    expect(changed(tab, "F03 Juniper").locator("td").last).to_have_text("het Desert Ghost")
    expect(changed(tab, "M02 Alder").locator("td").last).to_have_text("het Desert Ghost")
    assert "C01,F03,M02," in book.read_text(encoding="utf-8")
    assert file.read_bytes() == before, "the collection's file is as it was"
    first = tab.locator(".xp-held-line").first
    expect(first).to_contain_text("1. Leopard Desert Ghost, female")
    expect(tab.locator(".xp-held-line").last).to_contain_text("Leopard 66% het Desert Ghost, male × 2")
    assert axe(page) == []
    assert fits(page)
    picture(page, "clutch_book")

    step = first.locator(".xp-held-step")
    expect(step).to_have_text(STEP)
    assert axe(page) == []

    press(first, "add to the collection")
    expect(tab.locator(".xp-said")).to_contain_text("F16 is in the collection now.")
    expect(page.locator(".xp-file")).to_contain_text("unsaved changes")
    expect(tab.locator(".xp-headline")).to_have_text(proved)
    expect(tab.locator(".xp-kept")).to_contain_text("F16 (Leopard Desert Ghost, female)")
    expect(page.locator(".xp-file")).to_contain_text("25 animals")
    page.get_by_role("tab", name="Collection").click()
    row = page.locator('.xp-animals tr[data-id="F16"]')
    expect(row).to_contain_text("Leopard Desert Ghost")
    row.locator("td").first.click()
    expect(page.locator(".xp-details")).to_contain_text("F03 Juniper")
    expect(page.locator(".xp-details")).to_contain_text("in clutch C01")
    page.get_by_role("tab", name="Clutch book").click()

    press(tab, "save the collection")
    expect(tab.locator(".xp-said")).to_contain_text("mine.csv is saved")
    assert "F16" in file.read_text(encoding="utf-8")

    press(tab, "undo adding F16")
    expect(page.locator(".xp-file")).to_contain_text("24 animals")
    expect(page.locator(".xp-file")).to_contain_text("unsaved changes")
    press(tab, "save the collection")
    expect(page.locator(".xp-file")).not_to_contain_text("unsaved changes")
    assert file.read_bytes() == before
    press(tab, "undo writing C01")
    expect(tab.locator(".xp-headline")).to_contain_text("No clutch is written down yet.")
    assert not book.exists(), "there was none before"


def test_list__opens_in_a_tab_of_its_own(page: Page, address: str, file: Path, axe: Axe) -> None:
    tab = opened(page, address)
    begin(tab, "F03 Juniper", "M02 Alder")
    press(tab, "one more Leopard Desert Ghost, female")
    for _ in range(2):
        press(tab, "one more Leopard, male")
    press(tab, "write it down")
    link = tab.locator(".xp-file-link a")
    for _ in range(2):
        press(tab, "list for a buyer")
        expect(tab.locator(".xp-said")).to_contain_text("The list is written in mine.C01.list.html.")
        expect(link).to_have_text("Open the list to print it")
    assert list(file.parent.glob("*.bak.html")) == []
    assert axe(page) == []
    with page.context.expect_page() as other:
        link.press("Enter")
    shown = other.value
    expect(shown).to_have_title("Hatchlings of clutch C01")
    expect(shown.locator("tbody tr")).to_have_count(3)
    expect(shown.locator("tbody tr").first).to_contain_text("Leopard Desert Ghost")
    expect(shown.locator("body")).to_contain_text("CITES")
    expect(shown.locator("dd").first).to_have_text("F03 Juniper: Leopard het Desert Ghost")
    written = file.with_name("mine.C01.list.html").read_text(encoding="utf-8")
    assert written.count("Leopard 66% het Desert Ghost") == 2
    shown.close()
    press(tab, "undo writing C01")
    expect(link).to_be_hidden()


def test_undo__gives_a_book_of_ones_own_back_byte_for_byte(
    page: Page, chromium: str, file: Path, tmp_path: Path, start_workbench: Start
) -> None:
    own = tmp_path / "own.csv"
    own.write_bytes(file.read_bytes().replace(b"\n", b"\r\n").rstrip(b"\r\n"))
    book = own.with_name("own.clutches.csv")
    book.write_bytes(ODD)
    with start_workbench(own) as address:
        tab = opened(page, address)
        expect(tab.locator(".xp-clutches tbody tr")).to_have_count(1)
        before = own.read_bytes()
        begin(tab, "F03 Juniper", "M02 Alder")
        press(tab, "one more Leopard, male")
        press(tab, "write it down")
        line = tab.locator(".xp-held-line", has_text="Leopard").first
        line.locator("input").fill("M77")
        press(line, "add to the collection")
        expect(page.locator(".xp-file")).to_contain_text("25 animals")
        assert book.read_bytes() != ODD
        press(tab, "undo adding M77")
        expect(page.locator(".xp-file")).not_to_contain_text("unsaved changes")
        press(tab, "undo writing C01")
        expect(tab.locator(".xp-clutches tbody tr")).to_have_count(1)
        assert (book.read_bytes(), own.read_bytes()) == (ODD, before)


def test_form__by_keyboard_alone(page: Page, address: str) -> None:
    tab = opened(page, address)
    tab.get_by_role("button", name="new clutch", exact=True).press("Enter")
    expect(tab.locator(".xp-clutch-dam select")).to_be_focused()
    choose(tab, "dam", "F03 Juniper")
    choose(tab, "sire", "M02 Alder")
    other = tab.locator(".xp-other-look input")
    other.fill("Pastel")
    press(tab, "write it down")
    expect(tab.locator(".xp-clutch-form .xp-problem:visible")).to_have_text(
        "another look: Pastel is not counted yet. Add it, or empty the field."
    )
    expect(tab.locator(".xp-other-look")).to_have_class(re.compile("xp-wrong"))
    other.press("Enter")
    expect(tab.locator('.xp-tally tr[data-look="Pastel"]')).to_be_visible()
    expect(other).to_have_value("")
    more = tab.get_by_role("button", name="one more Leopard, female", exact=True)
    more.press("Enter")
    more.press("Space")
    expect(tab.get_by_label("Leopard, female", exact=True)).to_have_text("2")
    tab.get_by_role("button", name="write it down", exact=True).press("Enter")
    expect(tab.locator(".xp-said")).to_contain_text("is written in mine.clutches.csv.")
    tab.get_by_role("button", name=re.compile("^undo writing")).press("Enter")
    expect(tab.locator(".xp-said")).to_contain_text("is undone.")


def test_form__another_look_another_male_and_what_is_wrong(page: Page, address: str, axe: Axe) -> None:
    tab = opened(page, address)
    begin(tab, "F12 Fescue", "M05 Dunlin")
    press(tab, "another male")
    choose(tab, "sire", "M09 Lapwing", pickers=2)
    other = tab.locator(".xp-other-look input")
    other.fill("Pastell, maybe Enchi")
    press(tab, "add this look")
    expect(tab.locator(".xp-clutch-form .xp-problem:visible")).to_contain_text('Found "Pastell"')
    assert axe(page) == []
    press(tab, "use Pastel")
    expect(other).to_have_value("Pastel, maybe Enchi")
    press(tab, "add this look")
    press(tab, "one more Pastel, maybe Enchi, female")
    tab.get_by_label("laid").fill("2026-13-01")
    press(tab, "write it down")
    expect(tab.locator(".xp-clutch-form .xp-problem:visible")).to_contain_text("laid: ")
    expect(tab.locator(".xp-field-laid")).to_have_class(re.compile("xp-wrong"))
    expect(tab.locator(".xp-field-eggs")).not_to_have_class(re.compile("xp-wrong"))
    expect(tab.get_by_label("Pastel, maybe Enchi, female", exact=True)).to_have_text("1")
    tab.get_by_label("laid").fill("2026-06-01")
    press(tab, "write it down")
    expect(tab.locator(".xp-told")).to_contain_text(re.compile(r"Sire: M05 \d+(\.\d)? %, M09 \d+(\.\d)? %\."))
    press(tab, "change this clutch")
    tab.locator(".xp-several select").select_option(label="several may have sired it")
    press(tab, "write it down")
    expect(tab.locator(".xp-told")).to_contain_text("Sire of any one hatchling")
    expect(tab.locator(".xp-held-line").first).to_contain_text("Enchi")
    assert fits(page)


def test_dispute__says_who_could_be_wrong(page: Page, address: str, file: Path, axe: Axe) -> None:
    before = file.read_bytes()
    tab = opened(page, address)
    begin(tab, "F12 Fescue", "M02 Alder")
    tab.locator(".xp-other-look input").fill("Pastel Clown")
    press(tab, "add this look")
    expect(tab.locator('.xp-tally tr[data-look="Pastel Clown"]')).to_contain_text("these parents cannot give it")
    press(tab, "one more Pastel Clown, sex not known")
    press(tab, "cancel")
    expect(tab.locator(".xp-clutch-form .xp-problem:visible")).to_contain_text("would be lost")
    there = {one.name: one.read_bytes() for one in file.parent.iterdir()}
    press(tab, "write it down")
    expect(tab.locator(".xp-headline")).to_contain_text("This clutch cannot be as it is written")
    expect(tab.locator(".xp-headline")).to_contain_text("Every file is as it was.")
    expect(tab.locator(".xp-clutch-form .xp-problem:visible")).to_contain_text("the record of F02")
    assert axe(page) == []
    assert fits(page)
    assert {one.name: one.read_bytes() for one in file.parent.iterdir()} == there
    press(tab, "write it down all the same")
    expect(tab.locator(".xp-told")).to_contain_text("the record of F02")
    expect(tab.locator(".xp-told")).to_contain_text("left out of account there")
    assert axe(page) == []
    assert file.read_bytes() == before


def test_book__a_broken_one_is_said_and_read_again(
    page: Page, chromium: str, file: Path, tmp_path: Path, start_workbench: Start
) -> None:
    own = tmp_path / "own.csv"
    own.write_bytes(file.read_bytes())
    book = own.with_name("own.clutches.csv")
    book.write_text("clutch,dam,sire,look,count\nC1,F03,M02,Pastell,1\n", encoding="utf-8")
    with start_workbench(own) as address:
        tab = opened(page, address)
        expect(tab.locator(".xp-headline")).to_contain_text("own.clutches.csv could not be read.")
        expect(tab.locator(".xp-book-findings")).to_contain_text("Pastell")
        book.write_text("clutch,dam,sire,look,count\nC1,F03,M02,Desert Ghost,1\n", encoding="utf-8")
        press(tab, "read it again")
        expect(tab.locator(".xp-headline")).to_contain_text("proves F03 and M02 carry Desert Ghost")
