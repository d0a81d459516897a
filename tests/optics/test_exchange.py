"""View factors against handbook formulas and printed handbook values; reciprocity and row sums."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics.exchange import angle_over_sine, exchange_factors, factors_at
from segkit.optics.patches import BACK, FRONT, clean_outline, patches_of


def handbook_parallel(a, b, gap):
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


def handbook_perpendicular(width, height):
    """Rectangles with a common edge of 1: emitter ``width`` wide, receiver ``height`` high."""
    w, h = width, height
    w2, h2, d = w * w, h * h, w * w + h * h
    logs = (
        math.log((1 + w2) * (1 + h2) / (1 + d))
        + w2 * math.log(w2 * (1 + d) / ((1 + w2) * d))
        + h2 * math.log(h2 * (1 + d) / ((1 + h2) * d))
    )
    arcs = w * math.atan(1 / w) + h * math.atan(1 / h) - math.sqrt(d) * math.atan(1 / math.sqrt(d))
    return (arcs + logs / 4) / (math.pi * w)


def box(a, b):
    return clean_outline(((0, 0), (a, 0), (a, b), (0, b)))


def mean_factor(made, *, of, to, points=32):
    """Mean of the factors of many elements on a surface of a box to one surface.

    Gauss points, which stand closer at the edges: there the factor falls within one gap.
    """
    at, share = np.polynomial.legendre.leggauss(points)
    u = (at + 1) / 2
    patches = made.corners[made.surface == of]
    low, high = patches.min(axis=(0, 1)), patches.max(axis=(0, 1))
    free = [k for k in range(3) if high[k] - low[k] > 1e-9]
    grid = np.tile((low + high) / 2, (points * points, 1))
    first, second = np.meshgrid(u, u)
    grid[:, free[0]] = low[free[0]] + (high - low)[free[0]] * first.ravel()
    grid[:, free[1]] = low[free[1]] + (high - low)[free[1]] * second.ravel()
    normal = np.tile(made.normals[made.surface == of][0], (len(grid), 1))
    found = factors_at(grid, normal, np.full(len(grid), of), made)
    return float((found[:, made.surface == to].sum(axis=1) * np.outer(share, share).ravel()).sum() / 4)


def test_printed_parallel_rectangles(rows, agree):
    for inputs, row in rows("parallel rectangles"):
        scale = 10 / min(inputs["a"], inputs["b"])  # patches are cut for millimetres
        a, b, gap = (scale * inputs[name] for name in ("a", "b", "gap"))
        made = patches_of(box(a, b), depth_mm=gap, tip_mm=0)
        ours = mean_factor(made, of=BACK, to=FRONT)
        assert ours == pytest.approx(handbook_parallel(a, b, gap), rel=2e-5)
        agree(row, handbook_parallel(a, b, gap))
        agree(row, ours)  # a sum over 1024 points, in single precision: off in the sixth digit


def test_printed_perpendicular_rectangles(rows, agree):
    for inputs, row in rows("perpendicular rectangles"):
        width, height = inputs["width"], inputs["height"]  # over the common edge
        closed = handbook_perpendicular(width, height)
        agree(row, closed)
        made = patches_of(box(10 * width, 10), depth_mm=10 * height, tip_mm=0, fineness=4)
        wall = int(made.surface[np.argmin(np.abs(made.centres[:, 0]) + 1e3 * (made.surface < 2))])
        ours = mean_factor(made, of=BACK, to=wall, points=80)
        assert ours == pytest.approx(closed, abs=4e-4)  # the sum misses a little at the common edge
        agree(row, ours)


@given(depth=st.floats(8, 80), slant=st.floats(-20, 20))
def test_reciprocity_and_row_sums_hold_together(depth, slant, hexagon):
    lean = math.tan(math.radians(slant))
    outline = clean_outline(tuple((x + lean * y, y) for x, y in hexagon))
    made = patches_of(outline, depth_mm=depth, tip_mm=min(6, depth / 2), fineness=2)
    factors = exchange_factors(made)
    exchange = factors * made.areas_mm2[:, None]
    assert np.abs(exchange - exchange.T).max() < 1e-9 * exchange.max()
    assert np.abs(factors.sum(axis=1) - 1).max() < 1e-8
    assert factors.min() >= 0
    same = made.surface[:, None] == made.surface[None, :]
    assert (factors[same] == 0).all(), "flat surfaces do not see themselves"


def test_raw_rows_sum_to_nearly_one_before_they_are_brought_to_it(hexagon):
    made = patches_of(clean_outline(hexagon), depth_mm=25, tip_mm=6)
    raw = factors_at(made.centres, made.normals, made.surface, made).sum(axis=1)
    assert raw == pytest.approx(np.ones(len(raw)), abs=2e-4)


def test_an_element_that_lies_on_a_corner_of_the_front_is_no_trouble(hexagon):
    made = patches_of(clean_outline(hexagon), depth_mm=25, tip_mm=6)
    corner = made.corners[made.surface == FRONT][20, 0]
    found = factors_at(corner[None, :], np.array([[0.0, 0.0, -1.0]]), np.array([FRONT]), made)
    assert np.isfinite(found).all()
    assert found.sum() == pytest.approx(1, abs=2e-3)


@given(angle=st.floats(0, math.pi - 1e-3))
def test_angle_over_its_sine(angle):
    # the handbook's polynomial against the arc cosine itself: 2e-8 in the angle, single precision here
    ours = float(angle_over_sine(np.array([math.cos(angle)]))[0])
    assert ours == pytest.approx(angle / math.sin(angle) if angle > 1e-6 else 1.0, rel=1e-6)
    single = float(angle_over_sine(np.array([math.cos(angle)], dtype=np.float32))[0])
    # near 180 degrees a single-precision cosine no longer tells angles apart: an element on the edge itself
    assert single == pytest.approx(ours, rel=1e-5 + 2e-7 / math.sin(angle / 2 + math.pi / 2) ** 2)
