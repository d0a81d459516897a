"""One digit as a SPICE netlist, all segments lit: for any circuit simulator."""

from __future__ import annotations

import math

from segkit.catalog.part import Led
from segkit.electrical.driver import sink_drop
from segkit.electrical.led_curve import THERMAL_V, curve_of
from segkit.wiring.circuit import SUPPLY, ZERO, Circuit, led_plus
from segkit.wiring.plan import Plan

#: Simulators raise a smaller saturation current; the rest goes into a voltage in series. exp(-60) A.
_LEAST_LOG = -60.0


def spice_netlist(plan: Plan, circuit: Circuit, digit: int) -> str:
    """The netlist of a digit with every segment's sink on, and its operating point.

    The LEDs have the curve of the design (typical parts); a sink is a voltage source of its typical drop at
    the segment's current, or a current source if it holds the current.

    Args:
        plan: what the wiring follows from.
        circuit: its parts and nets.
        digit: from 1.

    Source: spice-diode; drop: the ``source`` of the sink.
    """
    node = {pin: _node(name) for pin, name in circuit.net_of().items()}
    plus = _node(led_plus(plan, digit))
    lines = [
        f"* {plan.title}: digit {digit}, all segments lit; {plan.stamp}",
        "* operating point: ngspice -b FILE; currents of the strings are those of the resistors",
        *_supply(plan, plus),
    ]
    for string in plan.strings_of(digit):
        if string.resistor:
            ref, ends = string.resistor, (string.feed_pin, string.own_pin)
            name = f"{ref}_{string.own_pin}" if string.network else ref
            lines.append(f"{name} {node[ref, ends[0]]} {node[ref, ends[1]]} {string.ohm:.9g}")
        lines += [f"X{led.ref} {node[led.ref, 'A']} {node[led.ref, 'K']} LED" for led in string.leds]
    lines += _sinks(plan, digit)
    return "\n".join([*lines, *led_model(plan.led), ".op", ".end", ""])


def _node(net: str) -> str:
    return "0" if net == ZERO else net if net != SUPPLY else "SUPPLY"


def _supply(plan: Plan, plus: str) -> list[str]:
    if not plan.lost_v:
        return [f"Vsupply {plus} 0 DC {plan.supply_v:.9g}"]
    return [f"Vsupply SOURCE 0 DC {plan.supply_v:.9g}", f"Vcommon SOURCE {plus} DC {plan.lost_v:.9g}"]


def _sinks(plan: Plan, digit: int) -> list[str]:
    found = []
    for segment in (s for s in plan.board.segments if s.digit == digit):
        circuit, node = plan.circuits[segment.kind], f"SEG_{digit}{segment.name}"
        if plan.sink.type == "constant-current":
            found.append(f"Isink_{digit}{segment.name} {node} 0 DC {circuit.current_a:.9g}")
            continue
        drop = sink_drop(plan.sink, current_a=circuit.current_a).typical_v
        found.append(f"Vsink_{digit}{segment.name} {node} 0 DC {drop:.9g}")
    return found


def led_model(led: Led) -> list[str]:
    """The LED as a subcircuit: diode and, where the saturation current is very small, a voltage in series.

    Args:
        led: catalogue row.

    Returns:
        lines of the netlist, pins A and K.

    Formula: ``V = N*Vt*ln(I/Is + 1) + I*Rs``, Vt at 27 °C. Source: spice-diode.

    Example:
        >>> from segkit.catalog.reader import led
        >>> led_model(led("red-5mm-diffused"))[0]
        '.subckt LED A K'
    """
    curve = curve_of(led)
    if curve.junction_v == 0:
        return [".subckt LED A K", f"Vf A K DC {curve.fixed_v:.9g}", ".ends"]
    log_saturation = max(curve.log_saturation, _LEAST_LOG)
    offset_v = curve.junction_v * (log_saturation - curve.log_saturation)
    return [
        ".subckt LED A K",
        "Dj A mid DLED",
        f"Voffset mid K DC {offset_v:.12g}",
        ".ends",
        f".model DLED D(IS={math.exp(log_saturation):.12g} N={curve.junction_v / THERMAL_V:.12g} "
        f"RS={curve.series_ohm:.12g})",
    ]
