import math
from dataclasses import replace

import pytest

from segkit.catalog import reader
from segkit.electrical.battery import peukert_h
from segkit.electrical.fuse import fuse_a
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.electrical.supply import MEAN_SHARE, Load, limited_a, power_budget
from segkit.errors import InputError
from segkit.glyphs.characters import segments_of
from segkit.working import evaluate

ADAPTER = reader.supply("adapter-12v-2a")


def budget(digits=4, segment_a=0.04, supply=ADAPTER, wire_a=5.0, logic_a=0.0, highest=1.2):
    loads = (Load("upright", 7 * digits, segment_a, segment_a * highest),)
    return power_budget(loads, supply=supply, wire_a=wire_a, logic_a=logic_a)


def codes(found):
    return {finding.code: finding for finding in found.findings}


def test_needed_supply_as_published(rows, agrees):
    for row in rows("supply needed_a"):
        g = row["given"]
        agrees(row, budget(int(g["digits"]), g["segment_ma"] / 1000).needed_a)
    assert budget(4).supply_a == 1.5
    assert budget(6).all_on_a == pytest.approx(1.68)
    assert budget(6).supply_a == 2.5


def test_battery_times_as_published(rows, agrees):
    for row in rows("peukert h"):
        agrees(row, peukert_h(**row["given"]))


def test_nine_digits_over_random_content():
    # Published situation: nine digits at 20 mA a segment: 1.26 A lit, 0.88 A on average.
    found = budget(9, 0.02)
    assert found.all_on_a == pytest.approx(1.26)
    assert found.mean_a == pytest.approx(0.882)


def test_mean_share_is_counted_from_the_digits():
    lit = [len(segments_of(digit)) for digit in "0123456789"]
    assert sum(lit) == 49
    assert sum(lit) / 70 == MEAN_SHARE


def test_supply_verdicts():
    assert "supply-loaded" in codes(budget(6, 0.045, highest=1.0))
    worst = codes(budget(6, 0.045, highest=1.2))["supply-too-small"]
    assert worst.level == "caution"
    small = codes(budget(9, 0.04))["supply-too-small"]
    assert small.level == "stop"
    assert "4 A" in small.remedy
    assert "supply-too-small" not in codes(budget(4))
    assert budget(200, 0.05).supply_a == math.inf
    assert "Divide the board" in codes(budget(200, 0.05))["supply-too-small"].remedy


def test_battery_verdicts_and_time():
    battery = reader.supply("lead-acid-12v-7ah")
    found = budget(4, 0.04, supply=battery)
    assert found.runtime_h == pytest.approx(peukert_h(capacity_ah=7, current_a=found.mean_a))
    assert found.runtime_h < 7 / found.mean_a
    assert "terminal" in codes(found)["battery-fuse"].remedy
    lithium = budget(4, 0.04, supply=reader.supply("lithium-3-cell"))
    assert lithium.runtime_h == pytest.approx(2.5 / lithium.mean_a)
    assert budget().runtime_h == 0


def test_mains_caution_defers_to_local_codes():
    assert "Local codes come first" in codes(budget())["mains"].remedy
    assert "licensed electrician" in codes(budget())["mains"].remedy


def test_fuse_must_not_be_above_the_wire():
    found = budget(4, 0.04, wire_a=0.58)
    assert found.fuse_a == 0
    assert "fuse-above-wire" in codes(found)
    assert "electrical.fuse" not in {line.name for line in found.lines}


@pytest.mark.parametrize("supply_id", ["adapter-12v-2a", "lead-acid-12v-7ah", "lithium-3-cell", "aa-8-cells"])
def test_each_formula_gives_its_value(supply_id):
    loads = (Load("upright", 28, 0.04, 0.05), Load("colon", 1, 0.02, 0.03, mean_share=1.0))
    found = power_budget(loads, supply=reader.supply(supply_id), wire_a=5.0)
    names = {line.name for line in found.lines}
    assert {"electrical.total_current", "electrical.supply", "electrical.mean_current"} <= names
    assert ("electrical.runtime" in names) == (supply_id != "adapter-12v-2a")
    for line in found.lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9), (
            line.name
        )


def test_unusable_values():
    with pytest.raises(InputError):
        peukert_h(capacity_ah=0, current_a=1)
    with pytest.raises(InputError, match="nothing on the board"):
        power_budget((), supply=ADAPTER, wire_a=1.0, logic_a=0.0)


def test_a_fuse_for_each_digit_minds_the_digit_that_takes_most():
    loads = (Load("upright", 7, 0.06, 0.08), Load("small upright", 28, 0.01, 0.012))
    found = power_budget(loads, supply=ADAPTER, wire_a=0.8, digit=loads[:1])
    assert found.fused_a == pytest.approx(7 * 0.08)  # the average of five digits would be 0.18 A
    assert found.fuse_a == fuse_a(load_a=0.56, wire_a=0.8) == 0.8
    lines = {line.name: line for line in found.lines}
    assert lines["electrical.digit_current_highest"].formula == "n1*I1"
    for name in ("electrical.digit_current_highest", "electrical.fuse"):
        inputs = {given.symbol: given.value for given in lines[name].inputs}
        assert evaluate(lines[name].formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(lines[name].value)
    thin = power_budget(loads, supply=ADAPTER, wire_a=0.6, digit=loads[:1])
    assert thin.fuse_a == 0
    assert codes(thin)["fuse-above-wire"].value == pytest.approx(0.7)


def test_small_cells_are_not_said_to_give_hundreds_of_amperes() -> None:
    texts = {kind: _care_of(kind) for kind in ("cells", "lead-acid")}
    assert "several amperes" in texts["cells"]
    assert "hundreds" not in texts["cells"]
    assert "hundreds" in texts["lead-acid"]


def _care_of(kind: str) -> str:
    supply = next(row for row in reader.supplies().values() if row.type == kind)
    budget = power_budget([Load("upright", 4, 0.02, 0.025)], supply=supply, wire_a=2.0)
    return next(f.text for f in budget.findings if f.code == "battery-fuse")


def test_a_strong_supply_is_told_apart_from_one_of_limited_power(rows, agrees):
    for row in rows("limited watt"):
        volts = row["given"]["supply_v"]
        agrees(row, volts * limited_a(volts))
    assert "strong-supply" not in codes(budget(6))
    large = codes(budget(20, supply=replace(ADAPTER, max_current_a=10.0), wire_a=20.0))["strong-supply"]
    assert (large.level, large.value, large.limit) == ("note", 10.0, 5.0)
    assert "strong-supply" not in codes(budget(20, supply=reader.supply("lead-acid-12v-18ah")))
