"""An invented keeper's collection and clutch book of any size, the same each time.

Ten genes of the bundled catalogue, six recessive and four that show with one copy; founders mostly carry none of them.
For five seasons a few males are put to many females, those with most genes first; every hatchling is written down, and
some are kept and bred.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from explorer.collection.clutch import Clutch, Hatchlings

RECESSIVE = ("Piebald", "Desert Ghost", "Ultramel", "Lavender Albino", "Ghost", "Caramel Albino")
SHOWING = ("Pastel", "Leopard", "Enchi", "Orange Dream")
GENES = (*SHOWING, *RECESSIVE)
SEASONS = 5

FOUNDERS = {
    True: (
        (0.86, "", (1, 0, 0)),
        (0.03, "{}", (0, 0, 1)),
        (0.05, "het {}", (0, 1, 0)),
        (0.03, "66% het {}", (1 / 3, 2 / 3, 0)),
        (0.03, "50% het {}", (1 / 2, 1 / 2, 0)),
    ),
    False: ((0.85, "", (1, 0, 0)), (0.12, "{}", (0, 1, 0)), (0.03, "Super {}", (0, 0, 1))),
}
"""Whether a gene is recessive -> (share of founders, what is written, chances of 0, 1 and 2 copies)."""


@dataclass
class Snake:
    """prior: gene -> chances of 0, 1 and 2 copies, of a founder; copies: what it truly has."""

    id: str
    sex: str
    words: tuple[str, ...]
    copies: dict[str, int]
    prior: dict[str, tuple[float, ...]] = field(default_factory=dict)
    dam: str = ""
    sire: str = ""
    clutch: str = ""
    season: int = -2


@dataclass
class Keeper:
    snakes: dict[str, Snake] = field(default_factory=dict)
    clutches: list[Clutch] = field(default_factory=list)

    @property
    def text(self) -> str:
        """The collection file."""
        rows = [
            f"{one.id},{one.sex},{' '.join(one.words) or 'Normal'},{one.dam},{one.sire},{one.clutch}"
            for one in self.snakes.values()
        ]
        return "\n".join(["id,sex,genes,dam,sire,clutch", *rows])


def shown(gene, copies):
    """Copies that show; 0 if the gene does not."""
    return copies if gene in SHOWING or copies == 2 else 0


def look_of(copies):
    return tuple((gene, shown(gene, copies[gene])) for gene in GENES if shown(gene, copies[gene]))


def words_of(look):
    return tuple(f"Super {gene}" if gene in SHOWING and copies == 2 else gene for gene, copies in look)


def kept_by(count, seed=1, unsure=0, several=False):
    """A keeper with this many animals and three clutches for each ten.

    unsure: how many clutches of the last season may be of a second male, those kept of them too; several: whether each
    of their hatchlings may be.
    """
    rng, keeper = random.Random(f"{count} {seed}"), Keeper()
    clutches = round(count * 0.3)
    kept = [number % clutches for number in range(round(count * 0.45))]
    for number in range(count - len(kept)):
        add_founder(keeper, rng, f"F{number:03}", "male" if number % 5 == 0 else "female")
    for season in range(SEASONS):
        adults = [one for one in keeper.snakes.values() if season - one.season >= 2]
        males = chosen(rng, [one for one in adults if one.sex == "male"], 2 + clutches // 20)
        females = chosen(rng, [one for one in adults if one.sex == "female"], clutches)
        for number in range(season * clutches // SEASONS, (season + 1) * clutches // SEASONS):
            lay(keeper, rng, number, females.pop(0), rng.choice(males), season, kept.count(number))
    for i in rng.sample(range(clutches - clutches // SEASONS, clutches), k=unsure):
        one = keeper.clutches[i]
        other = rng.choice([male.id for male in males if male.id != one.sires[0]])
        keeper.clutches[i] = Clutch(one.id, one.dam, (*one.sires, other), several, None, None, None, one.hatchlings)
        for snake in keeper.snakes.values():
            if snake.clutch == one.id:
                snake.sire = ""
    return keeper


def chosen(rng, animals, number):
    """The best of the animals: those with most genes written of them, with some luck, and home-bred before bought."""
    return sorted(animals, key=lambda one: len(one.words) + (one.season >= 0) + rng.random(), reverse=True)[:number]


def add_founder(keeper, rng, key, sex):
    words, prior, copies = [], {}, {}
    for gene in GENES:
        options = FOUNDERS[gene in RECESSIVE]
        _, word, law = rng.choices(options, weights=[option[0] for option in options])[0]
        words += [word.format(gene)] if word else []
        prior[gene], copies[gene] = law, rng.choices((0, 1, 2), weights=law)[0]
    words.sort(key=lambda word: "het" in word)
    keeper.snakes[key] = Snake(key, sex, tuple(words), copies, prior)


def lay(keeper, rng, number, dam, sire, season, keep):
    """A clutch of 4 to 8 hatchlings, the first `keep` of which are kept."""
    name, rows = f"C{number:03}", {}
    for i in range(rng.randint(4, 8)):
        copies = {g: (rng.random() < dam.copies[g] / 2) + (rng.random() < sire.copies[g] / 2) for g in GENES}
        look = look_of(copies)
        rows[look] = rows.get(look, 0) + 1
        if i < keep:
            sex = "male" if rng.random() < 0.2 else "female"
            key = f"K{number:03}{i}"
            keeper.snakes[key] = Snake(key, sex, words_of(look), copies, {}, dam.id, sire.id, name, season)
    hatchlings = tuple(
        Hatchlings(" ".join(words_of(look)) or "Normal", count, None, {gene.lower(): ((gene, n),) for gene, n in look})
        for look, count in rows.items()
    )
    keeper.clutches.append(Clutch(name, dam.id, (sire.id,), False, None, None, None, hatchlings))
