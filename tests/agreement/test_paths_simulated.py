"""Exact chances by season against plays with dice: 6,000 plays a path, each season within 4.5 standard errors."""

import math
import random

import pytest

from explorer.planner import find_paths
from tests.agreement.simulated_paths import play
from tests.planner.worked import TODAY, care, collection

PLAYS = 6000
SEASONS = 6
GENES = ["Clown", "Piebald", "Pastel", "Leopard", "Enchi"]
RECESSIVE = {"Clown", "Piebald"}

INSTANCES = {
    "two recessives": ([("M", "male", {"Clown": 2}), ("F", "female", {"Piebald": 2})], "Clown Piebald"),
    "same-sex founders": (
        [("F1", "female", {"Clown": 2}), ("F2", "female", {"Piebald": 2}), ("M", "male", {})],
        "Clown Piebald",
    ),
    "three single genes": (
        [("M", "male", {"Pastel": 1}), ("F1", "female", {"Leopard": 1}), ("F2", "female", {"Enchi": 1})],
        "Pastel Leopard Enchi",
    ),
    "possible het": (
        [
            ("M", "male", {"Clown": 2}),
            ("F1", "female", {"Pastel": 1, "Clown": "2/3"}),
            ("F2", "female", {"Leopard": 1}),
        ],
        "Pastel Leopard Clown",
    ),
    "two possible hets and a two-copy target": (
        [("M", "male", {"Pastel": 1, "Clown": "1/2"}), ("F", "female", {"Pastel": 1, "Clown": "2/3"})],
        "Super Pastel Clown",
    ),
}


def text_of(genes):
    words = []
    for gene, copies in genes.items():
        if isinstance(copies, str):
            words.append(f"{ {'2/3': '66%', '1/2': '50%'}[copies] } het {gene}")
        elif gene in RECESSIVE:
            words.append(gene if copies == 2 else f"het {gene}")
        else:
            words.append(f"Super {gene}" if copies == 2 else gene)
    return " ".join(words) or "Normal"


def drawn(rng, genes):
    chances = {"2/3": 2 / 3, "1/2": 1 / 2}
    return {g: int(rng.random() < chances[n]) if isinstance(n, str) else n for g, n in genes.items()}


@pytest.mark.parametrize("name", INSTANCES)
def test_chance_by_season__agrees_with_plays(tmp_path, name):
    rows, target = INSTANCES[name]
    animals = collection(tmp_path, *((key, sex, text_of(genes)) for key, sex, genes in rows))
    husbandry = care(5, male_wait=1, female_wait=2, lay_rate=0.9, hatch_rate=0.8, clutches_per_male=2)
    found = find_paths(animals, target, seasons=SEASONS, husbandry=husbandry, today=TODAY)
    assert found
    for number, path in enumerate(found[:4]):
        rng = random.Random(number)
        hatched = [0] * SEASONS
        for _ in range(PLAYS):
            owned = {key: drawn(rng, genes) for key, _, genes in rows}
            season = play(
                rng, path, owned, GENES, RECESSIVE, 5, {"male": 1, "female": 2}, 2, 0.9, 0.8, SEASONS
            )
            for k in range(SEASONS):
                hatched[k] += season is not None and season <= k + 1
        for k, chance in enumerate(path.chance_by_season):
            error = math.sqrt(max(chance * (1 - chance), 1e-9) / PLAYS)
            assert abs(hatched[k] / PLAYS - chance) < 4.5 * error + 1e-9, (name, number, k)
