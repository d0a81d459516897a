"""Readings of one kind of segment: a sum by hand, and boards drawn within their ranges."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import led
from segkit.electrical.led_curve import curve_of, string_current_a
from segkit.electrical.meter import meter
from tests.electrical.boards import TWO_VOLTS, by_probe, made


def test_a_mosfet_that_is_on_reads_millivolts_and_says_what_volts_would_be() -> None:
    # 0.060 A x 0.05 ohm = 3 mV; 1.5 V / 0.060 A = 25 ohm; 6 V / 0.060 A = 100 ohm.
    whites = replace(TWO_VOLTS, vf_v=3.2, vf_min_v=3.2, vf_max_v=3.2)
    board = made(whites, "mosfet-2v5", leds=3, strings=3, ohm=120.0)
    assert board.circuits["bar"].current_a == pytest.approx(0.060, abs=1e-4)
    read = by_probe(meter(board))["across an output that is on"]
    assert read.low < read.expected < read.high < 0.004
    for words in ("no more than 3 mV", "1.5 V would be 25 ohm", "6 V would be 100 ohm", "order of the pins"):
        assert words in read.wrong


@given(st.floats(-1, 1), st.floats(0, 1), st.floats(-1, 1), st.floats(0, 1))
def test_every_board_within_its_ranges_reads_within_the_readings(
    supply: float, bin_: float, resistor: float, drop: float
) -> None:
    red = led("red-5mm-diffused")
    board = made(red, leds=4, ohm=220.0, low=11.4, high=12.6)
    read = by_probe(meter(board))
    given_ = board.at(board.circuits["bar"])
    vf_v = red.vf_min_v + bin_ * (red.vf_max_v - red.vf_min_v)
    output_v = given_.drop.low_v + drop * (given_.drop.worst_v - given_.drop.low_v)
    ohm, curve = 220 * (1 + 0.05 * resistor), curve_of(red, vf_v=vf_v)
    current_a = string_current_a(
        curve, leds=4, drive_v=12 + 0.6 * supply - output_v, resistance_ohm=ohm
    )  # fmt: skip
    for probe, volts in (
        ("across the resistor of a string", current_a * ohm),
        ("along the LEDs of a string", 4 * curve.voltage_v(current_a)),
    ):
        assert read[probe].low - 1e-6 <= volts <= read[probe].high + 1e-6, probe
    assert read["current of a segment"].low <= 4 * current_a + 1e-9
    assert 4 * current_a <= read["current of a segment"].high + 1e-9


@pytest.mark.parametrize(
    ("sink_id", "words"),
    [
        ("darlington-sink-8", "Near 12 V: it is off"),
        ("register-direct-hc595", "the output sags"),
        ("constant-current-sink-8", "nothing to hold the current with"),
        ("power-register-8", "ground pin"),
    ],
)
def test_each_kind_of_output_goes_wrong_in_its_own_way(sink_id: str, words: str) -> None:
    assert words in by_probe(meter(made(sink_id=sink_id)))["across an output that is on"].wrong


def test_a_register_alone_has_no_typical_drop_and_says_so() -> None:
    read = by_probe(meter(made(sink_id="register-direct-hc595")))["across an output that is on"]
    assert (read.low, read.expected) == (0.0, 0.0)
    assert read.high > 0
    assert read.on.endswith("only the highest is stated")


def test_strings_of_one_segment_that_differ_are_told_apart() -> None:
    board = made()
    circuit = board.circuits["bar"]
    odd = replace(circuit.strings[0], leds=3, chosen_ohm=390.0)
    mixed = replace(board, circuits={"bar": replace(circuit, strings=(circuit.strings[0], odd))})
    resistors = [one for one in meter(mixed).readings if one.probe == "across the resistor of a string"]
    assert [(one.on, one.line) for one in resistors] == [
        ("bar: 220 Ω", "electrical.meter_resistor.bar"),
        ("bar: 390 Ω", "electrical.meter_resistor.bar-of-3"),
    ]
