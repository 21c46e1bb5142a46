"""Makes sense of the words of a text, one after another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..catalogue import Catalogue, Gene, Nickname
from ..genetics import Genome, genome_of
from .claims import Claim, Said, Side, State
from .errors import AmbiguousGenes, GenesError, ImpossibleGenes, UnreadableGenes
from .figures import percent
from .words import Word, cut

__all__ = ["understand"]

HALF, ONE = Fraction(1, 2), Fraction(1)


def understand(text: str, catalogue: Catalogue) -> Said:
    """What the text says. Raises GenesError if a word is not known or stands where it means nothing."""
    reader = _Reader(text, cut(text, catalogue), catalogue)
    reader.read()
    return reader.said


@dataclass
class _Span:
    """The genes that a het word covers, up to the next het word or the end."""

    words: str
    chance: Fraction
    times: int
    covered: int = 0
    fresh: bool = True


@dataclass
class _Prefix:
    """What stands before a gene or a het word."""

    words: list[str]
    chance: Fraction | None = None
    possible: bool = False
    times: int = 0


class _Reader:
    def __init__(self, text: str, words: Sequence[Word], catalogue: Catalogue) -> None:
        self.text = text
        self.words = list(words)
        self.catalogue = catalogue
        self.genome: Genome = genome_of(catalogue)
        self.at = 0
        self.said = Said()
        self.span: _Span | None = None
        self.last: list[Gene] = []
        """The genes of the gene or nickname read last."""

    def read(self) -> None:
        while self.at < len(self.words):
            prefix = self._prefix()
            word = self._next(prefix)
            if self.span is not None and self.span.fresh and (prefix.words or word.kind not in ("gene", "nickname")):
                raise self._unreadable(f'"{self.span.words}" before "{word.text}"', "the name of a gene right after it")
            chance = self._chance(prefix, word)
            if word.kind == "het":
                self._close()
                self.span = _Span(_joined(prefix, word), chance or ONE, prefix.times)
            elif word.kind == "super":
                self._super(prefix, word, chance or ONE)
            elif word.kind == "visual":
                self._claim(self._gene_after(word), "shows", chance or ONE)
            elif word.kind in ("maker", "on"):
                self._side(word, chance or ONE)
            elif word.kind == "normal":
                if prefix.words:
                    raise self._unreadable(f'"{" ".join(prefix.words)}" before "{word.text}"', "a gene after it")
                self.said.plain = True
            else:
                self._name(prefix, word, chance)
        self._close()

    def _prefix(self) -> _Prefix:
        prefix = _Prefix([])
        while self.at < len(self.words) and self.words[self.at].kind in ("figure", "possible", "times"):
            word = self.words[self.at]
            if (word.kind == "figure" and prefix.chance) or (word.kind == "times" and prefix.times):
                raise self._unreadable(f'"{word.text}" after "{" ".join(prefix.words)}"', "one of the two")
            prefix.chance = word.number if word.kind == "figure" else prefix.chance
            prefix.times = int(word.number) if word.kind == "times" else prefix.times
            prefix.possible = prefix.possible or word.kind == "possible"
            if word.text not in prefix.words:
                prefix.words.append(word.text)
            self.at += 1
        return prefix

    def _next(self, prefix: _Prefix) -> Word:
        if self.at == len(self.words):
            raise self._unreadable(f'nothing after "{" ".join(prefix.words)}"', "het or the name of a gene after it")
        word = self.words[self.at]
        self.at += 1
        if prefix.times and word.kind != "het":
            raise self._unreadable(f'"{" ".join(prefix.words)}" before "{word.text}"', "het after it")
        return word

    def _chance(self, prefix: _Prefix, word: Word) -> Fraction | None:
        if prefix.possible and prefix.chance is None:
            self.said.notices.append(f'"{_joined(prefix, word)}" gives no percentage, and is read as 50%')
            return HALF
        return prefix.chance

    def _gene_after(self, word: Word) -> Gene:
        following = self.words[self.at] if self.at < len(self.words) else None
        if following is None or not isinstance(following.means, Gene):
            found = f'"{following.text}" after "{word.text}"' if following else f'nothing after "{word.text}"'
            raise self._unreadable(found, "the name of one gene after it", _written_out(following))
        self.at += 1
        self.last = [following.means]
        return following.means

    def _super(self, prefix: _Prefix, word: Word, chance: Fraction) -> None:
        gene = self._gene_after(word)
        if gene.recessive:
            self.said.notices.append(f"Super {gene.name} is read as {gene.name}: a recessive gene shows in two copies")
        self._claim(gene, "shows" if gene.recessive else "super", chance)

    def _name(self, prefix: _Prefix, word: Word, chance: Fraction | None) -> None:
        if isinstance(word.means, Nickname):
            if prefix.words:
                found = f'"{" ".join(prefix.words)}" before the nickname "{word.text}"'
                raise self._unreadable(found, "the name of one gene after it", _written_out(word))
            self._nickname(word, word.means)
            return
        assert isinstance(word.means, Gene)
        gene = word.means
        self.last = [gene]
        if chance is None and self.span is not None and (gene.recessive or self.span.fresh):
            self._covered(gene, self.span)
        elif chance is not None and gene.recessive:
            words = " ".join(prefix.words)
            raise AmbiguousGenes(
                self.text,
                f'"{words} {word.text}"',
                "one meaning: that it may carry one copy (het), or that it may show the gene (visual)",
                "write the one that is meant",
                (f"{percent(chance)} het {gene.name}", f"{percent(chance)} visual {gene.name}"),
            )
        else:
            self._claim(gene, "shows", ONE if chance is None else chance)

    def _nickname(self, word: Word, nickname: Nickname) -> None:
        inner = understand(nickname.genes, self.catalogue)
        genes = [claim.gene for claim in inner.claims]
        self.last = genes
        self.said.notices.append(f'"{word.text}" is read as {nickname.genes}')
        if self.span is not None and all(gene.recessive for gene in genes):
            for gene in genes:
                self._covered(gene, self.span)
        elif self.span is not None and (self.span.fresh or any(gene.recessive for gene in genes)):
            found = f'the nickname "{word.text}" after "{self.span.words}"'
            raise self._unreadable(found, "the name of one gene", _written_out(word))
        else:
            self.said.claims.extend(inner.claims)

    def _covered(self, gene: Gene, span: _Span) -> None:
        if gene.recessive:
            self._claim(gene, "het", span.chance)
        else:
            sure = "" if span.chance == ONE else f" with a chance of {percent(span.chance)}"
            self.said.notices.append(
                f'"{span.words} {gene.name}" is read as one copy of {gene.name}{sure}: it is not recessive, so it shows'
            )
            self._claim(gene, "shows", span.chance)
        span.covered += 1
        span.fresh = False

    def _close(self) -> None:
        span = self.span
        if span is None:
            return
        if span.fresh:
            raise self._unreadable(f'nothing after "{span.words}"', "the name of a gene after it")
        if span.covered < span.times:
            raise self._unreadable(
                f'"{span.words}" before {span.covered} recessive {"gene" if span.covered == 1 else "genes"}',
                f"{span.times} recessive genes",
                "name every gene, or write one het before each",
            )
        if span.times and span.covered > span.times:
            self.said.notices.append(f'"{span.words}" is read as covering all {span.covered} genes after it')

    def _side(self, word: Word, chance: Fraction) -> None:
        following = self.words[self.at] if self.at < len(self.words) else None
        ahead = following.means if word.kind == "maker" and following is not None else None
        if isinstance(ahead, Gene) and (self._on_sex_pair(ahead) or not self.last):
            self.at += 1
            self.last = [ahead]
            self._claim(ahead, "shows", ONE)
        gene = next((gene for gene in self.last if self._on_sex_pair(gene)), None)
        if gene is None:
            if not self.last:
                raise self._unreadable(f'"{word.text}" without a gene', "the name of the gene that it is said of")
            raise ImpossibleGenes(
                self.text,
                f'"{word.text}" said of {self.last[-1].name}',
                "a gene on the sex chromosomes",
                f'leave out "{word.text}"',
            )
        self.said.sides.append(Side(gene, chance if word.number else 1 - chance, word.kind == "maker", word.text))

    def _on_sex_pair(self, gene: Gene) -> bool:
        return self.genome.home[gene.name][0].sex

    def _claim(self, gene: Gene, state: State, chance: Fraction) -> None:
        self.said.claims.append(Claim(gene, state, chance))

    def _unreadable(self, found: str, needed: str, advice: str = "mend or leave out these words") -> GenesError:
        return UnreadableGenes(self.text, found, needed, advice)


def _joined(prefix: _Prefix, word: Word) -> str:
    return " ".join(dict.fromkeys([*prefix.words, word.text]))


def _written_out(word: Word | None) -> str:
    if word is not None and isinstance(word.means, Nickname):
        return f"write the genes of the nickname out: {word.means.genes}"
    return "write the name of the gene, or leave the word out"
