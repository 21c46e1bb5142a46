"""What the tab "Read an animal" says and does. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...catalogue import ZONES, Cue, Zone
from ...looks import Stack, caution_text, stack_of
from ...notation import capital
from ...pairing import GeneChance, Reading, bits_text, number_word, percent, times_text
from ...pairing.pointing import Pointer, cautions_met, pointers, swing
from ...pictures.gene_bars import GeneBar
from ..desk import Desk
from .reading_origin import ReadingOrigin

__all__ = ["CueRow", "Genotypes", "Question", "ReadingModel"]

CERTAINTY = ((Fraction(95, 100), "almost surely"), (Fraction(75, 100), "likely"), (Fraction(1, 2), "perhaps"))
"""From which chance on which word is said of a gene. Only a chance of 1 is "for certain"; below a half a gene is not
named, unless the cues brought it down to HARDLY or less.
"""

HARDLY = Fraction(5, 100)

POINTS = ((20, "strong"), (5, "fair"), (1, "weak"))
"""How strongly a cue points: by the greatest factor between its chances on two looks that are possible here. From 20
"strong", from 5 "fair", above 1 "weak"; at 1 it tells nothing here.
"""

TELLING = ((0.5, "a great deal"), (0.2, "a fair amount"), (0.05, "a little"), (0.005, "very little"))
"""How much a further look is expected to tell, from how many bits on; with less there is no such look."""

MOST_AT_ONCE = 1_000
"""The most looks with candidate genes; with more, each answer would take a second or longer."""

MOST_NAMED, MOST_GENOTYPES = 4, 8
PROOF = (
    "Strong, fair, weak: how a cue points here, by figures that are remembered, not measured. "
    "Only a DNA test or breeding proves a gene."
)
PLACES: Mapping[Zone, str] = {**{zone: f"On the {zone}" for zone in ZONES}, "overall": "Overall"}


@dataclass(frozen=True)
class CueRow:
    """One cue. points: how strongly it points here, "" if it tells nothing; more: the same in full."""

    key: str
    text: str
    points: str
    more: str


@dataclass(frozen=True)
class Question:
    """The look that is expected to settle most: key of its cue, the question, and what its answer would tell."""

    key: str
    text: str
    telling: str
    change: str


@dataclass(frozen=True)
class Genotypes:
    """The likeliest genotypes (shorthand, chance in words), and how many more are possible."""

    rows: tuple[tuple[str, str], ...]
    more: int


class ReadingModel:
    """origin: where the animal comes from; call `refresh` after changing it. answers: key of a cue -> whether it is
    seen; the others were not looked at. every_cue: whether those that tell nothing here are listed too.

    blocker: why there is no answer, in plain words; reading is None then.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.origin = ReadingOrigin(desk)
        self.answers: dict[str, bool] = {}
        self.every_cue = False
        self.blocker = ""
        self.reading: Reading | None = None
        self._start: Reading | None = None
        self._pointers: tuple[Pointer, ...] = ()
        self._further: tuple[tuple[Cue, float], ...] = ()
        self._skipped: list[str] = []
        self.refresh()

    def refresh(self) -> None:
        """Takes up what changed on the desk or in the origin; the answers stay."""
        self.origin.refresh()
        self._start, self._pointers, self._skipped = None, (), []
        self.blocker = self.origin.blocker
        if not self.blocker:
            self._begin()
        self._read()

    def answer(self, key: str, seen: bool | None) -> None:
        """Notes a cue; None takes the answer back. What is seen takes back the other answers on the same quality."""
        self.answers.pop(key, None)
        if seen:
            for rival in self._rivals(key):
                self.answers.pop(rival, None)
        if seen is not None:
            self.answers[key] = seen
        self._read()

    def skip(self, key: str) -> None:
        """Asks another question: this one cannot be answered. After the last one, the first comes again."""
        self._skipped.append(key)

    def reset(self) -> None:
        """Takes every answer back."""
        self.answers, self._skipped = {}, []
        self._read()

    @property
    def headline(self) -> str:
        """The answer in a sentence."""
        if self.reading is None:
            return self.blocker
        genes = self.reading.genes
        if not genes:
            return "There is nothing to find out: neither parent carries a gene that is known of."
        named = [item for item in genes if item.carries >= CERTAINTY[-1][0]]
        ruled = [item for item in genes if item.carries <= HARDLY and item.carries < item.before]
        parts = [f"{self._name(item)} {_certainty(item.carries)}" for item in named]
        parts = parts or [f"nothing likely, most of all {self._name(genes[0])} ({percent(genes[0].carries)})"]
        more = len(parts) - MOST_NAMED
        parts = [*parts[:MOST_NAMED], *([f"{number_word(more)} more perhaps or likelier"] if more > 0 else [])]
        said = ", ".join([*parts, *(f"hardly {item.gene} ({percent(item.carries)})" for item in ruled[:2])])
        taken = f" {capital(self.origin.taken_as)}." if self.origin.taken_as else ""
        return f"{capital(said)}.{taken}" if self.answers else f"Before any look: {said}.{taken}"

    @property
    def bars(self) -> tuple[GeneBar, ...]:
        """Each gene that may be carried, likeliest first."""
        genes = self.reading.genes if self.reading else ()
        return tuple(GeneBar(item.gene, item.shows, item.carries, item.before) for item in genes)

    @property
    def zones(self) -> tuple[tuple[Zone, tuple[CueRow, ...]], ...]:
        """The cues to list, zone by zone: those that tell something here, and those that were answered."""
        listed = [one for one in self._pointers if self.every_cue or self._listed(one)]
        found = [(zone, tuple(_row(one) for one in listed if one.cue.zone == zone)) for zone in ZONES]
        return tuple((zone, rows) for zone, rows in found if rows)

    @property
    def left_out(self) -> int:
        """How many cues tell nothing here and were not answered."""
        return sum(not self._listed(one) for one in self._pointers)

    @property
    def states(self) -> dict[str, str]:
        """Key of a cue -> "seen", "not", or "implied" where another one that is seen rules it out."""
        seen = [key for key, answer in self.answers.items() if answer]
        implied = {rival: "implied" for key in seen for rival in self._rivals(key)}
        return {**implied, **{key: "seen" if answer else "not" for key, answer in self.answers.items()}}

    @property
    def noted(self) -> str:
        """How many cues were answered, in words."""
        count = len(self.answers)
        return f"{number_word(count)} noted" if count else "nothing noted yet"

    @property
    def question(self) -> Question | None:
        """The next look; None if no look that is left would tell anything."""
        if not self._further:
            return None
        if all(cue.key in self._skipped for cue, _ in self._further):
            self._skipped = []
        cue, bits = next(item for item in self._further if item[0].key not in self._skipped)
        amount = next(word for least, word in TELLING if bits >= least)
        telling = f"Expected to tell {amount}: {bits_text(bits)}; one bit would settle an even chance."
        return Question(cue.key, f"{PLACES[cue.zone]}: {cue.text}. Is it so?", telling, self._change(cue))

    @property
    def genotypes(self) -> Genotypes:
        """The likeliest genotypes."""
        if self.reading is None:
            return Genotypes((), 0)
        table = self.reading.genotypes()
        top = table.head(MOST_GENOTYPES)
        rows = tuple((text, percent(chance)) for text, chance in zip(top["genotype"], top["fraction"], strict=True))
        return Genotypes(rows, len(table) - len(rows))

    @property
    def likeliest(self) -> tuple[str, Stack] | None:
        """The likeliest look: a title with its chance, and its stack."""
        if self.reading is None:
            return None
        look, chance = self.reading.looks()[0]
        stack = stack_of(look, taste=self.desk.taste, opinions=self.desk.opinions, catalogue=self.desk.catalogue)
        return f"Likeliest look: {stack.text} ({percent(chance)})", stack

    @property
    def cautions(self) -> tuple[str, ...]:
        """What may be wrong with the animal's health, each with the strength of its evidence and its chance."""
        met = cautions_met(self.reading) if self.reading else ()
        return tuple(f"{caution_text(caution)} (chance here: {percent(chance)})" for caution, chance in met)

    def _begin(self) -> None:
        try:
            start = self.origin.start()
            count = start.look_count
            if self.origin.asks_for_genes and count > MOST_AT_ONCE:
                raise ValueError(f"{count:,} looks are possible, too many to answer while you wait; take a gene away")
            start.genotypes()
        except ValueError as error:
            self.blocker = f"{capital(str(error))}."
        else:
            self._start, self._pointers = start, pointers(start)

    def _read(self) -> None:
        self.reading = self._start.answered(self.answers) if self._start else None
        further = self.reading.further_cues() if self.reading else ()
        self._further = tuple(item for item in further if item[1] >= TELLING[-1][0])

    def _rivals(self, key: str) -> list[str]:
        """The other cues on the same quality."""
        cues = self.desk.catalogue.cues
        quality = next(cue.quality for cue in cues if cue.key == key)
        return [cue.key for cue in cues if quality is not None and cue.quality == quality and cue.key != key]

    def _listed(self, one: Pointer) -> bool:
        return one.seen > 1 or one.cue.key in self.answers

    def _name(self, item: GeneChance) -> str:
        """The gene as shorthand has it: a recessive that is more likely hidden than seen is "het"."""
        unseen = self.desk.catalogue.gene(item.gene).recessive and item.shows * 2 < item.carries
        return f"het {item.gene}" if unseen else item.gene

    def _change(self, cue: Cue) -> str:
        found = swing(self.reading, cue) if self.reading else None
        if found is None:
            return ""
        seen, missing = percent(found.seen), percent(found.missing)
        return f"{found.gene}, now {percent(found.now)}: {seen} if seen, {missing} if clearly not."


def _certainty(chance: Fraction) -> str:
    if chance == 1:
        return "for certain"
    return f"{next(word for least, word in CERTAINTY if chance >= least)} ({percent(chance)})"


def _row(one: Pointer) -> CueRow:
    points = next((word for least, word in POINTS if one.seen > 1 and one.seen >= least), "")
    more = f"seen: up to {times_text(one.seen)} as likely on one look that is possible here as on another"
    said = f"{more}; clearly not: up to {times_text(one.missing)}" if points else "tells nothing here"
    return CueRow(one.cue.key, one.cue.text, points or "tells nothing", said)
