"""What hatchlings would prove, as the Pairing tab says it."""

from datetime import date

from explorer.collection import Collection
from explorer.pairing import cross
from explorer.pairing.proving import proofs
from explorer.panels.desk import Desk
from explorer.panels.pairing_tab.pairing_model import PairingModel
from explorer.panels.pairing_tab.proof_model import ProvingOut

NAMES = {"dam": "F1 June", "sire": "M1 Alder"}


def test_lines__say_the_chance_what_proves_and_how_many_rule_out() -> None:
    odds = cross("66% het Clown", "Clown")
    assert ProvingOut(odds, NAMES).lines == (
        "F1 June carries Clown with a chance of 67 %. One hatchling that shows Clown proves it of F1 June. "
        "If none shows Clown, it is ruled out to 95 % after six hatchlings, to 99 % after eight.",
    )
    (proof,) = proofs(odds)
    assert (proof.needed(0.95), proof.needed(0.99)) == (6, 8)
    (doubt,) = ProvingOut(odds, NAMES).doubts
    assert doubt.chances == proof.chances(20)


def test_lines__say_when_the_mate_cannot_settle_it() -> None:
    lines = ProvingOut(cross("66% het Clown", "50% het Clown"), NAMES).lines
    assert len(lines) == 2
    assert all("no number of others can rule it out" in line for line in lines)
    assert all("proves it of F1 June and M1 Alder" in line for line in lines)


def test_lines__none_where_nothing_is_in_doubt() -> None:
    assert ProvingOut(cross("het Clown", "Clown"), NAMES).lines == ()
    assert ProvingOut(cross("het Clown", "Clown"), NAMES).doubts == ()


def test_pairing__kinship_in_words_with_its_bound() -> None:
    desk = Desk("animals.csv", date(2026, 11, 25))
    desk.animals = Collection.from_text(
        "id,sex,genes,dam,sire\nF1,f,Pastel,,\nM1,m,Enchi,,\nF2,f,Pastel,F1,M1\nM2,m,Enchi,F1,M1\nM3,m,Enchi,,\n"
    )
    model = PairingModel(desk)
    model.choose("dam", "F2")
    model.choose("sire", "M2")
    assert model.kinship.startswith("full siblings: offspring's inbreeding coefficient 25 %, or more: ")
    assert ("related", model.kinship) in model.facts
    model.choose("sire", "M3")
    assert model.kinship.startswith("not related, as far as is recorded; ")
