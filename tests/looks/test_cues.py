"""What a keeper notes, as chances: the curve of a quality, the forms of a cue, and cues that exclude one another."""

from fractions import Fraction
from itertools import product

import pytest

from explorer.catalogue import Cue, Effect, Evidence, Part, Quality, load_catalogue
from explorer.looks import Layer, chance_of_answers, cue_chances, layers_of

CATALOGUE = load_catalogue()
EVIDENCE = Evidence("planning default", (), "made up for tests")
CURVE = tuple(Fraction(n, 100) for n in (1, 2, 4, 10, 30, 70, 90))

Shown = tuple[tuple[Part, Fraction], ...]


def on_quality(quality: Quality, curve: tuple[Fraction, ...] = CURVE, key: str = "cue") -> Cue:
    return Cue(key, "overall", "made up", EVIDENCE, quality, curve)


def on_forms(*shown_by: tuple[str, int, str], otherwise: str = "1/20", key: str = "cue") -> Cue:
    forms: Shown = tuple((Part(gene, copies), Fraction(chance)) for gene, copies, chance in shown_by)
    return Cue(key, "overall", "made up", EVIDENCE, shown_by=forms, otherwise=Fraction(otherwise))


def layers(look: dict[str, int], **brightness: int) -> tuple[Layer, ...]:
    """The look's layers, with the brightness that is given for a gene's single copy."""
    opinions = [Effect((Part(gene),), {"brightness": value}, EVIDENCE) for gene, value in brightness.items()]
    return layers_of(look, CATALOGUE, opinions)


def chance(cue: Cue, shown: tuple[Layer, ...]) -> Fraction:
    return cue_chances([cue], shown)[0]


@pytest.mark.parametrize("value", range(-3, 4))
def test_curve__is_met_at_whole_values(value: int) -> None:
    assert chance(on_quality("brightness"), layers({"Pastel": 1}, Pastel=value)) == CURVE[value + 3]


@pytest.mark.parametrize(
    ("pastel", "fire", "expected"),
    [
        (1, 1, Fraction(1, 3) * Fraction(30, 100) + Fraction(2, 3) * Fraction(70, 100)),  # 3 (1 - 2/3 2/3) = 5/3
        (2, 2, Fraction(1, 3) * Fraction(70, 100) + Fraction(2, 3) * Fraction(90, 100)),  # 3 - 1/3
        (-1, -1, Fraction(1, 3) * Fraction(4, 100) + Fraction(2, 3) * Fraction(2, 100)),  # -5/3
        (-2, -2, Fraction(1, 3) * Fraction(2, 100) + Fraction(2, 3) * Fraction(1, 100)),  # -3 + 1/3
        (3, 2, Fraction(90, 100)),
        (2, -2, Fraction(10, 100)),
    ],
)
def test_curve__goes_in_proportion_between_whole_values(pastel: int, fire: int, expected: Fraction) -> None:
    shown = layers({"Pastel": 1, "Fire": 1}, Pastel=pastel, Fire=fire)
    assert chance(on_quality("brightness"), shown) == expected


def test_curve__wild_type_is_0() -> None:
    assert chance(on_quality("brightness"), ()) == CURVE[3]


def test_curve__where_nothing_is_established_the_mean() -> None:
    nothing_known = Layer((Part("Pastel"),), "Pastel", ())
    assert chance(on_quality("brightness"), (nothing_known,)) == sum(CURVE, Fraction(0)) / 7
    assert chance(on_quality("brightness"), (nothing_known, *layers({"Fire": 1}, Fire=2))) == CURVE[5]


def test_curve__rear_follows_the_dorsal_line_unless_said_otherwise() -> None:
    dorsal = Effect((Part("Pastel"),), {"dorsal": 3}, EVIDENCE)
    both = Effect((Part("Pastel"),), {"dorsal": 3, "rear": -1}, EVIDENCE)
    for effect, expected in ((dorsal, CURVE[6]), (both, CURVE[2])):
        assert chance(on_quality("rear"), (Layer((Part("Pastel"),), "Pastel", (effect,)),)) == expected


@pytest.mark.parametrize(
    ("look", "expected"),
    [
        ({}, "1/20"),
        ({"Fire": 1}, "1/20"),
        ({"Pastel": 1}, "4/5"),
        ({"Pastel": 2}, "4/5"),
        ({"Enchi": 1}, "1/20"),
        ({"Enchi": 2}, "1/2"),
        ({"Pastel": 1, "Enchi": 2}, "9/10"),
        ({"Pastel": 1, "Enchi": 2, "Fire": 1}, "9/10"),
        ({"Spotnose": 1}, "1/20"),
    ],
)
def test_forms__each_makes_the_cue_noted_by_itself(look: dict[str, int], expected: str) -> None:
    """1 - 1/5 1/2 for two; a form that shows it less often than chance does not make it rarer."""
    cue = on_forms(("Pastel", 1, "4/5"), ("Enchi", 2, "1/2"), ("Spotnose", 1, "1/50"))
    assert chance(cue, layers_of(look, CATALOGUE)) == Fraction(expected)


def test_forms__recessives_show_with_two_copies() -> None:
    assert chance(on_forms(("Clown", 1, "4/5")), layers_of({"Clown": 2}, CATALOGUE)) == Fraction(4, 5)


@pytest.mark.parametrize("white", [{"Fire": 2}, {"Mojave": 1, "Lesser": 1}, {"Mojave": 2}])
def test_covered_all__forms_beneath_do_not_count(white: dict[str, int]) -> None:
    under = layers_of({"Pastel": 1, **white}, CATALOGUE)
    assert any("all" in layer.covers for layer in under)
    assert chance(on_forms(("Pastel", 1, "4/5")), under) == Fraction(1, 20)


def test_covered_all__the_covering_form_itself_counts() -> None:
    assert chance(on_forms(("Fire", 2, "4/5")), layers_of({"Pastel": 1, "Fire": 2}, CATALOGUE)) == Fraction(4, 5)


def test_covered_all__every_cue_of_the_catalogue_is_as_without_the_gene_beneath() -> None:
    white, over_pastel = (layers_of(look, CATALOGUE) for look in ({"Fire": 2}, {"Pastel": 1, "Fire": 2}))
    assert cue_chances(CATALOGUE.cues, white) == cue_chances(CATALOGUE.cues, over_pastel)
    assert cue_chances(CATALOGUE.cues, ()) != cue_chances(CATALOGUE.cues, layers_of({"Pastel": 1}, CATALOGUE))


def test_catalogue__no_cue_is_proof_on_any_form() -> None:
    looks = [{effect.parts[0].gene: effect.parts[0].copies} for effect in CATALOGUE.effects if len(effect.parts) == 1]
    assert len(looks) > 50
    for look in ({}, *looks):
        assert all(0 < p < 1 for p in cue_chances(CATALOGUE.cues, layers_of(look, CATALOGUE))), look


LIGHT, DARK, MURKY = (on_quality("brightness", key=key) for key in ("light", "dark", "murky"))
LIPS = on_forms(("Pastel", 1, "4/5"), key="lips")
BANDS = on_quality("banding", key="bands")
CUES = [DARK, LIPS, LIGHT, BANDS, MURKY]
CHANCES = [Fraction(1, 10), Fraction(4, 5), Fraction(1, 2), Fraction(1, 3), Fraction(3, 20)]


def answers_to(*keys: str) -> list[dict[str, bool]]:
    """All answers to these cues; of light, dark and murky at most one is seen."""
    every = [dict(zip(keys, seen, strict=True)) for seen in product((True, False), repeat=len(keys))]
    return [answers for answers in every if sum(answers.get(key, False) for key in ("light", "dark", "murky")) <= 1]


def test_answers__none_is_certain() -> None:
    assert chance_of_answers(CUES, CHANCES, {}) == 1


@pytest.mark.parametrize(
    ("answers", "expected"),
    [
        ({"lips": True}, Fraction(4, 5)),
        ({"lips": False}, Fraction(1, 5)),
        ({"light": True}, Fraction(1, 2)),
        ({"light": False}, Fraction(1, 2)),
        ({"light": True, "dark": False}, Fraction(1, 2)),
        ({"dark": True, "light": False}, Fraction(1, 10)),
        ({"light": False, "dark": False}, Fraction(2, 5)),
        ({"light": False, "dark": False, "murky": False}, Fraction(1, 4)),
        ({"light": False, "dark": False, "murky": True}, Fraction(3, 20)),
        ({"light": False, "murky": False, "lips": True, "bands": False}, Fraction(7, 20) * Fraction(8, 15)),
    ],
)
def test_answers__by_hand(answers: dict[str, bool], expected: Fraction) -> None:
    assert chance_of_answers(CUES, CHANCES, answers) == expected
    assert chance_of_answers(CUES[::-1], CHANCES[::-1], dict(reversed(answers.items()))) == expected


@pytest.mark.parametrize(
    "keys", [("light",), ("light", "dark"), ("light", "dark", "murky"), ("lips", "bands"), tuple(c.key for c in CUES)]
)
def test_answers__their_chances_sum_to_1(keys: tuple[str, ...]) -> None:
    assert sum(chance_of_answers(CUES, CHANCES, answers) for answers in answers_to(*keys)) == 1


def test_answers__catalogue_cues_of_one_quality_and_neither_sum_to_1() -> None:
    shown = cue_chances(CATALOGUE.cues, layers_of({"Pastel": 1, "Enchi": 1, "Clown": 2}, CATALOGUE))
    pairs = [(a, b) for a in CATALOGUE.cues for b in CATALOGUE.cues if a.key < b.key and a.quality == b.quality]
    excluding = [(a.key, b.key) for a, b in pairs if a.quality]
    assert ("bright", "dark") in excluding and len(excluding) > 8
    for one, two in excluding:
        seen = [{one: True, two: False}, {one: False, two: True}, {one: False, two: False}]
        assert sum(chance_of_answers(CATALOGUE.cues, shown, answers) for answers in seen) == 1
