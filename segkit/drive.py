"""From the LEDs of a segment to the plug: circuits, sinks, logic levels, cable, power budget of a design."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from segkit.catalog import reader as catalogue
from segkit.design.chosen import Chosen
from segkit.design.schema import Design
from segkit.electrical.arrangement import segment_circuit
from segkit.electrical.cable import supply_run
from segkit.electrical.driver import package_load, set_resistor_findings
from segkit.electrical.logic_level import register_input_findings
from segkit.electrical.segment_cable import OnCable, cable_run, too_few_cores_findings
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.supply import Load, PowerBudget, power_budget
from segkit.geometry.board import Board, Segment
from segkit.optics.placement import Lighting
from segkit.stage import Result, Stage
from segkit.wiring.channel_map import ChannelMap

#: Segments of a "1", the digit with the fewest.
_ONE = ("b", "c")


def circuits_of(
    design: Design, parts: Chosen, lightings: Mapping[str, Lighting]
) -> dict[str, SegmentCircuit]:
    """What lights one segment of each kind.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        lightings: LEDs of each kind.
    """
    power, supply = design.power, parts.supply
    return {
        kind: segment_circuit(
            kind=kind, led=parts.led, leds=lighting.count, sink=parts.sink, supply_v=supply.nominal_v,
            supply_min_v=supply.min_v, supply_max_v=supply.max_v, current_a=design.pocket.current_a,
            series=power.values, tolerance=power.tolerance,
            in_series=None if power.in_series is None else min(power.in_series, lighting.count),
        )
        for kind, lighting in lightings.items()
    }  # fmt: skip


def drive_stages(
    design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], channels: ChannelMap,
    budget: PowerBudget,
) -> Iterable[Stage]:  # fmt: skip
    """The sink package with most to carry, the logic levels, the cable.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        circuits: of each kind of segment.
        channels: which output lights which segment.
        budget: of the whole board.
    """
    power, sink = design.power, parts.sink
    packages = _packages(parts, board, circuits, channels)
    fullest = max(packages, key=lambda some: sum(c.highest_a for c in some))[: sink.outputs]
    lone = all(len(circuit.strings) == 1 for circuit in fullest)  # else no single resistor would do
    yield package_load(
        sink, outputs_a=tuple(circuit.highest_a for circuit in fullest),
        outputs_v=_constant_current_v(parts, fullest), supply_max_v=parts.supply.max_v, logic_v=power.logic_v,
        drive_v=parts.supply.nominal_v - parts.led.vf_v * fullest[0].strings[0].leds if lone else None,
    )  # fmt: skip
    for package in packages:
        yield Result(findings=set_resistor_findings(sink, {c.kind: c.current_a for c in package}))
    controller_v = power.controller_v or power.logic_v
    yield Result(
        findings=register_input_findings(parts.register, register_v=power.logic_v, controller_v=controller_v)
    )
    yield _cable(design, parts, board, circuits, budget)


def _packages(
    parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], channels: ChannelMap
) -> list[list[SegmentCircuit]]:
    """The circuits on each sink package: a chip's outputs, or each output where a sink has only one."""
    kinds = {(segment.digit, segment.name): segment.kind for segment in board.segments}
    found: dict[tuple[int, int], list[SegmentCircuit]] = {}
    for channel in channels.channels:
        if channel.segment:
            place = (channel.chip, channel.bit if parts.sink.outputs == 1 else 0)
            found.setdefault(place, []).append(circuits[kinds[channel.digit, channel.segment]])
    return list(found.values())


def _constant_current_v(parts: Chosen, circuits: Iterable[SegmentCircuit]) -> tuple[float, ...] | None:
    """A constant-current sink takes all that the string leaves of the supply."""
    if parts.sink.type != "constant-current":
        return None
    return tuple(max(0.0, parts.supply.max_v - c.strings[0].leds * parts.led.vf_min_v) for c in circuits)


def _cable(
    design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], budget: PowerBudget
) -> Stage:
    """Segments: a cable for each digit, one core a segment. Supply: two wires for the whole board."""
    cable = design.power.cable
    headroom_v = min(string.headroom_v for circuit in circuits.values() for string in circuit.strings)
    strongest_a = max(circuit.current_a for circuit in circuits.values())
    length_m, steady = cable.length_mm / 1000, parts.sink.type == "constant-current"
    cores = Result()
    if cable.carries == "segments":
        cores = Result(findings=too_few_cores_findings(parts.wire, max(map(len, _digits(board)))))
    if headroom_v <= 0 or strongest_a <= 0:
        return cores  # nothing left to lose; the string said so
    if cable.carries == "supply":
        return supply_run(
            parts.wire, length_m=length_m, total_a=budget.all_on_a,
            fewest_a=min(len(_ONE) * strongest_a, budget.all_on_a), headroom_v=headroom_v, steady=steady,
        )  # fmt: skip
    busiest = max(_digits(board), key=lambda digit: sum(circuits[s.kind].current_a for s in digit))
    return cable_run(
        parts.wire, _on_cable(busiest, circuits), length_m=length_m, headroom_v=headroom_v, steady=steady
    )


def _digits(board: Board) -> list[list[Segment]]:
    """The segments of each digit, points and colons counted with the digit on their left."""
    found: dict[int, list[Segment]] = {}
    for segment in board.segments:
        found.setdefault(segment.digit, []).append(segment)
    return list(found.values())


def _on_cable(digit: list[Segment], circuits: Mapping[str, SegmentCircuit]) -> tuple[OnCable, ...]:
    """A digit by kind; what has no "1" is compared with its first segment alone."""
    ones = [segment.kind for segment in digit if segment.name in _ONE] or [digit[0].kind]
    counts = Counter(segment.kind for segment in digit)
    return tuple(
        OnCable(kind, number, circuits[kind].current_a, in_one=ones.count(kind))
        for kind, number in counts.items()
    )


def budget_of(
    design: Design,
    parts: Chosen,
    board: Board,
    circuits: Mapping[str, SegmentCircuit],
    *,
    digit_share: float,
) -> PowerBudget:
    """The power budget of the board.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        circuits: of each kind of segment.
        digit_share: share of a digit's segments that is lit on average; points and colons stay on.
    """
    loads = [
        Load(
            kind=kind, count=len(segments), current_a=circuits[kind].current_a,
            highest_a=circuits[kind].highest_a,
            mean_share=1.0 if kind.split()[-1] in ("point", "colon") else digit_share,
        )
        for kind, segments in board.kinds().items()
    ]  # fmt: skip
    digit: tuple[Load, ...] = ()
    if design.power.cable.carries == "segments":
        busiest = max(_digits(board), key=lambda one: sum(circuits[s.kind].highest_a for s in one))
        counts = Counter(segment.kind for segment in busiest)
        digit = tuple(
            Load(kind, number, circuits[kind].current_a, circuits[kind].highest_a)
            for kind, number in counts.items()
        )
    return power_budget(
        loads, supply=parts.supply, wire_a=parts.wire.max_current_a, digit=digit,
        wires=tuple(catalogue.wires().values()),
    )  # fmt: skip
