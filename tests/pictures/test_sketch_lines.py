"""Outlines: points to rounded paths."""

import re

import pytest

from explorer.pictures.sketch_lines import closed_curve, spots

POINTS = [(-3.0, 6.6), (4.2, 11.0), (12.6, 8.0), (10.0, 0.4), (0.0, 0.0)]


def followed(path):
    """(control, end) of every bend, read as a browser does: `t` mirrors the last control in where the pen is."""
    here = control = None
    bends = []
    for letter, rest in re.findall(r"([Mqt])([^MqtZ]*)", path):
        numbers = [float(number) for number in re.findall(r"-?[\d.]+", rest)]
        if letter == "M":
            here = tuple(numbers)
            continue
        if letter == "q":
            control = (here[0] + numbers[0], here[1] + numbers[1])
        else:
            control = (2 * here[0] - control[0], 2 * here[1] - control[1])
        here = (here[0] + numbers[-2], here[1] + numbers[-1])
        bends.append((control, here))
    return bends


def test_closed_curve__bends_at_the_points_and_passes_midway_between():
    bends = followed(closed_curve(POINTS))
    assert [control for control, _ in bends] == [pytest.approx(point) for point in POINTS]
    for i, (_, end) in enumerate(bends):
        one, two = POINTS[i], POINTS[(i + 1) % len(POINTS)]
        assert end == pytest.approx(((one[0] + two[0]) / 2, (one[1] + two[1]) / 2))


def test_closed_curve__rounding_does_not_add_up():
    points = [(0.123 * i, (7.77 * i) % 31) for i in range(400)]
    bends = followed(closed_curve(points))
    start = [float(number) for number in re.findall(r"-?[\d.]+", closed_curve(points))[:2]]
    assert bends[-1][1] == pytest.approx(start)
    controls = {(round(x, 1), round(y, 1)) for (x, y), _ in bends}
    assert controls == {(round(round(5 * x) / 5, 1), round(round(5 * y) / 5, 1)) for x, y in points}


def test_closed_curve__either_way_round_is_drawn_the_same_way_round():
    def area(points):
        return sum(a * d - c * b for (a, b), (c, d) in zip(points, points[1:] + points[:1], strict=True))

    areas = [area([end for _, end in followed(closed_curve(points))]) for points in (POINTS, POINTS[::-1])]
    assert areas[0] == pytest.approx(areas[1])


def test_spots():
    assert spots([(1.0, -2.06), (30.25, 4.0)]) == "M1-2.1h0M30.2 4h0"
