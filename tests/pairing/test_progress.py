"""Progress by hand: what the best hatchling of a clutch is worth, counting only those that beat both parents."""

from fractions import Fraction

import pytest

from explorer.catalogue import load_catalogue
from explorer.notation import GenesError, ImpossibleGenes, read_genes
from explorer.pairing import ProgressToward, Standing, cross, progress


def at_least_one(chance: Fraction, eggs: int) -> Fraction:
    return 1 - (1 - chance) ** eggs


def worth(genes: str, target: str, **more: str) -> Fraction:
    """Of an animal that carries just this."""
    genotype = read_genes(genes, sex="male")
    return Standing.of(load_catalogue(), target, **more).worth({n: next(iter(p)) for n, p in genotype.parts.items()})


@pytest.mark.parametrize(
    ("genes", "target", "found"),
    [
        ("Leopard Pinstripe", "Leopard Pinstripe", 1),
        ("Leopard Pinstripe Pastel", "Leopard Pinstripe", 1),
        ("Leopard", "Leopard Pinstripe", "1/4"),
        ("Normal", "Leopard Pinstripe", 0),
        ("Pastel", "Super Pastel", "1/2"),
        ("Super Pastel", "Super Pastel", 1),
        ("het Clown", "Pastel Clown", "1/8"),
        ("Clown", "Pastel Clown", "1/4"),
        ("Pastel het Clown", "Pastel Clown", "1/2"),
        ("Mojave", "Mojave Mystic", "1/4"),
        ("Mojave Mystic", "Mojave Mystic", 1),
        ("Super Mojave", "Mojave Mystic", "1/4"),
        ("Clown Cryptic", "Clown", 1),
    ],
)
def test_worth__halves_for_each_point_that_is_missing(genes: str, target: str, found: str) -> None:
    assert worth(genes, target) == Fraction(found)


def test_worth__is_nothing_with_what_must_not_show_or_is_kept_out() -> None:
    assert worth("Leopard Pastel", "Leopard", without="Pastel") == 0
    assert worth("Clown Spider", "Clown") == 0
    assert worth("Clown Spider", "Clown", allow="Spider") == 1
    assert worth("Leopard het Clown", "Leopard", without="Clown") == 1


def test_progress__two_single_genes() -> None:
    """1 in 4 shows both and is worth 1; all other hatchlings are worth no more than a parent."""
    assert progress(cross("Leopard", "Pinstripe"), "Leopard Pinstripe", eggs=6) == at_least_one(Fraction(1, 4), 6)


def test_progress__a_recessive_and_a_single_gene() -> None:
    """Half are Leopard het Clown, which lack one point."""
    found = progress(cross("Leopard", "Clown"), "Leopard Clown", eggs=6)
    assert found == Fraction(1, 2) * at_least_one(Fraction(1, 2), 6)


def test_progress__two_visual_recessives() -> None:
    """Every hatchling carries both genes once and lacks two points; the parents lack three."""
    assert progress(cross("Clown", "Piebald"), "Clown Piebald", eggs=6) == Fraction(1, 4)


def test_progress__counts_lesser_steps_when_the_best_fails() -> None:
    """het Clown x het Clown: a quarter is Clown and worth 1; a carrier is worth no more than its parents."""
    assert progress(cross("het Clown", "het Clown"), "Clown", eggs=3) == at_least_one(Fraction(1, 4), 3)
    both = progress(cross("Pastel het Clown", "Pastel het Clown"), "Super Pastel Clown", eggs=1)
    shows_all, one_short = Fraction(1, 16), Fraction(2, 16) + Fraction(2, 16)
    assert both == shows_all + one_short / 2


@pytest.mark.parametrize("mate", ["Normal", "Leopard", "Leopard Clown", "Pastel het Clown"])
def test_progress__of_an_animal_that_is_the_target_is_nothing(mate: str) -> None:
    assert progress(cross("Leopard Clown", mate), "Leopard Clown", eggs=6) == 0


def test_progress__clutch_mates_share_an_uncertain_parent() -> None:
    found = progress(cross("66% het Clown", "Clown"), "Clown", eggs=6)
    assert found == 0
    found = progress(cross("Pastel 66% het Clown", "het Clown"), "Pastel Clown", eggs=6)
    sure, unsure = (progress(cross(f"Pastel{g}", "het Clown"), "Pastel Clown", eggs=6) for g in (" het Clown", ""))
    assert found == Fraction(2, 3) * sure + Fraction(1, 3) * unsure


def test_progress__counts_hatch_rate_lay_rate_and_clutch_sizes() -> None:
    odds = cross("Leopard", "Pinstripe")
    assert progress(odds, "Leopard Pinstripe", eggs=1, hatch_rate=0.8, lay_rate=0.9) == Fraction(18, 100)
    law = {2: Fraction(1, 2), 4: Fraction(1, 2)}
    parts = [at_least_one(Fraction(1, 4), n) / 2 for n in law]
    assert progress(odds, "Leopard Pinstripe", eggs=law) == sum(parts)
    with pytest.raises(ValueError, match="lay rate"):
        progress(odds, "Leopard", eggs=6, lay_rate=2)


def test_progress__eggs_that_cannot_live_count_for_nothing() -> None:
    """Champagne x Champagne: a quarter of the eggs is not viable."""
    odds = cross("Champagne Leopard", "Champagne Pinstripe")
    found = progress(odds, "Leopard Pinstripe Champagne", eggs=1, allow="all")
    assert odds.viable == Fraction(3, 4)
    assert found == Fraction(1, 2) * Fraction(1, 4)


def test_progress__a_better_mate_is_never_beaten_by_a_lesser_one_with_the_same_hatchlings() -> None:
    visual, carrier = (progress(cross("Pastel", g), "Pastel Clown", eggs=6) for g in ("Clown", "het Clown"))
    assert visual > carrier > 0


def test_progress__is_nothing_toward_nothing() -> None:
    assert progress(cross("Leopard", "Pinstripe"), "Normal", eggs=6) == 0


def test_progress__remembers_only_what_is_the_same() -> None:
    toward = ProgressToward(Standing.of(load_catalogue(), "Leopard Clown"), eggs=6)
    mates = [("Leopard", "Clown"), ("Leopard", "het Clown"), ("Leopard 50% het Clown", "het Clown")]
    pairs = [*mates, mates[0]]
    one_by_one = [progress(cross(*pair), "Leopard Clown", eggs=6) for pair in pairs]
    assert [toward.of(cross(*pair).brood) for pair in pairs] == one_by_one
    assert len(set(one_by_one)) == 3


def test_target__that_contradicts_itself_or_cannot_be_read() -> None:
    with pytest.raises(ImpossibleGenes, match="must not show"):
        progress(cross("Leopard", "Clown"), "Leopard", eggs=6, without="Leopard")
    with pytest.raises(GenesError):
        progress(cross("Leopard", "Clown"), "Lepard", eggs=6)
