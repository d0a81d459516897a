"""Outline of one segment against closed formulas and a buffered line."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.geometry import polygon
from segkit.geometry.segment import ENDS, end_steps, segment_area, segment_outline

SIZES = {"stroke": st.floats(1, 200), "ratio": st.floats(1.01, 20)}


@pytest.mark.parametrize("ends", ENDS)
@given(**SIZES)
def test_area_is_the_closed_formula(ends, stroke, ratio):
    size = {"length_mm": stroke * ratio, "stroke_mm": stroke, "ends": ends}
    outline = segment_outline(**size)
    assert polygon.area(outline) == pytest.approx(segment_area(**size), rel=1e-9)
    assert polygon.signed_area(outline) > 0, "counter-clockwise"
    left, bottom, right, top = polygon.bounds([outline])
    assert (right - left, top - bottom) == pytest.approx((stroke * ratio, stroke))
    assert (left + right, bottom + top) == pytest.approx((0, 0), abs=1e-9)
    assert polygon.is_valid(outline)


@given(**SIZES)
def test_pointed_ends_are_45_degrees(stroke, ratio):
    outline = segment_outline(length_mm=stroke * ratio, stroke_mm=stroke, ends="pointed")
    turns = sorted(math.degrees(turn) for turn in polygon.turning_angles(outline))
    assert turns == pytest.approx([45, 45, 45, 45, 90, 90], abs=1e-6)


@given(**SIZES)
def test_rounded_ends_keep_within_a_hundredth_of_the_true_half_circles(stroke, ratio):
    length = stroke * ratio
    outline = segment_outline(length_mm=length, stroke_mm=stroke, ends="rounded")
    half = (length - stroke) / 2
    line = shapely.LineString([(-half, 0), (half, 0)])
    radius = stroke / 2
    middles = [((x0 + x1) / 2, (y0 + y1) / 2) for (x0, y0), (x1, y1) in itertools.pairwise(outline)]
    for x, y in (*outline, *middles):
        away = line.distance(shapely.Point(x, y))
        assert radius - polygon.FLATTENING_MM <= away <= radius + 1e-9
    true = (length - stroke) * stroke + math.pi * stroke**2 / 4
    assert 0 < true - polygon.area(outline) < math.pi * stroke * polygon.FLATTENING_MM


def test_rounded_ends_have_a_point_on_the_axis_and_at_45_degrees():
    outline = segment_outline(length_mm=100, stroke_mm=20, ends="rounded")
    steps = end_steps(20)
    assert steps % 4 == 0
    assert outline[steps // 2] == pytest.approx((50, 0))
    assert outline[3 * steps // 4] == pytest.approx((40 + 10 / math.sqrt(2), 10 / math.sqrt(2)))


def test_all_faults_are_named_at_once():
    with pytest.raises(InputError) as refused:
        segment_outline(length_mm=10, stroke_mm=20, ends="round")
    assert [problem.value for problem in refused.value.problems] == ['"round"', "10 mm"]
    assert 'Did you mean "rounded"?' in str(refused.value)


@pytest.mark.parametrize(("length", "stroke"), [(20, 20), (20, 0), (20, -1), (math.nan, 5), (math.inf, 5)])
def test_impossible_sizes_are_refused(length, stroke):
    with pytest.raises(InputError):
        segment_area(length_mm=length, stroke_mm=stroke, ends="pointed")


def test_a_blunt_segment_may_be_shorter_than_its_stroke():
    assert segment_area(length_mm=15, stroke_mm=20, ends="blunt") == 300
    with pytest.raises(InputError, match="above 10 mm"):
        segment_area(length_mm=10, stroke_mm=20, ends="blunt")
