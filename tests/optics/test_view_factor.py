"""View factors against handbook formulas, printed handbook values and each other."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics import view_factor


def rectangle(a, b):
    return ((0.0, 0.0), (a, 0.0), (a, b), (0.0, b))


def circle(radius, corners=96):
    steps = [2 * math.pi * index / corners for index in range(corners)]
    return tuple((radius * math.cos(t), radius * math.sin(t)) for t in steps)


def handbook_rectangles(a, b, gap):
    """Equal parallel rectangles, the closed formula of the handbooks."""
    x, y = a / gap, b / gap
    rx, ry = math.sqrt(1 + x * x), math.sqrt(1 + y * y)
    inner = (
        math.log(math.sqrt((1 + x * x) * (1 + y * y) / (1 + x * x + y * y)))
        + x * ry * math.atan(x / ry)
        + y * rx * math.atan(y / rx)
        - x * math.atan(x)
        - y * math.atan(y)
    )
    return 2 / (math.pi * x * y) * inner


def test_printed_handbook_values(rows, agree):
    for inputs, row in rows("parallel rectangles"):
        outline = rectangle(inputs["a"], inputs["b"])
        agree(row, view_factor.parallel_outlines(outline, distance_mm=inputs["gap"]))
    for inputs, row in rows("equal discs"):
        agree(row, view_factor.parallel_outlines(circle(inputs["radius"]), distance_mm=inputs["gap"]))
    for inputs, row in rows("patch to disc"):
        share = view_factor.lobe_share(
            circle(inputs["radius"]), place=(0, 0), gap_mm=inputs["gap"], exponent=1
        )
        agree(row, share)


@given(a=st.floats(5, 400), b=st.floats(5, 60), gap=st.floats(3, 120))
def test_rectangles_by_the_closed_formula(a, b, gap):
    ours = view_factor.parallel_outlines(rectangle(a, b), distance_mm=gap)
    assert ours == pytest.approx(handbook_rectangles(a, b, gap), rel=2e-4)


@given(
    x=st.floats(-50, 50),
    y=st.floats(-9, 9),
    gap=st.floats(2, 80),
    exponent=st.floats(0.2, 80),
    turn=st.floats(0, 6.3),
)
def test_share_splits_and_turns(x, y, gap, exponent, turn):
    whole = ((-60, -10), (60, -10), (60, 10), (-60, 10))
    left, right = ((-60, -10), (5, -10), (5, 10), (-60, 10)), ((5, -10), (60, -10), (60, 10), (5, 10))

    def share(outline, place=(x, y)):
        return view_factor.lobe_share(outline, place=place, gap_mm=gap, exponent=exponent)

    assert share(whole) == pytest.approx(share(left) + share(right), abs=2e-4)
    assert 0 < share(whole) <= 1 + 1e-12

    def turned(p):
        c, s = math.cos(turn), math.sin(turn)
        return (p[0] * c - p[1] * s + 7, p[0] * s + p[1] * c - 3)

    moved = share(tuple(turned(p) for p in reversed(whole)), turned((x, y)))
    assert moved == pytest.approx(share(whole), abs=1e-5)


@given(radius=st.floats(3, 60), gap=st.floats(2, 80), exponent=st.floats(0.2, 80))
def test_share_of_a_disc_over_the_led(radius, gap, exponent):
    # flux inside a cone of half angle a is 1 - cos(a)^(m+1) of the lobe
    cosine = gap / math.hypot(gap, radius)
    share = view_factor.lobe_share(circle(radius, 180), place=(0, 0), gap_mm=gap, exponent=exponent)
    assert share == pytest.approx(1 - cosine ** (exponent + 1), rel=1e-2, abs=1e-6)


def test_sheet_at_the_tip_gets_all_of_it(hexagon):
    assert view_factor.lobe_share(hexagon, place=(0, 0), gap_mm=0, exponent=3) == 1
    assert view_factor.parallel_outlines(hexagon, distance_mm=0) == 1


@given(d=st.floats(1, 200))
def test_farther_sees_less_and_never_more_than_all(d, hexagon):
    near, far = (view_factor.parallel_outlines(hexagon, distance_mm=x) for x in (d, d + 1))
    assert 0 < far < near < 1
    backwards = view_factor.parallel_outlines(tuple(reversed(hexagon)), distance_mm=d)
    assert backwards == pytest.approx(near, rel=1e-9)


def test_area_perimeter_and_clearance(hexagon):
    assert view_factor.area(hexagon) == 2200
    assert view_factor.area(tuple(reversed(hexagon))) == -2200
    assert view_factor.perimeter(hexagon) == pytest.approx(200 + 40 * math.sqrt(2))
    assert view_factor.clearance(hexagon, (0, 0)) == 10
    assert view_factor.clearance(tuple(reversed(hexagon)), (0, 0)) == 10
    assert view_factor.clearance(hexagon, (58, 0)) == pytest.approx(math.sqrt(2))
    assert view_factor.clearance(hexagon, (62, 0)) < 0
    assert len(list(view_factor.edges(hexagon))) == 6
