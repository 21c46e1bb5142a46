"""Each column's reader by itself."""

from __future__ import annotations

from datetime import date

import pytest

from explorer.collection.fields import Fault, read_date, read_id, read_sex, read_status, read_weight


@pytest.mark.parametrize("text", ["F01", "f 1", "2024-A.3", "Kükenn_9", "7"])
def test_ids(text: str) -> None:
    assert read_id(text) == text


@pytest.mark.parametrize("text", ["", "-F1", "F1-", "F/1", "F,1", "<b>F1</b>", "=F1", "F\u200b1", "F\n1"])
def test_ids_refused(text: str) -> None:
    with pytest.raises(Fault) as caught:
        read_id(text)
    assert "such as F01" in caught.value.advice


@pytest.mark.parametrize(
    ("text", "sex"),
    [
        *((text, "female") for text in ("female", "F", "Female", "♀", "0.1")),
        *((text, "male") for text in ("male", "m", "MALE", "♂", "1.0")),
        *((text, None) for text in ("", "?", "unknown", "U", "0.0.1")),
    ],
)
def test_sexes(text: str, sex: str | None) -> None:
    assert read_sex(text) == sex


def test_days() -> None:
    assert read_date("2024-02-29") == date(2024, 2, 29)
    assert read_date("") is None


@pytest.mark.parametrize(
    ("text", "advice"),
    [
        ("12/03/2021", "write 2021-03-12 or 2021-12-03, whichever is meant"),
        ("25.12.2021", "write 2021-12-25, if that is meant"),
        ("03.03.2021", "write 2021-03-03, if that is meant"),
        ("20210312", "write 2021-03-12, if that is meant"),
        ("2021/3/12", "write 2021-03-12, if that is meant"),
        ("2021-3-12", "write 2021-03-12, if that is meant"),
        ("12/03/21", "write it like 2021-03-12"),
        ("2021-03", "write it like 2021-03-12"),
        ("44267", "write it like 2021-03-12"),
        ("last June", "write it like 2021-03-12"),
        ("2021-13-01", "look it up in a calendar"),
        ("0021-03-12", "check the year"),
        ("٢٠٢١-٠٣-١٢", "write it like 2021-03-12"),
    ],
)
def test_days_refused(text: str, advice: str) -> None:
    with pytest.raises(Fault) as caught:
        read_date(text)
    assert caught.value.advice == advice


@pytest.mark.parametrize(("text", "grams"), [("1820", 1820), ("54.5", 54.5), ("10000", 10_000), ("", None)])
def test_weights(text: str, grams: float | None) -> None:
    assert read_weight(text) == grams


@pytest.mark.parametrize(
    ("text", "advice"),
    [
        ("1,820 g", "write 1820"),
        ("1'820", "write 1820"),
        ("1820 g", "write 1820"),
        ("1820,5", "write 1820.5, with a point"),
        ("-5", "a weight is over 0"),
        ("0", "check the number and the unit"),
        ("10001", "check the number and the unit"),
        ("1.8 kg", "write it like 1820, or leave it blank"),
        ("1e3", "write it like 1820, or leave it blank"),
        ("nan", "write it like 1820, or leave it blank"),
        ("inf", "write it like 1820, or leave it blank"),
        ("1_820", "write it like 1820, or leave it blank"),
    ],
)
def test_weights_refused(text: str, advice: str) -> None:
    with pytest.raises(Fault) as caught:
        read_weight(text)
    assert caught.value.advice == advice


@pytest.mark.parametrize(
    ("text", "status"),
    [
        ("", "kept"),
        ("kept", "kept"),
        ("On-Loan", "on loan"),
        ("for_sale", "for sale"),
        ("SOLD", "sold"),
        ("dead", "dead"),
    ],
)
def test_statuses(text: str, status: str) -> None:
    assert read_status(text) == status


@pytest.mark.parametrize(("text", "advice"), [("retird", "Nearest: retired"), ("xyzzy", "blank means kept")])
def test_statuses_refused(text: str, advice: str) -> None:
    with pytest.raises(Fault) as caught:
        read_status(text)
    assert caught.value.advice == advice
