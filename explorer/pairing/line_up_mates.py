"""Who is put beside whom in a line-up."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime

from ..collection import Animal, Collection
from ..notation import texts_of

__all__ = ["day_of", "mates"]


def mates(
    animals: Collection, key: str, against: str | Iterable[str] | None = None
) -> tuple[Animal, tuple[Animal, ...]]:
    """The animal, and those it is put against in the order of their ids, each once.

    against: ids; None is all kept animals of the other sex. Raises KeyError if there is no such animal, ValueError if
    one is of unknown sex, of the same sex, or put against itself.
    """
    animal = animals[key]
    if animal.sex is None:
        raise ValueError(f"{key} is of unknown sex, so it cannot be paired; write its sex in the collection first")
    other = "male" if animal.sex == "female" else "female"
    if against is None:
        return animal, tuple(
            sorted((one for one in animals if one.status == "kept" and one.sex == other), key=lambda one: one.id)
        )
    chosen = [animals[name] for name in dict.fromkeys(texts_of(against))]
    for one in chosen:
        if one.id == key:
            raise ValueError(f"{key} cannot be paired with itself; give ids of {other}s")
        if one.sex is None:
            raise ValueError(f"{one.id} is of unknown sex, so it cannot be paired; write its sex or leave it out")
        if one.sex != other:
            raise ValueError(f"{one.id} and {key} are both {one.sex}s; against {key} give ids of {other}s")
    return animal, tuple(sorted(chosen, key=lambda one: one.id))


def day_of(today: date) -> date:
    """The day, without a time. Raises ValueError if it is no date."""
    if isinstance(today, datetime):
        return today.date()
    if not isinstance(today, date):
        raise ValueError(f"today must be a date, such as date(2026, 11, 25); found {today!r}")
    return today
