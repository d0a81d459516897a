"""What is measured on the finished board of a design."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from segkit.design.chosen import Chosen
from segkit.design.schema import Design
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import NO_DROP
from segkit.electrical.measured_board import Wired
from segkit.electrical.meter import Meter, meter
from segkit.electrical.string import SegmentCircuit
from segkit.geometry.board import Board
from segkit.working import Line

#: What the wires lose up to the far digit, where the cable brings the supply and where it brings segments.
_OF_SUPPLY = ("electrical.supply_drop", "electrical.bus_drop")
_OF_SEGMENTS = ("electrical.cable_drop", "electrical.return_drop")


def measured(
    design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], lines: Sequence[Line]
) -> Meter:
    """The readings to expect on the board of a design.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        circuits: of each kind of segment.
        lines: the worksheet so far, with what the wires lose and what the board takes.
    """
    by_name = {line.name: line for line in lines}
    by_segment = design.power.cable.carries == "segments"
    supply, drive = parts.supply, design.drive
    digits: dict[int, list[str]] = {}
    for segment in board.segments:
        digits.setdefault(segment.digit, []).append(segment.kind)
    total = by_name["electrical.total_current"]
    return meter(
        Wired(
            led=parts.led, sink=parts.sink, register=parts.register,
            conditions=Conditions(
                supply.nominal_v, supply.min_v, supply.max_v,
                NO_DROP, design.power.tolerance, drive.coldest_c,
                drive.hottest_c, parts.common,
            ),
            circuits=circuits,
            counts={kind: len(segments) for kind, segments in board.kinds().items()},
            digit=max(digits.values(), key=lambda kinds: sum(circuits[kind].current_a for kind in kinds)),
            logic_v=design.power.logic_v,
            lost=[by_name[name] for name in (_OF_SEGMENTS if by_segment else _OF_SUPPLY) if name in by_name],
            at_far_digit=not by_segment,
            total=total,
            total_highest_a=by_name["electrical.total_current_highest"].value,
            logic_a=next(given.value for given in total.inputs if given.symbol == "Ilogic"),
        )
    )  # fmt: skip
