"""Which hatchling, and which pairing, promises most for a taste."""

from fractions import Fraction
from pathlib import Path

from explorer.collection import Collection, read_collection
from explorer.pairing import cross, promise, promises

ROWS = """id,sex,genes
F1,female,Pastel
F2,female,Cinnamon
F3,female,Spider
M1,male,Enchi
M2,male,Normal
"""


def animals(folder: Path) -> Collection:
    (folder / "a.csv").write_text(ROWS)
    return read_collection(folder / "a.csv")


def test_promise__is_the_look_of_the_greatest_worth() -> None:
    odds = cross("Pastel", "Enchi")
    best = promise(odds, eggs=6)
    assert best is not None
    assert best.look == "Pastel Enchi"
    assert best.chance == odds.chance_in_clutch("Pastel Enchi", eggs=6, exactly=True) == 1 - Fraction(3, 4) ** 6
    assert best.worth == best.stack.score * best.chance


def test_promise__weighs_how_good_against_how_likely() -> None:
    odds = cross("Pastel het Desert Ghost", "het Desert Ghost")
    one, many = promise(odds, eggs=1), promise(odds, eggs=15)
    assert one is not None and many is not None
    assert many.stack.score > one.stack.score
    assert many.chance > one.chance


def test_promise__averages_over_what_a_parent_may_carry() -> None:
    odds = cross("66% het Clown", "Clown")
    best = promise(odds, eggs=6)
    assert best is not None and best.look == "Clown"
    assert best.chance == Fraction(21, 32)


def test_promise__passes_over_what_a_caution_keeps_out() -> None:
    odds = cross("Spider", "Pastel")
    plain, allowed = promise(odds, eggs=6), promise(odds, eggs=6, allow={"Spider"})
    assert plain is not None and "Spider" not in plain.look
    assert allowed is not None and "Spider" in allowed.look


def test_promise__is_worth_nothing_where_nothing_pleases() -> None:
    dull = promise(cross("Cinnamon", "Normal"), eggs=6)
    assert dull is None or dull.worth == 0


def test_promises__best_first_whatever_the_order(tmp_path: Path) -> None:
    a = animals(tmp_path)
    pairs = [(a[d], a[s]) for d in ("F1", "F2") for s in ("M1", "M2")]
    told: list[float] = []
    found = promises(pairs, eggs=6, progress=lambda share, _: told.append(share))
    assert next((d.id, s.id) for d, s, _ in found) == ("F1", "M1")
    assert [best.worth for *_, best in found] == sorted((best.worth for *_, best in found), reverse=True)
    assert [(d.id, s.id) for d, s, _ in promises(pairs[::-1], eggs=6)] == [(d.id, s.id) for d, s, _ in found]
    assert ("F2", "M2") not in [(d.id, s.id) for d, s, _ in found]
    assert told == [0, 0.25, 0.5, 0.75]
