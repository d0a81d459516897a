import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from segkit.electrical.corners import Conditions, highest_a, lowest_a
from segkit.electrical.driver import Drop
from segkit.electrical.led_curve import curve_of, string_current_a
from segkit.electrical.spread import Drawn, percentiles, spread
from segkit.errors import InputError

STEADY_SUPPLY = Conditions(12.0, 12.0, 12.0, Drop(0.9, 0.9, 0.9), tolerance=0.05)
IN_USE = Conditions(12.0, 11.4, 12.6, Drop(0.7, 0.9, 1.1), tolerance=0.05)
BOARD = (Drawn("upright", 8, ((4, 150.0),)), Drawn("crossbar", 6, ((3, 270.0),)))


def test_resistors_alone_give_the_percentiles_of_an_even_draw(shop_led):
    """Worked by hand: 3.1 V over 150 ohm even within 5 %: 98 % of the strings lie between 1/(1 +- 0.049)."""
    many = spread([Drawn("bar", 50, ((4, 150.0),))], led=shop_led(2.0), conditions=STEADY_SUPPLY)
    exact_a = 3.1 / 150
    assert many.current_a.low == pytest.approx(exact_a / (1 + 0.05 * 0.98), rel=0.002)
    assert many.current_a.middle == pytest.approx(exact_a, rel=0.002)
    assert many.current_a.high == pytest.approx(exact_a / (1 - 0.05 * 0.98), rel=0.002)


def test_nothing_drawn_gives_one_board(shop_led):
    led = shop_led(2.0, intensity_min_cd=0.0)
    many = spread([Drawn("bar", 7, ((4, 150.0),))], led=led, conditions=replace(STEADY_SUPPLY, tolerance=0))
    assert many.current_a.low == many.current_a.high == pytest.approx(3.1 / 150)
    assert many.resistor_w.middle == pytest.approx(3.1**2 / 150)
    assert many.light_ratio.high == 1.0
    assert many.findings == ()


def test_draws_stay_within_the_corners(red):
    many = spread(BOARD, led=red, conditions=IN_USE, boards=100)
    corners = [
        (lowest_a(red, IN_USE, leds=n, resistance_ohm=r), highest_a(red, IN_USE, leds=n, resistance_ohm=r))
        for drawn in BOARD
        for n, r in drawn.strings
    ]
    assert min(low for low, _ in corners) <= many.current_a.low
    assert many.highest_a.high <= max(high for _, high in corners)


def test_the_same_seed_gives_the_same_board_and_another_seed_another(red):
    one, again, other = (spread(BOARD, led=red, conditions=IN_USE, boards=50, seed=s) for s in (3, 3, 4))
    assert one == again
    assert one.current_a != other.current_a


def test_one_bag_makes_segments_alike_and_boards_unlike(red):
    mixed = spread(BOARD, led=red, conditions=IN_USE, boards=200)
    bag = spread(BOARD, led=red, conditions=IN_USE, boards=200, one_bin=True)
    assert bag.light_ratio.middle < mixed.light_ratio.middle
    assert bag.current_a.high - bag.current_a.low > mixed.current_a.high - mixed.current_a.low


def test_warm_leds_take_more(red):
    cold = spread(BOARD, led=red, conditions=replace(IN_USE, coldest_c=-20, hottest_c=-20), boards=100)
    warm = spread(BOARD, led=red, conditions=replace(IN_USE, coldest_c=60, hottest_c=60), boards=100)
    assert warm.current_a.middle > cold.current_a.middle


def test_boards_above_the_limit_are_a_stop(red):
    tight = replace(red, max_current_a=0.018)
    many = spread(BOARD, led=tight, conditions=IN_USE, boards=100)
    (finding,) = [one for one in many.findings if one.code == "over-led-limit"]
    assert (finding.level, finding.holds) == ("stop", ("back_board",))
    assert many.over_limit > 0
    assert f"{many.over_limit:.1%} of 100 boards" in finding.text


def test_segments_that_differ_twofold_are_a_caution(red):
    """Five in series on 12 V behind a Darlington: 1.1 V is left and the bins use it up."""
    many = spread([Drawn("bar", 28, ((5, 56.0),))], led=red, conditions=IN_USE, boards=60)
    assert many.light_ratio.middle > 2
    assert [one.code for one in many.findings if one.level == "caution"] == ["uneven-segments"]
    assert many.dark > 0


@settings(max_examples=10)
@given(st.integers(1, 4), st.floats(100, 500))
def test_the_middle_of_a_board_without_bins_is_the_typical_current(leds, ohm):
    from tests.electrical.conftest import RED

    led = replace(RED, vf_min_v=2.0, vf_max_v=2.0)
    many = spread([Drawn("bar", 20, ((leds, ohm),))], led=led, conditions=IN_USE, boards=60)
    typical = string_current_a(curve_of(led), leds=leds, drive_v=11.1, resistance_ohm=ohm)
    assert many.current_a.middle == pytest.approx(typical, rel=0.06)


def test_percentiles_of_few_values():
    assert percentiles([3.0]).middle == 3.0
    one = percentiles([1.0, 2.0])
    assert (one.low, one.middle, one.high) == pytest.approx((1.01, 1.5, 1.99))
    assert math.isinf(percentiles([1.0, math.inf, math.inf]).middle)


def test_unusable_boards(red):
    for segments, boards in (((), 400), (BOARD, 5), ((Drawn("bar", 1, ((0, 0.0),)),), 400)):
        with pytest.raises(InputError):
            spread(segments, led=red, conditions=IN_USE, boards=boards)
