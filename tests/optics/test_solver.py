"""The solved pocket against the measured reference pocket, energy, symmetry and the limits of the model."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.optics import solver, view_factor
from segkit.optics.photometry import NARROWEST_EXPONENT, lobe_exponent
from segkit.optics.pocket import Pocket, unlit_reflectance
from segkit.optics.solver import cavity_reflectance, front_grid, light_columns, mean_per_led, pocket_light

PLACES = ((-40.0, 0.0), (0.0, 0.0), (40.0, 0.0))


def reference(hexagon, *, walls=0.85, back=0.85, diffuser=0.4, depth_mm=25.0):
    return Pocket(hexagon, depth_mm, 6, walls, back, diffuser, min(0.5, 1 - diffuser))


def solved(pocket, full_angle_deg, places=PLACES, **more):
    return pocket_light(pocket, places=places, exponent=lobe_exponent(full_angle_deg), **more)


def test_front_incidence_of_the_reference_pocket(rows, agree, hexagon):
    for inputs, row in rows("front incidence"):
        made = reference(hexagon, walls=inputs["walls"], back=inputs["back"], diffuser=inputs["diffuser"])
        agree(row, solved(made, inputs["full_angle_deg"]).front_per_flux)


def test_losses_and_evenness_of_the_reference_pocket(hexagon):
    # pocket-study: light that ends in the front / walls / back, and darkest over mean of 2 mm cells by 100
    # million photons; patches of a quarter of the width read the evenness 0.005 to 0.009 high
    for full, walls, back, evenness in ((30, 0.164, 0.056, 0.200), (120, 0.319, 0.078, 0.745)):
        light = solved(reference(hexagon), full)
        assert light.wall_loss == pytest.approx(walls, abs=0.0015)
        assert light.back_loss == pytest.approx(back, abs=0.001)
        assert light.map.evenness == pytest.approx(evenness, abs=0.015)
        assert solved(reference(hexagon), full, fineness=6).map.evenness == pytest.approx(evenness, abs=0.009)
        assert light.map.low_share >= light.map.evenness


def test_cavity_reflectance_and_unlit_reflectance(rows, agree, hexagon):
    for inputs, row in rows("cavity reflectance"):
        made = reference(hexagon, walls=inputs["walls"], back=inputs["back"], depth_mm=inputs["depth_mm"])
        agree(row, cavity_reflectance(made))
    light = solved(reference(hexagon), 120)
    unlit = unlit_reflectance(
        diffuser_reflectance=0.4, diffuser_transmittance=0.5, cavity_reflectance=light.cavity_reflectance
    )
    assert unlit == pytest.approx(0.597, abs=0.002)  # pocket-study


@settings(max_examples=25)  # each one is a new shape
@given(
    full=st.floats(10, 160),
    depth=st.floats(8, 90),
    walls=st.floats(0, 0.97),
    back=st.floats(0, 0.97),
    diffuser=st.floats(0, 0.9),
    x=st.floats(-45, 45),
    y=st.floats(-6, 6),
)
def test_no_light_is_made_or_lost(full, depth, walls, back, diffuser, x, y, hexagon):
    light = solved(
        reference(hexagon, walls=walls, back=back, diffuser=diffuser, depth_mm=depth), full, ((x, y),)
    )
    assert light.energy_error < 1e-6
    out = light.front_per_flux * (1 - diffuser)
    assert out + light.wall_loss + light.back_loss == pytest.approx(1, abs=1e-6)
    assert 0 < out <= 1 + 1e-9
    assert 0 <= light.cavity_reflectance < 1
    assert light.map.values[np.isfinite(light.map.values)].min() >= 0


@given(full=st.floats(10, 160), depth=st.sampled_from([8, 13.5, 25, 45, 90]))
def test_black_pocket_has_direct_light_only(full, depth, hexagon):
    exponent = lobe_exponent(full)
    light = solved(reference(hexagon, walls=0, back=0, depth_mm=depth), full)
    share = np.mean(
        [view_factor.lobe_share(hexagon, place=p, gap_mm=depth - 6, exponent=exponent) for p in PLACES]
    )
    assert light.front_per_flux == pytest.approx(share, abs=0.01)
    assert light.front_per_flux == pytest.approx(light.direct_share, rel=1e-9)
    assert light.cavity_reflectance == pytest.approx(0, abs=1e-12)


@given(full=st.floats(60, 160), depth=st.sampled_from([25, 45.5, 90]))
def test_map_of_a_black_pocket_is_the_bare_kernel(full, depth, hexagon):
    # cos^(m+3) over the squared gap, at the middle of a cell; spots narrower than a cell are averaged over it
    exponent = lobe_exponent(full)
    light = solved(reference(hexagon, walls=0, back=0, depth_mm=depth), full)
    grid, gap = light.map, depth - 6
    row, column = np.argwhere(np.isfinite(grid.values))[17]
    at = (grid.left_mm + (column + 0.5) * grid.pitch_mm, grid.bottom_mm + (row + 0.5) * grid.pitch_mm)
    kernel = sum(
        (exponent + 1) / (2 * math.pi) / gap**2 * (gap / math.hypot(gap, math.dist(at, p))) ** (exponent + 3)
        for p in PLACES
    )
    assert grid.values[row, column] == pytest.approx(kernel / 3 * 2200, rel=1e-9, abs=1e-300)


def test_white_walls_lose_nothing(hexagon):
    for full in (20, 60, 140):
        light = solved(reference(hexagon, walls=1 - 1e-9, back=1 - 1e-9), full)
        assert light.front_per_flux == pytest.approx(1 / 0.6, rel=1e-6)
        assert light.cavity_reflectance == pytest.approx(1, rel=1e-6)


def test_whiter_is_brighter_and_deeper_is_darker(hexagon):
    for full in (30, 120):
        base = reference(hexagon)
        light = solved(base, full).front_per_flux
        assert solved(replace(base, wall_reflectance=0.9), full).front_per_flux > light
        assert solved(replace(base, back_reflectance=0.9), full).front_per_flux > light
        assert solved(replace(base, depth_mm=30.0), full).front_per_flux < light


def test_columns_add_up_to_the_layout(hexagon):
    pocket, exponent = reference(hexagon), lobe_exponent(60)
    columns = light_columns(pocket, places=PLACES, exponent=exponent)
    whole = pocket_light(pocket, places=PLACES, exponent=exponent)
    inside = np.isfinite(whole.map.values)
    assert columns.shape == (3, int(inside.sum())) == (3, int(np.isfinite(front_grid(pocket).values).sum()))
    assert columns.mean(axis=0) == pytest.approx(whole.map.values[inside], rel=1e-12)
    each = mean_per_led(pocket, places=PLACES, exponent=exponent)
    assert each.mean() == pytest.approx(whole.front_per_flux, rel=1e-12)


def test_mirrored_leds_give_the_mirrored_map(hexagon):
    left, right = (solved(reference(hexagon), 60, ((sign * 30.0, 2.0),)).map.values for sign in (-1, 1))
    assert left[:, ::-1] == pytest.approx(right, rel=1e-5, nan_ok=True)


def test_the_unit_of_length_does_not_matter(hexagon):
    small = reference(hexagon)
    large = replace(small, outline=tuple((7 * x, 7 * y) for x, y in hexagon), depth_mm=175.0, tip_mm=42.0)
    here = solved(small, 60)
    there = solved(large, 60, tuple((7 * x, 7 * y) for x, y in PLACES))
    assert there.front_per_flux == pytest.approx(here.front_per_flux, rel=1e-6)
    assert there.map.values == pytest.approx(here.map.values, rel=1e-4, nan_ok=True)


def test_narrow_beams_share_front_and_walls_by_the_closed_sum(hexagon):
    exponent = lobe_exponent(10)
    light = pocket_light(reference(hexagon), places=((55.0, 0.0),), exponent=exponent)
    share = view_factor.lobe_share(hexagon, place=(55.0, 0.0), gap_mm=19, exponent=exponent)
    assert light.direct_share == pytest.approx(share, rel=1e-9)


def test_a_beam_too_narrow_for_a_light_box(hexagon):
    with pytest.raises(InputError, match="half angle"):
        pocket_light(reference(hexagon), places=PLACES, exponent=NARROWEST_EXPONENT * 1.01)


def test_known_pockets_are_not_solved_again(hexagon):
    pocket = reference(hexagon, depth_mm=31.0)
    solved(pocket, 60)
    before = solver._response.cache_info().misses, solver._shape.cache_info().misses
    solved(pocket, 30, ((5.0, 1.0),))
    assert (solver._response.cache_info().misses, solver._shape.cache_info().misses) == before
