"""The board as a whole: digits in order, apart, inside the margin; kinds; refusals."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.geometry import polygon
from segkit.geometry.board import Board, Segment, board_of
from segkit.geometry.digit import shape_problems, small_shape_of
from segkit.geometry.segment import ENDS
from tests.geometry.shapes import SHAPE, accepted_shapes, shape
from tests.geometry.test_layout import legal_layouts


def board(layout: str = "88:88", **changes) -> Board:
    return board_of(layout=layout, shape=shape(**changes), spacing_mm=60, margin_mm=40)


def shapes_of(segments: list[Segment]) -> shapely.Geometry:
    return shapely.MultiPolygon([shapely.Polygon(outline) for s in segments for outline in s.outlines])


@given(legal_layouts(), accepted_shapes(), st.floats(0.05, 0.6))
def test_any_legal_layout_gives_digits_in_order_that_keep_apart(layout, drawn, share):
    spacing = drawn.height_mm * share
    assume("o" not in layout or not shape_problems(small_shape_of(drawn, ratio=0.6)))
    made = board_of(layout=layout, shape=drawn, spacing_mm=spacing, margin_mm=30)
    assert made.digits == sum(mark in "8o" for mark in layout)
    outlines = [shapely.Polygon(outline) for s in made.segments for outline in s.outlines]
    assert all(outline.is_valid and outline.exterior.is_ccw for outline in outlines)
    shortest = drawn.gap_mm - 2e-3
    apart = shapely.STRtree(outlines).query(outlines, predicate="dwithin", distance=shortest)
    assert all(apart[0] == apart[1]), "no two openings are nearer than the gap"
    frame = shapely.box(30, 30, made.width_mm - 30, made.height_mm - 30).buffer(1e-6 * made.width_mm)
    assert all(frame.covers(outline) for outline in outlines), "the margin is free"
    bodies = [
        shapes_of([s for s in made.segments if s.digit == number and s.name in tuple("abcdefg")])
        for number in range(1, made.digits + 1)
    ]
    for one, other in itertools.pairwise(bodies):
        assert one.distance(other) >= spacing * (1 - 1e-9)
        assert one.centroid.x < other.centroid.x


@pytest.mark.parametrize("slant", [0, 10, -20])
def test_spacing_is_measured_square_to_the_slanted_sides(slant):
    made = board("88", slant_deg=float(slant))
    one, other = (shapes_of([s for s in made.segments if s.digit == number]) for number in (1, 2))
    assert one.distance(other) == pytest.approx(60, abs=1e-6)


@pytest.mark.parametrize("ends", ENDS)
def test_segments_stand_in_standard_order_with_their_kinds(ends):
    made = board("8.8:o", ends=ends)
    assert [(s.digit, s.name) for s in made.segments] == [
        *((1, name) for name in (*"abcdefg", "dp")),
        *((2, name) for name in (*"abcdefg", "colon")),
        *((3, name) for name in "abcdefg"),
    ]
    assert {kind: len(some) for kind, some in made.kinds().items()} == {
        "crossbar": 6,
        "upright": 8,
        "point": 1,
        "colon": 1,
        "small crossbar": 3,
        "small upright": 4,
    }
    for some in made.kinds().values():
        areas = [sum(polygon.area(outline) for outline in s.outlines) for s in some]
        assert areas == pytest.approx([areas[0]] * len(areas), rel=1e-9), "a kind is one size"
        assert len({round(s.length_mm, 6) for s in some}) == 1


def test_lengths_and_strokes_are_those_of_the_outlines():
    made = board("8", slant_deg=15.0)
    cos = math.cos(math.radians(15))
    for s in made.segments:
        (outline,), ((start, end),) = s.outlines, s.axes
        assert s.length_mm == pytest.approx(math.dist(start, end))
        turned = polygon.rotate(
            outline, angle_deg=-math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
        )
        _, bottom, _, top = polygon.bounds([turned])
        if s.kind == "crossbar":
            assert top - bottom == pytest.approx(s.stroke_mm) == pytest.approx(42)
        else:
            assert s.stroke_mm == pytest.approx(42 * cos)


def test_digits_stand_on_one_baseline():
    made = board("8o", slant_deg=5.0)
    feet = [
        polygon.bounds(o for s in made.segments if s.digit == number for o in s.outlines)[1]
        for number in (1, 2)
    ]
    assert feet == pytest.approx([40, 40])


def test_a_colon_follows_the_slant_and_stays_round():
    made = board("8:8", slant_deg=20.0)
    (colon,) = (s for s in made.segments if s.name == "colon")
    (low, _), (high, _) = colon.axes
    assert math.degrees(math.atan2(high[0] - low[0], high[1] - low[1])) == pytest.approx(20)
    for outline, (centre, _) in zip(colon.outlines, colon.axes, strict=True):
        assert {round(math.dist(point, centre), 9) for point in outline} == {21.0}


def test_one_piece_digit_is_noted_with_the_exact_width():
    exact = board("88", width_mm=171.0)
    (note,) = exact.findings
    assert (note.level, note.code) == ("note", "one-piece-digit")
    assert set(exact.kinds()) == {"bar"}
    near = board("88", width_mm=168.0)
    (note,) = near.findings
    assert (note.code, note.value, note.limit) == ("one-piece-digit", 168, 171)
    assert "171 mm instead of 168 mm" in note.text
    assert set(near.kinds()) == {"crossbar", "upright"}
    assert board("88", width_mm=165.0).findings == ()
    assert board("88", width_mm=171.0, slant_deg=5.0).findings == ()
    assert set(board("88", width_mm=171.0, slant_deg=5.0).kinds()) == {"crossbar", "upright"}
    assert set(board("oo", width_mm=171.0).kinds()) == {"small bar"}


def test_no_room_for_fixing_holes_is_said():
    made = board_of(layout="88", shape=SHAPE, spacing_mm=60, margin_mm=8)
    assert made.fixings == ()
    assert [finding.code for finding in made.findings] == ["no-fixing-holes"]


def test_small_shape_is_only_there_when_used():
    assert board("88").small_shape is None
    small = board("8o").small_shape
    assert small is not None
    assert (small.height_mm, small.gap_mm) == (180, 5)


def test_every_fault_is_named_at_once():
    with pytest.raises(InputError) as refused:
        board_of(
            layout="8x..",
            shape=shape(slant_deg=40.0, ends="sharp"),
            spacing_mm=0,
            margin_mm=-1,
            small_ratio=2,
            fixing_hole_mm=-4,
        )
    assert [problem.key for problem in refused.value.problems] == [
        "display.layout",
        "display.layout",
        "display.layout",
        "digit.slant",
        "digit.ends",
        "digit.spacing",
        "digit.margin",
        "digit.small",
        "digit.fixing_hole",
    ]
    assert all(problem.remedy and problem.value for problem in refused.value.problems)


def test_small_digits_that_the_gap_eats_are_refused_by_their_own_key():
    with pytest.raises(InputError) as refused:
        board_of(layout="8o", shape=shape(gap_mm=25.0), spacing_mm=60, margin_mm=40, small_ratio=0.3)
    assert {problem.key for problem in refused.value.problems} == {"digit.small"}
    assert "in the small digits, the gap shortens the crossbars" in str(refused.value)
    assert board_of(layout="88", shape=shape(gap_mm=25.0), spacing_mm=60, margin_mm=40).digits == 2
