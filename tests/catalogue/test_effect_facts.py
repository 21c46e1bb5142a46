"""What each gene form does to the looks: the figures of the core table, every form there should be, and no other."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from explorer.catalogue import Gene, load_catalogue

FOLDER = Path(__file__).parents[2] / "explorer" / "catalogue" / "facts" / "python_regius"
EFFECTS: list[dict[str, Any]] = [
    effect
    for name in ("effects.toml", "effects_further.toml")
    for effect in tomllib.loads((FOLDER / name).read_text(encoding="utf-8"))["effect"]
]
with (Path(__file__).parents[1] / "reference" / "looks_core.csv").open(encoding="utf-8", newline="") as lines:
    CORE = list(csv.DictReader(lines))

CATALOGUE = load_catalogue()
GENES = {gene.name: gene for gene in CATALOGUE.genes}
ZONES = {
    "head": {"headstamp", "eye_stripe"},
    "back": {"dorsal", "rear", "banding"},
    "flanks": {"flank", "dots", "floating"},
    "belly": {"belly"},
    "overall": {"pattern", "brightness", "contrast", "clean", "blush", "white", "yellow", "red", "lavender", "black"},
}
HUES = {"yellow", "red", "lavender", "black"}
COVERS = {"all", "pattern", "banding", "black", "yellow", "flank blush"}
KEYS = {"gene", "copies", "genes", "complex", "on", "values", "hue", "covers", "words", "evidence", "note"}
EVIDENCE = {"common practice": "common practice, no source", "from memory": "from memory"}

TWO_COPIES_NOT_ESTABLISHED = """
Special, Daddy, Asphalt, Specter, Spark, Spider, Champagne, Woma, Calico, Desert, Microscale, Static, Congo,
X-treme Gene, Blade, Stranger, Nanny, Arroyo, Lace, Hurricane, Vudoo, Odium, Java, Trojan, Granite, Harlequin, Sahara,
Blackback
"""
PAIRS_WITHOUT_AGREED_LOOK = {frozenset({"Spider", "Blackhead"})}
HUE_NOT_ESTABLISHED = {("Scaleless Head", 2)}


def key(effect: dict[str, Any]) -> tuple[Any, ...]:
    on, genes = frozenset(effect.get("on", ())), frozenset(effect.get("genes", ()))
    return effect.get("gene"), effect.get("copies"), effect.get("complex"), genes, on


def title(effect: dict[str, Any]) -> str:
    subject = effect.get("gene") or effect.get("complex") or "+".join(effect.get("genes", ())) or "wild type"
    return f"{subject} {effect.get('copies', '')} {'+'.join(effect.get('on', ()))}".strip()


GENERAL = {(e.get("gene"), e["copies"]): e for e in EFFECTS if "copies" in e and "on" not in e}
ON = [effect for effect in EFFECTS if "on" in effect]
PAIRS = {frozenset(effect["genes"]): effect for effect in EFFECTS if "genes" in effect}
COMPLEXES = {effect["complex"]: effect for effect in EFFECTS if "complex" in effect}
WHITES = [*PAIRS.values(), *COMPLEXES.values(), *(e for e in GENERAL.values() if e["copies"] == 2)]

each_effect = pytest.mark.parametrize("effect", EFFECTS, ids=title)


def copies_that_show(gene: Gene) -> set[int]:
    if gene.recessive:
        return {2}
    return {1} if gene.two_copies == "same look" else {1, 2}


def names(text: str) -> set[str]:
    return {name.strip() for name in text.split(",")}


@pytest.mark.parametrize("gene", GENES.values(), ids=lambda gene: gene.name)
def test_forms__every_gene_has_those_that_show(gene: Gene) -> None:
    missing = {2} if gene.name in names(TWO_COPIES_NOT_ESTABLISHED) else set()
    assert {copies for name, copies in GENERAL if name == gene.name} == copies_that_show(gene) - missing


def test_forms__only_rarely_seen_double_forms_are_left_out() -> None:
    kinds = {GENES[name].two_copies for name in names(TWO_COPIES_NOT_ESTABLISHED)}
    assert kinds == {"few records", "not viable", "not reported"}


def test_forms__every_name_is_a_gene_of_the_catalogue() -> None:
    named = {name for name, _ in GENERAL} | set().union(*PAIRS) | {effect["gene"] for effect in ON}
    assert named - {None} == set(GENES)
    assert {name.removeprefix("Super ") for effect in ON for name in effect["on"]} <= set(GENES)


def test_forms__no_table_twice() -> None:
    assert len({key(effect) for effect in EFFECTS}) == len(EFFECTS)


@each_effect
def test_tables__scales_zones_and_words_are_known(effect: dict[str, Any]) -> None:
    values, words = effect.get("values", {}), effect.get("words", {})
    assert set(effect) <= KEYS
    assert sum(word in effect for word in ("gene", "genes", "complex")) == (effect.get("copies") != 0)
    assert all(type(value) is int and -3 <= value <= 3 for value in values.values())
    assert set(values) <= set().union(*ZONES.values())
    assert set(effect.get("covers", ())) <= COVERS
    assert set(words) <= set(ZONES)
    assert all(text.strip() == text != "" for text in (*words.values(), *effect.get("covers", ())))
    assert effect["evidence"] in EVIDENCE.values()


@each_effect
def test_tables__a_zone_that_differs_has_words(effect: dict[str, Any]) -> None:
    values = effect.get("values", {})
    differ = {zone for zone, ours in ZONES.items() if zone != "overall" and any(values.get(q) for q in ours)}
    assert differ <= set(effect.get("words", {}))


def test_tables__wild_type_has_words_for_every_zone_and_no_values() -> None:
    wild = GENERAL[None, 0]
    assert wild["words"].keys() == ZONES.keys()
    assert "values" not in wild and "covers" not in wild


def test_tables__every_form_is_read_on_the_four_hue_scales() -> None:
    without = {form for form, effect in GENERAL.items() if form[0] and not set(effect["values"]) >= HUES}
    assert without == HUE_NOT_ESTABLISHED


@pytest.mark.parametrize("row", CORE, ids=lambda row: f"{row['gene']} {row['copies']}")
def test_core__figures_covers_and_evidence_are_those_of_the_table(row: dict[str, str]) -> None:
    figures = {q: int(value) for q, value in row.items() if q not in ("gene", "copies", "covers", "evidence")}
    if row["copies"] == "0":
        assert not any(figures.values())
        return
    effect = GENERAL[row["gene"], int(row["copies"])]
    assert {quality: effect["values"].get(quality) for quality in figures} == figures
    assert effect.get("covers", []) == ([row["covers"]] if row["covers"] else [])
    assert effect["evidence"] == EVIDENCE[row["evidence"]]


def test_core__what_the_table_has_no_column_for_is_stated_too() -> None:
    forms = {(row["gene"], int(row["copies"])) for row in CORE if row["copies"] != "0"}
    assert all("floating" in GENERAL[form]["values"] for form in forms)
    assert {form for form, effect in GENERAL.items() if "rear" in effect.get("values", {})} == {("Fire", 1)}


def test_pairs__are_of_one_complex() -> None:
    assert all(len({GENES[name].locus for name in pair}) == 1 for pair in PAIRS)
    assert set(COMPLEXES) <= {locus.name for locus in CATALOGUE.loci if locus.complex}


def test_pairs__every_pair_of_the_catalogue_is_described() -> None:
    described = set(PAIRS) | {
        frozenset(compound.genes) for compound in CATALOGUE.compounds if GENES[compound.genes[0]].locus in COMPLEXES
    }
    assert {frozenset(compound.genes) for compound in CATALOGUE.compounds} - described == PAIRS_WITHOUT_AGREED_LOOK


def test_pairs__those_that_differ_from_their_complex_have_a_table_of_their_own() -> None:
    dark = {"Phantom", "Mystic"}
    blue = {name for name, gene in GENES.items() if gene.locus == "blue-eyed leucistic"}
    due = {frozenset({one, other}) for one in blue for other in dark if one != other}
    assert due <= set(PAIRS)
    assert all(PAIRS[pair]["values"]["lavender"] > 0 and "covers" not in PAIRS[pair] for pair in due)


def test_covers__what_is_white_all_over_hides_everything() -> None:
    white = [e for e in WHITES if e.get("values", {}).get("white") == 3 and e["values"]["pattern"] == -3]
    assert len(white) > 10
    assert all(effect["covers"] == ["all"] for effect in white)


def value(gene: str, copies: int, quality: str, *on: str) -> int:
    """One figure of a form, on a base if genes are named; it must be listed in that very table."""
    found = [e for e in EFFECTS if key(e) == (gene, copies, None, frozenset(), frozenset(on))]
    return found[0]["values"][quality]


STATEMENTS: dict[str, Callable[[], bool]] = {
    "Enchi bands more with each copy": lambda: 0 < value("Enchi", 1, "banding") < value("Enchi", 2, "banding"),
    "one Enchi leaves some dorsal line, two none": lambda: (
        value("Enchi", 2, "dorsal") == -3 < value("Enchi", 1, "dorsal") < 0
    ),
    "two Enchi join the eye stripes, one widens them": lambda: (
        value("Enchi", 2, "eye_stripe") == 3 > value("Enchi", 1, "eye_stripe") > 0
    ),
    "two Enchi lighten the browns": lambda: value("Enchi", 2, "black") < 0,
    "on Clown one Enchi clears the flanks": lambda: value("Enchi", 1, "flank", "Clown") == -3,
    "on Clown one Enchi leaves the dorsal stripe": lambda: value("Enchi", 1, "dorsal", "Clown") == 0,
    "on Clown two Enchi are cleaner and more orange": lambda: (
        value("Enchi", 2, "clean", "Clown") > value("Enchi", 2, "clean")
        and value("Enchi", 2, "red", "Clown") > value("Enchi", 2, "red")
    ),
    "two Enchi break up the dorsal of a Clown": lambda: (
        value("Clown", 2, "dorsal", "Super Enchi") < value("Clown", 2, "dorsal")
    ),
    "Fire reduces most on the rear": lambda: value("Fire", 1, "rear") < value("Fire", 1, "dorsal") < 0,
    "on Clown Fire is brighter and contrasts more": lambda: (
        value("Fire", 1, "brightness", "Clown") > value("Fire", 1, "brightness")
        and value("Fire", 1, "contrast", "Clown") > value("Fire", 1, "contrast")
    ),
    "on Clown Fire keeps banding on the flanks, Enchi does not": lambda: (
        value("Fire", 1, "flank", "Clown") > value("Enchi", 1, "flank", "Clown")
        and value("Fire", 1, "banding", "Clown") > value("Enchi", 1, "banding", "Clown")
    ),
    "Pastel is less clean on Enchi Clown": lambda: (
        value("Pastel", 1, "clean", "Enchi", "Clown") < value("Pastel", 1, "clean")
    ),
    "Fire makes up for that": lambda: value("Fire", 1, "clean", "Pastel", "Enchi", "Clown") > value("Fire", 1, "clean"),
    "one Pastel is bright yellow": lambda: value("Pastel", 1, "yellow") == 3,
    "Orange Dream blushes": lambda: value("Orange Dream", 1, "blush") > 0,
    "Calico is white from the belly, speckled, darker": lambda: (
        value("Calico", 1, "white") > 0 > value("Calico", 1, "clean") and value("Calico", 1, "brightness") < 0
    ),
    "Vanilla is bright, its dorsal broken": lambda: (
        value("Vanilla", 1, "brightness") > 0 > value("Vanilla", 1, "dorsal")
    ),
    "Mojave blotches float": lambda: value("Mojave", 1, "floating") == 2,
    "with Enchi they become bands": lambda: (
        value("Mojave", 1, "banding", "Enchi") > 0 == value("Mojave", 1, "floating", "Enchi")
    ),
    "axanthics have no yellow": lambda: all(value(f"Axanthic line {line}", 2, "yellow") == -3 for line in "ABC"),
    "albinos have no black": lambda: all(value(name, 2, "black") == -3 for name in ("Albino", "Lavender Albino")),
}


@pytest.mark.parametrize("statement", STATEMENTS)
def test_statements__hold(statement: str) -> None:
    assert STATEMENTS[statement]()


@pytest.mark.parametrize("effect", ON, ids=title)
def test_bases__every_figure_differs_from_the_general_one_or_from_a_smaller_base(effect: dict[str, Any]) -> None:
    on = set(effect["on"])
    smaller = [e for e in ON if (e["gene"], e["copies"]) == (effect["gene"], effect["copies"]) and set(e["on"]) < on]
    values: dict[str, int] = dict(GENERAL[effect["gene"], effect["copies"]]["values"])
    for other in sorted(smaller, key=lambda e: len(e["on"])):
        values |= other["values"]
    assert [quality for quality, value in effect["values"].items() if values[quality] == value] == []
