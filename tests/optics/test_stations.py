"""Where LEDs can stand: inside the outline, room for the body, even pitch."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics import view_factor
from segkit.optics.stations import ROOM_AROUND_MM, Bay, axis_frame, bay_of, end_inset, most_leds, stations

LENGTHS, STROKES = st.floats(60, 400), st.floats(10, 50)


def test_bay_lies_on_its_axis(board):
    upright = board.segments[3]
    bay = bay_of(upright)
    assert bay.length_mm == pytest.approx(math.hypot(20, 100))
    assert bay.area_mm2 == pytest.approx(2000)  # parallelogram 20 wide, 100 high
    assert not bay.dot
    middle = [sum(p[i] for p in bay.outline) / 4 for i in (0, 1)]
    assert middle == pytest.approx([0, 0], abs=1e-9)


def test_dots(make_dots):
    colon = make_dots()
    first, second = bay_of(colon, 0), bay_of(colon, 1)
    assert first.dot
    assert (first.length_mm, second.length_mm) == (20, 20)
    assert max(x for x, _ in second.outline) == pytest.approx(10)
    assert axis_frame(colon.axes[1]) == ((200.0, 40.0), (1.0, 0.0))


@given(length=LENGTHS, stroke=STROKES, body=st.floats(3, 8), count=st.integers(1, 12))
def test_stations_are_inside_even_and_alike_both_ways(length, stroke, body, count, make_bar):
    bay = bay_of(make_bar(length_mm=length, stroke_mm=stroke))
    inset = end_inset(bay, body_mm=body)
    count = min(count, most_leds(bay, inset_mm=inset, body_mm=body))
    at = stations(bay, count=count, inset_mm=inset)
    assert len(at) == count
    assert list(at) == sorted(at)
    assert [-x for x in reversed(at)] == pytest.approx(list(at), abs=1e-9)
    steps = [b - a for a, b in pairwise(at)]
    assert steps == pytest.approx([steps[0]] * len(steps)) if steps else True
    for x in at:
        if stroke >= body + 2 * ROOM_AROUND_MM:
            assert view_factor.clearance(bay.outline, (x, 0.0)) >= body / 2 + ROOM_AROUND_MM - 1e-5
        else:
            assert abs(x) < length / 2
    if steps:
        assert steps[0] >= body


@given(length=LENGTHS, stroke=STROKES)
def test_inset_of_a_pointed_end(length, stroke, make_bar):
    # 45 degree tip: a body of 2.5 mm radius with 1.2 mm of room stands 3.7 * sqrt 2 from the tip
    bay = bay_of(make_bar(length_mm=length, stroke_mm=stroke))
    assert end_inset(bay, body_mm=5) == pytest.approx(3.7 * math.sqrt(2), abs=1e-4)


def test_no_room_at_all(make_bar):
    bay = bay_of(make_bar(stroke_mm=6))
    assert end_inset(bay, body_mm=5) == 0
    assert most_leds(Bay(bay.outline, 3, False), inset_mm=2, body_mm=5) == 1
