"""The rolled-out skin of a schematic animal as SVG elements, from the field up to the white and the scales."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from .sketch_colours import Coat, as_hex
from .sketch_lines import Point, closed_curve, share, spots
from .sketch_marks import Oval, belly_edge, blush_patches, dots, flecks, peppering, white_areas, white_spatter
from .sketch_network import network, saddle_shapes
from .sketch_skin import SIDES, Plan, outline, plan

__all__ = ["body"]

ROUND = 'stroke-linecap="round"'


def body(values: Mapping[str, float], coat: Coat, own: str, seed: int, bare: float) -> str:
    """The strip of skin. own: what the ids of its clip path and paints begin with; bare: how white it all is, 0 to 1.

    Each kind of mark is one element with a `data-part`, its number in its children or in a `data-` attribute.
    """
    rim, layout = closed_curve(outline()), plan(seed)
    return (
        f'<g clip-path="url(#{own}-skin)"><path d="{rim}" fill="url(#{own}-field)"/>{_belly(coat, layout)}'
        f"{_marks(values, layout, coat, own, seed)}{_white(values, coat, seed, bare)}</g>"
        f'<path d="{rim}" fill="url(#{own}-scales)" stroke="{as_hex(coat.outline)}" stroke-width="1.3"/>'
    )


def _belly(coat: Coat, layout: Plan) -> str:
    fill = as_hex(coat.belly)
    return "".join(
        f'<path d="{closed_curve(belly_edge(layout, side, rise))}" fill="{fill}" fill-opacity="{opacity}"/>'
        for side in SIDES
        for rise, opacity in ((0.07, 0.45), (0.0, 0.9))
    )


def _marks(values: Mapping[str, float], layout: Plan, coat: Coat, own: str, seed: int) -> str:
    clean, blush = values["clean"], values["blush"]
    dark, halo = f'fill="{as_hex(coat.network)}"', f'stroke="{as_hex(coat.halo)}"'
    sharp = share(abs(coat.field[0] - coat.network[0]) / 0.3) * (0.62 + 0.12 * clean)
    lines = network(values, layout, seed)
    shapes = [*lines.dorsal, *lines.bars, *lines.closures]
    soft = 0.12 + (0.25 if blush > 0 else 0.04) * blush
    saddles = "".join(
        f'<path d="{closed_curve(shape)}" stroke-opacity="{sharp * edge:.2f}"/>'
        for shape, edge in saddle_shapes(values, layout, seed)
    )
    return "".join(
        (
            _ovals(
                "dots",
                dots(values, layout, seed),
                f'{dark} {halo} stroke-width="2.4" stroke-opacity="{sharp:.2f}" paint-order="stroke"',
            ),
            f'<path data-part="network" data-dorsal-pieces="{len(lines.dorsal)}" data-bars="{len(lines.bars)}"'
            f' data-closures="{len(lines.closures)}" d="{"".join(map(closed_curve, shapes))}" {dark} {halo}'
            f' stroke-width="{3.2 + 0.7 * clean:.1f}" stroke-opacity="{sharp:.2f}" paint-order="stroke"/>',
            _ovals(
                "blush",
                blush_patches(values, layout, seed),
                f'fill="url(#{own}-soft)" fill-opacity="{soft:.2f}"',
            ),
            f'<g data-part="saddles" fill="url(#{own}-field)" {halo} stroke-width="1.3">{saddles}</g>',
            _ovals("flecks", flecks(values, seed), f'{dark} fill-opacity=".85"'),
            _grains("grains", peppering(values, seed), as_hex(coat.network), 1.8),
        )
    )


def _white(values: Mapping[str, float], coat: Coat, seed: int, bare: float) -> str:
    """White from the belly up. Where the whole animal is white, it lies over all and leaves no islands."""
    level = min(2.0, values["white"]) if bare else values["white"]
    climbed, fill = {**values, "white": level}, as_hex(coat.bare)
    areas = "".join(f'<path d="{closed_curve(area)}"/>' for area in white_areas(climbed, seed))
    over = f'<path data-part="all-white" d="{closed_curve(outline())}" fill-opacity="{bare:.2f}"/>' if bare else ""
    spatter = _grains("spatter", white_spatter(climbed, seed), fill, 2.2)
    return f'<g data-part="white" fill="{fill}">{areas}{spatter}{over}</g>' if areas else ""


def _grains(part: str, places: list[Point], colour: str, size: float) -> str:
    return (
        f'<path data-part="{part}" data-count="{len(places)}" d="{spots(places)}" stroke="{colour}"'
        f' stroke-width="{size}" stroke-opacity=".85" {ROUND}/>'
    )


def _ovals(part: str, ovals: Iterable[Oval], paint: str) -> str:
    drawn = "".join(f'<ellipse cx="{x:.1f}" cy="{y:.1f}" rx="{rx:.1f}" ry="{ry:.1f}"/>' for (x, y), rx, ry in ovals)
    return f'<g data-part="{part}" {paint}>{drawn}</g>'
