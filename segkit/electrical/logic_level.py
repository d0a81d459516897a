"""The signals on the way to a sink: whether a 1 is surely a 1."""

from __future__ import annotations

from segkit.catalog.part import ShiftRegister, Sink
from segkit.findings import Finding
from segkit.units import plain_number
from segkit.working import Given, Line

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


#: Input of a Darlington array: its resistor, two junctions, and what the data sheet's drops are stated at:
#: 250, 350 and 500 uA for 100, 200 and 350 mA, a straight line.
ARRAY_INPUT_OHM, ARRAY_BASE_V = 2700.0, 1.4
_ARRAY_LEAST_A, _ARRAY_GAIN = 150e-6, 1000.0


def array_input_a(logic_v: float) -> float:
    """Current that a logic output of a given supply sends into an input of a Darlington array, A.

    Args:
        logic_v: supply of the logic, V.

    Formula: ``I = (V - 1.4 V)/2.7 kohm``, 0 below.

    Source: sink-uln2803a.

    Example:
        >>> round(1000 * array_input_a(3.3), 2)
        0.7
    """
    return max(0.0, (logic_v - ARRAY_BASE_V) / ARRAY_INPUT_OHM)


def array_input(
    sink: Sink, register: ShiftRegister, *, logic_v: float, output_a: float, outputs: int
) -> tuple[tuple[Line, ...], tuple[Finding, ...]]:
    """Whether the register feeds the inputs of a Darlington array so that its stated drop holds.

    Args:
        sink: the array; any other sink has nothing to judge.
        register: what drives it.
        logic_v: supply of the register, V.
        output_a: highest current of one output of the array, A.
        outputs: inputs that are high together.

    Formula: needed ``150 uA + I/1000``, the data sheet's test points; given by ``array_input_a``; all
    together against the limit of the register's package.

    Source: the ``source`` of the sink and of the register.
    """
    if sink.type != "darlington":
        return (), ()
    given_a, needed_a = array_input_a(logic_v), _ARRAY_LEAST_A + output_a / _ARRAY_GAIN
    inputs = (
        Given("V", logic_v, "V", "supply of the register"),
        Given("Vb", ARRAY_BASE_V, "V", "two junctions"),
        Given("R", ARRAY_INPUT_OHM, "ohm", "input resistor of the array"),
    )
    output = (Given("I", output_a, "A", "highest current of one output"),)
    lines = (
        Line("electrical.array_input", "current into an input of the array", "Ib", given_a, "A",
             "max(0, (V - Vb)/R)", inputs, sink.source),
        Line("electrical.array_input_needed", "input current that the stated drop asks for", "In", needed_a,
             "A", "150e-6 + I/1000", output, sink.source),
    )  # fmt: skip
    found = []
    if given_a < needed_a:
        found.append(
            Finding(
                "caution", "array-input", sink.name,
                f"a {plain_number(logic_v)} V output sends {1000 * given_a:.2f} mA into an input; the drop "
                f"is stated with {1000 * needed_a:.2f} mA at this current: it may drop more and run hotter.",
                round(1000 * given_a, 3), round(1000 * needed_a, 3), "mA", sink.source,
                "Run the registers on 5 V, or take less current an output.",
            )
        )  # fmt: skip
    together_a = outputs * given_a
    if register.max_package_a and together_a > register.max_package_a:
        found.append(
            Finding(
                "stop", "register-overload", register.name,
                f"{outputs} inputs of the array take {1000 * together_a:.1f} mA from one register.",
                round(1000 * together_a, 2), 1000 * register.max_package_a, "mA", register.source,
                "Run the register on a lower voltage.",
            )
        )  # fmt: skip
    return lines, tuple(found)


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
