"""A pedigree too entangled to be reckoned whole is cut where it is densest, and says so."""

import pytest

from explorer.collection import Collection, lineage
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
