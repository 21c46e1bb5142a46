"""The printed list of a clutch: one whole page, every text escaped, nothing asked for from elsewhere."""

import re
from html.parser import HTMLParser

from explorer.pictures.hatch_list import Listed, hatch_list, untouched

EVIL = "<script>alert(1)</script>"


class Page(HTMLParser):
    """Tags that are open at the end, all tags, their attributes, and the text of each table cell."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.cells: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attributes
        if tag not in ("meta", "br"):
            self.open.append(tag)
        if tag in ("td", "th"):
            self.cells.append("")

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, text: str) -> None:
        if self.cells and self.open and self.open[-1] in ("td", "th"):
            self.cells[-1] += text


def page() -> str:
    hatchlings = [
        Listed("1", "Leopard 66% het Desert Ghost", "female"),
        Listed("F16", "Spider", "male", ("Spider: wobble [published study]", "second"), "kept"),
    ]
    return hatch_list("Hatchlings of clutch C01", [("dam", "F03 Juniper: Leopard")], hatchlings, ["No promise."])


def test_hatch_list__a_row_for_each_hatchling() -> None:
    made = Page(page())
    assert made.open == []
    assert made.cells == [
        *("no.", "label", "sex", "cautions"),
        *("1", "Leopard 66% het Desert Ghost", "female", "none recorded"),
        *("F16", "Spider (kept)", "male", "Spider: wobble [published study]second"),
    ]
    assert made.tags.count("br") == 1
    text = page()
    assert "<dt>dam</dt><dd>F03 Juniper: Leopard</dd>" in text
    assert text.index("No promise.") > text.index("</table>")
    assert text.startswith("<!doctype html>\n<html lang=")


def test_hatch_list__every_text_is_escaped() -> None:
    evil = Listed(EVIL, EVIL, EVIL, (EVIL,), EVIL)
    made = Page(hatch_list(EVIL, [(EVIL, EVIL)], [evil], [EVIL]))
    assert "script" not in made.tags
    assert made.cells[4:] == [EVIL, f"{EVIL} ({EVIL})", EVIL, EVIL]


def test_hatch_list__asks_for_nothing_and_runs_nothing() -> None:
    made = Page(page())
    assert not {"script", "link", "img", "iframe", "form", "a"} & set(made.tags)
    assert not any(name in ("src", "href") or name.startswith("on") for name, _ in made.attributes)
    assert not re.search(r"https?:|url\(|@import", page())
    assert ("content", "default-src 'none'; style-src 'unsafe-inline'") in made.attributes


def test_hatch_list__without_hatchlings() -> None:
    assert Page(hatch_list("t", [], [], [])).cells == ["no.", "label", "sex", "cautions"]


def test_untouched__tells_a_page_from_a_changed_one_and_from_any_other() -> None:
    text = page()
    assert untouched(text)
    seal = re.search(r'content="([0-9a-f]{64})"', text)
    assert seal is not None
    for other in (
        text.replace("Leopard", "Pastel"),
        text + " ",
        text.replace(seal[1], "0" * 64),
        text.replace("seal", "sign"),
        "<p>mine</p>",
        "",
    ):
        assert not untouched(other)
