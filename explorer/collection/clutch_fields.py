"""One small reader for each column of a clutch book: text to value, or a `Fault`."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass

from .fields import Fault
from .findings import nearest

__all__ = ["Males", "read_dam", "read_degrees", "read_males", "read_number"]

MOST = 99
"""No clutch has so many eggs."""

COLDEST, WARMEST = 20, 40
"""Degrees Celsius between which eggs are kept."""


@dataclass(frozen=True)
class Males:
    """The males that a clutch may be of. several: whether hatchlings of one clutch may have different sires."""

    ids: tuple[str, ...]
    several: bool


def read_dam(text: str, known: Collection[str]) -> str:
    """An animal of the collection. known: the ids there are."""
    _check_known([text], known)
    return text


def read_males(text: str, known: Collection[str]) -> Males:
    """The sire, or several: "M01 or M04" is one of the two, "M01 and M04" may both have hatchlings in the clutch."""
    if text in known:
        return Males((text,), False)
    joins = {join.casefold() for join in re.findall(r"\s(or|and)\s", text, re.IGNORECASE)}
    names = re.split(r"\s*,\s*(?:or\s+|and\s+)?|\s+(?:or|and)\s+", text, flags=re.IGNORECASE)
    both = f'"{" or ".join(names)}" if one of them is the sire, "{" and ".join(names)}" if several may be'
    if len(joins) > 1 or (len(names) > 1 and not joins):
        raise Fault(repr(text), '"or" or "and" between the sires', f"write {both}")
    _check_known(names, known)
    if len(set(names)) < len(names):
        raise Fault(f"{text}, which names a sire twice", "each sire once", "name it once")
    return Males(tuple(names), "and" in joins)


def read_number(text: str, least: int = 0) -> int:
    """A whole number from `least` to 99."""
    needed = f"a whole number from {least} to {MOST}"
    if re.fullmatch(r"[0-9]{1,4}", text) and least <= int(text) <= MOST:
        return int(text)
    raise Fault(repr(text), needed, f"write it like {max(least, 4)}" if not text.isdigit() else "check the number")


def read_degrees(text: str) -> float:
    """Degrees Celsius from 20 to 40."""
    needed = f"degrees Celsius from {COLDEST} to {WARMEST}"
    number = text.replace(",", ".")
    if not re.fullmatch(r"[0-9]{1,3}(\.[0-9]+)?", number):
        raise Fault(repr(text), needed, "write the number alone, such as 31.5")
    degrees = float(number)
    if "," in text:
        raise Fault(repr(text), needed, f"write {number}, with a point")
    if not COLDEST <= degrees <= WARMEST:
        celsius = (degrees - 32) / 1.8
        fits = COLDEST <= celsius <= WARMEST
        raise Fault(text, needed, f"write {celsius:.1f}, if it is in Fahrenheit" if fits else "check the number")
    return degrees


def _check_known(names: list[str], known: Collection[str]) -> None:
    strangers = [name for name in names if name not in known]
    if strangers:
        found = f"{' and '.join(strangers)} {'is' if len(strangers) == 1 else 'are'} not in the collection"
        near = list(dict.fromkeys(one for name in strangers for one in nearest(name, known)))
        advice = (
            f"Nearest: {', '.join(near)}" if near else "add it to the collection first, as Normal if nothing is known"
        )
        raise Fault(found, "animals of the collection", advice)
