"""The words of the three kinds of error."""

from __future__ import annotations

import pickle

import pytest

from explorer.notation import AmbiguousGenes, GenesError, ImpossibleGenes, UnreadableGenes


@pytest.mark.parametrize(
    ("kind", "start"),
    [
        (UnreadableGenes, '"Pastell" cannot be read: '),
        (ImpossibleGenes, '"Pastell" cannot be true: '),
        (AmbiguousGenes, '"Pastell" has more than one meaning: '),
        (GenesError, '"Pastell" cannot be used: '),
    ],
)
def test_message__names_every_field(kind: type[GenesError], start: str) -> None:
    error = kind(text="Pastell", found="this", needed="that", advice="do it", nearest=("Pastel", "Pastave"))
    offer = "Meanings" if kind is AmbiguousGenes else "Nearest names"
    assert str(error) == f"{start}found this; needed that. To do: do it. {offer}: Pastel, Pastave."
    assert isinstance(error, ValueError)


def test_message__without_names_ends_with_the_advice() -> None:
    assert str(UnreadableGenes("", "no gene", "a gene", "write Normal")).endswith("To do: write Normal.")


def test_message__cuts_a_long_text_and_keeps_it_whole_in_the_field() -> None:
    error = UnreadableGenes("x" * 5000, "a", "b", "c")
    assert len(str(error)) < 200
    assert error.text == "x" * 5000


def test_error__survives_a_process_boundary() -> None:
    error = ImpossibleGenes("a", "b", "c", "d", ("e",))
    again = pickle.loads(pickle.dumps(error))
    assert type(again) is ImpossibleGenes
    assert (again.text, again.found, again.needed, again.advice, again.nearest) == ("a", "b", "c", "d", ("e",))
