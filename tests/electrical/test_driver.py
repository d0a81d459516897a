from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.driver import (
    drop_line,
    package_load,
    set_resistor_findings,
    set_resistor_line,
    set_resistor_ohm,
    sink_drop,
    stated_sink,
    thermal_resistance,
)
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.errors import InputError
from segkit.working import evaluate


def value_of(line):
    return evaluate(line.formula, {given.symbol: given.value for given in line.inputs}, WORKSHEET_FUNCTIONS)


def codes(load):
    return {finding.code: finding for finding in load.findings}


def test_darlington_drop_at_the_published_points(rows, darlington):
    for row in rows("darlington drop"):
        typical_v, worst_v = (float(word) for word in row["published"].split())
        drop = sink_drop(darlington, current_a=row["given"]["current_a"])
        assert (drop.typical_v, drop.worst_v) == (typical_v, worst_v)


def test_darlington_drop_between_below_and_beyond(darlington):
    assert sink_drop(darlington, current_a=0.02).typical_v == 0.9
    assert sink_drop(darlington, current_a=0.15).typical_v == pytest.approx(1.0)
    assert sink_drop(darlington, current_a=0.02).low_v == pytest.approx(0.7)
    # An equivalent array's curve needs about 1.58 V at 500 mA; worst carried on beyond 350 mA stays above it.
    beyond = sink_drop(darlington, current_a=0.5)
    assert beyond.typical_v < 1.58 < beyond.worst_v


@given(st.sampled_from(sorted(reader.sinks())), st.floats(0, 0.5), st.floats(0, 0.5))
def test_drop_never_falls_with_current(sink_id, one_a, other_a):
    sink = reader.sink(sink_id)
    small, large = (sink_drop(sink, current_a=current_a) for current_a in sorted((one_a, other_a)))
    assert small.typical_v <= large.typical_v
    assert small.worst_v <= large.worst_v
    for drop in (small, large):
        assert 0 <= drop.low_v <= drop.typical_v <= drop.worst_v


@given(st.sampled_from(sorted(reader.sinks())), st.floats(0.001, 0.5))
def test_working_of_the_drop(sink_id, current_a):
    sink = reader.sink(sink_id)
    line = drop_line(sink, current_a=current_a, name="electrical.sink_drop.x")
    assert line.value == sink_drop(sink, current_a=current_a).typical_v
    assert value_of(line) == pytest.approx(line.value, rel=1e-9)


def test_mosfet_drop_is_current_times_on_resistance(mosfet):
    # Published situation: 60 mA through 50 mohm drops 3 mV.
    fully_on = replace(mosfet, on_resistance_ohm=0.05, on_resistance_worst_ohm=0.05)
    assert sink_drop(fully_on, current_a=0.06).typical_v == pytest.approx(0.003)


def test_sink_without_figures_is_refused(mosfet):
    with pytest.raises(InputError, match="neither drop points"):
        sink_drop(replace(mosfet, type="darlington"), current_a=0.1)
    with pytest.raises(InputError, match="negative"):
        sink_drop(mosfet, current_a=-0.1)


def test_set_resistor_by_the_published_formula(rows, agrees):
    for row in rows("set resistor ma"):
        ohm = row["given"]["ohm"]
        agrees(row, 1000 * 15 * 1.25 / ohm)
        assert set_resistor_ohm(15 * 1.25 / ohm) == pytest.approx(ohm)
    for row in rows("set resistor ohm"):
        agrees(row, set_resistor_ohm(row["given"]["ma"] / 1000))
    line = set_resistor_line(0.02, name="electrical.set_resistor.x")
    assert value_of(line) == pytest.approx(line.value)
    with pytest.raises(InputError):
        set_resistor_ohm(0)


def test_the_more_cautious_maker_counts(darlington):
    assert thermal_resistance(darlington) == pytest.approx(85.0, abs=0.1)  # 1.47 W, not 55 K/W
    assert thermal_resistance(replace(darlington, budget_w=0)) == 55


def test_design_budgets_of_eight_outputs(rows, agrees):
    for row in rows("budget ma_per_output"):
        g = row["given"]
        sink = replace(
            stated_sink(g["volt"]), type="darlington", outputs=8, theta_ja_k_per_w=g["theta"],
            max_junction_c=g["junction_c"],
        )  # fmt: skip
        printed = float(row["published"]) / 1000
        inside, over = (
            package_load(sink, outputs_a=[printed * factor] * 8, ambient_c=g["ambient_c"])
            for factor in (0.98, 1.02)
        )
        assert "sink-heat" not in codes(inside)
        assert "sink-heat" in codes(over)
        agrees(row, 1000 * (g["junction_c"] - g["ambient_c"]) / g["theta"] / 8 / g["volt"])


def test_digit_that_only_fails_at_eight_is_inside_the_arrays_limits(darlington):
    # Published situation: 28 strings at 14.1 mA, 395 mA and 0.36 W at the typical drop: look elsewhere.
    load = package_load(
        replace(darlington, outputs=7),
        outputs_a=[4 * (12 - 0.9 - 8) / 220] * 7,
        outputs_v=[0.9] * 7,
        supply_max_v=12,
    )
    assert load.total_a == pytest.approx(0.395, abs=0.001)
    assert load.heat_w == pytest.approx(0.36, abs=0.005)
    assert load.findings == ()


def test_package_lines_give_their_values(darlington):
    load = package_load(darlington, outputs_a=[0.05, 0.05, 0.12], supply_max_v=12)
    for line in load.lines:
        assert value_of(line) == pytest.approx(line.value, rel=1e-9)
    assert load.heat_w == pytest.approx(0.05 * 1.1 * 2 + 0.12 * 1.14)
    assert load.junction_c == pytest.approx(50 + load.heat_w * thermal_resistance(darlington))


def test_eight_outputs_at_full_current_overheat(darlington):
    load = package_load(darlington, outputs_a=[0.35] * 8)
    assert codes(load)["sink-heat"].level == "stop"
    assert "sink-output-limit" in codes(package_load(darlington, outputs_a=[0.6]))


def test_output_voltage(darlington, register_alone):
    assert "sink-voltage" in codes(package_load(darlington, outputs_a=[0.02], supply_max_v=60))
    assert "sink-voltage" in codes(package_load(register_alone, outputs_a=[0.005], supply_max_v=12))


def test_eight_leds_on_a_register_alone(register_alone):
    # Published situation: 160 mA is 2.3 times 70 mA, 340 ohm leave 71 mA, 6 mA with 510 ohm take 47 mA.
    load = package_load(register_alone, outputs_a=[0.02] * 8, supply_max_v=5, drive_v=3.0)
    finding = codes(load)["register-overload"]
    assert (finding.level, finding.value, finding.limit) == ("stop", 160, 70)
    assert "2.29 times" in finding.text
    assert "6 mA an output: 510 ohm, 47 mA with everything lit" in finding.remedy
    assert "register-overload" in codes(package_load(register_alone, outputs_a=[3 / 340] * 8))
    assert package_load(register_alone, outputs_a=[3 / 510] * 8, supply_max_v=5).findings == ()
    assert "register-overload" in codes(package_load(register_alone, outputs_a=[0.04]))


def test_register_drop_is_not_counted_on(register_alone):
    drop = sink_drop(register_alone, current_a=0.006)
    assert (drop.low_v, drop.typical_v, drop.worst_v) == (0, 0, 0.4)


def test_package_of_another_limit_names_the_current(darlington):
    limited = replace(darlington, max_package_a=1.0)
    finding = codes(package_load(limited, outputs_a=[0.15] * 8))["sink-package-limit"]
    assert finding.remedy == "At most 125 mA an output, or more packages."


def test_more_outputs_than_there_are(darlington):
    with pytest.raises(InputError, match="8 output"):
        package_load(darlington, outputs_a=[0.02] * 9)
    with pytest.raises(InputError):
        package_load(darlington, outputs_a=[0.02], outputs_v=[1.0, 1.0])


def test_logic_voltage_is_judged_with_the_package(mosfet):
    assert "gate-too-low" in codes(package_load(mosfet, outputs_a=[0.06], logic_v=3.3))
    assert "gate-too-low" not in codes(package_load(mosfet, outputs_a=[0.06], logic_v=5.0))


def test_one_output_far_over_is_said_once(register_alone):
    found = package_load(register_alone, outputs_a=(0.08,), outputs_v=(0.4,)).findings
    assert [(finding.code, finding.limit) for finding in found] == [("register-overload", 35.0)]


def test_one_set_resistor_serves_equal_currents_only(steady, darlington):
    assert set_resistor_findings(steady, {"upright": 0.03, "crossbar": 0.03}) == ()
    assert set_resistor_findings(darlington, {"upright": 0.03, "point": 0.01}) == ()
    (finding,) = set_resistor_findings(steady, {"upright": 0.03, "point": 0.01})
    assert (finding.code, finding.value, finding.limit) == ("one-set-resistor", 30.0, 10.0)
