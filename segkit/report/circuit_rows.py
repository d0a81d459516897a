"""What lights each kind of segment, as ``check`` and the build book print it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from segkit.electrical.resistor import rating_name
from segkit.project import Project
from segkit.units import engineering, plain_number


@dataclass(frozen=True)
class CircuitRow:
    """One kind of segment, as text."""

    kind: str
    leds: str
    strings: str
    resistors: str
    current: str
    highest: str


def circuit_rows(project: Project) -> tuple[CircuitRow, ...]:
    """Strings, resistors and currents of each kind of segment, in the order of the board."""
    rows = []
    for kind, circuit in project.circuits.items():
        alike = {string.leds: string for string in circuit.strings}
        counts = [string.leds for string in circuit.strings]
        rows.append(
            CircuitRow(
                kind=kind,
                leds=str(sum(counts)),
                strings=" and ".join(f"{counts.count(n)} of {n} in series" for n in alike),
                resistors=" and ".join(
                    _resistor(project, kind, s.chosen_ohm, s.rating_w) for s in alike.values()
                ),
                current=engineering(circuit.current_a, "A"),
                highest=engineering(circuit.highest_a, "A"),
            )
        )
    return tuple(rows)


def _resistor(project: Project, kind: str, ohm: float, rating_w: float) -> str:
    if not ohm:
        return "none"
    own = [string for string in project.harness.plan.strings if (string.kind, string.ohm) == (kind, ohm)]
    in_network = bool(own) and all(string.network for string in own)
    return f"{engineering(ohm, 'Ω')}, {'in networks' if in_network else rating_name(rating_w)}"


def circuit_numbers(project: Project) -> list[dict[str, Any]]:
    """The same as numbers, for programs; a resistor of 0 is none."""
    return [
        {
            "kind": kind,
            "strings": [
                {
                    "leds": string.leds,
                    "resistor_ohm": string.chosen_ohm,
                    "rating_w": string.rating_w,
                    "current_a": string.current_a,
                }
                for string in circuit.strings
            ],
            "current_a": circuit.current_a,
            "highest_a": circuit.highest_a,
        }
        for kind, circuit in project.circuits.items()
    ]


def circuit_text(project: Project) -> str:
    """The way of the current through a segment, in words."""
    parts = project.parts
    volts = plain_number(parts.supply.nominal_v)
    if parts.sink.type == "constant-current":
        return (
            f"From plus {volts} V through the LEDs of a string to one output of the sink "
            f"({parts.sink.name}), which holds the current; one resistor at each chip sets it for all of the "
            "chip's outputs."
        )
    return (
        f"From plus {volts} V through a resistor and the LEDs of a string to one output of the sink "
        f"({parts.sink.name}); all strings of a segment join at that output. Each string has its own "
        "resistor: one for several strings, or in the common lead, makes a 1 brighter than an 8."
    )
