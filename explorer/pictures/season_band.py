"""The season of a pairing as bands of time: one line an event, its window, its likely day. SVG as text."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from html import escape

from ..husbandry.saying import day_in_words
from .labels import elided
from .palette import FAINT, INK, PAPER

__all__ = ["Band", "Stretch", "season_bands", "season_bands_in_words", "window_in_words"]

WIDTH, LEFT, RIGHT, EDGE = 960, 210, 118, 6
LINE, HEAD, GAP = 15, 24, 10
WINDOW, RULE = "#aab7c4", "#d9e0e6"


@dataclass(frozen=True)
class Stretch:
    """An event and the days between which it is looked for. happened: it was on `likely`, and the others equal it."""

    event: str
    earliest: date
    likely: date
    latest: date
    happened: bool = False


@dataclass(frozen=True)
class Band:
    """A pairing. name: what stands beside it, detail: beneath that; stretches: in the order of events."""

    name: str
    detail: str
    stretches: tuple[Stretch, ...]


def season_bands(
    bands: Sequence[Band],
    today: date | None = None,
    span: tuple[date, date] | None = None,
    *,
    width: int = WIDTH,
    named: bool = True,
) -> str:
    """All bands beneath one axis of months. today: a line is drawn there. span: first and last day of the axis, by
    default what the bands need. width: of the drawing in its own units, of which a letter is 12 high. named: whether
    the pairings' names stand beside the bands. The text alternative says what `season_bands_in_words` says. "" if
    nothing is known.
    """
    span = span or _span(bands)
    if span is None:
        return ""
    first, last = span[0].replace(day=1), _month_after(span[1])
    left = LEFT if named else EDGE
    scale = (width - left - RIGHT) / (last - first).days

    def x(day: date) -> float:
        return round(left + (day - first).days * scale, 1)

    heights = [max(2, len(band.stretches)) * LINE + GAP for band in bands]
    bottom = HEAD + sum(heights)
    parts = [
        f'<rect width="{width}" height="{bottom}" fill="{PAPER}"/>',
        *(_month(x(month), x(_month_after(month)), bottom, month, month == first) for month in _months(first, last)),
    ]
    if today is not None and first <= today < last:
        parts.append(f'<path d="M{x(today)} {HEAD - 6}V{bottom}" stroke="{INK}" stroke-dasharray="3 3"/>')
        parts.append(_text(x(today) + 3, bottom - 3, "today", FAINT, 11))
    top = HEAD
    for band, height in zip(bands, heights, strict=True):
        parts.append(f'<path d="M0 {top}H{width}" stroke="{FAINT}" stroke-width="0.8"/>')
        if named:
            parts.append(_text(4, top + 17, elided(band.name, 28), INK, 13, bold=True))
            parts.append(_text(4, top + 33, elided(band.detail, 34), FAINT, 11.5))
        for number, stretch in enumerate(band.stretches):
            parts += _stretch(stretch, x, top + 6 + number * LINE)
        top += height
    words = escape(season_bands_in_words(bands))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {bottom}" width="100%" role="img" '
        f'aria-label="{words}" font-family="system-ui, \'DejaVu Sans\', sans-serif">{"".join(parts)}</svg>'
    )


def season_bands_in_words(bands: Sequence[Band]) -> str:
    """Each pairing with its events and their days, as text."""
    lines = []
    for band in bands:
        events = "; ".join(f"{s.event} {window_in_words(s)}" for s in band.stretches) or "no days known"
        lines.append(f"{band.name}: {events}.")
    return " ".join(lines)


def window_in_words(stretch: Stretch) -> str:
    """A window as "3 Jan to 9 May 2027, likely 10 Mar"; one day as "on 9 May 2027"."""
    if stretch.earliest == stretch.latest:
        return f"on {day_in_words(stretch.likely)} {stretch.likely.year}"
    first, last = stretch.earliest, stretch.latest
    year = "" if first.year == last.year else f" {first.year}"
    likely = f", likely {day_in_words(stretch.likely)}"
    return f"{day_in_words(first)}{year} to {day_in_words(last)} {last.year}{likely}"


def _stretch(stretch: Stretch, x: Callable[[date], float], top: float) -> list[str]:
    middle = top + LINE / 2 - 2
    if stretch.happened:
        at = x(stretch.likely)
        mark = f'<path d="M{at - 5} {middle}l5 -5 5 5 -5 5z" fill="{INK}"/>'
        return [mark, _text(at + 9, middle + 4, f"{stretch.event} on {day_in_words(stretch.likely)}", INK, 12)]
    left, right, likely = x(stretch.earliest), x(stretch.latest + timedelta(1)), x(stretch.likely)
    return [
        f'<rect x="{left}" y="{top}" width="{max(2.0, round(right - left, 1))}" height="{LINE - 4}" fill="{WINDOW}"/>',
        f'<path d="M{likely} {top - 1}v{LINE - 3}" stroke="{INK}" stroke-width="2"/>',
        _text(right + 5, middle + 4, stretch.event, INK, 12),
    ]


def _month(left: float, right: float, bottom: float, month: date, first: bool) -> str:
    rule = f'<path d="M{left} {HEAD - 8}V{bottom}" stroke="{RULE}"/>'
    if right - left < 26:
        name = f"{month:%b}"[0]
    elif (month.month == 1 or first) and right - left >= 60:
        name = f"{month:%b %Y}"
    else:
        name = f"{month:%b}"
    return rule + _text(left + 3, HEAD - 10, name, FAINT, 11.5)


def _text(x: float, y: float, text: str, fill: str, size: float, bold: bool = False) -> str:
    weight = ' font-weight="600"' if bold else ""
    return f'<text x="{x}" y="{y}" fill="{fill}" font-size="{size}"{weight}>{escape(text)}</text>'


def _span(bands: Sequence[Band]) -> tuple[date, date] | None:
    days = [day for band in bands for s in band.stretches for day in (s.earliest, s.latest)]
    return (min(days), max(days)) if days else None


def _months(first: date, last: date) -> list[date]:
    found = [first]
    while (after := _month_after(found[-1])) < last:
        found.append(after)
    return found


def _month_after(day: date) -> date:
    return date(day.year + day.month // 12, day.month % 12 + 1, 1)
