"""The scales that looks are described on: which qualities there are, in which zone of the body, and what they mean."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

__all__ = ["MEANINGS", "QUALITIES", "ZONES", "Cover", "Quality", "Zone"]

Zone = Literal["head", "back", "flanks", "belly", "overall"]

Quality = Literal[
    "headstamp",
    "eye_stripe",
    "dorsal",
    "rear",
    "banding",
    "flank",
    "dots",
    "floating",
    "belly",
    "pattern",
    "brightness",
    "contrast",
    "clean",
    "blush",
    "white",
    "yellow",
    "red",
    "lavender",
    "black",
]
"""Each on a scale from -3 to 3 against wild type, which is 0 throughout."""

Cover = Literal["all", "pattern", "banding", "black", "yellow", "flank blush"]
"""What a gene hides of others."""

ZONES: Mapping[Zone, tuple[Quality, ...]] = {
    "head": ("headstamp", "eye_stripe"),
    "back": ("dorsal", "rear", "banding"),
    "flanks": ("flank", "dots", "floating"),
    "belly": ("belly",),
    "overall": (
        *("pattern", "brightness", "contrast", "clean", "blush", "white"),
        *("yellow", "red", "lavender", "black"),
    ),
}

QUALITIES: tuple[Quality, ...] = tuple(quality for zone in ZONES.values() for quality in zone)

MEANINGS: Mapping[Quality, tuple[str, str, str]] = {
    "headstamp": ("headstamp", "a darker headstamp", "a lighter headstamp"),
    "eye_stripe": ("eye stripe", "fainter eye stripes", "wider eye stripes"),
    "dorsal": ("dorsal line", "a broken dorsal line", "a whole dorsal line"),
    "rear": ("dorsal line on the rear third", "a broken rear dorsal line", "a whole rear dorsal line"),
    "banding": ("banding", "less banding", "more banding"),
    "flank": ("dark marks on the flanks", "fewer marks on the flanks", "busier flanks"),
    "dots": ("dots in the flank blotches", "fewer dots", "more dots"),
    "floating": ("flank blotches free of the belly", "blotches that reach the belly", "blotches free of the belly"),
    "belly": ("marks along the belly edge", "a cleaner belly edge", "a marked belly edge"),
    "pattern": ("dark pattern", "less dark pattern", "more dark pattern"),
    "brightness": ("brightness", "a darker body", "a brighter body"),
    "contrast": ("contrast", "less contrast", "more contrast"),
    "clean": ("cleanness", "a dirtier look", "a cleaner look"),
    "blush": ("blushing", "less blushing", "blushing"),
    "white": ("white", "less white", "white"),
    "yellow": ("yellow", "less yellow", "more yellow"),
    "red": ("orange to red", "less orange or red", "more orange or red"),
    "lavender": ("lavender", "less lavender", "lavender tones"),
    "black": ("black pigment", "faded black", "deeper black"),
}
"""Of each quality: its name in words, and what its minus and its plus side look like.

`rear` differs from `dorsal` only where that is said of a gene.
"""
