"""What switches the segments of a design: sinks with their heat, logic levels, polarity."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from segkit.design.chosen import Chosen
from segkit.design.schema import Design
from segkit.electrical.driver import package_load, set_resistor_findings
from segkit.electrical.logic_level import array_input, register_input_findings
from segkit.electrical.package_heat import OutputLoad, PackageHeat, package_heat
from segkit.electrical.string import SegmentCircuit
from segkit.geometry.board import Board
from segkit.glyphs.bitmask import Active
from segkit.glyphs.polarity import polarity_findings
from segkit.stage import Result, Stage
from segkit.wiring.channel_map import Channel, ChannelMap, Lamp


def drive_stages(
    design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], channels: ChannelMap,
    *, heats: tuple[PackageHeat, ...], active: Active,
) -> Iterable[Stage]:  # fmt: skip
    """The sink package with most to carry, its heat, the logic levels, the polarity of the bytes.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        circuits: of each kind of segment.
        channels: which output lights which segment.
        heats: of every package.
        active: ``high`` if a 1 lights in the table that is exported.
    """
    power, sink = design.power, parts.sink
    packages = [[one for _, one in some] for some in _packages(parts, board, circuits, channels).values()]
    fullest = max(packages, key=lambda some: sum(c.highest_a for c in some))[: sink.outputs]
    lone = all(len(circuit.strings) == 1 for circuit in fullest)  # else no single resistor would do
    yield package_load(
        sink, outputs_a=tuple(circuit.highest_a for circuit in fullest),
        outputs_v=_constant_current_v(parts, fullest), supply_max_v=parts.supply.max_v, logic_v=power.logic_v,
        drive_v=_left_v(parts, fullest[0]) if lone else None,
        ambient_c=design.drive.box_c,
    )  # fmt: skip
    hottest = max(heats, key=lambda heat: heat.all_on_w)
    yield Result(hottest.lines, hottest.findings)
    for package in packages:
        yield Result(findings=set_resistor_findings(sink, {c.kind: c.current_a for c in package}))
    yield Result(
        *array_input(
            sink, parts.register, logic_v=power.logic_v, outputs=len(fullest),
            output_a=max(circuit.highest_a for circuit in fullest),
        )
    )  # fmt: skip
    controller_v = power.controller_v or power.logic_v
    yield Result(
        findings=(
            *register_input_findings(
                parts.register, register_v=power.logic_v, controller_v=controller_v
            ),
            *polarity_findings(sink, active=active, order=channels.order),
        )
    )  # fmt: skip


def sink_heats(
    design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], channels: ChannelMap,
    *, shares: Mapping[Lamp, float],
) -> tuple[PackageHeat, ...]:  # fmt: skip
    """Heat of every sink package, with everything lit and with what the board really shows.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        circuits: of each kind of segment.
        channels: which output lights which segment.
        shares: (digit, segment) to the share of the time in which it is lit.
    """
    found = []
    for (chip, bit), full in _packages(parts, board, circuits, channels).items():
        some = full[: parts.sink.outputs]
        left = _constant_current_v(parts, [circuit for _, circuit in some])
        loads = [
            OutputLoad(
                circuit.current_a, circuit.highest_a, shares[channel.digit, channel.segment],
                None if left is None else left[number],
            )
            for number, (channel, circuit) in enumerate(some)
        ]  # fmt: skip
        name = f"chip {chip}" + (f", bit {bit}" if parts.sink.outputs == 1 else "")
        found.append(package_heat(parts.sink, loads, name=name, ambient_c=design.drive.box_c))
    return tuple(found)


Packages = dict[tuple[int, int], list[tuple[Channel, SegmentCircuit]]]


def _packages(
    parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], channels: ChannelMap
) -> Packages:
    """The circuits on each sink package: a chip's outputs, or each output where a sink has only one."""
    kinds = {(segment.digit, segment.name): segment.kind for segment in board.segments}
    found: Packages = {}
    for channel in channels.channels:
        if channel.segment:
            place = (channel.chip, channel.bit if parts.sink.outputs == 1 else 0)
            circuit = circuits[kinds[channel.digit, channel.segment]]
            found.setdefault(place, []).append((channel, circuit))
    return found


def _constant_current_v(parts: Chosen, circuits: Iterable[SegmentCircuit]) -> tuple[float, ...] | None:
    """A constant-current sink takes all that the string leaves of the supply."""
    if parts.sink.type != "constant-current":
        return None
    most_v = parts.supply.max_v - parts.common.low_v
    return tuple(max(0.0, most_v - c.strings[0].leds * parts.led.vf_min_v) for c in circuits)


def _left_v(parts: Chosen, circuit: SegmentCircuit) -> float:
    """What the LEDs of a segment leave for resistor and sink, typical parts, V."""
    return parts.supply.nominal_v - parts.common.typical_v - parts.led.vf_v * circuit.strings[0].leds
