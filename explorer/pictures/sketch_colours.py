"""The colours of a schematic animal: a table of pigments, and how hues, brightness and contrast mix them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .sketch_lines import between, share

__all__ = ["INK", "PLATE", "Coat", "Colour", "as_hex", "coat", "mixed"]

Colour = tuple[float, float, float]
"""Lightness 0 to 1, green to red, blue to yellow, in OKLab: equal steps look about equal."""

PLATE, INK = "#efe8d9", "#4a4036"
"""The plate that the animal lies on, and its lettering."""

PIGMENTS: Mapping[str, str] = {
    "tan": "#c99f63",
    "cream": "#f4e6c6",
    "ivory": "#fbf3dc",
    "chalk": "#fefcf7",
    "umber": "#3d271a",
    "earth": "#3a2719",
    "soot": "#120f0e",
    "fawn": "#9c6c42",
    "sulphur": "#f7c52e",
    "straw": "#c3b285",
    "orange": "#ec7f1a",
    "rust": "#b8461a",
    "maroon": "#5b2115",
    "silver": "#b7b7b5",
    "plum": "#6d5578",
    "lilac": "#cabddd",
    "iris": "#3f2c1f",
    "pupil": "#0d0b0b",
    "rose": "#cf4a4c",
    "garnet": "#8e1d28",
    "pewter": "#8d9299",
}


@dataclass(frozen=True)
class Coat:
    """The colours of one animal. `field` is the light skin between the marks, `network` the dark marks."""

    field: Colour
    saddle: Colour
    flank: Colour
    halo: Colour
    belly: Colour
    network: Colour
    crown: Colour
    lip: Colour
    bare: Colour
    eye: Colour
    pupil: Colour
    outline: Colour


def _from_hex(text: str) -> Colour:
    """#rrggbb -> OKLab."""
    r, g, b = (_linear(int(text[i : i + 2], 16) / 255) for i in (1, 3, 5))
    l = (0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b) ** (1 / 3)  # noqa: E741
    m = (0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b) ** (1 / 3)
    s = (0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b) ** (1 / 3)
    return (
        0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
        1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
        0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s,
    )


def as_hex(colour: Colour) -> str:
    """OKLab -> #rrggbb; what no screen can show is cut to the nearest that it can."""
    lightness, a, b = colour
    l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3  # noqa: E741
    m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3
    s = (lightness - 0.0894841775 * a - 1.2914855480 * b) ** 3
    channels = (
        4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
        -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
        -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s,
    )
    return "#" + "".join(f"{round(255 * _gamma(channel)):02x}" for channel in channels)


def mixed(one: Colour, other: Colour, part: float) -> Colour:
    """From `one` at part 0 to `other` at part 1."""
    part = share(part)
    return (between(one[0], other[0], part), between(one[1], other[1], part), between(one[2], other[2], part))


def _tinted(colour: Colour, hue: Colour, part: float, light: float = 0.35) -> Colour:
    """The colour with its hue drawn toward another's by `part`, its lightness only by `light` of that.

    A dark colour takes less of both than a light one, so that it stays a brown and does not glow.
    """
    depth = min(1.0, (0.35 + 0.65 * colour[0] / hue[0]))
    goal = (hue[0], hue[1] * depth, hue[2] * depth)
    lightness = mixed(colour, goal, part * light * min(1.0, colour[0] / hue[0]) ** 2)[0]
    return (lightness, *mixed(colour, goal, part)[1:])


def coat(values: Mapping[str, float], bare: float) -> Coat:
    """The colours for all qualities from -3 to 3, each of which must be given; bare: how white it all is, 0 to 1.

    An animal that is white all over keeps dark eyes, and a tinge of its hues; the white of others has none.
    """
    field = _field(values)
    network = _network(values, field)
    pale = _hued(TABLE["ivory"], {**values, "red": min(1.0, values["red"])}, 0.22)
    dusk = 0.12 * max(0.0, -values["brightness"])
    lift = 0.04 * values["contrast"]
    headstamp, black = values["headstamp"], values["black"]
    crown = mixed(network, mixed(field, pale, 0.25), 0.24 * max(0.0, headstamp))
    crown = mixed(crown, TABLE["soot"], 0.17 * max(0.0, -headstamp))
    belly = mixed(mixed(pale, TABLE["fawn"], dusk), field, 0.22 + 0.3 * dusk)
    flank = mixed(field, belly, 0.26 + lift - 0.05 * max(0.0, values["red"]))
    eye = mixed(TABLE["iris"], TABLE["pewter"], 0.3 * max(0.0, -values["yellow"]) - 0.25)
    albino = share(-black / 3) * (1 - bare)
    eye = mixed(eye, TABLE["rose"], (3 * albino - 1) / 2)
    tinge = _hued(TABLE["cream"], {**values, "yellow": max(0.0, values["yellow"])}, 1.0)
    return Coat(
        field=field,
        saddle=mixed(field, pale, 0.10 + lift),
        flank=flank,
        halo=mixed(flank, pale, 0.55 - dusk),
        belly=belly,
        network=network,
        crown=crown,
        lip=mixed(mixed(belly, TABLE["chalk"], 0.3), TABLE["chalk"], 0.5 * values["white"]),
        bare=mixed(TABLE["chalk"], tinge, 0.04 + 0.1 * bare * (3 + values["yellow"])),
        eye=eye,
        pupil=mixed(TABLE["pupil"], TABLE["garnet"], 2 * albino - 1),
        outline=mixed(mixed(TABLE["umber"], field, 0.45), network, 0.2),
    )


def _field(values: Mapping[str, float]) -> Colour:
    bright, black = values["brightness"], values["black"]
    field = mixed(TABLE["tan"], TABLE["cream"], 0.2 * bright)
    field = mixed(field, TABLE["earth"], -0.29 * bright)
    field = mixed(field, TABLE["soot"], 0.06 * black)
    field = mixed(field, TABLE["cream"], -0.10 * black)
    return _hued(field, values, 1.0)


def _hued(colour: Colour, values: Mapping[str, float], strength: float) -> Colour:
    yellow, red, lavender = values["yellow"], values["red"], values["lavender"]
    colour = _tinted(colour, TABLE["sulphur"], 0.31 * strength * max(0.0, yellow), 0.5)
    colour = _tinted(colour, TABLE["silver"], strength * max(0.0, -yellow) / 3, 0.2)
    glow = 0.5 * max(0.0, yellow) + 0.35 * max(0.0, values["brightness"])
    ember = mixed(TABLE["orange"], TABLE["rust"], (red - 1 - glow) / 2)
    colour = _tinted(colour, ember, 0.3 * strength * max(0.0, red), 0.6)
    colour = _tinted(colour, TABLE["straw"], 0.3 * strength * max(0.0, -red))
    colour = _tinted(colour, TABLE["lilac"], 0.04 * strength * max(0.0, lavender))
    return _tinted(colour, TABLE["fawn"], 0.1 * strength * max(0.0, -lavender))


def _network(values: Mapping[str, float], field: Colour) -> Colour:
    black, lavender, contrast = values["black"], values["lavender"], values["contrast"]
    faded = max(0.0, -black)
    dark = mixed(TABLE["umber"], field, 0.06 * values["brightness"])
    dark = mixed(dark, TABLE["soot"], -0.14 * values["brightness"])
    dark = _tinted(dark, TABLE["maroon"], 0.28 * max(0.0, values["red"]), 0.2)
    dark = _tinted(dark, TABLE["silver"], 0.32 * max(0.0, -values["yellow"]), 0.0)
    dark = _tinted(dark, TABLE["fawn"], 0.06 * max(0.0, values["yellow"]), 0.3)
    dark = mixed(dark, TABLE["plum"], 0.26 * max(0.0, lavender))
    dark = _tinted(dark, TABLE["rust"], 0.07 * max(0.0, -lavender), 0.1)
    dark = mixed(dark, TABLE["soot"], 0.24 * max(0.0, contrast))
    dark = mixed(dark, TABLE["soot"], 0.29 * max(0.0, black))
    middle = mixed(_tinted(TABLE["fawn"], field, 0.4, 0.1), mixed(TABLE["plum"], TABLE["lilac"], 0.4), 0.3 * lavender)
    gone = mixed(mixed(TABLE["chalk"], field, 0.12), TABLE["lilac"], 0.33 * lavender)
    dark = mixed(mixed(dark, middle, faded / 2), gone, faded - 2)
    return mixed(dark, field, 0.29 * max(0.0, -contrast))


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def _gamma(value: float) -> float:
    value = min(1.0, max(0.0, value))
    return value * 12.92 if value <= 0.0031308 else float(1.055 * value ** (1 / 2.4) - 0.055)


TABLE: Mapping[str, Colour] = {name: _from_hex(text) for name, text in PIGMENTS.items()}
