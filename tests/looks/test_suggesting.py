"""Which gene would add most to a look."""

from explorer.catalogue import Effect, Evidence, Part, load_catalogue
from explorer.looks import Suggestion, stack, suggestions

CATALOGUE = load_catalogue()


def found(look: dict[str, int], **options: object) -> dict[str, Suggestion]:
    return {one.gene: one for one in suggestions(look, CATALOGUE, **options)}  # type: ignore[arg-type]


def test_suggestions__gain_is_the_difference_of_the_scores() -> None:
    for one in suggestions({"Clown": 2, "Pastel": 1}, CATALOGUE):
        assert one.gain == one.after.score - stack("Pastel Clown").score


def test_suggestions__fall_and_kept_out_and_unknown_come_last() -> None:
    order = suggestions({"Clown": 2}, CATALOGUE)
    keys = [(not one.established, one.kept_out, -one.gain) for one in order]
    assert keys == sorted(keys)
    assert not order[0].kept_out and order[0].gain > 0
    assert any(one.kept_out for one in order)


def test_suggestions__fire_adds_more_to_a_clown_than_cinnamon() -> None:
    order = found({"Clown": 2})
    assert order["Fire"].gain > 0 > order["Cinnamon"].gain
    assert order["Fire"].helps and "Fire" in order["Fire"].helps[0].genes
    assert not order["Fire"].clashes


def test_suggestions__a_taste_turns_them_round() -> None:
    bright = found({"Clown": 2}, taste={"bright": 1})
    dark = found({"Clown": 2}, taste={"bright": -1})
    assert bright["Pastel"].gain > bright["Cinnamon"].gain
    assert dark["Pastel"].gain < dark["Cinnamon"].gain


def test_suggestions__a_full_place_takes_no_more() -> None:
    assert "Lesser" not in found({"Mojave": 2})
    assert "Mojave" not in found({"Mojave": 2})
    assert not {"Butter", "Phantom"} & set(found({"Mojave": 1, "Lesser": 1}))
    assert found({"Mojave": 1})["Lesser"].after.text == "Mojave Lesser"


def test_suggestions__a_second_copy_only_where_it_is_known_to_live_and_differs() -> None:
    assert found({"Pastel": 1})["Pastel"].form == "second copy of Pastel"
    assert found({"Pastel": 1})["Pastel"].after.text == "Super Pastel"
    assert not {"Pinstripe", "Champagne", "Woma"} & set(found({"Pinstripe": 1, "Champagne": 1, "Woma": 1}))


def test_suggestions__a_recessive_is_added_as_it_shows() -> None:
    assert found({})["Clown"].after.look == {"Clown": 2}


def test_suggestions__carry_their_cautions() -> None:
    spider = found({"Pastel": 1})["Spider"]
    assert spider.kept_out and any("wobble" in caution.text for caution in spider.cautions)
    assert not found({"Pastel": 1}, allow={"Spider"})["Spider"].kept_out
    assert not found({"Spider": 1})["Pastel"].cautions


def test_suggestions__from_a_choice_of_genes_and_with_opinions() -> None:
    assert set(found({"Clown": 2}, genes=["Fire", "Enchi"])) == {"Fire", "Enchi"}
    mine = Effect((Part("Fire"),), {"brightness": -3}, Evidence("trade opinion"), by="Rowan")
    assert found({"Pastel": 1}, opinions=[mine])["Fire"].gain < found({"Pastel": 1})["Fire"].gain


def test_suggestions__what_is_not_established_is_marked() -> None:
    assert not found({"Calico": 1}).get("Calico")
    unknown = [one for one in found({}).values() if not one.established]
    assert all(not layer.values for one in unknown for layer in one.after.layers)
