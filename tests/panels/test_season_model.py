"""The Season tab without widgets: sharing out the males, choosing pairings, what is refused and what is marked."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from season_example import ANIMALS, TARGET, TODAY, opened, said, tab

from explorer.collection import season_file
from explorer.pairing import mean_text
from explorer.panels.desk import Desk
from explorer.panels.season_tab.season_model import SeasonModel
from explorer.planner import allot


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return opened(tmp_path)


@pytest.fixture
def model(desk: Desk) -> SeasonModel:
    return tab(desk)


def share(model: SeasonModel) -> None:
    work = model.shares.begin(model.standings.begun, model.standings.given_up)
    try:
        model.shares.take(work(lambda share, text: None))
    except Exception as error:
        model.shares.failed(error)


def taken(model: SeasonModel) -> None:
    share(model)
    assert model.plan.take(model.shares.pairs) == ()


def test_headline__before_anything_is_chosen(model: SeasonModel) -> None:
    assert model.headline == (
        "No pairing is chosen yet for season 2026/27. Press “share the males” to see the best ways."
    )
    assert model.meaning == "" and model.rows == [] and model.pages.bands == ()


def test_numbers__are_those_of_the_front_door(model: SeasonModel, desk: Desk) -> None:
    taken(model)
    table = allot(desk.animals, TARGET, today=TODAY)
    best = table.attrs["value"]
    assert len(table) == 3 and best > 0
    males = " and ".join(sorted(set(table["sire"])))
    assert model.headline == (
        f"Three pairings this season, using {males}. Expected toward the target: {mean_text(best)}."
    )
    chosen = model.standings.chosen
    assert chosen is not None
    assert chosen.summed(table["dam"]) == (best, {TARGET: best})
    for row in table.itertuples():
        one = model.standings.of(row.dam)
        assert one is not None and one.worth is not None
        assert (one.sire, one.worth.value, one.second) == (row.sire, row.fraction, row.second_choice)
        assert float(one.worth.per_clutch[TARGET]) == row.per_clutch
        shown = next(shown for shown in model.rows if shown["id"] == row.dam)
        assert f"brings {mean_text(row.fraction)}" in shown["why"]


def test_shares__the_ways_and_what_each_gives_up(model: SeasonModel) -> None:
    share(model)
    assert model.shares.found is not None
    rows, found = model.shares.rows, model.shares.found
    assert rows[0]["gives_up"] == "nothing: it is the best"
    for row, lost in list(zip(rows, found.differences, strict=True))[1:]:
        assert row["gives_up"] == (mean_text(lost.value) if lost.value else "nothing in all")
        assert "does not pair" in row["instead"] or row["instead"].startswith("pairs ")
    left_out = dict(model.shares.left_out)
    assert "1,500 g needed" in left_out["F03 Sedge"]
    assert left_out["F04 Thistle"] == "kept out by a caution on Spider, until you allow it"
    assert not set(left_out) & {row["dam"] for row in model.shares.pairing_rows}


def test_shares__several_targets_with_weights(model: SeasonModel, desk: Desk) -> None:
    assert model.wishes.aim_too("Desert Ghost  leopard", "2.5") == ()
    assert model.wishes.others == {"Leopard Desert Ghost": "2.5"}
    taken(model)
    table = allot(desk.animals, {TARGET: 1, "Leopard Desert Ghost": Fraction(5, 2)}, today=TODAY)
    for target, brings in table.attrs["by_target"].items():
        assert f"{mean_text(brings)} toward {target}" in model.headline
    assert f"weighted, {mean_text(table.attrs['value'])}." in model.headline
    assert "(weight 2.5)" in model.headline


@pytest.mark.parametrize(
    ("text", "weight", "word"),
    [("", "1", "such as"), ("Leopardd", "1", "Leopardd"), ("Clown", "0", "above 0"), ("Clown", "nan", "above 0")],
)
def test_wishes__a_target_that_cannot_be_used(model: SeasonModel, text: str, weight: str, word: str) -> None:
    assert word in said(model.wishes.aim_too(text, weight))
    assert model.wishes.others == {}


def test_wishes__the_desks_target_is_not_taken_twice(model: SeasonModel, desk: Desk) -> None:
    assert "already" in said(model.wishes.aim_too("Pinstripe Leopard Desert Ghost", "1"))
    assert model.wishes.aim_too("Pastel Clown", "3") == ()
    desk.aim("Pastel Clown")
    assert model.wishes.others == {} and model.wishes.targets == {"Pastel Clown": 1}


def test_wishes__forced_forbidden_and_females_per_male(model: SeasonModel) -> None:
    model.wishes.per_male = 1
    model.wishes.set_pair("F01", "M02", True)
    model.wishes.set_pair("F05", "M01", False)
    share(model)
    made = {pair for pair, _ in model.shares.pairs}
    assert ("F01", "M02") in made and ("F05", "M01") not in made
    assert "set by you" in next(row["why"] for row in model.shares.pairing_rows if row["id"] == "F01")
    model.wishes.set_pair("F01", "M02", False)
    assert model.wishes.forced == () and model.shares.stale
    share(model)
    assert ("F01", "M02") not in {pair for pair, _ in model.shares.pairs}


def test_shares__a_forced_pairing_that_cannot_be_made_says_why(model: SeasonModel) -> None:
    model.wishes.set_pair("F03", "M02", True)
    share(model)
    assert model.shares.found is None and model.shares.open
    assert "1,500 g needed" in model.shares.problems[0] and model.shares.problems[0].startswith("F03 with M02")


def test_write__an_under_size_female_is_refused_with_the_reason(model: SeasonModel, desk: Desk) -> None:
    problems = model.plan.write("F03", "M02")
    assert said(problems).startswith("F03 Sedge may be in no pairing this season: 1,499 g on 8 Nov; 1,500 g needed")
    assert model.rows == [] and not season_file(desk.path).exists()
    desk.season.weigh({"F03": 1500}, TODAY)
    assert model.plan.write("F03", "M02") == ()
    assert [row["id"] for row in model.rows] == ["F03"]


def test_under_size__in_the_log_is_marked_and_leaves_sheet_and_calendar(model: SeasonModel, desk: Desk) -> None:
    desk.season.weigh({"F03": 1500}, TODAY)
    assert model.plan.write("F03", "M02") == () and model.plan.write("F01", "M02") == ()
    assert "Sedge" in model.pages.sheet("", "") and "Sedge" in model.pages.calendar()
    assert model.headline.startswith("Two pairings")
    desk.season.weigh({"F03": 1499}, date(2026, 11, 26))
    desk.look_from(date(2026, 11, 26))
    row = next(row for row in model.rows if row["id"] == "F03")
    assert row["mark"] == "not-ready" and "F03 not ready" in row["word"] and row["next"] == "do not pair them"
    assert any("1,500 g needed" in text for text in model.remarks)
    assert "Sedge" not in model.pages.sheet(model.headline, model.meaning)
    assert "Sedge" not in model.pages.calendar().replace("\r\n ", "")
    assert all("Sedge" not in band.name for band in model.pages.bands)
    assert model.headline.startswith("One pairing")
    share(model)
    assert "F03" not in {dam for (dam, _), _ in model.shares.pairs}


def test_write__a_caution_bars_until_the_desk_allows_it(model: SeasonModel, desk: Desk) -> None:
    problems = model.plan.write("F04", "M02")
    assert "until you allow it: Spider: wobble" in said(problems) and "[published study]" in said(problems)
    assert model.plan.to_allow == ("Spider",)
    model.allow("Spider", True)
    assert desk.allow == ("Spider",) and model.plan.to_allow == ()
    assert model.plan.write("F04", "M02") == ()
    row = model.rows[0]
    assert row["mark"] == "caution" and "Spider [published study]" in row["cautions"]
    assert any(text.startswith("Spider: wobble") for text in model.standings.cautions(model.standings.all[0]))
    assert "Spider: wobble" in model.pages.sheet("", "")
    model.allow("Spider", False)
    assert model.rows[0]["mark"] == "not-ready"
    assert "Thistle" not in model.pages.calendar()


def test_write__a_pairing_that_bars_itself_is_refused(model: SeasonModel) -> None:
    model.wishes.most_inbreeding = 5
    assert "too closely related" in said(model.plan.write("F02", "M01"))
    model.wishes.most_inbreeding = 50
    assert model.plan.write("F02", "M01") == ()
    assert "inbreeding 25 % or more" in model.rows[0]["related"]
    model.wishes.most_inbreeding = 5
    assert model.rows[0]["word"] == "not to be made"


def test_write__a_second_choice_is_judged_too(model: SeasonModel) -> None:
    assert "another male" in said(model.plan.write("F01", "M02", "M02"))
    assert "M03 cannot be the second choice" in said(model.plan.write("F01", "M02", "M03"))
    assert model.plan.write("F01", "M02", "M01") == ()
    assert model.rows[0]["second"] == "M01 Larch"
    assert model.plan.write("F01", "M01", "M02") == (), "the two can be swapped"
    assert (model.rows[0]["sire"], model.rows[0]["second"]) == ("M01 Larch", "M02 Alder")
    assert model.plan.write("F01", "M01") == ()
    assert model.rows[0]["second"] == "nobody"


def test_write__more_females_than_was_set_is_said(model: SeasonModel) -> None:
    model.wishes.per_male = 1
    for dam in ("F01", "F02"):
        assert model.plan.write(dam, "M02") == ()
    assert "M02 has 2 females; you set 1 a male." in model.remarks


def test_take_out_and_undo(model: SeasonModel, desk: Desk) -> None:
    taken(model)
    before = season_file(desk.path).read_bytes()
    dam = model.rows[0]["id"]
    assert model.plan.take_out(dam) == ()
    assert dam not in {row["id"] for row in model.rows}
    assert model.plan.undoable == f"taking {dam} out"
    assert model.plan.undo() == ()
    assert season_file(desk.path).read_bytes() == before
    assert model.plan.undoable == "taking up the allotment"
    assert model.plan.undo() == ()
    assert model.rows == [] and model.plan.undoable == ""


def test_take__keeps_what_has_begun(model: SeasonModel) -> None:
    assert model.plan.write("F01", "M02") == ()
    model.diary.dam = "F01"
    assert model.diary.write("introduced", date(2026, 11, 10), "M02") == ()
    assert model.standings.begun == (("F01", "M02"),)
    taken(model)
    assert next(row["sire"] for row in model.rows if row["id"] == "F01") == "M02 Alder"
    assert "F01 stays as it was" in model.plan.said
    assert ("F01", "M02") in {pair for pair, _ in model.shares.pairs}


def test_file__changed_by_another_program_is_not_written_over(model: SeasonModel, desk: Desk) -> None:
    assert model.plan.write("F01", "M02") == ()
    file = season_file(desk.path)
    file.write_text(file.read_text() + "2026,F02,M01,planned,,by hand\n")
    content = file.read_bytes()
    problems = model.plan.write("F05", "M01")
    assert "changed by another program" in said(problems) and model.plan.conflict
    assert file.read_bytes() == content
    model.plan.read_again()
    assert {row["id"] for row in model.rows} == {"F01", "F02"} and not model.plan.conflict


def test_file__that_cannot_be_read_blocks_with_its_findings(desk: Desk) -> None:
    season_file(desk.path).write_text("season,dam,sire,event,on,notes\n2026,F99,M01,planned,,\n")
    assert desk.open(desk.path)
    model = SeasonModel(desk)
    assert model.headline == "mine.season.csv could not be read. Mend what is listed here, and read it again."
    assert "F99" in str(model.findings[0])
    season_file(desk.path).unlink()
    model.plan.read_again()
    assert model.blocker == ""


def test_season__another_one_has_its_own_plan(model: SeasonModel, desk: Desk) -> None:
    taken(model)
    desk.look_from(date(2027, 11, 1))
    assert model.headline.startswith("No pairing is chosen yet for season 2027/28.")
    desk.look_from(TODAY)
    assert model.headline.startswith("Three pairings")


def test_order_of_rows__plays_no_part(model: SeasonModel, tmp_path: Path) -> None:
    head, *lines = ANIMALS.splitlines()
    other = tmp_path / "other.csv"
    other.write_text("\n".join([head, *reversed(lines)]) + "\n")
    desk = Desk(other, TODAY)
    assert desk.open(other)
    again = SeasonModel(desk)
    taken(model)
    taken(again)
    assert (again.headline, again.rows) == (model.headline, model.rows)


def test_second_choice__says_how_he_is_related_wherever_he_is_named(model: SeasonModel) -> None:
    """M01 is the sire of F02."""
    share(model)
    [row] = [row for row in model.shares.pairing_rows if row["dam"].startswith("F02")]
    father = "M01 Larch (M01 is the sire of F02; inbreeding 25 % or more)"
    assert row["second"] == father
    assert model.plan.write("F02", "M02", "M01") == ()
    assert model.rows[0]["second"] == father
    model.diary.dam = "F02"
    assert ("should he fail", father) in model.diary.facts
    assert "M01 is the sire of F02; inbreeding 25" in model.pages.sheet("", "")


def test_second_choice__says_that_he_may_not_be_paired_any_more(model: SeasonModel) -> None:
    assert model.plan.write("F01", "M02", "M01") == ()
    model.desk.put({"id": "M01", "status": "retired"})
    assert model.rows[0]["second"] == "M01 Larch (M01 not ready)"


def test_step_in__the_male_has_still_to_be_introduced(model: SeasonModel) -> None:
    assert model.plan.write("F01", "M02", "M01") == ()
    model.diary.dam = "F01"
    assert model.diary.write("introduced", date(2026, 11, 5), "M02") == ()
    assert model.plan.step_in("F01") == ()
    assert model.rows[0]["next"] == "introduce M01"
    assert model.diary.write("introduced", date(2026, 11, 20), "M01") == ()
    assert model.rows[0]["next"].startswith("look for ovulation: ")


def test_season_changed__what_was_said_of_the_other_is_gone(model: SeasonModel) -> None:
    taken(model)
    assert model.plan.said
    model.desk.look_from(date(2027, 11, 1))
    assert model.plan.said == "" and not model.shares.open


def test_changed_meanwhile__says_what_can_be_done_here(model: SeasonModel) -> None:
    assert model.plan.write("F01", "M02") == ()
    season_file(model.desk.path).write_text("season,dam,sire,event,on,notes\n", encoding="utf-8")
    text = said(model.plan.write("F02", "M02"))
    assert "Nothing was written" in text and "“read it again”" in text and "overwrite" not in text


def test_share__a_male_that_failed_with_her_is_not_brought_back(model: SeasonModel) -> None:
    share(model)
    [before] = [row for row in model.shares.pairing_rows if row["id"] == "F05"]
    failed = before["sire"][:3]
    other = "M02" if failed == "M01" else "M01"
    assert model.plan.write("F05", failed, other) == ()
    model.diary.dam = "F05"
    assert model.diary.write("introduced", date(2026, 11, 5), failed) == ()
    assert model.plan.step_in("F05") == ()
    assert model.standings.given_up == (("F05", failed),)
    share(model)
    [after] = [row for row in model.shares.pairing_rows if row["id"] == "F05"]
    assert after["sire"].startswith(other) and failed not in after["second"].partition(":")[0]
    assert after["why"].endswith("; begun already")
    assert model.plan.write("F05", failed) == (), "the keeper may still try again"
    assert model.standings.given_up == ()


@pytest.mark.parametrize(
    ("kept", "missing"),
    [(("M01", "M02"), "no female that"), (("F01",), "no male that"), ((), "no male and no female that")],
)
def test_headline__says_what_there_is_none_of(tmp_path: Path, kept: tuple[str, ...], missing: str) -> None:
    head, *rows = ANIMALS.replace(",M01,F01,", ",,,").splitlines()
    mine = [row for row in rows if row.startswith(kept)] if kept else []
    model = tab(opened(tmp_path, "\n".join([head, *mine]) + "\n"))
    assert f"There is {missing} is kept" in model.headline and "share the males" not in model.headline
    share(model)
    assert model.shares.pairs == ()
