"""What the form for one clutch holds and says while it is filled in. No widgets, no HTML."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ...collection import CollectionError, Finding, SaveRefused
from ...collection.clutch import Clutch, Hatchlings
from ...collection.clutch_looks import read_look
from ...notation import GenesError, capital
from ...pairing import number_word
from ..clutch_disputes import Contradiction
from ..desk import Desk
from ..offers import Problem, offers
from .clutch_looks_model import CountedLooks, LookLine, surely

__all__ = ["CONTRADICTED", "FIELDS", "ClutchFormModel", "Misfit", "problem_of"]

FIELDS = ("clutch", "laid", "hatched", "eggs", "slugs", "died")
"""What is typed; the parents are chosen."""

SEXES = ("female", "male", "")
FEWEST = 12
"""How many of the likeliest looks are listed at first, and how many more at each asking."""

NEAREST = "Nearest: "
CONTRADICTED = "This clutch cannot be as it is written, given the records of the animals. Every file is as it was."
WAYS_OUT = (
    "Mend it here, or mend a record in the Collection tab. If you write it down all the same, it is left out of "
    "account there until it is mended."
)


@dataclass(frozen=True)
class Misfit(Problem):
    """A problem of one field of a form. field: its name, "" for the form as a whole."""

    field: str = ""


class ClutchFormModel:
    """key: the clutch that is changed, "" for a new one. texts: field -> what is typed. dam, sires: ids, "" if none.

    several: whether hatchlings may have different sires. counts: look as written -> females, males, not known. look:
    what stands in the field for another look. contradicted: whether what is filled in was found to contradict the
    records.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self._looks = CountedLooks(desk)
        self.begin()

    def begin(self, key: str = "") -> None:
        """Starts afresh with this clutch, or with a new one."""
        book = self.desk.book
        self.key, self.listed = key, FEWEST
        self.texts: dict[str, str] = dict.fromkeys(FIELDS, "")
        self.dam, self.sires, self.several = "", [""], False
        self.counts: dict[str, list[int]] = {}
        self._written: dict[str, str] = {}
        self.look = ""
        self.reconsider()
        if book is not None and key:
            self._fill(book[key])
        elif book is not None:
            self.texts |= {"clutch": self._free_name(), "hatched": str(self.desk.now)}
        self._begun = self._texts(), self.groups

    @property
    def changed(self) -> bool:
        """Whether there is anything to lose."""
        return (self._texts(), self.groups) != self._begun

    @property
    def heading(self) -> str:
        return f"change {self.key}" if self.key else "a new clutch"

    @property
    def looks(self) -> tuple[LookLine, ...]:
        """The looks that these parents can give, likeliest first, and those that were counted or added besides."""
        self._looks.choose(self.dam, self.sires)
        return self._looks.lines(self.listed, tuple(self.counts), self._written)

    @property
    def more(self) -> bool:
        """Whether the parents can give more looks than are listed."""
        self._looks.choose(self.dam, self.sires)
        return len(self._looks.likeliest(self.listed + 1)) > self.listed

    def list_more(self) -> None:
        """Lists more of the looks."""
        self.listed += FEWEST

    def reconsider(self) -> None:
        """Something was filled in otherwise, so that what was found before no longer holds."""
        self.contradicted = self._despite = False

    def add_look(self, text: str) -> tuple[Problem, ...]:
        """Lists another look, sure or unsure, to be counted; or what is wrong with it."""
        given = " ".join(text.split())
        if not given:
            return (Misfit("Write what the hatchlings show, such as Pastel, maybe Yellow Belly.", (), "look"),)
        try:
            read = read_look(given, None, self.desk.catalogue)
        except GenesError as error:
            advice = f"{error.advice[:1].upper()}{error.advice[1:]}."
            said = f"Found {error.found}; needed {error.needed}. {advice}"
            return (Misfit(said, offers(given, error.found, error.nearest, "look"), "look"),)
        look = surely(given, self.desk)
        if not read.unsure and any(line.text == self._written.get(look, look) for line in self.looks):
            given = self._written.get(look, look)
        self.counts.setdefault(given, [0, 0, 0])
        self.look = ""
        return tuple(Misfit(f"{capital(notice)}.", (), "look") for notice in read.notices)

    def count(self, counts: Mapping[str, Sequence[int]]) -> None:
        """Takes over what was counted."""
        self.counts |= {text: list(numbers) for text, numbers in counts.items()}

    @property
    def summary(self) -> str:
        """How many of the eggs are accounted for."""
        born = sum(map(sum, self.counts.values()))
        eggs, slugs, died = (_number(self.texts[name]) for name in ("eggs", "slugs", "died"))
        parts = [_counted(born, "hatchling")]
        parts += [_counted(slugs, "slug")] if slugs else []
        parts += [f"{number_word(died)} died in the egg"] if died else []
        said, total = ", ".join(parts), born + (slugs or 0) + (died or 0)
        if eggs is None and not total:
            return "Nothing of this clutch is counted yet."
        if eggs is None:
            return f"{capital(said)}. How many eggs were laid is not written."
        if total > eggs:
            over = total - eggs
            return f"{capital(_counted(over, 'egg'))} too many: {said}, of {_counted(eggs, 'egg')}."
        if total == eggs:
            return f"Every egg is accounted for: {said}."
        rest = eggs - total
        verb = "is" if total == 1 else "are"
        return f"{capital(number_word(total))} of {_counted(eggs, 'egg')} {verb} accounted for: {said}. {_still(rest)}"

    @property
    def values(self) -> dict[str, str]:
        """Column -> text for the book: all that is not blank, or, of a clutch that is changed, what is otherwise."""
        before = self._begun[0] if self.key else dict.fromkeys(self._texts(), "")
        texts = {name: text for name, text in self._texts().items() if text != before[name]}
        return {**texts, "clutch": self.texts["clutch"].strip()}

    @property
    def groups(self) -> list[dict[str, str]]:
        """The hatchlings for the book, a group for each look and sex."""
        return [
            {"look": text, "sex": sex, "count": str(number)}
            for text, numbers in self.counts.items()
            for sex, number in zip(SEXES, numbers, strict=True)
            if number
        ]

    def write(self, overwrite: bool = False, despite: bool = False) -> tuple[Problem, ...]:
        """Writes the clutch into the book; all that is wrong with it, if anything. Raises SaveRefused as the desk does.

        despite: also if it contradicts the records, from now on until something is filled in otherwise.
        """
        self._despite = self._despite or despite
        if missing := self._missing():
            return (*missing, *self._wrong_besides({one.field for one in missing}))
        try:
            groups = self.groups if self.groups != self._begun[1] else None
            self.desk.write_clutch(self.values, groups, overwrite, self._despite)
        except Contradiction as error:
            self.contradicted = True
            found = (problem_of(one, self.texts) for one in error.findings)
            return (*found, Misfit(WAYS_OUT))
        except CollectionError as error:
            if isinstance(error, SaveRefused):
                raise
            return tuple(problem_of(one, self.texts) for one in error.findings if one.severity == "error")
        self.begin(self.texts["clutch"].strip())
        return ()

    def _missing(self) -> tuple[Misfit, ...]:
        """What has to be filled in, or settled, before the book can be asked."""
        name, book, found = self.texts["clutch"].strip(), self.desk.book, []
        if not name:
            found.append(Misfit("clutch: give it a name, such as C01.", (), "clutch"))
        elif book is not None and not self.key and name in book:
            said = f"clutch: {name} is in the book already. Give this one another name, or change that one."
            found.append(Misfit(said, (), "clutch"))
        found += [] if self.dam else [Misfit("dam: choose the dam.", (), "dam")]
        found += [] if any(self.sires) else [Misfit("sire: choose the sire.", (), "sire")]
        if left := self.look.strip():
            found.append(Misfit(f"another look: {left} is not counted yet. Add it, or empty the field.", (), "look"))
        return tuple(found)

    def _wrong_besides(self, fields: set[str]) -> tuple[Misfit, ...]:
        """What else is wrong, of the other fields; with another name, should the clutch's own be amiss."""
        assert self.desk.book is not None
        values = {**self.values, **({"clutch": self._free_name()} if "clutch" in fields else {})}
        try:
            self.desk.book.with_clutch(values, self.groups)
        except CollectionError as error:
            wrong = [one for one in error.findings if one.severity == "error" and one.column not in fields]
            return tuple(problem_of(one, self.texts) for one in wrong)
        return ()

    def _texts(self) -> dict[str, str]:
        males = dict.fromkeys(sire for sire in self.sires if sire)
        sire = (" and " if self.several else " or ").join(males)
        return {**{name: text.strip() for name, text in self.texts.items()}, "dam": self.dam, "sire": sire}

    def _fill(self, clutch: Clutch) -> None:
        self.texts |= {name: clutch.further.get(name, "") for name in ("slugs", "died")}
        written = {"clutch": clutch.id, "laid": clutch.laid, "hatched": clutch.hatched, "eggs": clutch.eggs}
        self.texts |= {name: "" if value is None else str(value) for name, value in written.items()}
        self.dam, self.sires, self.several = clutch.dam, list(clutch.sires), clutch.several
        for row in clutch.hatchlings:
            self._count_row(row)

    def _count_row(self, row: Hatchlings) -> None:
        text = row.look
        if not row.maybe:
            look = surely(text, self.desk)
            text = self._written.setdefault(look, text)
        at = SEXES.index(row.sex or "")
        self.counts.setdefault(text, [0, 0, 0])[at] += row.count

    def _free_name(self) -> str:
        book = self.desk.book
        taken = [match for one in book or () if (match := re.fullmatch(r"C(\d+)", one.id))]
        width = max((len(match[1]) for match in taken), default=2)
        return f"C{max((int(match[1]) for match in taken), default=0) + 1:0{width}}"


def problem_of(finding: Finding, texts: Mapping[str, str]) -> Misfit:
    """What is wrong, in words, with texts that would mend it. texts: field -> what is typed there."""
    names = finding.advice.partition(NEAREST)[2].split(", ") if NEAREST in finding.advice else []
    column = f"{finding.column}: " if finding.column else ""
    needed = f"; needed: {finding.needed}" if finding.needed else ""
    advice = finding.advice.partition(NEAREST)[0].strip().rstrip(".") if names else finding.advice.rstrip(".")
    said = f" {capital(advice)}." if advice else ""
    text = f"{column}{capital(finding.found.rstrip('.')) if not column else finding.found.rstrip('.')}{needed}.{said}"
    made = offers(texts.get(finding.column, ""), finding.found, names, finding.column)
    return Misfit(text, made, finding.column)


def _number(text: str) -> int | None:
    return int(text) if re.fullmatch(r"\s*[0-9]{1,3}\s*", text) else None


def _counted(number: int, word: str) -> str:
    return f"{number_word(number)} {word}{'' if number == 1 else 's'}"


def _still(rest: int) -> str:
    return f"{capital(number_word(rest))} {'is' if rest == 1 else 'are'} not."
