"""Pockets cut into patches: nothing left out, nothing twice, nothing that faces the wrong way."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.geometry.polygon import perimeter, signed_area
from segkit.optics.patches import (
    BACK,
    FRONT,
    MOST_PATCHES,
    clean_outline,
    coarse_outline,
    patches_of,
    width_of,
)


def circle(radius, corners):
    return tuple(
        (radius * math.cos(2 * math.pi * i / corners), radius * math.sin(2 * math.pi * i / corners))
        for i in range(corners)
    )


@given(depth=st.floats(8, 80), share=st.floats(0, 0.95), slant=st.floats(-20, 20))
def test_surfaces_have_their_areas(depth, share, slant, hexagon):
    lean = math.tan(math.radians(slant))
    outline = clean_outline(tuple((x + lean * y, y) for x, y in hexagon))
    made = patches_of(outline, depth_mm=depth, tip_mm=share * depth)
    for surface in (BACK, FRONT):
        assert made.areas_mm2[made.surface == surface].sum() == pytest.approx(2200, rel=1e-6)
    walls = made.areas_mm2[made.surface > FRONT].sum()
    assert walls == pytest.approx(perimeter(outline) * depth, rel=1e-6)
    assert np.linalg.norm(made.normals, axis=1) == pytest.approx(np.ones(len(made.normals)))
    middle = np.array([0, 0, depth / 2])
    assert (((middle - made.centres) * made.normals).sum(axis=1) > 0).all(), "a patch faces outward"
    # the Gauss points cover the front and the walls above the tips, and nothing below
    lit = perimeter(outline) * depth * (1 - share) + 2200
    assert made.sample_area_mm2.sum() == pytest.approx(lit, rel=1e-6)
    assert made.sample_at[:, 2].min() > share * depth - 1e-6


def test_a_tip_on_a_line_of_the_grid_and_a_tip_at_the_back(hexagon):
    on_line = patches_of(hexagon, depth_mm=20, tip_mm=5)  # patches of 5 mm
    assert set(np.round(on_line.corners[on_line.surface > FRONT][:, :, 2].ravel(), 6)) == {0, 5, 10, 15, 20}
    flat = patches_of(hexagon, depth_mm=20, tip_mm=0)
    assert flat.sample_at[:, 2].min() > 0


def test_deep_pockets_get_no_more_patches_than_allowed(hexagon):
    deep = patches_of(tuple((x / 2, y / 2) for x, y in hexagon), depth_mm=200, tip_mm=6)
    assert 300 < len(deep.areas_mm2) < 1.4 * MOST_PATCHES


def test_outlines_are_put_right(hexagon):
    assert clean_outline(hexagon) == tuple((float(x), float(y)) for x, y in hexagon)
    assert sorted(clean_outline(tuple(reversed(hexagon)))) == sorted(clean_outline(hexagon))
    doubled = (*hexagon[:2], hexagon[1], (0, -10), *hexagon[2:])
    assert clean_outline(doubled) == clean_outline(hexagon)


@pytest.mark.parametrize(
    ("outline", "words"),
    [
        (((0, 0), (4, 0), (4, 4), (2, 1), (0, 4)), "not convex"),
        (((0, 0), (4, 4), (4, 0), (0, 4)), "no area|not convex"),
        (((0, 0), (1, 0), (2, 0)), "no area"),
        (((0, 0), (0, 0), (0, 0)), "no area"),
    ],
)
def test_outlines_that_cannot_be_solved(outline, words):
    with pytest.raises(InputError, match=words):
        clean_outline(outline)


def test_a_pentagram_turns_twice_and_is_refused():
    star = tuple(circle(10, 5)[2 * i % 5] for i in range(5))
    with pytest.raises(InputError, match="not convex"):
        clean_outline(star)


def test_arcs_become_chords_of_the_same_area():
    for corners in (24, 60, 96):
        fine = circle(12, corners)
        coarse = coarse_outline(fine)
        assert 10 <= len(coarse) <= 17
        assert signed_area(coarse) == pytest.approx(signed_area(fine), rel=1e-9)
    assert coarse_outline(circle(12, 12)) == circle(12, 12)


def test_rounded_bar_keeps_its_straight_sides():
    right = [(50 + 10 * math.sin(t), -10 * math.cos(t)) for t in np.linspace(0, math.pi, 40)]
    left = [(-x, -y) for x, y in right]
    outline = clean_outline(tuple(right + left))
    coarse = coarse_outline(outline)
    assert len(coarse) < 24
    assert signed_area(coarse) == pytest.approx(signed_area(outline), rel=1e-9)
    assert width_of(coarse) == pytest.approx(20, rel=0.01)


def test_width():
    assert width_of(((0, 0), (30, 0), (30, 7), (0, 7))) == 7
    assert width_of(circle(10, 48)) == pytest.approx(20, rel=0.01)
