"""A season's pairings as pages to print: who goes to whom, when to look for what, cautions, whom to ask."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from .printed_page import printed_page
from .season_band import Band, season_bands, window_in_words

__all__ = ["WHOM_TO_ASK", "SheetPairing", "season_sheet"]

STYLE = """
@page { margin: 14mm }
h2 { margin: 0 0 4px; font-size: 18px }
h3 { margin: 12px 0 4px; font-size: 15px }
section.pairing { break-inside: avoid; margin: 0 0 18px; padding: 10px 0 0; border-top: 2px solid }
section.pairing dl { margin: 0 0 6px }
section.pairing p.caution { font-weight: 600 }
td.blank { width: 21% }
table.dates td, table.dates th { padding: 3px 8px }
small { font-size: 12.5px }
ul { margin: 0 0 10px; padding-left: 20px }
@media print { body { font-size: 12.5px } h1 { font-size: 20px } h2 { font-size: 15px } h3 { font-size: 13px }
  small { font-size: 10.5px } }
"""
WHOM_TO_ASK = (
    "Chances are forecasts, not promises, and dates are windows, not appointments.",
    "Ask a veterinarian who knows reptiles before breeding, when a female does not lay in time, strains, stops "
    "breathing freely or is weak, and about any hatchling that is deformed, wobbles or will not eat.",
    "Local law comes first: keeping, breeding, selling and moving these animals can need a permit or be forbidden.",
    "The species stands on CITES Appendix II: keep proof of lawful origin for every animal, and ask your authority "
    "before an animal or an egg crosses a border.",
)


@dataclass(frozen=True)
class SheetPairing:
    """One pairing. band: its days; why: sentences; second: who steps in should the male fail, "" if nobody can;
    related: how the two are related; cautions: each a sentence with its evidence; sources: event -> where its days come
    from; notes: on days that fell outside their window."""

    band: Band
    why: tuple[str, ...]
    second: str
    related: str
    cautions: tuple[str, ...]
    sources: dict[str, str]
    notes: tuple[str, ...] = ()


def season_sheet(
    title: str,
    summary: str,
    pairings: Sequence[SheetPairing],
    incubation: Iterable[tuple[str, str, str]],
    today: date,
    remarks: Iterable[str] = (),
) -> str:
    """The pages as HTML text, every text escaped. incubation: rows of (temperature, days to hatching, source)."""
    overview = _table(
        ("pairing", "should the male fail", "related", "lays", "cautions"),
        [
            (p.band.name, p.second or "nobody can", p.related, _lays(p), "yes, see below" if p.cautions else "none")
            for p in pairings
        ],
    )
    warmth = _table(("eggs kept at", "laying to hatching", "source"), incubation)
    body = [
        f"<p>{escape(summary)}</p>",
        *(f"<p>{escape(text)}</p>" for text in remarks),
        overview if pairings else "",
        *(_pairing(p, today) for p in pairings),
        f"<h2>Eggs and warmth</h2>{warmth}",
        "<h2>Before you breed, and whom to ask</h2>",
        "<ul>" + "".join(f"<li>{escape(text)}</li>" for text in WHOM_TO_ASK) + "</ul>",
    ]
    return printed_page(title, STYLE, "\n".join(body))


def _pairing(p: SheetPairing, today: date) -> str:
    facts = [("why", " ".join(p.why)), ("should the male fail", p.second or "nobody can"), ("related", p.related)]
    about = "".join(f"<dt>{escape(what)}</dt><dd>{escape(text)}</dd>" for what, text in facts if text)
    cautions = "".join(f'<p class="caution">Caution: {escape(text)}</p>' for text in p.cautions)
    days = [
        (s.event, window_in_words(s) if not s.happened else "", "" if not s.happened else window_in_words(s), source)
        for s in p.band.stretches
        for source in [p.sources.get(s.event, "")]
    ]
    head = "".join(f'<th scope="col">{name}</th>' for name in ("event", "look for it", "it was on", "source"))
    rows = "".join(
        f'<tr><th scope="row">{escape(event)}</th><td>{escape(window)}</td><td class="blank">{escape(was)}</td>'
        f"<td><small>{escape(source)}</small></td></tr>"
        for event, window, was, source in days
    )
    notes = "".join(f"<p><small>{escape(note)}</small></p>" for note in p.notes)
    table = f'<table class="dates"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>' if days else ""
    drawn = season_bands([p.band], today)
    return (
        f'<section class="pairing"><h2>{escape(p.band.name)}</h2><dl>{about}</dl>{cautions}{drawn}{table}{notes}'
        "</section>"
    )


def _lays(p: SheetPairing) -> str:
    return next((window_in_words(s) for s in p.band.stretches if s.event == "lay"), "not known")


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    top = "".join(f'<th scope="col">{escape(name)}</th>' for name in head)
    body = "".join(f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in row)}</tr>" for row in rows)
    return f"<table><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>"
