"""Animals of unknown origin: the textbook's p squared, 2pq and q squared, and where they do not hold."""

import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from explorer.catalogue import Catalogue, load_catalogue, load_species
from explorer.genetics import Genotype
from explorer.notation import GenesError, ImpossibleGenes, UnreadableGenes, read_genes
from explorer.pairing.origins import by_frequency

CATALOGUE = load_catalogue()


@pytest.fixture(scope="module")
def second(tmp_path_factory: pytest.TempPathFactory) -> Catalogue:
    """The invented species, of which females are ZW, with a frequency of its own."""
    folder = tmp_path_factory.mktemp("species") / "second"
    shutil.copytree(Path(__file__).parents[1] / "catalogue" / "second_species", folder)
    with (folder / "facts.toml").open("a", encoding="utf-8") as facts:
        facts.write(
            '\n[[figure]]\nname = "candidate_frequency"\nvalue = "1/3"\nunit = "share"\nevidence = "from memory"\n'
        )
    return load_species(folder)


def law(genotype: Genotype, gene: str) -> dict[tuple[str, ...], Fraction]:
    """Sorted mutant alleles at the one locus of the gene's autosomal group -> chance."""
    found: dict[tuple[str, ...], Fraction] = {}
    for (one, two), chance in genotype.parts[genotype.genome.home[gene][0].name].items():
        key = tuple(sorted(allele for allele in (*one, *two) if allele))
        found[key] = found.get(key, Fraction(0)) + chance
    return found


def texts(**shares: str) -> dict[tuple[str, ...], Fraction]:
    return {tuple(key.split("_")) if key != "wild" else (): Fraction(share) for key, share in shares.items()}


def test_one_gene__a_quarter_of_chromosomes_by_hand() -> None:
    """9/16 without, 6/16 with one copy, 1/16 with two."""
    assert law(by_frequency({"Pastel": Fraction(1, 4)}, CATALOGUE), "Pastel") == texts(
        wild="9/16", Pastel="6/16", Pastel_Pastel="1/16"
    )


@pytest.mark.parametrize("gene", ["Pastel", "Pinstripe", "Piebald"])
@pytest.mark.parametrize("q", [Fraction(1, 100), Fraction(1, 10), Fraction(1, 4), Fraction(1, 2), Fraction(9, 10)])
def test_one_gene__textbook_proportions_whatever_the_inheritance(gene: str, q: Fraction) -> None:
    """(p + q)^2 = p^2 + 2pq + q^2, and a generation of random mating on, the same."""
    p = 1 - q
    here = law(by_frequency({gene: q}, CATALOGUE), gene)
    assert here == {(): p * p, (gene,): 2 * p * q, (gene, gene): q * q}
    handed_on = here[gene, gene] + here[gene,] / 2
    assert handed_on == q


def test_complex__two_genes_share_one_place() -> None:
    """With p = 1/2, q = 1/3, r = 1/6: the squares, and twice each product."""
    genotype = by_frequency({"Mojave": Fraction(1, 3), "Lesser": Fraction(1, 6)}, CATALOGUE)
    assert law(genotype, "Mojave") == texts(
        wild="1/4",
        Mojave="1/3",
        Lesser="1/6",
        Lesser_Mojave="1/9",
        Mojave_Mojave="1/9",
        Lesser_Lesser="1/36",
    )


def test_not_viable__is_left_out_and_the_rest_scaled() -> None:
    """9 : 6 without the sixteenth that does not hatch."""
    assert law(by_frequency({"Spider": Fraction(1, 4)}, CATALOGUE), "Spider") == texts(
        wild="9/15", Spider="6/15"
    )


def test_not_viable__pair_of_one_complex(second: Catalogue) -> None:
    """A third each: of nine, one wild, two and two with one copy, one and one with two; the pair's two do not hatch."""
    third = Fraction(1, 3)
    assert law(by_frequency({"Cream": third, "Rag": third}, second), "Cream") == texts(
        wild="1/7", Cream="2/7", Rag="2/7", Cream_Cream="1/7", Rag_Rag="1/7"
    )


def test_linked_genes__chromosomes_are_drawn_whole(second: Catalogue) -> None:
    """Ink on a half, Wash on a quarter of chromosomes, independently: linkage does not matter at random mating."""
    genotype = by_frequency({"Wash": Fraction(1, 4), "Ink": Fraction(1, 2)}, second)
    part = genotype.parts["ink + wash"]
    assert sum(part.values()) == 1
    viable = 1 - Fraction(1, 4)
    assert part[("", "Wash"), ("Ink", "")] == 2 * Fraction(1, 8) * Fraction(3, 8) / viable
    assert part[("", ""), ("Ink", "Wash")] == 2 * Fraction(3, 8) * Fraction(1, 8) / viable
    assert not any(one[0] == two[0] == "Ink" for one, two in part)


def test_sex_pair__on_x_and_y_alike() -> None:
    """Either sex half; in each p squared, 2pq, q squared."""
    genotype = by_frequency({"Banana": Fraction(1, 4)}, CATALOGUE)
    assert genotype.sex is None
    assert genotype.of_sex("female").parts["sex"] == {
        (("X", ""), ("X", "")): Fraction(9, 16),
        (("X", ""), ("X", "Banana")): Fraction(6, 16),
        (("X", "Banana"), ("X", "Banana")): Fraction(1, 16),
    }
    assert genotype.of_sex("male").parts["sex"] == {
        (("X", ""), ("Y", "")): Fraction(9, 16),
        (("X", "Banana"), ("Y", "")): Fraction(3, 16),
        (("X", ""), ("Y", "Banana")): Fraction(3, 16),
        (("X", "Banana"), ("Y", "Banana")): Fraction(1, 16),
    }


def test_sex_pair__on_one_sex_chromosome_alone(second: Catalogue) -> None:
    """Females have one Z: q of them carry it; males have two: 1 - p squared."""
    genotype = by_frequency({"Dusk": Fraction(1, 4)}, second)
    assert sorted(genotype.of_sex("female").parts["sex"].values()) == [Fraction(1, 4), Fraction(3, 4)]
    assert sorted(genotype.of_sex("male").parts["sex"].values()) == [Fraction(1, 16), Fraction(6, 16), Fraction(9, 16)]
    female = sum(chance for d, chance in genotype.parts["sex"].items() if genotype.genome.sex_of(d) == "female")
    assert female == Fraction(1, 2)


def test_genes_alone__have_the_catalogues_frequency(second: Catalogue) -> None:
    stated = CATALOGUE.figure("candidate_frequency").value
    assert by_frequency(["Pastel", "Clown"], CATALOGUE) == by_frequency({"Pastel": stated, "Clown": stated}, CATALOGUE)
    assert law(by_frequency(["Cream"], second), "Cream") == texts(wild="4/9", Cream="4/9", Cream_Cream="1/9")


def test_frequency__a_float_is_the_decimal_that_is_written() -> None:
    assert by_frequency({"Pastel": 0.1}, CATALOGUE) == by_frequency({"Pastel": Fraction(1, 10)}, CATALOGUE)


def test_frequency__0_is_nothing_and_1_is_everything() -> None:
    assert by_frequency({"Pastel": 0}, CATALOGUE) == by_frequency([], CATALOGUE) == read_genes("Normal")
    assert by_frequency({"Pastel": 1}, CATALOGUE) == read_genes("Super Pastel")
    assert law(by_frequency({"Mojave": 0.5, "Lesser": 0.5}, CATALOGUE), "Mojave") == texts(
        Mojave_Mojave="1/4", Lesser_Mojave="1/2", Lesser_Lesser="1/4"
    )


def test_candidates__order_and_spelling_do_not_matter() -> None:
    one = by_frequency(["Pastel", "Clown", "Mojave", "Lesser"], CATALOGUE)
    assert one == by_frequency(("lesser", "Mojave", "clown", "pastel"), CATALOGUE)
    assert one == by_frequency(["Lesser Pastel", "Clown", "Mojave"], CATALOGUE)


def test_candidates__groups_are_those_that_are_named() -> None:
    assert set(by_frequency(["Pastel", "Mojave"], CATALOGUE).varying) == {"pastel", "blue-eyed leucistic"}


@pytest.mark.parametrize(
    ("frequencies", "said"),
    [
        ({"Pastel": 1.2}, "Pastel 6/5"),
        ({"Pastel": -0.2}, "Pastel -1/5"),
        ({"Mojave": 0.6, "Lesser": 0.6}, "Mojave 3/5, Lesser 3/5"),
        ({"Lesser": -0.5, "Mojave": 1}, "Mojave 1, Lesser -1/2"),
        ({"Pastel": 0.5, "Banana": 2}, "Banana 2"),
    ],
)
def test_frequency__out_of_range(frequencies: dict[str, float], said: str) -> None:
    with pytest.raises(ValueError) as caught:
        by_frequency(frequencies, CATALOGUE)
    assert str(caught.value) == f"frequencies at one place lie from 0 to 1 and sum to at most 1, found {said}"


@pytest.mark.parametrize("value", ["often", float("nan"), None])
def test_frequency__no_number(value: object) -> None:
    with pytest.raises(ValueError, match=r"a number is needed, such as 0\.81 or 3/4, found"):
        by_frequency({"Pastel": value}, CATALOGUE)  # type: ignore[dict-item]


@pytest.mark.parametrize(
    ("candidate", "kind", "words"),
    [
        ("Pastell", UnreadableGenes, '"Pastell" cannot be read'),
        ("het Clown", ImpossibleGenes, "found Clown as carried"),
        ("Mojave Lesser Butter", ImpossibleGenes, "more than two alleles of one complex"),
    ],
)
def test_candidate__that_cannot_be_read(candidate: str, kind: type[GenesError], words: str) -> None:
    with pytest.raises(kind, match=words):
        by_frequency([candidate], CATALOGUE)
