"""Count, pitch and verdicts of one row."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics.row import lay_row, row_findings


def found(row):
    return {finding.code: finding for finding in row_findings(row)}


def lay(segment, led, depth_mm=25, per_segment=None, evenness=0.7):
    return lay_row(segment, led=led, depth_mm=depth_mm, per_segment=per_segment, evenness=evenness)


def test_reference_bar(make_bar, red):
    row = lay(make_bar(), red)
    assert (row.count, row.pitch_mm, row.gap_mm) == (6, 20, 19)
    assert row.stations_mm == pytest.approx((-50, -30, -10, 10, 30, 50))
    assert found(row) == {}


@given(
    length=st.floats(30, 500), stroke=st.floats(8, 60), full=st.floats(10, 140), depth=st.floats(7, 90),
    evenness=st.floats(0.3, 0.95),
)  # fmt: skip
def test_counts_go_the_right_way(length, stroke, full, depth, evenness, make_bar, make_led):
    bar, led = make_bar(length_mm=max(length, 2 * stroke), stroke_mm=stroke), make_led(full_angle_deg=full)
    row = lay(bar, led, depth, None, evenness)
    assert row.count >= 1
    assert all(abs(x) < row.bay.length_mm / 2 for x in row.stations_mm)
    assert lay(bar, led, depth + 5, None, evenness).count <= row.count
    assert lay(bar, make_led(full_angle_deg=full + 20), depth, None, evenness).count <= row.count
    assert lay(bar, led, depth, None, min(0.95, evenness + 0.05)).count >= row.count
    if row.wanted <= row.most:
        assert "uneven-light" not in found(row)
    else:
        assert "uneven-light" in found(row)
    assert "leds-too-close" not in found(row)  # a count of our own always fits


def test_too_few_is_told_with_what_would_do(make_bar, red):
    told = found(lay(make_bar(), red, per_segment=3))["uneven-light"]
    assert told.level == "caution"
    assert told.value == pytest.approx(40 / 19)
    assert "Take 6 LEDs" in told.remedy
    depth = int(told.remedy.split(" mm deep")[0].split()[-1])
    assert found(lay(make_bar(), red, depth_mm=depth, per_segment=3)).get("uneven-light") is None
    assert "uneven-light" in found(lay(make_bar(), red, depth_mm=depth - 1.5, per_segment=3))
    assert "uneven-light" not in found(lay(make_bar(), red, per_segment=6))


@pytest.mark.parametrize("depth", [3, 6])
def test_tip_in_the_diffuser_stops_both_boards(depth, make_bar, red):
    row = lay(make_bar(), red, depth_mm=depth)
    stop = found(row)["led-above-diffuser"]
    assert (stop.level, stop.holds) == ("stop", ("back_board", "light_grid"))
    assert row.count == 3
    assert "6 mm" in stop.text


def test_led_wider_than_the_stroke(make_bar, red):
    stop = found(lay(make_bar(length_mm=60, stroke_mm=6.5), red))["led-too-wide"]
    assert (stop.level, stop.holds, stop.limit) == ("stop", ("back_board",), 7.4)
    assert "led-too-wide" not in found(lay(make_bar(length_mm=60, stroke_mm=7.4), red))


def test_more_leds_than_fit(make_bar, red):
    row = lay(make_bar(), red, per_segment=30)
    stop = found(row)["leds-too-close"]
    assert (stop.level, stop.value, stop.holds) == ("stop", 30, ("back_board",))
    assert "leds-too-close" not in found(lay(make_bar(), red, per_segment=int(stop.limit)))


def test_wide_stroke_for_a_narrow_beam(make_bar, make_led):
    narrow = make_led(full_angle_deg=30)
    told = found(lay(make_bar(), narrow, depth_mm=35, evenness=0.8))["wide-stroke"]
    # one row of 30 degree LEDs at 35 mm can do 0.68 at best (full calculation), and lights 0.45 gaps to 0.8
    assert "at most about 0.68" in told.text
    assert told.limit == pytest.approx(0.45, abs=0.01)
    assert "two rows" in told.remedy
    assert "wide-stroke" not in found(lay(make_bar(), narrow, depth_mm=52, evenness=0.8))


def test_light_box_practice_of_one_row(make_bar, make_led):
    # one row up to a 4 in stroke at 4 in depth, two rows for wider ones (common practice, 120 degree modules)
    flat = make_led(full_angle_deg=120, tip_mm=3)
    for stroke_in, one_row in ((4, True), (6, False), (8, False)):
        bar = make_bar(length_mm=800, stroke_mm=25.4 * stroke_in)
        assert ("wide-stroke" not in found(lay(bar, flat, depth_mm=101.6, evenness=0.8))) == one_row


def test_dots_have_one_led_unless_they_are_large(make_dots, red):
    assert lay(make_dots(20), red).count == 1
    large = lay(make_dots(80), red)
    assert large.count == 4
    assert large.stations_mm == pytest.approx((-30, -10, 10, 30))
    assert lay(make_dots(20), red, depth_mm=5).count == 1
    assert "wide-stroke" not in found(large)
