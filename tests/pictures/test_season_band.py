"""The bands of a season: what is drawn where, and the same in words."""

import xml.etree.ElementTree as ET
from datetime import date

from explorer.pictures.season_band import Band, Stretch, season_bands, season_bands_in_words, window_in_words

LAY = Stretch("lay", date(2027, 1, 10), date(2027, 3, 9), date(2027, 5, 20))
SEEN = Stretch("ovulation", date(2027, 1, 20), date(2027, 1, 20), date(2027, 1, 20), happened=True)
BAND = Band("F03 <b>Juniper</b> × M02", "second: M05", (SEEN, LAY))


def drawn(*bands, **further):
    return ET.fromstring(season_bands(bands, **further))


def texts(svg):
    return [node.text or "" for node in svg.iter("{http://www.w3.org/2000/svg}text")]


def test_bands__every_name_and_event_is_written_and_escaped():
    found = texts(drawn(BAND))
    assert "F03 <b>Juniper</b> × M02" in found
    assert "ovulation on 20 Jan" in found
    assert "lay" in found


def test_window__is_as_wide_as_its_days():
    svg = drawn(BAND)
    bars = [r for r in svg.iter("{http://www.w3.org/2000/svg}rect") if r.get("x")]
    other = drawn(Band("", "", (SEEN, Stretch("lay", date(2027, 1, 10), date(2027, 1, 10), date(2027, 5, 20)))))
    assert len(bars) == 1
    assert float(bars[0].get("width")) == float(
        next(r for r in other.iter("{http://www.w3.org/2000/svg}rect") if r.get("x")).get("width")
    )
    days = (LAY.latest - LAY.earliest).days + 1
    months = (date(2027, 6, 1) - date(2027, 1, 1)).days
    assert abs(float(bars[0].get("width")) / 632 - days / months) < 0.002


def test_today__is_marked_only_within_the_axis():
    assert "today" in texts(drawn(BAND, today=date(2027, 2, 1)))
    assert "today" not in texts(drawn(BAND, today=date(2030, 2, 1)))


def test_december__is_followed_by_january():
    found = texts(drawn(Band("a", "", (Stretch("lay", date(2026, 12, 31), date(2026, 12, 31), date(2027, 1, 1)),))))
    assert [name for name in found if name[:3] in ("Dec", "Jan")] == ["Dec 2026", "Jan 2027"]


def test_year__stands_at_the_first_month_and_at_january_where_there_is_room():
    found = texts(drawn(Band("a", "", (Stretch("lay", date(2026, 11, 3), date(2026, 12, 1), date(2027, 1, 1)),))))
    assert [name for name in found if name[:3] in ("Nov", "Dec", "Jan")] == ["Nov 2026", "Dec", "Jan 2027"]
    narrow = texts(drawn(Band("a", "", (Stretch("lay", date(2026, 1, 3), date(2026, 2, 1), date(2027, 12, 1)),))))
    assert not any("2026" in name or "2027" in name for name in narrow)


def test_names__can_be_left_to_the_heading_above():
    bare = drawn(BAND, named=False, width=700)
    assert bare.get("viewBox").startswith("0 0 700 ")
    assert BAND.name not in texts(bare) and "lay" in texts(bare)
    assert BAND.name in bare.get("aria-label")
    bars = [one for one in bare.iter("{http://www.w3.org/2000/svg}rect") if one.get("x")]
    right = max(float(one.get("x")) + float(one.get("width")) for one in bars)
    assert right <= 700 - 100, "there is room for the event's name"


def test_nothing_known__draws_nothing():
    assert season_bands([Band("a", "", ())]) == ""


def test_words__say_every_window():
    assert season_bands_in_words([BAND]) == (
        "F03 <b>Juniper</b> × M02: ovulation on 20 Jan 2027; lay 10 Jan to 20 May 2027, likely 9 Mar."
    )
    across = Stretch("lay", date(2026, 12, 30), date(2027, 1, 2), date(2027, 2, 1))
    assert window_in_words(across) == "30 Dec 2026 to 1 Feb 2027, likely 2 Jan"
