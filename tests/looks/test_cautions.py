"""Cautions on looks and on whole broods. What they say stands in the catalogue: common practice, no source, except
Spider (Starck JM and co-authors, PLoS ONE 17, 2022; Rose MP, Williams DL, 2014)."""

from fractions import Fraction

import pytest

from explorer.catalogue import load_catalogue
from explorer.looks import brood_cautions, caution_text, look_cautions, look_remarks
from explorer.pairing import cross

CATALOGUE = load_catalogue()
HALF, QUARTER = Fraction(1, 2), Fraction(1, 4)


def chances(dam, sire):
    """Caution text -> share of all eggs laid, without the cautions called weak."""
    return {
        caution_text(item.caution): item.chance
        for item in cross(dam, sire).cautions
        if item.caution.strength != "weak"
    }


WOBBLE = (
    "Spider: wobble: every Spider animal studied shows it, from a malformed inner ear; how bad it is varies "
    "[published study]"
)
DEADLY = "two copies of {}: two copies believed not to live; unproven [anecdotal, widely repeated]"
EYES = "{}: enlarged or protruding eyes: reported, frequency unknown [anecdotal, widely repeated]"


@pytest.mark.parametrize(
    ("dam", "sire", "expected"),
    [
        pytest.param("Spider", "Normal", {WOBBLE: HALF}, id="Spider"),
        pytest.param(
            "Spider", "Spider", {WOBBLE: Fraction(3, 4), DEADLY.format("Spider"): QUARTER}, id="Spider with Spider"
        ),
        pytest.param("Lesser", "Lesser", {EYES.format("two copies of Lesser"): QUARTER}, id="Lesser with Lesser"),
        pytest.param("Lesser", "Butter", {EYES.format("Lesser with Butter"): QUARTER}, id="Lesser with Butter"),
        pytest.param(
            "Normal",
            "Desert",
            {
                "Desert, females: females do not reproduce and may retain eggs: reported, frequency unknown "
                "[anecdotal, widely repeated]": QUARTER
            },
            id="daughters of Desert",
        ),
        pytest.param(
            "Champagne",
            "Woma",
            {
                "Champagne with Woma: together: reported not viable or severely affected, frequency unknown "
                "[anecdotal, widely repeated]": QUARTER,
                "Champagne: wobble, milder than Spider's: reported, frequency unknown "
                "[anecdotal, widely repeated]": HALF,
                "Woma: mild wobble: reported, frequency unknown [anecdotal, widely repeated]": HALF,
            },
            id="Champagne with Woma",
        ),
        pytest.param("Pastel", "Clown", {}, id="nothing to say"),
    ],
)
def test_brood_cautions__share_of_eggs(dam, sire, expected):
    assert chances(dam, sire) == expected


def test_brood_cautions__likeliest_first():
    found = cross("Spider", "Spider Champagne").cautions
    assert [item.chance for item in found] == sorted((item.chance for item in found), reverse=True)
    assert found[0].caution.parts[0].gene == "Spider"


def test_brood_cautions__count_uncertain_parents_by_their_chance():
    assert chances("50% Spider", "Normal") == {WOBBLE: QUARTER}


def test_brood_cautions__a_recessive_needs_two_copies():
    found = cross("het Caramel Albino", "het Caramel Albino").cautions
    assert {(item.caution.sex, item.chance) for item in found} == {(None, QUARTER), ("female", Fraction(1, 8))}
    assert brood_cautions(CATALOGUE, cross("Caramel Albino", "Normal").brood) == ()


CAUTION = """[[caution]]
parts = [{{ gene = "Banana" }}, {{ gene = "Pastel" }}]
{sex}text = "invented for this test"
severity = "reported"
strength = "weak"
"""


@pytest.mark.parametrize(
    ("sex", "sire", "share"),
    [
        # Sons of a male maker have the gene with 93/200 of all eggs, daughters with 7/200 (r = 7/100 from memory).
        ("male", "male maker Banana Pastel", Fraction(93, 400)),
        ("female", "male maker Banana Pastel", Fraction(7, 400)),
        ("male", "female maker Banana Pastel", Fraction(7, 400)),
        ("", "male maker Banana Pastel", QUARTER),
    ],
)
def test_brood_cautions__one_sex_and_a_gene_of_the_sex_pair_are_counted_together(tmp_path, sex, sire, share):
    own = CAUTION.format(sex=f'sex = "{sex}"\n' if sex else "")
    (tmp_path / "own.toml").write_text(own, encoding="utf-8")
    (caution,) = cross("Normal", sire, catalogue=load_catalogue(tmp_path)).cautions
    assert (caution.caution.text, caution.chance) == ("invented for this test", share)


def test_brood_cautions__one_sex_and_an_autosomal_gene():
    (caution,) = cross("Normal", "male maker Banana Desert").cautions
    assert caution.chance == QUARTER


def test_look_cautions__of_either_sex():
    texts = [caution_text(caution) for caution in look_cautions(CATALOGUE, {"Desert": 1})]
    assert texts == [
        "Desert, females: females do not reproduce and may retain eggs: reported, frequency unknown "
        "[anecdotal, widely repeated]"
    ]
    assert look_cautions(CATALOGUE, {"Pastel": 2}) == ()


@pytest.mark.parametrize(
    ("look", "heard"), [({"Lesser": 1}, False), ({"Lesser": 2}, True), ({"Lesser": 1, "Butter": 1}, True)]
)
def test_look_cautions__copies_of_one_gene_are_counted_alone(look, heard):
    texts = [caution.text for caution in look_cautions(CATALOGUE, look)]
    assert ("enlarged or protruding eyes: reported, frequency unknown" in texts) is heard


@pytest.mark.parametrize(
    ("look", "remark"),
    [
        ({"Calico": 2}, "the two-copy form of Calico is not reported"),
        ({"Gravel": 2}, "the two-copy form of Gravel has few records"),
    ],
)
def test_look_remarks__mark_two_copy_forms_that_are_hardly_known(look, remark):
    """Status of two-copy forms: common practice or from memory."""
    assert look_remarks(CATALOGUE, look) == (remark,)
    (gene,) = look
    assert look_remarks(CATALOGUE, {gene: 1}) == ()


def test_look_remarks__cautions_come_before_the_mark():
    remarks = look_remarks(CATALOGUE, {"Woma": 2})
    assert remarks == (
        "Woma: mild wobble: reported, frequency unknown [anecdotal, widely repeated]",
        "the two-copy form of Woma is not reported",
    )
