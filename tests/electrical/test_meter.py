"""Readings of a whole board to expect with a meter, against sums by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from segkit.catalog.reader import rows
from segkit.electrical.meter import meter
from segkit.working import evaluate
from tests.electrical.boards import LOST, by_probe, made


def test_a_darlington_digit_as_summed_by_hand() -> None:
    # (12 - 0.9 - 8)/220 = 14.1 mA; x 28 = 395 mA; x 0.9 V = 0.36 W; 3.1 V at each resistor.
    found = meter(made())
    read = by_probe(found)
    assert found.digit_a == pytest.approx(0.395, abs=0.001)
    assert found.digit_sink_w == pytest.approx(0.36, abs=0.01)
    assert read["across an output that is on"].expected == pytest.approx(0.9)
    assert read["across the resistor of a string"].expected == pytest.approx(3.1)
    assert read["along the LEDs of a string"].expected == pytest.approx(8.0)
    assert read["current of a segment"].expected == pytest.approx(4 * 0.0141, abs=1e-4)


def test_what_the_wires_lose_is_off_the_rail_and_off_the_lowest_readings() -> None:
    plain, lossy = (by_probe(meter(made(lost=lost))) for lost in ((), (LOST,)))
    assert lossy["supply rail"].expected == pytest.approx(11.8)
    assert plain["supply rail"].expected == 12.0
    resistor = "across the resistor of a string"
    assert lossy[resistor].low < plain[resistor].low
    assert lossy[resistor].high == plain[resistor].high
    at_sinks = meter(replace(made(lost=(LOST,)), at_far_digit=False)).readings[0]
    assert (at_sinks.probe, at_sinks.expected) == ("supply rail at the sinks", 12.0)


@pytest.mark.parametrize("sink_id", sorted(rows("drivers")))
def test_lines_can_be_recomputed_and_ranges_hold_the_typical(sink_id: str) -> None:
    board = made(sink_id=sink_id)
    found = meter(board)
    for line in found.lines:
        inputs = {one.symbol: one.value for one in line.inputs}
        assert evaluate(line.formula, inputs) == pytest.approx(line.value, rel=1e-6), line.name
    assert len({line.name for line in found.lines}) == len(found.lines)
    for reading in found.readings:
        assert reading.low <= reading.expected <= reading.high, reading
