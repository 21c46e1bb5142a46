"""The Clutch book tab without its widgets, and the clutch book on the desk."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from explorer.collection import CollectionError, SaveRefused
from explorer.collection.clutch_book import read_clutches
from explorer.notation import write_genes
from explorer.pairing import cross, percent
from explorer.pairing.holdbacks import holdbacks
from explorer.panels.book_keeping import BLANK, book_file, list_file
from explorer.panels.clutch_tab.clutch_model import ClutchModel
from explorer.panels.desk import Desk

ANIMALS = (
    "id,name,sex,genes,hatched,weight_g,status\n"
    "F01,Juniper,f,Leopard 66% het Desert Ghost,2020-01-01,1900,kept\n"
    "F02,Sedge,f,Pastel 50% het Clown,2020-01-01,2000,kept\n"
    "F03,Thistle,f,Spider,2020-01-01,2000,kept\n"
    "M01,Alder,m,50% het Desert Ghost,2020-01-01,900,kept\n"
    "M02,Larch,m,Enchi,2020-01-01,900,kept\n"
    "M03,Teasel,m,Pinstripe 50% het Desert Ghost,2020-01-01,900,kept\n"
)
ODD = (
    "\ufeffclutch;dam;sire;Laid;eggs;LOOK;sex;count;shelf\r\n"
    'K7;F02;M02;2025-05-01; 5 ;"pastel, enchi";f;2;"=1+1"\r\n'
    "\r\n"
    'K7;;;;;"Pastel, maybe Enchi";;1;'
)
OTHER = "clutch;count;look;sire;dam;shelf\n\n;;;;;\n"
TODAY = date(2026, 11, 25)
LDG = "Leopard Desert Ghost"


def opened(folder: Path, book: str | None = None) -> Desk:
    file = folder / "mine.csv"
    file.write_text(ANIMALS, encoding="utf-8")
    if book is not None:
        book_file(file).write_bytes(book.encode("utf-8"))
    desk = Desk(file, TODAY)
    assert desk.open(file)
    return desk


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return opened(tmp_path)


@pytest.fixture
def model(desk: Desk) -> ClutchModel:
    return ClutchModel(desk)


Three = tuple[int, int, int]


def fill(model: ClutchModel, dam: str = "F01", sire: str = "M01", eggs: str = "6", **looks: Three) -> None:
    """Fills in the form. looks: look with "_" for spaces -> females, males, not known."""
    model.begin()
    form = model.form
    form.dam, form.sires = dam, [sire]
    form.texts["eggs"] = eggs
    form.count({look.replace("_", " "): numbers for look, numbers in looks.items()})


def written(model: ClutchModel, **rest: object) -> None:
    fill(model, **rest)  # type: ignore[arg-type]
    assert model.write() == ()


def test_empty_book__says_how_to_begin(model: ClutchModel, desk: Desk) -> None:
    assert model.headline == "No clutch is written down yet. Press “new clutch” when one hatches."
    assert (model.rows, model.changes, model.hold.rows, model.remarks, desk.undoable) == ([], (), (), (), "")
    assert not book_file(desk.path).exists()


def test_no_collection__is_said() -> None:
    model = ClutchModel(Desk("none.csv", TODAY))
    assert model.headline == model.blocker == "No collection is open. Open a file in the Collection tab."


def test_form__begins_with_a_free_name_and_today(model: ClutchModel) -> None:
    written(model, Leopard=(1, 0, 0))
    model.begin()
    assert (model.form.texts["clutch"], model.form.texts["hatched"]) == ("C02", "2026-11-25")
    assert model.headline == "Nothing of this clutch is counted yet."
    assert not model.form.changed


def test_form__the_looks_are_those_of_the_cross_likeliest_first(model: ClutchModel, desk: Desk) -> None:
    fill(model)
    table = cross(desk.animals["F01"], desk.animals["M01"]).top_looks(12)
    assert [(line.text, line.chance) for line in model.form.looks] == [
        (look, percent(chance)) for look, chance in zip(table["look"], table["fraction"], strict=True)
    ]
    assert {line.text: line.closeness for line in model.form.looks}[LDG] == Fraction(2, 3)
    assert not model.form.more


def test_form__the_looks_of_two_males_are_merged(model: ClutchModel, desk: Desk) -> None:
    fill(model)
    model.form.sires = ["M01", "M02"]
    one, two = (cross(desk.animals["F01"], desk.animals[key]) for key in ("M01", "M02"))
    lines = {line.text: line.chance for line in model.form.looks}
    assert lines["Leopard Enchi"] == percent(two.chance("Leopard Enchi", exactly=True) / 2)
    both = one.chance("Leopard", exactly=True) + two.chance("Leopard", exactly=True)
    assert lines["Leopard"] == percent(both / 2)


def test_form__more_looks_are_listed_on_demand(model: ClutchModel, desk: Desk) -> None:
    desk.put({"id": "M01", "genes": "Pastel Enchi het Desert Ghost"})
    fill(model)
    assert (len(model.form.looks), model.form.more) == (12, True)
    model.form.list_more()
    assert (len(model.form.looks), model.form.more) == (16, False)


@pytest.mark.parametrize(
    ("eggs", "slugs", "died", "said"),
    [
        ("6", "", "1", "Four of six eggs are accounted for: three hatchlings, one died in the egg. Two are not."),
        ("5", "1", "", "Four of five eggs are accounted for: three hatchlings, one slug. One is not."),
        ("3", "", "", "Every egg is accounted for: three hatchlings."),
        ("2", "1", "", "Two eggs too many: three hatchlings, one slug, of two eggs."),
        ("", "", "", "Three hatchlings. How many eggs were laid is not written."),
        ("six", "", "", "Three hatchlings. How many eggs were laid is not written."),
    ],
)
def test_form__how_many_eggs_are_accounted_for(
    model: ClutchModel, eggs: str, slugs: str, died: str, said: str
) -> None:
    fill(model, eggs=eggs, Leopard=(1, 1, 0), Normal=(0, 0, 1))
    model.form.texts |= {"slugs": slugs, "died": died}
    assert model.headline == said


def test_form__another_look_sure_or_unsure(model: ClutchModel) -> None:
    fill(model)
    assert model.form.add_look("  leopard ,  maybe enchi") == ()
    line = model.form.looks[-1]
    assert (line.text, line.note) == ("leopard , maybe enchi", "with or without what is unsure")
    assert model.form.add_look("Clown") == ()
    assert (model.form.looks[-1].chance, model.form.looks[-1].note) == ("0 %", "these parents cannot give it")
    before = model.form.looks
    assert model.form.add_look("leopard") == ()
    assert model.form.looks == before, "it is listed already"
    (problem,) = model.form.add_look("Leopord, maybe Enchi")
    assert 'Found "Leopord"' in problem.text
    assert problem.offers[0].text == "Leopard, maybe Enchi"
    assert model.form.add_look(" ")[0].text.startswith("Write what the hatchlings show")


def test_write__proves_both_parents_and_says_who_changed(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard_Desert_Ghost=(1, 0, 0), Normal=(0, 2, 0))
    assert model.headline == "This clutch proves F01 and M01 carry Desert Ghost. Two animals changed."
    assert model.change_rows == (
        ("M01 Alder", "50% het Desert Ghost", "het Desert Ghost"),
        ("F01 Juniper", "66% het Desert Ghost", "het Desert Ghost"),
    )
    assert model.said == "C01 is written in mine.clutches.csv."
    assert write_genes(desk.animals["F01"].genotype) == "Leopard het Desert Ghost"
    assert desk.animals.text == ANIMALS
    assert not desk.unsaved
    assert [row["id"] for row in model.rows] == ["C01"]
    again = read_clutches(book_file(desk.path), desk.animals)
    rows = [(row.look, row.sex, row.count) for row in again["C01"].hatchlings]
    assert rows == [(LDG, "female", 1), ("Normal", "male", 2)]


def test_write__without_a_proof_the_greatest_change_is_said(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard=(3, 3, 0))
    m01 = write_genes(desk.animals["M01"].genotype)
    assert model.headline == (
        "This clutch proves nothing for certain. The greatest change is of M01: 50% het Desert Ghost before, "
        f"{m01} now. Two animals changed."
    )
    written(model, dam="F03", sire="M02", eggs="", Spider=(1, 0, 0))
    assert model.headline == "This clutch tells nothing new: nobody has other chances than without it."
    written(model, eggs="6")
    assert model.headline == "No hatchlings are written down of this clutch yet, so it tells nothing."


def test_write__what_is_wrong_is_said_and_nothing_is_lost(model: ClutchModel, desk: Desk) -> None:
    fill(model, eggs="2", Leopard=(3, 0, 0))
    model.form.texts |= {"laid": "1.5.2026"}
    problems = [problem.text for problem in model.write()]
    assert any(text.startswith("eggs: 2 eggs, and 3 hatchlings; needed: ") for text in problems)
    assert any(text.startswith("laid: ") for text in problems)
    assert model.editing and model.form.counts == {"Leopard": [3, 0, 0]}
    assert not book_file(desk.path).exists()
    model.form.texts["clutch"], model.form.dam, model.form.sires, model.form.look = " ", "", [""], "Enchi"
    everything = model.write()
    assert [problem.field for problem in everything] == ["clutch", "dam", "sire", "look", "laid", "eggs"]
    assert everything[0].text == "clutch: give it a name, such as C01."
    assert everything[3].text == "another look: Enchi is not counted yet. Add it, or empty the field."
    assert model.form.add_look("Enchi") == () and model.form.look == ""
    written(model, Leopard=(1, 0, 0))
    fill(model)
    model.form.texts["clutch"] = "C01"
    assert model.write()[0].text.startswith("clutch: C01 is in the book already.")


def test_change__keeps_every_byte_that_is_not_changed(tmp_path: Path) -> None:
    desk = opened(tmp_path, ODD)
    model = ClutchModel(desk)
    model.begin("K7")
    assert not model.form.changed
    assert {line.text for line in model.form.looks} >= {"pastel, enchi", "Pastel, maybe Enchi"}
    assert model.form.counts == {"pastel, enchi": [2, 0, 0], "Pastel, maybe Enchi": [0, 0, 1]}
    model.form.count({"pastel, enchi": [3, 0, 0]})
    assert model.write() == ()
    changed = ODD.replace('"pastel, enchi";f;2;"=1+1"', "pastel, enchi;f;3;=1+1")
    assert book_file(desk.path).read_bytes() == changed.encode()
    assert model.undo() == ()
    assert book_file(desk.path).read_bytes() == ODD.encode()


def test_undo__brings_the_file_back_byte_for_byte_step_by_step(tmp_path: Path) -> None:
    desk = opened(tmp_path, ODD)
    model = ClutchModel(desk)
    genes = [write_genes(animal.genotype) for animal in desk.animals]
    written(model, Leopard_Desert_Ghost=(1, 0, 0))
    one = book_file(desk.path).read_bytes()
    assert model.take_out() == ()
    assert (desk.undoable, model.chosen) == ("taking C01 out", "K7")
    assert model.undo() == ()
    assert book_file(desk.path).read_bytes() == one
    assert desk.undoable == "writing C01"
    assert model.undo() == ()
    assert book_file(desk.path).read_bytes() == ODD.encode()
    assert [write_genes(animal.genotype) for animal in desk.animals] == genes
    assert (desk.undoable, model.said) == ("", "writing C01 is undone.")
    assert len(list(tmp_path.glob("mine.clutches.*.bak.csv"))) == 4


@pytest.mark.parametrize("before", [None, "", BLANK, "\ufeffclutch,dam,sire,look,count\r\n\r\n", OTHER])
def test_undo__of_the_first_clutch_leaves_what_was_there(tmp_path: Path, before: str | None) -> None:
    desk = opened(tmp_path, before)
    model = ClutchModel(desk)
    file = book_file(desk.path)
    for _ in range(2):
        written(model, Leopard=(1, 0, 0))
        assert b"C01" in file.read_bytes()
        assert model.undo() == ()
        assert (file.read_bytes() if file.exists() else None) == (None if before is None else before.encode())
    assert len(desk.book) == 0 and desk.undoable == ""
    assert any(b"C01" in one.read_bytes() for one in tmp_path.glob("mine.clutches.*.bak.csv")), "nothing is lost"


def test_undo__of_the_first_clutch_spares_what_another_program_wrote(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard=(1, 0, 0))
    theirs = book_file(desk.path).read_bytes() + b"C77,F02,M02,,,,,,Pastel,,1\n"
    book_file(desk.path).write_bytes(theirs)
    assert "changed by another program" in model.undo()[0].text
    assert book_file(desk.path).read_bytes() == theirs


@pytest.mark.parametrize(
    "text",
    [
        ANIMALS,
        ANIMALS.rstrip("\n"),
        "\ufeff" + ANIMALS.replace("\n", "\r\n") + "\r\n\r\n",
        ANIMALS.replace(",status", ",status,shelf").replace(",kept", ',kept,"=1+1"').replace(",", ";"),
    ],
)
def test_undo__of_a_hatchling_brings_the_collection_back_byte_for_byte(tmp_path: Path, text: str) -> None:
    file = tmp_path / "mine.csv"
    file.write_bytes(text.encode())
    desk = Desk(file, TODAY)
    assert desk.open(file)
    model = ClutchModel(desk)
    written(model, Leopard_Desert_Ghost=(1, 0, 0), Leopard=(0, 2, 0))
    for _ in range(2):
        assert model.add(model.hold.rows[0], model.hold.rows[0].id) == ()
        assert desk.unsaved
    assert model.undo() == ()
    assert desk.unsaved
    assert model.undo() == ()
    assert not desk.unsaved and desk.animals.text == text
    assert model.add(model.hold.rows[0], "F09") == ()
    assert model.save_collection() == () and not desk.unsaved
    assert b"F09" in file.read_bytes()
    assert model.undo() == ()
    assert desk.unsaved, "the file still has it"
    assert model.save_collection() == ()
    assert file.read_bytes() == text.encode()


def test_undo__of_a_hatchling_keeps_what_was_edited_since(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard=(1, 0, 0))
    desk.put({"id": "F02", "weight_g": "2010"})
    before = desk.animals.text
    assert model.add(model.hold.rows[0], "F04") == ()
    desk.put({"id": "F04", "weight_g": "60"})
    desk.put({"id": "F03", "weight_g": "2020"})
    assert model.undo() == ()
    assert desk.animals.text == before.replace("Spider,2020-01-01,2000", "Spider,2020-01-01,2020")
    assert model.add(model.hold.rows[0], "F04") == ()
    desk.put({"id": "F05", "sex": "f", "genes": "Leopard", "dam": "F04"})
    assert model.undo() == ()
    assert "F04" not in desk.animals and any("F04" in str(one) for one in desk.animals.findings), "it is said"


def disputed(model: ClutchModel) -> None:
    fill(model, dam="F02", sire="M01", eggs="", Pastel_Clown=(1, 0, 0))


def test_dispute__is_caught_before_anything_is_written(model: ClutchModel, desk: Desk, tmp_path: Path) -> None:
    written(model, Leopard=(1, 0, 0))
    before = {file.name: file.read_bytes() for file in tmp_path.iterdir()}
    disputed(model)
    first, last = model.write()
    assert model.editing and model.form.contradicted
    assert model.headline == (
        "This clutch cannot be as it is written, given the records of the animals. Every file is as it was."
    )
    assert first.text.startswith("At clown: who could be wrong, if 1 % of records are: ")
    assert "one hatchling written as Pastel Clown" in first.text and "the record of M01" in first.text
    assert last.text.startswith("Mend it here")
    assert {file.name: file.read_bytes() for file in tmp_path.iterdir()} == before
    assert "C02" not in desk.book and desk.undoable == "writing C01"
    assert write_genes(desk.animals["F02"].genotype) == "Pastel 50% het Clown"
    model.form.reconsider()
    assert not model.form.contradicted and model.headline.startswith("One hatchling.")
    model.form.counts = {"Pastel": [1, 0, 0]}
    assert model.write() == ()


def test_dispute__is_written_all_the_same_if_wanted_and_left_out_of_account(model: ClutchModel, desk: Desk) -> None:
    before = desk.path.read_bytes()
    disputed(model)
    assert model.write() != ()
    assert model.write(despite=True) == ()
    assert model.headline == "This clutch cannot be as it is written, given the records of the animals."
    first, last = model.disputes
    assert first.startswith("At clown: who could be wrong, if 1 % of records are: ")
    assert "is left out of account there" in last
    assert write_genes(desk.animals["F02"].genotype) == "Pastel 50% het Clown"
    assert desk.path.read_bytes() == before
    assert "These parents cannot give this look" in model.hold.rows[0].remarks[0]
    assert model.undo() == () and not book_file(desk.path).exists()


def test_dispute__what_was_agreed_to_holds_while_another_program_is_in_the_way(model: ClutchModel, desk: Desk) -> None:
    book_file(desk.path).write_text(BLANK + "C9,F01,M01,,,,,,Leopard,,1\n")
    disputed(model)
    assert model.write()[-1].text.startswith("Mend it here") and model.form.contradicted
    assert "changed by another program" in model.write(despite=True)[0].text
    assert model.write(overwrite=True) == ()
    assert [one.id for one in desk.book] == ["C01"]


def test_paternity__is_said(model: ClutchModel, desk: Desk) -> None:
    fill(model, Leopard_Desert_Ghost=(1, 0, 0))
    model.form.sires = ["M01", "M03"]
    assert model.write() == ()
    # M03 would have passed Pinstripe on half the time, so the odds are 1 : 1/2.
    assert model.paternity == "Sire: M01 67 %, M03 33 %."
    assert desk.book["C01"].sires == ("M01", "M03") and not desk.book["C01"].several
    model.begin("C01")
    assert (model.form.sires, model.form.several) == (["M01", "M03"], False)
    model.form.several = True
    assert model.write() == ()
    assert desk.book["C01"].several
    assert model.paternity.startswith("Sire of any one hatchling")


def test_hold_back__ranks_and_reasons_are_the_engines(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard_Desert_Ghost=(1, 0, 0), Normal=(0, 2, 0), Leopard=(0, 1, 0))
    found = holdbacks(desk.animals, desk.book["C01"], desk.target, taste=desk.taste)
    assert [row.found.label for row in model.hold.rows] == [one.label for one in found]
    assert [(row.rank, row.title, row.id) for row in model.hold.rows] == [
        (1, "Leopard Desert Ghost, female", "F04"),
        (2, "Leopard 66% het Desert Ghost, male", "M04"),
        (3, "66% het Desert Ghost, male × 2", "M05"),
    ]
    assert {row.step for row in model.hold.rows} == {""}, "that takes a while, and is asked for"
    assert model.hold.rows[0].reason.startswith("shows Leopard and Desert Ghost; lacks Pinstripe; meets your taste ")
    assert model.hold.rows[1].reason.startswith("shows Leopard; carries Desert Ghost (66%); lacks Pinstripe; ")
    assert model.hold.advice == "Hold back for Leopard Pinstripe Desert Ghost, best first"
    desk.aim("Clown")
    assert {row.rank for row in model.hold.rows} == {0}
    assert model.hold.rows[0].reason == "brings nothing of the target"
    assert model.hold.advice == "No hatchling left of this clutch is worth holding back for Clown."


def test_hold_back__a_caution_is_said_with_its_evidence_and_keeps_out(model: ClutchModel, desk: Desk) -> None:
    written(model, dam="F03", sire="M03", Pinstripe_Spider=(1, 0, 0))
    (row,) = model.hold.rows
    assert row.rank == 0
    assert row.cautions[0].startswith("Spider: wobble") and row.cautions[0].endswith("[published study]")
    assert row.remarks[0].startswith("Not recommended")
    desk.aim(desk.target, (), ("Spider",))
    assert (model.hold.rows[0].rank, model.hold.rows[0].remarks) == (1, ())


def test_add__makes_an_animal_with_genes_parents_and_clutch(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard_Desert_Ghost=(1, 0, 0), Leopard=(0, 2, 0))
    before = model.change_rows
    second = model.hold.rows[1]
    assert model.add(second, second.id) == ()
    animal = desk.animals["M04"]
    assert animal.genes == "Leopard 66% het Desert Ghost"
    assert (animal.dam, animal.sire, animal.clutch) == ("F01", "M01", "C01")
    assert (animal.sex, animal.hatched, animal.status) == ("male", TODAY, "kept")
    assert desk.unsaved
    assert [(row.title, row.id) for row in model.hold.rows] == [
        ("Leopard Desert Ghost, female", "F04"),
        ("Leopard 66% het Desert Ghost, male", "M05"),
    ]
    assert model.change_rows == before, "it is counted once"
    assert model.hold.kept == "In the collection: M04 (Leopard 66% het Desert Ghost, male)."
    assert "M04" in model.said
    assert "is taken" in model.add(model.hold.rows[0], "M04")[0].text
    assert "an id of its own" in model.add(model.hold.rows[0], " ")[0].text
    written(model, Normal=(0, 1, 0))
    assert "no longer listed" in model.add(second, "M09")[0].text, "another clutch is shown now"
    assert model.undo() == ()
    model.choose("C01")
    assert desk.undoable == "adding M04"
    assert model.undo() == ()
    assert "M04" not in desk.animals
    assert desk.undoable == "writing C01"


def test_undo__is_refused_where_something_rests_on_it(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard=(1, 0, 0))
    model.begin("C01")
    model.form.count({"Leopard": [2, 0, 0]})
    assert model.write() == ()
    for key in ("F04", "F05"):
        desk.put({"id": key, "sex": "f", "genes": "Leopard", "clutch": "C01", "dam": "F01", "sire": "M01"})
    (problem,) = model.undo()
    assert problem.text.startswith("This cannot be undone: ") and "F04, F05" in problem.text
    assert desk.book["C01"].hatchlings[0].count == 2 and desk.undoable == "writing C01"
    assert b",2\n" in book_file(desk.path).read_bytes()


def test_list__has_every_hatchling_and_defers_to_the_law(model: ClutchModel, desk: Desk) -> None:
    written(model, dam="F03", sire="M03", Pinstripe_Spider=(1, 0, 0), Normal=(0, 2, 0))
    assert model.add(model.hold.rows[0], "M09") == ()
    assert model.write_list() == ()
    file = list_file(desk.path, "C01")
    assert model.said == "The list is written in mine.C01.list.html."
    assert file.read_text(encoding="utf-8") == model.page
    text = file.read_text(encoding="utf-8")
    assert text.count("25% het Desert Ghost") == 3, "two that are left and one that is kept"
    assert "Pinstripe Spider 25% het Desert Ghost" in text and "Spider: wobble" in text and "[published study]" in text
    assert "M09" in text and "kept" in text
    assert "<dd>F03 Thistle: Spider</dd>" in text and "<dt>hatched</dt><dd>2026-11-25</dd>" in text
    assert "CITES" in text and "veterinarian" in text and "local law" in text


def test_list__is_written_again_without_a_backup_unless_it_was_changed(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard=(1, 0, 0))
    file = list_file(desk.path, "C01")
    for _ in range(2):
        assert model.write_list() == ()
        assert list(desk.path.parent.glob("*.bak.html")) == []
    model.choose("C01")
    assert model.page == ""
    for theirs in (file.read_bytes() + b"<!-- mine -->", b"my own page \xff"):
        file.write_bytes(theirs)
        assert model.write_list() == ()
        (backup,) = file.parent.glob("*.bak.html")
        assert backup.read_bytes() == theirs and backup.name in model.said
        assert file.read_text(encoding="utf-8") == model.page
        backup.unlink()


def test_list_file__no_name_leaves_the_folder(tmp_path: Path) -> None:
    assert list_file(tmp_path / "a.csv", "../../x/y").parent == tmp_path.resolve()


def test_slow__only_where_several_males_may_share_a_clutch(model: ClutchModel) -> None:
    written(model, Leopard=(1, 0, 0))
    assert not model.hold.slow
    fill(model, Leopard=(1, 1, 0))
    model.form.sires, model.form.several = ["M01", "M03"], True
    assert model.write() == ()
    assert model.hold.slow and model.hold.advice == ""
    found = model.hold.work()(lambda share, text: None)
    model.hold.take(((), ()))
    assert model.hold.slow, "what was found for another state is not taken"
    model.hold.take(found)
    assert not model.hold.slow
    assert [row.title for row in model.hold.rows] == [f"{row.found.label}, {sex}" for row, sex in zip(
        model.hold.rows, ("female", "male"), strict=True
    )]


@pytest.mark.parametrize("book", ["clutch,dam,sire,look,count\nC1,F09,M01,Pastell,1\n", "nonsense", "PK\x03\x04"])
def test_desk__a_broken_book_never_stops_the_collection(tmp_path: Path, book: str) -> None:
    desk = opened(tmp_path, book)
    assert desk.animals is not None and len(desk.animals) == 6
    assert desk.book is None and desk.book_refused
    model = ClutchModel(desk)
    assert model.headline == "mine.clutches.csv could not be read. Mend what is listed here, and read it again."
    assert model.remarks == tuple(map(str, desk.book_refused))
    book_file(desk.path).write_text(BLANK)
    desk.read_book_again()
    model.refresh()
    assert model.headline.startswith("No clutch is written down yet.")
    assert desk.book_refused == ()


def test_desk__the_book_is_read_with_the_collection(tmp_path: Path) -> None:
    desk = opened(tmp_path, "clutch,dam,sire,look,count\nC1,F01,M01,Desert Ghost,1\n")
    assert write_genes(desk.animals["M01"].genotype) == "het Desert Ghost"
    assert desk.animals.clutches == desk.book.clutches
    other = tmp_path / "other.csv"
    other.write_text(ANIMALS, encoding="utf-8")
    assert desk.open(other)
    assert len(desk.book) == 0 and write_genes(desk.animals["M01"].genotype) == "50% het Desert Ghost"


def test_desk__an_animal_that_contradicts_the_book_is_refused(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard=(1, 0, 0))
    before = desk.animals
    with pytest.raises(CollectionError, match="F01"):
        desk.put({"id": "F01", "sex": "male"})
    assert desk.animals is before and not desk.unsaved


def test_desk__what_another_program_wrote_is_not_lost(model: ClutchModel, desk: Desk) -> None:
    written(model, Leopard=(1, 0, 0))
    mine = book_file(desk.path).read_bytes()
    theirs = mine + b"C77,F02,M02,,,,,,Pastel,,1\n"
    book_file(desk.path).write_bytes(theirs)
    fill(model, Normal=(1, 0, 0))
    assert "changed by another program" in model.write()[0].text
    assert model.conflict and model.editing
    assert "changed by another program" in model.undo()[0].text
    assert book_file(desk.path).read_bytes() == theirs
    desk.read_book_again()
    assert "C77" in desk.book and desk.undoable == ""
    assert model.write() == ()
    assert "C77" in desk.book and "C02" in desk.book
    book_file(desk.path).write_bytes(theirs)
    fill(model, Normal=(1, 0, 0))
    model.write()
    assert model.write(overwrite=True) == ()
    assert not model.conflict and "C78" in desk.book


def test_desk__a_file_that_appears_meanwhile_is_not_written_over(desk: Desk) -> None:
    book_file(desk.path).write_text(BLANK + "C9,F01,M01,,,,,,Leopard,,1\n")
    with pytest.raises(SaveRefused):
        desk.write_clutch({"clutch": "C01", "dam": "F01", "sire": "M01"}, [])


def test_desk__who_listens_is_told_of_every_change_once(model: ClutchModel, desk: Desk) -> None:
    told: list[str] = []
    desk.listen("animals", lambda: told.append(desk.undoable))
    written(model, Leopard=(1, 0, 0))
    assert model.add(model.hold.rows[0], "F04") == ()
    assert model.undo() == () and model.undo() == ()
    assert told == ["writing C01", "adding F04", "writing C01", ""]
