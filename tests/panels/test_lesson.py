"""The guess-then-show widget by its synced state, and the teaching notebook as it lies in the project."""

import json
import re
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from ipywidgets import HTML

from explorer.panels.lesson import Choices, Guess, guess

EVIL = "<script>alert(1)</script>"
SVG = '<svg xmlns="http://www.w3.org/2000/svg"><title>one dot</title></svg>'


def asked(because: str | list[str] = "There are four cases.", shown: dict[str, object] | None = None) -> Guess:
    return guess("How many?", ["1 in 2", "1 in 4"], "1 in 4", because, shown)


def choose(made: Guess, choice: str) -> list[str]:
    made.asked.chosen = made.asked.choices.index(choice)
    return [made.asked.verdicts[made.asked.chosen], *made.asked.because]


def is_shown(made: Guess) -> bool:
    return made.shown.layout.display != "none"


def test_guess__tells_nothing_before_a_choice() -> None:
    made = asked(shown={"counted": pd.DataFrame({"share": ["1/4"]})})
    assert made.asked.question == "How many?"
    assert made.asked.chosen == -1
    assert not is_shown(made)


def test_guess__right() -> None:
    made = asked(["Four cases.", "One of them."])
    assert choose(made, "1 in 4") == ["Right: 1 in 4.", "Four cases.", "One of them."]


def test_guess__wrong_is_told_the_answer_and_why() -> None:
    made = asked()
    assert choose(made, "1 in 2") == ["Not quite. The answer: 1 in 4.", "There are four cases."]
    assert choose(made, "1 in 4")[0] == "Right: 1 in 4.", "another choice may be tried"


def test_guess__numbers_are_choices_as_they_are_written() -> None:
    made = guess("How many pairs?", ["none", 2, 16], 2, "Count them.")
    assert made.asked.choices == ["none", "2", "16"]
    assert choose(made, "2")[0] == "Right: 2."


def test_guess__what_is_shown_comes_with_any_choice() -> None:
    made = asked(shown={"counted": pd.DataFrame({"share": [EVIL]}), "drawn": SVG})
    table, drawing = made.shown.children
    choose(made, "1 in 2")
    assert is_shown(made)
    assert "counted" in table.value and "<table" in table.value and "<script" not in table.value
    assert drawing.value.endswith(SVG)


def test_guess__nothing_to_show_takes_no_room() -> None:
    made = asked()
    choose(made, "1 in 4")
    assert not is_shown(made)


def test_guess__texts_reach_the_page_as_text() -> None:
    made = guess(EVIL, [EVIL, "b"], EVIL, EVIL, {EVIL: SVG})
    choose(made, EVIL)
    assert made.asked.question == made.asked.choices[0] == EVIL
    assert "innerHTML" not in Choices._esm and "https:" not in Choices._esm + Choices._css
    (drawing,) = (child for child in made.shown.children if isinstance(child, HTML))
    assert "<script" not in drawing.value and "&lt;script&gt;" in drawing.value


def test_guess__written_out_is_the_question() -> None:
    assert repr(asked()) == "Guess: How many?"


@pytest.mark.parametrize(
    ("choices", "complaint"),
    [(["1 in 2", "1 in 3"], "the answer must be one of the choices"), (["1 in 4", "1 in 4"], "each choice")],
)
def test_guess__choices_that_do_not_fit(choices: list[str], complaint: str) -> None:
    with pytest.raises(ValueError, match=complaint):
        guess("How many?", choices, "1 in 4", "")


@pytest.mark.parametrize("thing", [EVIL, 4, ["1/4"]])
def test_guess__only_tables_and_drawings_can_be_shown(thing: object) -> None:
    with pytest.raises(TypeError, match="counted: a table or the text of an SVG is needed"):
        asked(shown={"counted": thing})


def source(cell: dict[str, Any]) -> str:
    return "".join(cell["source"])


@pytest.fixture(scope="module")
def cells(project: Path) -> list[dict[str, Any]]:
    notebook = json.loads((project / "notebooks" / "how_stacking_works.ipynb").read_text(encoding="utf-8"))
    assert "widgets" not in notebook["metadata"]
    return notebook["cells"]  # type: ignore[no-any-return]


def test_notebook__opens_with_its_code_folded_and_starts_with_words(cells: list[dict[str, Any]]) -> None:
    code = [cell for cell in cells if cell["cell_type"] == "code"]
    assert all(cell["metadata"]["jupyter"]["source_hidden"] for cell in code)
    assert all(cell["source"][0].startswith("# ") for cell in code), "the first line is what a folded cell shows"


def test_notebook__keeps_no_widget_that_only_a_running_kernel_could_show(cells: list[dict[str, Any]]) -> None:
    outputs = [output for cell in cells for output in cell.get("outputs", ())]
    kinds = {kind for output in outputs for kind in output.get("data", ())}
    assert kinds == {"text/plain", "text/html"}
    plain = ["".join(output["data"]["text/plain"]) for output in outputs if "data" in output]
    assert sum(text.startswith("Guess: ") for text in plain) == sum("\nguess(" in source(cell) for cell in cells)


def test_notebook__its_paragraphs_state_no_chance(cells: list[dict[str, Any]]) -> None:
    """A chance in a paragraph would be typed, not worked out; labels such as 66% het are names."""
    text = "\n".join(source(cell) for cell in cells if cell["cell_type"] == "markdown")
    assert "66% het" in text
    assert re.findall(r"\d ?%|\d+ in \d+|\d/\d|one half|two thirds", text.replace("66% het", "")) == []
