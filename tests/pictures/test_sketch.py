"""The sketch: one standalone SVG, the same for the same input, in which every scale shows."""

import re
from random import Random
from xml.etree import ElementTree

import pytest

from explorer.catalogue import QUALITIES
from explorer.pictures.sketch import draw
from explorer.pictures.sketch_skin import plan

SVG = "{http://www.w3.org/2000/svg}"
ONE_SIDED = ("white", "floating")
STEPS = [x / 2 for x in range(-6, 7)]


def sketch(values=None, seed=0, covered=(), title="Wild type", description="As wild type."):
    return draw(values or {}, title=title, description=description, seed=seed, covered=covered)


def tree(*arguments, **named):
    return ElementTree.fromstring(sketch(*arguments, **named))


def part(root, name):
    found = root.findall(f".//*[@data-part='{name}']")
    assert len(found) <= 1
    return found[0] if found else None


def marks(name, values=None, seed=0):
    """How many marks of a kind the drawing holds: what its element says, or its children."""
    root = tree(values, seed)
    if name in ("dorsal-pieces", "bars", "closures"):
        return int(part(root, "network").get(f"data-{name}"))
    element = part(root, name)
    return int(element.get("data-count", len(element)))


def blotches_of(seed):
    """How many light blotches there are between the bars of both flanks."""
    return sum(len(bars) - 1 for bars in plan(seed).bars.values())


def paint(text):
    """#rrggbb -> (red, green, blue), 0 to 255."""
    return tuple(int(text[i : i + 2], 16) for i in (1, 3, 5))


def light(text):
    return sum(paint(text))


def field_colour(root):
    return root.find(f".//{SVG}linearGradient").findall(f"{SVG}stop")[2].get("stop-color")


def network_colour(root):
    return part(root, "network").get("fill")


def eye_colour(root):
    return part(root, "head-above").findall(f"{SVG}g")[-1].get("fill")


def without_ids(text):
    return re.sub(r"s[0-9a-f]{12}", "own", text)


def look(*arguments, **named):
    return without_ids(sketch(*arguments, **named))


def all_rough():
    """Drawings of animals at the ends of their scales, which hold the most."""
    chance = Random(7)
    return [{name: chance.choice((-3.0, 3.0)) for name in QUALITIES} for _ in range(40)]


MOST = dict.fromkeys(("pattern", "flank", "dots", "belly", "floating", "blush", "dorsal"), 3.0) | {"clean": -3.0}


def test_sketch__one_picture_with_its_text_alternative():
    root = tree(title="Pastel <b>&", description='A "bright" <i> & yellow one')
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    assert root.get("viewBox") == "0 0 520 200"
    named = {element.get("id"): element.text for element in root.iter() if element.get("id")}
    alternative = [named[name] for name in root.get("aria-labelledby").split()]
    assert alternative == ["Pastel <b>&", 'A "bright" <i> & yellow one']
    assert [child.tag for child in root][:2] == [f"{SVG}title", f"{SVG}desc"]


def test_sketch__text_is_escaped():
    assert "<title" in sketch(title="<b>&")
    assert "&lt;b&gt;&amp;</title>" in sketch(title="<b>&")
    assert "<script>" not in sketch(description="<script>alert(1)</script>")


def test_sketch__says_that_it_is_a_schematic():
    (label,) = tree().iter(f"{SVG}text")
    assert label.text == "schematic: animals vary"


@pytest.mark.parametrize("values", [{}, MOST, *all_rough()[:5]])
def test_sketch__refers_to_nothing_outside(values):
    root = tree(values, covered=("all",))
    own = {element.get("id") for element in root.iter() if element.get("id")}
    for element in root.iter():
        assert element.tag.removeprefix(SVG) not in ("script", "image", "style", "foreignObject", "use", "a")
        for name, text in element.attrib.items():
            assert "href" not in name
            assert not name.startswith("on")
            for target in re.findall(r"url\((.*?)\)", text):
                assert target[0] == "#"
                assert target[1:] in own
    assert sketch(values).count("://") == 1


@pytest.mark.parametrize("values", [{}, MOST, {**MOST, "white": 2.9}, *all_rough()])
def test_sketch__is_small(values):
    assert len(sketch(values).encode()) < 40_000


def test_sketch__same_input_same_text():
    values = {"pattern": -1.0, "yellow": 2.0}
    assert sketch(values, 5) == sketch(dict(reversed(values.items())), 5)


def test_sketch__clutch_mates_vary():
    assert len({look(seed=seed) for seed in range(20)}) == 20


def test_sketch__ids_are_unique_on_a_page():
    drawings = [tree(), tree(seed=1), tree({"red": 1.0}), tree(title="Other"), tree({"white": 3.0}, covered=("all",))]
    ids = [element.get("id") for root in drawings for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert all(re.fullmatch(r"s[0-9a-f]{12}-[a-z]+", name) for name in ids)


@pytest.mark.parametrize("quality", QUALITIES)
def test_sketch__every_scale_shows(quality):
    wild = look()
    assert look({quality: 3.0}) != wild
    assert (look({quality: -3.0}) == wild) == (quality in ONE_SIDED)


@pytest.mark.parametrize("quality", QUALITIES)
def test_sketch__small_changes_change_it_a_little(quality):
    """Nothing jumps: where two drawings hold the same marks, no colour and no place is far from the other's."""
    alike = 0
    for x in STEPS:
        one, two = (re.split(r"(#[0-9a-f]{6}|-?\d*\.?\d+)", look({quality: x + off})) for off in (0.0, 0.04))
        if [text.strip() for text in one[::2]] != [text.strip() for text in two[::2]]:
            continue
        alike += 1
        for a, b in zip(one[1::2], two[1::2], strict=True):
            if a.startswith("#"):
                assert max(abs(p - q) for p, q in zip(paint(a), paint(b), strict=True)) <= 12
            else:
                assert abs(float(a) - float(b)) <= 6
    assert alike >= 3


@pytest.mark.parametrize(
    ("quality", "kind"),
    [("dots", "dots"), ("belly", "flecks"), ("pattern", "dots"), ("pattern", "bars"), ("flank", "bars")],
)
@pytest.mark.parametrize("seed", [0, 1])
def test_sketch__more_of_it_is_more_marks(quality, kind, seed):
    counts = [marks(kind, {quality: x}, seed) for x in STEPS]
    assert counts == sorted(counts)
    assert counts[0] == 0
    assert counts[-1] > counts[0]


@pytest.mark.parametrize("seed", range(6))
def test_sketch__wild_type(seed):
    blotches = blotches_of(seed)
    assert blotches <= marks("dots", seed=seed) <= 2 * blotches
    assert marks("dots", {"dots": -2.0}, seed) == 0
    assert marks("dorsal-pieces", seed=seed) == 1
    assert marks("saddles", seed=seed) >= 6
    assert marks("closures", seed=seed) == marks("grains", seed=seed) == 0
    assert 0 < marks("flecks", seed=seed) < marks("flecks", {"belly": 1.0}, seed)


@pytest.mark.parametrize("seed", range(4))
def test_sketch__dorsal_line_whole_broken_and_gone(seed):
    pieces = {x: marks("dorsal-pieces", {"dorsal": x}, seed) for x in (3.0, 0.0, -1.0, -2.0, -3.0)}
    assert pieces[3.0] == pieces[0.0] == 1
    assert min(pieces[-1.0], pieces[-2.0]) > 4
    assert pieces[-3.0] == 0


def test_sketch__a_whole_line_lets_no_saddle_cut_it():
    assert marks("saddles", {"dorsal": 3.0}) == 0
    assert marks("dorsal-pieces", {"dorsal": 3.0, "banding": 3.0}) == 1


def test_sketch__recessive_base():
    base = {"dorsal": 3.0, "flank": -3.0}
    assert (marks("dorsal-pieces", base), marks("bars", base)) == (1, 0)


def test_sketch__rear_is_as_the_back_unless_it_is_given():
    assert sketch({"dorsal": -2.0}) == sketch({"dorsal": -2.0, "rear": -2.0})
    assert 0 < marks("dorsal-pieces", {"dorsal": -2.0, "rear": -3.0}) < marks("dorsal-pieces", {"dorsal": -2.0})
    assert marks("dorsal-pieces", {"rear": -2.0}) > 1


def test_sketch__bands_cross_the_back():
    assert marks("dorsal-pieces", {"banding": 0.5}) == 1
    assert marks("dorsal-pieces", {"banding": 2.0}) > 4
    assert marks("saddles", {"banding": -3.0}) == 0
    assert 0 < marks("saddles", {"banding": -2.5}) <= marks("saddles")


def test_sketch__floating_blotches_are_closed_below():
    assert marks("closures", {"floating": 2.0}) == blotches_of(0)
    assert marks("closures", {"floating": 2.0, "flank": -3.0}) == 0


def test_sketch__peppered_if_not_clean():
    counts = [marks("grains", {"clean": x}) for x in (3.0, 0.0, -1.0, -2.0, -3.0)]
    assert counts[:2] == [0, 0]
    assert counts[1:] == sorted(set(counts[1:]))


def test_sketch__brightness_and_contrast():
    fields = [light(field_colour(tree({"brightness": x}))) for x in STEPS]
    assert fields == sorted(set(fields))
    gaps = [light(field_colour(root)) - light(network_colour(root)) for x in STEPS if (root := tree({"contrast": x}))]
    assert gaps == sorted(set(gaps))


def test_sketch__without_yellow_it_is_grey():
    root = tree({"yellow": -3.0})
    for colour in (field_colour(root), network_colour(root)):
        assert max(paint(colour)) - min(paint(colour)) < 12


def test_sketch__yellow_red_and_both():
    red, green, blue = paint(field_colour(tree({"yellow": 3.0})))
    assert red > green > 2 * blue
    rust = paint(field_colour(tree({"red": 3.0})))
    assert rust[0] > 1.7 * rust[1]
    gold = paint(field_colour(tree({"yellow": 3.0, "red": 1.0})))
    assert red / green < gold[0] / gold[1] < rust[0] / rust[1]


def test_sketch__without_black_the_network_is_pale_and_the_eye_red():
    wild, albino = tree(), tree({"black": -3.0})
    assert light(network_colour(wild)) < light(field_colour(wild))
    assert light(network_colour(albino)) > light(field_colour(albino))
    red, green, blue = paint(eye_colour(albino))
    assert red > 2 * max(green, blue)
    assert max(paint(eye_colour(wild))) < 90
    red, green, blue = paint(network_colour(tree({"black": -3.0, "lavender": 3.0})))
    assert blue > red > green > 150


def test_sketch__white_leaves_islands_unless_it_covers_all():
    piebald, all_white = tree({"white": 3.0}), tree({"white": 3.0, "black": -3.0}, covered=("all", "pattern"))
    assert part(tree(), "white") is None
    assert len(part(piebald, "white").findall(f"{SVG}path")) > 1
    assert part(piebald, "all-white") is None
    assert float(part(all_white, "all-white").get("fill-opacity")) > 0.9
    assert min(paint(part(piebald, "white").get("fill"))) > 240
    assert max(paint(eye_colour(all_white))) < 120
    assert look({"white": 3.0}, covered=("pattern",)) == look({"white": 3.0})


def test_sketch__white_climbs_from_the_belly():
    upper = [part(tree({"white": x}), "white")[0].get("d") for x in (0.5, 1.0, 1.5, 2.0, 3.0)]
    lowest = [max(reached(path)) for path in upper]
    assert lowest == sorted(set(lowest))
    assert lowest[-2] < 91 < lowest[-1]


def reached(path):
    """The y of every point where a curve of the path ends."""
    start, *curves = re.findall(r"[Mqt][^Mqt]*", path.rstrip("Z"))
    y = float(re.findall(r"-?[\d.]+", start)[1])
    ends = [y]
    for curve in curves:
        y += float(re.findall(r"-?[\d.]+", curve)[-1])
        ends.append(y)
    return ends


def test_sketch__stripes_behind_the_eyes():
    shapes = [len(part(tree({"eye_stripe": x}), "head-above").find(f"{SVG}g")) for x in (-3.0, 0.0, 3.0)]
    assert shapes[1] - shapes[0] == 2
    assert shapes[2] == shapes[1]


def test_sketch__beyond_the_scale_is_its_end():
    assert sketch({"red": 7.0, "dots": -9.0}) == sketch({"red": 3.0, "dots": -3.0})


def test_sketch__names_what_it_does_not_know():
    with pytest.raises(ValueError, match=r"no such quality: glow; there are headstamp, "):
        sketch({"glow": 1.0})
    with pytest.raises(ValueError, match=r"not a finite number: red"):
        sketch({"red": float("nan")})
