"""The Collection tab's words and deeds, without widgets."""

from datetime import date
from pathlib import Path

import pytest

from explorer.husbandry import readiness
from explorer.panels.collection_tab.collection_model import CollectionModel
from explorer.panels.desk import Desk

TODAY = date(2026, 11, 25)


@pytest.fixture
def model(demo_collection: Path, tmp_path: Path) -> CollectionModel:
    """On a copy of the demo collection."""
    copy = tmp_path / "mine.csv"
    copy.write_bytes(demo_collection.read_bytes())
    model = CollectionModel(Desk(copy, TODAY))
    assert model.open(str(copy))
    return model


def opened(tmp_path: Path, *rows: str) -> CollectionModel:
    file = tmp_path / "small.csv"
    file.write_text("\n".join(["id,name,sex,genes,hatched,weight_g,status,notes", *rows, ""]), encoding="utf-8")
    model = CollectionModel(Desk(file, TODAY))
    assert model.open(str(file)), model.findings
    return model


def changed(model: CollectionModel, key: str, **columns: str) -> dict[str, str]:
    """The form of an animal with these columns rewritten."""
    model.editing = key
    return {**model.form(key), **columns}


def test_headline__counts_every_animal_once(model: CollectionModel) -> None:
    assert model.headline == (
        "13 of 24 are fit to breed this season. 5 are too young or too light; 1 has no weight written; "
        "2 are not kept for breeding; 3 are kept out by a caution."
    )
    fit = [a for a in model.animals if (r := readiness(a, model.desk.care, TODAY)).ready and not r.barred]
    assert len(fit) == 13
    assert len(model.animals) == 13 + 5 + 1 + 2 + 3


def test_headline__of_a_later_season_says_what_it_goes_by(model: CollectionModel) -> None:
    model.desk.look_from(date(2029, 11, 1))
    assert "fit to breed in season 2029/30, by the weights written so far." in model.headline


def test_headline__one_animal(tmp_path: Path) -> None:
    assert opened(tmp_path, "F1,,female,Pastel,2020-07-01,1800,,").headline == "1 of 1 is fit to breed this season."


@pytest.mark.parametrize(
    "row, said",
    [
        ("F1,,?,Pastel,2020-07-01,1800,,", "1 lacks its sex or hatch date."),
        ("F1,,female,Pastel,,1600,,", "1 lacks its sex or hatch date."),
        ("F1,,female,Pastel,2020-07-01,,,", "1 has no weight written."),
        ("F1,,female,Pastel,2020-07-01,1800,sold,", "1 is not kept for breeding."),
        ("F1,,female,Spider,2020-07-01,1800,,", "1 is kept out by a caution."),
        ("F1,,female,Pastel,2026-07-01,90,,", "1 is too young or too light."),
    ],
)
def test_headline__says_why_one_is_not_fit(tmp_path: Path, row: str, said: str) -> None:
    assert opened(tmp_path, row).headline == f"0 of 1 are fit to breed this season. {said}"


def test_headline__no_animals(tmp_path: Path) -> None:
    assert opened(tmp_path).headline == "No animals yet. Add the first one, or open another file."


def test_headline__nothing_open(tmp_path: Path) -> None:
    model = CollectionModel(Desk(tmp_path / "none.csv", TODAY))
    assert not model.open(str(tmp_path / "none.csv"))
    assert model.headline == "No collection is open. Open a file to begin."
    assert model.summary == "none.csv (could not be opened)"
    assert "there is no file" in model.findings[0].found


def test_summary__names_file_and_counts(model: CollectionModel) -> None:
    assert model.summary == "mine.csv (24 animals, 13 fit to breed)"


def test_rows__as_on_the_screen(model: CollectionModel) -> None:
    rows = {row["id"]: row for row in model.rows}
    assert len(rows) == 24
    sorrel = rows["F09"]
    assert sorrel["weight"] == "1,240 g"
    assert sorrel["order"]["weight"] == 1240
    assert sorrel["fit"] == "not yet: 1,500 g needed; about season 2027/28"
    assert sorrel["mark"] == "not-ready"
    assert (rows["F14"]["fit"], rows["F14"]["word"]) == ("kept out of plans by a caution", "caution")
    assert (rows["F05"]["fit"], rows["F12"]["weight"], rows["F12"]["order"]["weight"]) == ("sold", "", None)


def test_rows__a_caution_that_is_passed_over_bars_nobody(model: CollectionModel) -> None:
    model.desk.allow = ("Spider",)
    assert {row["id"]: row["fit"] for row in model.rows}["F14"] == "ready"
    assert model.headline.startswith("14 of 24 ")


def test_details__say_what_it_may_carry_and_where_that_comes_from(model: CollectionModel) -> None:
    details = model.details("F03")
    assert details is not None
    assert details.heading == "F03 Juniper, female, kept"
    assert dict(details.facts) == {
        "fit to breed": "ready",
        "may carry": "Leopard het Desert Ghost",
        "hatched": "2022-07-14 in clutch 22-1",
        "weight": "1,820 g on 2026-11-08",
        "dam": "F01 Bracken",
        "sire": "M01 Larch",
    }


def test_details__cautions_in_full_and_notes(model: CollectionModel) -> None:
    details = model.details("F14")
    assert details is not None
    assert "wobble" in details.cautions[0]
    assert dict(details.facts)["notes"].startswith("Taken in from a neighbour")
    assert model.details("F99") is None


def test_details__remarks_on_this_animal_alone(tmp_path: Path) -> None:
    model = opened(tmp_path, "F1,,female,poss het Clown,2020-07-01,1800,,", "F2,,female,Pastel,2020-07-01,1800,,")
    one, two = model.details("F1"), model.details("F2")
    assert one is not None and two is not None
    assert "50 %" in one.remarks[0].replace("50%", "50 %")
    assert two.remarks == ()


def test_put__a_new_weight_changes_who_is_fit(model: CollectionModel) -> None:
    assert model.put(changed(model, "F09", weight_g="1650")) == ()
    assert model.headline.startswith("14 of 24 ")
    assert model.editing is None
    assert model.summary.endswith("unsaved changes")


def test_put__writes_only_what_was_changed(model: CollectionModel) -> None:
    assert model.desk.animals is not None
    before = model.desk.animals.text.splitlines()
    assert model.put(changed(model, "F09", notes="shy")) == ()
    after = model.desk.animals.text.splitlines()
    assert [(a, b) for a, b in zip(before, after, strict=True) if a != b] == [
        (
            "F09,Sorrel,female,Pinstripe 66% het Desert Ghost,2024-08-02,1240,2026-11-08,M02,F05,24-1,kept,",
            "F09,Sorrel,female,Pinstripe 66% het Desert Ghost,2024-08-02,1240,2026-11-08,M02,F05,24-1,kept,shy",
        )
    ]


def test_put__wrong_gene_offers_the_nearest_name(model: CollectionModel) -> None:
    problems = model.put(changed(model, "F02", genes="Pastell"))
    assert len(problems) == 1
    assert problems[0].text.startswith('genes: "Pastell"; needed: ')
    offer = problems[0].offers[0]
    assert (offer.name, offer.text, offer.field) == ("Pastel", "Pastel", "genes")
    assert model.editing == "F02"
    assert model.put(changed(model, "F02", genes=f"{offer.text} Leopard")) == ()


def test_put__lists_all_problems_at_once(model: CollectionModel) -> None:
    problems = model.put(changed(model, "F02", genes="Pastell", weight_g="2 kg", hatched="11/07/2019"))
    assert [problem.text.split(":")[0] for problem in problems] == ["genes", "hatched", "weight_g"]


def test_put__a_new_animal(model: CollectionModel) -> None:
    model.editing = ""
    form = {**model.form(""), "id": "F16", "genes": "Pastel", "sex": "female"}
    assert model.put(form) == ()
    assert len(model.animals) == 25
    assert model.form("F16")["status"] == "kept"


def test_put__a_new_animal_needs_an_id_of_its_own(model: CollectionModel) -> None:
    model.editing = ""
    form = {**model.form(""), "genes": "Pastel"}
    assert model.put({**form, "id": "F03"})[0].text == "id: F03 is taken by Juniper. Give this one another id."
    assert model.put({**form, "id": " "})[0].text.startswith("id: no id")
    assert len(model.animals) == 24


def test_form__writes_whole_grams_without_a_point(model: CollectionModel) -> None:
    form = model.form("F09")
    assert (form["weight_g"], form["hatched"], form["sire"]) == ("1240", "2024-08-02", "M02")
    assert model.form("F12")["weight_g"] == ""


def test_save__names_the_backup(model: CollectionModel) -> None:
    model.put(changed(model, "F09", weight_g="1650"))
    model.save()
    backups = list(model.desk.path.parent.glob("*.bak.csv"))
    assert model.said == f"saved; backup {backups[0].name}"
    assert "1240" in backups[0].read_text(encoding="utf-8")
    assert "1650" in model.desk.path.read_text(encoding="utf-8")
    assert model.files == (str(model.desk.path),)


def test_save__refused_if_another_program_wrote_the_file(model: CollectionModel) -> None:
    model.put(changed(model, "F09", weight_g="1650"))
    model.desk.path.write_text("id,sex,genes\n", encoding="utf-8")
    model.save()
    assert model.conflict
    assert "changed by another program" in model.said
    assert model.desk.unsaved
    model.save(overwrite=True)
    assert not model.conflict
    assert "1650" in model.desk.path.read_text(encoding="utf-8")


def test_open__a_name_beside_the_open_file_will_do(model: CollectionModel, tmp_path: Path) -> None:
    (tmp_path / "other.csv").write_text("id,sex,genes\nF1,female,Pastel\n", encoding="utf-8")
    assert [Path(file).name for file in model.files] == ["mine.csv", "other.csv"]
    assert model.open(" other.csv ")
    assert len(model.animals) == 1


def test_open__errors_are_findings_and_the_old_file_stays(model: CollectionModel, tmp_path: Path) -> None:
    (tmp_path / "bad.csv").write_text("id,sex,genes\nF1,female,Pastell\nF1,femal,Clown\n", encoding="utf-8")
    assert not model.open("bad.csv")
    assert [(finding.row, finding.column) for finding in model.findings] == [(2, "genes"), (3, "id"), (3, "sex")]
    assert len(model.animals) == 24
    assert model.open("mine.csv")
    assert model.findings == ()
