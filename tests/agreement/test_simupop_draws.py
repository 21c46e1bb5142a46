"""The exact distribution against 24 crosses of 200,000 offspring drawn by a general-purpose sampler.

Source: simuPOP 1.1.18, source build, seed 20261125; `tests/reference/make_simupop_crosses.py` made the counts with
`python make_simupop_crosses.py`.
"""

import json
from fractions import Fraction
from pathlib import Path

import pytest
from scipy.stats import chisquare

from explorer.genetics import Allele, Group, Locus, order, zygotes

CROSSES = json.loads((Path(__file__).parents[1] / "reference" / "simupop_crosses.json").read_text())


def exact_distribution(cross):
    """Genotype text as in the reference file -> exact chance."""
    at, texts = 0, {"": Fraction(1)}
    for loci, rates in zip(cross["chromosomes"], cross["rates"], strict=True):
        sex = loci[0] == "sex"
        named = loci[1:] if sex else loci
        group = Group(
            "+".join(loci),
            tuple(Locus(name, tuple(Allele(f"{name}{k}", True) for k in (1, 2, 3))) for name in named),
            tuple(Fraction(str(rate)) for rate in rates),
            sex=sex,
        )
        span = slice(at, at + len(loci))
        at += len(loci)

        def haplotype(numbers, loci=loci, sex=sex, span=span):
            part = numbers[span]
            names = [f"{name}{k}" if k else "" for name, k in zip(loci, part, strict=True)]
            return (("Y" if part[0] else "X"), *names[1:]) if sex else tuple(names)

        def text(diplotype, sex=sex):
            def number(i, allele):
                return int(allele == "Y") if sex and i == 0 else int(allele[-1:] or 0)

            sorted_pairs = [sorted(number(i, a) for a in pair) for i, pair in enumerate(zip(*diplotype, strict=True))]
            return " ".join("/".join(map(str, pair)) for pair in sorted_pairs)

        dam, sire = (order(*map(haplotype, cross[parent])) for parent in ("dam", "sire"))
        here = {}
        for diplotype, chance in zygotes(group, dam, sire).items():
            here[text(diplotype)] = here.get(text(diplotype), 0) + chance
        texts = {f"{one} {two}".strip(): p * q for one, p in texts.items() for two, q in here.items()}
    return texts


def test_reference__holds_24_crosses():
    assert len(CROSSES) == 24


@pytest.mark.parametrize("cross", CROSSES, ids=[cross["name"] for cross in CROSSES])
def test_draws__fit_exact_distribution(cross):
    expected = exact_distribution(cross)
    assert sum(expected.values()) == 1
    assert set(cross["counts"]) <= set(expected), "a class was drawn that the engine calls impossible"
    seen, wanted, rest_seen, rest_wanted = [], [], 0, 0.0
    for text, chance in expected.items():
        mean = float(chance) * cross["n"]
        if mean < 5:
            rest_seen, rest_wanted = rest_seen + cross["counts"].get(text, 0), rest_wanted + mean
        else:
            seen.append(cross["counts"].get(text, 0))
            wanted.append(mean)
    if rest_wanted:
        seen.append(rest_seen)
        wanted.append(rest_wanted)
    if len(seen) > 1:
        assert chisquare(seen, wanted).pvalue > 1e-4
    else:
        assert seen == [cross["n"]]
