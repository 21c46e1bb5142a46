"""One small reader for each column: text to value, or a `Fault` that says what was found, needed and to do."""

from __future__ import annotations

import re
from datetime import date
from difflib import get_close_matches

from ..catalogue import Sex

__all__ = ["STATUSES", "Fault", "read_date", "read_id", "read_sex", "read_status", "read_weight"]

STATUSES = ("kept", "on loan", "for sale", "sold", "dead", "retired")

SEXES: dict[str, Sex | None] = {
    **dict.fromkeys(("female", "f", "♀", "♀️", "0.1"), "female"),
    **dict.fromkeys(("male", "m", "♂", "♂️", "1.0"), "male"),
    **dict.fromkeys(("unknown", "u", "?", "0.0.1", ""), None),
}
HEAVIEST = 10_000
EARLIEST, LATEST = date(1950, 1, 1), date(2100, 12, 31)


class Fault(ValueError):
    """Why a field cannot be read."""

    def __init__(self, found: str, needed: str, advice: str) -> None:
        super().__init__(found)
        self.found, self.needed, self.advice = found, needed, advice


def read_id(text: str) -> str:
    """An animal's id: letters and digits, with - _ . and spaces inside."""
    if not text:
        raise Fault("no id", "an id for each animal", "give it one, such as F01")
    odd = sorted({sign for sign in text if not (sign.isalnum() or sign in "-_. ")})
    if odd or not (text[0].isalnum() and text[-1].isalnum()):
        signs = f" with {' '.join(map(repr, odd))}" if odd else ""
        needed = "letters and digits, with - _ . and spaces inside"
        raise Fault(f"{text!r}{signs}", needed, "give it an id such as F01")
    return text


def read_sex(text: str) -> Sex | None:
    """Female, male, or None if unknown."""
    try:
        return SEXES[text.casefold()]
    except KeyError:
        raise Fault(repr(text), "female, male or unknown", "f, m and ? will do") from None


def read_date(text: str) -> date | None:
    """A day written as year-month-day, or None if blank. Any other way of writing it is refused, never guessed."""
    if not text:
        return None
    if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        try:
            day = date.fromisoformat(text)
        except ValueError:
            raise Fault(f"{text}, which is no day", "a day as YYYY-MM-DD", "look it up in a calendar") from None
        if not EARLIEST <= day <= LATEST:
            raise Fault(text, f"a day from {EARLIEST} to {LATEST}", "check the year")
        return day
    readings = _readings(text)
    if len(readings) > 1:
        advice = f"write {' or '.join(readings)}, whichever is meant"
    elif readings:
        advice = f"write {readings[0]}, if that is meant"
    else:
        advice = "write it like 2021-03-12"
    raise Fault(repr(text), "a day as YYYY-MM-DD", advice)


def read_weight(text: str) -> float | None:
    """Grams, or None if blank."""
    if not text:
        return None
    if re.fullmatch(r"[0-9]+(\.[0-9]+)?", text):
        grams = float(text)
        if 0 < grams <= HEAVIEST:
            return grams
        raise Fault(text, f"grams, over 0 and at most {HEAVIEST:,}", "check the number and the unit")
    raise Fault(repr(text), "a number of grams alone", _weight_advice(text))


def read_status(text: str) -> str:
    """One of STATUSES; blank is kept."""
    status = re.sub(r"[\s_-]+", " ", text.casefold())
    if not status:
        return "kept"
    if status in STATUSES:
        return status
    near = get_close_matches(status, STATUSES, n=1, cutoff=0.5)
    raise Fault(repr(text), f"one of {', '.join(STATUSES)}", f"Nearest: {near[0]}" if near else "blank means kept")


def _readings(text: str) -> list[str]:
    """The days that a date in another style may mean, as YYYY-MM-DD."""
    parts = re.fullmatch(r"([0-9]{1,4})[./\- ]+([0-9]{1,2})[./\- ]+([0-9]{1,4})\.?", text)
    compact = re.fullmatch(r"([0-9]{4})([0-9]{2})([0-9]{2})", text)
    found = parts or compact
    if not found:
        return []
    one, two, three = (int(part) for part in found.groups())
    orders = [(one, two, three)] if len(found[1]) == 4 else [(three, two, one), (three, one, two)]
    return list(dict.fromkeys(str(date(*order)) for order in orders if _is_day(*order)))


def _is_day(year: int, month: int, day: int) -> bool:
    try:
        return EARLIEST <= date(year, month, day) <= LATEST
    except ValueError:
        return False


def _weight_advice(text: str) -> str:
    number = re.sub(r"\s*(g|gr|grams?)\.?$", "", text.casefold())
    if re.fullmatch(r"[0-9]{1,3}([, '’][0-9]{3})+", number):
        return f"write {re.sub('[^0-9]', '', number)}"
    if re.fullmatch(r"[0-9]+,[0-9]+", number):
        return f"write {number.replace(',', '.')}, with a point"
    if re.fullmatch(r"[0-9]+(\.[0-9]+)?", number):
        return f"write {number}"
    if number.startswith(("-", "−")):
        return "a weight is over 0"
    return "write it like 1820, or leave it blank"
