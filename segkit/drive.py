"""What lights the segments of a design: circuits, sinks, logic levels."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from segkit.design.chosen import Chosen
from segkit.design.schema import Design
from segkit.electrical.arrangement import segment_circuit
from segkit.electrical.driver import package_load, set_resistor_findings
from segkit.electrical.logic_level import register_input_findings
from segkit.electrical.string import SegmentCircuit
from segkit.geometry.board import Board
from segkit.optics.placement import Lighting
from segkit.stage import Result, Stage
from segkit.wiring.channel_map import ChannelMap


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
    design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], channels: ChannelMap
) -> Iterable[Stage]:  # fmt: skip
    """The sink package with most to carry, the logic levels.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        circuits: of each kind of segment.
        channels: which output lights which segment.
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
