import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.converter import converter_cure, converter_run, input_a
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.errors import InputError
from segkit.working import evaluate

WIRE, SOURCE = reader.wire("hook-up-0-5mm2"), reader.supply("adapter-24v-2a")


def run(**changes):
    return converter_run(WIRE, **{"length_m": 12, "source": SOURCE, "board_v": 12, "board_a": 1.4, **changes})


@given(st.floats(5, 60), st.floats(0.001, 5), st.floats(0.1, 200))
def test_the_power_arrives_or_the_most_that_can_is_known(source_v, loop_ohm, power_w):
    current_a = input_a(source_v=source_v, loop_ohm=loop_ohm, power_w=power_w)
    if math.isfinite(current_a):
        assert (source_v - current_a * loop_ohm) * current_a == pytest.approx(power_w)
        assert current_a * loop_ohm <= source_v / 2 * (1 + 1e-9)  # the better of the two currents
    else:
        assert power_w > source_v**2 / (4 * loop_ohm)


def test_without_resistance_it_is_the_power_over_the_voltage():
    assert input_a(source_v=24, loop_ohm=0.0, power_w=24) == 1.0


def test_what_goes_in_comes_out_as_power_heat_and_loss():
    found = run()
    taken_w = SOURCE.nominal_v * found.input_a
    assert taken_w == pytest.approx(12 * 1.4 + found.heat_w + found.drop_v * found.input_a)
    assert found.findings == ()


def test_a_cable_that_cannot_bring_it_is_a_stop():
    (finding,) = run(length_m=300, board_a=5).findings
    assert (finding.code, finding.level) == ("converter-starved", "stop")
    low = {f.code: f for f in run(source=replace(SOURCE, min_v=13.0)).findings}
    assert "13.5 V" in low["converter-starved"].text
    assert math.isinf(run(length_m=300, board_a=5).input_a)


def test_a_lossy_cable_is_a_caution_and_the_gauge_of_the_remedy_cures():
    found = {f.code: f for f in run(length_m=45).findings}
    awg = int(found["converter-drop"].remedy.split("wires ")[1].split(" AWG")[0])
    from segkit.electrical.wire_size import wire_of

    cured = converter_run(wire_of(f"{awg} AWG"), length_m=45, source=SOURCE, board_v=12, board_a=1.4)
    assert "converter-drop" not in {f.code for f in cured.findings}


def test_the_cure_names_a_voltage_that_does():
    assert "bring 24 V" in converter_cure(WIRE, length_m=12, board_v=12, board_a=1.4)
    assert "bring 48 V" in converter_cure(WIRE, length_m=100, board_v=12, board_a=1.4)
    assert converter_cure(WIRE, length_m=300, board_v=12, board_a=5) == ""


def test_each_formula_gives_its_value():
    for line in run().lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)


def test_what_is_no_converter_is_refused():
    with pytest.raises(InputError):
        run(efficiency=0.0)
    with pytest.raises(InputError):
        input_a(source_v=0, loop_ohm=1, power_w=1)
