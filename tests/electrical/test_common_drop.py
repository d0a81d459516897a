"""A part between the supply and the segments: its volts, its heat, what is left for the strings."""

import math

import pytest

from segkit.electrical.arrangement import segment_circuit
from segkit.electrical.common_drop import BARE_W, common_drop, parse_drop
from segkit.electrical.corners import Conditions
from segkit.electrical.drift import drift
from segkit.electrical.driver import NO_DROP, Drop, stated_sink
from segkit.electrical.equal_light import Lit, equal_light
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.electrical.spread import Drawn, spread
from segkit.errors import InputError
from segkit.working import evaluate

BATTERY = {"supply_v": 12.0, "supply_min_v": 11.0, "supply_max_v": 13.8}
DIODE = parse_drop("0.4 V to 0.7 V")


def test_one_voltage_or_a_range():
    assert parse_drop("1.3 V") == Drop(1.3, 1.3, 1.3)
    assert parse_drop("0.4 V to 0.7 V") == Drop(0.4, 0.55, 0.7)
    assert parse_drop("0.4..0.7 V") == Drop(0.4, 0.55, 0.7)


@pytest.mark.parametrize(
    "text", ["0 V", "-0.7 V", "0 V to 0.7 V", "13 V", "220 ohm", "1.3", "0.7 V to 0.4 V"]
)
def test_what_is_no_drop_is_refused(text):
    with pytest.raises(InputError):
        parse_drop(text)


def test_it_is_taken_from_the_supply_at_every_corner():
    here = Conditions(**BATTERY, drop=Drop(0.7, 0.9, 1.1), common=DIODE)
    assert here.nominal_drive_v() == pytest.approx(12 - 0.9 - 0.55)
    assert here.lowest_drive_v() == pytest.approx(11 - 1.1 - 0.7)  # the most is lost when least is there
    assert here.highest_drive_v() == pytest.approx(13.8 - 0.7 - 0.4)


def test_a_source_array_above_a_segment_of_four_volts_is_short(shop_led):
    """5 - 1.3 - 4.0 = -0.3 V: no resistor would do; without the array 1 V is left."""
    five = {"supply_v": 5.0, "supply_min_v": 5.0, "supply_max_v": 5.0}
    parts = {"kind": "bar", "led": shop_led(4.0), "leds": 1, "sink": stated_sink(0.0), "current_a": 0.02}
    made = segment_circuit(**parts, **five, common=parse_drop("1.3 V"))
    (stop,) = (one for one in made.findings if one.level == "stop")
    assert (stop.code, stop.value) == ("no-headroom", pytest.approx(-0.3))
    assert "0.3 V short, with 1.3 V lost in the common lead" in stop.text
    assert "higher supply" in stop.remedy
    assert "MOSFET in place of what takes 1.3 V" in stop.remedy
    assert "no-headroom" not in {one.code for one in segment_circuit(**parts, **five).findings}


def test_a_mosfet_is_not_promised_to_cure_what_it_cannot(shop_led):
    """5 - 0.5 - 4.9 = -0.4 V: without the 0.5 V there is 0.1 V, too little for a resistor."""
    five = {"supply_v": 5.0, "supply_min_v": 5.0, "supply_max_v": 5.0}
    made = segment_circuit(
        kind="bar", led=shop_led(4.9), leds=1, sink=stated_sink(0.0), current_a=0.02, **five,
        common=parse_drop("0.5 V"),
    )  # fmt: skip
    assert "in the common lead" not in made.findings[0].remedy


@pytest.mark.parametrize("common", [NO_DROP, DIODE])
def test_the_worksheet_shows_it_and_evaluates(red, darlington, common):
    made = segment_circuit(
        kind="bar", led=red, leds=8, sink=darlington, current_a=0.015, **BATTERY, common=common, aimed=True
    )
    for line in made.lines:
        inputs = {one.symbol: one.value for one in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-6)
        assert ("Vc" in inputs) == (common is DIODE and " - Vd" in line.formula), line.name


def test_drift_and_draws_know_of_it(shop_led):
    """By hand, 2.0 V fixed, no drop in the sink: (11 - 0.55 - 8)/(12 - 0.55 - 8) of the light is left."""
    kinds, parts = (Lit("bar", 4, 100.0),), {"led": shop_led(2.0), "sink": stated_sink(0.0)}
    made = equal_light(kinds, current_a=0.015, in_series=4, **parts, **BATTERY, common=DIODE)
    apart = drift(kinds, {"bar": made.circuits[0]}, **parts, **BATTERY, common=DIODE)
    assert apart.low["bar"] == pytest.approx((11 - 0.55 - 8) / (12 - 0.55 - 8))
    board = [Drawn("bar", 7, ((4, 220.0),))]
    free, behind = (
        spread(
            board, led=shop_led(2.0), boards=200,
            conditions=Conditions(12.0, 12.0, 12.0, NO_DROP, 0.0, common=common),
        )
        for common in (NO_DROP, DIODE)
    )  # fmt: skip
    assert free.current_a.middle == pytest.approx(4 / 220)
    assert behind.current_a.middle == pytest.approx((4 - 0.55) / 220, rel=0.02)
    assert (4 - 0.7) / 220 < behind.current_a.low < behind.current_a.high < (4 - 0.4) / 220


def test_its_heat_is_said_and_evaluates():
    """1.3 V x 160 mA = 0.208 W, at the corner 1.3 x 0.18 = 0.234 W; 1.3/5 = 26 % of the power."""
    made = common_drop(parse_drop("1.3 V"), supply_v=5, current_a=0.16, highest_a=0.18, where="each digit")
    assert [line.value for line in made.lines] == pytest.approx([0.208, 0.234, 0.26])
    for line in made.lines:
        assert evaluate(line.formula, {one.symbol: one.value for one in line.inputs}) == pytest.approx(
            line.value
        )
    (note,) = made.findings
    assert (note.level, note.code) == ("note", "common-drop")
    for part in ("1.3 V", "26%", "160 mA", "234 mW"):
        assert part in note.text
    assert not common_drop(NO_DROP, supply_v=5, current_a=0.16, highest_a=0.18, where="board").findings
    assert not common_drop(DIODE, supply_v=5, current_a=0.0, highest_a=0.0, where="board").lines


@pytest.mark.parametrize(
    ("highest_a", "level"), [(0.999 * BARE_W / 0.7, "note"), (1.001 * BARE_W / 0.7, "caution")]
)
def test_more_than_a_bare_part_sheds_is_a_caution(highest_a, level):
    (finding,) = common_drop(DIODE, supply_v=12, current_a=1.0, highest_a=highest_a, where="board").findings
    assert finding.level == level
    assert ("heat sink" in finding.remedy) == (level == "caution")
    assert math.isclose(finding.value, 0.7 * highest_a, abs_tol=5e-4)
