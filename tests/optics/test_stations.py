"""Where LEDs can stand: inside the outline, room for the body, even pitch."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics import view_factor
from segkit.optics.stations import axis_frame, bay_of, reach


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


@given(
    angle=st.floats(0, 6.28), x=st.floats(-40, 40), y=st.floats(-8, 8), room=st.floats(0.5, 5),
    flipped=st.booleans(),
)  # fmt: skip
def test_reach_ends_where_the_room_ends(angle, x, y, room, flipped, hexagon):
    outline = tuple(reversed(hexagon)) if flipped else hexagon
    way = (math.cos(angle), math.sin(angle))

    def clear(at):
        return view_factor.clearance(outline, (x + at * way[0], y + at * way[1]))

    found = reach(outline, start=(x, y), way=way, room_mm=room)
    if found is None:
        assert max(clear(at / 4) for at in range(-600, 601)) < room + 1e-6
        return
    for end in found:
        assert clear(end) == pytest.approx(room, abs=1e-6)
    assert clear(sum(found) / 2) >= room - 1e-6
    assert clear(found[0] - 0.1) < room
    assert clear(found[1] + 0.1) < room


def test_no_room_at_all(make_bar):
    assert reach(bay_of(make_bar(stroke_mm=6)).outline, start=(0, 0), way=(1, 0), room_mm=3.7) is None
