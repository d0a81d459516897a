"""The digit: gaps in every joint, no overlap, one-piece width, impossible shapes."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given

from segkit.errors import InputError
from segkit.geometry import polygon
from segkit.geometry.digit import (
    CROSSBARS,
    DigitShape,
    bar_lengths,
    colon_heights,
    digit_outlines,
    dot,
    is_one_piece,
    joint_gaps,
    joints_of,
    one_piece_width,
    point_centre,
    shape_problems,
    shape_pull_backs,
    small_shape_of,
)
from segkit.geometry.segment import ENDS
from tests.geometry.shapes import SHAPE, accepted_shapes, shape


@given(accepted_shapes())
def test_every_joint_measures_the_gap_and_nothing_is_nearer(drawn):
    placed = digit_outlines(drawn)
    assert "".join(placed) == "abcdefg"
    outlines = {name: shapely.Polygon(outline) for name, (outline, _) in placed.items()}
    for one, other in itertools.combinations("abcdefg", 2):
        clear = outlines[one].distance(outlines[other])
        if (one, other) in joints_of(drawn.ends):
            assert clear == pytest.approx(drawn.gap_mm, abs=1e-3), f"{one}-{other}"
        else:
            assert clear >= drawn.gap_mm - 1e-3, f"{one}-{other}"
        assert outlines[one].intersection(outlines[other]).area == 0
    gaps = joint_gaps(placed, ends=drawn.ends)
    assert gaps == pytest.approx(dict.fromkeys(gaps, drawn.gap_mm), abs=1e-3)


@given(accepted_shapes())
def test_outlines_stay_in_the_leant_digit_box_and_are_valid(drawn):
    lean = math.tan(math.radians(drawn.slant_deg))
    for outline, axis in digit_outlines(drawn).values():
        assert polygon.is_valid(outline)
        assert polygon.signed_area(outline) > 0
        slack = 1e-9 * drawn.height_mm
        for x, y in (*outline, *axis):
            assert -slack <= y <= drawn.height_mm + slack
            assert -slack <= x - lean * y <= drawn.width_mm + slack
        for x, y in axis:
            assert abs(polygon.clearance(outline, (x, y))) < 1e-6 * drawn.height_mm, (
                "the axis ends on the outline"
            )


@given(accepted_shapes())
def test_crossbars_are_one_piece_and_uprights_are_one_piece(drawn):
    placed = digit_outlines(drawn)
    across, rise = bar_lengths(drawn, shape_pull_backs(drawn))
    lean = math.cos(math.radians(drawn.slant_deg))
    for name, (outline, axis) in placed.items():
        expected = across if name in CROSSBARS else rise / lean
        assert math.dist(*axis) == pytest.approx(expected, rel=1e-9)
        twin = placed["a" if name in CROSSBARS else "b"][0]
        assert congruent(outline, twin, drawn.height_mm)


def congruent(one: polygon.Outline, other: polygon.Outline, height_mm: float) -> bool:
    """Whether a shift lays one over the other, as it lies or turned by half a turn."""
    centre, wanted = shapely.Polygon(one).centroid, shapely.Polygon(other).centroid
    moved = polygon.translate(one, dx_mm=wanted.x - centre.x, dy_mm=wanted.y - centre.y)
    turned = polygon.rotate(moved, angle_deg=180, about=(wanted.x, wanted.y))
    target = shapely.Polygon(other)
    return any(
        shapely.Polygon(trial).symmetric_difference(target).area < 1e-6 * height_mm**2
        for trial in (moved, turned)
    )


@pytest.mark.parametrize("ends", ENDS)
@pytest.mark.parametrize("slant", [0, 8, 10, 15, -12, 30])
def test_gap_to_five_thousandths_for_usual_slants(ends, slant):
    gaps = joint_gaps(digit_outlines(shape(ends=ends, slant_deg=float(slant))), ends=ends)
    assert len(gaps) == (10 if ends == "blunt" else 8)
    assert all(abs(gap - 5) < 0.005 for gap in gaps.values())


def test_centre_lines_of_an_upright_digit():
    placed = digit_outlines(SHAPE)
    pull = 5 / math.sqrt(2)
    expected = {
        "a": ((21 + pull, 279), (144 - pull, 279)),
        "g": ((21 + pull, 150), (144 - pull, 150)),
        "d": ((21 + pull, 21), (144 - pull, 21)),
        "b": ((144, 150 + pull), (144, 279 - pull)),
        "c": ((144, 21 + pull), (144, 150 - pull)),
        "e": ((21, 21 + pull), (21, 150 - pull)),
        "f": ((21, 150 + pull), (21, 279 - pull)),
    }
    for name, ends in expected.items():
        assert placed[name][1][0] == pytest.approx(ends[0])
        assert placed[name][1][1] == pytest.approx(ends[1])


def test_blunt_bars_fill_the_digit_box():
    """Height 300, width 165, stroke 42, gap 5: uprights of 147.5 mm, crossbars of 71 mm."""
    placed = {
        name: polygon.bounds([outline]) for name, (outline, _) in digit_outlines(shape(ends="blunt")).items()
    }
    assert placed == {
        "a": (47, 258, 118, 300), "b": (123, 152.5, 165, 300), "c": (123, 0, 165, 147.5), "d": (47, 0, 118, 42),
        "e": (0, 0, 42, 147.5), "f": (0, 152.5, 42, 300), "g": (47, 129, 118, 171),
    }  # fmt: skip


def test_one_piece_width_published(published):
    (row,) = [row for row in published("geometry") if row["what"] == "one_piece_width"]
    size = {key: float(value) for key, value in (pair.split("=") for pair in row["inputs"].split())}
    assert one_piece_width(gap_mm=5, ends="pointed", **size) == pytest.approx(
        float(row["published"]), abs=float(row["tolerance"])
    )


@pytest.mark.parametrize("ends", ENDS)
def test_at_the_one_piece_width_all_seven_outlines_are_the_same(ends):
    width = one_piece_width(height_mm=300, stroke_mm=42, gap_mm=5, ends=ends)
    whole = shape(ends=ends, width_mm=width)
    assert is_one_piece(whole)
    areas = [polygon.area(outline) for outline, _ in digit_outlines(whole).values()]
    lengths = [math.dist(*axis) for _, axis in digit_outlines(whole).values()]
    assert areas == pytest.approx([areas[0]] * 7, rel=1e-9)
    assert lengths == pytest.approx([lengths[0]] * 7, rel=1e-9)


def test_a_slant_or_a_tenth_of_a_millimetre_makes_it_two_pieces():
    assert not is_one_piece(shape(width_mm=171.0, slant_deg=5.0))
    assert not is_one_piece(shape(width_mm=171.1))
    assert is_one_piece(shape(width_mm=171.04))


@given(accepted_shapes())
def test_point_and_colon_keep_the_gap(drawn):
    placed = digit_outlines(drawn)
    point = shapely.Polygon(dot(drawn, point_centre(drawn))[0])
    assert point.bounds[1] == pytest.approx(0, abs=0.02), "it stands on the baseline"
    for name in placed:
        assert point.distance(shapely.Polygon(placed[name][0])) >= drawn.gap_mm - 1e-6
    low, high = colon_heights(drawn)
    assert low + high == pytest.approx(drawn.height_mm)
    assert high - low >= drawn.point_mm + drawn.gap_mm


def test_colon_dots_stand_between_a_quarter_and_a_third():
    for stroke in (25.0, 42.0, 50.0):
        low, high = colon_heights(shape(stroke_mm=stroke))
        assert 1 / 4 <= low / 300 <= 1 / 3
        assert 2 / 3 <= high / 300 <= 3 / 4


def test_small_shape_keeps_the_gap_and_scales_the_rest():
    small = small_shape_of(shape(slant_deg=7.0), ratio=0.5)
    assert small == DigitShape(150, 82.5, 21, 5, "pointed", 7.0, 21)


@pytest.mark.parametrize(
    ("changes", "keys", "words"),
    [
        ({"stroke_mm": 105.0}, ["digit.stroke", "digit.stroke"], "would be 60 mm long before any gap"),
        ({"stroke_mm": 60.0, "ends": "blunt", "gap_mm": 12.0}, ["digit.gap"], "from 45 mm to 21 mm"),
        ({"stroke_mm": 20.0, "ends": "blunt", "gap_mm": 20.1}, ["digit.gap"], "up to 20 mm"),
        (
            {"stroke_mm": 20.0, "ends": "blunt", "gap_mm": 10.1, "slant_deg": -30.0},
            ["digit.gap"],
            "up to 10 mm",
        ),
        ({"gap_mm": 60.0}, ["digit.gap"], "the gap shortens the crossbars from 123 mm to 38.15 mm"),
        ({"slant_deg": 31.0}, ["digit.slant"], "-30 deg to 30 deg"),
        ({"slant_deg": math.nan}, ["digit.slant"], "lean"),
        ({"ends": "pointy"}, ["digit.ends"], 'Did you mean "pointed"?'),
        ({"point_mm": 130.0}, ["digit.point"], "up to 124 mm"),
        ({"height_mm": 0.0, "gap_mm": -1.0}, ["digit.height", "digit.gap"], "above 0"),
        (
            {"width_mm": math.inf, "slant_deg": 50.0, "ends": "x"},
            ["digit.width", "digit.slant", "digit.ends"],
            "Known: pointed, blunt, rounded.",
        ),
    ],
)
def test_impossible_shapes_are_refused_with_every_fault(changes, keys, words):
    with pytest.raises(InputError) as refused:
        digit_outlines(shape(**changes))
    assert [problem.key for problem in refused.value.problems] == keys
    assert words in str(refused.value)
    assert all(problem.remedy for problem in refused.value.problems)


def test_a_stroke_too_wide_for_the_opening_is_refused_however_small_the_gap():
    """Blunt crossbars stand between the uprights: 165 - 2*70 = 25 mm, under half a stroke."""
    problems = shape_problems(shape(stroke_mm=70.0, ends="blunt", gap_mm=0.1))
    assert [problem.key for problem in problems] == ["digit.stroke"]
