"""A pedigree too entangled to be reckoned whole is cut where it is densest, and says so."""

import pytest

from explorer.collection import Collection, lineage
from explorer.collection.clutch import Clutch, Hatchlings
from explorer.notation import write_genes

FOUNDERS = "id,sex,genes,dam,sire\n" + "".join(
    f"{key},{sex},50% het Clown,,\n" for key, sex in (("A", "f"), ("B", "f"), ("C", "m"), ("D", "m"))
)
CROSSED = "".join(
    f"{dam}{sire}{i},{'f' if i else 'm'},Normal,{dam},{sire}\n" for dam in "AB" for sire in "CD" for i in (0, 1)
)
LOOPED = "X1,f,Normal,AC1,BD0\nX2,m,Normal,BC1,AD0\nX3,f,Normal,X1,X2\n"


def test_entangled__whole_as_long_as_the_tables_are_small() -> None:
    animals = Collection.from_text(FOUNDERS + CROSSED + LOOPED)
    assert animals.findings == ()
    assert list(animals.knowledge.set_apart()) == []


def test_entangled__cut_and_said(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = Collection.from_text(FOUNDERS + CROSSED + LOOPED)
    monkeypatch.setattr(lineage, "LARGEST_TABLE", 30)
    cut = Collection.from_text(FOUNDERS + CROSSED + LOOPED)
    apart = [key for key, _ in cut.knowledge.set_apart()]
    assert apart and all(cut[key].dam for key in apart)
    said = [finding for finding in cut.findings if "left out of account at clown" in finding.found]
    assert sorted(finding.id for finding in said) == sorted(apart)
    assert cut.knowledge._lineages["clown"].pedigree.network.densest()[0] <= 30
    assert write_genes(cut[apart[0]].genotype) == "Normal", "its own label alone counts"
    assert write_genes(whole[apart[0]].genotype) != "Normal"


def mated(pairs: int) -> tuple[Collection, list[Clutch]]:
    """Possible hets, as many females as males, of whom each was bred with each."""
    rows = [f"{sex}{i:02},{sex},50% het Clown,," for sex in "fm" for i in range(pairs)]
    animals = Collection.from_text("\n".join(["id,sex,genes,dam,sire", *rows]))
    normals = (Hatchlings("Normal", 3, None, {}),)
    names = [(f"f{i:02}", f"m{j:02}") for i in range(pairs) for j in range(pairs)]
    return animals, [Clutch(d + s, d, (s,), False, None, None, None, normals) for d, s in names]


def test_entangled__by_clutches_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    animals, book = mated(5)
    whole = animals.updated(book)
    assert whole.findings == ()
    monkeypatch.setattr(lineage, "LARGEST_TABLE", 30)
    cut = animals.updated(book)
    left = [one for one in book if (one.id, "clown") not in cut.knowledge.tangled]
    assert 9 <= len(left) < 25, "those that close no loop stay"
    assert cut.knowledge.lineage("clown").pedigree.network.densest()[0] <= 30
    (finding,) = cut.findings
    assert f"and {25 - len(left) - 5} more are left out of account at clown" in finding.found
    assert cut["f00"].genotype == animals.updated(left)["f00"].genotype
    assert animals.updated(book[::-1]).knowledge.tangled == cut.knowledge.tangled


def test_entangled__eighteen_females_by_eighteen_males() -> None:
    """Whole it took most of a minute."""
    animals, book = mated(18)
    told = animals.updated(book)
    assert told.knowledge.tangled
    assert told.knowledge.lineage("clown").pedigree.network.densest()[0] <= lineage.LARGEST_TABLE
