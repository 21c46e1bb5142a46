"""Checks that every entry of the bundled catalogue passes."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import Any, get_args

import pytest

from explorer.catalogue import Catalogue, Evidence, Gene, load_catalogue
from explorer.catalogue.entries import EvidenceKind, Inheritance, Severity, Strength, TwoCopies
from explorer.catalogue.look_tables import parts_of

CATALOGUE = load_catalogue()

NAMES = """
Acid, Albino, Arroyo, Asphalt, Axanthic line A, Axanthic line B, Axanthic line C, Bamboo, Banana, Black Axanthic,
Black Lace, Black Pastel, Blackback, Blackhead, Blade, Brite, Butter, Calico, Candy, Caramel Albino, Champagne,
Chocolate, Cinnamon, Clown, Confusion, Congo, Cryptic, Cypress, Daddy, Desert, Desert Ghost, Disco, Enchi, Enhancer,
Fire, Flame, GHI, Genetic Stripe, Ghost, Gobi, Granite, Gravel, Harlequin, Hidden Gene Woma, Hurricane, Java, Lace,
Lavender Albino, Lemonback, Leopard, Lesser, Mahogany, Microscale, Mocha, Mojave, Monarch, Monsoon, Mystic, Nanny,
Odium, Orange Dream, Pastel, Phantom, Piebald, Pinstripe, Puzzle, Rainbow, Red Axanthic, Red Stripe, Sable, Sahara,
Scaleless Head, Spark, Special, Specter, Spider, Spotnose, Static, Stranger, Sulfur, Sunset, Toffee, Tri-Stripe,
Trick, Trojan, Ultramel, Vanilla, Vudoo, White Diamond, Whitewash, Woma, X-treme Gene, Yellow Belly, Zebra
"""

COMPLEXES = {
    "blue-eyed leucistic": "Mojave Lesser Butter Phantom Mystic White-Diamond Bamboo Mocha Special Daddy",
    "black-eyed leucistic": "Fire Vanilla Sulfur Lemonback Disco Flame Brite",
    "yellow belly": "Yellow-Belly Asphalt Gravel Specter Spark",
    "cinnamon/black pastel": "Cinnamon Black-Pastel Red-Axanthic",
    "spider/blackhead": "Spider Blackhead",
    "clown": "Clown Cryptic",
    "albino": "Candy Toffee Albino",
}

SYMBOLS = {
    "albino": "TYR",
    "axanthic line a": "gch2",
    "clown": "MC1R",
    "ghost": "MLPH",
    "lavender albino": "OCA2",
    "piebald": "tfec",
    "ultramel": "TYRP1",
    "yellow belly": "EDNRB",
}

each_gene = pytest.mark.parametrize("gene", CATALOGUE.genes, ids=lambda gene: gene.name)


def evidences(catalogue: Catalogue) -> Iterator[tuple[str, Evidence]]:
    yield catalogue.species.latin, catalogue.species.evidence
    records: tuple[Any, ...] = (
        *catalogue.loci,
        *catalogue.genes,
        *catalogue.linkages,
        *catalogue.compounds,
        *catalogue.cautions,
        *catalogue.nicknames,
        *catalogue.ambiguous,
        *catalogue.figures.values(),
    )
    yield from ((str(record)[:60], record.evidence) for record in records)


def test_genes__are_the_94_stated(catalogue: Catalogue) -> None:
    stated = [name.strip() for name in NAMES.split(",")]
    assert len(stated) == len(catalogue.genes) == 94
    assert sorted(stated) == sorted(gene.name for gene in catalogue.genes)


@each_gene
def test_gene__name_follows_the_grammar(gene: Gene) -> None:
    for name in (gene.name, *gene.synonyms, *gene.abbreviations):
        assert re.fullmatch(r"[A-Za-z][A-Za-z0-9]*([ -][A-Za-z0-9]+)*", name)
        assert not name.lower().startswith(("super ", "het ", "possible ", "normal"))


@each_gene
def test_gene__inheritance_and_two_copies_are_legal(gene: Gene, catalogue: Catalogue) -> None:
    assert gene.inheritance in get_args(Inheritance)
    assert gene.two_copies in get_args(TwoCopies)
    assert catalogue.locus(gene.locus).name == gene.locus
    assert (gene.inheritance == "dominant") == (gene.two_copies in ("same look", "not reported"))
    assert gene.two_copies != "not viable" or "unproven" in gene.two_copy_note


@each_gene
def test_gene__believed_lethal_pair_has_a_caution(gene: Gene, catalogue: Catalogue) -> None:
    severities = {caution.severity for caution in catalogue.cautions_of({gene.name: 2})}
    assert ("not viable" in severities) == (gene.two_copies == "not viable")


def test_genes__the_believed_lethal_pairs(catalogue: Catalogue) -> None:
    lethal = {gene.name for gene in catalogue.genes if gene.two_copies == "not viable"}
    assert lethal == {"Spider", "Champagne", "Hidden Gene Woma"}
    assert all(compound.viable for compound in catalogue.compounds)


def test_genes__shown_with_one_copy_come_before_the_recessive(catalogue: Catalogue) -> None:
    recessive = [gene.recessive for gene in catalogue.genes if gene.name != "Cryptic"]
    assert recessive == sorted(recessive)
    order = [gene.name for gene in catalogue.genes]
    assert order[:7] == ["Pastel", "Banana", "Leopard", "Pinstripe", "Enchi", "Orange Dream", "GHI"]
    start = order.index("Clown")
    wanted = ["Clown", "Cryptic", "Piebald", "Desert Ghost", "Ultramel", "Candy", "Toffee", "Albino"]
    assert order[start : start + 8] == wanted


def test_loci__order_is_that_of_their_genes(catalogue: Catalogue) -> None:
    assert [locus.name for locus in catalogue.loci] == list(dict.fromkeys(gene.locus for gene in catalogue.genes))
    ranks = [[locus.name for locus in catalogue.loci].index(gene.locus) for gene in catalogue.genes]
    assert ranks == sorted(ranks)


def test_loci__names_follow_the_grammar(catalogue: Catalogue) -> None:
    for locus in catalogue.loci:
        assert re.fullmatch(r"[a-z][a-z0-9]*([ /-][a-z0-9]+)*", locus.name)


def test_complexes__members_in_order(catalogue: Catalogue) -> None:
    found = {locus.name: catalogue.genes_at(locus.name) for locus in catalogue.loci if locus.complex}
    assert {name: [g.name.replace(" ", "-") for g in genes] for name, genes in found.items()} == {
        name: genes.split() for name, genes in COMPLEXES.items()
    }
    assert all(catalogue.locus(name).notes for name in COMPLEXES)
    assert all(len(catalogue.genes_at(locus.name)) == 1 for locus in catalogue.loci if not locus.complex)


def test_loci__published_genes(catalogue: Catalogue) -> None:
    assert {locus.name: locus.symbol for locus in catalogue.loci if locus.symbol} == SYMBOLS
    assert all(catalogue.locus(name).evidence.kind == "published" for name in SYMBOLS)


def test_linkages__the_sex_pair_holds_banana_alone(catalogue: Catalogue) -> None:
    (linkage,) = catalogue.linkages
    assert (linkage.loci, linkage.sex_pair) == (("banana",), True)
    assert [str(rate) for rate in (linkage.low, *linkage.rates, linkage.high)] == ["3/100", "7/100", "1/10"]
    assert [locus.name for locus in catalogue.loci if locus.placement != "autosome"] == ["banana"]


def test_compounds__join_two_genes_of_one_complex(catalogue: Catalogue) -> None:
    assert len(catalogue.compounds) > 15
    for compound in catalogue.compounds:
        one, two = map(catalogue.gene, compound.genes)
        assert one is not two and one.locus == two.locus and compound.look


def test_cautions__name_known_genes_and_say_how_often(catalogue: Catalogue) -> None:
    for caution in catalogue.cautions:
        for part in caution.parts:
            gene = catalogue.gene(part.gene)
            assert gene.name == part.gene and part.copies in (1, 2)
            assert part.copies == 2 or not gene.recessive
        assert caution.severity in get_args(Severity) and caution.strength in get_args(Strength)
        if caution.strength == "anecdotal, widely repeated":
            assert "frequency unknown" in caution.text or "unproven" in caution.text


def test_cautions__published_where_a_study_is_named(catalogue: Catalogue) -> None:
    studied = [caution for caution in catalogue.cautions if caution.strength == "published study"]
    assert [(caution.parts[0].gene, caution.evidence.sources) for caution in studied] == [
        ("Spider", ("STA22", "ROS14"))
    ]


def test_nicknames__known_genes_at_most_two_alleles_a_locus(catalogue: Catalogue) -> None:
    assert len(catalogue.nicknames) >= 40
    starts = sorted((gene.name for gene in catalogue.genes), key=len, reverse=True)
    pattern = re.compile(rf"(Super )?({'|'.join(map(re.escape, starts))})( |$)")
    meanings = [nickname.genes for nickname in catalogue.nicknames]
    meanings += [meaning for word in catalogue.ambiguous for meaning in word.meanings]
    for meaning in meanings:
        found = list(pattern.finditer(meaning))
        assert "".join(match.group() for match in found) == meaning and 1 <= len(found) <= 3
        copies = Counter[str]()
        for match in found:
            copies[catalogue.gene(match[2]).locus] += 2 if match[1] else 1
        assert max(copies.values()) <= 2
    assert len(set(meanings[: len(catalogue.nicknames)])) == len(catalogue.nicknames)
    assert {nickname.evidence.kind for nickname in catalogue.nicknames} == {"from memory"}


def test_ambiguous__two_meanings_or_more(catalogue: Catalogue) -> None:
    assert {word.name for word in catalogue.ambiguous} >= {"Axanthic", "BEL", "Blue-Eyed Leucistic"}
    assert all(len(set(word.meanings)) > 1 for word in catalogue.ambiguous)


def test_parts_of__super_is_two_copies() -> None:
    assert [(part.gene, part.copies) for part in parts_of(["Super Pastel", "Spider"])] == [("Pastel", 2), ("Spider", 1)]


def test_evidence__sources_exist_and_go_with_published(catalogue: Catalogue) -> None:
    for what, evidence in evidences(catalogue):
        assert evidence.kind in get_args(EvidenceKind), what
        assert (evidence.kind == "published") == bool(evidence.sources), what
        assert set(evidence.sources) <= set(catalogue.sources), what


def test_sources__are_all_used_and_say_what_was_read(catalogue: Catalogue) -> None:
    used = {key for _, evidence in evidences(catalogue) for key in evidence.sources}
    assert used == set(catalogue.sources)
    for key, source in catalogue.sources.items():
        assert key == source.key and re.fullmatch(r"[A-Z]{3}\d\d|QUEN", key)
        assert source.reference and source.access


def test_species__is_xy_with_its_caveat(catalogue: Catalogue) -> None:
    species = catalogue.species
    assert (species.latin, species.heterogametic, species.chromosomes) == ("Python regius", "male", ("X", "Y"))
    assert species.evidence.sources == ("GAM17", "MAL16", "BOO14")
    assert "another python" in species.evidence.note


FIGURES = {
    "eggs": "6",
    "clutch_size_measured": "683/100",
    "hatch_rate": "1",
    "hatch_rate_measured": "81/100",
    "lay_rate": "1",
    "lay_rate_measured": "18/25",
    "male_wait": "2",
    "female_wait": "3",
    "clutches_per_male": "4",
    "female_min_g": "1500",
    "female_sure_g": "1700",
    "male_min_g": "500",
    "male_sure_g": "700",
    "season_first_month": "11",
    "season_last_month": "3",
    "female_grown_months": "32",
    "male_grown_months": "14",
    "maybe_odds": "3",
}


@pytest.mark.parametrize(("name", "value"), FIGURES.items(), ids=FIGURES)
def test_figure__value(name: str, value: str, catalogue: Catalogue) -> None:
    assert str(catalogue.figure(name).value) == value


def test_figures__low_is_not_above_high(catalogue: Catalogue) -> None:
    lows = [name for name in catalogue.figures if name.endswith("_low")]
    assert len(lows) > 5
    for low in lows:
        high = catalogue.figure(low.removesuffix("_low") + "_high")
        assert catalogue.figure(low).value <= high.value and catalogue.figure(low).unit == high.unit


CHOSEN = {
    *("misrecording_rate", "shed_test_error"),
    *("weighings_apart_days", "weighings_recent_days", "growth_holds_months", "growth_told_months"),
}
SOURCED = {"eggs", "hatch_rate", "lay_rate", "rest_seasons", "incubation_c"}


def test_figures__a_planning_default_says_from_what(catalogue: Catalogue) -> None:
    chosen = {f.name: f.evidence.note for f in catalogue.figures.values() if f.evidence.kind == "planning default"}
    assert set(chosen) == {"candidate_frequency", "maybe_odds", *CHOSEN, *SOURCED}
    assert "so that neither" in chosen.pop("candidate_frequency")
    assert "does not settle" in chosen.pop("maybe_odds")
    assert all("chosen here" in chosen.pop(name) for name in CHOSEN)
    assert all(re.search(r"[A-Z]{3}\d\d", note) for note in chosen.values())


def test_evidence__reads_as_text() -> None:
    assert str(Evidence("published", ("GAM17", "MAL16"), "the model")) == "published: GAM17, MAL16 (the model)"
    assert str(Evidence("from memory")) == "from memory"
