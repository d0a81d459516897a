import pytest

from segkit.cli.resistor_answer import answer, with_typical_slope
from segkit.cli.resistor_question import read
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.working import evaluate

PLAIN = {"supply": "12V", "vf": "2.0V", "series": "4", "current": "20mA", "drop": "1.1V"}


def test_unknown_led_by_the_shop_formula_with_the_curve_beside_it():
    found = answer(read(PLAIN))
    assert found.current_a == pytest.approx(2.9 / 150)
    assert found.curve_a > found.current_a  # below 20 mA the LED's voltage is lower than 2.0 V
    assert with_typical_slope(read(PLAIN).led).slope_ohm == 6
    assert with_typical_slope(read({**PLAIN, "vf": "3.2V"}).led).slope_ohm == 12


def test_working_gives_its_values():
    for texts in (PLAIN, {**PLAIN, "supply_range": "11V to 13.8V"}, {**PLAIN, "ohm": "330"}):
        for line in answer(read(texts)).lines:
            inputs = {given.symbol: given.value for given in line.inputs}
            assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-6)


def test_worst_corner_is_judged_where_typical_parts_pass():
    register = {"supply": "5V", "vf": "2.0V", "series": "1", "driver": "hc595", "outputs": "8"}
    found = answer(read({**register, "ohm": "345"}))  # 69.6 mA typical, 73.2 mA with resistors 5 % low
    stop = next(finding for finding in found.findings if finding.code == "register-overload")
    assert stop.text.startswith("at the worst corner 8 outputs")
    assert found.load is not None
    assert found.load.total_a == pytest.approx(0.0696, abs=1e-4)


def test_more_outputs_than_a_package_has():
    texts = {**PLAIN, "driver": "darlington-sink-8", "outputs": "20"}
    load = answer(read(texts)).load
    assert load is not None
    assert load.total_a == pytest.approx(8 * 2.9 / 150)


def test_stated_drop_stands_above_the_catalogue():
    texts = {**PLAIN, "driver": "logic-mosfet", "drop": "1.1V"}
    found = answer(read(texts))
    assert found.conditions.drop.typical_v == 1.1
    assert found.string.chosen_ohm == 150


def test_given_resistor_without_a_current():
    texts = {"supply": "5V", "vf": "2V", "series": "1", "ohm": "220", "parallel": "3"}
    found = answer(read(texts))
    assert found.total_a == pytest.approx(3 * 3 / 220)
    assert found.kit == ()


def test_strong_led_has_less_slope_than_a_small_one():
    led = read({"supply": "12V", "vf": "3V", "current": "5A"}).led
    assert with_typical_slope(led).slope_ohm == pytest.approx(0.06)
    assert answer(read({"supply": "12V", "vf": "3V", "current": "5A"})).curve_a == pytest.approx(5, rel=0.1)
