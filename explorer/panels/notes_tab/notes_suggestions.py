"""Which genes would add most to those that are set side by side, as rows of a table."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from ...looks import Suggestion, caution_text, suggestions
from ...notation import genes_named
from ...pairing import gain_text
from ..desk import Desk

__all__ = ["COLUMNS", "suggestion_rows"]

MOST = 12
"""How many genes are suggested of the collection, and how many of all others."""

COLUMNS: tuple[dict[str, str], ...] = (
    {"key": "gene", "label": "gene", "kind": "text"},
    {"key": "yours", "label": "yours", "kind": "short"},
    {"key": "gain", "label": "adds", "kind": "number"},
    {"key": "helps", "label": "helps most", "kind": "text"},
    {"key": "spoils", "label": "spoils most", "kind": "text"},
    {"key": "cautions", "label": "cautions", "kind": "text"},
)


def suggestion_rows(desk: Desk, look: Mapping[str, int], collected: Collection[str]) -> list[dict[str, Any]]:
    """A row a gene, those of the collection first, each part by falling gain; the row's id is the gene's name."""
    found = suggestions(
        look,
        desk.catalogue,
        taste=desk.taste,
        opinions=desk.opinions,
        allow=genes_named(desk.allow, desk.catalogue, (gene.name for gene in desk.catalogue.genes)),
    )
    mine, others = ([one for one in found if (one.gene in collected) is here] for here in (True, False))
    return [_row(one, "yes") for one in mine[:MOST]] + [_row(one, "no") for one in others[:MOST]]


def _row(one: Suggestion, yours: str) -> dict[str, Any]:
    cautions = "; ".join(map(caution_text, one.cautions))
    return {
        "id": one.gene,
        "gene": one.form,
        "yours": yours,
        "gain": gain_text(one.gain) if one.established else "not established",
        "helps": one.helps[0].reason if one.helps else "",
        "spoils": one.clashes[0].reason if one.clashes else "",
        "cautions": f"kept out of plans: {cautions}" if one.kept_out else cautions,
        "order": {"gain": float(one.gain) if one.established else None},
        "mark": "caution" if one.cautions else "",
    }
