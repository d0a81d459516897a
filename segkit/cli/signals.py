"""``segkit signals``: data, clock and latch over a length of wire."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from segkit.cli import ask, output
from segkit.cli.ask import Text, option

EXAMPLE = "segkit signals --run 4m --registers 6 --clock 1MHz"


def signals(
    run: Annotated[Text, option("LENGTH", "From the controller to the last register: 4m.")] = None,
    registers: Annotated[Text, option("COUNT", "Registers in the chain.")] = None,
    clock: Annotated[Text, option("HERTZ", "Bit clock; 1 MHz if left out.")] = None,
    edge: Annotated[
        Text,
        option("TIME", "Rise time of what drives the wires; 6 ns, an ordinary CMOS output, if left out."),
    ] = None,
    impedance: Annotated[
        Text, option("OHM", 'Of a signal wire beside its ground; "100 ohm", a twisted pair, if left out.')
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print for programs.")] = False,
) -> None:
    """Whether signal wires are long for their edges, the resistor they need, the clock they let through."""
    from segkit.electrical.signal_run import signal_run

    given = _read({"run": run, "registers": registers, "clock": clock, "edge": edge, "impedance": impedance})
    found = signal_run(**given)
    if as_json:
        output.print_json(
            {
                "critical_m": found.critical_m,
                "resistor_ohm": found.resistor_ohm,
                "shift_s": found.shift_s,
                "fastest_hz": found.fastest_hz,
                "findings": [finding.as_dict() for finding in found.findings],
            }
        )
    else:
        _print(given, found)
    raise typer.Exit(output.GOOD)


def _read(texts: dict[str, str | None]) -> dict[str, Any]:
    from segkit.units import FREQUENCY, LENGTH, RESISTANCE

    readers = {
        "run": lambda text: ask.within(LENGTH, low=10, high=1e6)(text) / 1000,
        "registers": ask.whole(1000),
        "clock": ask.within(FREQUENCY, low=1.0, high=50e6),
        "edge": _edge,
        "impedance": ask.within(RESISTANCE, low=45.0, high=300.0),
    }
    values = ask.read_all(texts, readers, needed={"run": "4 m", "registers": "6"})
    given = {"length_m": values["run"], "bits": 8 * values["registers"]}
    for name, key in (("clock", "clock_hz"), ("edge", "edge_s"), ("impedance", "impedance_ohm")):
        if values[name] is not None:
            given[key] = values[name]
    return given


def _edge(text: str) -> float:
    """A rise time; nanoseconds are no unit of the design file, so they are read here."""
    from segkit.errors import InputError, Problem

    number, unit = text.strip().lower().rstrip("s"), text.strip().lower()
    try:
        value = float(number.rstrip("nuµ ")) * (1e-9 if unit.endswith("ns") else 1e-6)
    except ValueError:
        value = 0.0
    if not unit.endswith(("ns", "us", "µs")) or not 1e-10 <= value <= 1e-3:
        remedy = 'Write it as in "6 ns" or "0.1 us".'
        raise InputError(Problem("no rise time.", value=f'"{text}"', limit="0.1 ns to 1 ms", remedy=remedy))
    return value


def _print(given: dict[str, Any], found: Any) -> None:
    from segkit.units import engineering, plain_number

    long = given["length_m"] > found.critical_m
    output.say(
        f"{plain_number(given['length_m'])} m is {'long' if long else 'short'} for these edges (long from "
        f"{plain_number(found.critical_m, 2)} m on). Series resistor at the driving end: "
        f"{plain_number(found.resistor_ohm)} ohm. A frame of {given['bits']} bits takes "
        f"{engineering(found.shift_s, 's')}; the wires let clocks through up to "
        f"{engineering(found.fastest_hz, 'Hz')}.\n"
    )
    output.print_findings(found.findings)
