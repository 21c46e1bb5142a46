"""The answer of a line-up in a sentence or two. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from ..notation import names_in_words
from ..pairing import LineUp, LineUpRow, one_in, percent
from .choosing import name_of
from .line_up_aim import Aim

__all__ = ["answer_of"]

Figure = Callable[[LineUpRow], object]

MOST_NAMED = 3
"""How many animals that do equally well are named; more are counted."""


def answer_of(line: LineUp, rows: Sequence[LineUpRow], aim: Aim) -> str:
    """Who does best, and what else weighs: that another would do better later, or that the best are close kin."""
    fit = [row for row in rows if _fit(row)]
    later = [row for row in rows if not _fit(row)]
    if not fit:
        who = "male" if line.animal.sex == "female" else "female"
        start = f"No {who} here can be put to {name_of(line.animal)} this season."
        return f"{start}{_sooner(later, None, aim)}"
    best = fit[0]
    if best.per_clutch:
        return f"{_best(line, fit, aim)}{_but(line, best, fit, later, aim)}"
    start = f"{_called(line)} cannot give {aim.look} with any of them{_now(line)}."
    if not best.progress:
        return f"{start} None brings it nearer.{_sooner(later, best, aim)}"
    verb = "brings" if _now(line) else "would bring"
    near = f"{name_of(best.mate)} {verb} it nearest: {_nearest(best)}."
    return f"{start} {near}{_but(line, best, fit, later, aim)}"


def _best(line: LineUp, fit: Sequence[LineUpRow], aim: Aim) -> str:
    best = fit[0]
    equal = [row for row in fit if row.per_clutch == best.per_clutch]
    if len(equal) > MOST_NAMED:
        who, verb = f"{len(equal)} of them", "give"
    else:
        who, verb = names_in_words(name_of(row.mate) for row in equal), "gives" if len(equal) == 1 else "give"
    if not line.readiness.ready or line.readiness.barred:
        verb = "would give"
    same = "" if len(equal) == 1 else " each"
    odds = f"{one_in(best.per_egg)} an egg, {percent(best.per_clutch)} a clutch{same}"
    return f"{who} {verb} the best chance of {aim.look} with {name_of(line.animal)}: {odds}."


def _but(line: LineUp, best: LineUpRow, fit: Sequence[LineUpRow], later: Sequence[LineUpRow], aim: Aim) -> str:
    """What speaks for somebody else, the weightiest only."""
    sooner = _sooner(later, best, aim)
    if sooner or not best.relation.kinship:
        return sooner
    kin = f" But the two are kin ({best.relation.words}, {percent(best.relation.kinship)})"
    other = next((row for row in fit if not row.relation.kinship and row.progress), None)
    if other is None:
        return f"{kin}."
    odds = f"{one_in(other.per_egg)} an egg" if best.per_egg else _nearest(other)
    return f"{kin}; {name_of(other.mate)} is the best that is not, as far as is recorded: {odds}."


def _sooner(later: Iterable[LineUpRow], best: LineUpRow | None, aim: Aim) -> str:
    """Who would do better, but cannot be paired this season."""
    ahead = [row for row in later if not row.kept_out and _measure(row) > (_measure(best) if best else (0, 0))]
    if not ahead:
        return ""
    row = max(ahead, key=_measure)
    if row.per_egg:
        what = f"would give {aim.look}" if best is None or not best.per_clutch else "would do better"
        return f" {name_of(row.mate)} {what} ({one_in(row.per_egg)} an egg), but {_why_not(row)}."
    return f" {name_of(row.mate)} would bring it nearer ({_nearest(row)}), but {_why_not(row)}."


def _nearest(row: LineUpRow) -> str:
    near = row.nearest
    if not near.look:
        return "its hatchlings carry more of it, unseen"
    said = one_in(near.chance)
    return f"{said} {'shows' if said.startswith(('1 in', 'every')) else 'show'} {near.look}"


def _why_not(row: LineUpRow) -> str:
    state = row.readiness
    if state.ready and state.barred:
        return "is kept out by a caution"
    if state.about:
        return f"is not ready before {state.about}"
    return f"is not ready: {', '.join(state.reasons)}"


def _measure(row: LineUpRow) -> tuple[object, object]:
    return row.per_clutch, row.progress


def _fit(row: LineUpRow) -> bool:
    """Whether the mate could be paired now and no caution keeps the pairing out."""
    return row.readiness.ready and not row.readiness.barred and not row.kept_out


def _called(line: LineUp) -> str:
    return name_of(line.animal)


def _now(line: LineUp) -> str:
    return "" if not line.readiness.ready or line.readiness.barred else " this season"
