"""What can go wrong with a pocket: each way is refused, warned of, or shown to do no harm."""

import math
from dataclasses import replace

import numpy as np
import pytest

from segkit.errors import InputError
from segkit.optics import photometry
from segkit.optics.brightness import brightness
from segkit.optics.built import Built
from segkit.optics.patches import FRONT, clean_outline, patches_of
from segkit.optics.photometry import angle_note, cone_flux, led_flux, lobe_exponent, lobe_flux
from segkit.optics.placement import light_segment
from segkit.optics.pocket import Pocket
from segkit.optics.solver import light_columns, pocket_light
from tests.optics.tracer import Grid, trace

BAR = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
THREE = ((-40.0, 0.0), (0.0, 0.0), (40.0, 0.0))
WHITE = Pocket(BAR, 25, 6, 0.85, 0.85, 0.4, 0.5)
M120, M30 = lobe_exponent(120), lobe_exponent(30)


def light(pocket=WHITE, places=THREE, exponent=M120):
    return pocket_light(pocket, places=places, exponent=exponent)


def refused(pocket=WHITE, places=THREE, exponent=M120):
    """The message; light_columns must refuse in the same words."""
    with pytest.raises(InputError) as caught:
        light(pocket, places, exponent)
    with pytest.raises(InputError) as again:
        light_columns(pocket, places=places, exponent=exponent)
    assert str(again.value) == str(caught.value)
    return str(caught.value)


def traced_front(pocket, places, full_angle_deg, photons=60_000):
    found = trace(
        pocket.outline, depth=pocket.depth_mm, tip=pocket.tip_mm, places=places, full_angle_deg=full_angle_deg,
        walls=pocket.wall_reflectance, back=pocket.back_reflectance, diffuser=pocket.diffuser_reflectance,
        grid=Grid(0, 0, 1, 1, 1), photons=photons,
    )  # fmt: skip
    return found.mean()


def sound(found):
    assert found.energy_error < 1e-6
    assert np.nanmin(found.map.values) >= 0
    assert 0 <= found.map.evenness <= 1
    return True


# --- the height of the tip ---------------------------------------------------------------------------


@pytest.mark.parametrize("tip", [25.0, 30.0])
def test_tip_at_or_above_the_diffuser_is_refused(tip):
    text = refused(replace(WHITE, tip_mm=tip))
    assert f"the LED's tip ({tip:g} mm) must lie between the back and the diffuser" in text
    assert "Make the pocket deeper" in text


def test_tip_at_or_above_the_diffuser_stops_the_design(make_bar, make_led, white, opal):
    for tip in (25, 40):
        lit = light_segment(
            make_bar(), led=make_led(tip_mm=tip), current_a=0.015, depth_mm=25, walls=white, diffuser=opal,
            front=None, per_segment=3,
        )  # fmt: skip
        found = next(finding for finding in lit.findings if finding.code == "led-above-diffuser")
        assert (found.level, lit.evenness, lit.front) == ("stop", 0, None)
        assert f"{tip} mm" in found.text
        assert "deeper" in found.remedy


@pytest.mark.parametrize("tip", [-1.0, math.nan, math.inf])
def test_tip_below_the_back_or_no_number_is_refused(tip):
    assert "0 mm or more" in refused(replace(WHITE, tip_mm=tip))


def test_tip_on_the_back_is_harmless():
    mean, noise = traced_front(replace(WHITE, tip_mm=0), THREE, 120)
    found = light(replace(WHITE, tip_mm=0.0))
    assert sound(found)
    assert found.front_per_flux == pytest.approx(mean, abs=0.003 * mean + 3 * noise)


def test_tip_on_a_line_between_patches_is_harmless():
    # patches of a quarter of the width: 6.25 mm is the first line of a wall 25 mm high, 5 mm one of five
    for line in (5.0, 6.25, 12.5):
        here, beside = (light(replace(WHITE, tip_mm=line + by)).front_per_flux for by in (0, 1e-7))
        assert here == pytest.approx(beside, rel=2e-4)  # one more or less row of patches at most


@pytest.mark.parametrize(("gap", "full"), [(0.1, 120), (1, 120), (1, 20), (8, 10)])
def test_tip_just_below_the_diffuser_never_looks_even(gap, full):
    # the spot is smaller than a cell of the map and could fall between the middles of the cells
    near = replace(WHITE, tip_mm=25.0 - gap)
    between = tuple((x + 1.0, 1.0) for x, _ in THREE)  # where four cells of 2 mm meet
    for places in (THREE, between):
        found = light(near, places, lobe_exponent(full))
        assert sound(found)
        assert found.map.evenness < 0.3
        assert found.map.mean == pytest.approx(found.front_per_flux, rel=0.03)  # no light lost between cells


# --- places of LEDs ----------------------------------------------------------------------------------


@pytest.mark.parametrize("place", [(70.0, 0.0), (0.0, 10.001), (math.nan, 0.0)])
def test_led_outside_or_nowhere_is_refused(place):
    assert "every LED must stand inside the pocket" in refused(places=(place,))


def test_pocket_without_leds_is_refused():
    assert "there must be one" in refused(places=())


def test_own_place_outside_is_refused_with_the_room_there_is(make_bar, make_led, white, opal):
    with pytest.raises(InputError, match=r"LED 1 stands 10\.0 mm outside the pocket"):
        light_segment(
            make_bar(), led=make_led(), current_a=0.015, depth_mm=25, walls=white, diffuser=opal, front=None,
            per_segment=None, places=((0.0, 20.0),),
        )  # fmt: skip


def test_led_within_two_millimetres_of_a_wall_is_warned_of(make_bar, make_led, white, opal):
    lit = light_segment(
        make_bar(50), led=make_led(body_mm=3), current_a=0.015, depth_mm=25, walls=white, diffuser=opal,
        front=None, per_segment=None, evenness=0.3, places=((-10.0, 8.1), (10.0, 0.0)),
    )  # fmt: skip
    assert {"led-at-wall", "light-near-wall"} <= {finding.code for finding in lit.findings}


@pytest.mark.parametrize(("room", "full"), [(2, 30), (0.5, 120), (0.5, 30)])
def test_mean_holds_with_an_led_close_to_a_wall(room, full):
    place = ((0.0, 10.0 - room),)
    mean, noise = traced_front(WHITE, place, full)
    assert light(places=place, exponent=lobe_exponent(full)).front_per_flux == pytest.approx(
        mean, abs=0.004 * mean + 3 * noise
    )


# --- outlines ----------------------------------------------------------------------------------------

ELL = ((0, 0), (40, 0), (40, 20), (20, 20), (20, 40), (0, 40))
STAR = tuple((20 * math.cos(2 * math.tau * k / 5), 20 * math.sin(2 * math.tau * k / 5)) for k in range(5))


@pytest.mark.parametrize("outline", [ELL, ELL[::-1], STAR], ids=["ell", "ell clockwise", "crossing itself"])
def test_outline_that_is_not_convex_is_refused(outline):
    text = refused(replace(WHITE, outline=outline), places=((5.0, 5.0),))
    assert "not convex" in text
    assert "convex pockets with walls between them" in text


@pytest.mark.parametrize(
    "outline", [((0, 0), (1, 1)), ((0, 0), (5, 0), (9, 0)), ((1, 1),) * 5, ((0, 0), (4, 2), (4, 0), (0, 2))]
)
def test_outline_without_area_is_refused(outline):
    assert "no area" in refused(replace(WHITE, outline=outline), places=((1.0, 0.0),))


def test_double_and_collinear_corners_and_either_sense_are_harmless():
    odd = (
        (-60, 0),
        (-60, 0),
        (-50, -10),
        (0, -10),
        (50, -10),
        (60, 0),
        (50, 10),
        (50, 10.0000001),
        (-50, 10),
    )
    for outline in (odd, odd[::-1], BAR[::-1], BAR[2:] + BAR[:2]):
        found = light(replace(WHITE, outline=outline))
        assert found.front_per_flux == pytest.approx(light().front_per_flux, rel=1e-9)
        assert found.map.values == pytest.approx(light().map.values, rel=1e-9, nan_ok=True)


def test_slivers_of_cells_are_dropped_and_the_area_stays():
    grazing = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10 + 1e-7), (-50, 10 - 1e-7))
    made = patches_of(clean_outline(grazing), depth_mm=25, tip_mm=6)
    front = made.areas_mm2[made.surface == FRONT]
    assert front.min() > 1e-6 * front.max()
    assert front.sum() == pytest.approx(2200, rel=1e-6)
    assert sound(light(replace(WHITE, outline=grazing)))


def test_tips_sharper_than_thirty_degrees_are_harmless():
    sharp = replace(WHITE, outline=((-60, 0), (-20, -5), (20, -5), (60, 0), (20, 5), (-20, 5)), depth_mm=20)
    mean, noise = traced_front(sharp, THREE, 60)
    found = light(sharp, exponent=lobe_exponent(60))
    assert sound(found)
    assert found.front_per_flux == pytest.approx(mean, abs=0.003 * mean + 3 * noise)


def test_no_cell_lies_on_an_edge():
    # the light of a point on an edge jumps by half: cells keep off it by a twentieth of the width
    for outline in (BAR, tuple((x / 10, y / 10) for x, y in BAR)):
        found = light(replace(WHITE, outline=outline, tip_mm=2), places=((0.0, 0.0),)).map
        row, column = np.nonzero(np.isfinite(found.values))
        x = found.left_mm + (column + 0.5) * found.pitch_mm
        y = found.bottom_mm + (row + 0.5) * found.pitch_mm
        room = [
            ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / math.dist((ax, ay), (bx, by))
            for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1], strict=True)
        ]
        assert np.min(room) >= found.inset_mm - 1e-9 > 0.05


def test_turning_and_moving_the_pocket_changes_nothing():
    c, s = math.cos(math.radians(33)), math.sin(math.radians(33))

    def moved(point):
        return (point[0] * c - point[1] * s + 300, point[0] * s + point[1] * c - 70)

    turned = replace(WHITE, outline=tuple(map(moved, BAR)))
    found = light(turned, tuple(map(moved, THREE)), M30)
    # patches are cut along x and y: other patches, the same pocket
    assert found.front_per_flux == pytest.approx(light(exponent=M30).front_per_flux, rel=2e-3)
    assert found.cavity_reflectance == pytest.approx(light().cavity_reflectance, abs=2e-3)
    assert found.map.evenness == pytest.approx(light(exponent=M30).map.evenness, abs=0.03)


# --- materials ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("surface", ["wall_reflectance", "back_reflectance"])
@pytest.mark.parametrize("value", [1.0, 1.2, -0.1, math.nan])
def test_surface_that_takes_up_no_light_is_refused(surface, value):
    text = refused(replace(WHITE, **{surface: value}))
    assert surface.replace("_", " ") in text
    assert "takes up some of the light" in text


def test_nearly_perfect_white_everywhere_is_still_solved():
    # almost singular: all light must end in the diffuser's last share
    white = Pocket(BAR, 25, 6, 1 - 1e-7, 1 - 1e-7, 0.999, 0.001)
    found = light(white)
    assert found.energy_error < 1e-6
    assert found.front_per_flux == pytest.approx(1000, rel=2e-3)


def test_diffuser_that_gives_more_light_than_it_gets_is_refused():
    text = refused(replace(WHITE, diffuser_reflectance=0.7, diffuser_transmittance=0.5))
    assert "come to 1.20" in text
    assert "cannot give back more light than it gets" in text


def test_all_faults_of_a_pocket_come_in_one_message():
    bad = Pocket(BAR, 5, 6, 1.5, -1, 0.8, 0.8)
    text = refused(bad, places=((90.0, 0.0),))
    for words in (
        "the LED's tip",
        "wall reflectance = 1.5",
        "back reflectance = -1",
        "1.60",
        "inside the pocket",
    ):
        assert words in text


def test_clear_diffuser_is_warned_of(make_bar, make_led, white, opal):
    lit = light_segment(
        make_bar(50), led=make_led(), current_a=0.015, depth_mm=35, walls=white, front=None, per_segment=3, evenness=0.3,
        diffuser=replace(opal, reflectance=0.1, transmittance=0.85),
    )  # fmt: skip
    found = next(finding for finding in lit.findings if finding.code == "hot-spots")
    assert "show as bright spots" in found.text


@pytest.mark.parametrize("full", [20, 60, 140])
def test_black_pocket_shows_direct_light_only(full):
    black = replace(WHITE, wall_reflectance=0.0, back_reflectance=0.0)
    mean, noise = traced_front(black, THREE, full)
    found = light(black, exponent=lobe_exponent(full))
    assert found.cavity_reflectance == pytest.approx(0, abs=1e-12)
    assert found.front_per_flux == pytest.approx(mean, abs=0.003 * mean + 3 * noise)


# --- size --------------------------------------------------------------------------------------------


def test_pocket_deeper_than_five_widths_is_harmless():
    deep = replace(WHITE, depth_mm=120.0)
    mean, noise = traced_front(deep, THREE, 30)
    found = light(deep, exponent=M30)
    assert sound(found)
    assert found.front_per_flux == pytest.approx(mean, abs=0.004 * mean + 3 * noise)


def test_tiny_dot_is_harmless():
    dot = tuple((2 * math.cos(math.tau * k / 24), 2 * math.sin(math.tau * k / 24)) for k in range(24))
    tiny = replace(WHITE, outline=dot, depth_mm=8.0, tip_mm=2.0)
    mean, noise = traced_front(tiny, ((0.0, 0.0),), 60, photons=90_000)
    found = light(tiny, ((0.0, 0.0),), lobe_exponent(60))
    assert sound(found)
    assert found.front_per_flux == pytest.approx(mean, abs=0.004 * mean + 3 * noise)


# --- the beam ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("full", [0, 0.5, 179.5, 180, 360, -30, math.nan])
def test_angle_that_is_no_beam_is_refused(full):
    with pytest.raises(InputError, match="full angle at half intensity"):
        lobe_exponent(full)


@pytest.mark.parametrize("exponent", [-0.5, math.nan])
def test_lobe_that_is_no_beam_is_refused(exponent):
    assert "no beam of an LED" in refused(exponent=exponent)


def test_beam_too_narrow_is_refused_with_both_readings():
    text = refused(exponent=lobe_exponent(5))
    assert "pocket.led.angle = 5 deg" in text
    assert "±5 deg" in text
    assert "enter 10 deg" in text
    assert "full angle of 8 deg or more" in text
    assert sound(light(exponent=lobe_exponent(photometry.NARROWEST_DEG)))


def test_beam_too_narrow_is_refused_with_the_other_faults_of_the_design(make_bar, make_led, white, opal):
    with pytest.raises(InputError) as caught:
        light_segment(
            make_bar(), led=make_led(full_angle_deg=6), current_a=0.015, depth_mm=-1, walls=white, diffuser=opal,
            front=None, per_segment=3,
        )  # fmt: skip
    assert {problem.key for problem in caught.value.problems} == {"pocket.led.angle", "depth"}


def test_half_angle_in_place_of_the_full_one_is_shown_with_both_readings(make_led):
    clear = make_led(name="clear red", full_angle_deg=12, intensity_cd=8.0)
    found = angle_note(clear)
    as_full, as_half = (lobe_flux(axis_cd=8.0, exponent=lobe_exponent(angle)) for angle in (12, 24))
    assert f"{as_full:.2g} lm" in found.text
    assert f"{as_half:.2g} lm" in found.text
    assert as_half / as_full == pytest.approx(4, rel=0.02)  # twice the angle is four times the light
    assert "24 deg" in found.text
    assert "±12 deg" in found.remedy
    assert angle_note(make_led(name="clear red", full_angle_deg=30)) is None
    assert angle_note(make_led(name="red, diffused body", full_angle_deg=30)) is not None


def test_half_angle_note_reaches_the_design(make_bar, make_led, white, opal):
    lit = light_segment(
        make_bar(50), led=make_led(name="clear red", full_angle_deg=12), current_a=0.015, depth_mm=150, walls=white,
        diffuser=opal, front=None, per_segment=4, evenness=0.3,
    )  # fmt: skip
    assert "half-angle-given" in {finding.code for finding in lit.findings}


def test_lumens_are_not_taken_from_the_cone_formula(make_led):
    # 28 % too few at 30 degrees, right at 120
    for full, miss in ((30, -0.285), (120, 0.0)):
        led = make_led(full_angle_deg=full, intensity_cd=1.0)
        shop = cone_flux(axis_cd=1.0, full_angle_deg=full)
        assert shop / led_flux(led, current_a=0.02) - 1 == pytest.approx(miss, abs=0.005)


def test_direct_light_closes_on_the_flux_of_the_led():
    # what the sums over the patches miss by before they are brought to it: small where they are not replaced
    for full in (20, 30, 60, 120, 160):
        assert light(exponent=lobe_exponent(full)).closure_error < 5e-3


def test_what_is_not_modelled_is_said_where_the_number_is_shown(make_led, white, opal):
    built = Built("crossbar", BAR, THREE, 25, make_led(), 0.015, white, opal, None)
    notes = " ".join(line.note for line in brightness(built).lines)
    for words in ("bodies and holes", "side lobes", "spread in the sheet", "leaking between pockets", "heat"):
        assert words in notes
