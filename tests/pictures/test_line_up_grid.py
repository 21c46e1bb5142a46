"""The grid of males and females: shades, marks and words of its cells."""

from fractions import Fraction

from explorer.pictures.line_up_grid import GridCell, grid_cells, grid_in_words, grid_legend
from explorer.pictures.line_up_shades import tint

HALF = Fraction(1, 2)


def cell(value=Fraction(0), row="M1", column="F1", **more):
    return GridCell(row, column, value, f"{float(value):g}", f"{row} with {column}", **more)


def test_cells__shaded_by_the_largest_of_the_grid():
    drawn = grid_cells([[cell(HALF), cell(Fraction(1, 4))], [cell(), cell(HALF)]])
    assert [one["shade"] for row in drawn for one in row] == [tint(v, HALF)[0] for v in (HALF, Fraction(1, 4), 0, HALF)]
    assert [one["none"] for row in drawn for one in row] == [False, False, True, False]


def test_cells__the_weightiest_word_and_all_marks():
    kept_out = cell(out=True, kept_out=True, related="kin 25 %", caution=True)
    assert (kept_out.word, kept_out.marks) == ("kept out", "out kept-out kin caution")
    assert cell(related="kin 25 %", caution=True).word == "kin 25 %"
    assert cell(caution=True).word == "caution"
    assert (cell().word, cell().marks) == ("", "")
    assert grid_cells([[cell(out=True)]])[0][0]["marks"] == "out"


def test_legend__explains_the_marks_that_are_there_and_no_others():
    ramp, *marks = grid_legend([[cell(HALF), cell(caution=True)]], "least", "most: 50 %")
    assert (ramp["words"], ramp["then"]) == ("least", "most: 50 %")
    assert ramp["to"] == tint(1, 1)[0]
    assert [one["marks"] for one in marks] == ["caution"]
    assert len(grid_legend([[cell(out=True, related="kin 25 %")]], "", "")) == 3


def test_words__the_best_without_a_mark():
    cells = [[cell(HALF, column="F2", related="kin 25 %"), cell(Fraction(1, 4), column="F3")], [cell(), cell()]]
    assert grid_in_words(cells, "chance in a clutch") == (
        "2 by 2 pairings, chance in a clutch; 1 have a mark. The best without one: M1 with F3: 0.25."
    )
    assert grid_in_words([[cell()]], "progress").endswith("None without a mark is more than 0.")
