"""What a clutch tells, and why a hatchling is worth holding back, in plain sentences. No widgets, no HTML."""

from __future__ import annotations

from collections.abc import Sequence

from ...notation import capital
from ...notation.figures import percent
from ...pairing import names_in_words, number_word, score_text
from ...pairing.holdbacks import Holdback
from ...pairing.learning import Change, Claim

__all__ = ["reason_in_words", "told_in_words"]

MOST_SAID = 3
"""How many things that are proved are said in the sentence; the table beneath it has them all."""


def told_in_words(changes: Sequence[Change], parents: Sequence[str]) -> str:
    """What a clutch proves or makes likelier, and how many animals changed. parents: ids that are named first."""
    if not changes:
        return "This clutch tells nothing new: nobody has other chances than without it."
    proved: dict[Claim, list[str]] = {}
    for change in sorted(changes, key=lambda one: parents.index(one.id) if one.id in parents else len(parents)):
        for claim in change.claims:
            if claim.proved:
                alike = next((one for one in proved if one.words() == claim.words()), claim)
                proved.setdefault(alike, []).append(change.id)
    count = f"{capital(number_word(len(changes)))} {'animal' if len(changes) == 1 else 'animals'} changed."
    if not proved:
        return f"This clutch proves nothing for certain. {_likelier(changes[0])} {count}"
    said = [f"{names_in_words(ids)} {claim.words(len(ids) > 1)}" for claim, ids in proved.items()]
    more = len(said) - MOST_SAID
    rest = [f"{number_word(more)} more"] if more > 0 else []
    return f"This clutch proves {names_in_words([*said[:MOST_SAID], *rest])}. {count}"


def reason_in_words(one: Holdback) -> str:
    """What a hatchling has of the target and what it lacks, and how well it meets the taste."""
    if one.barred:
        return f"shows {names_in_words(one.barred)}, which must not show"
    sure = [gene for gene, chance in one.hidden if chance == 1]
    maybe = [f"{gene} ({percent(chance)})" for gene, chance in one.hidden if 0 < chance < 1]
    lacks = [gene for gene, chance in one.hidden if not chance]
    parts = []
    if one.closeness == 1:
        parts.append("shows the whole target")
    elif one.shows:
        parts.append(f"shows {names_in_words(one.shows)}")
    if sure or maybe:
        parts.append(f"carries {names_in_words([*sure, *maybe])}")
    if not parts:
        return "brings nothing of the target"
    parts += [f"lacks {names_in_words(lacks)}"] if lacks else []
    return "; ".join([*parts, score_text(one.stack.score)])


def _likelier(change: Change) -> str:
    return f"The greatest change is of {change.id}: {change.before} before, {change.after} now."
