"""A small board for the tests of what a meter reads on it."""

from __future__ import annotations

from dataclasses import replace

from segkit.catalog.part import Led
from segkit.catalog.reader import led, register, sink
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import Drop, sink_drop
from segkit.electrical.measured_board import Reading, Wired
from segkit.electrical.meter import Meter
from segkit.electrical.string import SegmentCircuit, string_circuit
from segkit.working import Given, Line

TWO_VOLTS = replace(
    led("red-5mm-diffused"), vf_v=2.0, vf_min_v=2.0, vf_max_v=2.0, slope_ohm=0.0, test_current_a=0.014
)
LOST = Line("electrical.supply_drop", "drop", "V", 0.2, "V", "V", (Given("V", 0.2, "V"),), "arithmetic")


def made(
    led_: Led = TWO_VOLTS, sink_id: str = "darlington-sink-7", *, leds: int = 4, strings: int = 4,
    ohm: float = 220.0, lost: tuple[Line, ...] = (), low: float = 12.0, high: float = 12.0,
) -> Wired:  # fmt: skip
    """A digit of seven bars on 12 V."""
    chosen = sink(sink_id)
    bare = Conditions(12.0, low, high, Drop(0.0, 0.0, 0.0))
    drop = sink_drop(chosen, current_a=0.014 * strings)
    one = string_circuit(
        led_, replace(bare, drop=drop), leds=leds, current_a=0.014, given_ohm=ohm
    )  # fmt: skip
    current_a = strings * one.current_a
    circuit = SegmentCircuit(
        "bar", "x", sink_id, (one,) * strings, current_a, strings * one.highest_a, (), ()
    )
    total = Line("electrical.total_current", "all", "I", 7 * current_a + 0.05, "A", "I", (), "arithmetic")
    return Wired(
        led_, chosen, register("hc595"), bare, {"bar": circuit}, {"bar": 7}, ("bar",) * 7, 5.0, lost, True,
        total, 7 * strings * one.highest_a + 0.05, 0.05,
    )  # fmt: skip


def by_probe(found: Meter) -> dict[str, Reading]:
    """The readings by where the probes go."""
    return {reading.probe.split(" at ")[0]: reading for reading in found.readings}
