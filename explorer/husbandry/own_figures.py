"""A keeper's own figures, in a small file beside the collection: the columns figure, value."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from ..catalogue import Catalogue, Figure
from ..collection import CollectionError, Finding
from ..collection.beside import refusing
from ..collection.figure_rows import read_figure_rows, save_figure_rows, unknown_figure
from ..collection.storage import real_path
from ..genetics import exact
from .care import OWN, Husbandry

__all__ = ["OWN_FIGURES", "care_of", "default_in_words", "figure_text", "figures_file", "read_figures", "save_figures"]

OWN_FIGURES: Mapping[str, str] = {
    "female_min_g": "least weight of a female, in grams",
    "male_min_g": "least weight of a male, in grams",
    "female_sure_g": "least weight of a female without a hatch date",
    "male_sure_g": "least weight of a male without a hatch date",
    "female_wait": "seasons from hatching until a female breeds",
    "male_wait": "seasons from hatching until a male breeds",
    "female_grown_months": "months until a female has her least weight",
    "male_grown_months": "months until a male has his least weight",
    "rest_seasons": "seasons that a female rests after a clutch",
    "clutches_per_male": "females for one male in a season, at most",
    "eggs": "eggs in a clutch",
    "hatch_rate": "share of viable eggs that hatch, from 0 to 1",
    "lay_rate": "share of paired females that lay, from 0 to 1",
    "season_first_month": "month in which the season begins, 1 to 12",
    "season_last_month": "month in which the season ends, 1 to 12",
}
"""The figures that may be one's own, as fields of `Husbandry`, in words."""

OWNED = "your figures"
NUMBER = re.compile(r"[0-9]{1,6}(\.[0-9]{1,6}|/[1-9][0-9]{0,3})?")


def figures_file(collection: str | os.PathLike[str]) -> Path:
    """Where the figures that go with a collection file are kept."""
    return real_path(collection).with_suffix(".figures.csv")


def care_of(texts: Mapping[str, str], catalogue: Catalogue) -> Husbandry:
    """The husbandry with these figures (field -> text); an empty text is the catalogue's.

    Raises CollectionError with all that is wrong.
    """
    return _checked({name: (text, None) for name, text in texts.items()}, catalogue)


def read_figures(path: str | os.PathLike[str], catalogue: Catalogue) -> Husbandry:
    """The husbandry with the figures in a file; with the catalogue's if there is none.

    Raises CollectionError with everything that is wrong in the file.
    """
    file = real_path(path).name
    try:
        rows, findings = read_figure_rows(path, OWN_FIGURES)
        try:
            care = _checked({row.name: (row.text, row.line) for row in rows}, catalogue)
        except CollectionError as error:
            findings += error.findings
        refusing(findings, (), file)
    except CollectionError as error:
        raise CollectionError([replace(one, found=f"{file}: {one.found}") for one in error.findings], file) from None
    return care


def save_figures(path: str | os.PathLike[str], care: Husbandry) -> Path | None:
    """Writes those figures that are not the catalogue's, in one step; the path of the backup of an earlier file."""
    sources = care.sources()
    own = ((name, figure_text(getattr(care, name))) for name in OWN_FIGURES if sources[name] == OWN)
    return save_figure_rows(path, own)


def figure_text(value: object) -> str:
    """A number as it is written: 1500, 0.81, 1/3."""
    if isinstance(value, Fraction):
        short = f"{float(value):.10g}"
        return short if Fraction(short) == value else str(value)
    return str(value)


def default_in_words(figure: Figure) -> str:
    """The catalogue's figure with how it is known: "1500: published: MOR11 (least weight …)"."""
    return f"{figure_text(figure.value)}: {figure.evidence}"


def _checked(given: Mapping[str, tuple[str, int | None]], catalogue: Catalogue) -> Husbandry:
    findings: list[Finding] = []
    values: dict[str, int | Fraction] = {}
    for name, (text, line) in given.items():
        if name not in OWN_FIGURES:
            findings.append(unknown_figure(name, OWN_FIGURES, line))
        elif text:
            number = _number(text)
            if number is None:
                findings.append(Finding("error", line, name, f'"{text}"', "a number such as 1500, 0.81 or 1/3", ""))
            elif problem := _problem(name, number, catalogue):
                findings.append(Finding("error", line, name, f'"{text}"', problem, ""))
            else:
                values[name] = number
    if findings:
        raise CollectionError(findings, OWNED)
    try:
        return Husbandry(**values, catalogue=catalogue)  # type: ignore[arg-type]
    except ValueError as error:
        name, _, needed = str(error).partition(": needed ")
        found = Finding("error", None, name, figure_text(values.get(name, "")), needed, "")
        raise CollectionError([found], OWNED) from None


def _problem(name: str, number: int | Fraction, catalogue: Catalogue) -> str:
    """What is wrong with one number by itself, "" if nothing is."""
    own = {name: number}
    if name.endswith("_sure_g"):
        own[name.replace("_sure_g", "_min_g")] = number
    try:
        Husbandry(**own, catalogue=catalogue)  # type: ignore[arg-type]
    except ValueError as error:
        return str(error).partition("needed ")[2].partition(";")[0]
    return ""


def _number(text: str) -> int | Fraction | None:
    if not NUMBER.fullmatch(text):
        return None
    number = exact(text)
    return int(number) if number.denominator == 1 else number
