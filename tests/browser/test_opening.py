"""The launcher's notebook opens as a workbench: run, without an error, the code out of the way."""

from pathlib import Path

from on_screen import ERROR, Axe, no_dialog
from playwright.sync_api import Locator, Page, WebSocket, expect


def open_ready(page: Page, address: str) -> Locator:
    page.goto(address)
    expect(page.locator("body")).to_have_attribute("data-pairing-explorer", "ready")
    shown = page.locator(".xp-workbench")
    expect(shown).to_be_visible()
    return shown


def test_opening__the_cell_has_run_without_error(page: Page, workbench: str) -> None:
    shown = open_ready(page, workbench)
    expect(page.locator(ERROR)).to_have_count(0)
    expect(shown).to_have_count(1)


def test_opening__what_the_user_does_arrives_in_order(page: Page, workbench: str) -> None:
    """All of it is sent to the kernel's own thread, in the order it was done; none to a thread beside it."""
    sent: list[bytes] = []

    def note(socket: WebSocket) -> None:
        socket.on("framesent", lambda frame: sent.append(frame if isinstance(frame, bytes) else frame.encode()))

    page.on("websocket", note)
    shown = open_ready(page, workbench)
    page.remove_listener("websocket", note)
    shown.get_by_role("tab", name="Path").click()
    expect(shown.locator(".xp-path-tab .xp-headline")).to_be_visible()
    assert any(b'"comm_msg"' in frame for frame in sent)
    assert not any(b"create_subshell_request" in frame for frame in sent)


def test_opening__the_code_is_hidden_until_asked_for(page: Page, workbench: str, collection_file: Path) -> None:
    open_ready(page, workbench)
    code, button = page.locator(".jp-CodeCell .cm-content"), page.get_by_role("button", name="Show code")
    expect(code).to_be_hidden()
    button.click()
    expect(code).to_be_visible()
    expect(code).to_contain_text(f"open_workbench({str(collection_file)!r})")
    expect(button).to_have_attribute("aria-pressed", "true")
    button.click()
    expect(code).to_be_hidden()


def test_opening__single_keys_do_not_edit_the_notebook(page: Page, workbench: str) -> None:
    shown = open_ready(page, workbench)
    shown.locator("button, select, input[type=checkbox], [tabindex='0']").locator("visible=true").first.focus()
    for key in ("d", "d", "x", "b", "a"):
        page.keyboard.press(key)
    page.wait_for_timeout(500)
    expect(page.locator(".jp-Cell")).to_have_count(1)
    expect(shown).to_be_visible()


def test_opening__a_reload_shows_the_workbench_again(page: Page, workbench: str) -> None:
    open_ready(page, workbench)
    with no_dialog(page):
        page.reload()
        expect(page.locator(".xp-workbench")).to_be_visible()


def test_opening__fits_the_window_and_has_no_accessibility_findings(page: Page, workbench: str, axe: Axe) -> None:
    shown = open_ready(page, workbench)
    assert shown.evaluate("(e) => e.scrollWidth <= e.clientWidth && e.getBoundingClientRect().right <= innerWidth")
    assert axe(page) == []


def test_axe__finds_a_planted_fault(page: Page, axe: Axe) -> None:
    with page.context.new_page() as other:
        image = "<img src='data:image/gif;base64,R0lGODlhAQABAAAAACw='>"
        other.set_content(f"<main class=xp-workbench>{image}<input></main>")
        assert {found["id"] for found in axe(other)} >= {"image-alt", "label"}
