"""What records must be to one another: known genes and loci, one owner of each name, at most two alleles of a locus."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from .drafts import Draft, shown
from .entries import Gene, LocusEntry, Part
from .lookup import closest, normal
from .tables import Shelf

__all__ = ["check", "parts_of"]


def parts_of(words: Iterable[str]) -> tuple[Part, ...]:
    """The genes of a meaning: "Super Pastel" is two copies of Pastel, "Spider" one of Spider."""
    return tuple(Part(w[6:], 2) if w.startswith("Super ") and w[6:] else Part(w) for w in words)


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
