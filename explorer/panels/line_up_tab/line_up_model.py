"""What the Line-up tab says and does: one animal beside those of the other sex. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Literal

from ...looks import caution_text
from ...notation import names_in_words
from ...pairing import LineUp, LineUpRow, number_word
from ..choosing import SEX_OF, Choice, Role, choices, name_of, ready_of
from ..desk import Desk
from .line_up_aim import Aim, AimModel
from .line_up_beside_model import MOST_BESIDE
from .line_up_grid_cells import GridModel
from .line_up_sentences import answer_of
from .line_up_table import line_up_columns, line_up_rows

__all__ = ["AGAINST", "Against", "LineUpModel"]

Against = Literal["everybody", "ready only", "ticked only"]
AGAINST: tuple[Against, ...] = ("everybody", "ready only", "ticked only")

ROLES: tuple[Role, Role] = ("sire", "dam")


class LineUpModel:
    """key: id of the animal that stands alone, "" if there is none. against: which of the other sex are shown. ticked:
    ids in the order of ticking. picked: id of the mate that was chosen in the grid last, "" for none. by_hand: whether
    the keeper chose the animal; until then it is the best male of the grid, once there is one.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.aims, self.grid = AimModel(desk), GridModel(desk)
        self.key = self.picked = ""
        self.against: Against = "everybody"
        self.ticked: list[str] = []
        self.by_hand = False
        self._made: tuple[object, LineUp | None] = (None, None)
        self.refresh()

    def refresh(self) -> None:
        """Takes up what changed on the desk; chooses anew if the animal is gone."""
        animals = self.desk.animals
        if self.key not in {choice.id for choice in self.choices()}:
            self.key = next((choice.id for choice in self.choices()), "")
        mates = {one.id for one in animals or () if one.status == "kept" and one.sex not in (None, self._sex)}
        self.ticked = [key for key in self.ticked if key in mates]
        self.picked = self.picked if self.picked in mates else ""

    def choose(self, key: str) -> None:
        """Puts an animal beside the others; ticks stay as long as its sex is the same."""
        self.key, self.by_hand = key, True
        self.refresh()

    def suggest(self, key: str) -> None:
        """Puts an animal there if the keeper has not chosen one, and looks for the target."""
        if not self.by_hand and self.aims.kind == "the target":
            self.key = key
            self.refresh()

    def pick(self, *keys: str) -> None:
        """Shows a pairing of the grid, and ticks the mate; one animal alone is put beside the others.

        The animal that stands alone stays if it is one of the two; else the one of its sex takes its place.
        """
        assert self.desk.animals is not None
        if len(keys) == 1:
            self.choose(keys[0])
            return
        alone = next((key for key in keys if self.desk.animals[key].sex == self._sex), keys[0])
        (mate,) = (key for key in keys if key != alone)
        self.choose(alone)
        self.tick([*(key for key in self.ticked if key != mate), mate])
        self.picked = mate

    def tick(self, keys: Iterable[str]) -> None:
        """Ticks these and no others."""
        self.ticked = list(dict.fromkeys(keys))
        self.picked = self.picked if self.picked in self.ticked else ""

    def choices(self, search: str = "") -> tuple[Choice, ...]:
        """Who can stand alone: animals of known sex, those ready first, males before females.

        search: words that must all stand in the label, in any case.
        """
        found = [self._choice(choice, role) for role in ROLES for choice in choices(self.desk, role)]
        known = [choice for choice in found if choice is not None]
        known.sort(key=lambda choice: not self._ready(choice.id))
        words = search.casefold().split()
        return tuple(choice for choice in known if all(word in choice.label.casefold() for word in words))

    @property
    def blockers(self) -> tuple[str, ...]:
        """Why there is nothing to show, in plain words."""
        if self.desk.animals is None:
            return ("No collection is open. Open a file in the Collection tab.",)
        if not self.key:
            return ("There is no animal of known sex to choose. Add one in the Collection tab.",)
        if not self._mates:
            return (f"There is no {self._other} to put beside {self._name}. Add one in the Collection tab.",)
        return ()

    @property
    def aim(self) -> Aim:
        """What is looked for."""
        return self.aims.of(self.key)

    @property
    def line(self) -> LineUp | None:
        """The animal beside all kept animals of the other sex; None if it cannot be had."""
        desk, aim = self.desk, self.aim
        if self.blockers or desk.animals is None:
            return None
        asked = (desk.animals, self.key, aim.look, aim.without, desk.today, desk.allow, desk.care)
        state = (*asked, desk.opinions, tuple(desk.taste.items()))
        if self._made[0] != state:
            self._made = state, LineUp.of(
                self.key,
                desk.animals,
                aim.look,
                husbandry=desk.care,
                today=desk.today,
                without=aim.without,
                allow=desk.allow,
                taste=desk.taste,
                opinions=desk.opinions,
            )
        return self._made[1]

    @property
    def rows(self) -> tuple[LineUpRow, ...]:
        """The pairings that are shown, best first."""
        rows = self.line.rows if self.line else ()
        if self.against == "ticked only":
            return tuple(row for row in rows if row.mate.id in self.ticked)
        everybody = self.against == "everybody"
        return tuple(row for row in rows if everybody or (row.readiness.ready and not row.readiness.barred))

    @property
    def headline(self) -> str:
        """The answer in a sentence or two."""
        if self.blockers:
            return self.blockers[0]
        line, rows = self.line, self.rows
        if line is None or not rows:
            return self._nobody
        return answer_of(line, rows, self.aim)

    @property
    def warnings(self) -> tuple[str, ...]:
        """Why the animal that stands alone cannot be paired this season, and the cautions on it and on the best."""
        line, rows = self.line, self.rows
        if line is None:
            return ()
        state, said = line.readiness, []
        if not state.ready:
            said.append(f"{self._name}, {state}: what follows is what could be, not what can be made this season.")
        elif state.barred:
            said.append(f"{self._name} is kept out of plans by a caution: what follows is what could be.")
        said += [f"Caution on {self._name}: {caution_text(caution)}" for caution in state.cautions]
        said += [f"Caution with {name_of(rows[0].mate)}: {text}" for text in rows[0].remarks] if rows else []
        return tuple(said)

    @property
    def note(self) -> str:
        """What the numbers of the table mean."""
        eggs = self.desk.care.law
        clutch = f"of {number_word(next(iter(eggs)))} eggs" if len(eggs) == 1 else "of the usual size"
        return (
            f"Egg, clutch, expected: chances of {self.aim.name}, with clutches {clutch}. Darker is more, within a "
            "column. With the relation stands the offspring's inbreeding coefficient, at least: only recorded parents "
            "count."
        )

    @property
    def columns(self) -> list[dict[str, str]]:
        """The head of the table."""
        return line_up_columns(self.rows)

    @property
    def table(self) -> list[dict[str, Any]]:
        """The rows of the table."""
        line = self.line
        return line_up_rows(line, self.rows) if line else []

    @property
    def empty(self) -> str:
        """What stands in the table if it has no row."""
        return self._nobody if not self.blockers else ""

    @property
    def beside(self) -> tuple[LineUpRow, ...]:
        """The pairings to set side by side: those ticked last, in the order of the table; none if fewer than two."""
        chosen = set(self.ticked[-MOST_BESIDE:])
        rows = self.line.rows if self.line and len(chosen) > 1 else ()
        return tuple(row for row in rows if row.mate.id in chosen)

    @property
    def ticking(self) -> str:
        """What ticking does, or did."""
        if self.blockers:
            return ""
        animals, count = self.desk.animals, len(self.ticked)
        if not count or animals is None:
            return f"Tick two or three {self._other}s in the table to see what could hatch, side by side."
        if count == 1:
            one = name_of(animals[self.ticked[0]])
            return f"{one} is ticked. Tick another {self._other} to set the two side by side."
        names = names_in_words(name_of(row.mate) for row in self.beside)
        last = f" {number_word(count).capitalize()} are ticked; these are the last {number_word(MOST_BESIDE)}."
        return f"{self._name} with {names}, side by side.{last if count > MOST_BESIDE else ''}"

    @property
    def _nobody(self) -> str:
        if self.against == "ticked only":
            return f"Nobody is ticked. Show everybody, and tick the {self._other}s to compare."
        return f"No {self._other} is ready this season. Show everybody to see those that are not."

    @property
    def _sex(self) -> str:
        animals = self.desk.animals
        return (animals[self.key].sex or "") if animals is not None and self.key else ""

    @property
    def _other(self) -> str:
        return "male" if self._sex == "female" else "female"

    @property
    def _name(self) -> str:
        return name_of(self.desk.animals[self.key]) if self.desk.animals is not None and self.key else ""

    @property
    def _mates(self) -> list[str]:
        return [one.id for one in self.desk.animals or () if one.status == "kept" and one.sex == self._other]

    def _ready(self, key: str) -> bool:
        assert self.desk.animals is not None
        state = ready_of(self.desk, self.desk.animals[key])
        return state.ready and not state.barred

    def _choice(self, choice: Choice, role: Role) -> Choice | None:
        assert self.desk.animals is not None
        if self.desk.animals[choice.id].sex != SEX_OF[role]:
            return None
        return Choice(choice.id, f"{SEX_OF[role]} · {choice.label}")
