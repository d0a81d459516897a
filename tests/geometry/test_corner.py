"""Pull-backs: closed forms where there are any, the measured gap everywhere."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, affinity, box

from segkit.geometry.corner import crossbar_pull_back, pull_backs
from segkit.geometry.segment import ENDS


@pytest.mark.parametrize(
    ("ends", "expected"),
    [
        ("pointed", 5 / math.sqrt(2)),
        ("rounded", 47 / math.sqrt(2) - 21),
    ],
)
def test_upright_digit_has_one_pull_back_in_closed_form(ends, expected):
    backs = pull_backs(stroke_mm=42, gap_mm=5, ends=ends, slant_deg=0)
    pulled = (backs.crossbar_mm, *backs.b, *backs.c, *backs.e, *backs.f)
    assert pulled == pytest.approx((expected,) * 9)


def test_blunt_uprights_run_from_foot_to_head_with_a_gap_in_the_middle():
    backs = pull_backs(stroke_mm=42, gap_mm=5, ends="blunt", slant_deg=0)
    assert backs.crossbar_mm == 21 + 5, "half an upright, then the gap"
    assert (backs.e, backs.c) == ((-21, 2.5), (-21, 2.5)), "from the foot of the digit"
    assert (backs.f, backs.b) == ((2.5, -21), (2.5, -21)), "to its head"


@given(st.floats(2, 100), st.floats(0.02, 0.5), st.floats(-30, 30))
def test_blunt_gap_measured_on_outlines_drawn_by_the_library(stroke, share, slant):
    """Square to the sides of the uprights, and upright between the two of one side."""
    gap = stroke * share
    backs = pull_backs(stroke_mm=stroke, gap_mm=gap, ends="blunt", slant_deg=slant)
    half, long = stroke / 2, 6 * (stroke + gap)
    crossbar = box(backs.crossbar_mm, -half, long, half)
    upper, lower = box(-half, backs.f[0], half, long), box(-half, -long, half, -backs.e[1])
    leant = [affinity.skew(part, xs=slant, origin=(0, 0)) for part in (crossbar, upper, lower)]
    for one, other in itertools.combinations(leant, 2):
        assert one.distance(other) == pytest.approx(gap, rel=1e-9)


@given(st.floats(2, 100), st.floats(0.02, 1.5), st.floats(-30, 30).filter(lambda s: abs(s) > 0.01))
def test_pointed_pull_back_of_a_leant_upright_is_that_of_parallel_edges(stroke, share, slant):
    """A shear keeps the area between two parallel edges, so their distance goes with 1/length."""
    gap = stroke * share
    backs = pull_backs(stroke_mm=stroke, gap_mm=gap, ends="pointed", slant_deg=slant)
    lean = math.tan(math.radians(slant))
    half = gap / 2
    for pull, edge in zip(backs.e, (1 + lean, 1 - lean), strict=True):
        before = math.hypot(edge, 1) / math.sqrt(2) * gap
        parallel = (before - half) * math.sqrt(2)
        assert pull <= parallel + 1e-4, "the true distance is never less than that of the edges' lines"
        if share < 0.5:
            assert pull == pytest.approx(parallel, abs=2e-5 + 1e-9 * stroke)


@given(st.sampled_from(("pointed", "rounded")), st.floats(2, 100), st.floats(0.02, 1.0), st.floats(-30, 30))
def test_gap_measured_on_outlines_drawn_by_the_library(ends, stroke, share, slant):
    """The same corner built from library shapes alone: buffered lines, polygons, a skew."""
    gap = stroke * share
    backs = pull_backs(stroke_mm=stroke, gap_mm=gap, ends=ends, slant_deg=slant)
    long = 6 * (stroke + gap)
    flat, tall = bar(ends, backs.crossbar_mm, long, stroke), bar(ends, backs.e[0], long, stroke)
    tall = affinity.affine_transform(tall, [0, 1, 1, 0, 0, 0])  # swap x and y
    leant = [affinity.skew(part, xs=slant, origin=(0, 0)) for part in (flat, tall)]
    assert leant[0].distance(leant[1]) == pytest.approx(gap, abs=0.03 if ends == "rounded" else 1e-4)


def bar(ends: str, start: float, long: float, stroke: float) -> Polygon:
    half = stroke / 2
    if ends == "rounded":
        return LineString([(start + half, 0), (long, 0)]).buffer(half, quad_segs=90)
    return Polygon([(start, 0), (start + half, -half), (long, -half), (long, half), (start + half, half)])


@pytest.mark.parametrize("ends", ENDS)
def test_leaning_left_swaps_the_corners(ends):
    right = pull_backs(stroke_mm=42, gap_mm=5, ends=ends, slant_deg=12)
    left = pull_backs(stroke_mm=42, gap_mm=5, ends=ends, slant_deg=-12)
    assert (left.e, left.f) == (right.c, right.b)
    assert left.crossbar_mm == right.crossbar_mm
    assert right.crossbar_mm == crossbar_pull_back(stroke_mm=42, gap_mm=5, ends=ends, slant_deg=12)
