"""The signals on the way to a sink: whether a 1 is surely a 1."""

from __future__ import annotations

from segkit.catalog.part import ShiftRegister, Sink
from segkit.findings import Finding
from segkit.units import plain_number

#: Sinks without an input of their own to judge: the register's own outputs, and switches of stated drop.
_NO_INPUT = ("register", "power-register", "constant-current", "stated")


def input_findings(sink: Sink, *, logic_v: float) -> tuple[Finding, ...]:
    """Whether a logic output of a given supply surely switches a sink on.

    Args:
        sink: the sink.
        logic_v: supply of the logic that drives it, V.

    Returns:
        ``gate-too-low`` (stop) for a MOSFET whose on-resistance is stated at a higher gate voltage;
        ``logic-level`` for a sink array that asks for more. A threshold voltage proves nothing. A sink that
        is the register itself has no input here: ``register_input_findings`` judges its signals.

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
    if sink.type in _NO_INPUT:
        return ()
    remedy = (
        f"Run the registers on {plain_number(sink.input_high_v)} V or more, or take a MOSFET whose "
        "on-resistance is stated at the voltage there is."
    )
    return _level_findings(sink.name, remedy, needed_v=sink.input_high_v, given_v=logic_v, source=sink.source)


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
        _level_findings(
            register.name, _level_remedy(register), needed_v=needed_v, given_v=controller_v,
            source=register.source,
        )
    )  # fmt: skip
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


def _level_remedy(register: ShiftRegister) -> str:
    """A plain register has a twin with other inputs; one that sinks the current itself has none."""
    swap = "put an HCT buffer (2.0 V is a 1) on each signal"
    if not register.sinks:
        swap = "use the HCT type of the register (2.0 V is a 1), or a buffer of that type on each signal"
    return f"{swap[:1].upper()}{swap[1:]}; or run it at the controller's voltage, if it works at that."


def _level_findings(
    name: str, remedy: str, *, needed_v: float, given_v: float, source: str
) -> tuple[Finding, ...]:
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
            remedy=remedy,
        ),
    )
