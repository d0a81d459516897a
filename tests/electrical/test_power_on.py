import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.electrical.power_on import flash_sentence, power_on, rise_s
from segkit.errors import InputError
from segkit.working import evaluate


def test_the_delay_that_is_said_to_be_three_milliseconds():
    """47 kohm and 100 nF reach 0.7 of the supply, which a 74HC takes for a 1, after 5.7 ms."""
    assert rise_s(ohm=47e3, farad=100e-9, threshold=0.7) == pytest.approx(5.66e-3, abs=0.01e-3)


@given(st.floats(1, 1e6), st.floats(1e-12, 1e-3), st.floats(0, 0.99))
def test_the_voltage_after_the_rise_is_the_threshold(ohm, farad, threshold):
    time_s = rise_s(ohm=ohm, farad=farad, threshold=threshold)
    assert 1 - math.exp(-time_s / (ohm * farad)) == pytest.approx(threshold, abs=1e-9)


def test_outputs_are_held_off_before_anything_is_shifted(sinks, hc595):
    made = power_on(sinks["darlington"], hc595, all_on_a=1.5, logic_v=5.0)
    assert "output-enable (pin 13)" in made.steps[0]
    latch = next(i for i, step in enumerate(made.steps) if "latch" in step)
    assert latch == 2
    assert "low" in made.steps[-1]
    assert made.findings == ()
    assert "1.5 A" in flash_sentence(made)


def test_a_dark_frame_has_the_polarity_of_the_sink(sinks, hc595):
    assert any("zeros" in step for step in power_on(sinks["darlington"], hc595, all_on_a=1, logic_v=5).steps)
    assert any("ones" in step for step in power_on(sinks["register"], hc595, all_on_a=1, logic_v=5).steps)


def test_gates_must_not_float(sinks, hc595):
    made = power_on(sinks["mosfet"], hc595, all_on_a=1.0, logic_v=5.0)
    assert [one.code for one in made.findings] == ["gate-pull-down"]
    assert any("gate to ground" in step for step in made.steps)


def test_each_formula_gives_its_value(sinks, hc595):
    for line in power_on(sinks["darlington"], hc595, all_on_a=1.0, logic_v=3.3).lines:
        assert evaluate(line.formula, {one.symbol: one.value for one in line.inputs}) == line.value


def test_unusable_rises():
    for ohm, farad, threshold in ((0, 1e-6, 0.5), (1e3, 0, 0.5), (1e3, 1e-6, 1.0)):
        with pytest.raises(InputError):
            rise_s(ohm=ohm, farad=farad, threshold=threshold)
