"""The signals on the way to a sink: which bit lights, and whether a 1 is surely a 1."""

from __future__ import annotations

from typing import Literal

from segkit.catalog.part import ShiftRegister, Sink
from segkit.findings import Finding
from segkit.units import plain_number


def polarity(sink: Sink) -> Literal["high", "low"]:
    """Which bit value lights a segment: ``high`` behind a sink that inverts, ``low`` otherwise.

    A sink array pulls its output low for a 1, so nothing else must invert. A register's own outputs sink
    current at 0.

    Args:
        sink: the sink.

    Source: the ``source`` of the sink.
    """
    return "high" if sink.inverts else "low"


def input_findings(sink: Sink, *, logic_v: float) -> tuple[Finding, ...]:
    """Whether a logic output of a given supply surely switches a sink on.

    Args:
        sink: the sink.
        logic_v: supply of the logic that drives it, V.

    Returns:
        ``gate-too-low`` (stop) for a MOSFET whose on-resistance is stated at a higher gate voltage;
        ``logic-level`` for any other sink that asks for more. A threshold voltage proves nothing.

    Source: the ``source`` of the sink.
    """
    if sink.type == "mosfet":
        if logic_v >= sink.gate_v:
            return ()
        return (
            Finding(
                level="stop",
                code="gate-too-low",
                subject=sink.name,
                text=f"its on-resistance is stated at {plain_number(sink.gate_v)} V on the gate and the "
                f"logic gives {plain_number(logic_v)} V: it may be half on, dim and hot.",
                value=logic_v,
                limit=sink.gate_v,
                unit="V",
                source=sink.source,
                remedy=f"Take a part with on-resistance stated at {plain_number(logic_v)} V or less; "
                "a threshold voltage does not count.",
                holds=("back_board",),
            ),
        )
    if sink.type in ("register", "stated"):
        return ()
    return _level_findings(sink.name, needed_v=sink.input_high_v, given_v=logic_v, source=sink.source)


def register_input_findings(
    register: ShiftRegister, *, register_v: float, controller_v: float
) -> tuple[Finding, ...]:
    """Whether a controller's 1 is a 1 for the register.

    Args:
        register: the shift register.
        register_v: its supply, V.
        controller_v: supply of the controller, V; an unloaded output comes within 0.1 V of it.

    Formula: ``Vih = share*Vcc``, or the absolute figure where the part has one.

    Source: the ``source`` of the register.
    """
    needed_v = register.input_high_share * register_v if register.input_high_share else register.input_high_v
    found = list(
        _level_findings(register.name, needed_v=needed_v, given_v=controller_v, source=register.source)
    )
    if not register.supply_min_v <= register_v <= register.supply_max_v:
        low, high = plain_number(register.supply_min_v), plain_number(register.supply_max_v)
        found.append(
            Finding(
                level="stop",
                code="register-supply",
                subject=register.name,
                text=f"it runs on {low} to {high} V and gets {plain_number(register_v)} V.",
                value=register_v,
                limit=f"{low} to {high}",
                unit="V",
                source=register.source,
                remedy="Change the logic voltage or the register.",
                holds=("back_board",),
            )
        )
    return tuple(found)


def _level_findings(name: str, *, needed_v: float, given_v: float, source: str) -> tuple[Finding, ...]:
    if given_v >= needed_v:
        return ()
    return (
        Finding(
            level="stop",
            code="logic-level",
            subject=name,
            text=f"a 1 is sure from {plain_number(needed_v)} V and a {plain_number(given_v)} V output cannot "
            "give that: not guaranteed, and wrong segments at times are the usual sign.",
            value=given_v,
            limit=round(needed_v, 3),
            unit="V",
            source=source,
            remedy="Use the HCT type of the register (2.0 V is a 1), run it at the controller's voltage, "
            "or put a buffer between.",
        ),
    )
