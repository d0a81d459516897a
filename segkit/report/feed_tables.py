"""Tables of the chapter from the plug to the board: currents, cable, far digit, signals, battery."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from segkit.feed import along_wire
from segkit.project import Project
from segkit.report.drive_tables import Table
from segkit.units import engineering, plain_number
from segkit.working import Line

#: No register is clocked faster than this, so a wire that lets more through is not worth a row, Hz.
_FAST_HZ = 20e6
HEAD = ("What", "Value", "Name for segkit why")


@dataclass(frozen=True)
class _Group:
    """Lines of the worksheet that stand in one table; shown if the first of them is there."""

    title: str
    names: tuple[str, ...]


_GROUPS = (
    _Group("Current and supply", ("total_current", "total_current_highest", "mean_current", "supply_needed",
                                  "supply", "digit_current_highest", "fuse")),
    _Group("The cable", ("supply_drop", "evenness")),
    _Group("The cable", ("cable_drop", "return_current", "return_drop", "evenness")),
    _Group("Converter at the board", ("converter_input", "converter_drop", "converter_heat")),
    _Group("In the common lead", ("common_heat", "common_heat_highest", "common_share")),
    _Group("Near and far digit", ("far_digit", "bus_drop")),
    _Group("Data, clock and latch", ("signal_critical", "signal_resistor", "shift_time", "fastest_clock")),
    _Group("Battery", ("runtime", "runtime_full", "cells_sag")),
    _Group("Supply of the logic", ("regulator_heat", "regulator_junction")),
    _Group("Supply of the logic", ("logic_drawn",)),
)  # fmt: skip


def feed_tables(project: Project) -> tuple[Table, ...]:
    """The tables of a project, those that have nothing to say left out.

    Args:
        project: what they are about.
    """
    lines = {line.name: line for line in project.lines}
    return tuple(_tables(project, lines))


def _tables(project: Project, lines: dict[str, Line]) -> Iterator[Table]:
    for group in _GROUPS:
        found = [lines[name] for name in map("electrical.{}".format, group.names) if name in lines]
        found = [line for line in found if line.name != "electrical.fastest_clock" or line.value < _FAST_HZ]
        if found and found[0].name == f"electrical.{group.names[0]}":
            yield Table(group.title, _said(project, group.title), HEAD, tuple(map(_row, found)))


def _row(line: Line) -> tuple[str, str, str]:
    return line.title, _value(line), line.name.removeprefix("electrical.")


def _value(line: Line) -> str:
    if line.name.endswith(("evenness", "far_digit", "common_share")):
        return f"{100 * line.value:.0f} %"
    if line.unit in ("A", "V", "W", "s", "Hz"):
        return engineering(line.value, line.unit)
    if line.unit == "ohm":
        return engineering(line.value, "Ω")
    return f"{plain_number(line.value, 3)} {line.unit}".strip()


def _said(project: Project, title: str) -> str:
    design, parts = project.design, project.parts
    power, cable = design.power, design.power.cable
    metres = plain_number(cable.length_mm / 1000)
    if title == "Current and supply":
        shown = "all ten digits equally often" if power.use.content == "digits" else power.use.content
        return (
            f"The lamp test, everything lit, sets the supply: it is loaded to 80 % at most. The mean counts "
            f"what the board shows ({shown}). Take a time-lag fuse (marked T), close to the "
            f"source.{_own_logic(project)}"
        )
    if title == "The cable":
        return f"{parts.wire.name}, {metres} m one way, {_carries(project)}"
    if title == "Converter at the board":
        return (
            f"{plain_number(parts.source.nominal_v)} V come over {metres} m of {parts.wire.name}; the "
            f"converter makes {plain_number(parts.supply.nominal_v)} V of it. The drop of the cable does not "
            "dim the board."
        )
    if title == "In the common lead":
        each = "each digit" if power.common.drop_in == "digit" else "the board"
        return (
            f"What stands between the supply and the segments of {each} takes {power.common.drop}; LEDs and "
            "resistors are reckoned with the rest. The schematic of a segment shows it; netlist and wire "
            "list leave it out: put it into the plus wire that they name."
        )
    if title == "Near and far digit":
        return _near_far(project)
    if title == "Data, clock and latch":
        return (
            "A resistor in series at the driving end of each of the three, a ground wire beside each, 100 nF "
            "at each chip. The clock matters little, the edges do."
        )
    if title == "Battery":
        return (
            "A new battery at room temperature. Reckon with two thirds of it when it is old or in the cold."
        )
    return (
        f"The logic's {plain_number(power.logic_v)} V are made from the LED supply ({power.regulator.kind})."
    )


def _own_logic(project: Project) -> str:
    regulator = project.design.power.regulator
    if regulator.kind != "none":
        return ""
    taken = engineering(regulator.current_a, "A")
    return f" Registers and controller have a supply of their own ({taken}), which is not counted here."


def _carries(project: Project) -> str:
    cable = project.design.power.cable
    if cable.carries == "supply":
        return "two wires for the whole board."
    return f"one cable for each digit; the common has {cable.returns}."


def _near_far(project: Project) -> str:
    cable = project.design.power.cable
    if cable.carries == "segments":
        near = project.design.power.first_digit
        return (
            f"Each digit has its own cable. They come from the {near} end as the reader sees the board: that "
            "of the far digit is longer by the length of the board, and the wire list cuts it so."
        )
    feed = cable.feed or project.design.power.first_digit
    end = "in the middle" if feed == "middle" else f"at the {feed} end"
    name = along_wire(project.parts, project.budget).name
    return f"Two wires along the digits ({name}), fed {end} as the reader sees the board."
