from dataclasses import replace

import pytest

from segkit.catalog import reader
from segkit.electrical.logic_level import (
    array_input,
    array_input_a,
    input_findings,
    register_input_findings,
)
from segkit.working import evaluate


def test_input_high_of_the_hc_register(rows, agrees, hc595):
    for row in rows("hc input high"):
        supply_v, needed_v = row["given"]["supply_v"], float(row["published"])
        agrees(row, hc595.input_high_share * supply_v)
        assert register_input_findings(hc595, register_v=supply_v, controller_v=needed_v + 1e-6) == ()
        assert register_input_findings(hc595, register_v=supply_v, controller_v=needed_v - 0.01)


def test_three_volt_controller_into_a_five_volt_register(hc595):
    (finding,) = register_input_findings(hc595, register_v=5.0, controller_v=3.3)
    assert (finding.code, finding.value, finding.limit) == ("logic-level", 3.3, 3.5)
    assert "not guaranteed" in finding.text
    assert "HCT" in finding.remedy
    hct = replace(hc595, input_high_share=0.0, input_high_v=2.0, supply_min_v=4.5, supply_max_v=5.5)
    assert register_input_findings(hct, register_v=5.0, controller_v=3.3) == ()
    assert register_input_findings(hc595, register_v=3.3, controller_v=3.3) == ()


def test_register_outside_its_supply(hc595):
    codes = [f.code for f in register_input_findings(hc595, register_v=12.0, controller_v=5.0)]
    assert codes == ["logic-level", "register-supply"]


@pytest.mark.parametrize(("logic_v", "expected"), [(3.3, ["gate-too-low"]), (5.0, [])])
def test_gate_voltage_not_threshold(mosfet, logic_v, expected):
    found = input_findings(mosfet, logic_v=logic_v)
    assert [finding.code for finding in found] == expected
    assert all("threshold" in finding.remedy for finding in found)


def test_other_inputs(darlington, register_alone):
    assert input_findings(darlington, logic_v=3.3) == ()
    assert [finding.code for finding in input_findings(darlington, logic_v=2.5)] == ["logic-level"]
    assert input_findings(register_alone, logic_v=1.8) == ()


def test_a_sink_that_is_the_register_is_judged_by_its_own_supply(steady):
    assert input_findings(steady, logic_v=3.3) == ()  # 3.5 V is asked at 5 V; at 3.3 V it is 2.31 V
    register = reader.register("constant-current-sink-8")
    assert register_input_findings(register, register_v=3.3, controller_v=3.3) == ()
    (finding,) = register_input_findings(register, register_v=5.0, controller_v=3.3)
    assert (finding.code, finding.limit) == ("logic-level", 3.5)
    assert "HCT buffer" in finding.remedy  # there is no HCT type of this part
    assert "HCT type" not in finding.remedy


def test_a_3v3_register_feeds_an_array_for_200_milliamperes(darlington, hc595):
    """Worked by hand: (3.3 - 1.4)/2.7 kohm = 0.70 mA; the drop at 200 mA is stated with 0.35 mA."""
    lines, found = array_input(darlington, hc595, logic_v=3.3, output_a=0.2, outputs=8)
    assert array_input_a(3.3) == pytest.approx(0.70e-3, abs=0.005e-3)
    assert [line.value for line in lines] == pytest.approx([0.70e-3, 0.35e-3], abs=0.005e-3)
    assert found == ()
    for line in lines:
        assert evaluate(line.formula, {one.symbol: one.value for one in line.inputs}) == pytest.approx(
            line.value
        )


def test_input_current_lies_below_the_printed_most():
    """Data sheet of the array: at most 1.35 mA at 3.85 V; a middle part must take less."""
    ours = array_input_a(3.85)
    assert 0.5 * 1.35e-3 < ours < 1.35e-3, f"printed at most 1.35 mA, ours {ours}"
    assert array_input_a(1.0) == 0


def test_low_logic_starves_an_array(darlington, hc595):
    _, found = array_input(darlington, hc595, logic_v=2.4, output_a=0.35, outputs=8)
    assert [(one.level, one.code) for one in found] == [("caution", "array-input")]


def test_other_sinks_have_no_base_current(mosfet, hc595):
    assert array_input(mosfet, hc595, logic_v=3.3, output_a=0.2, outputs=1) == ((), ())


def test_inputs_of_an_array_are_a_load_for_the_register(darlington, hc595):
    small = replace(hc595, max_package_a=0.005)
    _, found = array_input(darlington, small, logic_v=5.0, output_a=0.1, outputs=8)
    assert [(one.level, one.code) for one in found] == [("stop", "register-overload")]
