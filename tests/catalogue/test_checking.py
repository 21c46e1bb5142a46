"""One test for each way in which records may not fit one another."""

from __future__ import annotations

from collections.abc import Callable

import pytest


def gene(name: str = "Inkblot", more: str = "") -> str:
    return f'[[gene]]\nname = "{name}"\ninheritance = "recessive"\ntwo_copies = "own look"\n{more}\n'


def caution(parts: str) -> str:
    return f'[[caution]]\ntext = "t"\nseverity = "severe"\nstrength = "weak"\nparts = [{parts}]\n'


SEX = 'placement = "sex pair"\n'
MISFITS = {
    "a gene twice": (
        gene("pastel"),
        "[[gene]] 1 (pastel), name",
        "'pastel'",
        "a name not used yet: favourites.toml, [[gene]] 1 (Pastel) has it",
    ),
    "a synonym in use": (
        gene(more='synonyms = ["P-ied"]'),
        "[[gene]] 1 (Inkblot), synonyms",
        "'P-ied'",
        "a name not used yet: recessives.toml, [[gene]] 3 (Piebald) has it",
    ),
    "an abbreviation in use": (
        gene(more='abbreviations = ["OD"]'),
        "[[gene]] 1 (Inkblot), abbreviations",
        "'OD'",
        "a name not used yet: favourites.toml, [[gene]] 6 (Orange Dream) has it",
    ),
    "a nickname in use": (
        '[[nickname]]\nname = "Bumble Bee"\ngenes = ["Enchi"]\n',
        "[[nickname]] 1 (Bumble Bee), name",
        "'Bumble Bee'",
        "a name not used yet: nicknames.toml, [[nickname]] 5 (Bumblebee) has it",
    ),
    "a word in use": (
        '[[ambiguous]]\nwords = ["Clown"]\nmeanings = [["Enchi"], ["Fire"]]\n',
        "[[ambiguous]] 1, words",
        "'Clown'",
        "a name not used yet: recessives.toml, [[gene]] 1 (Clown) has it",
    ),
    "a locus twice": (
        '[[locus]]\nname = "clown"\n',
        "[[locus]] 1 (clown), name",
        "'clown'",
        "a locus name not used yet: recessives.toml, [[locus]] 1 (clown) has it",
    ),
    "a figure twice": (
        '[[figure]]\nname = "eggs"\nvalue = 1\nunit = "u"\n' * 2,
        "[[figure]] 2 (eggs), name",
        "'eggs'",
        "a figure name not used yet: own.toml, [[figure]] 1 (eggs) has it",
    ),
    "a source twice": (
        '[[source]]\nkey = "MOR11"\nreference = "r"\naccess = "a"\n',
        "[[source]] 1 (MOR11), key",
        "'MOR11'",
        "a source key not used yet: sources.toml, [[source]] 14 (MOR11) has it",
    ),
    "an unknown locus": (
        gene(more='locus = "gost"'),
        "[[gene]] 1 (Inkblot), locus",
        "'gost'",
        "the name of a locus (the nearest: ghost, ",
    ),
    "an unknown source": (
        gene(more='evidence = "published: MOR12"'),
        "[[gene]] 1 (Inkblot), evidence",
        "'MOR12'",
        "the key of a [[source]] (the nearest: MOR11, ",
    ),
    "an unknown gene in a caution": (
        caution('{ gene = "Pastle" }'),
        "[[caution]] 1, parts",
        "'Pastle'",
        "the full name of a gene (the nearest: Pastel, ",
    ),
    "a synonym in a caution": (
        caution('{ gene = "Pied" }'),
        "[[caution]] 1, parts",
        "'Pied'",
        "the full name of a gene (the nearest: Piebald, ",
    ),
    "three alleles in a caution": (
        caution('{ gene = "Fire", copies = 2 }, { gene = "Disco" }'),
        "[[caution]] 1, parts",
        "3 alleles of locus black-eyed leucistic",
        "at most two",
    ),
    "an unknown gene in a nickname": (
        '[[nickname]]\nname = "Tea"\ngenes = ["Super Pastle"]\n',
        "[[nickname]] 1 (Tea), genes",
        "'Pastle'",
        "the full name of a gene (the nearest: Pastel, ",
    ),
    "super of nothing": (
        '[[nickname]]\nname = "Tea"\ngenes = ["Super "]\n',
        "[[nickname]] 1 (Tea), genes",
        "'Super '",
        "the full name of a gene (the nearest: ",
    ),
    "three alleles in a nickname": (
        '[[nickname]]\nname = "Tea"\ngenes = ["Candy", "Toffee", "Albino"]\n',
        "[[nickname]] 1 (Tea), genes",
        "3 alleles of locus albino",
        "at most two",
    ),
    "an unknown gene in a meaning": (
        '[[ambiguous]]\nwords = ["Tea"]\nmeanings = [["Enchi"], ["Pastle"]]\n',
        "[[ambiguous]] 1, meanings",
        "'Pastle'",
        "the full name of a gene (the nearest: Pastel, ",
    ),
    "an unknown gene in an override": (
        '[[override]]\ngene = "Spidr"\ntwo_copies = "own look"\n',
        "[[override]] 1 (Spidr), gene",
        "'Spidr'",
        "the full name of a gene (the nearest: Spider, ",
    ),
    "an override twice": (
        '[[override]]\ngene = "Spider"\ntwo_copies = "own look"\n' * 2,
        "[[override]] 2 (Spider), gene",
        "'Spider'",
        "one override a gene: own.toml, [[override]] 1 (Spider) has it",
    ),
    "a compound of two loci": (
        '[[compound]]\ngenes = ["Fire", "Mojave"]\nlook = "l"\n',
        "[[compound]] 1, genes",
        "Fire and Mojave",
        "two different genes of one locus",
    ),
    "a compound of one gene": (
        '[[compound]]\ngenes = ["Fire", "Fire"]\nlook = "l"\n',
        "[[compound]] 1, genes",
        "Fire and Fire",
        "two different genes of one locus",
    ),
    "a compound twice": (
        '[[compound]]\ngenes = ["Vanilla", "Fire"]\nlook = "l"\n',
        "[[compound]] 1, genes",
        "'Fire with Vanilla'",
        "one compound a pair: leucistic.toml, [[compound]] 9 has it",
    ),
    "an unknown linked locus": (
        '[[linkage]]\nloci = ["pastel", "enchy"]\nrates = [0.1]\n',
        "[[linkage]] 1, loci",
        "'enchy'",
        "the name of a locus (the nearest: enchi, ",
    ),
    "a rate too many": (
        '[[linkage]]\nloci = ["pastel", "enchi"]\nrates = [0.1, 0.2]\n',
        "[[linkage]] 1, rates",
        "2 for 2 loci",
        "1",
    ),
    "a rate too few on the sex pair": (
        '[[linkage]]\nloci = ["banana"]\nsex_pair = true\n',
        "[[linkage]] 1, rates",
        "0 for 1 loci",
        "1",
    ),
    "a range upside down": (
        '[[linkage]]\nloci = ["pastel", "enchi"]\nrates = [0.1]\nlow = 0.2\nhigh = 0.1\n',
        "[[linkage]] 1, low",
        "1/5",
        "at most 1/10, which is high",
    ),
    "a locus linked twice": (
        '[[linkage]]\nloci = ["pastel", "enchi"]\nrates = [0.1]\n'
        '[[linkage]]\nloci = ["leopard", "enchi"]\nrates = [0.1]\n',
        "[[linkage]] 2, loci",
        "'enchi'",
        "each locus in one linkage: own.toml, [[linkage]] 1 has it",
    ),
    "two linkages of the sex pair": (
        f'[[locus]]\nname = "ink"\n{SEX}[[linkage]]\nloci = ["ink"]\nrates = [0.1]\nsex_pair = true\n',
        "[[linkage]] 1, sex_pair",
        "'true'",
        "one linkage of the sex pair: favourites.toml, [[linkage]] 1 has it",
    ),
    "an autosomal locus on the sex pair": (
        '[[linkage]]\nloci = ["banana", "enchi"]\nrates = [0.1, 0.2]\nsex_pair = true\n',
        "[[linkage]] 1, loci",
        "enchi, placed at: autosome",
        "a locus placed at: sex pair or X only",
    ),
    "a sex-pair locus among autosomal ones": (
        '[[linkage]]\nloci = ["banana", "enchi"]\nrates = [0.1]\n',
        "[[linkage]] 1, loci",
        "banana, placed at: sex pair",
        "a locus placed at: autosome",
    ),
    "an X-only locus after others": (
        '[[locus]]\nname = "ink"\nplacement = "X only"\n'
        '[[linkage]]\nloci = ["banana", "ink"]\nrates = [0.1, 0.2]\nsex_pair = true\n',
        "[[linkage]] 1, loci",
        "banana, ink",
        "loci placed at X only before all others",
    ),
    "a sex-pair locus without a linkage": (
        f'[[locus]]\nname = "ink"\n{SEX}',
        "[[locus]] 1 (ink), placement",
        "'sex pair'",
        "a [[linkage]] with sex_pair = true that names this locus",
    ),
}


@pytest.mark.parametrize(("text", "where", "found", "needed"), MISFITS.values(), ids=MISFITS)
def test_misfit__words(text: str, where: str, found: str, needed: str, findings: Callable[[str], list[str]]) -> None:
    """`needed` is how that part of the finding starts: the nearest names may follow."""
    line = f"own.toml, {where}: found {found}, needed {needed}"
    assert [finding for finding in findings(text) if finding.startswith(line)]


def test_misfits__are_all_listed_at_once(findings: Callable[[str], list[str]]) -> None:
    everything = "".join(text for text, *_ in MISFITS.values())
    assert len(findings(everything)) >= len(MISFITS) - 1
