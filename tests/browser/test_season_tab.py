"""The Season tab in a real browser: from sharing the males to the first eggs, the sheet on paper, the calendar file."""

import re
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pypdfium2
import pytest
from ical.calendar_stream import IcsCalendarStream
from on_screen import Axe, Picture, Start, fits, open_tab, pick, press
from playwright.sync_api import Locator, Page, Request, expect

from explorer import allot, read_collection
from explorer.pairing import mean_text

TARGET = "Leopard Pinstripe Desert Ghost"
EVENTS = ("introduce", "ovulation", "pre-lay shed", "lay", "hatch", "first shed", "first meal")
PAPERS = {"A4": (210, 297), "Letter": (215.9, 279.4)}
"""Millimetres."""

MARGIN = 12


@pytest.fixture(scope="module")
def file(demo_collection: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo collection with a female that is one gram short."""
    text = demo_collection.read_text(encoding="utf-8").replace(
        "F04,Sedge,female,Pinstripe,2021-07-02,1930", "F04,Sedge,female,Pinstripe,2021-07-02,1499"
    )
    assert ",1499," in text
    copy = tmp_path_factory.mktemp("collection") / "mine.csv"
    copy.write_text(text, encoding="utf-8")
    return copy


@pytest.fixture(scope="module")
def address(chromium: str, file: Path, start_workbench: Start) -> Iterator[str]:
    with start_workbench(file) as address:
        yield address


def opened(page: Page, address: str) -> Locator:
    """The Season tab, drawn."""
    shown = open_tab(page, address, "Season").locator(".xp-season-tab")
    expect(shown.locator(".xp-headline p")).to_be_visible()
    return shown


def planned(tab: Locator) -> Locator:
    """The same with the best allotment taken, if none is yet."""
    if "No pairing is chosen yet" in (tab.locator(".xp-headline").text_content() or ""):
        press(tab, "share the males")
        press(tab, "take this allotment")
    expect(tab.locator(".xp-pairings tbody tr")).to_have_count(2)
    return tab


def choose(tab: Locator, role: str, animal: str) -> None:
    pick(tab.locator(f".xp-pairing-form .xp-season-{role} select"), animal)


def happened(tab: Locator, event: str, on: date) -> None:
    """Writes an event down; it then stands among what is written."""
    field = tab.locator(".xp-diary-on input")
    field.fill(on.isoformat())
    field.press("Tab")
    press(tab, event)
    entry = f"{event[0].lower()}{event[1:]}"
    expect(tab.locator(".xp-diary-entries")).to_contain_text(re.compile(rf"{entry}.*{on.year}"))


def test_season__from_sharing_the_males_to_the_first_eggs(
    page: Page, address: str, file: Path, axe: Axe, picture: Picture
) -> None:
    before, today = file.read_bytes(), date.today()
    table = allot(read_collection(file), TARGET, today=today)
    assert len(table) == 2 and "F04" not in set(table["dam"])
    tab = opened(page, address)
    expect(tab.locator(".xp-headline")).to_contain_text("No pairing is chosen yet")
    press(tab, "▸ how to share them")
    assert axe(page) == [] and fits(page)
    press(tab, "▾ how to share them")
    press(tab, "share the males")
    expect(tab.locator(".xp-way-pairings tbody tr")).to_have_count(2)
    expect(tab.locator(".xp-out")).to_contain_text("F04 Sedgenot ready: 1,500 g needed")
    assert axe(page) == [] and fits(page)
    press(tab, "take this allotment")
    expect(tab.locator(".xp-pairings tbody tr")).to_have_count(2)
    value = mean_text(table.attrs["value"])
    expect(tab.locator(".xp-headline")).to_contain_text(f"Expected toward the target: {value}.")
    for row in table.itertuples():
        line = tab.locator(f'.xp-pairings tr[data-id="{row.dam}"]')
        expect(line).to_contain_text(f"brings {mean_text(row.fraction)}")
        expect(line).to_contain_text(row.sire)

    choose(tab, "dam", "F04 Sedge")
    choose(tab, "sire", "M03")
    press(tab, "write this pairing")
    expect(tab.locator(".xp-pairing-form")).to_contain_text("F04 Sedge may be in no pairing this season: 1,499 g")
    choose(tab, "dam", "F14 Thistle")
    press(tab, "write this pairing")
    expect(tab.get_by_role("button", name="allow Spider in plans")).to_be_visible()
    expect(tab.locator(".xp-pairing-form")).to_contain_text("[published study]")
    assert axe(page) == [] and fits(page)

    row = tab.locator('.xp-pairings tr[data-id="F03"]')
    row.locator("button").press("Enter")
    expect(tab.locator(".xp-diary-title")).to_contain_text("The log of F03 Juniper × M03 Plover")
    happened(tab, "Introduced", today - timedelta(60))
    happened(tab, "Lock seen", today - timedelta(58))
    happened(tab, "Ovulation", today - timedelta(48))
    expect(row).to_contain_text("look for the pre-lay shed")
    happened(tab, "Laid", today)
    expect(row).to_contain_text("expect hatchlings")
    press(tab, "begin its clutch in the Clutch book")
    expect(tab.locator(".xp-clutch-begun")).to_have_text("Its clutch is C01 in the Clutch book.")
    book = file.with_name("mine.clutches.csv").read_text(encoding="utf-8")
    assert f"C01,F03,M03,{today}" in book
    assert axe(page) == [] and fits(page)
    assert page.evaluate("document.querySelector('.xp-bands svg').getAttribute('aria-label').includes('F03 Juniper')")
    page.evaluate("document.querySelector('.xp-workbench').scrollIntoView()")
    picture(page, "season")
    page.get_by_role("tab", name="Clutch book").click()
    expect(page.locator('.xp-clutches tr[data-id="C01"]')).to_contain_text("F03 × M03")
    assert file.read_bytes() == before, "the collection's file is as it was"


def test_season__wide_window(wide_page: Page, address: str, axe: Axe) -> None:
    planned(opened(wide_page, address))
    assert axe(wide_page) == [] and fits(wide_page)


def test_calendar__is_saved_from_its_link(page: Page, address: str, file: Path) -> None:
    tab = planned(opened(page, address))
    press(tab, "calendar file")
    link = tab.get_by_role("link", name="Save the calendar file")
    expect(link).to_be_visible()
    with page.expect_download() as saved:
        link.click()
    assert saved.value.suggested_filename == "mine.season.ics"
    content = Path(saved.value.path()).read_bytes()
    assert content == file.with_name("mine.season.ics").read_bytes()
    events = IcsCalendarStream.calendar_from_ics(content.decode()).events
    assert {str(event.summary).partition(": ")[0] for event in events} == set(EVENTS)
    assert len(events) == 14 and b"Sedge" not in content


def test_sheet__opens_from_its_link(page: Page, address: str, file: Path) -> None:
    tab = planned(opened(page, address))
    press(tab, "sheet to print")
    link = tab.get_by_role("link", name="Open the sheet to print it")
    expect(link).to_be_visible()
    asked: list[str] = []

    def note(request: Request) -> None:
        asked.append(request.url)

    page.context.on("request", note)
    with page.context.expect_page() as popup:
        link.click()
    expect(popup.value.get_by_role("heading", level=1)).to_contain_text("Season 20")
    page.context.remove_listener("request", note)
    assert [url for url in asked if not url.startswith("blob:")] == []
    assert "Sedge" not in file.with_name("mine.season.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("paper", PAPERS)
def test_sheet__on_paper(page: Page, address: str, file: Path, tmp_path: Path, paper: str, picture: Picture) -> None:
    """Nothing is cut off, each pairing stays on one page, and the text can be selected."""
    tab = planned(opened(page, address))
    press(tab, "sheet to print")
    expect(tab.get_by_role("link", name="Open the sheet to print it")).to_be_visible()
    with page.context.new_page() as sheet:
        sheet.emulate_media(media="print")
        width, height = (round((side - 2 * MARGIN) / 25.4 * 96) for side in PAPERS[paper])
        sheet.set_viewport_size({"width": width, "height": height})
        sheet.set_content(file.with_name("mine.season.html").read_text(encoding="utf-8"))
        assert sheet.evaluate("document.documentElement.scrollWidth") <= width
        tall = sheet.evaluate("[...document.querySelectorAll('section')].map((one) => one.offsetHeight)")
        assert len(tall) == 4 and max(tall) <= height / 2, "two pairings fit on a page"
        if paper == "A4":
            picture(sheet, "season_sheet")
        pdf = sheet.pdf(path=tmp_path / "sheet.pdf", format=paper)
    assert pdf.startswith(b"%PDF")
    pages = [one.get_textpage() for one in pypdfium2.PdfDocument(pdf)]
    texts = [" ".join(one.get_text_range().split()) for one in pages]
    assert "veterinarian" in texts[-1] and "CITES" in texts[-1]
    for dam in ("F01 Bracken", "F03 Juniper"):
        [own] = [text for text in texts if f"{dam} × M03 Plover why" in text]
        part = own.partition(f"{dam} × M03 Plover why")[2].partition("× M03 Plover why")[0]
        assert all(re.search(rf"\b{event}\b", part) for event in EVENTS)
    points = [side / 25.4 * 72 for side in PAPERS[paper]]
    for one in pages:
        for number in range(one.count_rects()):
            left, bottom, right, top = one.get_rect(number)
            assert left >= 0 and bottom >= 0 and right <= points[0] + 1 and top <= points[1] + 1
