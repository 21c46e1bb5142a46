"""The one place that asks this computer for the day and for chance."""

from __future__ import annotations

from datetime import date
from secrets import randbelow

__all__ = ["fresh_seed", "today"]


def today() -> date:
    """This computer's date."""
    return date.today()


def fresh_seed() -> int:
    """A new seed from 1 to 999, short enough to read out."""
    return 1 + randbelow(999)
