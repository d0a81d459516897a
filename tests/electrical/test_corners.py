from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.part import Led
from segkit.electrical import corners
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import Drop
from segkit.errors import InputError

RED = Led(
    id="red", name="red LED", source="led-old-red", knowledge="datasheet", colour="red", wavelength_nm=625,
    vf_v=2.0, vf_min_v=1.8, vf_max_v=2.6, test_current_a=0.02, slope_ohm=6.0, vf_temperature_v_per_k=-0.002,
    intensity_cd=0.5, intensity_min_cd=0.25, intensity_current_a=0.02, radiant_power_w=0.0, full_angle_deg=60,
    max_current_a=0.03, body_mm=5, tip_mm=6,
)  # fmt: skip
DARLINGTON = Drop(0.7, 0.9, 1.1)


def conditions(**changes):
    values = {"supply_v": 12.0, "supply_min_v": 11.0, "supply_max_v": 13.8, "drop": DARLINGTON, **changes}
    return Conditions(**values)


@given(st.integers(1, 4), st.floats(50, 2000), st.floats(0, 0.2))
def test_corners_hold_the_typical_current_between_them(leds, resistance_ohm, tolerance):
    here = conditions(tolerance=tolerance, coldest_c=-10, hottest_c=60)
    given_ = {"leds": leds, "resistance_ohm": resistance_ohm}
    typical = corners.nominal_a(RED, here, **given_)
    assert corners.lowest_a(RED, here, **given_) <= typical <= corners.highest_a(RED, here, **given_)


def test_shop_corners_of_four_and_five_reds_on_a_battery(shop_led):
    # Published figures of the situation: 10 and 38 mA for five with 100 ohm, 13.6 and 26.4 mA for four with 220.
    battery = conditions(drop=Drop(0, 0, 0), tolerance=0.0)
    five = {"leds": 5, "resistance_ohm": 100}
    assert corners.lowest_a(shop_led(2.0), battery, **five) == pytest.approx(0.010)
    assert corners.highest_a(shop_led(2.0), battery, **five) == pytest.approx(0.038)
    four = {"leds": 4, "resistance_ohm": 220}
    assert corners.lowest_a(shop_led(2.0), battery, **four) == pytest.approx(0.0136, abs=5e-5)
    assert corners.highest_a(shop_led(2.0), battery, **four) == pytest.approx(0.0264, abs=5e-5)


def test_five_reds_behind_a_darlington_drop_to_eleven_milliamps(shop_led):
    here = conditions(drop=Drop(0.9, 0.9, 0.9))
    assert corners.simple_a(shop_led(2.0), here, leds=5, resistance_ohm=100) == pytest.approx(0.011)


def test_warm_leds_take_more(red):
    cold, warm = conditions(), conditions(hottest_c=65)
    given_ = {"leds": 3, "resistance_ohm": 220}
    assert corners.highest_a(red, warm, **given_) > corners.highest_a(red, cold, **given_)


@given(st.integers(1, 5))
def test_limit_resistor_brings_the_worst_corner_to_the_limit(leds):
    here = conditions()
    least = corners.limit_ohm(RED, here, leds=leds)
    assert corners.highest_a(RED, here, leds=leds, resistance_ohm=least) == pytest.approx(RED.max_current_a)
    assert corners.highest_a(RED, here, leds=leds, resistance_ohm=least * 1.01) < RED.max_current_a


def test_simple_formula_forgets_the_curve(red):
    here = conditions()
    flat = replace(red, slope_ohm=0.0)
    given_ = {"leds": 2, "resistance_ohm": 510}
    assert corners.simple_a(red, here, **given_) == corners.nominal_a(flat, here, **given_)
    assert corners.simple_a(red, here, **given_) == pytest.approx((12 - 0.9 - 4) / 510)


def test_conditions_name_all_their_faults():
    with pytest.raises(InputError) as caught:
        conditions(supply_v=14.0, tolerance=0.9, coldest_c=50, hottest_c=20)
    assert len(caught.value.problems) == 3
