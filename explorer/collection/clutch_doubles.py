"""What may have been written down twice, or under two names, in a clutch book: all as notices."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from .animals import Collection
from .clutch import Clutch
from .findings import Finding
from .observations import same

__all__ = ["double_findings", "unclaimed_findings"]


def double_findings(clutches: Sequence[Clutch], animals: Collection) -> Iterator[Finding]:
    """Clutches that may be one, names that differ in capitals alone, and rows of a clutch that say the same."""
    for one, two in combinations(clutches, 2):
        if one.id.casefold() == two.id.casefold():
            advice = "write the name in one way if it is one clutch; until then they are two"
            yield _notice(two, "clutch", f"{two.id} and {one.id} (row {one.row}) differ in capitals alone", advice)
        elif (one.laid or one.hatched) and _same_laying(one, two):
            found = f"{two.id} has the same parents, days and eggs as {one.id} (row {one.row})"
            yield _notice(two, "clutch", found, "delete one if it was written down twice; until then both count")
    for clutch in clutches:
        for row, other in combinations(clutch.hatchlings, 2):
            if same(row, other) and row.count == other.count:
                found = f"rows {row.row} and {other.row} of {clutch.id} say the same, and count as {2 * row.count}"
                yield _notice(clutch, "count", found, "delete one if it was pasted twice", other.row)
    names = {clutch.id.casefold(): clutch for clutch in clutches}
    ids = {clutch.id for clutch in clutches}
    for animal in animals:
        near = names.get(animal.clutch.casefold())
        if near is not None and animal.clutch not in ids:
            found = f"{animal.id} is of a clutch {animal.clutch} in the collection, and here is a clutch {near.id}"
            advice = "write the name in one way if it is one clutch; until then they are two"
            yield _notice(near, "clutch", found, advice)


def unclaimed_findings(clutches: Sequence[Clutch], animals: Collection) -> Iterator[Finding]:
    """Animals that name no clutch, and have the parents and the day of hatching of one: it may count them twice."""
    for animal in animals:
        for clutch in clutches if not animal.clutch and animal.hatched and animal.dam and animal.sire else ():
            parents = animal.dam == clutch.dam and animal.sire in clutch.sires
            if parents and animal.hatched == clutch.hatched:
                found = f"{animal.id} has the parents and the day of hatching of this clutch, and names no clutch"
                advice = f'write "{clutch.id}" into its clutch column if it hatched here; until then it counts apart'
                yield _notice(clutch, "clutch", found, advice)


def _same_laying(one: Clutch, two: Clutch) -> bool:
    keys = ((x.dam, sorted(x.sires), x.laid, x.hatched, x.eggs) for x in (one, two))
    return bool(one.dam) and next(keys) == next(keys)


def _notice(clutch: Clutch, column: str, found: str, advice: str, row: int | None = None) -> Finding:
    return Finding("notice", row or clutch.row, column, found, "", advice, clutch.id)
