"""Networks, kinds of supply, temperature and drawn parts in the answer about a resistor."""

import json

import pytest
from typer.testing import CliRunner

from segkit.catalog.reader import led
from segkit.cli.resistor_more import drawn, network_rows, network_sentence, networks_for, pin_text
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import Drop
from segkit.electrical.string import string_circuit
from segkit.errors import InputError
from tests.cli.yard import app

RED = led("red-5mm-diffused")
COOL = Conditions(12.0, 11.4, 12.6, Drop(0.7, 0.9, 1.1))
STRING = string_circuit(RED, COOL, leds=4, current_a=0.008)


def run(*arguments):
    return CliRunner().invoke(app, ["resistor", *arguments])


def as_json(*arguments):
    return json.loads(run(*arguments, "--json").stdout)


def test_seven_resistors_of_a_digit_in_one_network():
    plans, told = networks_for(7, (STRING,))
    assert (plans[0].network, plans[0].packages) == ("sip-bussed-8", 1)
    assert network_sentence(plans).startswith(" Or 1 × Resistor network SIP-8, bussed")
    assert pin_text(plans[0]) == (
        "Pins (1 is marked): 1 LED supply +, 2 string 1, 3 string 2, 4 string 3, 5 string 4, 6 string 5, "
        "7 string 6, 8 string 7."
    )
    assert network_rows(plans)[0][0] == "→"
    assert STRING.chosen_ohm == 390  # 387.5 before rounding; a value of E12
    assert told == ()
    odd = string_circuit(RED, COOL, leds=4, current_a=0.0075)
    assert [one.code for one in networks_for(7, (odd,))[1]] == ["network-value"]  # 430 ohm is none


def test_nobody_asked_and_nothing_flows():
    assert networks_for(None, (STRING,)) == ((), ())
    dark = string_circuit(RED, COOL, leds=6, current_a=0.008)
    assert networks_for(7, (dark,)) == ((), ())
    assert drawn(RED, (dark,), COOL) is None
    assert network_sentence(()) == ""


def test_drawn_strings_lie_within_the_corners():
    many = drawn(RED, (STRING,), COOL)
    assert many is not None
    assert STRING.lowest_a <= many.current_a.low < many.current_a.high <= STRING.highest_a


def test_a_network_in_the_answer():
    arguments = ("--supply", "12V", "--led", "red-5mm-diffused", "--series", "4", "--current", "8mA",
                 "--drop", "0.9V", "--network", "7")  # fmt: skip
    data = as_json(*arguments)
    assert data["networks"][0]["id"] == "sip-bussed-8"
    assert len(data["networks"][0]["pins"]) == 8
    text = run(*arguments).stdout
    assert "Or 1 × Resistor network SIP-8" in text.replace("\n", " ")
    assert "1 LED supply +" in text


def test_unequal_strings_have_no_network():
    data = as_json("--supply", "12V", "--led", "red-5mm-diffused", "--leds", "7", "--series", "4",
                   "--current", "8mA", "--network", "4")  # fmt: skip
    assert data["strings"] == [4, 3]
    assert data["networks"] == []
    assert "network-mixed-values" in {one["code"] for one in data["findings"]}


def test_a_lead_acid_battery_brings_its_range():
    data = as_json(
        "--supply", "12V", "--source", "lead-acid", "--vf", "2.0V", "--series", "4", "--ohm", "220"
    )
    assert data["supply_lowest_ma"] == pytest.approx((11 - 8) / 220 * 1000)
    assert data["supply_highest_ma"] == pytest.approx((13.8 - 8) / 220 * 1000)
    double = as_json(
        "--supply", "24V", "--source", "lead-acid", "--vf", "2.0V", "--series", "8", "--ohm", "440"
    )
    assert double["supply_highest_ma"] == pytest.approx(data["supply_highest_ma"])


def test_warm_leds_widen_the_corners():
    usual = ("--supply", "12V", "--led", "red-5mm-diffused", "--series", "4", "--current", "10mA")
    room, yard = as_json(*usual), as_json(*usual, "--temperature", "-10 to 60")
    assert yard["highest_ma"] > room["highest_ma"]
    assert yard["lowest_ma"] < room["lowest_ma"]
    stated = ("--supply", "12V", "--vf", "2V", "--series", "4", "--current", "10mA")
    warm = as_json(*stated, "--temperature", "25..75 °C")  # 4 x 2 mV/K x 50 K = 0.4 V more
    left_v, ohm = 12 - 8 + 0.4, warm["chosen_ohm"] * 0.95
    assert warm["highest_ma"] == pytest.approx(left_v / ohm * 1000)


def test_faults_of_the_new_options_come_together():
    result = run("--supply", "12V", "--vf", "2V", "--current", "10mA", "--source", "lead-acd",
                 "--temperature", "90 to hot", "--network", "0")  # fmt: skip
    assert isinstance(result.exception, InputError)
    keys = {problem.key for problem in result.exception.problems}
    assert keys == {"--source", "--temperature", "--network"}
    both = run("--supply-range", "11 V to 13 V", "--source", "lead-acid", "--vf", "2V", "--current", "10mA")
    assert "leave one of them out" in str(both.exception)
    steady = run("--supply", "12V", "--vf", "2V", "--current", "10mA", "--network", "7", "--driver",
                 "constant-current-sink-8")  # fmt: skip
    assert "--network" in str(steady.exception)


def test_measured_points_make_the_curve():
    """Points of a published parameter set: 1.703, 1.847, 1.934 V at 1, 10, 20 mA; 10 mA want 1.847 V."""
    data = as_json("--supply", "5V", "--points", "1.703 V at 1 mA, 1.847 V at 10 mA, 1.934 V at 20 mA",
                   "--current", "10mA")  # fmt: skip
    assert data["exact_ohm"] == pytest.approx((5 - 1.847) / 0.010, rel=1e-3)
    assert data["current_by"] == "led curve"
    both = run("--supply", "5V", "--vf", "2V", "--points", "1.8 V at 2 mA, 2 V at 20 mA", "--current", "10mA")
    assert "--vf and --points do not go together" in str(both.exception)
    bad = run("--supply", "5V", "--points", "2 V at 20 mA", "--current", "10mA")
    assert {problem.key for problem in bad.exception.problems} == {"--points"}
