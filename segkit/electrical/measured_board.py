"""The board as a meter finds it: its parts, its corners, and what its wires lose."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from segkit.catalog.part import Led, ShiftRegister, Sink
from segkit.electrical.corners import Conditions, lowest_a
from segkit.electrical.driver import sink_drop
from segkit.electrical.string import SegmentCircuit, StringCircuit
from segkit.working import Line

#: A loss in the wires beyond this share of the supply is no board any more; the cable said so.
_MOST_LOST = 0.9


@dataclass(frozen=True)
class Reading:
    """One measurement.

    Attributes:
        probe: where the probes go.
        on: kinds of segment and part; empty for a reading of the whole board.
        line: name of the working of ``expected``.
        low, expected, high: the lowest that is still right, with typical parts, the highest, in ``unit``.
        unit: V or A.
        wrong: what a reading outside means.
    """

    probe: str
    on: str
    line: str
    low: float
    expected: float
    high: float
    unit: str
    wrong: str


@dataclass(frozen=True)
class Wired:
    """The board that is measured.

    Attributes:
        led, sink, register: its parts.
        conditions: supply, common lead, tolerance and temperature with their ranges; each kind has its own
            drop.
        circuits: of each kind of segment.
        counts: of each kind on the board.
        digit: kinds on the digit that takes most, one entry for each segment.
        logic_v: rail of the registers, V.
        lost: the lines of what the wires lose up to the far digit with everything lit, V each.
        at_far_digit: False where the sinks stand with the controller and the cable brings segments.
        total: line of the current with everything lit, typical.
        total_highest_a: the same at the highest corner, A.
        logic_a: share of registers and controller in it, A.
    """

    led: Led
    sink: Sink
    register: ShiftRegister
    conditions: Conditions
    circuits: Mapping[str, SegmentCircuit]
    counts: Mapping[str, int]
    digit: Sequence[str]
    logic_v: float
    lost: Sequence[Line]
    at_far_digit: bool
    total: Line
    total_highest_a: float
    logic_a: float

    @property
    def on_the_rail(self) -> Sequence[Line]:
        """What of it the supply rail loses up to where the sinks stand."""
        return self.lost if self.at_far_digit else ()

    @property
    def lost_v(self) -> float:
        """Lost in the wires with everything lit, typical, V."""
        return min(sum(line.value for line in self.lost), _MOST_LOST * self.conditions.supply_min_v)

    @property
    def total_lowest_a(self) -> float:
        """Everything lit at the lowest corner, A."""
        return self.logic_a + sum(
            count * self.lowest_a(self.circuits[kind]) for kind, count in self.counts.items()
        )

    def at(self, circuit: SegmentCircuit) -> Conditions:
        """The conditions of one kind: its drop, and the wires' loss at the lowest supply."""
        given = self.conditions
        return Conditions(
            given.supply_v, given.supply_min_v - self.lost_v, given.supply_max_v,
            sink_drop(self.sink, current_a=circuit.current_a), given.tolerance, given.coldest_c,
            given.hottest_c,
            given.common,
        )  # fmt: skip

    def lowest_a(self, circuit: SegmentCircuit) -> float:
        """Least current of a segment that is still right, A."""
        return sum(_lowest_a(self, circuit, string) for string in circuit.strings)


def _lowest_a(board: Wired, circuit: SegmentCircuit, string: StringCircuit) -> float:
    if string.chosen_ohm <= 0:
        return string.lowest_a
    return lowest_a(board.led, board.at(circuit), leds=string.leds, resistance_ohm=string.chosen_ohm)
