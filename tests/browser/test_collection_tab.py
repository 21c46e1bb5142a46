"""The Collection tab in a real browser: read, sort, search, mend, save. Works on a collection file of its own."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from on_screen import Axe, Picture, Start, fits, open_tab
from playwright.sync_api import Locator, Page, expect

from explorer.panels.collection_tab.collection_model import CollectionModel
from explorer.panels.desk import Desk


@pytest.fixture(scope="module")
def file(demo_collection: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    copy = tmp_path_factory.mktemp("collection") / "mine.csv"
    copy.write_bytes(demo_collection.read_bytes())
    (copy.parent / "bad.csv").write_text("id,sex,genes\nF1,female,Pastell\n", encoding="utf-8")
    evil = "<script>document.title = 'run'</script>"
    (copy.parent / "evil.csv").write_text(f"id,sex,genes,name\nF1,female,Pastel,{evil}\n", encoding="utf-8")
    return copy


@pytest.fixture(scope="module")
def address(chromium: str, file: Path, start_workbench: Start) -> Iterator[str]:
    with start_workbench(file) as address:
        yield address


def opened(page: Page, address: str) -> Locator:
    """The Collection tab, drawn."""
    shown = open_tab(page, address, "Collection").locator(".xp-collection")
    expect(shown.locator(".xp-animals tbody tr")).not_to_have_count(0)
    return shown


def headline(file: Path) -> str:
    """What the tab is to say today of the file as it was saved."""
    model = CollectionModel(Desk(file, date.today()))
    assert model.open(str(file))
    return model.headline


def row(shown: Locator, key: str) -> Locator:
    return shown.locator(f'.xp-animals tr[data-id="{key}"]')


def back_in_order(shown: Locator) -> None:
    """Sorts the table by id, as the next test expects it."""
    header = shown.locator('.xp-animals thead th[data-key="id"]')
    header.get_by_role("button").click()
    expect(header).to_have_attribute("aria-sort", "ascending")


def edit(shown: Locator, key: str) -> None:
    """Chooses an animal and opens its record."""
    row(shown, key).locator("td").first.click()
    expect(shown.locator(".xp-details h3")).to_contain_text(key)
    shown.get_by_role("button", name="change this record").click()
    expect(shown.locator(".xp-form h3")).to_have_text(f"change {key}")


def test_table__shows_sorts_and_searches(page: Page, address: str, file: Path) -> None:
    shown = opened(page, address)
    rows = shown.locator(".xp-animals tbody tr")
    expect(rows).to_have_count(24)
    expect(shown.locator(".xp-headline")).to_have_text(headline(file))
    weight = shown.locator('.xp-animals th[data-key="weight"]')
    weight.get_by_role("button").click()
    expect(weight).to_have_attribute("aria-sort", "ascending")
    expect(rows.first).to_contain_text("95 g")
    expect(rows.last).to_contain_text("Fescue")  # no weight is written of her
    weight.get_by_role("button").press("Enter")
    expect(weight).to_have_attribute("aria-sort", "descending")
    expect(rows.first).to_contain_text("2,450 g")
    expect(rows.last).to_contain_text("Fescue")
    shown.get_by_label("Search: The animals of this collection").fill("clown female")
    expect(shown.locator(".xp-table-count")).to_have_text("4 of 24 rows")
    shown.get_by_label("Search: The animals of this collection").fill("")
    expect(rows).to_have_count(24)
    back_in_order(shown)


def test_table__is_reached_by_keyboard(page: Page, address: str) -> None:
    shown = opened(page, address)
    row(shown, "F02").get_by_role("button").focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    expect(shown.locator(".xp-details h3")).to_contain_text("F03 Juniper")
    expect(row(shown, "F03").get_by_role("button")).to_have_attribute("aria-pressed", "true")


def test_edit__a_new_weight_changes_the_line_and_saving_makes_a_backup(page: Page, address: str, file: Path) -> None:
    shown = opened(page, address)
    expect(row(shown, "F09")).to_contain_text("not yet: 1,500 g needed; about season")
    edit(shown, "F09")
    shown.get_by_label("weight in g").fill("1650")
    shown.get_by_role("button", name="save row").click()
    expect(row(shown, "F09").locator("td").last).to_have_text("ready")
    expect(shown.locator(".xp-said")).to_have_text("unsaved changes")
    expect(page.locator(".xp-file")).to_contain_text("unsaved changes")
    shown.get_by_role("button", name="save the file").click()
    expect(shown.locator(".xp-said")).to_contain_text("saved; backup mine.")
    (backup,) = file.parent.glob("mine.*.bak.csv")
    assert ",1240,2026-11-08," in backup.read_text(encoding="utf-8")
    assert ",1650," in file.read_text(encoding="utf-8")
    expect(shown.locator(".xp-headline")).to_have_text(headline(file))


def test_edit__a_wrong_gene_is_said_and_the_nearest_name_offered(page: Page, address: str, axe: Axe) -> None:
    shown = opened(page, address)
    edit(shown, "F02")
    genes = shown.get_by_label("genes")
    genes.fill("Pastell het Clown")
    shown.get_by_label("name").fill("Milfoil")
    shown.get_by_role("button", name="save row").click()
    expect(shown.locator(".xp-form-message")).to_contain_text('genes: "Pastell"; needed:')
    expect(genes).to_have_value("Pastell het Clown")
    expect(shown.get_by_label("name")).to_have_value("Milfoil")
    assert axe(page) == []
    shown.get_by_role("button", name="use Pastel", exact=True).click()
    expect(genes).to_have_value("Pastel het Clown")
    shown.get_by_role("button", name="save row").click()
    expect(row(shown, "F02")).to_contain_text("Milfoil")
    expect(row(shown, "F02")).to_contain_text("Pastel het Clown")
    page.reload()
    expect(row(shown, "F02")).to_contain_text("Milfoil")


def test_open__a_bad_file_lists_what_is_wrong_and_the_old_one_stays(page: Page, address: str, axe: Axe) -> None:
    shown = opened(page, address)
    shown.get_by_role("button", name="open a file").click()
    shown.locator(".xp-path input").fill("bad.csv")
    shown.get_by_role("button", name="open", exact=True).click()
    findings = shown.locator(".xp-findings")
    expect(findings).to_contain_text("bad.csv could not be opened")
    expect(findings.locator("tbody tr")).to_have_count(1)
    expect(findings.locator("tbody tr")).to_contain_text("Pastell")
    expect(shown.locator(".xp-animals tbody tr")).to_have_count(24)
    assert axe(page) == []


def test_open__text_of_a_file_is_never_run(page: Page, address: str, file: Path) -> None:
    shown = opened(page, address)
    for name, count in (("evil.csv", 1), (file.name, 24)):
        if not shown.locator(".xp-path input").is_visible():
            shown.get_by_role("button", name="open a file").click()
        shown.locator(".xp-path input").fill(name)
        shown.get_by_role("button", name="open", exact=True).click()
        expect(shown.locator(".xp-animals tbody tr")).to_have_count(count)
        if count == 1:
            row(shown, "F1").locator("td").first.click()
            expect(shown.locator(".xp-details h3")).to_contain_text("<script>")
    assert page.title() != "run"


def test_target__a_wrong_name_is_offered_the_nearest(page: Page, address: str, axe: Axe) -> None:
    opened(page, address)
    page.locator(".xp-target-change").click()
    form = page.locator(".xp-target-form")
    form.get_by_label("must show").fill("Pinstripe Clwn")
    form.get_by_role("button", name="set the target").click()
    expect(form).to_contain_text('must show: found "Clwn"')
    assert axe(page) == []
    form.get_by_role("button", name="use Clown", exact=True).click()
    form.get_by_role("button", name="set the target").click()
    expect(page.locator(".xp-target")).to_have_text("target: Pinstripe Clown")
    expect(form).to_be_hidden()


def test_season__a_later_one_says_what_it_goes_by(page: Page, address: str) -> None:
    shown = opened(page, address)
    page.locator(".xp-season select").select_option(index=2)
    expect(shown.locator(".xp-headline")).to_contain_text("by the weights written so far")
    page.locator(".xp-season select").select_option(index=0)
    expect(shown.locator(".xp-headline")).to_contain_text("fit to breed this season")


@pytest.mark.parametrize("size", ["wide_page", "page"])
def test_tab__fits_and_has_no_accessibility_findings(
    size: str, address: str, axe: Axe, picture: Picture, request: pytest.FixtureRequest
) -> None:
    page = request.getfixturevalue(size)
    shown = opened(page, address)
    row(shown, "F03").locator("td").first.click()
    expect(shown.locator(".xp-details h3")).to_contain_text("Juniper")
    assert fits(page)
    assert axe(page) == []
    if size == "page":
        picture(page, "collection")
