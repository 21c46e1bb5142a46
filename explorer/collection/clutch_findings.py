"""What the clutch book says that cannot be true or could not be used, as findings, with who could be wrong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from ..notation.figures import percent
from .blame import suspects
from .clutch import Clutch
from .findings import Finding
from .knowledge import Knowledge

__all__ = ["clutch_findings"]


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
    stated = knowledge.catalogue.figures.get("misrecording_rate")
    rate = stated.value if stated else Fraction(0)
    for dispute in knowledge.disputes:
        place = f" at {dispute.group}" if dispute.group else ""
        blamed = "; ".join(f"{name} ({percent(chance)})" for name, chance in suspects(knowledge, dispute, rate))
        who = f"who could be wrong, if {percent(rate)} of records are: {blamed}" if blamed else "none of its sires fits"
        found.append(
            notice(
                f"clutch {dispute.clutch.id}{place} cannot be as it is written, given the records of the animals",
                f"{who}. Until it is mended the clutch is left out of account there",
            )
        )
    return tuple(found)
