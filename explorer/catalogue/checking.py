"""What records must be to one another: known genes and loci, one owner of each name, at most two alleles of a locus."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction

from .drafts import Draft, shown
from .entries import Gene, LocusEntry, Part
from .look_tables import effect_key, parts_of
from .lookup import closest, normal
from .tables import Shelf

__all__ = ["check"]


def check(shelf: Shelf) -> None:
    """Write a finding for everything that does not fit. A shelf without new findings can be assembled."""
    genes = {held.record.name: held.record for held in shelf.genes}
    loci = shelf.places()
    _sources(shelf)
    _names(shelf)
    _once(((held.draft, "name", held.record.name) for held in shelf.loci), "a locus name not used yet")
    _once(((held.draft, "name", held.record.name) for held in shelf.figures), "a figure name not used yet")
    for held in shelf.genes:
        if "locus" in held.draft:
            _known(held.draft, "locus", held.record.locus, loci, "the name of a locus")
    _linkages(shelf, loci)
    _compounds(shelf, genes)
    for caution in shelf.cautions:
        _fits(caution.draft, "parts", caution.record.parts, genes)
    for wording, key in (*((w, "genes") for w in shelf.nicknames), *((w, "meanings") for w in shelf.ambiguous)):
        for meaning in wording.record.meanings:
            _fits(wording.draft, key, parts_of(meaning), genes)
    _effects(shelf, loci, genes)
    _cues(shelf, genes)
    _once(((held.draft, "gene", held.record.gene) for held in shelf.overrides), "one override a gene")
    for override in shelf.overrides:
        _all_genes(override.draft, "gene", [override.record.gene], genes)


def _once(entries: Iterable[tuple[Draft, str, str]], needed: str) -> None:
    seen: dict[str, Draft] = {}
    for draft, key, name in entries:
        if name and normal(name) in seen:
            first = seen[normal(name)]
            draft.report(key, shown(name), f"{needed}: {first.file}, {first.table} has it")
        seen.setdefault(normal(name), draft)


def _sources(shelf: Shelf) -> None:
    _once(((held.draft, "key", held.record.key) for held in shelf.sources), "a source key not used yet")
    keys = {held.record.key: held.record for held in shelf.sources}
    for draft in shelf.drafts:
        for key in draft.cited:
            _known(draft, "evidence", key, keys, "the key of a [[source]]")


def _names(shelf: Shelf) -> None:
    def entries() -> Iterable[tuple[Draft, str, str]]:
        for held in shelf.genes:
            yield held.draft, "name", held.record.name
        for held in shelf.genes:
            for key, words in (("synonyms", held.record.synonyms), ("abbreviations", held.record.abbreviations)):
                yield from ((held.draft, key, word) for word in words)
        for wording in shelf.nicknames:
            yield wording.draft, "name", wording.record.names[0]
        for wording in shelf.ambiguous:
            yield from ((wording.draft, "words", word) for word in wording.record.names)

    _once(entries(), "a name not used yet")


def _known(draft: Draft, key: str, name: str, known: Iterable[str], needed: str) -> bool:
    names = list(known)
    if name in names or not name:
        return bool(name)
    near = ", ".join(closest(name, names))
    draft.report(key, shown(name), f"{needed}{f' (the nearest: {near})' if near else ''}")
    return False


def _all_genes(draft: Draft, key: str, names: Iterable[str], genes: dict[str, Gene]) -> bool:
    unknown = [name for name in names if not _known(draft, key, name, genes, "the full name of a gene")]
    return not unknown


def _fits(draft: Draft, key: str, parts: tuple[Part, ...], genes: dict[str, Gene]) -> None:
    if not _all_genes(draft, key, (part.gene for part in parts), genes):
        return
    copies = Counter[str]()
    for part in parts:
        copies[genes[part.gene].locus] += part.copies
    for locus, count in copies.items():
        if count > 2:
            draft.report(key, f"{count} alleles of locus {locus}", "at most two")


def _compounds(shelf: Shelf, genes: dict[str, Gene]) -> None:
    pairs = []
    for held in shelf.compounds:
        one, two = held.record.genes
        if _all_genes(held.draft, "genes", (one, two), genes):
            pairs.append((held.draft, "genes", " with ".join(sorted((one, two)))))
            if one == two or genes[one].locus != genes[two].locus:
                held.draft.report("genes", f"{one} and {two}", "two different genes of one locus")
    _once(pairs, "one compound a pair")


def _effects(shelf: Shelf, loci: dict[str, LocusEntry], genes: dict[str, Gene]) -> None:
    for held in shelf.effects:
        draft, effect = held.draft, held.record
        if effect.complex:
            _known(draft, "complex", effect.complex, loci, "the name of a locus")
        _fits(draft, "on", effect.on, genes)
        if not _all_genes(draft, "genes", (part.gene for part in effect.parts), genes):
            continue
        _fits(draft, "genes", effect.parts, genes)
        if len({genes[part.gene].locus for part in effect.parts}) > 1:
            draft.report("genes", shown([part.gene for part in effect.parts]), "two different genes of one locus")
        for part in effect.parts:
            if genes[part.gene].recessive and (len(effect.parts), part.copies) == (1, 1):
                draft.report("copies", "1", "2: one copy of a recessive gene shows nothing")
    keys = ((h.draft, "gene", " ".join(map(str, (h.draft.own, *effect_key(h.record))))) for h in shelf.effects)
    _once(keys, "one effect of a form on a base")


def _cues(shelf: Shelf, genes: dict[str, Gene]) -> None:
    _once(((held.draft, "key", held.record.key) for held in shelf.cues), "a cue key not used yet")
    used: dict[str, list[Fraction]] = {}
    for held in shelf.cues:
        for part, _ in held.record.shown_by:
            _fits(held.draft, "shown_by", (part,), genes)
        chances = [*held.record.curve, held.record.otherwise, *(chance for _, chance in held.record.shown_by)]
        if not held.record.quality and not all(0 < chance < 1 for chance in chances):
            held.draft.report("otherwise", "a chance of 0 or 1", "chances between 0 and 1: nothing seen is proof")
        if held.record.quality and len(held.record.curve) == 7:
            before = used.get(held.record.quality, [Fraction(0)] * 7)
            used[held.record.quality] = [a + b for a, b in zip(before, held.record.curve, strict=True)]
            if not all(held.record.curve) or max(used[held.record.quality]) >= 1:
                needed = "chances above 0 that sum to less than 1 with the other cues on this quality"
                held.draft.report("curve", ", ".join(map(str, held.record.curve)), needed)


def _linkages(shelf: Shelf, loci: dict[str, LocusEntry]) -> None:
    _once(((h.draft, "loci", name) for h in shelf.linkages for name in h.record.loci), "each locus in one linkage")
    _once(((h.draft, "sex_pair", "true") for h in shelf.linkages if h.record.sex_pair), "one linkage of the sex pair")
    linked = set()
    for held in shelf.linkages:
        draft, record = held.draft, held.record
        count = len(record.loci) - (not record.sex_pair)
        if len(record.rates) != count:
            draft.report("rates", f"{len(record.rates)} for {len(record.loci)} loci", str(count))
        if record.low is not None and record.high is not None and record.low > record.high:
            draft.report("low", str(record.low), f"at most {record.high}, which is high")
        known = [loci[n] for n in record.loci if _known(draft, "loci", n, loci, "the name of a locus")]
        for locus in known:
            if (locus.placement == "autosome") == record.sex_pair:
                where = "sex pair or X only" if record.sex_pair else "autosome"
                draft.report("loci", f"{locus.name}, placed at: {locus.placement}", f"a locus placed at: {where}")
        alone = [locus.placement == "X only" for locus in known]
        if alone != sorted(alone, reverse=True):
            draft.report("loci", ", ".join(record.loci), "loci placed at X only before all others")
        linked |= {locus.name for locus in known}
    for entry in shelf.loci:
        if entry.record.placement != "autosome" and entry.record.name not in linked:
            needed = "a [[linkage]] with sex_pair = true that names this locus"
            entry.draft.report("placement", shown(entry.record.placement), needed)
