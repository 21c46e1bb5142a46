"""Days from laying to hatching at a temperature, as far as figures go, and the table of those figures."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

import pandas as pd

from ..catalogue import Catalogue, Evidence, Figure, load_catalogue
from ..genetics import exact

__all__ = ["Incubation", "incubation", "incubation_table", "short_evidence"]

COLDEST, WARMEST = 20, 40
"""Degrees Celsius: outside these nothing is said."""

COOL, WARM = "laying_to_hatching_cool_days", "laying_to_hatching_days"
COOL_C, WARM_C, LIMIT_C = "incubation_cool_c", "incubation_warm_c", "incubation_limit_c"
COLONIES = ("incubation_colony_early_c", "incubation_colony_late_c")
COLUMNS = ["celsius_low", "celsius_high", "days_low", "days_high", "source", "note"]


@dataclass(frozen=True)
class Incubation:
    """Days from laying to hatching at so many degrees Celsius. low, high: None where no figure bounds them. source: how
    they are known. caution: what speaks against the temperature, "" if nothing does."""

    celsius: Fraction
    low: int | None
    high: int | None
    source: str
    note: str = ""
    caution: str = ""

    @property
    def likely(self) -> int | None:
        """The middle of the two, since no likeliest figure is known; half a day is rounded up."""
        return None if self.low is None or self.high is None else (self.low + self.high + 1) // 2


def incubation(celsius: float | Fraction | None = None, catalogue: Catalogue | None = None) -> Incubation:
    """What the figures say of a temperature, by default the catalogue's.

    Between the two temperatures that figures are stated for, days are interpolated, and rounded outwards. Below the
    lower only the least is known and from the limit on only the most; neither is extrapolated. Raises ValueError for a
    temperature that is none of an incubator, below 20 or above 40.
    """
    book = catalogue or load_catalogue()

    def figure(name: str) -> Figure:
        return book.figure(name)

    degrees = figure("incubation_c").value if celsius is None else exact(celsius)
    if not COLDEST <= degrees <= WARMEST:
        raise ValueError(f"incubation_c: needed degrees Celsius from {COLDEST} to {WARMEST}; found {celsius!r}")
    cool_c, limit_c = figure(COOL_C).value, figure(LIMIT_C).value
    warm_c, top_c = figure(f"{WARM_C}_low").value, figure(f"{WARM_C}_high").value
    cool_low, cool_high = figure(f"{COOL}_low").value, figure(f"{COOL}_high").value
    warm_low, warm_high = figure(f"{WARM}_low").value, figure(f"{WARM}_high").value
    cool, warm = short_evidence(figure(f"{COOL}_low").evidence), short_evidence(figure(f"{WARM}_low").evidence)
    if degrees < cool_c:
        note = f"no figure below {_said(cool_c)} C: not sooner than there, how much later is not known"
        return Incubation(degrees, floor(cool_low), None, cool, note)
    if degrees >= limit_c:
        note = f"no figure from {_said(limit_c)} C on: not later than at {_said(top_c)} C"
        known = short_evidence(figure(LIMIT_C).evidence)
        caution = f"stay below {_said(limit_c)} C: heat is blamed for kinks ({known})"
        return Incubation(degrees, None, ceil(warm_high), warm, note, caution)
    if degrees == cool_c:
        return Incubation(degrees, floor(cool_low), ceil(cool_high), cool)
    share = min(Fraction(1), (degrees - cool_c) / (warm_c - cool_c))
    low, high = cool_low + share * (warm_low - cool_low), cool_high + share * (warm_high - cool_high)
    if share < 1:
        note = f"in between what is said of {_said(cool_c)} C and of {_said(warm_c)} C"
        return Incubation(degrees, floor(low), ceil(high), f"between {cool} and {warm}", note)
    note = f"no figure above {_said(top_c)} C: taken as there" if degrees > top_c else ""
    return Incubation(degrees, floor(low), ceil(high), warm, note)


def incubation_table(catalogue: Catalogue | None = None) -> pd.DataFrame:
    """The figures there are, the coolest first: celsius_low, celsius_high, days_low, days_high (missing where no days
    are stated), source, note."""
    book = catalogue or load_catalogue()
    spans = [(COOL_C, COOL_C, COOL), (f"{WARM_C}_low", f"{WARM_C}_high", WARM)]
    spans += [(f"{name}_low", f"{name}_high", "") for name in COLONIES]
    rows = []
    for low, high, days in [*spans, (LIMIT_C, LIMIT_C, "")]:
        least, most = book.figure(low), book.figure(high)
        stated = [int(book.figure(f"{days}_{end}").value) for end in ("low", "high")] if days else [None, None]
        row = [float(least.value), float(most.value), *stated, short_evidence(least.evidence)]
        rows.append([*row, "" if days else least.evidence.note])
    table = pd.DataFrame(rows, columns=COLUMNS).astype({"days_low": "Int64", "days_high": "Int64"})
    return table.sort_values(["celsius_low", "celsius_high"], ignore_index=True)


def short_evidence(evidence: Evidence) -> str:
    """How something is known, without the note on it."""
    return f"published: {', '.join(evidence.sources)}" if evidence.sources else evidence.kind


def _said(degrees: Fraction) -> str:
    return f"{float(degrees):g}"
