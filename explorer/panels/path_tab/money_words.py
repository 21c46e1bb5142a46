"""Amounts of money in words, and the answer on an animal on offer. No widgets, no HTML."""

from __future__ import annotations

from fractions import Fraction
from math import inf, isinf

from ...husbandry import Husbandry, season_name
from ...looks import caution_text
from ...notation import capital
from ...pairing import names_in_words, one_in, percent
from ...planner.buying import Help, least_mean, soonest_of, surest

__all__ = ["SEARCHED", "answer", "cautions_in_words", "money", "remarks"]

SEARCHED = "Each figure is of the best path for it, as far as the search found; it does not try every path."
WHOLE = 100
"""Amounts from here up are said without cents."""


def money(amount: Fraction, currency: str = "") -> str:
    """An amount with the keeper's own label: "1,234 kr", "49.50"; "0" only if exact."""
    if 0 < amount < Fraction(1, 100):
        text = "<0.01"
    elif amount >= WHOLE or amount.denominator == 1:
        text = f"{int(amount + Fraction(1, 2)):,}"
    else:
        text = f"{float(amount):,.2f}"
    return f"{text} {currency}".rstrip()


def answer(found: Help, horizon: int, start: int, care: Husbandry, price: str = "") -> str:
    """Whether it would help, in a sentence.

    horizon: number of seasons. start: the year in which season 1 starts. price: what it costs, in words; "" if that is
    not stated.
    """
    owners = [key for path in found.before for key in path.owners]
    spent = f", for {price}" if price else ""
    if owners:
        return f"No gain: {names_in_words(owners)} {'shows' if len(owners) == 1 else 'show'} the target already."
    if found.shows:
        return f"It would be the target itself{spent}: it shows all that is wanted, and nothing has to be bred."
    if found.missing:
        return f"No gain: even with it, no kept animal carries {found.missing}."
    if not found.helps:
        return f"No gain: {_why_none(found)}."
    if not found.before:
        none = f"no kept animal carries {found.missing_before}" if found.missing_before else "the search found none"
        soonest = soonest_of(found.using)
        return (
            f"It would open a way{spent}: without it there is no path within {_seasons(horizon)} ({none}); with it the "
            f"chance is {percent(surest(found.using))} by season {horizon}, and the soonest is season {soonest} "
            f"({season_name(start + soonest - 1, care)})."
        )
    return f"It would help{spent}: {'; '.join(_gains(found, horizon))}."


def remarks(found: Help, start: int, care: Husbandry) -> tuple[str, ...]:
    """What the answer rests on, one sentence each."""
    lines = list(found.animal.genotype.notices)
    lines += [f"It carries {gene} with a chance of {one_in(chance)}; the figures have that in." for gene, chance in
              found.possible]
    state = found.ready
    if not state.ready:
        when = f"it is planned from season {season_name(start + state.season - 1, care)}" if state.season else (
            "it cannot be said when it may breed"
        )
        lines.append(f"{capital(', '.join(state.reasons))}: {when}.")
    if not found.shows:
        lines.append("Nothing is known of its parents, so it counts as unrelated to all others.")
        lines.append(SEARCHED)
    return tuple(lines)


def cautions_in_words(found: Help) -> tuple[str, ...]:
    """The cautions on the animal, with their evidence."""
    return tuple(caution_text(caution) for caution in found.ready.cautions)


def _why_none(found: Help) -> str:
    if found.ready.barred:
        return "a caution keeps it out of plans, so it would not be paired unless you allow it"
    if not found.using:
        return "the search found no path that uses it"
    return "the search found no path with it that is sooner or surer than those without"


def _gains(found: Help, horizon: int) -> list[str]:
    said = []
    before, using = least_mean(found.before), least_mean(found.using)
    if isinf(found.seasons_sooner):
        said.append(f"without it the target may never come, with it it comes in the end (mean season {using:.1f})")
    elif found.seasons_sooner:
        by = f"{found.seasons_sooner:.1f}" if found.seasons_sooner >= 0.05 else "less than 0.1"
        seasons = "season" if by == "1.0" else "seasons"
        said.append(f"{by} {seasons} sooner on average (mean season {using:.1f} instead of {before:.1f})")
    if found.soonest_sooner:
        said.append(f"at the soonest in season {soonest_of(found.using)} instead of {soonest_of(found.before)}")
    if found.surer:
        points = percent(found.surer).removesuffix(" %")
        now, then = percent(surest(found.using)), percent(surest(found.before))
        said.append(f"surer by {points} percentage points by season {horizon} ({now} instead of {then})")
    if before == inf and using == inf:
        said.append("with it, too, the target may never come")
    return said


def _seasons(number: int) -> str:
    return "1 season" if number == 1 else f"{number} seasons"
