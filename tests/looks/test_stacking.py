"""What genes do together. Each sentence is common practice without a source; the model must say so by its rules."""

from collections.abc import Callable
from fractions import Fraction

import pytest

from explorer.catalogue import QUALITIES, ZONES, Effect, Evidence, Part, Quality, load_catalogue
from explorer.looks import Verdict, stack, stack_of
from explorer.notation import GenesError, read_genes


def value(genes: str, quality: Quality) -> Fraction:
    found = stack(genes).value(quality)
    assert found is not None, f"{genes}: {quality} is not established"
    return found


def pair(verdicts: tuple[Verdict, ...], *genes: str) -> Verdict | None:
    return next((verdict for verdict in verdicts if set(verdict.genes) == set(genes)), None)


def helps(genes: str, *two: str) -> bool:
    return pair(stack(genes).helps, *two) is not None


def clashes(genes: str, *two: str) -> bool:
    return pair(stack(genes).clashes, *two) is not None


def hides(genes: str, over: str, under: str) -> bool:
    return any(v.genes[0] == over and under in v.genes for v in stack(genes).hidden)


REDUCERS = ("Enchi", "Pinstripe", "Leopard", "Fire", "Red Stripe", "Spotnose")

SENTENCES: dict[str, Callable[[], bool]] = {
    "Enchi bands more strongly than wild type": lambda: value("Enchi", "banding") > 0,
    "with one Enchi some of the dorsal line still joins the bands": lambda: -3 < value("Enchi", "dorsal") < 0,
    "Enchi widens the eye stripes": lambda: value("Enchi", "eye_stripe") > 0,
    "two copies of Enchi band much more": lambda: value("Super Enchi", "banding") > value("Enchi", "banding"),
    "two copies of Enchi take the dorsal line away": lambda: value("Super Enchi", "dorsal") == -3,
    "two copies of Enchi lighten the browns": lambda: value("Super Enchi", "brightness") > value("Enchi", "brightness"),
    "with two copies of Enchi the eye stripes meet": lambda: value("Super Enchi", "eye_stripe") == 3,
    "Enchi clears the flanks of a Clown": lambda: value("Enchi Clown", "flank") < value("Clown", "flank"),
    "a dorsal stripe stays on an Enchi Clown": lambda: value("Enchi Clown", "dorsal") >= 2,
    "two copies of Enchi break up a Clown's dorsal": lambda: value("Super Enchi Clown", "dorsal") < 1,
    "a Super Enchi Clown is cleaner": lambda: value("Super Enchi Clown", "clean") > value("Enchi Clown", "clean"),
    "a Super Enchi Clown is more orange": lambda: value("Super Enchi Clown", "red") > value("Enchi Clown", "red"),
    "Fire reduces pattern": lambda: value("Fire", "pattern") < 0,
    "Fire reduces most on the rear dorsal": lambda: value("Fire", "rear") < value("Fire", "dorsal") < 0,
    "Fire brightens": lambda: value("Fire", "brightness") > 0,
    "Fire lightens the headstamp": lambda: value("Fire", "headstamp") > 0,
    "Fire reduces a Clown further": lambda: value("Fire Clown", "pattern") < value("Clown", "pattern"),
    "a Fire Clown is very bright": lambda: value("Fire Clown", "brightness") > 2,
    "a Fire Clown has a high-contrast dorsal": lambda: (
        value("Fire Clown", "contrast") > 2 and value("Fire Clown", "dorsal") >= 2
    ),
    "unlike Enchi, Fire leaves a little banding": lambda: (
        value("Fire Clown", "banding") > value("Enchi Clown", "banding")
        and value("Fire Clown", "flank") > value("Enchi Clown", "flank")
    ),
    "Pastel is bright yellow": lambda: value("Pastel", "brightness") >= 2 and value("Pastel", "yellow") >= 2,
    "Pastel has a light headstamp": lambda: value("Pastel", "headstamp") > 0,
    "Pastel has white lips": lambda: any(w.zone == "head" and "white lips" in w.text for w in stack("Pastel").words),
    "Pastel dirties an Enchi Clown": lambda: value("Pastel Enchi Clown", "clean") < value("Enchi Clown", "clean") - 1,
    "Pastel spoils the cleanness of an Enchi Clown": lambda: clashes("Pastel Enchi Clown", "Pastel", "Enchi"),
    "Fire counters what Pastel dirties there": lambda: (
        value("Pastel Fire Enchi Clown", "clean") > value("Pastel Enchi Clown", "clean")
        and helps("Pastel Fire Enchi Clown", "Pastel", "Fire")
        and not clashes("Pastel Fire Enchi Clown", "Pastel", "Fire")
    ),
    "Fire helps Pastel": lambda: (
        helps("Fire Pastel", "Fire", "Pastel") and not clashes("Fire Pastel", "Fire", "Pastel")
    ),
    "Fire helps Orange Dream": lambda: helps("Fire Orange Dream", "Fire", "Orange Dream"),
    "Fire helps Enchi": lambda: helps("Fire Enchi", "Fire", "Enchi"),
    "Orange Dream blushes": lambda: value("Orange Dream", "blush") > 0,
    "Calico's white climbs": lambda: value("Calico", "white") >= 2,
    "Calico's edges are speckled": lambda: value("Calico", "clean") < 0,
    "Calico darkens a little": lambda: value("Calico", "brightness") == -1,
    "Calico covers Orange Dream's blush": lambda: (
        hides("Calico Orange Dream", "Calico", "Orange Dream")
        and value("Calico Orange Dream", "blush") < value("Orange Dream", "blush") - 1
    ),
    "opinions differ on Calico with Orange Dream": lambda: (
        "opinions differ" in stack("Calico Orange Dream").hidden[0].reason
    ),
    "Vanilla is soft, bright, with a broken dorsal": lambda: (
        value("Vanilla", "contrast") < 0 < value("Vanilla", "brightness") and value("Vanilla", "dorsal") < 0
    ),
    "Mojave's flank blotches float": lambda: value("Mojave", "floating") > 0,
    "with Enchi, Mojave's blotches stretch into bands": lambda: (
        value("Mojave Enchi", "banding") > value("Enchi", "banding")
        and value("Mojave Enchi", "floating") < value("Mojave", "floating")
    ),
    "pattern reducers enhance one another": lambda: all(
        helps(f"{a} {b}", a, b) and value(f"{a} {b}", "pattern") < min(value(a, "pattern"), value(b, "pattern"))
        for i, a in enumerate(REDUCERS)
        for b in REDUCERS[:i]
    ),
    "what darkens spoils what brightens": lambda: all(
        clashes(f"{dark} {bright}", dark, bright)
        for dark in ("Cinnamon", "Black Pastel", "Mahogany", "Chocolate")
        for bright in ("Pastel", "Orange Dream", "Banana", "Vanilla")
    ),
    "what darkens spoils what blushes": lambda: clashes("Cinnamon Mojave", "Cinnamon", "Mojave"),
    "what adds white spoils what brightens or blushes": lambda: all(
        clashes(f"Calico {bright}", "Calico", bright) for bright in ("Pastel", "Orange Dream", "Desert Ghost")
    ),
    "leucistic pairs cover everything": lambda: all(
        hides(f"{white} Pastel", gene, "Pastel") and stack(f"{white} Pastel").values == stack(white).values
        for white, gene in (
            ("Super Mojave", "Mojave"),
            ("Super Lesser", "Lesser"),
            ("Mojave Lesser", "Mojave"),
            ("Super Fire", "Fire"),
            ("Super Yellow Belly", "Yellow Belly"),
        )
    ),
    "on a leucistic hidden genes are possible": lambda: (
        "Hidden genes possible" in stack("Super Fire Pastel").hidden[0].reason
    ),
    "Pinstripe swamps banding": lambda: (
        hides("Pinstripe Enchi", "Pinstripe", "Enchi") and value("Pinstripe Enchi", "banding") < 0
    ),
    "Champagne swamps pattern": lambda: all(
        hides(f"Champagne {other}", "Champagne", other) for other in ("Pinstripe", "Leopard", "Enchi")
    ),
    "axanthics remove yellow": lambda: (
        hides("Pastel Axanthic line A", "Axanthic line A", "Pastel") and value("Pastel Axanthic line A", "yellow") == -3
    ),
    "albinos remove black": lambda: (
        hides("Black Pastel Albino", "Albino", "Black Pastel") and value("Black Pastel Albino", "black") == -3
    ),
}


@pytest.mark.parametrize("sentence", SENTENCES)
def test_stack__says_what_the_trade_says(sentence: str) -> None:
    assert SENTENCES[sentence](), sentence


def test_stack__wild_type_is_nothing() -> None:
    found = stack("Normal")
    assert {found.value(quality) for quality in QUALITIES} == {0}
    assert (found.score, found.helps, found.clashes, found.hidden, found.notable) == (0, (), (), (), ())


def test_stack__one_form_alone_has_its_own_values() -> None:
    catalogue = load_catalogue()
    for effect in catalogue.effects:
        if len(effect.parts) == 1 and not effect.on:
            part = effect.parts[0]
            found = stack_of({part.gene: part.copies})
            for quality, stated in effect.values.items():
                assert found.value(quality) == stated, (part, quality)


def test_stack__order_does_not_matter() -> None:
    one, two = stack("Pastel Enchi Fire Clown"), stack("Clown, Fire, Enchi, Pastel")
    assert one.values == two.values
    assert (one.text, one.helps, one.clashes) == (two.text, two.helps, two.clashes)


def test_stack__values_saturate() -> None:
    two, three = value("Pastel Orange Dream", "brightness"), value("Pastel Orange Dream Desert Ghost", "brightness")
    assert two == 3 - Fraction(1, 3)
    assert two < three < 3
    assert three - two < two - 2


def test_stack__zones_hold_every_quality_once() -> None:
    effects = stack("Pastel").effects
    assert [quality for zone in effects.values() for quality in zone] == list(QUALITIES)
    assert list(effects) == list(ZONES)


def test_stack__hidden_hets_take_no_part() -> None:
    assert stack("Pastel het Clown").values == stack("Pastel").values
    assert stack(read_genes("66% het Clown", sex="female")).text == "Normal"


def test_stack__what_is_not_established_is_said() -> None:
    found = stack("Super Calico")
    assert found.value("brightness") is None
    assert set(found.not_established["Super Calico"]) == set(QUALITIES)
    mixed = stack("Super Calico Pastel")
    assert mixed.value("brightness") == 2
    assert "Super Calico" in mixed.not_established


def test_stack__a_verdict_has_reason_and_evidence() -> None:
    for genes in ("Pastel Enchi Fire Clown", "Calico Orange Dream", "Super Mojave Pastel", "Cinnamon Pastel"):
        found = stack(genes)
        for verdict in (*found.helps, *found.clashes, *found.hidden):
            assert verdict.reason.endswith((".", ")")) and verdict.reason[0].isupper()
            assert verdict.evidence.startswith("trade opinion")
            assert all(load_catalogue().gene(gene).name == gene for gene in verdict.genes)


def test_stack__taste_decides_what_counts_as_help() -> None:
    assert helps("Fire Pastel", "Fire", "Pastel")
    assert not stack("Fire Pastel", taste={"banding": 1}).helps
    dark = stack("Cinnamon Mahogany", taste={"bright": -2})
    assert {*dark.helps[0].genes} == {"Cinnamon", "Mahogany"}
    assert "darken" in dark.helps[0].reason
    assert dark.score > 0 > stack("Pastel", taste={"bright": -2}).score


def test_stack__an_unknown_wish_is_an_error() -> None:
    with pytest.raises(ValueError, match="no wish is called 'shiny'; the wishes are reduced pattern, bright"):
        stack("Pastel", taste={"shiny": 1})
    with pytest.raises(ValueError, match="bright: a whole number from -2 to 2 is needed, found 5"):
        stack("Pastel", taste={"bright": 5})


def test_stack__an_unknown_quality_lists_those_there_are() -> None:
    with pytest.raises(KeyError, match="no quality is called 'shine'; there are headstamp, eye_stripe"):
        stack("Pastel").value("shine")  # type: ignore[arg-type]


def test_stack__unreadable_genes() -> None:
    with pytest.raises(GenesError, match="Pastell"):
        stack("Pastell")


def test_opinion__wins_over_the_catalogue_and_says_whose_it_is() -> None:
    mine = Effect((Part("Enchi"),), {"brightness": 3}, Evidence("trade opinion", (), "Rowan's own"), by="Rowan")
    found = stack("Enchi Fire", opinions=[mine])
    assert stack("Enchi", opinions=[mine]).value("brightness") == 3
    assert stack("Enchi", opinions=[mine]).value("banding") == stack("Enchi").value("banding")
    assert found.helps[0].by == "Rowan"
    assert "Rowan's own" in found.helps[0].evidence
