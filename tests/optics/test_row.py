"""Count, places and verdicts of the LEDs of one outline."""

from dataclasses import replace

import pytest

from segkit.optics.pocket import Pocket
from segkit.optics.remedies import evenness_of
from segkit.optics.row import Asked, lay_row, row_findings
from segkit.optics.stations import bay_of


def lay(segment, led, depth_mm=25, evenness=0.7, **asked):
    pocket = Pocket(bay_of(segment).outline, depth_mm, led.tip_mm, 0.85, 0.85, 0.40, 0.50)
    return lay_row(segment, led=led, pocket=pocket, asked=Asked(evenness=evenness, **asked))


def found(row):
    solved = None
    if row.gap_mm > 0:
        solved = evenness_of(row.pocket, places=row.pattern.places, exponent=row.exponent)
    return {finding.code: finding for finding in row_findings(row, evenness=solved)}


def test_reference_bar(make_bar, red):
    row = lay(make_bar(), red)
    assert (row.count, row.needed, row.chosen_by, row.gap_mm) == (5, 5, "search", 19)
    assert found(row) == {}
    more = lay(make_bar(), red, least=7)
    assert (more.count, more.needed) == (7, 5)


def test_too_few_is_told_with_what_would_do(make_bar, red):
    row = lay(make_bar(), red, count=3, layer_mm=5.0)
    told = found(row)["uneven-light"]
    assert (row.count, row.chosen_by, told.level, told.limit) == (3, "count", "caution", 0.7)
    assert told.value < 0.7
    assert "5 LEDs" in told.remedy
    depth = int(told.remedy.split(" mm deep")[0])
    deep = replace(row.pocket, depth_mm=depth)
    assert evenness_of(deep, places=row.pattern.places, exponent=row.exponent) >= 0.7
    assert "not modelled" in told.text
    assert found(lay(make_bar(), red, count=5)) == {}


@pytest.mark.parametrize("depth", [3, 6])
def test_tip_in_the_diffuser_stops_both_boards(depth, make_bar, make_dots, red):
    row = lay(make_bar(), red, depth_mm=depth)
    stop = found(row)["led-above-diffuser"]
    assert (stop.level, stop.holds) == ("stop", ("back_board", "light_grid"))
    assert row.count == 3
    assert "6 mm" in stop.text
    assert lay(make_dots(20), red, depth_mm=depth).count == 1


def test_led_wider_than_the_stroke(make_bar, make_dots, red):
    stop = found(lay(make_bar(length_mm=60, stroke_mm=6.5), red))["led-too-wide"]
    assert (stop.level, stop.holds, stop.limit) == ("stop", ("back_board",), 7.4)
    assert "led-too-wide" not in found(lay(make_bar(length_mm=60, stroke_mm=7.4), red))
    dot = found(lay(make_dots(6.5), red))["led-too-wide"]
    assert "larger dots" in dot.remedy
    assert "stroke" not in dot.text + dot.remedy


def test_evenness_of_leds_that_do_not_go_in_is_not_judged(make_bar, red):
    told = found(lay(make_bar(length_mm=40, stroke_mm=12), red, count=6, evenness=0.95))
    assert "leds-too-close" in told
    assert "uneven-light" not in told


def test_more_leds_than_fit(make_bar, red):
    stop = found(lay(make_bar(), red, count=60))["leds-too-close"]
    assert (stop.level, stop.value, stop.holds) == ("stop", 60, ("back_board",))
    assert "leds-too-close" not in found(lay(make_bar(), red, count=int(stop.limit) - 1))


def test_one_row_of_a_narrow_beam_is_told_its_bound(make_bar, make_led):
    # one row of 30 degree LEDs at 35 mm can do 0.68 at best (published, within 0.02)
    told = found(lay(make_bar(), make_led(full_angle_deg=30), depth_mm=35, evenness=0.8, rows=1))[
        "uneven-light"
    ]
    bound = float(told.text.split("no more than ")[1].split()[0])
    assert bound == pytest.approx(0.68, abs=0.02)
    assert told.text.count("One row") == 1
    assert "would do" in told.remedy


def test_own_places_are_judged(make_bar, red):
    row = lay(make_bar(), red, places=((-40.0, 0.0), (0.0, 0.0), (4.0, 7.0)))
    codes = found(row)
    assert (row.count, row.chosen_by, row.pattern.rows) == (3, "places", 2)
    assert {"uneven-light", "led-at-wall", "light-near-wall"} <= set(codes)
    assert "5 LEDs" in codes["uneven-light"].remedy


def test_light_box_practice_of_one_row(make_bar, make_led):
    # one row up to a 4 in stroke at 4 in depth, more for 8 in (common practice, 120 degree modules)
    flat = make_led(full_angle_deg=120, tip_mm=3)
    for stroke_in, one_row in ((4, True), (8, False)):
        bar = make_bar(length_mm=800, stroke_mm=25.4 * stroke_in)
        row = lay(bar, flat, depth_mm=101.6, evenness=0.8, rows=1)
        assert ("uneven-light" not in found(row)) == one_row


def test_dots_have_one_led_unless_they_are_large(make_dots, red):
    assert lay(make_dots(20), red).count == 1
    large = lay(make_dots(80), red)
    assert large.count > 2
    assert "uneven-light" not in found(large)


def test_rows_that_do_not_go_in_are_told(make_bar, red):
    row = lay(make_bar(length_mm=120, stroke_mm=20), red, rows=4)
    told = found(row)["rows-do-not-fit"]
    fewer = int(told.limit)
    assert (told.level, told.value, row.pattern.rows) == ("caution", 4, fewer)
    assert 1 < fewer < 4
    assert "rows-do-not-fit" not in found(lay(make_bar(length_mm=120, stroke_mm=20), red, rows=fewer))


def test_a_bound_above_what_is_asked_is_not_told(make_bar, make_led):
    amber = make_led(full_angle_deg=20, tip_mm=8.7)
    told = found(lay(make_bar(length_mm=300, stroke_mm=80), amber, depth_mm=25))["uneven-light"]
    assert "no more than" not in told.text
    assert "1 to 60 LEDs in up to 4 rows were tried: none does it." in told.text
    fixed = found(lay(make_bar(length_mm=300, stroke_mm=80), amber, depth_mm=25, count=8))["uneven-light"]
    assert "were tried for the 8 LEDs asked for" in fixed.text
    assert "would do" in told.remedy + fixed.remedy
