"""What a pairing's hatchlings look like, and which of their genes help or spoil each other. No widgets, no HTML."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...looks import Stack, Verdict, stack_of
from ...notation import genes_named, read_wanted
from ...pairing import Clutch, Offspring, Promise, look_closeness, number_word, percent, promise, score_text
from ..desk import Desk

__all__ = ["PairingLooks", "Seen", "allowed_genes"]

LOOKS_READ = 12
"""How many of the likeliest looks are searched for genes that help or spoil each other."""

MOST_SAID = 3
"""How many pairs that help, and how many that spoil, are spelled out."""


@dataclass(frozen=True)
class Seen:
    """A hatchling worth a sketch: what makes it so, its stack, and its chances in words."""

    title: str
    stack: Stack
    lines: tuple[str, ...]


class PairingLooks:
    """The looks of one pairing's hatchlings, as the desk's taste and opinions have them."""

    def __init__(self, desk: Desk, odds: Offspring, clutch: Clutch) -> None:
        self.desk, self.odds, self.clutch = desk, odds, clutch
        table = odds.top_looks(LOOKS_READ)
        self._looks: list[tuple[str, Fraction]] = list(zip(table["look"], table["fraction"], strict=True))
        self._stacks = {text: self._stack(text) for text, _ in self._looks}

    @property
    def hatchlings(self) -> tuple[Seen, ...]:
        """The likeliest hatchling, the one nearest to the target, and the best for the keeper's taste; each once."""
        if not self._looks:
            return ()
        equal = sum(chance == self._looks[0][1] for _, chance in self._looks)
        first = "likeliest" if equal == 1 else f"one of {number_word(equal)} equally likely"
        titles: dict[str, list[str]] = {self._looks[0][0]: [first]}
        near, closeness = self._nearest()
        if closeness:
            titles.setdefault(near, []).append("the target" if closeness == 1 else "nearest to the target")
        best = self._best()
        if best is not None:
            titles.setdefault(best.look, []).append("best for your taste")
        return tuple(self._seen(text, " and ".join(why)) for text, why in titles.items())

    @property
    def helps(self) -> tuple[str, ...]:
        """Pairs of genes in these hatchlings that help each other, strongest first, with reason and evidence."""
        return _said([verdict for stack in self._stacks.values() for verdict in stack.helps])

    @property
    def spoils(self) -> tuple[str, ...]:
        """Pairs of genes in these hatchlings of which one works against the other, with reason and evidence."""
        return _said([verdict for stack in self._stacks.values() for verdict in stack.clashes])

    def _stack(self, text: str) -> Stack:
        look, desk = read_wanted(text, self.odds.catalogue), self.desk
        return stack_of(look, taste=desk.taste, opinions=desk.opinions, catalogue=self.odds.catalogue)

    def _nearest(self) -> tuple[str, Fraction]:
        near = [(look_closeness(self.odds, text, self.desk.target, self.desk.without), text) for text, _ in self._looks]
        closeness, text = max(near, key=lambda item: item[0])
        return text, closeness

    def _best(self) -> Promise | None:
        desk, clutch = self.desk, self.clutch
        return promise(
            self.odds,
            eggs=clutch.eggs,
            hatch_rate=clutch.hatch_rate,
            taste=desk.taste,
            opinions=desk.opinions,
            allow=allowed_genes(desk),
        )

    def _seen(self, text: str, title: str) -> Seen:
        stack = self._stacks.get(text) or self._stack(text)
        one = self.odds.chance(text, exactly=True)
        clutch = self.odds.chance_in_clutch(
            text, eggs=self.clutch.eggs, hatch_rate=self.clutch.hatch_rate, exactly=True
        )
        chances = f"{percent(one)} an egg; at least one in {self.clutch}: {percent(clutch)}"
        return Seen(f"{title[0].upper()}{title[1:]}: {text}", stack, (chances, score_text(stack.score)))


def allowed_genes(desk: Desk) -> frozenset[str]:
    """The genes whose cautions the keeper allows in plans."""
    return genes_named(desk.allow, desk.catalogue, (gene.name for gene in desk.catalogue.genes))


def _said(verdicts: list[Verdict]) -> tuple[str, ...]:
    strongest: dict[frozenset[str], Verdict] = {}
    for verdict in sorted(verdicts, key=lambda one: -one.strength):
        strongest.setdefault(frozenset(verdict.genes), verdict)
    said = [f"{verdict.reason} [{verdict.evidence}]" for verdict in strongest.values()]
    more = len(said) - MOST_SAID
    return (*said[:MOST_SAID], *([f"and {more} more; see Gene notes"] if more > 0 else []))
