from dataclasses import replace

import pytest

from segkit.catalog import reader
from segkit.electrical.logic_level import input_findings, register_input_findings


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
