"""One animal beside several of the other sex: what each pairing could give toward a target, best first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

import pandas as pd

from ..catalogue import Effect
from ..collection import Animal, Collection
from ..husbandry import Husbandry, Readiness
from ..looks import Taste
from ..notation import texts_of
from .line_up_mates import day_of, mates
from .line_up_rows import LineUpRow, RowMaker

__all__ = ["LineUp", "line_up"]

COLUMNS = (
    *("id", "name", "per_egg", "fraction", "per_clutch", "expected", "likeliest", "nearest", "nearest_chance"),
    *("progress", "kinship", "related", "ready", "readiness", "helps", "spoils", "cautions"),
)


@dataclass(frozen=True)
class LineUp:
    """Pairings of one animal, best first: those that can be made this season before others, those that no caution keeps
    out before others; then by the chance of the target in a clutch, by progress, by least inbreeding and by id.

    readiness: of the animal itself. target, without: as given.
    """

    animal: Animal
    readiness: Readiness
    target: str
    without: tuple[str, ...]
    rows: tuple[LineUpRow, ...]

    @classmethod
    def of(
        cls,
        key: str,
        animals: Collection,
        target: str,
        *,
        husbandry: Husbandry | None = None,
        today: date,
        against: str | Iterable[str] | None = None,
        without: str | Iterable[str] = (),
        allow: str | Iterable[str] = (),
        taste: Taste | None = None,
        opinions: Iterable[Effect] = (),
    ) -> LineUp:
        """Arguments and errors as in `line_up`; taste and opinions as in `looks.stack`."""
        day, care = day_of(today), husbandry or Husbandry(catalogue=animals.catalogue)
        animal, others = mates(animals, key, against)
        maker = RowMaker(animals, target, care, day, texts_of(without), texts_of(allow), taste, tuple(opinions))
        rows = [maker.row(animal, other) for other in others]
        rows.sort(
            key=lambda row: (
                not row.ready,
                bool(row.kept_out),
                -row.per_clutch,
                -row.progress,
                row.relation.kinship,
                row.mate.id,
            )
        )
        return cls(animal, maker.state(animal), target, texts_of(without), tuple(rows))

    @property
    def table(self) -> pd.DataFrame:
        """The rows as `line_up` returns them."""
        return pd.DataFrame([self._cells(row) for row in self.rows], columns=list(COLUMNS))

    def words(self, row: LineUpRow) -> str:
        """Whether the pairing can be made, and if not why: "ready", "not yet: 1,500 g needed; about season 2027/28"."""
        said = _state_words(row.mate, row.readiness)
        if self.readiness.ready and not self.readiness.barred:
            return said
        return f"{said}; {self.animal.id} is out: {_state_words(self.animal, self.readiness)}"

    def _cells(self, row: LineUpRow) -> tuple[object, ...]:
        return (
            *(row.mate.id, row.mate.name, float(row.per_egg), row.per_egg, float(row.per_clutch), float(row.expected)),
            [(look, float(chance)) for look, chance in row.likeliest],
            *(row.nearest.look, float(row.nearest.chance), float(row.progress), float(row.relation.kinship)),
            *(row.relation.words, row.ready, self.words(row)),
            [verdict.reason for verdict in row.helps],
            [verdict.reason for verdict in row.spoils],
            "; ".join(row.remarks),
        )


def line_up(
    key: str,
    animals: Collection,
    target: str,
    *,
    husbandry: Husbandry | None = None,
    today: date,
    against: str | Iterable[str] | None = None,
    without: str | Iterable[str] = (),
    allow: str | Iterable[str] = (),
) -> pd.DataFrame:
    """One animal beside several of the other sex: a row for each female (for a dam, for each male), best first.

    against: ids; None is all kept animals of the other sex, those that are not ready included. without: genes that must
    not show. allow: genes (or "all") whose cautions no longer keep out. husbandry: clutch size and rates.

    Columns: id, name; per_egg, the chance that one viable egg shows the target, and the same as a Fraction (fraction);
    per_clutch, the chance that a clutch, once laid, has at least one such hatchling, and expected, their mean number;
    likeliest, the three likeliest looks as (look, chance); nearest, the most of the target that a hatchling can show,
    and nearest_chance; progress, as in `progress`, the lay rate counted in; kinship, the inbreeding coefficient of the
    offspring at least, and related, in words; ready, whether the pairing can be made this season, and readiness, in
    words; helps and spoils, sentences on the genes of `nearest`; cautions, in words. Numbers are floats.

    Order: pairings that can be made this season come first, then those that no caution keeps out of plans, then by
    per_clutch, progress, least kinship and id. Raises KeyError if there is no such animal, ValueError if one is of the
    wrong or of unknown sex or is put against itself, GenesError if a text cannot be read.
    """
    return LineUp.of(
        key, animals, target, husbandry=husbandry, today=today, against=against, without=without, allow=allow
    ).table


def _state_words(animal: Animal, state: Readiness) -> str:
    return "kept out by a caution" if state.ready and state.barred else str(state)
