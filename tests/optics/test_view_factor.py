"""The share of a lobe that passes an outline, against handbook formulas and each other."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics import view_factor


def circle(radius, corners=96):
    steps = [2 * math.pi * index / corners for index in range(corners)]
    return tuple((radius * math.cos(t), radius * math.sin(t)) for t in steps)


def test_printed_handbook_values(rows, agree):
    for inputs, row in rows("patch to disc"):
        share = view_factor.lobe_share(
            circle(inputs["radius"]), place=(0, 0), gap_mm=inputs["gap"], exponent=1
        )
        agree(row, share)


@given(
    x=st.floats(-50, 50),
    y=st.floats(-9, 9),
    gap=st.floats(2, 80),
    exponent=st.floats(0.2, 80),
    turn=st.floats(0, 6.3),
)
def test_share_splits_and_turns(x, y, gap, exponent, turn):
    whole = ((-60, -10), (60, -10), (60, 10), (-60, 10))
    left, right = ((-60, -10), (5, -10), (5, 10), (-60, 10)), ((5, -10), (60, -10), (60, 10), (5, 10))

    def share(outline, place=(x, y)):
        return view_factor.lobe_share(outline, place=place, gap_mm=gap, exponent=exponent)

    assert share(whole) == pytest.approx(share(left) + share(right), abs=2e-4)
    assert 0 < share(whole) <= 1 + 1e-12

    def turned(p):
        c, s = math.cos(turn), math.sin(turn)
        return (p[0] * c - p[1] * s + 7, p[0] * s + p[1] * c - 3)

    moved = share(tuple(turned(p) for p in reversed(whole)), turned((x, y)))
    assert moved == pytest.approx(share(whole), abs=1e-5)


@given(radius=st.floats(3, 60), gap=st.floats(2, 80), exponent=st.floats(0.2, 80))
def test_share_of_a_disc_over_the_led(radius, gap, exponent):
    # flux inside a cone of half angle a is 1 - cos(a)^(m+1) of the lobe
    cosine = gap / math.hypot(gap, radius)
    share = view_factor.lobe_share(circle(radius, 180), place=(0, 0), gap_mm=gap, exponent=exponent)
    assert share == pytest.approx(1 - cosine ** (exponent + 1), rel=1e-2, abs=1e-6)


def test_sheet_at_the_tip_gets_all_of_it(hexagon):
    assert view_factor.lobe_share(hexagon, place=(0, 0), gap_mm=0, exponent=3) == 1


def test_clearance_and_edges(hexagon):
    assert view_factor.clearance(hexagon, (0, 0)) == 10
    assert view_factor.clearance(tuple(reversed(hexagon)), (0, 0)) == 10
    assert view_factor.clearance(hexagon, (58, 0)) == pytest.approx(math.sqrt(2))
    assert view_factor.clearance(hexagon, (62, 0)) < 0
    assert len(list(view_factor.edges(hexagon))) == 6
