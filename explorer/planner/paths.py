"""Paths toward a target: what `find_paths` returns, and how it comes by it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from itertools import product

from ..collection import Animal, Collection
from ..genetics import Diplotype, exact
from ..husbandry import Husbandry, first_season, readiness
from ..looks import may_carry
from ..notation import texts_of
from .chain import Score, score
from .kin import plan_kinship
from .kinds import Kinds
from .labels import Label, Match
from .outcomes import Class, Outcomes
from .path import Path
from .plan import Plan, plan_of
from .question import Question, UnreachableTarget
from .search import Progress, candidates
from .steps import owned_path, path_of

__all__ = ["find_paths"]

QUOTAS: tuple[tuple[int, Callable[[Match], tuple[float, ...]]], ...] = (
    (8, lambda m: (-m.curve[-1], -sum(m.curve), m.steps)),
    (3, lambda m: (m.soonest, -m.curve[-1], m.steps)),
    (2, lambda m: (m.steps, -m.curve[-1])),
    (16, lambda m: (-m.curve[-1], -sum(m.curve), m.steps)),
    (3, lambda m: (m.soonest, -m.curve[-1], m.steps)),
    (3, lambda m: (m.steps, -m.curve[-1])),
)
"""How many candidates are scored exactly, and by which order they are taken."""

STATES = 50_000
"""Once the scored plans have gone through this many states, no more than the FEWEST are scored."""

FEWEST = 12

RETURNED = 6

MOST_TWINS = 6
"""How many orders of like animals are tried for a plan that may not be taken as it is."""


@dataclass(frozen=True)
class _Pool:
    """The owned animals as the search sees them: one label for each kind, sex and first season."""

    labels: tuple[Label, ...]
    twins: Mapping[int, tuple[str, ...]]
    ready: Mapping[str, int]


def find_paths(
    animals: Collection,
    target: str,
    seasons: int = 8,
    *,
    husbandry: Husbandry | None = None,
    today: date,
    without: Iterable[str] = (),
    testable: Iterable[str] = (),
    allow: Iterable[str] = (),
    most_inbreeding: float | Fraction | None = None,
    progress: Progress | None = None,
) -> list[Path]:
    """Several different paths to an animal that shows the target, best first; empty if none within the horizon.

    seasons: the horizon, from 1. today: decides which season is the first and who is ready. without: genes that must
    not show. testable: genes (or "all") that may be selected without being visible. allow: genes (or "all") whose
    cautions no longer keep animals and pairings out. most_inbreeding: paths are left out in which any step's offspring
    would have a greater inbreeding coefficient, as far as is recorded; None sets no limit. progress: told the share
    done and what is being done; it may raise to stop the search. Raises UnreachableTarget if no kept animal can carry
    a wanted gene, GenesError if a text cannot be read.
    """
    if isinstance(today, datetime):
        today = today.date()
    if not isinstance(today, date):
        raise ValueError(f"today must be a date, such as date(2026, 11, 25); found {today!r}")
    if not isinstance(seasons, int) or seasons < 1:
        raise ValueError(f"a horizon of at least 1 season is needed, found {seasons!r}")
    care = husbandry or Husbandry(catalogue=animals.catalogue)
    tell: Progress = progress or (lambda share, text: None)
    kept = [animal for animal in animals if animal.status == "kept"]
    present = {gene for animal in kept for gene in may_carry(animal.genotype)}
    question = Question(
        animals.catalogue, target, without=without, testable=testable, allow=allow, present=present
    )
    for gene in question.wanted:
        if gene not in present:
            raise UnreachableTarget(_missing(animals, gene), gene)
    start = first_season(today, care)
    if any(_shows(question, animal) for animal in kept):
        return [owned_path(question, seasons, start, tuple(a.id for a in kept if _shows(question, a)))]
    kinds = Kinds(question)
    pool = _pool(question, kinds, kept, care, today, seasons, texts_of(allow))
    waits = {"female": care.female_wait, "male": care.male_wait}
    tell(0.0, "looking for pairings")
    hatch_rate, lay_rate = float(care.hatch_rate), float(care.lay_rate)
    matches = candidates(question, kinds, pool.labels, care.law, hatch_rate, lay_rate, waits, tell)
    limit = None if most_inbreeding is None else exact(most_inbreeding)
    plans = _plans(matches, pool, waits, lambda plan: limit is None or plan_kinship(animals, plan) <= limit)
    scored: list[tuple[Plan, Score]] = []
    for number, plan in enumerate(plans):
        tell(number / len(plans), f"working out path {number + 1} of {len(plans)}")
        outcomes = Outcomes(question, plan, care.law, hatch_rate, lay_rate)
        start_in = _classes(question, animals, plan, outcomes.groups)
        scored.append((plan, score(plan, outcomes, start_in, waits, care.clutches_per_male, seasons)))
        if number >= FEWEST and sum(found.states for _, found in scored) > STATES:
            break
    reached = [(plan, found) for plan, found in scored if found.curve[-1] > 0]
    reached.sort(key=lambda pair: (-round(pair[1].curve[-1], 12), pair[1].expected, pair[1].clutches, _names(pair[0])))
    return [path_of(question, kinds, plan, found, care, start) for plan, found in _different(reached)]


def _missing(animals: Collection, gene: str) -> str:
    gone = [f"{animal.id} ({animal.status})" for animal in animals if gene in may_carry(animal.genotype)]
    text = f"no kept animal carries {gene}, so no path leads to it"
    if gone:
        return f"{text}; {', '.join(gone)} may, but only kept animals are paired"
    return f"{text}; add an animal that carries it, or take it out of the target"


def _shows(question: Question, animal: Animal) -> bool:
    return all(
        hit(diplotype)
        for group, hit in zip(question.groups, question.hits, strict=True)
        for diplotype in animal.genotype.part(group)
    )


def _pool(
    question: Question,
    kinds: Kinds,
    kept: Sequence[Animal],
    care: Husbandry,
    today: date,
    seasons: int,
    allow: tuple[str, ...],
) -> _Pool:
    alike: dict[tuple[str, int, tuple[int, ...]], list[str]] = {}
    ready: dict[str, int] = {}
    for animal in sorted(kept, key=lambda a: a.id):
        state = readiness(animal, care, today, catalogue=question.catalogue, allow=allow)
        if animal.sex is None or state.barred or state.season is None or state.season > seasons:
            continue
        ready[animal.id] = state.season
        kind = tuple(
            kinds.intern(at, animal.genotype.part(group)) for at, group in enumerate(question.groups)
        )
        alike.setdefault((animal.sex, state.season, kind), []).append(animal.id)
    labels, twins = [], {}
    for (sex, season, kind), ids in alike.items():
        curve = tuple(1.0 if k + 1 >= season else 0.0 for k in range(seasons))
        label = Label(sex, kind, curve, owned=ids[0])
        labels.append(label)
        twins[id(label)] = tuple(ids)
    return _Pool(tuple(labels), twins, ready)


def _plans(
    matches: Sequence[Match], pool: _Pool, waits: Mapping[str, int], fits: Callable[[Plan], bool]
) -> list[Plan]:
    """The plans worth scoring, no two the same: the likeliest, and some of the soonest and of the shortest.

    fits: whether a plan may be taken; if not, other animals of the same kinds are tried in it.
    """
    chosen: dict[Plan, None] = {}
    for quota, key in QUOTAS:
        end = len(chosen) + quota
        for match in sorted(matches, key=key):
            if len(chosen) == end:
                break
            for twins in _rotations(pool.twins):
                plan = plan_of(match, twins, pool.ready, waits)
                if plan is not None and fits(plan):
                    chosen.setdefault(plan)
                    break
    return list(chosen)


def _rotations(twins: Mapping[int, tuple[str, ...]]) -> Iterator[Mapping[int, tuple[str, ...]]]:
    """The twins in file order, then with each group moved on by one, by two, ..."""
    for by in range(min(MOST_TWINS, max(map(len, twins.values()), default=1))):
        yield {key: (*ids[by % len(ids) :], *ids[: by % len(ids)]) for key, ids in twins.items()}


def _classes(
    question: Question, animals: Collection, plan: Plan, groups: Sequence[int]
) -> dict[tuple[Class, ...], float]:
    """Joint distribution of the owned places' true, projected diplotypes at these groups."""
    ids = tuple(place.owned for place in plan.places if place.owned is not None)
    tables: list[list[tuple[tuple[Diplotype, ...], float]]] = []
    for group in (question.groups[at] for at in groups):
        joint: dict[tuple[Diplotype, ...], float] = {}
        for values, chance in animals.knowledge.joint_of(group, ids).items():
            key = tuple(question.project(group, diplotype) for diplotype in values)
            joint[key] = joint.get(key, 0.0) + float(chance)
        tables.append(list(joint.items()))
    start: dict[tuple[Class, ...], float] = {}
    for combination in product(*tables):
        weight = 1.0
        for _, share in combination:
            weight *= share
        classes = tuple(zip(*(values for values, _ in combination), strict=True))
        start[classes] = start.get(classes, 0.0) + weight
    return start


def _names(plan: Plan) -> tuple[str, ...]:
    return tuple(place.owned or "" for place in plan.places)


def _different(reached: Sequence[tuple[Plan, Score]]) -> list[tuple[Plan, Score]]:
    """The best few, and the soonest and the shortest if they are not among them; no two of one outline.

    Of plans with the same animals and the same chances only the one with the fewest pairings counts.
    """
    shortest: dict[object, tuple[Plan, Score]] = {}
    for plan, found in reached:
        animals = frozenset(place.owned for place in plan.places if place.owned is not None)
        key = (animals, tuple(round(chance, 9) for chance in found.curve))
        if key not in shortest or len(plan.pairings) < len(shortest[key][0].pairings):
            shortest[key] = (plan, found)
    seen: set[object] = set()
    unlike = []
    for plan, found in shortest.values():
        outline = _outline(plan)
        if outline not in seen:
            seen.add(outline)
            unlike.append((plan, found))
    chosen = unlike[: RETURNED - 2]
    for measure in (lambda pair: next(i for i, c in enumerate(pair[1].curve) if c), lambda pair: len(pair[0].pairings)):
        rest = [pair for pair in unlike if pair not in chosen]
        if rest and min(map(measure, rest)) < min(map(measure, chosen)):
            chosen.append(min(rest, key=measure))
    chosen += [pair for pair in unlike if pair not in chosen][: RETURNED - len(chosen)]
    return [pair for pair in unlike if pair in chosen]


def _outline(plan: Plan) -> object:
    """What makes a plan a different one to its keeper: who is paired with what, and what is kept."""

    def of(number: int) -> object:
        place = plan.places[number]
        return place.owned or (place.sex, place.kinds)

    return frozenset((of(p.dam), of(p.sire)) for p in plan.pairings)
