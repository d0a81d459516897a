"""LED lobe, flux and the eye's curve against published values and an integral of our own."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.optics import photometry
from tests.optics.flat_sheet import target_illuminance

ANGLES = st.floats(1, 179)


def computed(what, inputs):
    if what == "V":
        return photometry.photopic(inputs["wavelength_nm"])
    if what == "lumens per watt":
        return photometry.lumens_per_watt(inputs["wavelength_nm"])
    if what == "face luminance":
        return photometry.diffuse_luminance(
            illuminance_lx=inputs["illuminance_lx"], factor=inputs["reflectance"]
        )
    exponent = photometry.lobe_exponent(inputs["full_angle_deg"])
    flux = photometry.lobe_flux(axis_cd=1.0, exponent=exponent)
    if what == "lobe exponent":
        return exponent
    if what == "flux per candela":
        return flux
    return photometry.cone_flux(axis_cd=1.0, full_angle_deg=inputs["full_angle_deg"]) / flux - 1


@pytest.mark.parametrize(
    "what",
    ["lobe exponent", "flux per candela", "cone formula miss", "V", "lumens per watt", "face luminance"],
)
def test_published_values(what, rows, agree):
    for inputs, row in rows(what):
        agree(row, computed(what, inputs))


def test_white_face_drowns_a_segment_in_the_sun_and_a_black_one_does_not():
    # 5000 cd/m2 segment in 100 000 lx: 4.1 : 1 against a face of 5 %, 1.2 : 1 against one of 80 % (arithmetic)
    black, white = (photometry.diffuse_luminance(illuminance_lx=1e5, factor=r) for r in (0.05, 0.8))
    assert (5000 + black) / black == pytest.approx(4.1, abs=0.05)
    assert (5000 + white) / white == pytest.approx(1.2, abs=0.05)


def test_cones_of_a_strip_overlap_three_deep():
    # strip of 60 LEDs a metre, 120 degrees, 15 mm deep: cones 52 mm wide, about 3 overlap (common practice)
    width = photometry.beam_width(gap_mm=15, full_angle_deg=120)
    assert width == pytest.approx(52, abs=0.5)
    assert width / (1000 / 60) == pytest.approx(3.1, abs=0.05)


@pytest.mark.parametrize(("exponent", "ratio"), [(1, 0.25), (20, 2**-11.5)])
def test_sheet_off_the_axis_by_the_gap(exponent, ratio):
    # cos^4 law for a Lambertian source: a quarter at 45 degrees; cos^(m+3) in general
    at = [target_illuminance(axis_cd=1, gap_mm=30, offset_mm=s, exponent=exponent) for s in (0, 30)]
    assert at[1] / at[0] == pytest.approx(ratio, rel=1e-9)
    assert at[0] == pytest.approx(1 / 0.03**2)  # inverse square law, 1 cd at 30 mm


@given(full=ANGLES)
def test_half_the_intensity_at_half_the_full_angle(full):
    exponent = photometry.lobe_exponent(full)
    half = photometry.intensity(axis_cd=1, angle_deg=full / 2, exponent=exponent)
    assert half == pytest.approx(0.5, rel=1e-9)


@given(full=st.floats(10, 170))
def test_flux_is_the_integral_of_the_intensity(full):
    exponent, steps = photometry.lobe_exponent(full), 2000
    angles = [(index + 0.5) * 90 / steps for index in range(steps)]
    total = sum(
        photometry.intensity(axis_cd=1, angle_deg=a, exponent=exponent)
        * 2 * math.pi * math.sin(math.radians(a)) * math.radians(90 / steps)
        for a in angles
    )  # fmt: skip
    # the lobe of a very wide LED ends with a steep edge at 90 degrees that the sum sees coarsely
    assert photometry.lobe_flux(axis_cd=1, exponent=exponent) == pytest.approx(total, rel=5e-4)


@given(a=ANGLES, b=ANGLES)
def test_a_wider_beam_of_the_same_intensity_has_more_light(a, b):
    low, high = sorted((a, b))
    flux = [photometry.lobe_flux(axis_cd=1, exponent=photometry.lobe_exponent(x)) for x in (low, high)]
    assert flux[0] <= flux[1]


@pytest.mark.parametrize("full", [0.0, 0.9, 179.5, 180, 360, -30, math.nan])
def test_no_beam_angle(full):
    with pytest.raises(InputError) as caught:
        photometry.lobe_exponent(full)
    assert "1 to 179 deg" in str(caught.value)


def test_nothing_goes_backwards():
    assert photometry.intensity(axis_cd=5, angle_deg=90, exponent=1) == 0
    assert photometry.intensity(axis_cd=5, angle_deg=120, exponent=0.1) == 0


@given(nm=st.floats(300, 900))
def test_the_eye_has_one_peak(nm):
    v = photometry.photopic(nm)
    assert 0 <= v <= 1
    if 380 <= nm < 554:
        assert photometry.photopic(nm + 1) > v > 0
    if 556 < nm <= 779:
        assert photometry.photopic(nm + 1) < v
    if not 380 <= nm <= 780:
        assert v == 0


def test_between_the_rows_of_the_table():
    # 618 nm lies between 0.4412 (615) and 0.381 (620)
    assert 0.381 < photometry.photopic(618) < 0.4412
    assert photometry.photopic(780) == pytest.approx(0.000015)


def test_led_flux_goes_with_the_current(red, make_led):
    once = photometry.led_flux(red, current_a=0.01)
    assert photometry.led_flux(red, current_a=0.02) == pytest.approx(2 * once)
    assert once == pytest.approx(0.25 * 1.0798, rel=1e-4)  # 250 mcd of a 60 degree lobe
    # 5000 mcd, 60 degrees: 5.40 lm (worked example of a white 5 mm part)
    assert photometry.led_flux(make_led(intensity_cd=5.0), current_a=0.02) == pytest.approx(5.40, abs=0.005)


def test_watts_and_lumens_of_one_led(red, violet):
    watts = photometry.led_radiant_power(red, current_a=0.02)
    assert watts * 683 * 0.321 == pytest.approx(photometry.led_flux(red, current_a=0.02), rel=1e-9)
    assert photometry.led_radiant_power(violet, current_a=0.01) == pytest.approx(0.006)
    # 12 mW at 400 nm, where the eye has 0.04 % of its peak: 3 thousandths of a lumen
    assert photometry.led_flux(violet, current_a=0.02) == pytest.approx(0.012 * 683 * 0.000396)


def test_led_without_figures_and_without_current(red, make_led):
    with pytest.raises(InputError, match="no figure for its light"):
        photometry.led_radiant_power(make_led(intensity_cd=0), current_a=0.01)
    with pytest.raises(InputError, match="no current"):
        photometry.led_flux(red, current_a=0)


@pytest.mark.parametrize(
    ("full", "name", "noted"),
    [
        (7.5, "clear", True),
        (30, "clear", False),
        (15, "clear", False),
        (30, "diffused", True),
        (60, "diffused", False),
    ],
)
def test_half_angle_in_the_place_of_a_full_one(full, name, noted, make_led):
    note = photometry.angle_note(make_led(full_angle_deg=full, name=f"LED 5 mm red, {name}"))
    assert (note is not None) == noted
    if note:
        both = [
            photometry.lobe_flux(axis_cd=0.5, exponent=photometry.lobe_exponent(a)) for a in (full, 2 * full)
        ]
        assert f"{both[0]:.2g} lm" in note.text
        assert f"{both[1]:.2g} lm" in note.text
        assert f"{2 * full:g} deg" in note.remedy


def test_intensity_and_voltage_measured_at_different_currents(make_led):
    # an intensity figure at 2 mA on a part whose voltage is given at 20 mA: ten times as much at 20 mA
    led = make_led(intensity_current_a=0.002)
    assert photometry.led_flux(led, current_a=0.02) == pytest.approx(10 * 0.5 * 1.0798, rel=1e-4)
