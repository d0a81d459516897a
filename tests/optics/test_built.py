"""The pocket as built and what its lines share."""

from dataclasses import replace

import pytest

from segkit.optics.built import (
    DEFAULT_LOWEST,
    Built,
    light_of,
    lowest_of,
    named,
    pocket_of,
    share_lines,
    with_walls,
)
from segkit.working import evaluate


@pytest.fixture
def built(hexagon, red, white, opal):
    return Built("small upright", hexagon, ((-40, 0), (0, 0), (40, 0)), 25, red, 0.02, white, opal, None)


def test_pocket_of_the_build(built):
    pocket = pocket_of(built)
    assert (pocket.gap_mm, pocket.front_area_mm2) == (19, 2200)
    assert pocket.back_reflectance == pocket.wall_reflectance == 0.85
    assert pocket.wall_area_mm2 == pytest.approx(6414, abs=0.5)


def test_a_back_of_its_own(built, make_sheet):
    pocket = pocket_of(replace(built, reflector=make_sheet(reflectance=0.3)))
    assert (pocket.wall_reflectance, pocket.back_reflectance) == (0.85, 0.3)
    assert light_of(built, pocket).front_per_flux < light_of(built, pocket_of(built)).front_per_flux


def test_other_walls(built):
    pocket = pocket_of(built)
    other = with_walls(pocket, wall=-0.2, back=2.0)
    assert (other.wall_reflectance, other.back_reflectance) == (0.0, 0.97)  # the whitest there is
    assert light_of(built, with_walls(pocket, wall=0, back=0)).front_per_flux < 1


def test_share_lines_evaluate(built):
    light = light_of(built, pocket_of(built))
    lines = share_lines(built, light, pocket=pocket_of(built), leaving=0.5)
    assert lines[0].name == named("front_share", "small upright") == "optics.front_share.small-upright"
    for line in lines:
        value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
        assert value == pytest.approx(line.value, rel=1e-9)
    assert lines[0].value == light.front_per_flux
    assert lines[1].value == pytest.approx(0.5 * light.front_per_flux)
    assert "not modelled" in lines[0].note


def test_lowest_intensity(red, make_led):
    assert lowest_of(red) == (0.5, "arithmetic")
    assert lowest_of(make_led(intensity_min_cd=0)) == (DEFAULT_LOWEST, "led-bins")
