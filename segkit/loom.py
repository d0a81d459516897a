"""From a design to the wiring of its board."""

from __future__ import annotations

from collections.abc import Mapping

from segkit.catalog import reader as catalogue
from segkit.design.chosen import Chosen
from segkit.design.schema import Design
from segkit.electrical.driver import set_resistor_ohm
from segkit.electrical.preferred import next_up
from segkit.electrical.segment_cable import parse_return
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.supply import PowerBudget
from segkit.geometry.board import Board
from segkit.wiring.channel_map import ChannelMap
from segkit.wiring.harness import Harness, harness
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.plan import Plan


def wired(
    design: Design, parts: Chosen, board: Board, *, strings: tuple[PlacedString, ...],
    circuits: Mapping[str, SegmentCircuit], channels: ChannelMap, budget: PowerBudget, stamp: str,
) -> Harness:  # fmt: skip
    """The wiring of a design's board.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        strings: LEDs and resistors of every segment.
        circuits: of each kind of segment.
        channels: which output lights which segment.
        budget: of the whole board; it gives the fuse.
        stamp: what the files are made from.

    Returns:
        parts, nets, routes and lengths.
    """
    power, common = design.power, parse_return(design.power.cable.returns)
    return harness(
        Plan(
            title=design.display.title, stamp=stamp, board=board,
            strings=strings, circuits=circuits, channels=channels,
            led=parts.led, register=parts.register, sink=parts.sink, supply_v=parts.supply.nominal_v,
            logic_v=power.logic_v, cable=parts.wire, cable_m=power.cable.length_mm / 1000,
            carries=power.cable.carries, fuse_a=budget.fuse_a, setting_ohm=_setting_ohm(parts, circuits),
            stock=tuple(wire for wire in catalogue.wires().values() if _hook_up_mm2(wire.id)),
            along=parts.along, commons=common.cores, common=common.wire,
            each_way=power.cable.each_way, feed=power.cable.feed, nearest=power.first_digit,
            lost_v=parts.common.typical_v, lost_in=power.common.drop_in,
        )
    )  # fmt: skip


def _hook_up_mm2(wire_id: str) -> bool:
    """Single wires in metric sizes: each of them is sold in all core colours."""
    return wire_id.startswith("hook-up-") and wire_id.endswith("mm2")


def _setting_ohm(parts: Chosen, circuits: Mapping[str, SegmentCircuit]) -> float:
    """The resistor that sets a constant-current sink, as in the parts list; 0 for other sinks."""
    if parts.sink.type != "constant-current":
        return 0.0
    return next_up(set_resistor_ohm(max(circuit.current_a for circuit in circuits.values())))
