"""What the clutch book says that cannot be true or could not be used, as findings, with who could be wrong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..notation.naming import names_in_words
from .blame import Conflict, blamed_in_words, conflicts
from .clutch import Clutch
from .findings import Finding
from .knowledge import Knowledge

__all__ = ["clutch_findings"]

LISTED = 5
"""The most clutches that are named in one remark on entangled animals."""

GIVEN = "given the records of the animals"


def clutch_findings(
    knowledge: Knowledge, unknown: Sequence[Clutch], rows: Mapping[str, int]
) -> tuple[Finding, ...]:
    """All notices. unknown: clutches with a parent that is no animal here; rows: id -> line of the collection file."""
    told = knowledge.told

    def notice(found: str, advice: str, key: str = "") -> Finding:
        return Finding("notice", rows.get(key), "clutch", found, "", advice, key)

    left_out = "it is left out of account"
    found = [notice(f"clutch {one.id} names an animal that is not here", left_out) for one in unknown]
    for key in told.strangers:
        advice = "check its look and sex in both files; it is not counted among the clutch's hatchlings"
        found.append(notice(f"{key} matches no row of clutch {knowledge.kin[key].clutch}", advice, key))
    for name, key, role in told.misplaced:
        sex = knowledge.kin[key].sex
        found.append(
            notice(
                f"{key} cannot be the {role} of clutch {name}" + (f", being {sex}" if sex else ""),
                "mend its sex, or name another parent; until then the clutch is left out of account",
                key,
            )
        )
    for name in told.crowded:
        advice = "name its sire, or fewer that it may be of; until then it is left out of account"
        found.append(notice(f"clutch {name} may have come about in too many ways", advice))
    for place in dict.fromkeys(place for _, place in knowledge.tangled):
        ids = [name for name, where in knowledge.tangled if where == place]
        named = names_in_words(ids) if len(ids) <= LISTED else f"{', '.join(ids[:LISTED])} and {len(ids) - LISTED} more"
        which = f"clutch {named} is" if len(ids) == 1 else f"clutches {named} are"
        advice = "too many of the animals that may carry it were bred with one another; tests would help"
        found.append(notice(f"{which} left out of account at {knowledge.place(place)}", advice))
    for conflict in conflicts(knowledge, knowledge.rate):
        if conflict.clutches:
            found.append(notice(*_conflict_text(conflict, knowledge.place(conflict.group), knowledge.rate)))
    for dispute in knowledge.disputes:
        if not dispute.group:
            advice = "none of its sires fits at all places. Until it is mended the clutch is left out of account"
            found.append(notice(f"clutch {dispute.clutch.id} cannot be as it is written, {GIVEN}", advice))
    return tuple(found)


def _conflict_text(conflict: Conflict, place: str, rate: Fraction) -> tuple[str, str]:
    ids = [one.id for one in conflict.clutches]
    what = f"clutch {ids[0]}" if len(ids) == 1 else f"clutches {names_in_words(ids)}"
    left, how = ("the clutch is", "it is") if len(ids) == 1 else ("they are", "they are")
    who = blamed_in_words(conflict.suspects, rate) if conflict.suspects else "which record is wrong cannot be told"
    found = f"{what} at {place} cannot be as {how} written, {GIVEN}"
    return found, f"{who}. Until it is mended {left} left out of account there"
