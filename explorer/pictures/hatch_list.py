"""A clutch as a page to print: each hatchling with its label, the parents, and the cautions. HTML as text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from .printed_page import printed_page, untouched

__all__ = ["Listed", "hatch_list", "untouched"]

STYLE = "td:nth-child(2) { font-weight: 600 }\n"


@dataclass(frozen=True)
class Listed:
    """One hatchling. number: its place in the list, or its id; label: what it carries, in shorthand; note: or ""."""

    number: str
    label: str
    sex: str
    cautions: tuple[str, ...] = ()
    note: str = ""


def hatch_list(
    title: str, facts: Iterable[tuple[str, str]], hatchlings: Sequence[Listed], remarks: Iterable[str]
) -> str:
    """The page, with the seal of `printed_page`; every text is escaped.

    facts: (what, text) of the clutch; remarks: paragraphs beneath the table.
    """
    about = "".join(f"<dt>{escape(what)}</dt><dd>{escape(text)}</dd>" for what, text in facts)
    head = "".join(f'<th scope="col">{name}</th>' for name in ("no.", "label", "sex", "cautions"))
    rows = "".join(_row(one) for one in hatchlings)
    below = "".join(f"<p>{escape(text)}</p>" for text in remarks)
    table = f"<table>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>"
    return printed_page(title, STYLE, f"<dl>{about}</dl>\n{table}\n{below}")


def _row(one: Listed) -> str:
    note = f" ({escape(one.note)})" if one.note else ""
    cautions = "<br>".join(escape(text) for text in one.cautions) or "none recorded"
    return (
        f'<tr><th scope="row">{escape(one.number)}</th><td>{escape(one.label)}{note}</td>'
        f"<td>{escape(one.sex)}</td><td>{cautions}</td></tr>\n"
    )
