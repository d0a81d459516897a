"""Spacing rules against the published fits, light-box practice and layouts found by full calculation."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.optics import spacing
from segkit.optics.photometry import lobe_exponent
from tests.optics.flat_sheet import target_illuminance

EXPONENTS = st.floats(0.3, 80)


def test_pitch_limits(rows, agree):
    for inputs, row in rows("pitch over gap"):
        exponent = lobe_exponent(inputs["full_angle_deg"])
        agree(row, spacing.pitch_limit(evenness=inputs["evenness"], exponent=exponent))


def test_published_flat_spacing_is_flat(rows, agree):
    for inputs, row in rows("flat line spacing"):
        ratio = spacing.flat_line_spacing(inputs["exponent"])
        agree(row, ratio)
        # the corrected published fit gives a row of at least 0.995 evenness (0.997 at m = 1)
        assert spacing.line_evenness(pitch_over_gap=ratio, exponent=inputs["exponent"]) > 0.994


def test_light_box_practice(rows):
    # the makers' tables for 120 degree modules lie where our row is at least 0.8 even, and not needlessly close
    exponent = lobe_exponent(120)
    for inputs, row in rows("light-box pitch"):
        even = [
            spacing.line_evenness(pitch_over_gap=inputs[end] / inputs["depth_in"], exponent=exponent)
            for end in ("low_in", "high_in")
        ]
        assert even[1] >= 0.75, f"{row['inputs']}: {even}"
        limit = spacing.pitch_limit(evenness=0.9, exponent=exponent) * inputs["depth_in"]
        assert inputs["low_in"] <= limit * 1.01


def test_light_box_depths(rows):
    for inputs, row in rows("light-box depth"):
        low, high = (float(value) for value in row["published"].split(".."))
        ours = spacing.depth_range(1000 / inputs["leds_per_m"])
        assert ours == pytest.approx((low, high), abs=float(row["tolerance"]))


def test_counts_of_full_calculations(rows):
    # our endless row asks for the least count that a full calculation finds, or one LED more; at evenness 0.9,
    # where the dark ends of the pocket matter, it can be one too few
    for inputs, row in rows("count on a bar"):
        limit = spacing.pitch_limit(
            evenness=inputs["evenness"], exponent=lobe_exponent(inputs["full_angle_deg"])
        )
        ours = math.ceil(120 / (limit * (inputs["depth_mm"] - inputs["tip_mm"])))
        fewest = 0 if inputs["evenness"] <= 0.8 else -1
        assert fewest <= ours - int(row["published"]) <= int(row["tolerance"]), (
            f"{row['inputs']}: ours {ours}"
        )


@given(exponent=EXPONENTS, ratio=st.floats(0.2, 3))
def test_line_levels_are_those_of_a_long_row(exponent, ratio):
    gap, pitch = 20.0, 20.0 * ratio

    def light(x):
        return sum(
            target_illuminance(axis_cd=1, gap_mm=gap, offset_mm=x - pitch * k, exponent=exponent)
            for k in range(-150, 151)
        )

    alone = target_illuminance(axis_cd=1, gap_mm=gap, offset_mm=0, exponent=exponent)
    steps = [light(pitch * (index + 0.5) / 16) / alone for index in range(16)]
    low, mean = spacing.line_levels(pitch_over_gap=ratio, exponent=exponent)
    assert low == pytest.approx(light(pitch / 2) / alone, rel=2e-3)
    assert low <= min(steps) * (1 + 2e-3)
    assert mean == pytest.approx(sum(steps) / 16, rel=5e-3)


@given(exponent=EXPONENTS, evenness=st.floats(0.3, 0.95), ratio=st.floats(0.1, 5))
def test_limits_go_the_right_way(exponent, evenness, ratio):
    limit = spacing.pitch_limit(evenness=evenness, exponent=exponent)
    assert spacing.line_evenness(pitch_over_gap=limit, exponent=exponent) == pytest.approx(evenness, abs=1e-6)
    assert spacing.pitch_limit(evenness=evenness, exponent=exponent + 1) < limit
    assert 0 <= spacing.line_evenness(pitch_over_gap=ratio, exponent=exponent) <= 1
    closer = spacing.line_evenness(pitch_over_gap=ratio * 0.9, exponent=exponent)
    assert closer >= spacing.line_evenness(pitch_over_gap=ratio, exponent=exponent) - 1e-9


@pytest.mark.parametrize("evenness", [0, 0.29, 0.96, 1, 70, math.nan])
def test_evenness_that_cannot_be_asked_for(evenness):
    with pytest.raises(InputError, match=r"0\.3 to 0\.95"):
        spacing.pitch_limit(evenness=evenness, exponent=1)
