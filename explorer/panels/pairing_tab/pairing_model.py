"""What the Pairing tab says and does. No widgets, no HTML, no arithmetic."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...collection import Animal, kin_sentence, relation
from ...looks import caution_text, look_remarks
from ...notation import GenesError, capital, read_wanted, write_shown
from ...pairing import (
    Clutch,
    Egg,
    Nearest,
    Offspring,
    cross,
    lacking_in_words,
    look_closeness,
    look_count,
    look_in_words,
    losses_in_words,
    mean_text,
    names_in_words,
    nearest,
    number_word,
    one_in,
    percent,
    pretend_clutch,
    top_genotypes,
)
from ...pictures import Bar
from ..choosing import ROLES, SEX_OF, Choice, Role, choices, name_of, ready_of, suggested
from ..desk import Desk
from ..offers import Problem, offers
from .pairing_looks_model import PairingLooks
from .proof_model import ProvingOut
from .ranking_model import RankedPairings

__all__ = ["Answer", "HatchedEgg", "PairingModel"]

MOST_READ = 200
"""The most outcomes that are read before a picture chooses from them."""


@dataclass(frozen=True)
class Answer:
    """What was asked about another look: sentences, or why it could not be read, with texts that could."""

    lines: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True)
class HatchedEgg:
    """One egg of the pretend clutch in words. hit: it shows what the headline is about."""

    text: str
    hit: bool
    hatched: bool


class PairingModel:
    """dam, sire: ids, "" if there is nobody. eggs: a clutch's; hatch_percent: of 100 viable eggs, how many hatch.

    genotypes: whether the chart is of genotypes instead of looks. seed: of the pretend clutch; pretended: its eggs once
    it was hatched. ranked: this season's pairings by taste. odds, nearest: None while one of the two is missing.
    """

    def __init__(self, desk: Desk, seed: int = 1) -> None:
        self.desk = desk
        self.dam = self.sire = ""
        self.eggs, self.hatch_percent = self._figures = _figures(desk)
        self.genotypes = False
        self.seed = seed
        self.pretended: tuple[Egg, ...] = ()
        self.odds: Offspring | None = None
        self.nearest: Nearest | None = None
        self.ranked = RankedPairings(desk, lambda: self.clutch)
        self.refresh()

    def refresh(self) -> None:
        """Takes up what changed on the desk; chooses anew where an animal is gone."""
        animals = self.desk.animals
        if self._figures != _figures(self.desk):
            self.eggs, self.hatch_percent = self._figures = _figures(self.desk)
        for role in ROLES:
            if getattr(self, role) not in {choice.id for choice in choices(self.desk, role)}:
                setattr(self, role, "")
        self.dam, self.sire = suggested(self.desk, self.dam, self.sire)
        self.odds = self.nearest = None
        if animals is not None and not self.blockers:
            self.odds = cross(animals[self.dam], animals[self.sire])
            self.nearest = nearest(self.odds, self.desk.target, self.desk.without)
        self.pretended = ()

    def choose(self, role: Role, key: str) -> None:
        """Puts an animal in; the other one stays."""
        setattr(self, role, key)
        self.refresh()

    def choices(self, role: Role, search: str = "") -> tuple[Choice, ...]:
        """Who can be chosen, those ready first; nobody is left out for not being ready."""
        return choices(self.desk, role, search)

    @property
    def proving(self) -> ProvingOut | None:
        """What hatchlings would prove of the parents."""
        if self.odds is None:
            return None
        dam, sire = self._pair()
        return ProvingOut(self.odds, {"dam": name_of(dam), "sire": name_of(sire)})

    @property
    def kinship(self) -> str:
        """How the two are related, and what inbreeding their offspring would have at least."""
        animals = self.desk.animals
        if animals is None or self.odds is None:
            return ""
        found = relation(animals, self.dam, self.sire)
        return kin_sentence(found, percent(found.kinship)) if found.kinship else f"{found.words}; {found.lower_bound}"

    @property
    def looks(self) -> PairingLooks | None:
        """What the hatchlings look like, and which genes help or spoil each other in them."""
        return PairingLooks(self.desk, self.odds, self.clutch) if self.odds is not None else None

    @property
    def clutch(self) -> Clutch:
        return Clutch(self.eggs, Fraction(self.hatch_percent, 100))

    @property
    def blockers(self) -> tuple[str, ...]:
        """Why there is nothing to show, in plain words."""
        if self.desk.animals is None:
            return ("No collection is open. Open a file in the Collection tab.",)
        if self.dam and self.dam == self.sire:
            return (f"{self.dam} cannot be both the dam and the sire. Choose another for one of them.",)
        missing = [SEX_OF[role] for role in ROLES if not getattr(self, role)]
        return tuple(f"There is no {sex} to choose. Add one in the Collection tab." for sex in missing)

    @property
    def aim(self) -> str:
        """The look that chances are given for: the target, or what comes nearest to it; "" if nothing does."""
        return self.nearest.look if self.nearest and self.nearest.missing else self.desk.target

    @property
    def headline(self) -> str:
        """The answer in a sentence or two."""
        if self.odds is None or self.nearest is None:
            return " ".join(self.blockers)
        if not self.odds.viable:
            return "No egg of this pair is viable."
        lacking = lacking_in_words(self.nearest, self.desk.without)
        if not self.aim:
            return f"{capital(lacking)}. Nothing of the target can show in this pair's hatchlings."
        said = look_in_words(self.odds, self.aim, self.clutch, self.desk.without)
        return f"{capital(lacking)}. Nearest to the target: {said[0].lower()}{said[1:]}" if lacking else said

    @property
    def bars(self) -> tuple[tuple[Bar, ...], int]:
        """The likeliest outcomes, and how many there are in all."""
        if self.odds is None:
            return (), 0
        odds, target, without, catalogue = self.odds, self.desk.target, self.desk.without, self.desk.catalogue
        if self.genotypes:
            rows, total = top_genotypes(odds, MOST_READ, target, without)
            return tuple(
                Bar(
                    f"{row.sex}: {row.genotype}" if row.sex else row.genotype,
                    row.chance,
                    row.closeness,
                    cautions=tuple(map(caution_text, row.cautions)),
                )
                for row in rows
            ), total
        table = odds.top_looks(MOST_READ)
        return tuple(
            Bar(
                look,
                chance,
                look_closeness(odds, look, target, without),
                nickname,
                look_remarks(catalogue, read_wanted(look, catalogue)),
            )
            for look, chance, nickname in zip(table["look"], table["fraction"], table["nickname"], strict=True)
        ), look_count(odds)

    @property
    def facts(self) -> tuple[tuple[str, str], ...]:
        """The numbers beside the chart: (what, text)."""
        if self.odds is None or self.nearest is None or not self.odds.viable:
            return ()
        without = self.desk.without
        wish = f"{self.desk.target}, not {names_in_words(without, 'or')}" if without else self.desk.target
        facts = [("target", wish)]
        if self.nearest.missing:
            facts.append(("its chance here", f"0 %: {lacking_in_words(self.nearest, without)}"))
            facts += [("nearest look", self.aim)] if self.aim else []
        if self.aim:
            chance = self.odds.chance(self.aim, without=without)
            facts += [
                ("one hatchling", f"{one_in(chance)} ({percent(chance)})"),
                (f"{self.clutch}", f"at least one: {percent(self.clutch.chance(self.odds, self.aim, without))}"),
                ("expected in it", mean_text(self.clutch.expected(self.odds, self.aim, without))),
            ]
        facts.append(("related", self.kinship))
        if self.hatch_percent < 100:
            facts.append(("hatch rate", f"{self.hatch_percent} % of viable eggs, counted in"))
        return tuple(facts)

    @property
    def losses(self) -> str:
        """What part of the eggs cannot hatch, and why; "" if all may."""
        return losses_in_words(self.odds) if self.odds else ""

    @property
    def cautions(self) -> tuple[str, ...]:
        """Every caution that a parent or a hatchling meets, with the strength of its evidence."""
        met: dict[str, list[str]] = {}
        for animal in self._pair():
            for caution in ready_of(self.desk, animal).cautions:
                met.setdefault(caution_text(caution), []).append(name_of(animal))
        for item in self.odds.cautions if self.odds else ():
            eggs = "every egg" if item.chance == 1 else f"{one_in(item.chance)} eggs"
            met.setdefault(caution_text(item.caution), []).append(eggs)
        return tuple(f"{text} ({names_in_words(who)})" for text, who in met.items())

    @property
    def not_ready(self) -> tuple[str, ...]:
        """Why one of the two cannot be paired this season; the odds are shown all the same."""
        states = [(name_of(animal), ready_of(self.desk, animal)) for animal in self._pair()]
        return tuple(f"{name}, {state}" for name, state in states if not state.ready)

    def ask(self, text: str) -> Answer:
        """The chance of any other look, whatever the target is."""
        if self.odds is None or not text.strip():
            return Answer()
        try:
            look = write_shown(self.odds.brood.genome, read_wanted(text, self.desk.catalogue))
            exactly = self.odds.chance(look, exactly=True)
        except GenesError as error:
            said = f"Found {error.found}; needed {error.needed}. {capital(error.advice)}."
            return Answer(problems=(Problem(said, offers(text, error.found, error.nearest)),))
        first = look_in_words(self.odds, look, self.clutch)
        if not self.odds.chance(look):
            return Answer((first, f"{capital(lacking_in_words(nearest(self.odds, look)))}."))
        expected = mean_text(self.clutch.expected(self.odds, look))
        alone = f"{one_in(exactly)} ({percent(exactly)})" if exactly else "none"
        return Answer((first, f"Expected in {self.clutch}: {expected}.", f"That and nothing else to see: {alone}."))

    def hatch(self, seed: int) -> None:
        """Hatches the pretend clutch of this seed."""
        self.seed = seed
        if self.odds is not None:
            rate, target = self.clutch.hatch_rate, self.aim or "Normal"
            self.pretended = pretend_clutch(self.odds, seed=seed, eggs=self.eggs, hatch_rate=rate, target=target)

    @property
    def hatched(self) -> tuple[HatchedEgg, ...]:
        """The eggs of the pretend clutch, in words."""
        return tuple(self._egg(number, egg) for number, egg in enumerate(self.pretended, start=1))

    @property
    def clutch_summary(self) -> str:
        """How many of the pretend clutch show what the headline is about; "" before one is hatched."""
        if not self.pretended:
            return ""
        hatched, hits = (sum(getattr(egg, what) for egg in self.hatched) for what in ("hatched", "hit"))
        hit, born = ("none" if number == 0 else number_word(number) for number in (hits, hatched))
        shows = f"; {hit} {'show' if hits > 1 else 'shows'} {self.aim}" if self.aim else ""
        return f"{capital(str(self.clutch))}: {born} hatched{shows}."

    @property
    def clutch_legend(self) -> str:
        """What the drawing of the eggs means."""
        hit = f"filled: shows {self.aim} · outlined: another look" if self.aim else "outlined: hatched"
        return f"{hit} · dashed: did not hatch"

    def _egg(self, number: int, egg: Egg) -> HatchedEgg:
        if not egg.hatched or self.odds is None:
            return HatchedEgg(f"egg {number}: {'did not hatch' if egg.viable else 'not viable'}", False, False)
        right = look_closeness(self.odds, egg.look, self.aim or "Normal", self.desk.without) == 1
        return HatchedEgg(f"egg {number}: {egg.look}, {egg.sex}", bool(self.aim) and egg.shows_target and right, True)

    def _pair(self) -> tuple[Animal, ...]:
        animals = self.desk.animals
        return (animals[self.dam], animals[self.sire]) if animals is not None and self.odds is not None else ()


def _figures(desk: Desk) -> tuple[int, int]:
    """Eggs in a clutch, the likeliest number, and how many of 100 viable ones hatch, by the keeper's figures."""
    law = desk.care.law
    return max(law, key=lambda number: (law[number], -number)), round(desk.care.hatch_rate * 100)
