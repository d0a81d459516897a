import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.viewing.proportions import judge_proportions

USUAL = {
    "height_mm": 280.0, "width_mm": 154.0, "stroke_mm": 39.0, "spacing_mm": 60.0, "gap_mm": 5.0,
    "distance_m": 24.0, "eyesight": 40.0,
}  # fmt: skip


def codes(**changed):
    return [finding.code for finding in judge_proportions(**{**USUAL, **changed}).findings]


def test_usual_digit_passes():
    assert codes() == ["gap-free"]


def test_stroke_between_a_twelfth_and_a_sixth():
    assert codes(height_mm=240.0, stroke_mm=20.0) == ["gap-free"]
    assert codes(height_mm=240.0, stroke_mm=40.0, width_mm=160.0) == ["gap-free"]
    assert codes(stroke_mm=23.0) == ["thin-stroke", "gap-free"]
    assert codes(stroke_mm=47.0) == ["bold-stroke", "gap-free"]


def test_openings_at_least_one_stroke():
    # For a width of 0.55 H the opening is one stroke at 0.55 / 3 = 0.183 H.
    assert "closed-opening" not in codes(width_mm=117.0)
    assert "closed-opening" in codes(width_mm=116.0)
    assert "closed-opening" in codes(stroke_mm=100.0, spacing_mm=100.0)


def test_digits_at_least_one_stroke_apart():
    assert "tight-spacing" in codes(spacing_mm=38.9)
    assert "tight-spacing" not in codes(spacing_mm=39.0)


def test_gap_begins_to_show_where_it_fills_the_smallest_angle():
    # 20/20 resolves 1 arcmin: 1 mm at 3.438 m.
    made = judge_proportions(**{**USUAL, "gap_mm": 1.0, "eyesight": 20.0})
    assert made.gap_shows_m == pytest.approx(3.438, abs=0.001)
    assert codes(gap_mm=5.0, distance_m=8.0) == ["gap-shows"]
    assert codes(gap_mm=0.0) == []


@given(st.floats(0.5, 20), st.floats(1, 100), st.floats(10, 200))
def test_gap_is_free_exactly_beyond_that_distance(gap_mm, distance_m, eyesight):
    made = judge_proportions(**{**USUAL, "gap_mm": gap_mm, "distance_m": distance_m, "eyesight": eyesight})
    if not math.isclose(distance_m, made.gap_shows_m, rel_tol=1e-6):
        expected = "gap-free" if distance_m > made.gap_shows_m else "gap-shows"
        assert [f.code for f in made.findings] == [expected]


def test_lines(lines_hold):
    made = judge_proportions(**USUAL)
    lines_hold(made.lines)
    assert {line.name for line in made.lines} == {
        "viewing.stroke_ratio", "viewing.inner_opening", "viewing.gap_shows"
    }  # fmt: skip


def test_impossible_sizes_are_refused_together():
    with pytest.raises(InputError) as caught:
        judge_proportions(**{**USUAL, "height_mm": 0.0, "gap_mm": -1.0})
    assert [problem.key for problem in caught.value.problems] == ["height_mm", "gap_mm"]
