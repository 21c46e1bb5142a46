"""What clutches say of the animals of the collection: their parents' sex and age, and the hatchlings that were kept."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from .animals import Animal, Collection
from .clutch import Clutch
from .findings import Finding

__all__ = ["day_findings", "kept_findings", "loop_findings", "parent_findings", "role_findings"]

SHORTEST, LONGEST = 40, 100
"""Days from laying to hatching beyond which a day is likely miswritten: a check of days, no figure of incubation."""

APART = 7
"""Days by which the hatching of clutch mates may differ without a notice."""

YOUNGEST = 365
"""Days from a parent's hatching to its clutch below which a day is likely miswritten."""

SEX_OF = {"dam": "female", "sire": "male"}


def parent_findings(clutch: Clutch, rows: Mapping[str, int], animals: Collection) -> Iterator[Finding]:
    """Parents of the wrong sex, or too young. rows: "dam", "sire" -> the line where they stand."""
    day, event = (clutch.laid, "laid") if clutch.laid else (clutch.hatched, "hatched")
    for role, key in _parents(clutch):
        parent = animals[key]
        if parent.sex not in (None, SEX_OF[role]):
            found = f"{_named(parent)} is {parent.sex}"
            advice = f"mend its sex, or name another {role}"
            yield Finding("error", rows[role], role, found, SEX_OF[role], advice, clutch.id)
        if day and parent.hatched and parent.hatched >= day:
            found = f"{_named(parent)} hatched on {parent.hatched}, and this clutch was {event} on {day}"
            yield Finding("error", rows[role], role, found, "", "mend one of the two days, or the parent", clutch.id)
        elif day and parent.hatched and (day - parent.hatched).days < YOUNGEST:
            found = f"{_named(parent)} hatched on {parent.hatched}, {_age(parent.hatched, day)} before {day}"
            yield Finding("notice", rows[role], role, found, "", "check both days", clutch.id)


def day_findings(clutch: Clutch, kept: Sequence[Animal], rows: Mapping[str, int]) -> Iterator[Finding]:
    """Days that hardly go together: from laying to hatching, and the hatching of an animal that was kept.

    rows: "hatched" -> the line where it stands.
    """
    if clutch.laid and clutch.hatched:
        days = (clutch.hatched - clutch.laid).days
        if 0 < days < SHORTEST or days > LONGEST:
            found = f"hatched on {clutch.hatched}, {days} days after it was laid on {clutch.laid}"
            advice = f"check both days: eggs take {SHORTEST} to {LONGEST} days at most"
            yield Finding("notice", rows["hatched"], "hatched", found, "", advice, clutch.id)
    for animal in kept:
        if animal.hatched and clutch.hatched and abs((animal.hatched - clutch.hatched).days) > APART:
            found = f"{_named(animal)} hatched on {animal.hatched}, and its clutch on {clutch.hatched}"
            yield Finding("notice", clutch.row, "hatched", found, "", "mend one of the two days", clutch.id)
        elif animal.hatched and clutch.laid and animal.hatched <= clutch.laid:
            found = f"{_named(animal)} hatched on {animal.hatched}, and its clutch was laid on {clutch.laid}"
            yield Finding("notice", clutch.row, "laid", found, "", "mend one of the two days", clutch.id)


def role_findings(clutches: Sequence[Clutch], animals: Collection) -> Iterator[Finding]:
    """Parents whose sex is not written: what their role says, or that their roles contradict each other."""
    roles: dict[str, dict[str, Clutch]] = {}
    for clutch in clutches:
        for role, key in _parents(clutch):
            if animals[key].sex is None:
                roles.setdefault(key, {}).setdefault(role, clutch)
    for key, found in roles.items():
        role, clutch = next(iter(found.items()))
        if len(found) > 1:
            said = f"{_named(animals[key])} is {' and '.join(f'a {role} in {one.id}' for role, one in found.items())}"
            advice = "write its sex in the collection, and mend the clutches that name it"
            yield Finding("error", clutch.row, role, said, "an animal of one sex", advice, clutch.id)
        else:
            said = f"the sex of {_named(animals[key])} is not written: taken as {SEX_OF[role]}"
            yield Finding("notice", clutch.row, role, said, "", "write it in the collection", clutch.id)


def kept_findings(clutch: Clutch, kept: Sequence[Animal], *, complete: bool) -> Iterator[Finding]:
    """Where the animals of the collection that come from this clutch contradict it.

    complete: whether all hatchlings of the clutch could be read; if not, they are not counted.
    """

    def error(column: str, found: str, needed: str, advice: str) -> Finding:
        return Finding("error", clutch.row, column, found, needed, advice, clutch.id)

    mend = "mend the parent or the clutch, here or in the collection"
    for animal in kept:
        if clutch.dam and animal.dam and animal.dam != clutch.dam:
            yield error("dam", f"{_named(animal)} is of this clutch, and its dam is {animal.dam}", clutch.dam, mend)
        if clutch.sires and animal.sire and animal.sire not in clutch.sires:
            needed = " or ".join(clutch.sires)
            yield error("sire", f"{_named(animal)} is of this clutch, and its sire is {animal.sire}", needed, mend)
    sires = {animal.sire: animal for animal in kept if animal.sire in clutch.sires}
    if len(sires) > 1 and not clutch.several:
        found = " and ".join(f"{_named(animal)} is of {sire}" for sire, animal in sires.items())
        advice = f'write "{" and ".join(clutch.sires)}" if the clutch has several sires'
        yield error("sire", found, "one sire for the clutch", advice)
    if complete and (over := _too_many(clutch, kept)):
        yield error(
            "count", over, "a hatchling for each animal kept", "mend a count or sex here, or the animals' clutch"
        )


def loop_findings(
    clutches: Iterable[Clutch], kept: Mapping[str, Sequence[str]], animals: Collection
) -> Iterator[Finding]:
    """Hatchlings that were kept and are ancestors of the clutch that they hatched in."""
    clutches = list(clutches)
    parents: dict[str, set[str]] = {one.id: {key for key in (one.sire, one.dam) if key} for one in animals}
    for clutch in clutches:
        for key in kept[clutch.id]:
            parents[key] |= {parent for _, parent in _parents(clutch)}
    for clutch in clutches:
        for role, parent in _parents(clutch):
            above = _ancestors(parent, parents)
            for key in kept[clutch.id]:
                if key in above:
                    is_what = f"its {role}" if key == parent else f"an ancestor of its {role} {parent}"
                    found = f"{_named(animals[key])} hatched in this clutch, and is {is_what}"
                    advice = "mend the parents here, or the animal's clutch"
                    yield Finding("error", clutch.row, role, found, "a parent from before", advice, clutch.id)


def _parents(clutch: Clutch) -> list[tuple[str, str]]:
    return [("dam", key) for key in (clutch.dam,) if key] + [("sire", key) for key in clutch.sires]


def _ancestors(key: str, parents: Mapping[str, set[str]]) -> set[str]:
    """The animal itself and all before it."""
    found: set[str] = set()
    ahead = {key}
    while ahead:
        found |= ahead
        ahead = {parent for one in ahead for parent in parents[one]} - found
    return found


def _too_many(clutch: Clutch, kept: Sequence[Animal]) -> str:
    """What is wrong if there are more animals of a sex, or in all, than hatchlings that they can be."""
    for sexes, words in ((("female",), " female"), (("male",), " male"), (("female", "male", None), "")):
        here = [animal for animal in kept if animal.sex in sexes]
        room = sum(row.count for row in clutch.hatchlings if row.sex is None or row.sex in sexes)
        if len(here) > room:
            names = ", ".join(animal.id for animal in here)
            written = "1 such hatchling is written" if room == 1 else f"{room or 'no'} such hatchlings are written"
            many = "animal is" if len(here) == 1 else "animals are"
            return f"{len(here)}{words} {many} of this clutch ({names}), and {written}"
    return ""


def _age(hatched: date, day: date) -> str:
    days = (day - hatched).days
    return "1 day" if days == 1 else f"{days} days"


def _named(animal: Animal) -> str:
    return f"{animal.id} (row {animal.row} of the collection)"
