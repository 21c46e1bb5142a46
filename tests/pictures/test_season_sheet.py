"""The season's sheet: whole, escaped, nothing fetched, and a space to write in what has not happened."""

import re
import xml.etree.ElementTree as ET
from datetime import date

from explorer.pictures.printed_page import untouched
from explorer.pictures.season_band import Band, Stretch
from explorer.pictures.season_sheet import WHOM_TO_ASK, SheetPairing, season_sheet

EVIL = "<script>alert('1')</script> & \"co\""
TODAY = date(2026, 11, 25)
LAY = Stretch("lay", date(2027, 1, 10), date(2027, 3, 9), date(2027, 5, 20))
SEEN = Stretch("ovulation", date(2027, 1, 20), date(2027, 1, 20), date(2027, 1, 20), happened=True)


def pairing(text="F03 × M02", stretches=(SEEN, LAY), **further):
    given = {"why": (text,), "second": text, "related": text, "cautions": (text,), "sources": {"lay": text}}
    return SheetPairing(Band(text, text, stretches), **{**given, **further})


def sheet(*pairings, text="x"):
    return season_sheet(text, text, pairings, [(text, text, text)], TODAY, [text], [text])


def read(page):
    """The page's body as a tree; it is well-formed on purpose."""
    body = re.search(r"<body>.*</body>", page, re.S)
    assert body is not None
    return ET.fromstring(body[0])


def words(node):
    return " ".join("".join(node.itertext()).split())


def test_sheet__a_part_for_each_pairing_with_its_days():
    tree = read(sheet(pairing(), pairing("F04 × M05", second="", cautions=())))
    parts = [part for part in tree.iter("section") if part.get("class") == "pairing"]
    assert [part.find("h2").text for part in parts] == ["F03 × M02", "F04 × M05"]
    rows = [[words(cell) for cell in row] for row in parts[0].find("table").iter("tr")]
    assert rows == [
        ["event", "look for it", "it was on", "source"],
        ["ovulation", "", "20 Jan 2027", ""],
        ["lay", "10 Jan to 20 May 2027, likely 9 Mar", "", "F03 × M02"],
    ]
    assert "Caution: F03 × M02" in words(parts[0]) and "nobody can" in words(parts[1])
    overview = tree.find("main/table")
    assert [words(row)[-14:] for row in overview.iter("tr")][1:] == ["yes, see below", "likely 9 Marnone"[-14:]]


def test_sheet__whom_to_ask_is_always_there():
    for page in (sheet(), sheet(pairing())):
        assert all(text in words(read(page)) for text in WHOM_TO_ASK)
    said = " ".join(WHOM_TO_ASK)
    assert all(word in said for word in ("veterinarian", "law", "CITES"))


def test_sheet__every_text_is_escaped_and_nothing_is_asked_for():
    page = sheet(pairing(EVIL, sources={"lay": EVIL, "ovulation": EVIL}, notes=(EVIL,)), text=EVIL)
    tree = read(page)
    tags = {node.tag.rpartition("}")[2] for node in tree.iter()}
    assert not tags & {"script", "img", "link", "iframe", "a", "form"}
    assert words(tree).count("<script>alert") >= 10
    assert not any(name.startswith("on") or name in ("src", "href") for node in tree.iter() for name in node.attrib)
    assert not re.search(r"url\(|@import", page)
    assert "default-src 'none'" in page and untouched(page) and not untouched(page + " ")


def test_sheet__days_that_are_not_known_leave_no_table():
    part = next(iter(read(sheet(pairing(stretches=()))).iter("section")))
    assert part.find("table") is None and part.find(".//{http://www.w3.org/2000/svg}svg") is None
    assert "not known" in sheet(pairing(stretches=()))
