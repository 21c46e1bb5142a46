"""Room and money of a path: a path worked out on paper, and paths played with dice."""

import math
import random
from fractions import Fraction

import pytest

from explorer.collection.purse import Purse
from explorer.planner import costs, find_paths, free_places
from tests.agreement.simulated_paths import hatchling, shows, wanted_of
from tests.planner.worked import TODAY, care, collection

STATED = Purse(upkeep=Fraction(100), places=2, hatchling=Fraction(80), currency="kr")


def backcross(folder, seasons):
    """Clown male x Pastel female, c = 2: a Pastel daughter (1/4 an egg), then Pastel Clown (1/4 an egg)."""
    animals = collection(folder, ("M", "male", "Clown"), ("F", "female", "Pastel"))
    found = find_paths(animals, "Pastel Clown", seasons, husbandry=care(2), today=TODAY)
    path = next(one for one in found if [len(step.keeps) for step in one.steps] == [1, 0])
    assert path.steps[0].keeps[0].per_egg == 0.25
    return animals, path


def test_two_seasons__worked_on_paper(tmp_path):
    """Either clutch gives what it is to give with p = 1 - (3/4)^2 = 7/16.

    Season 1: two animals, one clutch. Season 2: a third with p; one clutch in either case, so 4 eggs in all. By its
    end: the target p^2 = 49/256; a daughter and no target p (1 - p) + (1 - p) p = 126/256. Sold: 4 - 126/256 - 2 x
    49/256 = 25/8. With the best luck each clutch of 2 loses one, to the keeper or as the target.
    """
    animals, path = backcross(tmp_path, 2)
    found = costs(path, animals, STATED, husbandry=care(2))
    one, two = found.seasons
    assert (one.under_way, one.animals, one.most, one.cost, one.short, one.income) == (1, 2, 2, 200, 0, 80)
    assert (two.under_way, two.animals, two.most) == (1, 2 + Fraction(7, 16), 3)
    assert (two.cost, two.short, two.income) == (200 + Fraction(700, 16), 1, 80)
    assert (found.owned, found.crowded) == (2, 2)
    assert (found.cost, found.held_cost, found.most_cost) == (Fraction(44375, 100), Fraction(4375, 100), 500)
    assert (found.hatchlings, found.sold, found.income) == (4, Fraction(25, 8), 250)
    assert not found.sold_at_least


def test_third_season__counts_as_often_as_it_begins_without_the_target(tmp_path):
    """It begins with 207/256, and then has a daughter with 126/207."""
    animals, path = backcross(tmp_path, 3)
    third = costs(path, animals, STATED, husbandry=care(2)).seasons[2]
    assert third.under_way == Fraction(207, 256)
    assert third.animals == 2 + Fraction(126, 207)
    found = costs(path, animals, STATED, husbandry=care(2))
    assert found.cost == 100 * (2 + 2 + Fraction(7, 16) + 2 * Fraction(207, 256) + Fraction(126, 256))
    assert (third.income, found.most_cost) == (0, 800)


def test_certain_target__no_season_after_it(tmp_path):
    animals = collection(tmp_path, ("M", "male", "Super Pastel"), ("F", "female", "Super Leopard"))
    path = find_paths(animals, "Pastel Leopard", 4, husbandry=care(2), today=TODAY)[0]
    found = costs(path, animals, STATED, husbandry=care(2))
    assert [season.season for season in found.seasons] == [1]
    assert (found.cost, found.hatchlings, found.sold) == (200, 2, 1)


def test_hatch_and_lay_rates__count(tmp_path):
    animals, path = backcross(tmp_path, 2)
    half = care(2, hatch_rate=Fraction(1, 2))
    assert costs(path, animals, STATED, husbandry=half).hatchlings == 2
    rare = care(2, lay_rate=0.5)
    again = find_paths(animals, "Pastel Clown", 2, husbandry=rare, today=TODAY)
    laid = next(one for one in again if [len(step.keeps) for step in one.steps] == [1, 0])
    assert costs(laid, animals, STATED, husbandry=rare).hatchlings == 2


def test_nothing_stated__nothing_said_of_money(tmp_path):
    animals, path = backcross(tmp_path, 2)
    found = costs(path, animals, Purse(), husbandry=care(2))
    assert (found.cost, found.held_cost, found.most_cost, found.income, found.crowded) == (None,) * 5
    assert {(season.cost, season.income, season.short) for season in found.seasons} == {(None, None, 0)}


def test_places__those_kept_now_may_be_too_many_already(tmp_path):
    animals, path = backcross(tmp_path, 2)
    one = Purse(places=1)
    assert costs(path, animals, one, husbandry=care(2)).crowded == 1
    assert (free_places(animals, one), free_places(animals, STATED), free_places(animals, Purse())) == (-1, 0, None)
    assert costs(path, animals, Purse(places=3), husbandry=care(2)).crowded is None


def test_owned_already__there_is_nothing_to_reckon(tmp_path):
    animals = collection(tmp_path, ("M", "male", "Clown"), ("F", "female", "Pastel"))
    path = find_paths(animals, "Pastel", 4, husbandry=care(2), today=TODAY)[0]
    found = costs(path, animals, STATED, husbandry=care(2))
    assert (found.seasons, found.cost, found.income, found.owned, found.crowded) == ((), 0, 0, 2, None)
    assert costs(path, animals, Purse(places=1), husbandry=care(2)).crowded == 1


def test_eggs_that_are_not_viable__are_not_sold(tmp_path):
    """Two Spiders, c = 4: a quarter of the eggs is lost; each egg is the target with 1/4 x 2/3 of those left."""
    animals = collection(tmp_path, ("M", "male", "Spider Clown"), ("F", "female", "Spider het Clown"))
    found = find_paths(animals, "Spider Clown", 1, husbandry=care(4), today=TODAY, allow=["all"])
    assert found[0].owners == ("M",)
    path = find_paths(animals, "Clown", 1, husbandry=care(4), today=TODAY, allow=["all"], without=["Spider"])[0]
    one = costs(path, animals, STATED, husbandry=care(4))
    assert one.hatchlings == 3
    assert one.sold == 3 - Fraction(str(path.chance_by_season[0]))


GENES = ["Clown", "Piebald", "Pastel", "Leopard", "Enchi"]
RECESSIVE = {"Clown", "Piebald"}
PLAYS = 4000
SEASONS = 5
WAITS = {"male": 1, "female": 2}
EGGS, LAY_RATE, HATCH_RATE = 5, 0.9, 0.8
INSTANCES = {
    "two recessives": (
        {
            "F1": ("female", "Clown", {"Clown": 2}),
            "F2": ("female", "Piebald", {"Piebald": 2}),
            "M": ("male", "Normal", {}),
        },
        "Clown Piebald",
    ),
    "three single genes": (
        {
            "M": ("male", "Pastel", {"Pastel": 1}),
            "F1": ("female", "Leopard", {"Leopard": 1}),
            "F2": ("female", "Enchi", {"Enchi": 1}),
        },
        "Pastel Leopard Enchi",
    ),
    "possible het": (
        {
            "M": ("male", "Clown", {"Clown": 2}),
            "F1": ("female", "Pastel 66% het Clown", {"Pastel": 1, "Clown": "2/3"}),
            "F2": ("female", "Leopard", {"Leopard": 1}),
        },
        "Pastel Leopard Clown",
    ),
}


def play(rng, path, owned):
    """One play: animals at the start of each season that begins without the target, and numbers hatched and kept."""
    target = wanted_of(path.target, GENES, RECESSIVE)
    here = {name: (owned[name], path.ready[name]) for name in path.ready}
    spare, house, hatched = len(owned) - len(path.ready), [], 0
    for season in range(1, SEASONS + 1):
        house.append(len(here) + spare)
        busy, served, new, done = set(), {}, {}, False
        for step in path.steps:
            missing = [keep for keep in step.keeps if keep.name not in here]
            parents = (step.dam, step.sire)
            if not missing and step is not path.steps[-1]:
                continue
            if any(name not in here or here[name][1] > season for name in parents):
                continue
            if step.dam in busy or served.get(step.sire, 0) >= 2:
                continue
            busy.add(step.dam)
            served[step.sire] = served.get(step.sire, 0) + 1
            if rng.random() >= LAY_RATE:
                continue
            eggs = [hatchling(rng, here[step.dam][0], here[step.sire][0], GENES) for _ in range(EGGS)]
            clutch = [egg for egg in eggs if rng.random() < HATCH_RATE]
            hatched += len(clutch)
            done = done or any(shows(child, target, RECESSIVE) for child, _ in clutch)
            for keep in missing:
                asked = wanted_of(keep.shows, GENES, RECESSIVE)
                fitting = [c for c, sex in clutch if sex == keep.sex and shows(c, asked, RECESSIVE)]
                if fitting:
                    new[keep.name] = (rng.choice(fitting), season + WAITS[keep.sex])
        if done:
            return house, hatched, len(here) - len(path.ready) + 1
        here.update(new)
    return house, hatched, len(here) - len(path.ready)


def near(values, mean):
    """Whether the mean of the values is within 4.5 of its standard errors of this."""
    centre = sum(values) / len(values)
    error = math.sqrt(sum((value - centre) ** 2 for value in values) / len(values) / len(values))
    return abs(centre - float(mean)) < 4.5 * error + 1e-9


@pytest.mark.parametrize("name", INSTANCES)
def test_means__agree_with_plays(tmp_path, name):
    """4,000 plays a path: animals in the house, cost in all, hatchlings and those sold, each to 4.5 standard errors."""
    rows, target = INSTANCES[name]
    animals = collection(tmp_path, *((key, sex, text) for key, (sex, text, _) in rows.items()))
    kept = care(EGGS, male_wait=1, female_wait=2, lay_rate=LAY_RATE, hatch_rate=HATCH_RATE, clutches_per_male=2)
    paths = find_paths(animals, target, SEASONS, husbandry=kept, today=TODAY)
    assert paths
    for number, path in enumerate(paths[:3]):
        found = costs(path, animals, STATED, husbandry=kept)
        rng, plays = random.Random(number), []
        for _ in range(PLAYS):
            hidden = {"2/3": int(rng.random() < 2 / 3)}
            owned = {key: {g: hidden.get(n, n) for g, n in genes.items()} for key, (_, _, genes) in rows.items()}
            plays.append(play(rng, path, owned))
        for season in found.seasons:
            counts = [house[season.season - 1] for house, _, _ in plays if len(house) >= season.season]
            assert near([len(house) >= season.season for house, _, _ in plays], season.under_way)
            assert near(counts, season.animals), (name, number, season.season)
            assert max(counts) <= season.most
        assert near([100 * sum(house) for house, _, _ in plays], found.cost)
        assert near([hatched for _, hatched, _ in plays], found.hatchlings)
        sold = [hatched - back for _, hatched, back in plays]
        if found.sold_at_least:
            assert sum(sold) / PLAYS > float(found.sold) - 0.1
        else:
            assert near(sold, found.sold), (name, number)
