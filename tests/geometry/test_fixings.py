"""Fixing holes: in mid-margin, at the corners, never far apart."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.geometry.fixings import EVERY_MM, fixing_holes, margin_findings


def test_four_corners_on_a_small_board():
    holes = fixing_holes(width_mm=300, height_mm=200, margin_mm=30, hole_mm=4)
    assert holes == ((15, 15), (285, 15), (15, 185), (285, 185))


@given(st.floats(130, 5000), st.floats(130, 2500), st.floats(12, 60))
def test_holes_go_round_the_rim_and_no_two_neighbours_are_far_apart(width, height, margin):
    holes = fixing_holes(width_mm=width, height_mm=height, margin_mm=margin, hole_mm=4)
    assert len(holes) == len(set(holes)) >= 4
    for x, y in holes:
        edge = min(x, y, width - x, height - y)
        assert edge == pytest.approx(margin / 2), "in mid-margin, on the rim"
    for level in {y for _, y in holes if y < margin or y > height - margin}:
        row = sorted(x for x, y in holes if y == level)
        assert all(b - a <= EVERY_MM + 1e-6 for a, b in itertools.pairwise(row))
    for side in {x for x, _ in holes if x < margin}:
        column = sorted(y for x, y in holes if x == side)
        assert all(b - a <= EVERY_MM + 1e-6 for a, b in itertools.pairwise(column))


def test_a_narrow_margin_gets_no_holes_and_says_so():
    assert fixing_holes(width_mm=300, height_mm=200, margin_mm=11.9, hole_mm=4) == ()
    (finding,) = margin_findings(margin_mm=11.9, hole_mm=4)
    assert (finding.level, finding.code, finding.value, finding.limit) == (
        "caution",
        "no-fixing-holes",
        11.9,
        12,
    )
    assert "11.9 mm" in finding.text
    assert "digit.margin" in finding.remedy


def test_no_holes_asked_for_is_no_finding():
    assert fixing_holes(width_mm=300, height_mm=200, margin_mm=30, hole_mm=0) == ()
    assert margin_findings(margin_mm=0, hole_mm=0) == ()
    assert margin_findings(margin_mm=12, hole_mm=4) == ()
    assert len(fixing_holes(width_mm=300, height_mm=200, margin_mm=12, hole_mm=4)) == 4
