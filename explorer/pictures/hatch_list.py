"""A clutch as a page to print: each hatchling with its label, the parents, and the cautions. HTML as text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from .palette import FAINT, INK, PAPER

__all__ = ["Listed", "hatch_list"]

STYLE = f"""
body {{ margin: 24px auto; max-width: 900px; padding: 0 16px; color: {INK}; background: {PAPER};
  font: 15px/1.45 system-ui, -apple-system, "Segoe UI", "DejaVu Sans", sans-serif }}
h1 {{ margin: 0 0 8px; font-size: 24px }}
dl {{ display: grid; grid-template-columns: max-content 1fr; gap: 2px 16px; margin: 0 0 14px }}
dt {{ color: {FAINT} }}
dd {{ margin: 0 }}
table {{ border-collapse: collapse; width: 100%; margin: 0 0 14px }}
th, td {{ padding: 5px 10px; text-align: left; vertical-align: top; border-bottom: 1px solid {FAINT} }}
td:nth-child(2) {{ font-weight: 600 }}
p {{ margin: 0 0 8px }}
tr {{ break-inside: avoid }}
@media print {{ body {{ margin: 0; max-width: none }} }}
"""


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
    """The page. facts: (what, text) of the clutch; remarks: paragraphs beneath the table.

    Every text is escaped; the page asks for nothing from elsewhere and runs nothing.
    """
    about = "".join(f"<dt>{escape(what)}</dt><dd>{escape(text)}</dd>" for what, text in facts)
    head = "".join(f'<th scope="col">{name}</th>' for name in ("no.", "label", "sex", "cautions"))
    rows = "".join(_row(one) for one in hatchlings)
    below = "".join(f"<p>{escape(text)}</p>" for text in remarks)
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        f"<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n<h1>{escape(title)}</h1>\n"
        f"<dl>{about}</dl>\n<table>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n{below}\n"
        "</main>\n</body>\n</html>\n"
    )


def _row(one: Listed) -> str:
    note = f" ({escape(one.note)})" if one.note else ""
    cautions = "<br>".join(escape(text) for text in one.cautions) or "none recorded"
    return (
        f'<tr><th scope="row">{escape(one.number)}</th><td>{escape(one.label)}{note}</td>'
        f"<td>{escape(one.sex)}</td><td>{cautions}</td></tr>\n"
    )
