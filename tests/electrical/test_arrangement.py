import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.arrangement import arrangements, segment_circuit, split_counts
from segkit.electrical.driver import stated_sink
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.errors import InputError
from segkit.sources import source
from segkit.working import evaluate

RED = reader.led("red-5mm-diffused")
TWELVE = {"supply_v": 12.0, "supply_min_v": 12.0, "supply_max_v": 12.0}
BATTERY = {"supply_v": 12.0, "supply_min_v": 11.0, "supply_max_v": 13.8}


@given(st.integers(1, 60), st.integers(1, 60))
def test_counts_add_up_and_differ_by_one_at_most(leds, strings):
    strings = min(leds, strings)
    counts = split_counts(leds, strings)
    assert sum(counts) == leds
    assert len(counts) == strings
    assert max(counts) - min(counts) <= 1
    assert list(counts) == sorted(counts, reverse=True)


def test_eight_white_leds_on_twelve_volts(shop_led):
    ranked = arrangements(8, led=shop_led(3.0), sink=stated_sink(0.0), current_a=0.02, series="E12", **TWELVE)
    first, second = ranked[:2]
    assert first.counts == (2, 2, 2, 2)
    assert {string.chosen_ohm for string in first.strings} == {330}
    assert first.strings[0].current_a == pytest.approx(0.0182, abs=5e-5)
    assert first.current_a == pytest.approx(0.0727, abs=5e-5)
    assert first.resistors == 4
    assert second.counts == (3, 3, 2)
    assert [string.chosen_ohm for string in second.strings] == [150, 150, 330]
    assert ranked[-1].findings[0].code == "no-headroom"


def test_string_of_three_white_leds_behind_a_darlington(shop_led):
    ranked = arrangements(8, led=shop_led(3.0), sink=stated_sink(0.9), current_a=0.02, **TWELVE)
    three = next(row for row in ranked if row.counts == (3, 3, 2))
    assert three.strings[0].chosen_ohm == 110
    assert [finding.code for finding in three.findings] == ["thin-headroom"]


@given(st.integers(1, 12), st.sampled_from(sorted(reader.leds())), st.floats(0.003, 0.02))
def test_every_arrangement_holds_all_leds_and_ranks_in_order(leds, led_id, current_a):
    ranked = arrangements(
        leds, led=reader.led(led_id), sink=reader.sink("darlington-sink-8"), current_a=current_a, **BATTERY
    )
    assert len(ranked) == leds
    assert all(sum(row.counts) == leds for row in ranked)
    assert [row.rank for row in ranked] == sorted(row.rank for row in ranked)
    assert all(row.reason for row in ranked)
    assert all(0 <= row.waste <= 1 for row in ranked)


@given(
    st.integers(1, 10),
    st.sampled_from(sorted(reader.leds())),
    st.sampled_from(sorted(reader.sinks())),
    st.floats(0.002, 0.03),
    st.sampled_from([3.3, 5.0, 9.0, 12.0, 24.0]),
    st.floats(0, 0.2),
)
def test_no_segment_exceeds_its_leds_limit_without_a_finding(
    leds, led_id, sink_id, current_a, supply_v, swing
):
    led, sink = reader.led(led_id), reader.sink(sink_id)
    circuit = segment_circuit(
        kind="upright", led=led, leds=leds, sink=sink, supply_v=supply_v, supply_min_v=supply_v * (1 - swing),
        supply_max_v=supply_v * (1 + swing), current_a=current_a,
    )  # fmt: skip
    codes = {finding.code for finding in circuit.findings}
    if any(string.highest_a > led.max_current_a * (1 + 1e-9) for string in circuit.strings):
        assert "over-led-limit" in codes
    if sink.max_output_a and circuit.highest_a > sink.max_output_a:
        assert codes & {"sink-output-limit", "register-overload"}
    assert sum(string.leds for string in circuit.strings) == leds
    assert len({line.name for line in circuit.lines}) == len(circuit.lines)
    for line in circuit.lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        ours = evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS)
        assert ours == pytest.approx(line.value, rel=1e-6, abs=1e-12), line.name
    for key in {line.source for line in circuit.lines} | {finding.source for finding in circuit.findings}:
        assert source(key).key == key


def test_segment_is_named_in_lines_and_findings():
    circuit = segment_circuit(
        kind="decimal point", led=RED, leds=5, sink=reader.sink("darlington-sink-8"), current_a=0.02, in_series=5,
        **BATTERY,
    )  # fmt: skip
    names = {line.name for line in circuit.lines}
    for what in (
        "resistor_exact",
        "resistor",
        "current",
        "current_highest",
        "headroom",
        "resistor_heat",
        "sink_drop",
    ):
        assert f"electrical.{what}.decimal-point" in names
    stop = next(finding for finding in circuit.findings if finding.level == "stop")
    assert stop.subject == "decimal point: string of 5"


def test_asked_length_is_kept_and_unequal_strings_have_lines_of_their_own():
    circuit = segment_circuit(
        kind="upright",
        led=RED,
        leds=8,
        sink=reader.sink("logic-mosfet"),
        current_a=0.015,
        in_series=3,
        **TWELVE,
    )
    assert [string.leds for string in circuit.strings] == [3, 3, 2]
    names = [line.name for line in circuit.lines]
    assert "electrical.resistor.upright" in names
    assert "electrical.resistor.upright.string-of-2" in names
    assert circuit.current_a == pytest.approx(sum(string.current_a for string in circuit.strings))


def test_impossible_length_is_refused():
    with pytest.raises(InputError, match="not that many"):
        segment_circuit(
            kind="upright", led=RED, leds=3, sink=stated_sink(0.9), current_a=0.02, in_series=4, **TWELVE
        )


def test_steady_sink_takes_no_resistor(steady):
    circuit = segment_circuit(
        kind="upright", led=RED, leds=4, sink=steady, current_a=0.02, in_series=4, **TWELVE
    )
    assert [string.chosen_ohm for string in circuit.strings] == [0.0]
    assert circuit.current_a == 0.02
    line = next(line for line in circuit.lines if line.name == "electrical.set_resistor.upright")
    assert line.value == 937.5
    assert not circuit.findings


def test_strings_beside_each_other_on_a_steady_output_are_cautioned(steady):
    ranked = arrangements(4, led=RED, sink=steady, current_a=0.01, **TWELVE)
    two = next(row for row in ranked if row.counts == (2, 2))
    assert [finding.code for finding in two.findings] == ["parallel-on-constant-current"]
    long = arrangements(6, led=RED, sink=steady, current_a=0.01, **TWELVE)
    whole = next(row for row in long if row.counts == (6,))
    assert whole.findings[0].code == "no-headroom"


def test_dark_string_has_no_finite_spread(shop_led):
    ranked = arrangements(7, led=shop_led(2.0), sink=stated_sink(0.0), current_a=0.02, **TWELVE)
    dark = next(row for row in ranked if row.counts == (7,))
    assert dark.spread == math.inf
    assert dark.reason == "one string; no-headroom"


def test_a_string_that_cannot_reach_the_current_aimed_at_stands_back(red, darlington):
    """Near the LED's limit six in series must be held low for the corners; four in series need not be."""
    near = replace(red, max_current_a=0.025)
    ranked = arrangements(12, led=near, sink=darlington, supply_v=24, supply_min_v=22.8, supply_max_v=25.2,
                          current_a=0.02, coldest_c=-10, hottest_c=60, aimed=True)  # fmt: skip
    by_counts = {one.counts: one for one in ranked}
    long, short = by_counts[6, 6], by_counts[4, 4, 4]
    assert long.missed > short.missed >= 0
    assert long.strings[0].current_a < short.strings[0].current_a
    plain = arrangements(12, led=near, sink=darlington, supply_v=24, supply_min_v=22.8, supply_max_v=25.2,
                         current_a=0.02)  # fmt: skip
    assert all(one.missed == 0 for one in plain)
    assert len(arrangements(12, led=near, sink=darlington, supply_v=24, supply_min_v=22.8, supply_max_v=25.2,
                            current_a=0.02, only=3)) == 1  # fmt: skip
