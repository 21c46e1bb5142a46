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
@page { margin: 12mm }
h2 { margin: 0 0 4px; font-size: 18px }
h2 { break-after: avoid }
section { break-inside: avoid; margin: 0 0 14px }
section.pairing { padding: 8px 0 0; border-top: 2px solid }
section.pairing dl { margin: 0 0 4px }
section.pairing p { margin: 0 0 4px }
section.pairing p.caution { font-weight: 600 }
table.dates { margin: 0 0 4px; table-layout: fixed }
table.dates :is(td, th) { padding: 2px 8px 2px 0 }
table.dates th:nth-child(1) { width: 11.5% }
table.dates th:nth-child(2) { width: 32.5% }
table.dates th:nth-child(3) { width: 12% }
small { font-size: 12px }
ul { margin: 0 0 10px; padding-left: 20px }
@media print { body { font-size: 12px; line-height: 1.35 } h1 { font-size: 20px } h2 { font-size: 15px }
  small { font-size: 10px } table.dates { font-size: 11.5px } th, td { padding: 3px 8px } }
"""
RESTS = "In the tables of days each window also rests on the sources of those above it. Write in when it really was."
WIDTH = 700
"""Units of the drawings, about the pixels that a sheet of A4 leaves."""

WHOM_TO_ASK = (
    "Chances are forecasts, not promises, and dates are windows, not appointments.",
    "Ask a veterinarian who knows reptiles before breeding, when a female does not lay in time, strains "
    "or is weak, and about any hatchling that is deformed, wobbles or will not eat.",
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
    references: Iterable[str] = (),
) -> str:
    """The pages as HTML text, every text escaped. incubation: rows of (temperature, days to hatching, source);
    references: what their sources are."""
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
        f"<p><small>{RESTS}</small></p>" if pairings else "",
        *(_pairing(p, today) for p in pairings),
        f"<section><h2>Eggs and warmth</h2>{warmth}{_list(references)}</section>",
        f"<section><h2>Before you breed, and whom to ask</h2>{_list(WHOM_TO_ASK)}</section>",
    ]
    return printed_page(title, STYLE, "\n".join(body))


def _pairing(p: SheetPairing, today: date) -> str:
    facts = [("why", " ".join(p.why)), ("should the male fail", p.second or "nobody can"), ("related", p.related)]
    about = "".join(f"<dt>{escape(what)}</dt><dd>{escape(text)}</dd>" for what, text in facts if text)
    cautions = "".join(f'<p class="caution">Caution: {escape(text)}</p>' for text in p.cautions)
    days = [
        (s.event, *(("", day) if s.happened else (window_in_words(s), "")), p.sources.get(s.event, ""))
        for s in p.band.stretches
        for day in [window_in_words(s).removeprefix("on ")]
    ]
    head = "".join(f'<th scope="col">{name}</th>' for name in ("event", "look for it", "it was on", "source"))
    rows = "".join(
        f'<tr><th scope="row">{escape(event)}</th><td>{escape(window)}</td><td class="blank">{escape(was)}</td>'
        f"<td><small>{escape(source)}</small></td></tr>"
        for event, window, was, source in days
    )
    notes = f"<p><small>{escape('; '.join(p.notes))}.</small></p>" if p.notes else ""
    table = f'<table class="dates"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>' if days else ""
    drawn = season_bands([p.band], today, width=WIDTH, named=False)
    return (
        f'<section class="pairing"><h2>{escape(p.band.name)}</h2>\n<dl>{about}</dl>{cautions}{drawn}{table}{notes}'
        "</section>"
    )


def _list(texts: Iterable[str]) -> str:
    lines = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return f"<ul>{lines}</ul>" if lines else ""


def _lays(p: SheetPairing) -> str:
    return next((window_in_words(s) for s in p.band.stretches if s.event == "lay"), "not known")


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    top = "".join(f'<th scope="col">{escape(name)}</th>' for name in head)
    body = "".join(f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in row)}</tr>" for row in rows)
    return f"<table><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>"
