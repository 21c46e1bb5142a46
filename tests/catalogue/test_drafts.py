"""One test for each kind of mistake inside a table: where it is, what was found, what was needed."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.catalogue import CatalogueError, Finding
from explorer.catalogue.checking import check
from explorer.catalogue.drafts import Draft
from explorer.catalogue.tables import KINDS as TABLES
from explorer.catalogue.tables import Shelf, shelve

GENE = '[[gene]]\nname = "Inkblot"\ninheritance = "recessive"\ntwo_copies = "own look"\n'
FIGURE = '[[figure]]\nname = "eggs"\nunit = "eggs per clutch"\n'
CAUTION = '[[caution]]\ntext = "t"\nseverity = "severe"\nstrength = "weak"\n'
KINDS = (
    "[[source]], [[locus]], [[gene]], [[linkage]], [[compound]], [[caution]], [[nickname]], [[ambiguous]], "
    "[[figure]], [[override]], [[effect]], [[cue]]"
)
GENE_KEYS = (
    "name, locus, inheritance, two_copies, evidence, evidence_note, synonyms, abbreviations, two_copy_note, doubt, "
    "notes"
)
NUMBER = 'a number such as 2, 0.07 or "7/100"'
KINDS_OF_EVIDENCE = (
    "'published: ' and source keys, or one of 'common practice, no source', 'trade opinion', 'from memory', "
    "'planning default'"
)

MISTAKES = {
    "not toml": (
        "[[gene",
        "",
        "Expected ']]' at the end of an array declaration (at end of document)",
        "a file of valid TOML in UTF-8",
    ),
    "unknown table": ("[[genes]]\n", "genes", "a table that is not known here", f"tables of the kinds {KINDS}"),
    "a value for a table": ("gene = 1\n", "gene", "a single value", "a table that opens with [[gene]]"),
    "a plain table": ("[gene]\n", "gene", "a single value", "a table that opens with [[gene]]"),
    "unknown key": (
        GENE + 'color = "red"\n',
        "[[gene]] 1 (Inkblot), color",
        "a key that is not known here",
        f"one of {GENE_KEYS}",
    ),
    "missing text": ('[[override]]\ntwo_copies = "own look"\n', "[[override]] 1, gene", "nothing", "text"),
    "empty text": ('[[override]]\ngene = " "\ntwo_copies = "own look"\n', "[[override]] 1 ( ), gene", "' '", "text"),
    "text of a wrong type": (GENE + "notes = 5\n", "[[gene]] 1 (Inkblot), notes", "5", "text"),
    "a number as text": (GENE + "notes = 0.5\n", "[[gene]] 1 (Inkblot), notes", "0.5", "text"),
    "a name with a comma": (
        GENE + 'synonyms = ["Ink, Blot"]\n',
        "[[gene]] 1 (Inkblot), synonyms",
        "'Ink, Blot'",
        "letters, digits, spaces, hyphens, apostrophes or slashes",
    ),
    "a text for a list": (GENE + 'synonyms = "Ink"\n', "[[gene]] 1 (Inkblot), synonyms", "'Ink'", "a list of texts"),
    "a number in a list": (GENE + "synonyms = [1]\n", "[[gene]] 1 (Inkblot), synonyms", "[1]", "a list of texts"),
    "a short list": (
        '[[compound]]\ngenes = ["Fire"]\nlook = "l"\n',
        "[[compound]] 1, genes",
        "['Fire']",
        "a list of at least 2 texts",
    ),
    "a long list": (
        '[[compound]]\ngenes = ["Fire", "Vanilla", "Disco"]\nlook = "l"\n',
        "[[compound]] 1, genes",
        "['Fire', 'Vanilla', 'Disco']",
        "two gene names",
    ),
    "one meaning": (
        '[[ambiguous]]\nwords = ["Tea"]\nmeanings = [["Fire"]]\n',
        "[[ambiguous]] 1, meanings",
        "[['Fire']]",
        "a list of at least two lists of gene names",
    ),
    "no meaning": (
        '[[ambiguous]]\nwords = ["Tea"]\n',
        "[[ambiguous]] 1, meanings",
        "nothing",
        "a list of at least two lists of gene names",
    ),
    "a status not in the list": (
        '[[override]]\ngene = "Spider"\ntwo_copies = "fine"\n',
        "[[override]] 1 (Spider), two_copies",
        "'fine'",
        "one of 'own look', 'few records', 'same look', 'not viable', 'not reported'",
    ),
    "a choice left out": (
        '[[override]]\ngene = "Spider"\n',
        "[[override]] 1 (Spider), two_copies",
        "nothing",
        "one of 'own look', 'few records', 'same look', 'not viable', 'not reported'",
    ),
    "one for true": (
        '[[compound]]\ngenes = ["Fire", "Disco"]\nlook = "l"\nviable = 1\n',
        "[[compound]] 1, viable",
        "1",
        "one of true, false",
    ),
    "three copies": (
        CAUTION + 'parts = [{ gene = "Enchi", copies = 3 }]\n',
        "[[caution]] 1, copies",
        "3",
        "one of 1, 2",
    ),
    "no part": (CAUTION + "parts = []\n", "[[caution]] 1, parts", "[]", "a list of tables"),
    "parts left out": (CAUTION, "[[caution]] 1, parts", "nothing", "a list of tables"),
    "an unknown key of a part": (
        CAUTION + 'parts = [{ gene = "Enchi", copy = 1 }]\n',
        "[[caution]] 1, copy",
        "a key that is not known here",
        "one of gene, copies",
    ),
    "an unknown sex": (
        CAUTION + 'sex = "dam"\nparts = [{ gene = "Enchi" }]\n',
        "[[caution]] 1, sex",
        "'dam'",
        "one of 'female', 'male'",
    ),
    "no number": (FIGURE, "[[figure]] 1 (eggs), value", "nothing", f"{NUMBER}"),
    "a number in words": (FIGURE + 'value = "six"\n', "[[figure]] 1 (eggs), value", "'six'", f"{NUMBER}, not below 0"),
    "a number below 0": (FIGURE + "value = -1\n", "[[figure]] 1 (eggs), value", "-1", f"{NUMBER}, not below 0"),
    "not a number": (FIGURE + "value = nan\n", "[[figure]] 1 (eggs), value", "NaN", f"{NUMBER}, not below 0"),
    "a huge exponent": (
        FIGURE + "value = 1e999999999\n",
        "[[figure]] 1 (eggs), value",
        "1E+999999999",
        f"{NUMBER}, not below 0",
    ),
    "truth for a number": (FIGURE + "value = true\n", "[[figure]] 1 (eggs), value", "true", f"{NUMBER}, not below 0"),
    "divided by nothing": (FIGURE + 'value = "1/0"\n', "[[figure]] 1 (eggs), value", "'1/0'", f"{NUMBER}, not below 0"),
    "code for a number": (FIGURE + 'value = "2*3"\n', "[[figure]] 1 (eggs), value", "'2*3'", f"{NUMBER}, not below 0"),
    "a figure's name": (
        FIGURE.replace("eggs", "Egg size", 1) + "value = 1\n",
        "[[figure]] 1 (Egg size), name",
        "'Egg size'",
        "a name in snake_case",
    ),
    "a rate above 1/2": (
        '[[linkage]]\nloci = ["pastel", "enchi"]\nrates = [0.6]\n',
        "[[linkage]] 1, rates",
        "0.6",
        "a number from 0 to 1/2",
    ),
    "a rate for rates": (
        '[[linkage]]\nloci = ["pastel", "enchi"]\nrates = 0.1\n',
        "[[linkage]] 1, rates",
        "0.1",
        "a list of numbers",
    ),
    "evidence of no kind": (
        GENE + 'evidence = "well known"\n',
        "[[gene]] 1 (Inkblot), evidence",
        "'well known'",
        f"{KINDS_OF_EVIDENCE}",
    ),
    "published without a source": (
        GENE + 'evidence = "published"\n',
        "[[gene]] 1 (Inkblot), evidence",
        "'published'",
        f"{KINDS_OF_EVIDENCE}",
    ),
    "a source without published": (
        GENE + 'evidence = "from memory: MOR11"\n',
        "[[gene]] 1 (Inkblot), evidence",
        "'from memory: MOR11'",
        f"{KINDS_OF_EVIDENCE}",
    ),
}


@pytest.mark.parametrize(("text", "where", "found", "needed"), MISTAKES.values(), ids=MISTAKES)
def test_mistake__words(text: str, where: str, found: str, needed: str, findings: Callable[[str], list[str]]) -> None:
    place = f"own.toml, {where}" if where else "own.toml"
    assert f"{place}: found {found}, needed {needed}" in findings(text)


def test_mistakes__are_all_listed_at_once(findings: Callable[[str], list[str]]) -> None:
    found = findings(GENE + "notes = 5\nhue = 1\n" + FIGURE + "value = -1\n" + "[[genes]]\n")
    assert [line.split(": found")[0] for line in found] == [
        "own.toml, [[gene]] 1 (Inkblot), notes",
        "own.toml, [[gene]] 1 (Inkblot), hue",
        "own.toml, [[figure]] 1 (eggs), value",
        "own.toml, genes",
    ]


def test_finding__says_each_thing_apart(own: Callable[[str], object]) -> None:
    with pytest.raises(CatalogueError) as caught:
        own(FIGURE + "value = -1\n")
    (finding,) = caught.value.findings
    assert (finding.file, finding.table, finding.key) == ("own.toml", "[[figure]] 1 (eggs)", "value")
    assert (finding.found, finding.needed) == ("-1", f"{NUMBER}, not below 0")


KEYS = ["name", "key", "gene", "genes", "words", "meanings", "loci", "rates", "low", "high", "sex_pair", "parts"]
KEYS += ["copies", "text", "severity", "strength", "sex", "viable", "look", "value", "unit", "locus", "inheritance"]
KEYS += ["two_copies", "evidence", "synonyms", "placement", "reference", "access", "note"]
SCALARS = (
    st.none() | st.booleans() | st.integers() | st.decimals() | st.sampled_from(["Fire", "Super Fire", "", " ", "1/0"])
)
VALUES = st.recursive(
    SCALARS, lambda inner: st.lists(inner) | st.dictionaries(st.sampled_from(KEYS), inner), max_leaves=6
)


@given(st.lists(st.tuples(st.sampled_from(TABLES), st.dictionaries(st.sampled_from(KEYS), VALUES)), max_size=4))
def test_anything__gives_findings_and_no_other_error(tables: list[tuple[str, dict[str, object]]]) -> None:
    findings: list[Finding] = []
    shelf = Shelf()
    for kind, values in tables:
        shelve(kind, Draft("own.toml", kind, values, findings, own=True), shelf)
    check(shelf)
    assert all(str(finding).startswith("own.toml, ") for finding in findings)
