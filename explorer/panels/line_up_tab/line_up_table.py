"""The line-up of one animal as a table to sort and to tick. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from ...looks import Verdict, caution_text
from ...notation import write_genes
from ...pairing import LineUp, LineUpRow, mean_text, percent
from ...pictures.line_up_shades import tints
from ..choosing import name_of

__all__ = ["cautions_of", "line_up_columns", "line_up_rows", "related_words", "said_of"]

SHADED = ("egg", "clutch", "expected", "progress")


def line_up_columns(rows: Sequence[LineUpRow]) -> list[dict[str, str]]:
    """The head of the table; what comes nearest has a column if some pairing cannot give all that is looked for."""
    nearest = [{"key": "nearest", "label": "nearest look", "kind": "text"}]
    return [
        {"key": "mate", "label": "beside", "kind": "text"},
        {"key": "egg", "label": "egg", "kind": "number"},
        {"key": "clutch", "label": "clutch", "kind": "number"},
        {"key": "expected", "label": "expected", "kind": "number"},
        {"key": "progress", "label": "progress", "kind": "number"},
        *(nearest if any(row.nearest.missing for row in rows) else []),
        {"key": "likeliest", "label": "likeliest looks", "kind": "lines"},
        {"key": "related", "label": "related", "kind": "text"},
        {"key": "ready", "label": "ready", "kind": "text"},
        {"key": "genes", "label": "helps, spoils", "kind": "lines"},
        {"key": "cautions", "label": "cautions", "kind": "lines"},
    ]


def line_up_rows(line: LineUp, rows: Sequence[LineUpRow]) -> list[dict[str, Any]]:
    """The rows that are shown, in the order of the line-up; numbers are shaded within their column."""
    columns = zip(*(tints(list(values)) for values in zip(*map(_numbers, rows), strict=True)), strict=True)
    return [_row(line, row, dict(zip(SHADED, shades, strict=True))) for row, shades in zip(rows, columns, strict=True)]


def cautions_of(row: LineUpRow) -> tuple[str, ...]:
    """The cautions of a pairing, and those on the mate that none of the hatchlings meets."""
    met = {item.caution for item in row.cautions}
    own = [caution for caution in row.readiness.cautions if caution not in met]
    return (*row.remarks, *(f"{caution_text(caution)} (on {name_of(row.mate)})" for caution in own))


def related_words(row: LineUpRow) -> str:
    """The relation, and the inbreeding of the offspring if there is any on record."""
    found = row.relation
    return f"{found.words}: {percent(found.kinship)}" if found.kinship else found.words


def said_of(verdicts: Iterable[Verdict]) -> list[str]:
    """Each verdict with its evidence."""
    return [f"{verdict.reason} [{verdict.evidence}]" for verdict in verdicts]


def _numbers(row: LineUpRow) -> tuple[Any, ...]:
    return row.per_egg, row.per_clutch, row.expected, row.progress


def _row(line: LineUp, row: LineUpRow, shades: Mapping[str, tuple[str, str]]) -> dict[str, Any]:
    cautions = cautions_of(row)
    helps, spoils = [one.reason for one in row.helps], [one.reason for one in row.spoils]
    return {
        "id": row.mate.id,
        "mate": name_of(row.mate),
        "word": write_genes(row.mate.genotype),
        "egg": percent(row.per_egg),
        "clutch": percent(row.per_clutch),
        "expected": mean_text(row.expected),
        "progress": mean_text(row.progress),
        "nearest": f"{row.nearest.look}: {percent(row.nearest.chance)}" if row.nearest.look else "nothing of it",
        "likeliest": "\n".join(f"{percent(chance)} {look}" for look, chance in row.likeliest) or "nothing hatches",
        "related": related_words(row),
        "ready": line.words(row),
        "genes": "\n".join((*_first("helps", helps), *_first("spoils", spoils))) or "neither",
        "cautions": "\n".join(cautions) or "none recorded",
        "mark": "not-ready" if not row.ready else "caution" if cautions else "",
        "shades": {key: shades[key] for key, value in zip(SHADED, _numbers(row), strict=True) if value},
        "order": {
            "egg": float(row.per_egg),
            "clutch": float(row.per_clutch),
            "expected": float(row.expected),
            "progress": float(row.progress),
            "nearest": float(row.nearest.chance),
            "likeliest": float(row.likeliest[0][1]) if row.likeliest else 0.0,
            "related": float(row.relation.kinship),
            "ready": row.readiness.season or 99 if not row.ready else 0,
            "cautions": len(cautions),
        },
    }


def _first(what: str, said: Sequence[str]) -> list[str]:
    return [f"{what}: {said[0]}", *([f"and {len(said) - 1} more"] if len(said) > 1 else [])] if said else []
