from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.electrical.multiplexing import SWITCHES, InTurn, equal_on_times, take_turns
from segkit.errors import InputError
from segkit.working import evaluate
from tests.electrical.conftest import DARLINGTON, RED

YARD = {
    "led": RED, "sink": DARLINGTON, "switch": SWITCHES["p-mosfet"], "supply_v": 12.0, "static_a": 0.01,
    "series": 3, "strings": 1,
}  # fmt: skip


def codes(made):
    return [one.code for one in made.findings]


def test_two_digits_keep_their_light():
    """Worked by hand: 500 rounds, 50 us dark: 1/2 - 0.025 = 0.475; 10 mA/0.475 = 21.05 mA, below 30 mA."""
    made = take_turns(digits=2, **YARD)
    assert made.duty == pytest.approx(0.475)
    assert made.peak_a == made.wanted_a == pytest.approx(0.010 / 0.475)
    assert made.light == pytest.approx(1.0)
    assert made.digit_a == pytest.approx(8 * 0.010 / 0.475)
    left_v = 12 - 0.9 - 0.1 * made.digit_a - 3 * 2.006
    assert made.headroom_v == pytest.approx(left_v, abs=0.02)
    assert made.resistor_ohm == pytest.approx(made.headroom_v / made.peak_a)


def test_seven_rows_of_a_known_board():
    """Seven rows of 1.64 ms each: 87 rounds a second, and an exposure of 1 ms sees one of them."""
    made = take_turns(digits=7, refresh_hz=1 / (7 * 1.64e-3), dark_s=0, **YARD)
    assert made.slot_s == pytest.approx(1.64e-3)
    assert 1 / (7 * made.slot_s) == pytest.approx(87, abs=0.2)
    assert {"flicker", "bands-on-film", "turns-ghosts"} <= set(codes(made))


def test_the_led_limit_costs_light():
    made = take_turns(digits=6, **YARD)
    assert made.peak_a == RED.max_current_a
    assert made.light == pytest.approx(0.030 * made.duty / 0.010)
    assert "turns-cost-light" in codes(made)


def test_eight_red_segments_pull_too_much_through_a_register_alone(register_alone):
    """5 V, 220 ohm, 2.0 V: 13.6 mA each, 109 mA through a chip that is good for 70."""
    made = take_turns(
        digits=2, **{**YARD, "sink": register_alone, "supply_v": 5.0, "series": 1, "static_a": 0.0136 * 0.475}
    )
    assert made.load.total_a == pytest.approx(0.109, abs=0.001)
    assert "register-overload" in codes(made)


def test_blue_and_red_through_one_resistor():
    """220 ohm on 5 V: blue 3.3 V gets 7.7 mA, red 2.0 V gets 13.6 mA; red is to be lit 0.57 as long."""
    currents = {"blue": (5 - 3.3) / 220, "red": (5 - 2.0) / 220}
    assert equal_on_times(currents)["red"] == pytest.approx(0.57, abs=0.005)
    assert equal_on_times(currents)["blue"] == 1.0


def test_a_source_array_leaves_too_little_on_5_volts():
    made = take_turns(digits=2, **{**YARD, "switch": SWITCHES["source-array"], "supply_v": 5.0, "series": 1})
    assert made.headroom_v < 0.6
    assert "turns-headroom" in codes(made)


def test_a_digit_too_strong_for_its_switch():
    made = take_turns(digits=2, **{**YARD, "switch": SWITCHES["pnp"], "strings": 5})
    assert made.digit_a > SWITCHES["pnp"].max_a
    assert "turns-switch-limit" in codes(made)


def test_a_constant_current_sink_takes_the_rest(steady):
    made = take_turns(digits=2, **{**YARD, "sink": steady})
    across_v = 12 - 0.1 * made.digit_a - 3 * 1.8
    assert made.load.heat_w == pytest.approx(2 * made.duty * 8 * made.peak_a * across_v)


@given(st.integers(2, 16), st.floats(20, 2000), st.floats(0, 20e-6), st.floats(0.001, 0.03))
def test_light_is_mean_current_and_never_above_static(digits, refresh, dark, static):
    made = take_turns(digits=digits, refresh_hz=refresh, dark_s=dark, **{**YARD, "static_a": static})
    assert made.light <= 1 + 1e-9
    assert made.light == pytest.approx(made.peak_a * made.duty / static)
    assert made.peak_a <= RED.max_current_a
    assert made.lit_s * refresh == pytest.approx(made.duty)
    for line in made.lines:
        ours = evaluate(line.formula, {one.symbol: one.value for one in line.inputs})
        assert ours == pytest.approx(line.value, rel=1e-6), line.name


def test_the_design_file_knows_every_switch():
    from segkit.design.lamps import Turns

    assert set(get_args(Turns.model_fields["switch"].annotation)) == set(SWITCHES)


def test_unusable_rounds():
    for more in (
        {"digits": 1}, {"digits": 17}, {"digits": 4, "refresh_hz": 5}, {"digits": 4, "dark_s": 1e-3},
        {"digits": 4, "static_a": 0.0}, {"digits": 4, "supply_v": -1},
    ):  # fmt: skip
        with pytest.raises(InputError):
            take_turns(**{**YARD, **more})
    for bad in ({}, {"red": 0.0}):
        with pytest.raises(InputError):
            equal_on_times(bad)


@given(
    st.floats(5.0, 24.0),
    st.integers(1, 4),
    st.integers(1, 3),
    st.floats(20.0, 5000.0),
    st.sampled_from([*SWITCHES]),
)
def test_the_current_through_a_resistor_leaves_what_stands_across_it(supply_v, series, strings, ohm, switch):
    turn = InTurn(RED, DARLINGTON, SWITCHES[switch], supply_v, series, strings)
    current_a = turn.through_a(ohm)
    if current_a > 1e-6:
        assert turn.left_v(current_a) == pytest.approx(current_a * ohm, abs=1e-9 * supply_v)
        line = turn.line("electrical.turns_own", current_a, ohm)
        inputs = {one.symbol: one.value for one in line.inputs}
        assert evaluate(line.formula, inputs) == pytest.approx(current_a, rel=1e-6)
    else:
        assert turn.left_v(1e-6) < 1e-3


def test_a_given_resistor_sets_the_current_of_a_turn():
    """The resistor that the round asks for, given back to it, lets the same current through."""
    free = take_turns(digits=2, **YARD)
    same = take_turns(digits=2, **YARD, given_ohm=free.resistor_ohm)
    assert same.peak_a == pytest.approx(free.peak_a)
    assert same.light == pytest.approx(free.light)
    assert same.resistor_ohm == free.resistor_ohm
    assert codes(same) == codes(free)
    twice = take_turns(digits=2, **YARD, given_ohm=2 * free.resistor_ohm)
    assert 0.5 < twice.peak_a / free.peak_a < 0.6  # the LEDs' curve gives back a little
    assert "turns-cost-light" in codes(twice)
    for line in twice.lines:
        inputs = {one.symbol: one.value for one in line.inputs}
        assert evaluate(line.formula, inputs) == pytest.approx(line.value, rel=1e-6), line.name
