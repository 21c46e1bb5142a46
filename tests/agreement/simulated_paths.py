"""Plays a path with dice: what a keeper would do season by season, read off the path's public steps.

Shares nothing with the planner but the path itself. Genotypes are gene -> copies, one gene a locus, no linkage.
"""


def visible(animal, gene, recessive):
    """Copies that can be seen."""
    copies = animal.get(gene, 0)
    return (2 if copies == 2 else 0) if gene in recessive else copies


def shows(animal, wanted, recessive):
    return all(visible(animal, gene, recessive) >= copies for gene, copies in wanted.items())


def wanted_of(text, genes, recessive):
    """"Super Pastel Clown" -> {"Pastel": 2, "Clown": 2}."""
    wanted, rest = {}, text
    for gene in genes:
        if f"Super {gene}" in rest:
            wanted[gene], rest = 2, rest.replace(f"Super {gene}", "")
        elif gene in rest:
            wanted[gene], rest = (2 if gene in recessive else 1), rest.replace(gene, "")
    assert not rest.replace(",", "").strip(), rest
    return wanted


def hatchling(rng, dam, sire, genes):
    child = {gene: (rng.random() < dam.get(gene, 0) / 2) + (rng.random() < sire.get(gene, 0) / 2) for gene in genes}
    return child, rng.choice(["female", "male"])


def play(rng, path, owned, genes, recessive, eggs, waits, males_most, lay_rate, hatch_rate, seasons):
    """The season in which the target hatches, or None within the horizon. owned: id -> genotype, drawn afresh."""
    target = wanted_of(path.target, genes, recessive)
    here = {name: (owned[name], path.ready[name]) for name in path.ready}
    for season in range(1, seasons + 1):
        busy, served, new = set(), {}, {}
        for step in path.steps:
            missing = [keep for keep in step.keeps if keep.name not in here]
            last = step is path.steps[-1]
            if not missing and not last:
                continue
            if any(name not in here or here[name][1] > season for name in (step.dam, step.sire)):
                continue
            if step.dam in busy or served.get(step.sire, 0) >= males_most:
                continue
            busy.add(step.dam)
            served[step.sire] = served.get(step.sire, 0) + 1
            if rng.random() >= lay_rate:
                continue
            clutch = [
                hatchling(rng, here[step.dam][0], here[step.sire][0], genes)
                for _ in range(eggs)
                if rng.random() < hatch_rate
            ]
            if any(shows(child, target, recessive) for child, _ in clutch):
                return season
            for keep in missing:
                fitting = [
                    child
                    for child, sex in clutch
                    if sex == keep.sex and shows(child, wanted_of(keep.shows, genes, recessive), recessive)
                ]
                if fitting:
                    new[keep.name] = (rng.choice(fitting), season + waits[keep.sex])
        here.update(new)
    return None
