"""Joint genotypes of a pedigree: by hand, against a slow twin, and on a large looped pedigree."""

import random
from fractions import Fraction

import pytest

from explorer.genetics import Contradiction, Genome, Group, Mating, Member, Pedigree, joint, order, viable
from explorer.genetics.factors import whole
from explorer.genetics.pedigree import possible
from explorer.looks import shown
from tests.oracle.brute_force import every_gamete
from tests.reference.genomes import linked, on_x, recessive, single_copy, unlinked

HALF, ONE = Fraction(1, 2), Fraction(1)
GROUP = unlinked(recessive("a")).by_name["a"]
WILD, HET, VISUAL = order(("",), ("",)), order(("",), ("a",)), order(("a",), ("a",))


def anything(diplotype):
    return True


def founder(law, fits=anything):
    return Member(None, None, law, None, fits)


def child(dam, sire, fits=anything, missing=None):
    return Member(dam, sire, None, missing, fits)


def is_(*diplotypes):
    return lambda diplotype: diplotype in diplotypes


EVEN = {WILD: HALF, HET: HALF}


def test_joint__sire_with_his_own_daughter():
    """A loop: the sire is also the mate of his daughter. A visual grandchild proves him, and her."""
    members = {
        "sire": founder(EVEN),
        "dam": founder({WILD: ONE}),
        "daughter": child("dam", "sire"),
        "grandchild": child("daughter", "sire", is_(VISUAL)),
    }
    assert joint(GROUP, members, ("sire", "daughter")) == {(HET, HET): 1}
    members["grandchild"] = child("daughter", "sire", is_(WILD, HET))
    # Sire het 1/2, daughter het 1/2 of that, then 3/4 normal; all else is normal for certain.
    assert joint(GROUP, members, ("sire", "daughter")) == {
        (WILD, WILD): Fraction(8, 15),
        (HET, WILD): Fraction(4, 15),
        (HET, HET): Fraction(3, 15),
    }


def test_joint__full_sibs_mated_share_their_parents():
    members = {
        "dam": founder({HET: ONE}),
        "sire": founder({WILD: ONE}),
        "sister": child("dam", "sire"),
        "brother": child("dam", "sire"),
        "child": child("sister", "brother"),
    }
    assert joint(GROUP, members, ("child",))[(VISUAL,)] == Fraction(1, 16)
    assert joint(GROUP, members, ("sister", "brother"))[HET, HET] == Fraction(1, 4)


def test_joint__one_parent_not_recorded():
    """The other gamete comes from the given law."""
    missing = {("",): Fraction(3, 4), ("a",): Fraction(1, 4)}
    members = {"dam": founder({HET: ONE}), "child": child("dam", None, missing=missing)}
    assert joint(GROUP, members, ("child",)) == {
        (WILD,): Fraction(3, 8),
        (HET,): HALF,
        (VISUAL,): Fraction(1, 8),
    }
    assert joint(GROUP, {"sire": members["dam"], "child": child(None, "sire", missing=missing)}, ("child",)) == joint(
        GROUP, members, ("child",)
    )


def test_joint__is_given_that_all_hatched():
    """Two copies are lethal. That an egg hatched says nothing of its parents; what it has does, of those that hatch."""
    group = unlinked(single_copy("b", lethal=True)).by_name["b"]
    one, none = order(("",), ("b",)), order(("",), ("",))
    members = {"dam": founder({none: HALF, one: HALF}), "sire": founder({one: ONE}), "child": child("dam", "sire")}
    assert joint(group, members, ("dam",)) == {(none,): HALF, (one,): HALF}
    assert joint(group, members, ("child",)) == {
        (none,): HALF * (HALF + Fraction(1, 3)),
        (one,): HALF * (HALF + Fraction(2, 3)),
    }


def test_joint__asked_in_any_order_and_twice():
    members = {"dam": founder(EVEN), "sire": founder({HET: ONE}), "child": child("dam", "sire")}
    straight = joint(GROUP, members, ("dam", "child"))
    assert joint(GROUP, members, ("child", "dam")) == {(b, a): p for (a, b), p in straight.items()}
    assert joint(GROUP, members, ("dam", "dam")) == {(WILD, WILD): HALF, (HET, HET): HALF}
    assert joint(GROUP, members, ()) == {(): 1}


def test_joint__strangers_do_not_matter():
    members = {"dam": founder(EVEN), "stranger": founder(EVEN), "child": child("dam", "stranger")}
    assert joint(GROUP, members, ("dam",)) == {(WILD,): HALF, (HET,): HALF}
    assert joint(GROUP, members, ("dam", "stranger"))[HET, HET] == Fraction(1, 4)


def test_contradiction__names_the_animal_and_its_parents():
    members = {"F1": founder({WILD: ONE}), "M1": founder({HET: ONE}), "X9": child("F1", "M1", is_(VISUAL))}
    with pytest.raises(Contradiction, match=r"^these records cannot all be true: X9, F1, M1$") as caught:
        joint(GROUP, members, ("F1",))
    assert caught.value.members == ("X9", "F1", "M1")


def test_contradiction__names_a_founder_alone():
    with pytest.raises(Contradiction, match=r"^these records cannot all be true: F1$"):
        joint(GROUP, {"F1": founder({WILD: ONE}, is_(VISUAL))}, ("F1",))


def test_contradiction__found_only_by_looking_at_several_animals():
    """One child needs the dam wild, the other needs her het: each is possible alone."""
    visual_or_not = {WILD: HALF, VISUAL: HALF}
    members = {
        "dam": founder(visual_or_not),
        "sire": founder({WILD: ONE}),
        "one": child("dam", "sire", is_(WILD)),
        "two": child("dam", "sire", is_(HET)),
    }
    with pytest.raises(Contradiction, match=r"^these records cannot all be true: dam$"):
        joint(GROUP, members, ("dam",))


def test_possible__lists_what_fits_and_lives():
    states = {"dam": {HET: None}, "sire": {HET: None}}
    assert possible(GROUP, child("dam", "sire", is_(HET, VISUAL)), states) == [HET, VISUAL]
    assert possible(GROUP, founder({WILD: ONE, HET: ONE}), {}) == [WILD, HET]


# --- against a slow twin -------------------------------------------------------------------------------------------

KINDS = {
    "one locus": unlinked(recessive("a")),
    "lethal": unlinked(single_copy("b", lethal=True)),
    "linked": linked(recessive("a"), single_copy("b"), rate=Fraction(1, 5)),
    "X alone": on_x(recessive("w")),
    "sex pair": Genome((Group("sex", (single_copy("b"),), (Fraction(7, 100),), sex=True),)),
}


def random_pedigree(seed):
    """(kind, group, members) with uncertain founders; the records come from one true state, so they can be true."""
    rng = random.Random(seed)
    kind = rng.choice(list(KINDS))
    genome = KINDS[kind]
    group = genome.groups[0] if genome.groups[0].loci else genome.groups[1]
    alleles = [["", *(allele.name for allele in locus.alleles)] for locus in group.loci]

    def strand():
        return tuple(rng.choice(names) for names in alleles)

    def diplotype(sex):
        while True:
            made = genome.pair(group, strand(), strand(), sex) if group.sex else order(strand(), strand())
            if viable(group, made):
                return made

    members, truth, sexes = {}, {}, {}
    for i in range(rng.choice([2, 3])):
        key, sex = f"f{i}", ("female", "male")[i % 2]
        weights = [rng.randint(1, 3) for _ in range(rng.choice([1, 2, 3]))]
        law = {}
        for weight in weights:
            state = diplotype(sex)
            law[state] = law.get(state, 0) + Fraction(weight, sum(weights))
        truth[key], sexes[key] = rng.choice(sorted(law)), sex
        members[key] = founder(law, looks_like(group, truth[key]) if rng.random() < 0.3 else anything)
    chromosome = chromosome_of(group)
    for i in range(rng.choice([2, 3, 4])):
        key, absent = f"c{i}", rng.choice(["", "", "", "", "dam", "sire"])
        parents = {
            role: rng.choice([k for k in members if sexes[k] == sex])
            for role, sex in (("dam", "female"), ("sire", "male"))
            if role != absent
        }
        missing = None
        if absent:
            some = diplotype("female" if absent == "dam" else "male")
            missing = dict.fromkeys(some, HALF) if some[0] != some[1] else {some[0]: ONE}
        laws = [gamete_law(chromosome, truth[parent]) for parent in parents.values()] + [missing or {}]
        made = [order(one, two) for one in laws[0] for two in laws[1]]
        made = [one for one in made if viable(group, one)]
        if not made:
            continue
        truth[key] = rng.choice(sorted(made))
        sexes[key] = genome.sex_of(truth[key]) if group.sex else rng.choice(["female", "male"])
        fits = rng.choice([anything, looks_like(group, truth[key]), is_(truth[key])])
        if group.sex:
            fits = both(fits, lambda d, sex=sexes[key]: genome.sex_of(d) == sex)
        members[key] = child(parents.get("dam"), parents.get("sire"), fits, missing)
    return kind, group, members


def looks_like(group, true):
    return lambda diplotype: shown(group, diplotype) == shown(group, true)


def both(one, two):
    return lambda diplotype: one(diplotype) and two(diplotype)


def chromosome_of(group):
    return {
        "loci": [locus.name for locus in group.loci],
        "rates": list(group.rates),
        "sex": group.sex,
        "hemi": set(group.hemizygous),
    }


def gamete_law(chromosome, diplotype):
    law = {}
    for haplotype, chance in every_gamete(chromosome, *diplotype):
        law[haplotype] = law.get(haplotype, 0) + chance
    return {haplotype: chance for haplotype, chance in law.items() if chance}


def enumerated(group, members, asked):
    """Every state of every animal, multiplied out one animal after another."""
    chromosome, known = chromosome_of(group), {}
    worlds = [({}, ONE)]
    for key, member in members.items():
        longer = []
        for world, weight in worlds:
            if member.dam is None and member.sire is None:
                law = member.prior
            else:
                pair = (world.get(member.dam), world.get(member.sire), key if member.missing else "")
                if pair not in known:
                    one, two = (
                        member.missing if parent is None else gamete_law(chromosome, world[parent])
                        for parent in (member.dam, member.sire)
                    )
                    known[pair] = {}
                    for first, p in one.items():
                        for second, q in two.items():
                            made = tuple(sorted((first, second)))
                            if viable(group, made):
                                known[pair][made] = known[pair].get(made, 0) + p * q
                    known[pair] = {made: p / sum(known[pair].values()) for made, p in known[pair].items()}
                law = known[pair]
            longer += [
                ({**world, key: state}, weight * chance)
                for state, chance in law.items()
                if member.fits(state) and viable(group, state)
            ]
        worlds = longer
    total = sum(weight for _, weight in worlds)
    found = {}
    for world, weight in worlds:
        at = tuple(world[key] for key in asked)
        found[at] = found.get(at, 0) + weight / total
    return found


PEDIGREES = 200


def test_joint__equals_enumeration_on_random_pedigrees():
    seen, uncertain = set(), 0
    for seed in range(PEDIGREES):
        kind, group, members = random_pedigree(seed)
        rng = random.Random(seed)
        asked = rng.sample(sorted(members), k=rng.choice([1, 2, 3, len(members)]) if len(members) > 2 else 1)
        assert joint(group, members, asked) == enumerated(group, members, asked), f"seed {seed}"
        seen.add(kind)
        uncertain += sum(len(member.prior or ()) > 1 for member in members.values()) > 0
        if any(member.missing for member in members.values()):
            seen.add("one parent missing")
        if any(sum(key in (m.dam, m.sire) for m in members.values()) > 1 for key in members):
            seen.add("several offspring")
        if any(key.startswith("c") and any(key in (m.dam, m.sire) for m in members.values()) for key in members):
            seen.add("grandchildren")
    assert uncertain >= 100
    assert seen == {*KINDS, "one parent missing", "several offspring", "grandchildren"}


def test_joint__does_not_depend_on_the_order_of_the_animals():
    for seed in range(40):
        _, group, members = random_pedigree(seed)
        asked = sorted(members)[:3]
        expected = joint(group, members, asked)
        rng = random.Random(seed)
        left, turned = dict(members), {}
        while left:
            ready = [key for key, m in left.items() if not {m.dam, m.sire} & left.keys()]
            key = rng.choice(ready)
            turned[key] = left.pop(key)
        assert joint(group, turned, asked) == expected, f"seed {seed}"


def hundred_animals(name):
    """Ten generations of ten; five dams and five sires a generation mate at random, so there are many loops."""
    rng = random.Random(1)
    normal = is_(WILD, HET)
    members = {name(0, i): founder(EVEN, normal) for i in range(10)}
    for generation in range(1, 10):
        for i in range(10):
            dam, sire = rng.randrange(5), rng.randrange(5, 10)
            members[name(generation, i)] = child(name(generation - 1, dam), name(generation - 1, sire), normal)
    return members


def test_joint__a_hundred_animals_over_ten_generations():
    """Names decide in which order animals are taken out, so two sets of names are two computations of one answer."""
    members = hundred_animals(lambda generation, i: f"{generation} {i}")
    assert len(members) == 100
    answer = joint(GROUP, members, ("9 0",))
    assert sum(answer.values()) == 1
    assert set(answer) == {(WILD,), (HET,)}
    assert Fraction(1, 1000) < answer[(HET,)] < HALF
    renamed = hundred_animals(lambda generation, i: f"{9 - generation} {9 - i}")
    assert joint(GROUP, renamed, ("0 9",)) == answer


# --- unknowns shared with other groups ------------------------------------------------------------------------------


def way_weights(pedigree, name):
    """State of a way -> its share, every state being as likely before."""
    weights = pedigree.network.marginals[name]
    return [Fraction(int(weight), int(weights.sum())) for weight in weights]


def test_ways__a_member_of_either_male():
    """A visual of a het dam: of the visual male with 1/2, of the het one with 1/4."""
    members = {
        "dam": founder({HET: ONE}),
        "one": founder({VISUAL: ONE}),
        "two": founder({HET: ONE}),
        "child": Member("dam", None, None, None, is_(VISUAL), ("one", "two"), "way"),
    }
    made = Pedigree(GROUP, members)
    assert made.ways == ("way",)
    assert made.telling_ways == ()
    assert way_weights(made, "way") == [Fraction(2, 3), Fraction(1, 3)]
    assert made.marginal("child") == {VISUAL: 1}


def test_ways__shared_by_a_member_and_what_was_seen_of_its_siblings():
    """The member says 2 to 1 for the visual male; two normals (1/2 or 3/4 each) 4 to 9: together 8 to 9."""
    normal = {VISUAL: HALF, HET: Fraction(3, 4)}
    members = {
        "dam": founder({HET: ONE}),
        "one": founder({VISUAL: ONE}),
        "two": founder({HET: ONE}),
        "child": Member("dam", None, None, None, is_(VISUAL), ("one", "two"), "way"),
    }
    made = Pedigree(GROUP, members).given(
        [
            Mating("dam", sire, lambda dam, sire: normal[sire], "way", times)
            for sire, times in (("one", (2, 0)), ("two", (0, 2)))
        ],
        (),
    )
    assert way_weights(made, "way") == [Fraction(8, 17), Fraction(9, 17)]


def test_ways__what_is_known_of_them_from_elsewhere_tells_of_the_animals():
    """A normal of a wild dam: het if of the visual male, wild if of the other; 1 to 3 is known."""
    members = {
        "dam": founder({WILD: ONE}),
        "one": founder({VISUAL: ONE}),
        "two": founder({WILD: ONE}),
        "child": Member("dam", None, None, None, is_(WILD, HET), ("one", "two"), "way"),
    }
    made = Pedigree(GROUP, members)
    assert made.telling_ways == ("way",)
    told = made.given((), [whole(("way",), (2,), {(0,): ONE, (1,): Fraction(3)})])
    assert told.marginal("child") == {HET: Fraction(1, 4), WILD: Fraction(3, 4)}
    assert told.before("child", frozenset()) == told.marginal("child")


def test_before__without_offspring_and_matings_but_with_siblings():
    members = {
        "dam": founder(EVEN),
        "sire": founder({HET: ONE}),
        "child": child("dam", "sire", is_(WILD, HET)),
        "sister": child("dam", "sire", is_(VISUAL)),
        "mate": founder({VISUAL: ONE}),
        "young": child("child", "mate", is_(VISUAL)),
    }
    bred = Mating("child", "mate", lambda dam, sire: HALF if dam == HET else ONE)
    made = Pedigree(GROUP, members, [bred])
    assert made.marginal("child") == {HET: 1}
    assert made.before("child", frozenset({"young"})) == {WILD: Fraction(1, 3), HET: Fraction(2, 3)}
