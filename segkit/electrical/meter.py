"""What a multimeter should read on the finished board, and what a wrong reading means."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from segkit.electrical.measured_board import Reading, Wired
from segkit.electrical.meter_segment import across_v, segment_readings
from segkit.electrical.string import SegmentCircuit
from segkit.findings import Finding
from segkit.units import engineering
from segkit.working import Given, Line

#: What a logic rail may be off (common practice).
_RAIL = 0.05


@dataclass(frozen=True)
class Meter:
    """All readings of a board.

    Attributes:
        readings: from the rails to a single string.
        digit_a: everything lit on the digit that takes most, typical, A.
        digit_sink_w: heat in its sinks then, typical, W.
        outputs: sink outputs of that digit.
        lines, findings: working; there are no verdicts.
    """

    readings: tuple[Reading, ...]
    digit_a: float
    digit_sink_w: float
    outputs: int
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...] = ()


def meter(board: Wired) -> Meter:
    """The readings to expect with everything lit at full brightness, probe by probe.

    Args:
        board: what is measured.

    Returns:
        rails, currents, then for each kind of segment its output, resistor and string. The range of a reading
        spans the corners of supply, LED bin, resistor, sink and temperature, less what the wires lose.

    Formula: ``V = I*R`` at a resistor, ``n*Vled(I)`` along a string, ``I*Ron`` or the printed drop at an
    output that is on.

    Source: those of the parts; 5 % of a logic rail: common-practice.
    """
    digit_lines = _digit_lines(board)
    found: list[tuple[Reading, Line | None]] = [_supply_rail(board), _logic_rail(board)]
    found += [(_everything(board), None), (_whole_digit(board, digit_lines[0]), None)]
    found += _common_part(board)
    for kinds in _alike(board.circuits):
        found += segment_readings(board, kinds)
    return Meter(
        readings=tuple(reading for reading, _ in found),
        digit_a=digit_lines[0].value,
        digit_sink_w=digit_lines[1].value,
        outputs=len(board.digit),
        lines=(*(line for _, line in found if line is not None), *digit_lines),
    )


def _alike(circuits: Mapping[str, SegmentCircuit]) -> list[list[str]]:
    """Kinds that are wired the same way, together."""
    groups: dict[tuple[tuple[int, float, str], ...], list[str]] = {}
    for kind, circuit in circuits.items():
        if circuit.current_a > 0:
            way = tuple((s.leds, s.chosen_ohm, engineering(s.current_a, "A")) for s in circuit.strings)
            groups.setdefault(way, []).append(kind)
    return list(groups.values())


# --- rails and currents --------------------------------------------------------------------------------


def _supply_rail(board: Wired) -> tuple[Reading, Line]:
    given, lost_v = board.conditions, sum(line.value for line in board.on_the_rail)
    inputs = [Given("V", given.supply_v, "V", "supply")]
    inputs += [Given(f"V{n}", line.value, "V", line.title) for n, line in enumerate(board.on_the_rail, 1)]
    lit_a = board.total.value
    ohm = lost_v / lit_a if lit_a > 0 else 0.0
    value = given.supply_v - lost_v
    line = Line(
        "electrical.meter_supply", "supply rail to be measured, everything lit", "Vs", value, "V",
        " - ".join(one.symbol for one in inputs), tuple(inputs), "arithmetic",
    )  # fmt: skip
    reading = Reading(
        f"supply rail at {'the far digit' if board.at_far_digit else 'the sinks'}", "",
        line.name, given.supply_min_v - ohm * max(lit_a, board.total_highest_a), value,
        given.supply_max_v - ohm * min(lit_a, board.total_lowest_a), "V",
        "Too low there and right at the plug: wire or joints too thin. Low at the plug too, and right with "
        "little lit: the supply folds back.",
    )  # fmt: skip
    return reading, line


def _logic_rail(board: Wired) -> tuple[Reading, Line]:
    volts = board.logic_v
    line = Line(
        "electrical.meter_logic", "logic rail to be measured, everything lit", "Vl", volts, "V", "V",
        (Given("V", volts, "V", "supply of the registers"),), "design-choice",
    )  # fmt: skip
    low = max((1 - _RAIL) * volts, board.register.supply_min_v)
    return Reading(
        f"logic rail at {'the far digit' if board.at_far_digit else 'the registers'}",
        "",
        line.name,
        low,
        volts,
        (1 + _RAIL) * volts,
        "V",
        "Sagging when much is lit: its regulator or a thin ground that it shares with the LEDs. Measure from "
        "the ground of the controller to that of the far digit: that is what the ground loses.",
    ), line


def _everything(board: Wired) -> Reading:
    return Reading(
        "current of the whole board",
        "",
        board.total.name,
        board.total_lowest_a,
        board.total.value,
        board.total_highest_a,
        "A",
        "Too little: strings are dark, or the supply has fallen. Too much: a resistor is missing or too "
        "small, or an output is shorted.",
    )


def _common_part(board: Wired) -> list[tuple[Reading, Line | None]]:
    """What stands in the common lead, if anything does."""
    drop = board.conditions.common
    if not drop.worst_v:
        return []
    line = Line(
        "electrical.meter_common", "across what stands in the common lead", "Vc", drop.typical_v, "V", "V",
        (Given("V", drop.typical_v, "V", "as the design states it"),), "design-choice",
    )  # fmt: skip
    reading = Reading(
        "across the part in the common lead",
        "",
        line.name,
        drop.low_v,
        line.value,
        drop.worst_v,
        "V",
        "Near the whole supply: it is off, open or the wrong way round. Above the range: too weak a part.",
    )
    return [(reading, line)]


def _whole_digit(board: Wired, line: Line) -> Reading:
    circuits = [board.circuits[kind] for kind in board.digit]
    return Reading(
        "current of the digit that takes most",
        f"{len(circuits)} outputs lit",
        line.name,
        sum(board.lowest_a(circuit) for circuit in circuits),
        line.value,
        sum(circuit.highest_a for circuit in circuits),
        "A",
        "Right for few segments and too little for all of them: a rail sags, or a ground is thin.",
    )


def _digit_lines(board: Wired) -> tuple[Line, Line]:
    """Current and heat of the digit that takes most, typical."""
    amounts = {kind: list(board.digit).count(kind) for kind in dict.fromkeys(board.digit)}
    currents, heats, inputs = [], [], list[Given]()
    current_a = heat_w = 0.0
    drops: list[Given] = []
    for number, (kind, count) in enumerate(amounts.items(), 1):
        one_a = board.circuits[kind].current_a
        drop_v = across_v(board, kind)
        inputs += [
            Given(f"n{number}", count, "", f"{kind}, on the digit"),
            Given(f"I{number}", one_a, "A", kind),
        ]
        drops.append(Given(f"V{number}", drop_v, "V", f"across its output, {kind}"))
        currents.append(f"n{number}*I{number}")
        heats.append(f"n{number}*I{number}*V{number}")
        current_a += count * one_a
        heat_w += count * one_a * drop_v
    return (
        Line("electrical.digit_current", "current of the digit that takes most, all of it lit, typical", "I",
             current_a, "A", " + ".join(currents), tuple(inputs), "arithmetic"),
        Line("electrical.digit_sink_heat", "heat in the sinks of that digit, all of it lit, typical", "P",
             heat_w, "W", " + ".join(heats), (*inputs, *drops), board.sink.source),
    )  # fmt: skip
