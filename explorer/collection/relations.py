"""What the rows say of one another: ids, parents, their sexes and ages."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from ..catalogue import Sex
from .drafts import Draft
from .findings import Finding, nearest

__all__ = ["Relations", "relate"]

SEX_OF: dict[str, Sex] = {"sire": "male", "dam": "female"}


@dataclass(frozen=True)
class Relations:
    """By id: the parents that are in the file, and the sex, which being a sire or dam may settle."""

    sires: Mapping[str, str]
    dams: Mapping[str, str]
    sexes: Mapping[str, Sex | None]


def relate(drafts: Sequence[Draft]) -> tuple[Relations, list[Finding]]:
    """The relations among all rows that have an id, and what is wrong with them."""
    findings = _repeated(drafts)
    known: dict[str, Draft] = {}
    for draft in drafts:
        if draft.id:
            known.setdefault(draft.id, draft)
    roles: dict[str, set[str]] = {}
    parents: dict[str, dict[str, str]] = {"sire": {}, "dam": {}}
    for draft in drafts:
        for role, said in (("sire", draft.sire), ("dam", draft.dam)):
            if not said:
                continue
            parent = known.get(said)
            if parent is None:
                findings.append(_stranger(draft, role, said, list(known)))
                continue
            roles.setdefault(said, set()).add(role)
            if draft.id and known[draft.id] is draft:
                parents[role][draft.id] = said
            findings += _unfit(draft, role, parent)
    sexes: dict[str, Sex | None] = {}
    for key, draft in known.items():
        role = min(roles.get(key, {""}))
        sexes[key] = draft.sex or SEX_OF.get(role)
        if draft.sex is None and role:
            findings.append(_role_finding(draft, sorted(roles[key])))
    findings += _loops(known, parents)
    return Relations(parents["sire"], parents["dam"], sexes), findings


def _repeated(drafts: Sequence[Draft]) -> list[Finding]:
    rows: dict[str, list[int]] = {}
    for draft in drafts:
        if draft.id:
            rows.setdefault(draft.id, []).append(draft.row)
    return [
        Finding("error", row, "id", f"{key} also stands in row {here[0]}", "an id for each animal", "rename one", key)
        for key, here in rows.items()
        for row in here[1:]
    ]


def _stranger(draft: Draft, role: str, said: str, known: Sequence[str]) -> Finding:
    near = nearest(said, known)
    advice = f"Nearest: {', '.join(near)}" if near else "add a row for it if its genes are known"
    return _finding("notice", draft, role, f"{said} is not in this file, and is taken as unknown", advice)


def _unfit(draft: Draft, role: str, parent: Draft) -> list[Finding]:
    findings = []
    if parent.sex not in (None, SEX_OF[role]):
        found = f"{parent.id} (row {parent.row}) is {parent.sex}"
        findings.append(_finding("error", draft, role, found, f"mend its sex, or name another {role}", SEX_OF[role]))
    if draft.hatched and parent.hatched and parent.hatched >= draft.hatched and parent is not draft:
        found = f"{parent.id} (row {parent.row}) hatched on {parent.hatched}, and its offspring on {draft.hatched}"
        findings.append(_finding("error", draft, role, found, "mend one of the two days, or the parent"))
    return findings


def _role_finding(draft: Draft, roles: Sequence[str]) -> Finding:
    if len(roles) > 1:
        found = f"{draft.id} is a sire in one row and a dam in another"
        return _finding("error", draft, "sex", found, "write its sex here, and mend the rows that name it")
    sex = SEX_OF[roles[0]]
    return _finding("notice", draft, "sex", f"unknown, but another row names it as {roles[0]}: taken as {sex}", "")


def _loops(known: Mapping[str, Draft], parents: Mapping[str, Mapping[str, str]]) -> list[Finding]:
    """One finding for each circle of animals that are their own ancestors."""
    findings = []
    done: set[str] = set()
    for start in sorted(known):
        trail: list[str] = []
        stack = [(start, 0)]
        while stack:
            key, depth = stack.pop()
            del trail[depth:]
            if key in trail:
                circle = trail[trail.index(key) :]
                findings.append(_loop(known, circle))
                continue
            if key in done:
                continue
            done.add(key)
            trail.append(key)
            above = (parents[role].get(key) for role in ("sire", "dam"))
            stack += [(parent, len(trail)) for parent in above if parent]
    return findings


def _loop(known: Mapping[str, Draft], circle: Sequence[str]) -> Finding:
    first = min(circle, key=lambda key: known[key].row)
    at = circle.index(first)
    walk = " <- ".join([*circle[at:], *circle[:at], first])
    found = f"{first} is its own ancestor ({walk})"
    parent = (*circle[at:], *circle[:at], first)[1]
    role = "sire" if known[first].sire == parent else "dam"
    return _finding("error", known[first], role, found, "mend a parent in one of these rows")


def _finding(
    severity: Literal["error", "notice"], draft: Draft, column: str, found: str, advice: str, needed: str = ""
) -> Finding:
    return Finding(severity, draft.row, column, found, needed, advice, draft.id)
