"""Parts from the plug to the board: cable, supply, fuse, converter, signal resistors."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from segkit.electrical.segment_cable import parse_return
from segkit.project import Project
from segkit.report.glance import supply_rating
from segkit.units import engineering, plain_number
from segkit.wiring.digit_cables import digit_cables_m

#: Supply connections at the ends of a cable and a loop to hang it by, m: common practice.
CABLE_SLACK_M = 0.5
#: Batteries that are charged where they stand.
_CHARGED = {"lead-acid": "a lead-acid battery", "lithium": "a lithium battery"}


@dataclass(frozen=True)
class FeedPart:
    """One thing to buy: how many or how long, in which unit, what and where, and whether spares are due."""

    used: float
    unit: str
    what: str
    where: str
    id: str = ""
    spares: bool = False


def feed_parts(project: Project) -> tuple[FeedPart, ...]:
    """The parts that bring current and signals to the board.

    Args:
        project: what it is for.
    """
    return (
        *_cables(project),
        *_supply(project),
        *_fuse(project),
        *_made_on_board(project),
        *_signal_resistors(project),
        *_in_common(project),
    )


def _cables(project: Project) -> Iterator[FeedPart]:
    cable, parts = project.design.power.cable, project.parts
    metres = cable.length_mm / 1000 + CABLE_SLACK_M
    if cable.carries == "segments":
        lengths = digit_cables_m(
            project.board, length_m=metres, nearest=project.design.power.first_digit
        ).values()
        yield FeedPart(sum(lengths), "m", parts.wire.name, _each(lengths), parts.wire.id)
        if own := parse_return(cable.returns).wire:
            yield FeedPart(sum(lengths), "m", own.name, "common of each digit's cable", own.id)
        return
    both = parts.wire.cores > 1
    where = "supply to board" if both else "supply to board, out and back"
    each = metres if both else 2 * cable.each_way * metres
    yield FeedPart(each, "m", parts.wire.name, where, parts.wire.id)


def _each(lengths_m: Collection[float]) -> str:
    """One cable for each digit, and how long the shortest and the longest are."""
    short, long = (f"{math.ceil(10 * one - 1e-9) / 10:.1f}" for one in (min(lengths_m), max(lengths_m)))
    return "one cable for each digit" + (f", {short} to {long} m" if short != long else "")


def _supply(project: Project) -> Iterator[FeedPart]:
    """The supply of the LEDs; a battery comes with what charges it."""
    power, source = project.design.power, project.parts.source
    what = f"{source.name}, {plain_number(source.capacity_ah, 3)} Ah"
    if power.source == "mains-adapter":
        amps = f"{supply_rating(project.budget)} or more"
        what = f"Mains adapter {plain_number(source.nominal_v)} V, {amps}, regulated"
    where = "LED supply" if power.converter.source_v is None else "before the converter at the board"
    yield FeedPart(1, "pcs", what, where)
    if source.type in _CHARGED:
        yield FeedPart(
            1,
            "pcs",
            f"Charger for {_CHARGED[source.type]} of {plain_number(source.nominal_v)} V",
            "the battery",
        )


def _fuse(project: Project) -> Iterator[FeedPart]:
    """A fuse is spent, its holder is not: spares of the one only."""
    by_segment = project.design.power.cable.carries == "segments"
    number = project.board.digits if by_segment else 1
    where = "one in each digit's cable" if number > 1 else "at the supply, in the positive lead"
    size = f"Fuse {plain_number(project.budget.fuse_a, 3)} A, time-lag"
    later = "Fuse, size when the wire is thick enough (see finding fuse-above-wire)"
    yield FeedPart(number, "pcs", size if project.budget.fuse_a else later, where, spares=True)
    yield FeedPart(number, "pcs", "Fuse holder", "for the fuse" if number == 1 else "one for each fuse")


def _made_on_board(project: Project) -> Iterator[FeedPart]:
    power, parts = project.design.power, project.parts
    if power.converter.source_v is not None:
        volts, amps = plain_number(parts.supply.nominal_v), engineering(project.budget.all_on_highest_a, "A")
        what = f"Step-down module {plain_number(parts.source.max_v, 3)} V to {volts} V, {amps} or more"
        yield FeedPart(1, "pcs", what, "at the board, where the cable comes in")


def _in_common(project: Project) -> Iterator[FeedPart]:
    common = project.design.power.common
    if common.drop is not None:
        number = project.board.digits if common.drop_in == "digit" else 1
        where = "in the common lead of each digit" if common.drop_in == "digit" else "in plus of the board"
        yield FeedPart(number, "pcs", f"Part of your own that takes {common.drop}", where)


def _signal_resistors(project: Project) -> Iterator[FeedPart]:
    ohm = next((line.value for line in project.lines if line.name == "electrical.signal_resistor"), None)
    if ohm is not None:
        what = f"Resistor {engineering(ohm, 'Ω')}, 1/4 W"
        yield FeedPart(3, "pcs", what, "in series at the controller: data, clock, latch", spares=True)
