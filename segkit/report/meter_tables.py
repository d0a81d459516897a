"""What a multimeter should read on the board, as the build book and ``check --json`` give it."""

from __future__ import annotations

from typing import Any

from segkit.electrical.measured_board import Reading
from segkit.project import Project
from segkit.report.drive_tables import Table
from segkit.units import engineering


def meter_tables(project: Project) -> tuple[Table, ...]:
    """The readings with their ranges, and what it means when one is outside.

    Args:
        project: a solved design.
    """
    readings = _readings(project)
    first = {reading.probe: reading for reading in reversed(readings)}
    return (
        Table(
            title="Readings to expect with a meter",
            text="With an 8 on every digit, points and colons lit too, at full brightness, and on the side "
            "of the low voltage alone. Volts: across the part, rails against ground. Amperes: with the "
            "meter in the lead, on its 10 A socket, never across the rails. A board that is right lies "
            "between lowest and highest, whatever its parts are within their ranges.",
            head=("Where the probes go", "Of", "Lowest", "Typical", "Highest", "Name for segkit why"),
            rows=tuple(
                (reading.probe, reading.on, *map(_amount, *_three(reading)),
                 reading.line.removeprefix("electrical."))
                for reading in readings
            ),
            numbers=False,
        ),
        Table(
            title="",
            text="What it means if a reading lies outside:",
            head=("Where the probes are", "Look for"),
            rows=tuple((reading.probe, reading.wrong) for reading in reversed(first.values())),
            numbers=False,
        ),
    )  # fmt: skip


def meter_numbers(project: Project) -> list[dict[str, Any]]:
    """The same as numbers, for programs.

    Args:
        project: a solved design.
    """
    return [
        {
            "probe": reading.probe,
            "of": reading.on,
            "lowest": reading.low,
            "typical": reading.expected,
            "highest": reading.high,
            "unit": reading.unit,
            "wrong": reading.wrong,
            "line": reading.line,
        }
        for reading in _readings(project)
    ]


def _readings(project: Project) -> tuple[Reading, ...]:
    return project.meter.readings if project.meter else ()


def _three(reading: Reading) -> tuple[tuple[float, float, float], tuple[str, str, str]]:
    return (reading.low, reading.expected, reading.high), (reading.unit,) * 3


def _amount(value: float, unit: str) -> str:
    return engineering(value, unit)
