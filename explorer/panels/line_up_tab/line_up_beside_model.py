"""Two or three pairings of a line-up side by side. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ...looks import look_remarks
from ...notation import capital, names_in_words, read_wanted, write_genes
from ...pairing import (
    LineUp,
    LineUpRow,
    lacking_in_words,
    look_closeness,
    look_count,
    mean_text,
    one_in,
    percent,
)
from ...pictures.line_up_beside import Beside, Look
from ..choosing import name_of
from .line_up_aim import Aim
from .line_up_table import cautions_of, related_words, said_of

__all__ = ["MOST_BESIDE", "beside_caption", "beside_looks", "beside_pairings"]

MOST_BESIDE = 3
"""How many pairings fit side by side."""

LOOKS_READ = 8
"""How many of the likeliest looks of each pairing are drawn."""

MOST_LOOKS = 14


def beside_looks(rows: Sequence[LineUpRow], aim: Aim) -> tuple[tuple[Look, ...], tuple[str, ...]]:
    """The likeliest looks of all of them, in one order, each with its chance in every pairing; and for each pairing
    what is left. What is nearest to the look that is wanted always has a row.
    """
    chances: dict[str, tuple[Fraction, ...]] = {}
    names = [look for row in rows for look in row.odds.top_looks(LOOKS_READ)["look"]]
    for name in dict.fromkeys((*names, *(row.nearest.look for row in rows if row.nearest.look))):
        found = tuple(row.odds.chance(name, exactly=True) for row in rows)
        if any(found):
            chances[name] = found
    looks = [_look(rows[0], name, found, aim) for name, found in chances.items()]
    looks.sort(key=lambda look: (-max(look.chances), -look.closeness, look.name))
    drawn = _fitted(looks)
    left = []
    for at, row in enumerate(rows):
        more = look_count(row.odds) - sum(bool(look.chances[at]) for look in drawn)
        left.append(f"and {more:,} more" if more else "")
    return tuple(drawn), tuple(left)


def beside_pairings(line: LineUp, rows: Sequence[LineUpRow], aim: Aim) -> tuple[Beside, ...]:
    """Each pairing with its facts, the same for all."""
    return tuple(_pairing(line, row, aim) for row in rows)


def beside_caption(line: LineUp, rows: Sequence[LineUpRow]) -> str:
    """What stands side by side."""
    return f"What could hatch from {name_of(line.animal)} with {names_in_words(name_of(row.mate) for row in rows)}"


def _look(row: LineUpRow, name: str, chances: tuple[Fraction, ...], aim: Aim) -> Look:
    catalogue = row.odds.catalogue
    remarks = look_remarks(catalogue, read_wanted(name, catalogue))
    return Look(name, look_closeness(row.odds, name, aim.look, aim.without), chances, bool(remarks))


def _fitted(looks: list[Look]) -> list[Look]:
    shown = looks[:MOST_LOOKS]
    near = max(looks, key=lambda look: look.closeness, default=None)
    if near is not None and near.closeness > max(look.closeness for look in shown):
        shown[-1] = near
    return shown


def _per_egg(row: LineUpRow, aim: Aim) -> str:
    if row.per_egg:
        return f"{one_in(row.per_egg)} an egg ({percent(row.per_egg)})"
    return f"0 %: {lacking_in_words(row.nearest, aim.without)}"


def _pairing(line: LineUp, row: LineUpRow, aim: Aim) -> Beside:
    near = row.nearest
    nearest = f"{near.look}: {one_in(near.chance)} an egg" if near.look else "Nothing of it can show."
    return Beside(
        f"with {name_of(row.mate)}",
        write_genes(row.mate.genotype),
        "" if row.ready else f"Cannot be paired this season: {line.words(row)}.",
        (
            (aim.look, (_per_egg(row, aim),)),
            ("at least one in a clutch", (percent(row.per_clutch),)),
            ("expected in a clutch", (mean_text(row.expected),)),
            ("progress", (mean_text(row.progress),)),
            ("nearest look", (nearest,)),
            ("related", (capital(related_words(row)),)),
            ("helps", tuple(said_of(row.helps)) or ("No two genes of the nearest look do.",)),
            ("spoils", tuple(said_of(row.spoils)) or ("No two genes of the nearest look do.",)),
            ("cautions", cautions_of(row) or ("None is recorded for this pair.",)),
        ),
    )
