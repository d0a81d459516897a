"""From a design to its wiring."""

from pathlib import Path

import pytest

from segkit.design.reader import design_from_text, read_design
from segkit.loom import wired
from segkit.project import solve

DESIGNS = Path(__file__).parent.parent / "fixtures" / "designs"


@pytest.fixture(scope="module")
def gauge():
    return solve(read_design(DESIGNS / "rain_barrel.toml"), name="rain_barrel")


def test_the_plan_says_what_the_design_says(gauge) -> None:
    plan = gauge.harness.plan
    assert (plan.title, plan.stamp) == (gauge.design.display.title, gauge.stamp)
    assert (plan.supply_v, plan.cable_m, plan.carries) == (12.0, 0.5, "supply")
    assert plan.fuse_a == gauge.budget.fuse_a
    assert len([led for string in plan.strings for led in string.leds]) == len(gauge.places)


def test_all_holes_of_the_back_board_are_wired(gauge) -> None:
    assert {led.at for s in gauge.harness.plan.strings for led in s.leds} == {p.at for p in gauge.places}


def test_lengths_are_on_the_worksheet(gauge) -> None:
    named = {line.name: line.value for line in gauge.lines}
    lengths = [wire.run.cut_mm for wire in gauge.harness.wires if wire.run.make == "wire"]
    assert sum(v for n, v in named.items() if n.startswith("wiring.wire_length.")) == pytest.approx(
        sum(lengths) / 1000
    )


def test_stock_is_of_metric_single_wires(gauge) -> None:
    assert {wire.cores for wire in gauge.harness.plan.stock} == {1}
    areas = [wire.area_mm2 for wire in gauge.harness.plan.stock]
    assert 0.25 in areas
    assert 2.5 in areas


def test_a_constant_current_sink_brings_its_setting_resistor() -> None:
    text = '[display]\nlayout = "8"\n[digit]\nheight = "100 mm"\n[pocket]\nper_segment = 2\n'
    text += '[power]\nsupply = "5 V"\ndriver = "constant-current-sink-8"\n'
    found = solve(design_from_text(text), name="one").harness.plan
    assert found.setting_ohm > 0
    assert wired.__doc__
