"""Kinship from a pedigree: what holds for every pedigree, and against path counting."""

from fractions import Fraction
from itertools import combinations_with_replacement

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.genetics import Kinship
from tests.oracle import kinship_paths
from tests.oracle.kinship_paths import family

HALF = Fraction(1, 2)


@st.composite
def pedigrees(draw, largest=9):
    """Animal -> (dam, sire), parents first; any two earlier animals may be parents, so loops are common."""
    pedigree = {}
    for i in range(draw(st.integers(1, largest))):
        earlier = [None, *pedigree]
        dam = draw(st.sampled_from(earlier))
        sire = draw(st.sampled_from([key for key in earlier if key is None or key != dam]))
        pedigree[f"a{i}"] = (dam, sire)
    return pedigree


def pairs(pedigree):
    return combinations_with_replacement(sorted(pedigree), 2)


@given(pedigrees())
def test_between__equals_path_counting(pedigree):
    found = Kinship(pedigree)
    for one, two in pairs(pedigree):
        assert found.between(one, two) == kinship_paths.kinship(pedigree, one, two)


@given(pedigrees())
def test_inbreeding__equals_path_counting(pedigree):
    found = Kinship(pedigree)
    for key in pedigree:
        assert found.inbreeding(key) == kinship_paths.inbreeding(pedigree, key)


@given(pedigrees(30))
def test_kinship__symmetric_and_between_0_and_1(pedigree):
    found = Kinship(pedigree)
    for one, two in pairs(pedigree):
        assert found.between(one, two) == found.between(two, one)
        assert 0 <= found.between(one, two) <= 1
    assert all(0 <= found.inbreeding(key) <= 1 for key in pedigree)


@given(pedigrees(30))
def test_table__is_a_possible_covariance(pedigree):
    """No combination of relatives varies less than nothing: all eigenvalues are at least 0 (tolerance of floats)."""
    assert np.linalg.eigvalsh(Kinship(pedigree).table(list(pedigree))).min() > -1e-12


@given(st.data())
def test_kinship__row_order_does_not_matter(data):
    pedigree = data.draw(pedigrees(20))
    shuffled = dict(data.draw(st.permutations(list(pedigree.items()))))
    ids = sorted(pedigree)
    assert np.array_equal(Kinship(shuffled).table(ids), Kinship(pedigree).table(ids))


@given(pedigrees(12), pedigrees(6))
def test_kinship__strangers_change_nothing(pedigree, others):
    def renamed(key):
        return None if key is None else f"other {key}"

    strangers = {renamed(key): tuple(map(renamed, parents)) for key, parents in others.items()}
    apart, together, ids = Kinship(pedigree), Kinship({**strangers, **pedigree}), list(pedigree)
    assert np.array_equal(apart.table(ids), together.table(ids))
    assert all(together.between(key, stranger) == 0 for key in pedigree for stranger in strangers)


@given(st.data())
def test_kinship__a_parent_found_later_never_lowers_a_figure(data):
    """Why a figure with unknown parents is a lower bound."""
    pedigree = data.draw(pedigrees(12))
    key = data.draw(st.sampled_from(list(pedigree)))
    index = list(pedigree).index(key)
    parents = data.draw(st.lists(st.sampled_from([None, *list(pedigree)[:index]]), min_size=2, max_size=2))
    completed = {**pedigree, key: tuple(old or new for old, new in zip(pedigree[key], parents, strict=True))}
    ids = list(pedigree)
    assert (Kinship(completed).table(ids) >= Kinship(pedigree).table(ids)).all()


def test_ids__parents_before_their_offspring():
    assert Kinship({"child": ("dam", None), "dam": (None, "granddad"), "granddad": (None, None)}).ids == (
        "granddad",
        "dam",
        "child",
    )


def test_table__rows_and_columns_as_asked():
    found = Kinship(family("child = dam x sire")).table(["sire", "child", "dam"])
    assert found.dtype == np.float64
    assert found.tolist() == [[0.5, 0.25, 0], [0.25, 0.5, 0.25], [0, 0.25, 0.5]]
    assert Kinship({}).table([]).shape == (0, 0)


@pytest.mark.parametrize("generations", range(23, 31))
def test_inbreeding__exact_however_many_generations(generations):
    """Two lines of descent from one founder, and an animal bred from their ends: the smallest figure there can be."""
    pedigree = {"left 0": (None, None)}
    for t in range(1, generations + 1):
        pedigree |= {f"{side} {t}": (f"{side} {t - 1}" if t > 1 else "left 0", None) for side in ("left", "right")}
    pedigree["end"] = (f"left {generations}", f"right {generations}")
    found = Kinship(pedigree)
    assert found.inbreeding("end") == HALF ** (2 * generations + 1)
    assert found.between("end", "end") == HALF + HALF ** (2 * generations + 2)
    assert found.table(["end"]).dtype == np.float64


@pytest.mark.parametrize("generations", [12, 40])
def test_between__full_siblings_mated_on_and_on(generations):
    """F(t) = (1 + 2 F(t-1) + F(t-2)) / 4."""
    pedigree = {"f0": (None, None), "m0": (None, None)}
    for t in range(1, generations + 1):
        pedigree |= {f"{sex}{t}": (f"f{t - 1}", f"m{t - 1}") for sex in "fm"}
    expected = [Fraction(0), Fraction(0)]
    while len(expected) <= generations + 1:
        expected.append((1 + 2 * expected[-1] + expected[-2]) / 4)
    found = Kinship(pedigree)
    assert [found.inbreeding(f"f{t}") for t in range(generations + 1)] == expected[:-1]
    assert found.between(f"f{generations}", f"m{generations}") == expected[-1]


def test_between__a_long_line_of_descent_is_not_lost():
    """A founder and its descendant of 60 generations, each step by a fresh mate."""
    pedigree = {"0": (None, None)}
    for t in range(1, 61):
        pedigree |= {f"mate {t}": (None, None), str(t): (str(t - 1), f"mate {t}")}
    assert Kinship(pedigree).between("0", "60") == HALF**61


def test_kinship__refuses_loops_and_strangers():
    with pytest.raises(ValueError, match="cycle"):
        Kinship({"a": ("b", None), "b": (None, "a")})
    with pytest.raises(KeyError, match="stranger"):
        Kinship({"a": ("stranger", None)})
    for ask in (
        lambda known: known.between("a", "b"),
        lambda known: known.inbreeding("b"),
        lambda known: known.table(["b"]),
    ):
        with pytest.raises(KeyError, match="b"):
            ask(Kinship({"a": (None, None)}))
