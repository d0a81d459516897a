from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import Drop, sink_drop, stated_sink
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS, next_up
from segkit.electrical.string import circuit_lines, refuse, string_circuit, string_findings
from segkit.errors import InputError
from segkit.working import evaluate

RED = reader.led("red-5mm-diffused")


def on(supply_v, drop_v=0.0, low=None, high=None, tolerance=0.05):
    return Conditions(supply_v, low or supply_v, high or supply_v, Drop(drop_v, drop_v, drop_v), tolerance)


def codes(string, led, conditions, asked_a=0.02):
    found = string_findings(string, led, conditions, asked_a=asked_a, subject="string")
    return {finding.code: finding for finding in found}


@pytest.mark.parametrize("what", ["exact_ohm", "chosen_ohm", "current_ma", "resistor_mw"])
def test_worked_strings(rows, agrees, shop_led, what):
    for row in rows(f"string {what}"):
        g = row["given"]
        led = shop_led(g["vf_v"], test_current_a=g["current_a"])
        string = string_circuit(
            led, on(g["supply_v"], g["drop_v"]), leds=int(g["leds"]), current_a=g["current_a"]
        )
        ours = {
            "exact_ohm": string.exact_ohm,
            "chosen_ohm": string.chosen_ohm,
            "current_ma": string.simple_current_a * 1000,
            "resistor_mw": string.simple_current_a**2 * string.chosen_ohm * 1000,
        }
        agrees(row, ours[what])


def test_rating_of_the_worked_string_over_half_of_a_quarter_watt(shop_led):
    string = string_circuit(shop_led(2.0), on(12, 0.9), leds=1, current_a=0.02)
    assert string.rating_w == 0.5


@given(
    leds=st.integers(1, 6),
    current_ma=st.floats(2, 40),
    supply_v=st.floats(4.5, 30),
    swing=st.floats(0, 0.25),
    led_id=st.sampled_from(sorted(reader.leds())),
    sink_id=st.sampled_from(["darlington-sink-8", "power-register-8", "logic-mosfet"]),
    series=st.sampled_from(["E12", "E24", "E96"]),
)
def test_no_corner_exceeds_the_limit_without_a_finding(
    leds, current_ma, supply_v, swing, led_id, sink_id, series
):
    led, sink, current_a = reader.led(led_id), reader.sink(sink_id), current_ma / 1000
    drop = sink_drop(sink, current_a=current_a)
    here = Conditions(supply_v, supply_v * (1 - swing), supply_v * (1 + swing), drop)
    string = string_circuit(led, here, leds=leds, current_a=current_a, series=series)
    found = codes(string, led, here, asked_a=current_a)
    if string.highest_a > led.max_current_a * (1 + 1e-9):
        assert found["over-led-limit"].level == "stop"
        assert "back_board" in found["over-led-limit"].holds
    if string.chosen_ohm == 0:
        assert "no-headroom" in found
    elif string.exact_ohm > 0:
        assert string.chosen_ohm >= next_up(string.exact_ohm, series) * (1 - 1e-9)
        assert string.rating_w >= 2 * string.resistor_w
        assert string.lowest_a <= string.current_a <= string.highest_a


def test_value_is_raised_for_the_leds_sake_and_says_so():
    here = on(12, low=11.0, high=13.8)
    string = string_circuit(RED, here, leds=4, current_a=0.02)
    assert string.chosen_ohm > next_up(string.exact_ohm)
    assert string.highest_a <= RED.max_current_a
    assert codes(string, RED, here)["resistor-raised"].level == "note"


def test_value_is_not_raised_beyond_seven_tenths_of_the_light():
    here = on(12, low=11.0, high=13.8)
    string = string_circuit(RED, here, leds=5, current_a=0.02)
    assert string.chosen_ohm == next_up(string.exact_ohm)
    finding = codes(string, RED, here)["over-led-limit"]
    assert finding.value == pytest.approx(string.highest_a * 1000, abs=0.01)
    assert "4 instead of 5" in finding.remedy


def test_headroom_of_each_degree(shop_led):
    led = shop_led(2.0)
    assert codes(string_circuit(led, on(12), leds=4, current_a=0.02), led, on(12)) == {}
    thin = codes(string_circuit(led, on(12), leds=5, current_a=0.02), led, on(12))
    assert thin["thin-headroom"].level == "caution"
    none = codes(string_circuit(led, on(12), leds=6, current_a=0.02), led, on(12))
    assert none["no-headroom"].level == "stop"
    assert "nothing is left" in none["no-headroom"].text
    short = string_circuit(led, on(12), leds=7, current_a=0.02)
    assert (short.chosen_ohm, short.current_a) == (0, 0)
    assert "2 V short" in codes(short, led, on(12))["no-headroom"].text


def test_string_that_goes_out_on_an_empty_battery():
    here = on(12, 0.9, low=8.5, high=12.6)
    string = string_circuit(RED, here, leds=4, current_a=0.015)
    assert codes(string, RED, here)["no-headroom"].text.startswith("at 8.5 V typical LEDs")
    here = on(12, 0.9, low=11.0, high=12.6)
    string = string_circuit(RED, here, leds=4, current_a=0.015)
    assert codes(string, RED, here)["dark-corner"].level == "caution"


def test_more_current_asked_than_the_led_stands(shop_led):
    led = shop_led(2.0, max_current_a=0.02)
    string = string_circuit(led, on(12), leds=3, current_a=0.03)
    assert "over-led-limit" in codes(string, led, on(12), asked_a=0.03)


def test_given_resistor_is_taken_as_it_is(shop_led):
    string = string_circuit(shop_led(2.0), on(5), leds=1, current_a=0.02, given_ohm=340)
    assert (string.chosen_ohm, string.series) == (340, "")
    assert string.simple_current_a == pytest.approx(3 / 340)


@pytest.mark.parametrize("given_ohm", [None, 340.0])
def test_each_formula_gives_its_value(given_ohm):
    for supply in (on(12, 0.9), on(12, 0.9, 11.0, 13.8)):
        for leds in (1, 2, 4, 6):
            string = string_circuit(RED, supply, leds=leds, current_a=0.02, given_ohm=given_ohm)
            lines = circuit_lines(string, RED, supply, asked_a=0.02, suffix="upright")
            assert len(lines) == (7 if string.chosen_ohm else 2)
            for line in lines:
                inputs = {given.symbol: given.value for given in line.inputs}
                ours = evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS)
                assert ours == pytest.approx(line.value, rel=1e-6, abs=1e-12), line.name


def test_unusable_counts_and_currents():
    with pytest.raises(InputError) as caught:
        refuse(leds=0, current_a=-1)
    assert len(caught.value.problems) == 2
    with pytest.raises(InputError, match="above 0"):
        string_circuit(replace(RED), on(12), leds=1, current_a=0.0)


def test_stated_sink_is_the_same_as_a_stated_drop():
    drop = sink_drop(stated_sink(1.1), current_a=0.02)
    assert drop == on(12, 1.1).drop
