"""The one ramp of colour, from far from the target to the target itself, and the neutral inks."""

from __future__ import annotations

from fractions import Fraction

__all__ = ["FAINT", "INK", "PAPER", "STRONG", "nearness_shade"]

INK, FAINT, PAPER = "#1f2933", "#52606d", "#ffffff"
STRONG = "#0b5357"
_FAR, _NEAR = (0xEA, 0xF2, 0xF2), (0x0B, 0x53, 0x57)


def nearness_shade(closeness: Fraction | float) -> str:
    """The shade for a share of the target from 0 (pale) to 1 (dark), as #rrggbb."""
    share = min(1.0, max(0.0, float(closeness)))
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in zip(_FAR, _NEAR, strict=True))
