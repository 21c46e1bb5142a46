"""The keeper's own figures: least weights, waits, rest, clutches. No widgets."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from ...collection import CollectionError, SaveRefused
from ...husbandry import OWN, OWN_FIGURES, care_of, default_in_words, figure_text
from ..desk import Desk

__all__ = ["FigureField", "FiguresModel"]


THOUSANDS = re.compile(r"[1-9][0-9]?\.[0-9]{3}")


@dataclass(frozen=True)
class FigureField:
    """One figure. text: as it counts now; default: the catalogue's, with how it is known."""

    name: str
    words: str
    text: str
    default: str
    own: bool


class FiguresModel:
    """said: what taking them up came to; problems: what is wrong, a line each. conflict: the file could not be written,
    since another program changed it or for another reason."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.said = ""
        self.problems: tuple[str, ...] = ()
        self.conflict = False

    @property
    def fields(self) -> tuple[FigureField, ...]:
        """All figures, in reading order."""
        care, sources = self.desk.care, self.desk.care.sources()
        figure = self.desk.catalogue.figure
        return tuple(
            FigureField(
                name, words, figure_text(getattr(care, name)), default_in_words(figure(name)), sources[name] == OWN
            )
            for name, words in OWN_FIGURES.items()
        )

    def take(self, texts: Mapping[str, str]) -> bool:
        """Takes up these figures (name -> text; "" for the catalogue's) for every tab, and saves them. Whether it did.

        A figure that follows another, as the weight without a hatch date follows the least weight, is left to follow it
        unless it was changed itself.
        """
        now = {field.name: field for field in self.fields}
        given = {name: text.strip() for name, text in texts.items() if text.strip() != now[name].text or now[name].own}
        self.said, self.problems, self.conflict = "", _two_meanings(given), False
        if self.problems:
            return False
        try:
            backup = self.desk.season.use(care_of(given, self.desk.catalogue))
        except SaveRefused as error:
            self.problems, self.conflict = tuple(str(one) for one in error.findings), True
            return False
        except CollectionError as error:
            named = ((OWN_FIGURES.get(one.column, one.column), one) for one in error.findings)
            self.problems = tuple(f"{name}: {one.found}; needed: {one.needed}" for name, one in named)
            return False
        self.said = f"saved; backup {backup.name}" if backup else "saved"
        return True

    def read_again(self) -> None:
        """Takes up the file of figures as it is now."""
        self.said, self.problems, self.conflict = "", (), False
        self.desk.season.read_again()


def _two_meanings(texts: Mapping[str, str]) -> tuple[str, ...]:
    """Weights such as 1.600, which would let a female of 2 g breed if it were read as it stands."""
    found = (name for name, text in texts.items() if name.endswith("_g") and THOUSANDS.fullmatch(text))
    return tuple(
        f"{OWN_FIGURES[name]}: {texts[name]} has two meanings; needed: grams without a mark for thousands, such as "
        f"{texts[name].replace('.', '')}"
        for name in found
    )
