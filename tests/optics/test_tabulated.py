"""Handbook view factors and published flat spots of LED arrays, and what any set of view factors must obey."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from segkit.optics import view_factor
from segkit.optics.exchange import exchange_factors
from segkit.optics.patches import BACK, FRONT, clean_outline, patches_of
from segkit.optics.photometry import lobe_exponent
from segkit.optics.pocket import Pocket
from segkit.optics.solver import mean_per_led, pocket_light
from tests.optics.flat_sheet import target_illuminance

BAR = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
DOT = tuple((12 * math.cos(math.tau * k / 16), 12 * math.sin(math.tau * k / 16)) for k in range(16))


def disc(radius, corners=96):
    """A polygon of the area of a disc."""
    r = radius * math.sqrt(math.tau / corners / math.sin(math.tau / corners))
    return tuple(
        (r * math.cos(math.tau * k / corners), r * math.sin(math.tau * k / corners)) for k in range(corners)
    )


def disc_factor(radius, other, gap):
    """Mean over a disc of the share that a matt element of it sends to another one; a ring at a time."""
    at, weight = np.polynomial.legendre.leggauss(6)
    rings = np.sqrt((at + 1) / 2) * radius  # equal weight by area
    shares = [
        view_factor.lobe_share(disc(other), place=(float(x), 0.0), gap_mm=gap, exponent=1.0) for x in rings
    ]
    return float(np.dot(weight, shares) / 2)


def test_printed_discs(rows, agree):
    for inputs, row in rows("unequal discs"):
        scale = 100  # the outline is cut for millimetres
        ours = disc_factor(*(scale * inputs[name] for name in ("radius", "other", "gap")))
        agree(row, ours)
    for inputs, row in rows("equal discs"):
        agree(row, disc_factor(*(50 * inputs[name] for name in ("radius", "radius", "gap"))))


# --- flat spots: the published spacings against the light itself --------------------------------------


def lamp(exponent, *offsets):
    """Light of LEDs at distances from a point of the sheet, one gap below it."""
    return sum(
        target_illuminance(axis_cd=1, gap_mm=1, offset_mm=offset, exponent=exponent) for offset in offsets
    )


def curvature(light, step=1e-3):
    """Second difference of the light at the middle; ``light`` takes a place."""
    return (light(step) - 2 * light(0.0) + light(-step)) / step**2


def flat_spot(places, exponent):
    """Scale at which the middle of an array of unit size is flat along x: found by halving."""

    def bent(scale):
        def light(x):
            return lamp(exponent, *(math.hypot(scale * px - x, scale * py) for px, py in places))

        return curvature(light)

    low, high = 0.05, 2.0  # one peak when close together, a dip when far apart
    assert bent(low) < 0 < bent(high)
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if bent(middle) < 0 else (low, middle)
    return low


def test_published_flat_spots_of_two_four_and_a_ring(rows, agree):
    # the published formulas leave out the cosine of the sheet: with m + 1 in place of m they are exact here
    square = ((-0.5, -0.5), (-0.5, 0.5), (0.5, -0.5), (0.5, 0.5))
    for inputs, row in rows("light of a pair"):
        agree(row, flat_spot(((-0.5, 0.0), (0.5, 0.0)), inputs["exponent"]))
    for inputs, row in rows("light of a square"):
        agree(row, flat_spot(square, inputs["exponent"]))
    for inputs, row in rows("light of a ring"):
        for count in (3, 5, 6, 9):
            ring = tuple(
                (math.cos(math.tau * k / count), math.sin(math.tau * k / count)) for k in range(count)
            )
            agree(row, flat_spot(ring, inputs["exponent"]))


def test_published_large_square_is_even(rows, agree):
    for inputs, row in rows("light of a large square"):
        exponent = inputs["exponent"]
        pitch = math.sqrt(1.2125 / (exponent - 2.349))
        agree(row, pitch)
        steps = range(-30, 31)
        over, beside, between = (
            lamp(exponent, *(math.hypot((i + u) * pitch, (j + v) * pitch) for i in steps for j in steps))
            for u, v in ((0, 0), (0.5, 0), (0.5, 0.5))
        )
        mean = (over + 2 * beside + between) / 4
        assert between < beside < over
        assert between / mean > 0.9998  # pocket-study: lowest over mean of the corrected fit


# --- what any set of view factors must obey ------------------------------------------------------------


@settings(max_examples=15)
@given(
    depth=st.floats(8, 60),
    outline=st.sampled_from([BAR, DOT, ((0, 0), (80, 0), (90, 20), (10, 20))]),
    seed=st.integers(0, 99),
)
def test_furnace_every_place_is_equally_lit(depth, outline, seed):
    # in a closed furnace every surface sends out, by its own glow and what it reflects, the same: whatever the
    # reflectances, E = 1 everywhere when each patch glows with 1 - rho
    made = patches_of(clean_outline(outline), depth_mm=depth, tip_mm=min(6, depth / 3), fineness=2)
    factors = exchange_factors(made)
    rho = np.random.default_rng(seed).uniform(0, 0.98, len(made.areas_mm2))
    lit = np.linalg.solve(np.eye(len(rho)) - factors * rho, factors @ (1 - rho))
    assert lit == pytest.approx(np.ones(len(rho)), abs=1e-6)


def test_light_goes_both_ways_alike():
    # a lumen that falls on one patch makes another shine as bright as a lumen there makes the first one
    made = patches_of(clean_outline(BAR), depth_mm=25, tip_mm=6, fineness=3)
    rho = np.where(made.surface == FRONT, 0.4, np.where(made.surface == BACK, 0.7, 0.85))
    lit = np.linalg.solve(np.eye(len(rho)) - exchange_factors(made) * rho, np.diag(1 / made.areas_mm2))
    got = rho[:, None] * lit
    off = ~np.eye(len(rho), dtype=bool)
    assert np.abs(got - got.T)[off].max() < 1e-9 * got[off].max()


@given(weights=st.lists(st.integers(1, 4), min_size=3, max_size=3))
def test_light_adds_up(weights):
    # LEDs share the flux: one that stands in a place n times gives n times the light of one
    pocket, exponent = Pocket(BAR, 25, 6, 0.85, 0.85, 0.4, 0.5), lobe_exponent(60)
    spots = ((-40.0, 0.0), (0.0, 3.0), (40.0, 0.0))
    each = mean_per_led(pocket, places=spots, exponent=exponent)
    crowd = tuple(spot for spot, times in zip(spots, weights, strict=True) for _ in range(times))
    whole = pocket_light(pocket, places=crowd, exponent=exponent)
    assert whole.front_per_flux == pytest.approx(float(np.dot(each, weights)) / sum(weights), rel=1e-12)


@pytest.mark.parametrize("full", [20, 30, 60, 120, 160])
def test_map_and_balance_tell_of_the_same_light(full):
    # cells stop short of the edge, which is a little darker or brighter: 1 to 4 %
    light = pocket_light(
        Pocket(BAR, 25, 6, 0.85, 0.85, 0.4, 0.5),
        places=((-40, 0), (0, 0), (40, 0)),
        exponent=lobe_exponent(full),
    )
    assert light.map.mean == pytest.approx(light.front_per_flux, rel=0.04)


@pytest.mark.parametrize("outline", [BAR, DOT], ids=["bar", "dot"])
def test_a_mirrored_pocket_gives_the_mirrored_map(outline):
    pocket, exponent = Pocket(outline, 25, 6, 0.85, 0.85, 0.4, 0.5), lobe_exponent(60)
    here = pocket_light(pocket, places=((4.0, 3.0),), exponent=exponent).map.values
    assert pocket_light(pocket, places=((4.0, -3.0),), exponent=exponent).map.values == pytest.approx(
        here[::-1], rel=1e-4, nan_ok=True
    )
    assert pocket_light(pocket, places=((-4.0, 3.0),), exponent=exponent).map.values == pytest.approx(
        here[:, ::-1], rel=1e-4, nan_ok=True
    )
