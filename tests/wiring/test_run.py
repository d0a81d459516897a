"""Lengths of single wires."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.wiring.run import CUT_STEP_MM, JOINT_MM, LEADS_MM, SLACK_SHARE, TERMINAL_MM, Run, path_mm, tidy

points = st.tuples(st.floats(-500, 500), st.floats(-500, 500))
routes = st.lists(points, min_size=2, max_size=8).map(tuple)


def run(route, start=("X1", "2"), end=("D1a1", "K"), make="wire", beyond=0.0) -> Run:
    return Run("segment", make, "SEG_1a", start, end, route, "WH", 0.1, 1, "a", beyond_mm=beyond)


def test_length_of_a_wire_worked_by_hand() -> None:
    """300 mm along, 400 mm across: 700 mm of route, a tenth for its lie, 40 mm and 10 mm for the ends."""
    wire = run(((0, 0), (300, 0), (300, 400)))
    assert wire.route_mm == 700
    assert wire.slack_mm == pytest.approx(0.1 * 700 + 40 + 10)
    assert wire.cut_mm == 820


@given(route=routes, beyond=st.floats(0, 5000))
def test_a_wire_is_cut_longer_than_its_route_and_that_is_longer_than_straight(route, beyond) -> None:
    wire = run(route, beyond=beyond)
    straight = math.dist(route[0], route[-1]) if route else 0.0
    assert straight + beyond <= wire.route_mm + 1e-6
    assert wire.cut_mm >= wire.route_mm + SLACK_SHARE * path_mm(route) + JOINT_MM + TERMINAL_MM - 1e-6
    assert wire.cut_mm - wire.route_mm - wire.slack_mm < CUT_STEP_MM
    assert math.isclose(wire.cut_mm % CUT_STEP_MM, 0, abs_tol=1e-6)


@given(route=routes)
def test_leads_and_cards_take_no_wire(route) -> None:
    for make in ("leads", "card"):
        assert run(route, make=make).cut_mm == run(route, make=make).slack_mm == 0


def test_leads_reach_less_far_than_they_are_long() -> None:
    assert LEADS_MM < 25.0  # leads of round LEDs are 25 mm or more: common practice


@given(route=routes)
def test_tidying_changes_no_length_and_leaves_no_doubled_point(route) -> None:
    kept = tidy((*route, route[-1], route[-1]))
    assert path_mm(kept) == pytest.approx(path_mm(route), abs=1e-4)
    assert all(math.dist(a, b) > 1e-6 for a, b in itertools.pairwise(kept)) or len(kept) == 2
