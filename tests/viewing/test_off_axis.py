import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.viewing.off_axis import hidden_share, off_axis

angles = st.floats(0, 89)


def test_limits_of_the_apparent_ratio():
    # 0.5 to 1.0 is the range ISO 9241-3 allows.
    assert off_axis(width_mm=50.0, height_mm=100.0).findings == ()
    assert off_axis(width_mm=100.0, height_mm=100.0).findings == ()
    assert [f.code for f in off_axis(width_mm=49.0, height_mm=100.0).findings] == ["narrow-from-side"]
    assert [f.code for f in off_axis(width_mm=101.0, height_mm=100.0).findings] == ["wide-from-side"]


def test_sixty_degrees_halves_the_width():
    assert off_axis(width_mm=100.0, height_mm=100.0, angle_deg=60.0).ratio == pytest.approx(0.5)
    assert off_axis(width_mm=50.0, height_mm=100.0, vertical_angle_deg=60.0).ratio == pytest.approx(1.0)


def test_remedy_is_enough():
    (finding,) = off_axis(width_mm=110.0, height_mm=200.0, angle_deg=30.0).findings
    needed_mm = 0.5 * 200.0 / math.cos(math.radians(30.0))
    assert f"{needed_mm:.0f} mm" in finding.remedy
    assert off_axis(width_mm=needed_mm, height_mm=200.0, angle_deg=30.0).findings == ()
    (steep,) = off_axis(width_mm=110.0, height_mm=200.0, angle_deg=70.0).findings
    assert "turn the board" in steep.remedy


@given(st.floats(1, 1000), st.floats(2, 1000), angles)
def test_equal_angles_both_ways_leave_the_ratio(width_mm, height_mm, angle):
    seen = off_axis(width_mm=width_mm, height_mm=height_mm, angle_deg=angle, vertical_angle_deg=angle)
    assert seen.ratio == pytest.approx(width_mm / height_mm)


def test_hidden_share_at_45_degrees_is_depth_over_width():
    assert hidden_share(recess_mm=5.0, opening_mm=20.0, angle_deg=45.0).share == pytest.approx(0.25)
    assert hidden_share(recess_mm=0.0, opening_mm=20.0, angle_deg=80.0).share == 0.0


def test_hidden_findings_by_level():
    levels = {
        recess: [f.level for f in hidden_share(recess_mm=recess, opening_mm=20.0, angle_deg=45.0).findings]
        for recess in (2.0, 2.2, 6.0, 6.2, 19.0, 20.0)
    }
    assert levels == {
        2.0: [],
        2.2: ["note"],
        6.0: ["note"],
        6.2: ["caution"],
        19.0: ["caution"],
        20.0: ["stop"],
    }
    (stop,) = hidden_share(recess_mm=25.0, opening_mm=20.0, angle_deg=45.0).findings
    assert stop.holds == ("face",)


@given(st.floats(0, 100), st.floats(0.1, 200), angles, st.floats(1, 2))
def test_hidden_share_stays_a_share_and_grows(recess_mm, opening_mm, angle, factor):
    share = hidden_share(recess_mm=recess_mm, opening_mm=opening_mm, angle_deg=angle).share
    assert 0 <= share <= 1
    assert hidden_share(recess_mm=recess_mm * factor, opening_mm=opening_mm, angle_deg=angle).share >= share


def test_lines(lines_hold):
    lines_hold(off_axis(width_mm=110.0, height_mm=200.0, angle_deg=30.0, vertical_angle_deg=12.0).lines)
    lines_hold(hidden_share(recess_mm=5.0, opening_mm=20.0, angle_deg=40.0).lines)
    lines_hold(hidden_share(recess_mm=50.0, opening_mm=20.0, angle_deg=40.0).lines)


@pytest.mark.parametrize("angle", [90.0, 91.0, -1.0])
def test_out_of_sight_is_refused(angle):
    with pytest.raises(InputError):
        off_axis(width_mm=110.0, height_mm=200.0, angle_deg=angle)
    with pytest.raises(InputError):
        hidden_share(recess_mm=5.0, opening_mm=20.0, angle_deg=angle)
