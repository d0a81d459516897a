"""Rails, connector and lanes of a digit."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.wiring.digit_layout import PITCHES_MM, Dot, crossing, digit_layout, free_lane
from tests.wiring import boards


def layout_of(layout: str = "8.8", digit: int = 1, **changes):
    on = boards.board(layout, **changes)
    return on, digit_layout([s for s in on.segments if s.digit == digit])


@pytest.mark.parametrize("slant", [0.0, 8.0, 15.0])
def test_plus_rails_lie_outside_and_minus_rails_inside(slant: float) -> None:
    _, layout = layout_of(slant_deg=slant)
    centre = layout.bars["g"].middle
    for name, bar in layout.bars.items():
        plus, minus = bar.rail_at(0, plus=True), bar.rail_at(0, plus=False)
        assert math.dist(plus, bar.middle) == pytest.approx(bar.reach)
        if name != "g":
            assert math.dist(plus, centre) > math.dist(minus, centre)
    assert layout.bars["g"].rail_at(0, plus=True)[1] < centre[1]  # towards the connector


@given(slant=st.floats(0, 15), height=st.floats(80, 900))
def test_the_connector_stands_in_the_lower_cell(slant: float, height: float) -> None:
    _, layout = layout_of(slant_deg=slant, height_mm=height)
    for pole in range(1, 11):
        x, y = layout.pin(pole)
        left = layout.bars["e"].rail_at_height(y, plus=False)[0]
        right = layout.bars["c"].rail_at_height(y, plus=False)[0]
        assert left < x < right
        assert layout.bars["d"].rail_at(0, plus=False)[1] < y < layout.bars["g"].rail_at(0, plus=True)[1]
    assert layout.pitch_mm in PITCHES_MM or layout.pitch_mm < min(PITCHES_MM)


def test_pole_1_is_on_the_left_from_behind() -> None:
    _, layout = layout_of()
    assert layout.plus_pin == layout.pin(1)
    assert layout.pin(1)[0] > layout.pin(10)[0]


def test_rails_of_neighbours_meet_at_the_corner() -> None:
    on, layout = layout_of()
    corner = crossing(layout.bars["a"], layout.bars["b"])
    a, b = (next(s for s in on.segments if s.name == name) for name in "ab")
    high = a.axes[0][0][1] + a.stroke_mm / 2
    wide = b.axes[0][0][0] + b.stroke_mm / 2
    assert corner == pytest.approx((wide, high))
    assert crossing(layout.bars["b"], layout.bars["c"]) is None


def test_a_point_on_a_rail_is_abreast_of_its_led() -> None:
    _, layout = layout_of(slant_deg=10)
    bar = layout.bars["b"]
    at = bar.rail_at(17, plus=False)
    assert bar.station(at) == pytest.approx(17)
    assert bar.station(bar.middle) == 0
    assert bar.rail_at_height(at[1], plus=False) == pytest.approx(at)
    assert layout.bars["a"].rail_above(50, plus=True)[0] == pytest.approx(50)


@given(start=st.floats(-9, 9), turn=st.floats(-9, 9))
def test_an_arc_goes_the_shorter_way_round_and_stays_on_its_ring(start: float, turn: float) -> None:
    dot = Dot((3.0, 4.0), 10.0, 14.0, 11.5)
    arc = dot.arc(start, start + turn, plus=False)
    assert arc[0] == pytest.approx(dot.on_ring(start, plus=False))
    assert arc[-1] == pytest.approx(dot.on_ring(start + turn, plus=False), abs=1e-6)
    radius = math.dist(dot.middle, arc[0])
    assert all(math.dist(dot.middle, at) == pytest.approx(radius) for at in arc)
    length = sum(math.dist(a, b) for a, b in itertools.pairwise(arc))
    assert length <= math.pi * radius + 1e-6
    assert radius < math.dist(dot.middle, dot.on_ring(0, plus=True))


@given(
    wanted=st.floats(-60, 60),
    pitch=st.floats(11, 30),
    count=st.integers(1, 9),
    others=st.lists(st.floats(-60, 60), max_size=3),
)
def test_a_lane_keeps_clear_of_leds_where_there_is_room(wanted, pitch, count, others) -> None:
    leds = [pitch * (n - (count - 1) / 2) for n in range(count)]
    lane = free_lane(wanted, leds, others, keep=3.1)
    assert all(abs(lane - led) >= 3.1 - 1e-6 for led in leds)


def test_a_tight_row_is_crossed_in_the_middle_of_a_gap() -> None:
    assert free_lane(0.4, [0, 6, 12], [], keep=4) == 3
    assert free_lane(0.4, [0, 6, 12], [3], keep=4) == 9


def test_names_of_resistors_are_kept_clear_of_if_there_is_room() -> None:
    assert free_lane(8, [0, 16], [], keep=3, beside=[8]) in (5, 11)
    assert free_lane(4, [0, 8], [], keep=3.9, beside=[4]) == pytest.approx(4, abs=0.11)
