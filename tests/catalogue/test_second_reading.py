"""The facts as a second reader took them from the same papers and practice, without seeing the first reading."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from explorer.catalogue import Catalogue, Caution, Gene, Part

SECOND = Path(__file__).with_name("second_reading.toml")
FIRST = Path(__file__).parents[2] / "explorer" / "catalogue" / "facts" / "python_regius"


NONE = ("none", "published: no harm seen")
STRENGTHS = {
    "published": "published study",
    "anecdotal": "anecdotal, widely repeated",
    "general view": "anecdotal, widely repeated",
}
FIGURES = {
    "clutch_size_measured": "clutch_mean",
    "clutch_size_most": "clutch_max_wild",
    "hatch_rate_measured": "hatching_success",
    "lay_rate_measured": "clutches_per_female_year",
    "female_min_g": "female_breeding_weight",
    "male_min_g": "male_breeding_weight",
    "laying_to_hatching_cool_days_low": "incubation_days_min",
    "laying_to_hatching_cool_days_high": "incubation_days_max",
}

READ_ONCE = {
    *("clutch_size_small_sample_low", "clutch_size_small_sample_high", "incubation_cool_c"),
    *(f"incubation_colony_{years}_c_{end}" for years in ("early", "late") for end in ("low", "high")),
}
"""Published figures that the second reading does not hold; `tests/reference/` holds the temperatures."""

Tables = list[dict[str, Any]]


@pytest.fixture(scope="module")
def second() -> dict[str, Tables]:
    return tomllib.loads(SECOND.read_text(encoding="utf-8"), parse_float=Fraction)


@pytest.fixture(scope="module")
def genes(second: dict[str, Tables]) -> dict[str, dict[str, Any]]:
    return {gene["name"]: gene for gene in second["gene"]}


def alone(gene: Gene, catalogue: Catalogue) -> list[Caution]:
    """The cautions on one gene alone."""
    return [caution for caution in catalogue.cautions if {part.gene for part in caution.parts} == {gene.name}]


def test_second_reading__is_not_the_first(second: dict[str, Tables]) -> None:
    assert len(second["gene"]) == 94 and second["complex"] and second["caution"] and second["figure"]
    text = SECOND.read_text(encoding="utf-8")
    first = [path.read_text(encoding="utf-8") for path in FIRST.glob("*.toml")]
    assert len(first) == 13
    assert not any(part in text or text in part for part in first)
    assert not any("other_names" in part for part in first), "the second reading has keys of its own"


def test_genes__same_names(second: dict[str, Tables], catalogue: Catalogue) -> None:
    assert sorted(gene["name"] for gene in second["gene"]) == sorted(gene.name for gene in catalogue.genes)


def test_genes__same_inheritance(genes: dict[str, dict[str, Any]], catalogue: Catalogue) -> None:
    disputed = {name for name, gene in genes.items() if gene["inheritance"] == "disputed"}
    for gene in catalogue.genes:
        if gene.name in disputed:
            assert "dominant" in gene.doubt and not gene.recessive, gene.name
        else:
            assert gene.inheritance == genes[gene.name]["inheritance"], gene.name
    assert 0 < len(disputed) < 15


def test_genes__same_two_copy_status(genes: dict[str, dict[str, Any]], catalogue: Catalogue) -> None:
    first = {gene.name: gene.two_copies for gene in catalogue.genes}
    assert first == {name: gene["two_copies"] for name, gene in genes.items()}


def test_genes__same_sources(genes: dict[str, dict[str, Any]], catalogue: Catalogue) -> None:
    for gene in catalogue.genes:
        cited = {key for caution in alone(gene, catalogue) for key in caution.evidence.sources}
        assert cited | set(gene.evidence.sources) == set(genes[gene.name]["published"]), gene.name


def test_genes__same_strength_of_welfare_evidence(genes: dict[str, dict[str, Any]], catalogue: Catalogue) -> None:
    order = ("published study", "anecdotal, widely repeated", "weak")
    for gene in catalogue.genes:
        found = {caution.strength for caution in alone(gene, catalogue)}
        strongest = next((strength for strength in order if strength in found), "none")
        stated = genes[gene.name]["strength"]
        assert strongest == STRENGTHS.get(stated, "none" if stated in NONE else stated), gene.name


def test_complexes__same_members(second: dict[str, Tables], catalogue: Catalogue) -> None:
    stated = {frozenset(table["members"]) for table in second["complex"]}
    first = {frozenset(g.name for g in catalogue.genes_at(locus.name)) for locus in catalogue.loci if locus.complex}
    assert first | {frozenset({"Banana"})} == stated


def test_cautions__every_row_is_there(second: dict[str, Tables], catalogue: Catalogue) -> None:
    found = {(c.parts, c.sex or ""): c.strength for c in catalogue.cautions if c.strength != "weak"}
    stated = set()
    for row in second["caution"]:
        copies = 1 if row["copies"] == "pair" else row["copies"]
        key = (tuple(Part(gene, copies) for gene in row["genes"]), row["sex"])
        assert found[key] == STRENGTHS[row["strength"]], key
        stated.add(key)
    others = {((Part("Caramel Albino", 2),), "female"), ((Part("Scaleless Head", 1),), "")}
    assert found.keys() - stated == others


def test_figures__same_values_from_the_same_sources(second: dict[str, Tables], catalogue: Catalogue) -> None:
    stated = {table["name"]: table for table in second["figure"]}
    for ours, theirs in FIGURES.items():
        figure = catalogue.figure(ours)
        assert figure.value == stated[theirs]["value"], ours
        assert figure.evidence.sources == (stated[theirs]["source"],), ours
    published = {name for name, figure in catalogue.figures.items() if figure.evidence.kind == "published"}
    assert published - set(FIGURES) == READ_ONCE
