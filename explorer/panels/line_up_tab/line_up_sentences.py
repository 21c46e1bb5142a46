"""The answer of a line-up in a sentence or two. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ...notation import names_in_words
from ...pairing import LineUp, LineUpRow, one_in, percent
from ..choosing import name_of
from .line_up_aim import Aim

__all__ = ["answer_of"]

MOST_NAMED = 3
"""How many animals that do equally well are named; more are counted."""


def answer_of(line: LineUp, rows: Sequence[LineUpRow], aim: Aim) -> str:
    """Who does best, and what else weighs: that the two are kin, that another would do better but is not ready."""
    fit = [row for row in rows if _fit(row)]
    later = [row for row in rows if not _fit(row)]
    alone, now = name_of(line.animal), _fit_itself(line)
    if not fit:
        who = "male" if line.animal.sex == "female" else "female"
        return f"No {who} here can be put to {alone} this season.{_later(later, None, aim)}"
    best = fit[0]
    if best.per_clutch:
        equal = [row for row in fit if row.per_clutch == best.per_clutch]
        who, verb = _who(equal), "would give" if not now else "gives" if len(equal) == 1 else "give"
        odds = f"{one_in(best.per_egg)} an egg, {percent(best.per_clutch)} a clutch"
        answer = f"{who} {verb} {alone} the best chance of {aim.name} ({odds}){_kin(best, fit)}."
        return f"{answer}{_later(later, best, aim)}"
    start = f"{alone} {'cannot give' if now else 'could not give'} {aim.name}{' this season' if now else ''}"
    if not best.progress:
        return f"{start}, nor a hatchling nearer to it than its parents.{_later(later, best, aim)}"
    near = f"Nearest with {name_of(best.mate)}: {_nearest(best)}{_kin(best, fit)}"
    return f"{start}. {near}.{_later(later, best, aim)}"


def _who(equal: Sequence[LineUpRow]) -> str:
    if len(equal) <= MOST_NAMED:
        return names_in_words(name_of(row.mate) for row in equal)
    return f"{name_of(equal[0].mate)} and {len(equal) - 1} more"


def _kin(best: LineUpRow, fit: Sequence[LineUpRow]) -> str:
    """That the best is kin, and who is the best that is not."""
    if not best.relation.kinship:
        return ""
    kin = f", though {_related(best)}"
    other = next((row for row in fit if not row.relation.kinship and row.progress), None)
    if other is None:
        return kin
    odds = f"{one_in(other.per_egg)} an egg" if best.per_egg else _nearest(other)
    return f"{kin}; not related on record: {name_of(other.mate)}, {odds}"


def _related(row: LineUpRow) -> str:
    words = row.relation.words
    return words if " is the " in words else f"they are {words}"


def _later(later: Sequence[LineUpRow], best: LineUpRow | None, aim: Aim) -> str:
    """Who would do better, but cannot be paired this season."""
    least = _measure(best) if best else (Fraction(0), Fraction(0))
    hope = best is None or not best.per_clutch
    ahead = [row for row in later if _measure(row) > least and (hope or not row.kept_out)]
    if not ahead:
        return ""
    row = max(ahead, key=lambda row: (not row.kept_out, _measure(row)))
    if row.per_egg:
        what = f"give {aim.name}" if hope else "do better"
        return f" {name_of(row.mate)} would {what} ({one_in(row.per_egg)} an egg), but {_why_not(row)}."
    return f" {name_of(row.mate)} would come nearer ({_nearest(row)}), but {_why_not(row)}."


def _nearest(row: LineUpRow) -> str:
    near = row.nearest
    if not near.look:
        return "its hatchlings carry more of it, unseen"
    said = one_in(near.chance)
    return f"{said} {'shows' if said.startswith(('1 in', 'about 1 in', 'every')) else 'show'} {near.look}"


def _why_not(row: LineUpRow) -> str:
    state = row.readiness
    if row.kept_out or (state.ready and state.barred):
        return "a caution keeps that out"
    if state.about:
        return f"is not ready before {state.about}"
    return f"is not ready: {', '.join(state.reasons)}"


def _measure(row: LineUpRow) -> tuple[Fraction, Fraction]:
    return row.per_clutch, row.progress


def _fit(row: LineUpRow) -> bool:
    """Whether the mate could be paired now and no caution keeps the pairing out."""
    return row.readiness.ready and not row.readiness.barred and not row.kept_out


def _fit_itself(line: LineUp) -> bool:
    return line.readiness.ready and not line.readiness.barred
