"""A fluorescent segment: three violet LEDs under green sheet, foil against white."""

import pytest

from segkit.optics.brightness import brightness
from segkit.optics.built import Built, light_of, pocket_of
from segkit.optics.glow import fluorescent_light


@pytest.fixture
def build(hexagon, violet, glowing, white):
    def make(walls=white, led=violet):
        return Built("bar", hexagon, ((-40, 0), (0, 0), (40, 0)), 25, led, 0.02, walls, glowing, None)

    return make


def excitation(built):
    seen = fluorescent_light(built, light_of(built, pocket_of(built)))
    return next(line.value for line in seen.lines if line.name == "optics.irradiance.bar")


def test_excitation_of_the_typical_build(build, make_sheet, make_led, violet):
    foil = make_sheet(role="lining", material="aluminium", reflectance=0.9)
    wide = make_led(
        wavelength_nm=400,
        intensity_cd=0,
        radiant_power_w=0.012,
        full_angle_deg=120,
        colour="near-ultraviolet",
    )
    # printed for 3 LEDs of 12 mW on 2200 mm2: 15.5 W/m2 between foil, 9.8 between white walls. From memory and
    # with a beam that is not stated; wide and narrow ones must lie on either side of it for foil.
    assert excitation(build(walls=foil, led=wide)) < 15.5 < excitation(build(walls=foil, led=violet))
    assert excitation(build(led=wide)) == pytest.approx(9.8, rel=0.2)


def test_a_range_and_the_blue_led_too(build, make_led):
    low, expected, high = brightness(build()).luminance_cd_m2
    assert high > 5 * low > 0
    blue = make_led(wavelength_nm=470, colour="blue")
    seen = brightness(build(led=blue))
    assert seen.luminance_cd_m2[0] < expected * 100
    assert any(line.name == "optics.irradiance.bar" for line in seen.lines)


def test_unlit_sheet_glows_by_day(build):
    unlit = next(line for line in brightness(build()).lines if line.name.startswith("optics.unlit"))
    assert "glows in daylight" in unlit.note
