"""Luminance and unlit reflectance, with their bands."""

from dataclasses import replace

import pytest

from segkit.optics.brightness import brightness
from segkit.optics.built import Built
from segkit.working import evaluate


@pytest.fixture
def built(hexagon, red, white, opal):
    return Built("crossbar", hexagon, ((-40, 0), (0, 0), (40, 0)), 25, red, 0.02, white, opal, None)


def line_of(seen, what):
    return next(line for line in seen.lines if line.name.split(".")[1] == what)


def test_luminance_of_a_full_calculation(rows, agree, hexagon, make_led, white, opal):
    for inputs, row in rows("luminance of a bar"):
        led = make_led(
            intensity_cd=inputs["mcd"] / 1000,
            full_angle_deg=inputs["full_angle_deg"],
            tip_mm=inputs["tip_mm"],
        )
        places = tuple((x, 0.0) for x in (-45, -15, 15, 45))
        made = Built("bar", hexagon, places, inputs["depth_mm"], led, 0.02, white, opal, None)
        agree(row, brightness(made).luminance_cd_m2[1])


def test_band_has_the_lowest_bin_and_both_walls(built):
    low, expected, high = brightness(built).luminance_cd_m2
    assert 0.35 * expected < low < 0.5 * expected  # lowest bin is half of the typical LED
    assert 1.1 * expected < high < 1.5 * expected


def test_a_tint_divides(built, make_sheet):
    grey = make_sheet(role="front", reflectance=0.04, transmittance=0.3)
    plain, tinted = brightness(built), brightness(replace(built, front=grey))
    assert tinted.luminance_cd_m2 == pytest.approx([0.3 * value for value in plain.luminance_cd_m2])
    assert tinted.unlit_reflectance == pytest.approx(0.09 * plain.unlit_reflectance)
    assert "mirrors" in line_of(tinted, "unlit_reflectance").note


def test_twice_the_current_is_twice_the_light(built):
    once, twice = (brightness(replace(built, current_a=a)).luminance_cd_m2[1] for a in (0.01, 0.02))
    assert twice == pytest.approx(2 * once)


def test_white_walls_brighten_both_the_lit_and_the_unlit_segment(built, make_sheet):
    black = brightness(replace(built, walls=make_sheet(reflectance=0.05)))
    white = brightness(built)
    assert white.luminance_cd_m2[1] > 1.3 * black.luminance_cd_m2[1]
    assert white.unlit_reflectance > black.unlit_reflectance > 0.4


def test_every_line_evaluates_and_says_what_is_left_out(built, glowing, violet):
    for made in (built, replace(built, diffuser=glowing, led=violet)):
        seen = brightness(made)
        assert "LED bodies" in line_of(seen, "front_share").note
        assert line_of(seen, "efficiency").value == pytest.approx(seen.efficiency)
        for line in seen.lines:
            value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
            assert value == pytest.approx(line.value, rel=1e-6), line.name
            assert line.note, line.name
        assert line_of(seen, "luminance").value == seen.luminance_cd_m2[1]
        assert line_of(seen, "luminance_low").value == pytest.approx(seen.luminance_cd_m2[0])
        assert line_of(seen, "luminance_high").value == pytest.approx(seen.luminance_cd_m2[2])
        assert line_of(seen, "unlit_reflectance").value == seen.unlit_reflectance


def test_sphere_rule_is_shown_beside_and_lower(built):
    seen = brightness(built)
    assert line_of(seen, "plain_cavity").value < 0.85 * line_of(seen, "illuminance").value
