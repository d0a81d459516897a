from dataclasses import replace

import pytest

from segkit.catalog import reader
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.electrical.regulator import linear_regulator, step_down
from segkit.errors import InputError
from segkit.working import evaluate

ADAPTER = reader.supply("adapter-12v-2a")


def steady(volts):
    return replace(ADAPTER, nominal_v=volts, min_v=volts, max_v=volts)


def regulated(g):
    return linear_regulator(
        steady(g["supply_v"]), logic_v=g["logic_v"], logic_a=g["logic_a"],
        theta_k_per_w=g.get("theta", 65.0), ambient_c=g.get("ambient_c", 22.0),
    )  # fmt: skip


def test_heat_and_temperature_as_measured(rows, agrees):
    for row in rows("regulator watt"):
        agrees(row, regulated(row["given"]).heat_w)
    for row in rows("regulator celsius"):
        agrees(row, regulated(row["given"]).junction_c)


def test_hot_is_no_fault_and_too_hot_is_a_stop():
    warm = linear_regulator(steady(12.0), logic_v=5, logic_a=0.2085, theta_k_per_w=45, ambient_c=22).findings
    assert [(f.code, f.level) for f in warm] == [("regulator-heat", "caution")]
    assert "no fault" in warm[0].text
    hot = linear_regulator(steady(12.0), logic_v=5, logic_a=0.2085).findings
    assert [(f.code, f.level) for f in hot] == [("regulator-heat", "stop")]
    assert "Never feed LEDs from it" in hot[0].remedy
    assert linear_regulator(steady(12.0), logic_v=5, logic_a=0.06).findings == ()  # 0.42 W


def test_the_current_of_the_remedy_stays_touchable():
    (hot,) = linear_regulator(steady(12.0), logic_v=5, logic_a=0.3).findings
    current_a = float(hot.remedy.split("up to ")[1].split(" mA")[0]) / 1000
    assert linear_regulator(steady(12.0), logic_v=5, logic_a=0.98 * current_a).findings == ()


def test_dropout_and_current_limit():
    low = linear_regulator(steady(6.0), logic_v=5, logic_a=0.02).findings
    assert [(f.code, f.level, f.limit) for f in low] == [("regulator-dropout", "stop", 7.0)]
    much = {f.code for f in linear_regulator(steady(9.0), logic_v=5, logic_a=1.5).findings}
    assert "regulator-current" in much
    assert [f.code for f in step_down(steady(5.5), logic_v=5, logic_a=0.1).findings] == ["regulator-dropout"]


def test_a_step_down_converter_draws_its_share():
    feed = step_down(steady(12.0), logic_v=5, logic_a=0.204, efficiency=0.85)
    assert feed.drawn_a == pytest.approx(0.1)
    assert 12 * feed.drawn_a - 5 * 0.204 == pytest.approx(feed.heat_w)  # what goes in and does not come out


def test_each_formula_gives_its_value():
    for feed in (
        linear_regulator(ADAPTER, logic_v=5, logic_a=0.1),
        linear_regulator(steady(4.0), logic_v=5, logic_a=0.1),
        step_down(ADAPTER, logic_v=5, logic_a=0.1),
    ):
        for line in feed.lines:
            inputs = {given.symbol: given.value for given in line.inputs}
            assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)


def test_what_is_no_regulator_is_refused():
    with pytest.raises(InputError):
        linear_regulator(ADAPTER, logic_v=0, logic_a=0.1)
    with pytest.raises(InputError):
        step_down(ADAPTER, logic_v=5, logic_a=0.1, efficiency=1.2)
