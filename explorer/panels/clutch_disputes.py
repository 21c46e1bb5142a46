"""Where a clutch contradicts the records, and who could be wrong, in plain sentences. No widgets, no HTML."""

from __future__ import annotations

from ..collection import Collection, CollectionError, Finding
from ..collection.blame import suspects
from ..collection.told import Dispute
from ..pairing import percent

__all__ = ["Contradiction", "contradiction", "dispute_in_words", "fresh_disputes"]


class Contradiction(CollectionError):
    """A clutch was not written, since it cannot be true together with the records. `findings` say who could be wrong.

    Every file is as it was.
    """


def fresh_disputes(before: Collection, after: Collection, key: str) -> tuple[Dispute, ...]:
    """What cannot be true once a clutch is taken into account: what is said of it, and what is new of the others.

    before, after: the animals without it, or as it was, and with it. key: its name.
    """
    old = {(one.clutch.id, one.group) for one in before.knowledge.disputes}
    found = after.knowledge.disputes
    return tuple(one for one in found if one.clutch.id == key or (one.clutch.id, one.group) not in old)


def dispute_in_words(animals: Collection, one: Dispute, key: str) -> str:
    """Where it is and who could be wrong. key: the clutch that is spoken of already; any other is named."""
    rate = animals.catalogue.figure("misrecording_rate").value
    blamed = "; ".join(f"{who} {percent(chance)}" for who, chance in suspects(animals.knowledge, one, rate))
    who = f"who could be wrong, if {percent(rate)} of records are: {blamed}" if blamed else "no sire fits"
    if one.clutch.id != key:
        return f"clutch {one.clutch.id}{f', at {one.group}' if one.group else ''}: {who}"
    return f"{f'at {one.group}' if one.group else 'the whole clutch'}: {who}"


def contradiction(animals: Collection, disputes: tuple[Dispute, ...], key: str) -> Contradiction:
    """The refusal of a clutch. animals: with it taken into account."""
    said = (dispute_in_words(animals, one, key) for one in disputes)
    return Contradiction((Finding("error", None, "", text, "", "") for text in said), f"clutch {key}")
