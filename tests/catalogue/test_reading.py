"""A keeper's own facts on top of the bundled ones, and another species."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from explorer.catalogue import Catalogue, CatalogueError, load_catalogue, load_species

Load = Callable[[str], Catalogue]
HERE = Path(__file__).parent


def test_own__a_gene_with_a_locus_of_its_own(own: Load, catalogue: Catalogue) -> None:
    added = own('[[gene]]\nname = "Axanthic line D"\ninheritance = "recessive"\ntwo_copies = "own look"\n')
    assert len(added.genes) == 95 and len(catalogue.genes) == 94
    gene = added.genes[-1]
    assert (gene.name, gene.locus) == ("Axanthic line D", "axanthic line d")
    assert str(gene.evidence) == "from memory (the keeper's own)"
    assert not added.locus("axanthic line d").complex


def test_own__evidence_is_kept_as_stated(own: Load) -> None:
    added = own(
        '[[gene]]\nname = "Inkblot"\ninheritance = "dominant"\ntwo_copies = "not reported"\n'
        'evidence = "published: ZZZ99"\nevidence_note = "seen in full"\n'
        '[[source]]\nkey = "ZZZ99"\nreference = "A paper"\naccess = "all"\n'
    )
    assert str(added.gene("inkblot").evidence) == "published: ZZZ99 (seen in full)"


def test_own__a_gene_that_shows_with_one_copy_comes_before_the_recessive(own: Load) -> None:
    added = own('[[gene]]\nname = "Inkblot"\ninheritance = "dominant"\ntwo_copies = "not reported"\n')
    order = [gene.name for gene in added.genes]
    assert order[order.index("Inkblot") - 1 :][:3] == ["Blackback", "Inkblot", "Clown"]


@pytest.mark.parametrize("locus", ["ghost", "pastel"])
def test_own__a_gene_at_a_bundled_locus_makes_a_complex(locus: str, own: Load) -> None:
    added = own(
        f'[[gene]]\nname = "Haze"\nlocus = "{locus}"\ninheritance = "recessive"\ntwo_copies = "own look"\n'
        f'[[compound]]\ngenes = ["Haze", "{locus.title()}"]\nlook = "hazy"\n'
    )
    assert added.locus(locus).complex
    assert [gene.name for gene in added.genes_at(locus)] == [locus.title(), "Haze"]
    compound = added.compound("Haze", locus)
    assert compound is not None and compound.viable


def test_own__nicknames_and_words_are_written_in_catalogue_order(own: Load) -> None:
    added = own(
        '[[nickname]]\nname = "Teapot"\ngenes = ["Clown", "Super Enchi", "Pastel"]\n'
        '[[ambiguous]]\nwords = ["Cup", "Mug"]\nmeanings = [["Enchi", "Pastel"], ["Ghost"]]\n'
    )
    assert added.nicknames[-1].genes == "Pastel Super Enchi Clown"
    assert added.nickname_of("Pastel Super Enchi Clown") is added.nicknames[-1]
    assert [(word.name, word.meanings) for word in added.ambiguous[-2:]] == [
        ("Cup", ("Pastel Enchi", "Ghost")),
        ("Mug", ("Pastel Enchi", "Ghost")),
    ]


def test_own__a_caution_joins_the_bundled_ones(own: Load) -> None:
    added = own(
        '[[caution]]\nparts = [{ gene = "Enchi" }, { gene = "Ghost", copies = 2 }]\ntext = "small clutches"\n'
        'severity = "reported"\nstrength = "weak"\nsex = "female"\n'
    )
    assert [c.text for c in added.cautions_of({"Enchi": 1, "Ghost": 2}, "female")] == ["small clutches"]
    assert added.cautions_of({"Enchi": 1, "Ghost": 1}, "female") == ()


def test_own__a_figure_replaces_the_bundled_one(own: Load, catalogue: Catalogue) -> None:
    added = own('[[figure]]\nname = "hatch_rate"\nvalue = 0.9\nunit = "hatchlings per viable egg"\n')
    assert added.figure("hatch_rate").value == Fraction(9, 10)
    assert catalogue.figure("hatch_rate").value == 1
    assert set(added.figures) == set(catalogue.figures)


@pytest.mark.parametrize("rate", ['"1/20"', "0.05", '"0.05"'])
def test_own__a_recombination_rate_replaces_the_bundled_one(rate: str, own: Load) -> None:
    added = own(f'[[linkage]]\nloci = ["banana"]\nrates = [{rate}]\nsex_pair = true\n')
    assert [linkage.rates for linkage in added.linkages] == [(Fraction(1, 20),)]


def test_own__linked_bundled_loci(own: Load) -> None:
    added = own('[[linkage]]\nloci = ["pastel", "clown", "enchi"]\nrates = [0.1, "1/3"]\n')
    assert added.linkages[-1].rates == (Fraction(1, 10), Fraction(1, 3))
    assert len(added.linkages) == 2


def test_own__override_makes_a_pair_viable(own: Load, catalogue: Catalogue) -> None:
    added = own('[[override]]\ngene = "Champagne"\ntwo_copies = "own look"\n')
    assert added.gene("Champagne").two_copies == "own look"
    assert added.gene("Champagne").two_copy_note == "the keeper's own"
    assert added.gene("Champagne").evidence == catalogue.gene("Champagne").evidence
    assert catalogue.gene("Champagne").two_copies == "not viable"


def test_own__every_file_is_read_in_alphabetical_order(tmp_path: Path) -> None:
    for name in ("b", "a"):
        text = f'[[gene]]\nname = "Gene {name}"\ninheritance = "recessive"\ntwo_copies = "own look"\n'
        (tmp_path / f"{name}.toml").write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    (tmp_path / "notes.txt").write_text("not read")
    assert [gene.name for gene in load_catalogue(str(tmp_path)).genes[-2:]] == ["Gene a", "Gene b"]


def test_own__no_folder_and_an_empty_folder(tmp_path: Path) -> None:
    with pytest.raises(CatalogueError, match=r"found no folder, needed a folder with TOML files"):
        load_catalogue(tmp_path / "none")
    with pytest.raises(CatalogueError, match=r"found no file that ends in \.toml, needed a folder with TOML files"):
        load_catalogue(tmp_path)


def test_species__the_second_one_loads() -> None:
    lizards = load_species(HERE / "second_species")
    assert (lizards.species.heterogametic, lizards.species.chromosomes) == ("female", ("Z", "W"))
    assert [gene.name for gene in lizards.genes] == ["Ink", "Cream", "Rag", "Dusk", "Wash"]
    assert [(locus.name, locus.placement) for locus in lizards.loci] == [
        ("ink", "autosome"),
        ("paper", "autosome"),
        ("dusk", "X only"),
        ("wash", "autosome"),
    ]
    assert [(linkage.loci, linkage.rates, linkage.sex_pair) for linkage in lizards.linkages] == [
        (("dusk",), (Fraction(1, 2),), True),
        (("ink", "wash"), (Fraction(1, 5),), False),
    ]
    assert lizards.locus("paper").complex
    compound = lizards.compound("Rag", "Cream")
    assert compound is not None and not compound.viable
    assert lizards.nicknames[0].genes == "Ink Super Cream"
    assert not lizards.sources and not lizards.ambiguous


def test_species__a_folder_without_species_toml(tmp_path: Path) -> None:
    with pytest.raises(
        CatalogueError, match=r"^species\.toml: found no such file, needed a file of valid TOML in UTF-8$"
    ):
        load_species(tmp_path)


def test_species__everything_wrong_with_its_files_at_once(tmp_path: Path) -> None:
    (tmp_path / "species.toml").write_text(
        '[species]\nkey = "k"\nname = "n"\nlatin = "l"\nheterogametic = "both"\nchromosomes = ["Z", "Z"]\n'
        'evidence = "from memory"\nfiles = ["lost.toml"]\n'
    )
    (tmp_path / "extra.toml").write_text("")
    with pytest.raises(CatalogueError) as caught:
        load_species(tmp_path)
    assert [str(finding) for finding in caught.value.findings] == [
        "species.toml, [species], chromosomes: found ['Z', 'Z'], needed two different names",
        "species.toml, [species], heterogametic: found 'both', needed one of 'female', 'male'",
        "lost.toml: found no such file, needed a file of valid TOML in UTF-8",
        "species.toml, [species], files: found no extra.toml, needed every TOML file of the folder",
    ]


def test_species__needs_its_table(tmp_path: Path) -> None:
    (tmp_path / "species.toml").write_text("")
    with pytest.raises(
        CatalogueError, match=r"^species\.toml, \[species\]: found nothing, needed one table \[species\]$"
    ):
        load_species(tmp_path)
