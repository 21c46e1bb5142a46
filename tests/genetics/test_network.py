"""Sums of products over small factors: against adding up every case, and the corners."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import permutations, product
from math import prod

import numpy as np
import pytest

from explorer.genetics.factors import Factor, entries, trimmed, whole
from explorer.genetics.network import Network

Weights = dict[tuple[int, ...], Fraction]
Written = list[tuple[tuple[str, ...], Weights]]
ONE = Fraction(1)
CLASH: Written = [(("a",), {(0,): ONE}), (("a", "b"), {(1, 0): ONE, (1, 1): ONE})]


def network(sizes: dict[str, int], written: Written) -> Network:
    return Network(sizes, [whole(names, [sizes[name] for name in names], weights) for names, weights in written])


def added_up(sizes: dict[str, int], written: Written, asked: tuple[str, ...]) -> Weights:
    """States of the variables asked for -> the sum over every case."""
    found: Weights = {}
    for case in product(*(range(size) for size in sizes.values())):
        at = dict(zip(sizes, case, strict=True))
        weight = prod((w.get(tuple(at[name] for name in names), Fraction(0)) for names, w in written), start=ONE)
        key = tuple(at[name] for name in asked)
        found[key] = found.get(key, Fraction(0)) + weight
    return found


def shares(table: np.ndarray) -> Weights:
    total = int(table.sum())
    return {at: Fraction(int(weight), total) for at, weight in np.ndenumerate(table)}


def normed(weights: Weights) -> Weights:
    total = sum(weights.values())
    return {at: weight / total for at, weight in weights.items()}


def drawn(rng: random.Random) -> tuple[dict[str, int], Written]:
    sizes = {f"v{i}": rng.randint(1, 3) for i in range(rng.randint(1, 7))}
    written: Written = []
    for _ in range(rng.randint(0, 9)):
        names = tuple(rng.sample(sorted(sizes), rng.randint(0, min(3, len(sizes)))))
        places = product(*(range(sizes[name]) for name in names))
        written.append((names, {at: Fraction(rng.choice([0, 1, 1, 2, 5]), rng.randint(1, 4)) for at in places}))
    return sizes, written


@pytest.mark.parametrize("batch", range(4))
def test_random_networks__equal_every_case_added_up(batch: int) -> None:
    outcomes = set()
    for seed in range(batch, 320, 4):
        rng = random.Random(seed)
        sizes, written = drawn(rng)
        made, total = network(sizes, written), added_up(sizes, written, ())[()]
        outcomes.add(total > 0)
        assert made.total == total, seed
        assert made.possible == (total > 0), seed
        assert made.marginals.keys() == sizes.keys()
        if not total:
            continue
        for name in sizes:
            assert shares(made.marginals[name]) == normed(added_up(sizes, written, (name,))), (seed, name)
        asked = tuple(rng.sample(sorted(sizes), rng.randint(0, min(3, len(sizes)))))
        assert shares(made.joint(asked)) == normed(added_up(sizes, written, asked)), (seed, asked)
    assert outcomes == {True, False}


class TestTotals:
    def test_scales_count(self) -> None:
        halves = Factor(("a",), np.array([1, 3], dtype=object), Fraction(1, 7))
        assert Network({"a": 2}, [halves, Factor((), np.array(5, dtype=object), Fraction(2, 3))]).total == Fraction(
            40, 21
        )

    def test_a_variable_without_factors_counts_its_states(self) -> None:
        assert network({"a": 2, "free": 3}, [(("a",), {(0,): ONE, (1,): Fraction(1, 2)})]).total == Fraction(9, 2)

    def test_nothing_at_all(self) -> None:
        empty = Network({}, [])
        assert (empty.total, empty.possible, empty.marginals, empty.densest()) == (1, True, {}, (1, frozenset()))
        assert empty.joint(()).shape == ()
        assert int(empty.joint(())) > 0

    def test_no_digit_is_lost(self) -> None:
        """A hundred times 1/3 to 2/3 in a chain, and a likelihood of (3/4)^500."""
        sizes = {f"v{i}": 2 for i in range(101)}
        step = {(0, 0): Fraction(1, 3), (0, 1): Fraction(2, 3), (1, 1): ONE}
        written: Written = [((f"v{i}", f"v{i + 1}"), step) for i in range(100)]
        written += [(("v0",), {(0,): ONE}), (("v100",), {(0,): ONE, (1,): Fraction(3, 4) ** 500})]
        stayed, seen = Fraction(1, 3) ** 100, Fraction(3, 4) ** 500
        made = network(sizes, written)
        assert made.total == stayed + (1 - stayed) * seen
        assert shares(made.marginals["v100"]) == normed({(0,): stayed, (1,): (1 - stayed) * seen})


class TestMarginals:
    def test_variables_without_factors_have_equal_weights(self) -> None:
        marginals = network({"a": 2, "free": 3}, [(("a",), {(0,): ONE, (1,): Fraction(2)})]).marginals
        assert shares(marginals["free"]) == {(i,): Fraction(1, 3) for i in range(3)}
        assert shares(marginals["a"]) == {(0,): Fraction(1, 3), (1,): Fraction(2, 3)}

    def test_a_variable_that_has_one_state(self) -> None:
        made = network({"a": 1, "b": 2}, [(("a", "b"), {(0, 0): Fraction(1), (0, 1): Fraction(3)})])
        assert shares(made.marginals["a"]) == {(0,): 1}
        assert shares(made.marginals["b"]) == {(0,): Fraction(1, 4), (1,): Fraction(3, 4)}

    def test_the_order_of_factors_and_variables_does_not_matter(self) -> None:
        sizes, written = drawn(random.Random(5))
        first = {name: shares(table) for name, table in network(sizes, written).marginals.items()}
        turned = network(dict(reversed(sizes.items())), written[::-1])
        assert {name: shares(table) for name, table in turned.marginals.items()} == first


class TestNothingPossible:
    def test_a_clash(self) -> None:
        made = network({"a": 2, "b": 2}, CLASH)
        assert not made.possible
        assert made.total == 0
        assert not made.marginals["a"].any()
        assert not made.marginals["b"].any()
        assert not made.joint(("b", "a")).any()

    def test_in_one_of_two_parts(self) -> None:
        made = network({"a": 2, "b": 2, "c": 2}, [*CLASH, (("c",), {(0,): ONE})])
        assert not made.possible
        assert made.total == 0
        assert not any(table.any() for table in made.marginals.values())
        assert not made.joint(("c",)).any()
        assert made.joint(("c", "a")).shape == (2, 2)

    def test_a_factor_without_variables(self) -> None:
        made = network({"a": 2}, [(("a",), {(0,): ONE}), ((), {(): Fraction(0)})])
        assert made.total == 0
        assert not made.possible
        assert not made.marginals["a"].any()
        assert not made.joint(("a",)).any()
        assert not network({}, [((), {(): Fraction(0)})]).possible


class TestJoint:
    SIZES, WRITTEN = drawn(random.Random(12))

    def test_axes_are_in_the_order_asked(self) -> None:
        made = network(self.SIZES, self.WRITTEN)
        asked = sorted(self.SIZES)[:3]
        for order in permutations(range(3)):
            turned = shares(np.transpose(made.joint(asked), order))
            assert shares(made.joint([asked[i] for i in order])) == turned

    def test_variables_that_have_nothing_to_do_with_one_another(self) -> None:
        made = network({"a": 2, "b": 2}, [(("a",), {(0,): ONE, (1,): Fraction(2)})])
        assert shares(made.joint(("b", "a"))) == {
            (i, j): Fraction(1, 2) * Fraction(1 + j, 3) for i in range(2) for j in range(2)
        }


@pytest.mark.parametrize("seed", range(40))
def test_left__says_of_the_variables_kept_what_all_factors_say(seed: int) -> None:
    rng = random.Random(seed)
    sizes, written = drawn(rng)
    kept = tuple(rng.sample(sorted(sizes), rng.randint(0, min(3, len(sizes)))))
    left = network(sizes, written).left(kept)
    assert all(set(factor.names) <= set(kept) for factor in left)
    again = Network({name: sizes[name] for name in kept}, left)
    expected = added_up(sizes, written, kept)
    assert again.possible == any(expected.values())
    if again.possible:
        assert shares(again.joint(kept)) == normed(expected)


def test_left__strangers_do_not_meet() -> None:
    pairs: Written = [((one, two), dict.fromkeys(product(range(2), repeat=2), ONE)) for one, two in ("ab", "bc", "xy")]
    left = network(dict.fromkeys("abcxy", 2), pairs).left("acx")
    assert sorted(factor.names for factor in left) == [("a", "c"), ("x",)]


def test_densest__of_what_is_kept() -> None:
    """A star: its middle can be summed out last, or, if all others are kept, with all of them."""
    even = dict.fromkeys(product(range(2), repeat=2), ONE)
    star = network(dict.fromkeys("mabcde", 2), [(("m", leaf), even) for leaf in "abcde"])
    assert star.densest()[0] == 4
    assert star.densest("abcde") == (64, frozenset("mabcde"))


def test_trimmed__what_the_weights_do_not_depend_on_is_gone() -> None:
    three = np.array([[1, 1], [2, 2]], dtype=object)
    made = trimmed(Factor(("a", "b"), three, Fraction(1, 3)))
    assert (made.names, made.table.tolist(), made.scale) == (("a",), [1, 2], Fraction(1, 3))
    assert trimmed(Factor(("a", "b"), three * 0 + 5)).names == ()
    assert trimmed(Factor(("a", "b"), np.array([[1, 2], [2, 1]], dtype=object))).names == ("a", "b")


def test_densest__a_ring_needs_tables_of_three() -> None:
    sizes = {f"v{i}": 3 for i in range(30)}
    even = dict.fromkeys(product(range(3), repeat=2), ONE)
    ring = network(sizes, [((f"v{i}", f"v{(i + 1) % 30}"), even) for i in range(30)])
    entries_needed, crowd = ring.densest()
    assert entries_needed == 27
    assert len(crowd) == 3
    assert ring.total == 3**30


def test_densest__everyone_with_everyone() -> None:
    sizes = dict.fromkeys("abcde", 2)
    full = network(
        sizes,
        [
            (("a", "b", "c"), {}),
            (("c", "d", "e"), {}),
            (("a", "d"), {}),
            (("a", "e"), {}),
            (("b", "d"), {}),
            (("b", "e"), {}),
        ],
    )
    assert full.densest() == (32, frozenset(sizes))


def test_whole__weights_are_scale_times_table() -> None:
    weights = {(0, 1): Fraction(2, 3), (1, 0): Fraction(4, 5), (1, 1): Fraction(2)}
    made = whole(("a", "b"), (2, 2), weights)
    assert {at: made.scale * weight for at, weight in entries(made.table)} == weights
    assert [weight for _, weight in entries(made.table)] == [5, 6, 15]
    assert all(type(weight) is int for weight in made.table.flat)


def test_whole__all_weights_are_zero() -> None:
    for weights in ({}, {(0,): Fraction(0)}):
        made = whole(("a",), (2,), weights)
        assert made.table.tolist() == [0, 0]
        assert made.scale > 0
