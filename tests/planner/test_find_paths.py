"""Rules of `find_paths` that the worked instances do not cover."""

import random
from datetime import date
from fractions import Fraction

import networkx as nx
import pytest

from explorer.collection import read_collection
from explorer.notation import GenesError, ImpossibleGenes, UnreadableGenes
from explorer.pairing import cross
from explorer.planner import UnreachableTarget, find_paths
from tests.planner.worked import TODAY, care, collection

DEMO = "demo_collection.csv"
TARGET = "Leopard Pinstripe Desert Ghost"


@pytest.fixture(scope="module")
def demo(request):
    return read_collection(request.config.rootpath / DEMO)


@pytest.fixture(scope="module")
def demo_paths(demo):
    return find_paths(demo, TARGET, today=TODAY)


def owned_in(path):
    return set(path.ready)


def test_demo__several_different_paths_best_first(demo_paths):
    assert len(demo_paths) >= 3
    horizon = [path.chance_by_season[-1] for path in demo_paths]
    assert horizon == sorted(horizon, reverse=True)
    assert len({str(path.steps) for path in demo_paths}) == len(demo_paths)


def test_demo__curves_rise_and_stay_chances(demo_paths):
    for path in demo_paths:
        assert path.chance_by_season == sorted(path.chance_by_season)
        assert 0 < path.chance_by_season[-1] < 1
        assert path.chance_by_season[path.soonest - 1] > 0
        assert not any(path.chance_by_season[: path.soonest - 1])


def test_demo__nobody_barred_or_gone_is_paired(demo, demo_paths):
    for path in demo_paths:
        for key in owned_in(path):
            assert demo[key].status == "kept"
            assert key not in {"F14", "F15", "M07"}


def test_rows__order_never_matters(demo, demo_paths, tmp_path, request):
    lines = (request.config.rootpath / DEMO).read_text(encoding="utf-8").splitlines()
    rows = lines[1:]
    random.Random(3).shuffle(rows)
    shuffled = tmp_path / "shuffled.csv"
    shuffled.write_text("\n".join([lines[0], *rows]) + "\n", encoding="utf-8")
    again = find_paths(read_collection(shuffled), TARGET, today=TODAY)
    assert [path.steps for path in again] == [path.steps for path in demo_paths]
    assert [path.chance_by_season for path in again] == [path.chance_by_season for path in demo_paths]


def test_graph__has_seasons_and_leads_to_the_target(demo_paths):
    for path in demo_paths:
        graph = path.graph()
        assert nx.is_directed_acyclic_graph(graph)
        assert all(isinstance(data["season"], int) for _, data in graph.nodes(data=True))
        sources = [node for node, degree in graph.in_degree() if degree == 0]
        assert {graph.nodes[node]["kind"] for node in sources} == {"animal"}
        assert [node for node, degree in graph.out_degree() if degree == 0] == ["target"]
        kinds = [data["kind"] for _, data in graph.nodes(data=True)]
        assert kinds.count("pairing") == len(path.steps)
        assert kinds.count("hatchling") == path.kept
        for one, two in graph.edges:
            assert graph.nodes[one]["season"] <= graph.nodes[two]["season"]


def test_graph__is_a_copy(demo_paths):
    demo_paths[0].graph().clear()
    assert len(demo_paths[0].graph()) > 0


def test_youngsters__wait_for_their_season(demo, demo_paths):
    """M04 hatched in July 2026, so he is of season 2025/26 and with a wait of 2 sires from 2027/28, season 2."""
    with_him = [path for path in demo_paths if "M04" in owned_in(path)]
    assert with_him
    for path in with_him:
        assert all(step.season >= 2 for step in path.steps if step.sire == "M04")


SPIDER = [
    ("F1", "female", "Spider Pastel"),
    ("F2", "female", "Pastel"),
    ("M", "male", "Leopard"),
]


def test_cautions__a_spider_is_left_out_until_allowed(tmp_path):
    animals = collection(tmp_path, *SPIDER)
    for path in find_paths(animals, "Pastel Leopard", husbandry=care(6), today=TODAY):
        assert "F1" not in owned_in(path)
    assert find_paths(animals, "Spider Leopard", husbandry=care(6), today=TODAY) == []
    for allow in (["Spider"], "all"):
        allowed = find_paths(animals, "Spider Leopard", husbandry=care(6), today=TODAY, allow=allow)
        assert "F1" in owned_in(allowed[0])


def test_cautions__a_super_lesser_is_never_made_until_allowed(tmp_path):
    rows = [("F", "female", "Lesser"), ("M", "male", "Lesser Pastel")]
    animals = collection(tmp_path, *rows)
    assert find_paths(animals, "Super Lesser", today=TODAY) == []
    assert find_paths(animals, "Super Lesser", today=TODAY, allow=["Lesser"])[0].soonest == 1


def test_cautions__no_pairing_that_could_make_one(tmp_path):
    """Lesser x Lesser for a harmless target would give super Lessers on the way; Lesser x wild is offered."""
    rows = [("F1", "female", "Lesser"), ("F2", "female", "Normal"), ("M", "male", "Lesser Pastel het Clown")]
    animals = collection(tmp_path, *rows)
    found = find_paths(animals, "Clown", husbandry=care(6), today=TODAY)
    assert found
    assert all(step.dam != "F1" for path in found for step in path.steps)


def test_cautions__a_desert_female_is_no_dam_until_allowed(tmp_path):
    rows = [("F", "female", "Desert"), ("M", "male", "Pastel")]
    animals = collection(tmp_path, *rows)
    assert find_paths(animals, "Pastel Desert", today=TODAY) == []
    assert find_paths(animals, "Pastel Desert", today=TODAY, allow=["Desert"])[0].soonest == 1
    rows = [("M", "male", "Desert"), ("F", "female", "Pastel")]
    assert find_paths(collection(tmp_path, *rows), "Pastel Desert", today=TODAY)[0].soonest == 1


def test_cautions__champagne_with_woma(tmp_path):
    rows = [("F", "female", "Woma"), ("M", "male", "Champagne")]
    animals = collection(tmp_path, *rows)
    assert find_paths(animals, "Champagne Woma", today=TODAY) == []
    assert find_paths(animals, "Champagne Woma", today=TODAY, allow=["Champagne"]) == []
    assert find_paths(animals, "Champagne Woma", today=TODAY, allow=["Champagne", "Woma"])


def test_without__the_gene_never_shows(tmp_path):
    rows = [("F", "female", "Pastel"), ("M", "male", "Leopard Enchi")]
    animals = collection(tmp_path, *rows)
    free = find_paths(animals, "Pastel Leopard", husbandry=care(6), today=TODAY, seasons=1)[0]
    bound = find_paths(animals, "Pastel Leopard", husbandry=care(6), today=TODAY, seasons=1, without=["Enchi"])[0]
    assert free.chance_by_season == pytest.approx([1 - (3 / 4) ** 6], abs=1e-12)
    assert bound.chance_by_season == pytest.approx([1 - (7 / 8) ** 6], abs=1e-12)


def test_testable__a_hidden_gene_can_be_selected(tmp_path):
    """aaBB male x AAbb female, c = 8, everything known: both F1 double hets, 1/16 an egg: P(T = 2) = .4001."""
    rows = [("M", "male", "Clown"), ("F", "female", "Piebald")]
    animals = collection(tmp_path, *rows)
    by_sight = find_paths(animals, "Clown Piebald", husbandry=care(8), today=TODAY, seasons=3)
    tested = find_paths(animals, "Clown Piebald", husbandry=care(8), today=TODAY, seasons=3, testable="all")
    assert round(max(path.chance_by_season[1] for path in by_sight), 4) == 0.4001
    assert tested[0].chance_by_season[2] >= by_sight[0].chance_by_season[2] - 1e-12


def test_male__serves_so_many_females_a_season(tmp_path):
    """Two dams, one male for one clutch a season: only one of the two pairings is made in season 1."""
    rows = [("F1", "female", "Super Leopard"), ("F2", "female", "Super Enchi"), ("M", "male", "Super Pastel")]
    animals = collection(tmp_path, *rows)

    def best(most):
        husbandry = care(20, clutches_per_male=most)
        return find_paths(animals, "Pastel Leopard Enchi", husbandry=husbandry, today=TODAY, seasons=2)[0]

    assert best(2).chance_by_season[1] >= best(1).chance_by_season[1]


def test_lay_rate__slows_every_step(tmp_path):
    rows = [("F", "female", "Pastel"), ("M", "male", "Leopard")]
    found = find_paths(
        collection(tmp_path, *rows), "Pastel Leopard", husbandry=care(6, lay_rate=0.5), today=TODAY, seasons=1
    )
    assert found[0].chance_by_season == pytest.approx([0.5 * (1 - (3 / 4) ** 6)], abs=1e-12)


def test_seasons__start_with_the_first_not_over(demo):
    spring = find_paths(demo, TARGET, today=date(2027, 4, 15), seasons=6)
    assert {path.start for path in spring} == {2027}
    assert {path.start for path in find_paths(demo, TARGET, today=date(2027, 3, 1), seasons=6)} == {2026}


def test_progress__is_told_and_may_stop(demo):
    heard = []
    find_paths(demo, TARGET, today=TODAY, progress=lambda share, text: heard.append((share, text)))
    assert heard
    assert all(0 <= share <= 1 and text for share, text in heard)

    class StopError(Exception):
        pass

    def stop(share, text):
        raise StopError

    with pytest.raises(StopError):
        find_paths(demo, TARGET, today=TODAY, progress=stop)


def test_errors__say_what_is_needed(demo, tmp_path):
    with pytest.raises(ValueError, match="a horizon of at least 1 season is needed, found 0"):
        find_paths(demo, TARGET, seasons=0, today=TODAY)
    with pytest.raises(UnreadableGenes, match="Pastel"):
        find_paths(demo, "Pastell", today=TODAY)
    with pytest.raises(ImpossibleGenes):
        find_paths(demo, "het Clown", today=TODAY)
    with pytest.raises(UnreachableTarget, match=r"no kept animal carries Ultramel.*add an animal that carries it"):
        find_paths(demo, "Pastel Ultramel", today=TODAY)
    with pytest.raises(GenesError):
        find_paths(demo, TARGET, today=TODAY, testable=["Nonsense"])
    gone = tmp_path / "gone.csv"
    gone.write_text(
        "id,sex,genes,status\nF1,female,Pastel,kept\nM1,male,Clown,sold\n", encoding="utf-8"
    )
    with pytest.raises(UnreachableTarget, match=r"M1 \(sold\) may, but only kept animals are paired"):
        find_paths(read_collection(gone), "Clown", today=TODAY)


def test_sex_linked__a_male_maker_gives_sons(tmp_path):
    """Banana on the Y: sons with 0.93, daughters with 0.07; a Banana Pastel from a wild-type Pastel dam, c = 6."""
    rows = [("F", "female", "Super Pastel"), ("M", "male", "male maker Banana")]
    animals = collection(tmp_path, *rows)
    found = find_paths(animals, "Banana Pastel", husbandry=care(6), today=TODAY, seasons=1)
    assert found[0].chance_by_season == pytest.approx([1 - 0.5**6], abs=1e-12)
    kept = find_paths(animals, "Super Banana Pastel", husbandry=care(6), today=TODAY, seasons=4)
    first = [step for path in kept for step in path.steps if (step.dam, step.sire) == ("F", "M")]
    chances = {(keep.sex, keep.shows): keep.per_egg for step in first for keep in step.keeps}
    assert chances["female", "Pastel Banana"] == pytest.approx(0.07 / 2, abs=1e-12)


def test_steps__odds_are_those_of_the_pairing(tmp_path):
    """66% het x visual: a clutch of six has a Pastel Clown with 2/3 (1 - (3/4)^6) if it is laid."""
    rows = [("F", "female", "Super Pastel 66% het Clown"), ("M", "male", "Clown")]
    animals = collection(tmp_path, *rows)
    found = find_paths(animals, "Pastel Clown", husbandry=care(6, lay_rate=0.5), today=TODAY, seasons=1)
    step = found[0].steps[0]
    odds = cross(animals["F"], animals["M"])
    assert step.target_per_egg == pytest.approx(float(odds.chance("Pastel Clown")), abs=1e-12)
    assert step.target_in_clutch == pytest.approx(float(odds.chance_in_clutch("Pastel Clown", eggs=6)), abs=1e-12)
    assert found[0].chance_by_season[0] == pytest.approx(step.target_in_clutch / 2, abs=1e-12)


def test_steps__kin_are_taken_jointly(tmp_path):
    """Half siblings of one 66% het sire: both carriers with 2/3 x 1/4, so 1/24 an egg and not 1/36."""
    path = tmp_path / "kin.csv"
    path.write_text(
        "id,sex,genes,hatched,weight_g,sire,dam,status\n"
        "S,male,66% het Clown,2015-07-01,900,,,sold\nD1,female,Normal,2015-07-01,2000,,,sold\n"
        "D2,female,Normal,2015-07-01,2000,,,sold\nF,female,Normal,2019-07-01,2000,S,D1,\n"
        "M,male,Normal,2019-07-01,900,S,D2,\n",
        encoding="utf-8",
    )
    animals = read_collection(path)
    step = find_paths(animals, "Clown", husbandry=care(6), today=TODAY, seasons=1)[0].steps[0]
    assert cross(animals["F"], animals["M"]).chance("Clown") == Fraction(1, 24)
    assert step.target_per_egg == pytest.approx(1 / 24, abs=1e-12)
    assert step.target_in_clutch == pytest.approx((1 - 0.75**6) / 6, abs=1e-12)


def test_allow__reads_the_same_shorthand_everywhere(tmp_path):
    animals = collection(tmp_path, ("M", "male", "HGW"), ("F", "female", "Pastel"))
    assert find_paths(animals, "Pastel HGW", today=TODAY) == []
    for allow in ("HGW", ["hidden gene  woma"], "All"):
        assert find_paths(animals, "Pastel HGW", today=TODAY, allow=allow)


def test_errors__of_the_question_itself(demo):
    with pytest.raises(ImpossibleGenes, match="Leopard in what must show and in what must not show"):
        find_paths(demo, TARGET, today=TODAY, without=["Leopard"])
    with pytest.raises(ValueError, match="today must be a date"):
        find_paths(demo, TARGET, today="2026-11-25")
    with pytest.raises(ValueError, match=r"at least 1 season is needed, found 8\.0"):
        find_paths(demo, TARGET, today=TODAY, seasons=8.0)
