"""A resistor that is there already: the current it gives, the value that would do, its heat."""

import pytest

from segkit.electrical.corners import Conditions
from segkit.electrical.driver import Drop
from segkit.electrical.given_resistor import given_findings
from segkit.electrical.string import StringCircuit, string_circuit, string_findings

AT_12V = Conditions(12.0, 11.0, 13.8, Drop(0.0, 0.0, 0.0), tolerance=0.0)


def judged(
    led, *, leds: int, ohm: float, asked_a: float = 0.02, series: str = "E24"
) -> tuple[StringCircuit, dict]:
    string = string_circuit(led, AT_12V, leds=leds, current_a=asked_a, given_ohm=ohm)
    found = given_findings(string, led, AT_12V, asked_a=asked_a, subject="bar", series=series)
    return string, {one.code: one for one in found}


def test_five_reds_with_a_hundred_ohm_give_the_current_asked_for(shop_led):
    """(12 - 10)/100 = 20 mA; (11 - 10)/100 = 10 mA; (13.8 - 10)/100 = 38 mA, 0.144 W."""
    string, found = judged(shop_led(2.0), leds=5, ohm=100)
    assert (string.current_a, string.lowest_a, string.highest_a) == pytest.approx((0.020, 0.010, 0.038))
    assert set(found) == {"resistor-hot"}
    assert found["resistor-hot"].value == pytest.approx(144.4)
    assert "Buy 1/2 W" in found["resistor-hot"].remedy


def test_a_value_far_off_is_told_with_the_one_that_would_do(shop_led):
    """(12 - 8)/470 = 8.5 mA, 20 mA want (12 - 8)/0.020 = 200 ohm; E12 has 180 and 220, 180 is nearer."""
    _, found = judged(shop_led(2.0), leds=4, ohm=470)
    assert set(found) == {"given-resistor"}
    note = found["given-resistor"]
    assert (note.level, note.value, note.limit) == ("note", pytest.approx(8.511, abs=0.001), 20.0)
    assert note.remedy.startswith("200 ohm (E24)")
    _, coarse = judged(shop_led(2.0), leds=4, ohm=470, series="E12")
    assert coarse["given-resistor"].remedy.startswith(("180 ohm (E12)", "220 ohm (E12)"))


def test_a_value_near_enough_is_not_told(shop_led):
    assert "given-resistor" not in judged(shop_led(2.0), leds=4, ohm=205)[1]


def test_no_value_gives_what_the_leds_leave_no_room_for(red):
    """The curve still lets a little through where the LEDs' own voltage takes the whole supply."""
    _, found = judged(red, leds=6, ohm=100)
    assert "fewer LEDs in series" in found["given-resistor"].remedy


def test_nothing_is_said_of_a_string_that_is_dark(shop_led):
    assert not judged(shop_led(2.0), leds=7, ohm=100)[1]


def test_values_of_the_series_in_use_are_named(shop_led):
    """The limit of 30 mA at 13.8 V wants (13.8 - 10)/0.030 = 126.7 ohm: 130 of E24, 127 of E96."""
    string, _ = judged(shop_led(2.0), leds=5, ohm=100)
    for series, ohm in (("E24", "130 ohm"), ("E96", "127 ohm")):
        found = string_findings(string, shop_led(2.0), AT_12V, asked_a=0.02, subject="bar", series=series)
        over = next(one for one in found if one.code == "over-led-limit")
        assert ohm in over.remedy
