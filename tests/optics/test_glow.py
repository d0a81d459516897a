"""A fluorescent segment: three violet LEDs under green sheet, foil against white."""

from dataclasses import replace

import pytest

from segkit.optics.brightness import brightness
from segkit.optics.built import Built, light_of, pocket_of
from segkit.optics.diffuser import sheet_findings
from segkit.optics.glow import fluorescent_light
from segkit.working import evaluate


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


def test_violet_that_comes_through(build, make_led):
    # printed for E_x of 15.5 W/m2 behind a green sheet: 1.4 W/m2 through it
    lines = {line.name: line for line in brightness(build()).lines}
    excited, leak = lines["optics.irradiance.bar"].value, lines["optics.violet_leak.bar"].value
    assert leak / excited * 15.5 == pytest.approx(1.4, abs=0.15)
    most = lines["optics.violet_leak_high.bar"].value
    assert most > 2 * leak
    for name in ("optics.violet_leak.bar", "optics.violet_leak_high.bar"):
        given = {each.symbol: each.value for each in lines[name].inputs}
        assert evaluate(lines[name].formula, given) == pytest.approx(lines[name].value)
    told = {finding.code: finding for finding in brightness(build()).findings}
    assert ("violet-leak" in told) == (most > 10)
    strong = brightness(build(led=make_led(wavelength_nm=400, intensity_cd=0, radiant_power_w=0.1)))
    assert next(one for one in strong.findings if one.code == "violet-leak").limit == 10
    blue = brightness(build(led=make_led(wavelength_nm=470, colour="blue")))
    assert not [line for line in blue.lines if "violet" in line.name]
    assert [finding.code for finding in blue.findings] == ["glow-is-a-bracket"]


def test_what_the_sheet_takes_up_is_not_called_given_on(build):
    share = next(line for line in brightness(build()).lines if line.name == "optics.efficiency.bar")
    assert "takes up" in share.title
    assert share.source == "fluorescence-model"


def test_what_foil_brings_is_what_the_note_on_white_walls_says(build, make_sheet, violet, white, glowing):
    foil = make_sheet(role="lining", material="aluminium", reflectance=0.8)
    (note,) = (
        one
        for one in sheet_findings(violet, walls=white, diffuser=glowing, front=None)
        if one.code == "white-absorbs-uv"
    )
    assert "a few percent more light under beams of 30 deg or less" in note.remedy
    assert "a third to three quarters more under 120 deg" in note.remedy
    for full, least, most in ((20, 1.01, 1.1), (30, 1.01, 1.1), (120, 1.33, 1.75)):
        lamp = replace(violet, full_angle_deg=full)
        gain = excitation(build(walls=foil, led=lamp)) / excitation(build(led=lamp))
        assert least < gain < most, full
