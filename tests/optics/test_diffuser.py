"""Sheets: what they pass, what they cannot be, what is to be said about an LED behind them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.optics import diffuser as sheets
from segkit.optics.photometry import photopic


def codes(led, walls, diffuser, front=None):
    found = sheets.sheet_findings(led, walls=walls, diffuser=diffuser, front=front)
    return {finding.code: finding for finding in found}


def test_tint_costs_light_once_and_reflection_twice(make_sheet):
    grey = make_sheet(role="front", reflectance=0.04, transmittance=0.3)
    assert sheets.through_front(grey) == pytest.approx((0.3, 0.09))
    assert sheets.through_front(None) == (1, 1)


def test_nothing_to_say_about_a_plain_build(red, white, opal):
    assert codes(red, white, opal) == {}


def test_clear_sheet_shows_the_leds(red, white, make_sheet):
    sheet = make_sheet(role="diffuser", reflectance=0.12, transmittance=0.85)
    assert codes(red, white, sheet)["hot-spots"].value == 0.85
    just = make_sheet(role="diffuser", reflectance=0.4, transmittance=0.6)
    assert "hot-spots" not in codes(red, white, just)


@pytest.mark.parametrize(
    ("nm", "shown"), [(395, True), (419.9, True), (420, False), (470, False), (0, False)]
)
def test_eye_caution_below_420_nm_under_any_sheet(nm, shown, make_led, white, opal, glowing):
    led = make_led(wavelength_nm=nm)
    for sheet in (opal, glowing):
        assert ("near-uv-eyes" in codes(led, white, sheet)) == shown
    if shown:
        told = codes(led, white, opal)["near-uv-eyes"]
        for words in ("look dim", "glasses", "children", "tool", "power"):
            assert words in told.text + told.remedy


def test_ultraviolet_under_a_plain_sheet_is_stopped(violet, white, opal, glowing):
    stop = codes(violet, white, opal)["nothing-to-see"]
    assert (stop.level, stop.holds) == ("stop", ("diffuser",))
    assert "nothing-to-see" not in codes(violet, white, glowing)


@pytest.mark.parametrize(
    ("nm", "emission", "glows"),
    [
        (400, 525, True),
        (470, 525, True),
        (470, 600, True),
        (525, 600, True),
        (525, 525, False),
        (625, 600, False),
        (0, 525, False),
    ],
)
def test_what_makes_a_sheet_glow(nm, emission, glows, make_led, make_sheet, white):
    led = make_led(wavelength_nm=nm)
    sheet = make_sheet(role="fluorescent", reflectance=0.1, transmittance=0.5, emission_nm=emission)
    assert sheets.excites(led, sheet) == glows
    assert ("no-fluorescence" in codes(led, white, sheet)) == (not glows)


def test_walls_that_leak_and_tints_of_the_wrong_colour(red, make_led, make_sheet, opal):
    assert "light-leaks" in codes(red, make_sheet(opaque=False), opal)
    tint = make_sheet(
        id="red-tint", name="Acrylic, red tint", role="front", reflectance=0.04, transmittance=0.8
    )
    green = make_led(colour="green", wavelength_nm=525)
    assert "wrong-tint" in codes(green, make_sheet(), opal, tint)
    assert "wrong-tint" not in codes(red, make_sheet(), opal, tint)
    grey = make_sheet(id="grey-tint", name="Acrylic, grey tint", transmittance=0.3, reflectance=0.04)
    assert "wrong-tint" not in codes(green, make_sheet(), opal, grey)


def test_white_takes_up_ultraviolet_and_aluminium_does_not(violet, white, glowing, make_sheet):
    foil = make_sheet(role="lining", material="aluminium", reflectance=0.85)
    assert "white-absorbs-uv" in codes(violet, white, glowing)
    assert "white-absorbs-uv" not in codes(violet, foil, glowing)
    assert sheets.reflectance_at_400(white) == (0.30, 0.45, 0.60)
    low, expected, high = sheets.reflectance_at_400(foil)
    assert 0.75 < low < expected <= high <= 0.92
    assert sheets.reflectance_at_400(make_sheet(reflectance=0.05)) == (0.05, 0.05, 0.05)
    panel = make_sheet(role="board", material="aluminium composite", reflectance=0.8)
    assert sheets.reflectance_at_400(panel) == (0.30, 0.45, 0.60)


def test_published_luminances_lie_in_the_bracket(rows):
    for inputs, row in rows("fluorescent luminance"):
        glow = sheets.fluorescent_glow(
            irradiance_w_m2=(inputs["irradiance"],) * 3,
            excitation_nm=400,
            emission_nm=inputs["emission_nm"],
            cavity_reflectance=0.65,
        )
        low, _, high = glow.luminance_cd_m2
        for printed in row["published"].split(".."):
            assert low <= float(printed) <= high, (
                f"{row['inputs']}: printed {printed}, ours {low:.0f}..{high:.0f}"
            )


@given(e=st.floats(0.1, 100), nm=st.floats(375, 470), emission=st.floats(500, 640), g=st.floats(0, 0.95))
def test_glow_is_a_wide_bracket_and_makes_no_energy(e, nm, emission, g):
    glow = sheets.fluorescent_glow(
        irradiance_w_m2=(e, e, e), excitation_nm=nm, emission_nm=emission, cavity_reflectance=g
    )
    low, expected, high = glow.luminance_cd_m2
    assert high / low > 5  # yield times escape is known to a factor of four only
    assert low < expected < high
    watts = high * 3.141592653589793 / 683 / sheets.emission_v(emission)
    assert watts < e  # fewer watts out than in


def test_emission_weighted_eye_response():
    assert sheets.emission_v(525) == 0.75
    assert sheets.emission_v(612.5) == pytest.approx((0.58 + 0.33) / 2)
    assert sheets.emission_v(650) == photopic(650)


def test_sheets_that_cannot_be(white, opal, make_sheet):
    sheets.refuse_sheets(walls=white, diffuser=opal, front=None)
    with pytest.raises(InputError) as caught:
        sheets.refuse_sheets(
            walls=make_sheet(reflectance=1.0),
            diffuser=make_sheet(id="too-good", reflectance=0.6, transmittance=0.7),
            front=make_sheet(id="board-in-front"),
        )
    text = str(caught.value)
    assert len(caught.value.problems) == 3
    assert "walls cannot reflect everything" in text
    assert "come to 1.30" in text
    assert '"board-in-front": this sheet lets no light through' in text
