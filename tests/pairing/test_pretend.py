"""One random clutch, for seeing luck."""

import pytest

from explorer.notation import GenesError, read_genes, read_wanted
from explorer.pairing import cross, pretend_clutch

ODDS = cross("Pastel Spider 66% het Clown", "Spider Leopard Clown")


def test_pretend_clutch__same_seed_same_clutch():
    one, two = (pretend_clutch(ODDS, seed=5, eggs=8, hatch_rate=0.8, target="Pastel Clown") for _ in range(2))
    assert one == two
    assert len(one) == 8


def test_pretend_clutch__other_seeds_give_other_clutches():
    assert len({pretend_clutch(ODDS, seed=seed, eggs=8) for seed in range(30)}) > 25


def test_pretend_clutch__same_clutch_from_the_same_cross_made_again():
    again = cross("Pastel Spider 66% het Clown", "Spider Leopard Clown")
    assert pretend_clutch(again, seed=3, eggs=8) == pretend_clutch(ODDS, seed=3, eggs=8)


@pytest.mark.parametrize("seed", range(20))
def test_pretend_clutch__eggs_agree_with_themselves(seed):
    possible = set(ODDS.genotypes().genotype)
    for egg in pretend_clutch(ODDS, seed=seed, eggs=12, hatch_rate=0.7, target="Leopard"):
        assert read_genes(egg.genotype, sex=egg.sex).sex == egg.sex
        assert egg.viable == ("Super Spider" not in egg.genotype)
        assert (egg.genotype in possible) is egg.viable
        assert not egg.hatched or egg.viable
        assert egg.shows_target == (egg.hatched and "Leopard" in read_wanted(egg.look))


def test_pretend_clutch__nothing_hatches_at_rate_0_and_all_that_can_at_rate_1():
    for seed in range(10):
        lost, kept = (pretend_clutch(ODDS, seed=seed, eggs=12, hatch_rate=rate) for rate in (0, 1))
        assert not any(egg.hatched or egg.shows_target for egg in lost)
        assert [egg.hatched for egg in kept] == [egg.viable for egg in kept]
        assert [egg.genotype for egg in lost] == [egg.genotype for egg in kept]


def test_pretend_clutch__without_a_target_every_hatchling_counts():
    for egg in pretend_clutch(ODDS, seed=1, eggs=12, hatch_rate=0.5):
        assert egg.shows_target is egg.hatched


def test_pretend_clutch__eggs_share_one_truth_about_the_parents():
    """A 66 % het dam gives Clown in a clutch of 40 or never: both kinds of clutch occur, and none in between."""
    odds = cross("66% het Clown", "Clown")
    counts = [sum(egg.look == "Clown" for egg in pretend_clutch(odds, seed=seed, eggs=40)) for seed in range(40)]
    assert 0 in counts
    assert all(count == 0 or count >= 8 for count in counts)
    assert max(counts) >= 8


def test_pretend_clutch__number_of_eggs_may_be_a_law():
    sizes = {len(pretend_clutch(ODDS, seed=seed, eggs={4: 0.5, 6: 0.5})) for seed in range(30)}
    assert sizes == {4, 6}
    assert pretend_clutch(ODDS, seed=1, eggs=0) == ()


def test_pretend_clutch__target_of_a_gene_that_nobody_carries():
    assert not any(egg.shows_target for egg in pretend_clutch(ODDS, seed=1, eggs=12, target="Enchi"))


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"eggs": -2}, "a clutch has a whole number of eggs from 0 up, found -2"),
        ({"eggs": 2, "hatch_rate": 2}, "a hatch rate lies from 0 to 1, found 2"),
        ({"eggs": {2: 0.4}}, "the chances of the clutch sizes must sum to 1, found 2/5"),
    ],
)
def test_pretend_clutch__says_what_is_wrong(more, words):
    with pytest.raises(ValueError) as caught:
        pretend_clutch(ODDS, seed=1, **more)
    assert str(caught.value) == words


def test_pretend_clutch__target_that_cannot_be_read():
    with pytest.raises(GenesError, match='"Cloun" cannot be read'):
        pretend_clutch(ODDS, seed=1, eggs=2, target="Cloun")
