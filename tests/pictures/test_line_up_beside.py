"""Pairings side by side: one scale, one order, shade by nearness, and all text escaped."""

import re
from fractions import Fraction
from xml.etree import ElementTree

from explorer.pictures.line_up_beside import Beside, Look, side_by_side
from explorer.pictures.palette import nearness_shade

EVIL = "<script>alert(1)</script>"
HALF, EIGHTH = Fraction(1, 2), Fraction(1, 8)
LOOKS = (
    Look("Leopard", HALF, (HALF, Fraction(0))),
    Look("Leopard Clown", Fraction(1), (EIGHTH, Fraction(1, 4)), caution=True),
)


def pairing(name="with F1", warning="", facts=(("related", ("full siblings",)),)):
    return Beside(name, "het Clown", warning, facts)


def drawn(left=("", "and 3 more")):
    return side_by_side((pairing(), pairing("with F2")), LOOKS, left, "what could hatch")


def test_bars__one_scale_for_all_columns():
    html = drawn()
    widths = [float(found) for found in re.findall(r"width:max\(3px,([\d.]+)%\)", html)]
    half, eighth, quarter = widths
    assert half == 4 * eighth == 2 * quarter
    assert half < 100


def test_bars__numbers_shades_and_what_is_nothing():
    table = ElementTree.fromstring(drawn())
    first, second = table.find("tbody[@class='xp-beside-looks']").findall("tr")[:2]
    assert [" ".join(cell.itertext()) for cell in first.findall("td")] == ["50 %", "0 %"]
    assert second.find("th").text == "Leopard Clown [caution]"
    assert [" ".join(cell.itertext()) for cell in second.findall("td")] == ["12.5 %", "25 %"]
    assert nearness_shade(1) in second.find("td/div/i").get("style")
    assert nearness_shade(HALF) in first.find("td/div/i").get("style")
    assert first.findall("td")[1].find("div/i") is None


def test_table__has_a_caption_heads_and_what_is_left():
    table = ElementTree.fromstring(drawn())
    assert table.find("caption").text == "what could hatch"
    assert [head.text for head in table.findall("thead/tr/th")] == ["with F1", "with F2"]
    assert "and 3 more" in " ".join(table.itertext())
    assert [row.find("th").text for row in table.find("tbody[@class='xp-beside-facts']")] == ["related"]
    assert "more" not in " ".join(ElementTree.fromstring(drawn(left=("", ""))).itertext())


def test_table__escapes_every_text():
    bad = Beside(EVIL, EVIL, EVIL, ((EVIL, (EVIL,)),))
    html = side_by_side((bad,), (Look(EVIL, HALF, (HALF,)),), (EVIL,), EVIL)
    assert "<script" not in html
    assert html.count("&lt;script&gt;") == 8
