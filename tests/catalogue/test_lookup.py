"""Look-up by name, and which cautions an animal has."""

from __future__ import annotations

import pytest

from explorer.catalogue import AmbiguousWord, Catalogue, Gene, Nickname, UnknownName, load_catalogue, normal
from explorer.catalogue.lookup import closest


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("pastel", "Pastel"),
        ("YELLOWBELLY", "Yellow Belly"),
        ("x treme gene", "X-treme Gene"),
        ("tristripe", "Tri-Stripe"),
        ("G‑Stripe", "Genetic Stripe"),
        ("coral-glow", "Banana"),
        ("cg", "Banana"),
        ("OD", "Orange Dream"),
        ("dg", "Desert Ghost"),
        ("yb", "Yellow Belly"),
        ("HGW", "Hidden Gene Woma"),
        ("XTRM", "X-treme Gene"),
        ("pied", "Piebald"),
        ("Hypo", "Ghost"),
        ("orange ghost", "Ghost"),
        ("Sugar", "Calico"),
        ("Lesser  Platinum", "Lesser"),
        ("gch2 axanthic", "Axanthic line A"),
    ],
)
def test_gene__by_any_spelling(text: str, name: str, catalogue: Catalogue) -> None:
    assert catalogue.gene(text).name == name


def test_gene__every_name_finds_its_gene(catalogue: Catalogue) -> None:
    for gene in catalogue.genes:
        for name in (gene.name, *gene.synonyms, *gene.abbreviations):
            assert catalogue.gene(name) is gene is catalogue.gene(name.upper())


def test_gene__unknown_lists_the_nearest(catalogue: Catalogue) -> None:
    with pytest.raises(UnknownName) as caught:
        catalogue.gene("Blackpastle")
    assert caught.value.name == "Blackpastle"
    assert caught.value.nearest[0] == "Black Pastel"
    assert str(caught.value).startswith("no gene is called 'Blackpastle'; the nearest names are Black Pastel, ")
    assert isinstance(caught.value, KeyError)


@pytest.mark.parametrize("text", ["", "Bumblebee", "Axanthic", "Super Pastel", "Pastel, Spider"])
def test_gene__what_is_not_one_gene_is_unknown(text: str, catalogue: Catalogue) -> None:
    with pytest.raises(UnknownName):
        catalogue.gene(text)


def test_unknown_name__says_when_there_is_nothing() -> None:
    assert str(UnknownName("Blue", (), "locus")) == "no locus is called 'Blue'; the catalogue holds none"


def test_names__hold_each_word_once(catalogue: Catalogue) -> None:
    words = [name for gene in catalogue.genes for name in (gene.name, *gene.synonyms, *gene.abbreviations)]
    words += [nickname.name for nickname in catalogue.nicknames] + [word.name for word in catalogue.ambiguous]
    assert len({normal(word) for word in words}) == len(words) == len(catalogue.names)


@pytest.mark.parametrize(
    ("text", "kind"), [("Enchi", Gene), ("bumble bee", Nickname), ("axanthic", AmbiguousWord), ("bel", AmbiguousWord)]
)
def test_names__kinds(text: str, kind: type, catalogue: Catalogue) -> None:
    assert isinstance(catalogue.names[normal(text)], kind)


@pytest.mark.parametrize(
    ("text", "form"),
    [("Yellow  Belly", "yellowbelly"), ("G-stripe", "gstripe"), ("keeper’s 'own'", "keepersown"), ("66%?", "66%?")],
)
def test_normal__folds_spaces_hyphens_apostrophes_alone(text: str, form: str) -> None:
    assert normal(text) == form == normal(form)


@pytest.mark.parametrize(
    ("text", "first"),
    [("Pastle", "Pastel"), ("Mojavi", "Mojave"), ("coral glo", "Coral Glow"), ("bumblebe", "Bumblebee")],
)
def test_nearest__first(text: str, first: str, catalogue: Catalogue) -> None:
    names = catalogue.nearest(text)
    assert len(names) == 3
    assert names[0] == first


def test_nearest__limit(catalogue: Catalogue) -> None:
    assert len(catalogue.nearest("qqq", limit=5)) == 5
    assert closest("one", [], 3) == ()


def test_locus__by_name(catalogue: Catalogue) -> None:
    assert catalogue.locus("Yellow Belly").symbol == "EDNRB"
    assert [gene.name for gene in catalogue.genes_at("clown")] == ["Clown", "Cryptic"]
    with pytest.raises(UnknownName, match="no locus is called 'clowns'; the nearest names are clown, "):
        catalogue.genes_at("clowns")


def test_compound__in_either_order(catalogue: Catalogue) -> None:
    compound = catalogue.compound("Vanilla", "fire")
    assert compound is not None and compound is catalogue.compound("Fire", "Vanilla")
    assert compound.look == "pale yellow"
    assert catalogue.compound("Pastel", "Fire") is None
    assert catalogue.compound("Fire", "Fire") is None
    with pytest.raises(UnknownName):
        catalogue.compound("Fire", "Smoke")


def test_nickname_of__genes_in_catalogue_order(catalogue: Catalogue) -> None:
    for nickname in catalogue.nicknames:
        assert catalogue.nickname_of(nickname.genes) is nickname
    assert catalogue.nickname_of("Pastel") is None


def test_figure__unknown(catalogue: Catalogue) -> None:
    with pytest.raises(UnknownName, match="no figure is called 'egg'; the nearest names are eggs, "):
        catalogue.figure("egg")


CAUTIONS = {
    "Pastel": ({"Pastel": 2}, ()),
    "Spider": ({"Spider": 1}, ("severe",)),
    "Spider x2": ({"Spider": 2}, ("severe", "not viable")),
    "Spider absent": ({"Spider": 0}, ()),
    "Lesser": ({"Lesser": 1}, ()),
    "Super Lesser": ({"Lesser": 2}, ("reported",)),
    "Lesser Butter": ({"Lesser": 1, "Butter": 1}, ("reported",)),
    "Cinnamon": ({"Cinnamon": 1}, ()),
    "Cinnamon Black Pastel": ({"Cinnamon": 1, "Black Pastel": 1}, ("reported",)),
    "Champagne": ({"Champagne": 1}, ("reported",)),
    "Champagne x2": ({"Champagne": 2}, ("not viable", "reported")),
    "Champagne Woma": ({"Champagne": 1, "Woma": 1}, ("severe", "reported", "reported")),
    "Champagne Spider": ({"Champagne": 1, "Spider": 1}, ("severe", "severe", "reported")),
    "het Caramel Albino": ({"Caramel Albino": 1}, ()),
    "Ghost": ({"Ghost": 2}, ()),
}


@pytest.mark.parametrize(("copies", "severities"), CAUTIONS.values(), ids=CAUTIONS)
def test_cautions_of__copies(copies: dict[str, int], severities: tuple[str, ...], catalogue: Catalogue) -> None:
    assert tuple(caution.severity for caution in catalogue.cautions_of(copies, "male")) == severities


def test_cautions_of__one_sex_alone(catalogue: Catalogue) -> None:
    (caution,) = catalogue.cautions_of({"Desert": 1}, "female")
    assert (caution.severity, caution.sex, caution.keeps_out) == ("infertile", "female", True)
    assert catalogue.cautions_of({"Desert": 1}, "male") == ()
    assert catalogue.cautions_of({"Desert": 1}) == (caution,)
    assert len(catalogue.cautions_of({"Caramel Albino": 2}, "female")) == 2
    assert len(catalogue.cautions_of({"Caramel Albino": 2}, "male")) == 1


def test_cautions_of__weak_reports_keep_nothing_out(catalogue: Catalogue) -> None:
    (caution,) = catalogue.cautions_of({"Mojave": 2})
    assert (caution.strength, caution.keeps_out) == ("weak", False)


def test_catalogue__is_equal_to_itself_alone_and_hashable(catalogue: Catalogue) -> None:
    assert load_catalogue() is catalogue
    assert len({catalogue, load_catalogue()}) == 1
