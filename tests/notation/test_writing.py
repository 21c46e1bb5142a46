"""Writing a genotype, a look and one certain genotype as shorthand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from explorer.catalogue import Catalogue
from explorer.genetics import Genotype, genome_of
from explorer.notation import read_genes, write_diplotypes, write_genes, write_shown

F = Fraction


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("Normal", "Normal"),
        ("dg, LEOPARD + pastel", "Pastel Leopard Desert Ghost"),
        ("Leopard Super Pastel", "Super Pastel Leopard"),
        ("het DG Clown Pastel", "Pastel het Clown het Desert Ghost"),
        ("50% het Piebald het Clown 66% het DG", "het Clown 66% het Desert Ghost 50% het Piebald"),
        ("66% het DG Clown", "66% het Clown 66% het Desert Ghost"),
        ("ph Clown", "50% het Clown"),
        ("67% het Clown", "66% het Clown"),
        ("57% het Clown 17% het DG 33% het Piebald", "57% het Clown 33% het Piebald 17% het Desert Ghost"),
        ("12.5% het Clown", "12.5% het Clown"),
        ("Pinstripe 33% Super Pinstripe", "33% Super Pinstripe"),
        ("33% Super Pinstripe Pastel", "Pastel 33% Super Pinstripe"),
        ("50% Leopard het Clown Pastel", "Pastel 50% Leopard het Clown"),
        ("75% Leopard 25% Super Leopard", "75% Leopard 25% Super Leopard"),
        ("50% Leopard 50% Super Leopard", "50% Leopard 50% Super Leopard"),
        ("25% visual Clown 50% het Clown", "25% visual Clown 50% het Clown"),
        ("Albino Candy", "Candy Albino"),
        ("het Candy het Albino", "Candy Albino"),
        ("Cryptic 50% visual Clown", "Cryptic 50% visual Clown"),
        ("Lesser/Mojave", "Mojave Lesser"),
        ("Killer Clown", "Super Pastel Clown"),
        ("Coral Glow YB", "Banana Yellow Belly"),
        ("Ghost, Desert", "Desert, Ghost"),
        ("Desert Ghost", "Desert Ghost"),
        ("Super Desert, Ghost", "Super Desert, Ghost"),
        ("Desert het Ghost", "Desert het Ghost"),
    ],
)
def test_write_genes(catalogue: Catalogue, text: str, written: str) -> None:
    assert write_genes(read_genes(text, "female", catalogue)) == written


@pytest.mark.parametrize(
    ("text", "sex", "written"),
    [
        ("Banana", "male", "Banana"),
        ("Banana", None, "Banana"),
        ("Banana on X", "female", "Banana"),
        ("Banana on X", "male", "female maker Banana"),
        ("Banana on X", None, "Banana on X"),
        ("Banana on Y", None, "male maker Banana"),
        ("Banana male maker Pastel", "male", "Pastel male maker Banana"),
        ("7% male maker Banana", "male", "93% female maker Banana"),
        ("50% Banana on Y", "male", "50% Banana on Y"),
        ("50% Banana 80% on Y", "male", "50% Banana 80% on Y"),
        ("33% Super Banana male maker", "male", "male maker Banana 33% Super Banana"),
        ("Super Banana", "male", "Super Banana"),
    ],
)
def test_write_genes__sex_chromosome(catalogue: Catalogue, text: str, sex: str | None, written: str) -> None:
    assert write_genes(read_genes(text, sex, catalogue)) == written


@pytest.mark.parametrize(
    ("text", "sex", "written"),
    [
        ("Dusk on Z", "female", "Dusk"),
        ("Dusk", None, "Dusk"),
        ("het Dusk", "male", "het Dusk"),
        ("Letter", None, "Super Cream Ink"),
    ],
)
def test_write_genes__locus_on_one_chromosome_alone(
    lizard: Catalogue, text: str, sex: str | None, written: str
) -> None:
    assert sorted(write_genes(read_genes(text, sex, lizard)).split()) == sorted(written.split())


@pytest.mark.parametrize(
    ("text", "sex", "written"),
    [
        ("Fin Silver", "male", "Fin Silver"),
        ("Fin on X Silver", "male", "female maker Fin male maker Silver"),
        ("Fin on X Silver", None, "Fin on X Silver"),
        ("het Pale Fin on Y", "male", "het Pale Fin on Y"),
        ("66% het Pale Fin on X", "male", "66% het Pale Fin on X"),
        ("Gill Fin on Y", "male", "male maker Fin Gill"),
    ],
)
def test_write_genes__several_genes_of_the_sex_pair(fish: Catalogue, text: str, sex: str | None, written: str) -> None:
    assert write_genes(read_genes(text, sex, fish)) == written


def test_write_genes__rounds_down_where_the_sum_would_exceed_100(catalogue: Catalogue) -> None:
    genome = genome_of(catalogue)
    sex, albino = genome.groups[0], genome.home["Albino"][0]

    def written(*chances: tuple[str, Fraction]) -> str:
        part = {(("",), (name,)): chance for name, chance in chances}
        parts = {sex.name: {genome.wild(sex, "female"): F(1)}, albino.name: part}
        return write_genes(Genotype(genome, parts))

    assert written(("Albino", F(4, 7)), ("Candy", F(3, 7))) == "57% het Albino 42.8% het Candy"
    assert written(("Albino", F(34, 37)), ("Candy", F(3, 37))) == "91.8% het Albino 8.1% het Candy"
    assert written(("Albino", F(3, 7)), ("", F(4, 7))) == "42.9% het Albino"


def test_write_genes__gives_single_chances_where_shorthand_has_no_words(catalogue: Catalogue) -> None:
    genome = genome_of(catalogue)
    sex, group = genome.groups[0], genome.home["Mojave"][0]
    quarter = F(1, 4)
    egg = {(("",), ("",)): quarter, (("",), ("Mojave",)): quarter, (("",), ("Lesser",)): quarter}
    egg[("Lesser",), ("Mojave",)] = quarter
    text = write_genes(Genotype(genome, {sex.name: {genome.wild(sex, "female"): F(1)}, group.name: egg}))
    assert text == "50% Mojave 50% Lesser"


@pytest.mark.parametrize(
    ("shown", "written"),
    [
        ({}, "Normal"),
        ({"Clown": 0}, "Normal"),
        ({"Pastel": 1}, "Pastel"),
        ({"Pastel": 2}, "Super Pastel"),
        ({"Clown": 2}, "Clown"),
        ({"Albino": 1, "Candy": 1}, "Candy Albino"),
        ({"Desert Ghost": 2, "Leopard": 1, "Pastel": 2}, "Super Pastel Leopard Desert Ghost"),
        ({"Ghost": 2, "Desert": 1}, "Desert, Ghost"),
    ],
)
def test_write_shown(catalogue: Catalogue, shown: dict[str, int], written: str) -> None:
    assert write_shown(genome_of(catalogue), shown) == written


@pytest.mark.parametrize(
    ("text", "sex"),
    [
        ("Normal", "female"),
        ("Super Pastel Leopard Clown het Desert Ghost", "female"),
        ("Mojave Lesser Candy Albino", "male"),
        ("Pastel male maker Banana", "male"),
        ("female maker Banana", "male"),
        ("Banana", "female"),
        ("Super Banana", "male"),
    ],
)
def test_write_diplotypes(catalogue: Catalogue, text: str, sex: str) -> None:
    geno = read_genes(text, sex, catalogue)
    certain = {name: next(iter(part)) for name, part in geno.parts.items()}
    assert write_diplotypes(geno.genome, certain) == text


def test_write_diplotypes__a_group_that_is_not_listed_is_wild(catalogue: Catalogue) -> None:
    genome = genome_of(catalogue)
    assert write_diplotypes(genome, {}) == "Normal"
    assert write_diplotypes(genome, {genome.home["Clown"][0].name: (("",), ("Clown",))}) == "het Clown"


def test_write_diplotypes__one_copy_shows_where_there_is_no_second_chromosome(lizard: Catalogue) -> None:
    genome = genome_of(lizard)
    assert write_diplotypes(genome, {"sex": (("W", "-"), ("Z", "Dusk"))}) == "Dusk"
    assert write_diplotypes(genome, {"sex": (("Z", ""), ("Z", "Dusk"))}) == "het Dusk"
