"""The pocket as built and what its lines share."""

import pytest

from segkit.optics.built import DEFAULT_LOWEST, Built, light_of, lowest_of, named, pocket_of, share_line
from segkit.working import evaluate


@pytest.fixture
def built(hexagon, red, white, opal):
    return Built("small upright", hexagon, ((-40, 0), (0, 0), (40, 0)), 25, red, 0.02, white, opal, None)


def test_pocket_of_the_build(built):
    pocket = pocket_of(built)
    assert (pocket.gap_mm, pocket.front_area_mm2) == (19, 2200)
    assert pocket.back_reflectance == pocket.wall_reflectance == 0.85
    assert pocket.wall_area_mm2 == pytest.approx(6414, abs=0.5)


def test_other_walls(built):
    pocket = pocket_of(built)
    dark, as_is, white = (light_of(built, pocket, wall).front_per_flux for wall in (0.0, None, 2.0))
    assert dark < as_is < white  # and 2.0 is taken for 0.97, the whitest there is


def test_share_line_evaluates(built):
    light = light_of(built, pocket_of(built))
    line = share_line(built, light, diffuser_reflectance=0.4)
    assert line.name == named("front_share", "small upright") == "optics.front_share.small-upright"
    value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
    assert value == pytest.approx(line.value, rel=1e-9)
    assert "estimate" in line.note


def test_lowest_intensity(red, make_led):
    assert lowest_of(red) == (0.5, "arithmetic")
    assert lowest_of(make_led(intensity_min_cd=0)) == (DEFAULT_LOWEST, "led-bins")
