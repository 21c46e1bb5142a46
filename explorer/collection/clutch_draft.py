"""The rows of one clutch to a clutch as far as it could be read: every fault in them written down."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from ..catalogue import Catalogue, Sex
from ..notation import GenesError
from .clutch import Clutch, Hatchlings
from .clutch_fields import Males, read_dam, read_degrees, read_males, read_number
from .clutch_looks import WrittenLook, read_look
from .fields import Fault, read_date, read_id, read_sex, read_weight
from .findings import Finding
from .sheet import Layout

__all__ = ["CLUTCHES", "GROUP_COLUMNS", "ClutchDraft"]

GROUP_COLUMNS = ("look", "sex", "count")
"""What is said of like hatchlings; every other column is about the clutch."""

NAMED = ("clutch", "dam", "sire", "laid", "hatched", "eggs", *GROUP_COLUMNS)
CLUTCHES = Layout(
    (*NAMED, "slugs", "died", "deformed", "clutch_weight_g", "incubation_c"),
    ("clutch", "dam", "sire", "look", "count"),
    "group of like hatchlings",
)

Value = TypeVar("Value")
Texts = Mapping[str, str]
"""Column -> trimmed text of one row."""


@dataclass(frozen=True)
class ClutchDraft:
    """dam is "" and sires is () in a clutch whose parents could not be read. rows: column -> the line where it is
    written. complete: whether all of its hatchlings could be read."""

    clutch: Clutch
    rows: Mapping[str, int]
    findings: tuple[Finding, ...]
    complete: bool

    @classmethod
    def read(
        cls,
        key: str,
        rows: Sequence[tuple[int, Texts]],
        columns: Collection[str],
        known: Collection[str],
        catalogue: Catalogue,
    ) -> ClutchDraft:
        """The draft of a clutch. rows: (line, texts) of each; columns: the file's; known: ids of the collection."""
        reader = _Reader(key, rows, columns)
        reader.check_name()
        dam = reader.told("dam", lambda text: read_dam(text, known), needed=True)
        males = reader.told("sire", lambda text: read_males(text, known), needed=True) or Males((), False)
        laid, hatched = reader.told("laid", read_date), reader.told("hatched", read_date)
        eggs, slugs, died, deformed = (reader.told(one, read_number) for one in ("eggs", "slugs", "died", "deformed"))
        reader.told("clutch_weight_g", read_weight)
        reader.told("incubation_c", read_degrees)
        if laid and hatched and hatched <= laid:
            found = f"hatched on {hatched}, and laid on {laid}"
            reader.fault("hatched", found, "a day after it was laid", "mend one of the two days")
        before = len(reader.findings)
        groups = [reader.hatchlings(line, texts, catalogue) for line, texts in rows]
        complete = not any(finding.severity == "error" for finding in reader.findings[before:])
        hatchlings = tuple(one for one in groups if one is not None)
        reader.check_eggs(eggs, sum(one.count for one in hatchlings), slugs or 0, died or 0, deformed or 0)
        clutch = Clutch(
            id=key,
            dam=dam or "",
            sires=males.ids,
            several=males.several,
            laid=laid,
            hatched=hatched,
            eggs=eggs,
            hatchlings=hatchlings,
            further={name: _joined(name, rows) for name in columns if name and name not in NAMED},
            row=rows[0][0],
        )
        return cls(clutch, reader.lines, tuple(reader.findings), complete)


class _Reader:
    """Reads what is written of one clutch. lines: column -> the line where it is written."""

    def __init__(self, key: str, rows: Sequence[tuple[int, Texts]], columns: Collection[str]) -> None:
        self.key, self.rows, self.columns = key, rows, columns
        self.lines: dict[str, int] = {}
        self.findings: list[Finding] = []

    def told(self, column: str, read: Callable[[str], Value], *, needed: bool = False) -> Value | None:
        """What is written once or more of the whole clutch; None if nothing that can be read."""
        first: tuple[Value, int, str] | None = None
        written = [(line, text) for line, texts in self.rows if (text := texts.get(column, ""))]
        self.lines[column] = written[0][0] if written else self.rows[0][0]
        for line, text in written:
            try:
                value = read(text)
            except Fault as fault:
                self.fault(column, fault.found, fault.needed, fault.advice, line)
                continue
            if first is None:
                first = (value, line, text)
                self.lines[column] = line
            elif value != first[0]:
                advice = "mend one of the two, or leave it blank in all rows of the clutch but one"
                self.fault(column, f"{text}, and {first[2]} in row {first[1]}", "one for the clutch", advice, line)
        if needed and not written and column in self.columns:
            self.fault(column, f"no {column}", "an animal of the collection", "write it in a row of the clutch")
        return first[0] if first else None

    def hatchlings(self, line: int, texts: Texts, catalogue: Catalogue) -> Hatchlings | None:
        """The hatchlings that a row speaks of; None if of none, or if it cannot be read."""
        if not any(texts.get(column) for column in GROUP_COLUMNS):
            return None
        sex, count = self._sex(line, texts.get("sex", "")), self._count(line, texts.get("count", ""))
        look = self._look(line, texts.get("look", ""), sex, catalogue)
        if look is None or count is None:
            return None
        odds = {gene: catalogue.figure("maybe_odds").value for gene in look.unsure}
        return Hatchlings(texts["look"], count, sex, look.seen, odds, look.covered, line)

    def check_name(self) -> None:
        """That the clutch has a name such as an animal may have."""
        try:
            read_id(self.key)
        except Fault as fault:
            advice = f"give it a name such as {CLUTCHES.required[0][0].upper()}01"
            self.fault("clutch", fault.found, fault.needed, advice, self.rows[0][0])

    def check_eggs(self, eggs: int | None, hatchlings: int, slugs: int, died: int, deformed: int) -> None:
        """That there are as many eggs as what is said to have come of them."""
        if eggs is None:
            return
        total = hatchlings + slugs + died
        if total > eggs:
            parts = {_counted(hatchlings, "hatchling"): hatchlings, _counted(slugs, "slug"): slugs}
            parts[f"{died} that died in the egg"] = died
            came = " + ".join(words for words, number in parts.items() if number)
            found = f"{_counted(eggs, 'egg')}, and {came}{f' = {total}' if ' + ' in came else ''}"
            self.fault("eggs", found, "as many eggs as that, or more", "mend one of the numbers")
        elif deformed > eggs - slugs:
            found = f"{deformed} deformed, of {_counted(eggs, 'egg')} with {_counted(slugs, 'slug')}"
            self.fault("deformed", found, "at most the eggs that were no slugs", "mend one of the numbers")

    def fault(self, column: str, found: str, needed: str, advice: str, line: int | None = None) -> None:
        """Writes down an error; by default at the line where the column is written."""
        row = self.lines[column] if line is None else line
        self.findings.append(Finding("error", row, column, found, needed, advice, self.key))

    def _sex(self, line: int, text: str) -> Sex | None:
        try:
            return read_sex(text)
        except Fault as fault:
            self.fault("sex", fault.found, fault.needed, fault.advice, line)
            return None

    def _count(self, line: int, text: str) -> int | None:
        if not text and "count" not in self.columns:
            return None
        try:
            return read_number(text, 1)
        except Fault as fault:
            self.fault("count", fault.found if text else "no count", fault.needed, fault.advice, line)
            return None

    def _look(self, line: int, text: str, sex: Sex | None, catalogue: Catalogue) -> WrittenLook | None:
        if not text:
            if "look" in self.columns:
                self.fault("look", "no look", "what the hatchlings show", "write Normal if it is nothing", line)
            return None
        try:
            look = read_look(text, sex, catalogue)
        except GenesError as error:
            near = f". Nearest: {', '.join(error.nearest)}" if error.nearest else ""
            self.fault("look", error.found, error.needed, error.advice + near, line)
            return None
        self.findings += [Finding("notice", line, "look", said, "", "", self.key) for said in look.notices]
        return look


def _joined(column: str, rows: Sequence[tuple[int, Texts]]) -> str:
    return "; ".join(dict.fromkeys(text for _, texts in rows if (text := texts.get(column, ""))))


def _counted(number: int, word: str) -> str:
    return f"1 {word}" if number == 1 else f"{number} {word}s"
