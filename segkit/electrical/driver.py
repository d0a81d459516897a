"""What switches the segment to ground: its drop, its limits, its heat, and the signal that it needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from segkit.catalog.part import Sink
from segkit.electrical.logic_level import input_findings
from segkit.electrical.sink_verdicts import current_findings, junction_findings, voltage_findings
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering
from segkit.working import Given, Line

#: Air in a closed box that the sun may reach, °C.
BOX_C = 50.0
#: Junction and case temperature for which makers state the package power.
_BUDGET_JUNCTION_C, _BUDGET_AIR_C = 150.0, 25.0
#: Reference voltage times current gain of the usual 8-channel constant-current sink, V.
SET_RESISTOR_V = 15 * 1.25
#: Constant-current sinks differ by so much from chip to chip, as a share.
STEADY_SKEW = 0.06
#: Sinks whose drop is a resistance.
_RESISTIVE = ("mosfet", "power-register")


@dataclass(frozen=True)
class Drop:
    """Voltage lost in an output that is on, V.

    Attributes:
        low_v: lowest to reckon with when the highest current is asked for. Data sheets print typical and
            worst only; the low value lies as far below typical as worst lies above, never below 0.
        typical_v, worst_v: as printed.
    """

    low_v: float
    typical_v: float
    worst_v: float


#: Nothing lost.
NO_DROP = Drop(0.0, 0.0, 0.0)


def stated_sink(drop_v: float) -> Sink:
    """A switch of which nothing is known but the drop.

    Args:
        drop_v: drop at any current, V, 0 or more.

    Example:
        >>> sink_drop(stated_sink(1.1), current_a=0.02)
        Drop(low_v=1.1, typical_v=1.1, worst_v=1.1)
    """
    return Sink(
        id="stated", name="switch of stated drop", source="design-choice", knowledge="stated", type="stated",
        outputs=1, drop_points=((0.0, drop_v, drop_v),), on_resistance_ohm=0.0, on_resistance_worst_ohm=0.0,
        gate_v=0.0, max_voltage_v=0.0, max_output_a=0.0, max_package_a=0.0, theta_ja_k_per_w=0.0,
        budget_w=0.0, max_junction_c=0.0, inverts=True, input_high_v=0.0, input_pins=(), output_pins=(),
        zero_pins=(), open_pins=(), open_why="",
    )  # fmt: skip


def sink_drop(sink: Sink, *, current_a: float) -> Drop:
    """Drop of one output at a current.

    Args:
        sink: the sink.
        current_a: current of the output, A, 0 or more.

    Formula: MOSFET and power register ``I*Ron``; others straight lines between the data-sheet points, level
    below the first and carried on beyond the last. The outputs of a register alone count with no typical
    drop: their limit is a current, and a drop left out can only overstate it.

    Raises:
        InputError: the sink has neither drop points nor an on-resistance, or the current is negative.

    Source: the ``source`` of the sink.

    Example:
        >>> sink_drop(stated_sink(0.9), current_a=0.1).worst_v
        0.9
    """
    if current_a < 0:
        raise InputError(Problem("a current cannot be negative.", value=f"{current_a} A"))
    if sink.type in _RESISTIVE:
        typical_v, worst_v = current_a * sink.on_resistance_ohm, current_a * sink.on_resistance_worst_ohm
    elif sink.drop_points:
        typical_v, worst_v = _between(sink.drop_points, current_a)
    else:
        raise InputError(Problem(f"{sink.id} has neither drop points nor an on-resistance."))
    if sink.type == "register":
        return Drop(0.0, 0.0, worst_v)
    return Drop(max(0.0, 2 * typical_v - worst_v), typical_v, worst_v)


def _between(points: Sequence[tuple[float, float, float]], current_a: float) -> tuple[float, float]:
    below, above, share = _span(points, current_a)
    typical_v = below[1] + (above[1] - below[1]) * share
    return typical_v, below[2] + (above[2] - below[2]) * share


def _span(
    points: Sequence[tuple[float, float, float]], current_a: float
) -> tuple[tuple[float, float, float], tuple[float, float, float], float]:
    if len(points) == 1 or current_a <= points[0][0]:
        return points[0], points[0], 0.0
    place = next((i for i, point in enumerate(points) if point[0] >= current_a), len(points) - 1)
    below, above = points[place - 1], points[place]
    return below, above, (current_a - below[0]) / (above[0] - below[0])


def drop_line(sink: Sink, *, current_a: float, name: str) -> Line:
    """The working of the typical drop.

    Args:
        sink: the sink.
        current_a: current of one output, A.
        name: name of the line.
    """
    value = sink_drop(sink, current_a=current_a).typical_v
    current = Given("I", current_a, "A", "current of one output")
    note, inputs = "", tuple[Given, ...]()
    if sink.type == "register":
        formula, inputs = "V", (Given("V", 0.0, "V", "not counted on"),)
        note = "left out so that the current is overstated, not understated"
    elif sink.type in _RESISTIVE:
        formula = "I*Ron"
        inputs = (current, Given("Ron", sink.on_resistance_ohm, "ohm", "typical on-resistance"))
    else:
        below, above, share = _span(sink.drop_points, current_a)
        formula, inputs = "V1", (Given("V1", below[1], "V", f"typical drop up to {below[0]} A"),)
        if share:
            formula = "V1 + (V2 - V1)*(I - I1)/(I2 - I1)"
            inputs = (
                *(Given("I1", below[0], "A"), Given("V1", below[1], "V", "typical drop at I1")),
                *(Given("I2", above[0], "A"), Given("V2", above[1], "V", "typical drop at I2"), current),
            )
    return Line(name, f"drop of the {sink.name}", "Vd", value, "V", formula, inputs, sink.source, note)


def set_resistor_ohm(current_a: float) -> float:
    """Resistor that sets the current of the usual 8-channel constant-current sink, Ω.

    Args:
        current_a: wanted output current, A, above 0.

    Formula: ``R = 15*1.25 V/I``. Source: sink-constant-current-formula.

    Raises:
        InputError: the current is not positive.

    Example:
        >>> set_resistor_ohm(0.020)
        937.5
    """
    if current_a <= 0:
        raise InputError(Problem("the current to set must be above 0.", value=f"{current_a} A"))
    return SET_RESISTOR_V / current_a


def set_resistor_line(current_a: float, *, name: str) -> Line:
    """The working of ``set_resistor_ohm``."""
    inputs = (Given("I", current_a, "A", "current of one output"),)
    title, value = "set resistor of the constant-current sink", set_resistor_ohm(current_a)
    note = "one for each chip; take the next value up"
    return Line(name, title, "Rset", value, "ohm", "15*1.25/I", inputs, "sink-constant-current-formula", note)


def set_resistor_findings(sink: Sink, currents_a: Mapping[str, float]) -> tuple[Finding, ...]:
    """Whether one set resistor can serve all outputs of a chip.

    Args:
        sink: the sink; only a constant-current one has a set resistor.
        currents_a: kind of segment on the chip to the current its output is to hold, A.

    Returns:
        a caution where the kinds ask for currents more than 1 % apart.

    Source: the ``source`` of the sink.
    """
    if sink.type != "constant-current" or not currents_a:
        return ()
    least, most = min(currents_a, key=currents_a.__getitem__), max(currents_a, key=currents_a.__getitem__)
    if currents_a[most] <= 1.01 * currents_a[least]:
        return ()
    return (
        Finding(
            level="caution",
            code="one-set-resistor",
            subject=sink.name,
            text=f"one resistor sets all outputs of a chip alike, and on one chip the {most} is to have "
            f"{engineering(currents_a[most], 'A')}, the {least} {engineering(currents_a[least], 'A')}.",
            value=round(1000 * currents_a[most], 2),
            limit=round(1000 * currents_a[least], 2),
            unit="mA",
            source=sink.source,
            remedy="Give every kind of segment as many strings as the others, or put the odd ones on a chip "
            "of their own with its own set resistor.",
        ),
    )


def thermal_resistance(sink: Sink) -> float:
    """Junction to air, K/W, by the more cautious of what the makers say.

    Formula: the larger of the stated value and ``(150 - 25)/P`` of the lowest stated package power.

    Example:
        >>> thermal_resistance(stated_sink(0.9))
        0.0
    """
    by_budget = (_BUDGET_JUNCTION_C - _BUDGET_AIR_C) / sink.budget_w if sink.budget_w else 0.0
    return max(sink.theta_ja_k_per_w, by_budget)


@dataclass(frozen=True)
class PackageLoad:
    """One package with its outputs on.

    Attributes:
        total_a: sum of the outputs, A.
        heat_w: heat in the package, W.
        junction_c: junction temperature in the box, °C.
        lines, findings: working and verdicts.
    """

    total_a: float
    heat_w: float
    junction_c: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def package_load(
    sink: Sink,
    *,
    outputs_a: Sequence[float],
    outputs_v: Sequence[float] | None = None,
    supply_max_v: float = 0.0,
    logic_v: float | None = None,
    ambient_c: float = BOX_C,
    drive_v: float | None = None,
) -> PackageLoad:
    """Judge one package with all its outputs on at once (lamp test).

    Args:
        sink: the sink.
        outputs_a: current of each output that is on, A; at most ``sink.outputs`` of them.
        outputs_v: voltage across each output, V; the worst drop if left out. A constant-current sink takes
            all that the string leaves, so it must be given there.
        supply_max_v: highest supply of the LEDs, V, held against the output's voltage limit; 0 = not judged.
        logic_v: supply of what drives the inputs, V; None = not judged.
        ambient_c: air in the box, °C.
        drive_v: supply less LEDs, V, so that a register's overload can name the resistor that would do.

    Formula: ``P = sum(V*I)``, ``Tj = Ta + P*theta``.

    Raises:
        InputError: more outputs than the package has, or not one voltage for each current.

    Source: the ``source`` of the sink.
    """
    volts = tuple(outputs_v) if outputs_v is not None else tuple(
        sink_drop(sink, current_a=current_a).worst_v for current_a in outputs_a
    )  # fmt: skip
    if len(outputs_a) > sink.outputs or len(volts) != len(outputs_a):
        raise InputError(
            Problem(
                f"{sink.id} has {sink.outputs} output(s).",
                value=f"{len(outputs_a)} currents, {len(volts)} voltages",
                limit=f"at most {sink.outputs} of each, as many of one as of the other",
                remedy="Count the packages again.",
            )
        )
    total_a = sum(outputs_a)
    heat = sum(v * a for v, a in zip(volts, outputs_a, strict=True))
    junction_c = ambient_c + heat * thermal_resistance(sink)
    lines = _heat_lines(sink, tuple(zip(outputs_a, volts, strict=True)), heat, junction_c, ambient_c)
    findings = [
        *current_findings(sink, outputs_a, drive_v=drive_v),
        *voltage_findings(sink, supply_max_v=supply_max_v),
        *junction_findings(
            sink,
            heat_w=heat,
            junction_c=junction_c,
            ambient_c=ambient_c,
            theta_k_per_w=thermal_resistance(sink),
        ),
        *(() if logic_v is None else input_findings(sink, logic_v=logic_v)),
    ]
    return PackageLoad(total_a, heat, junction_c, lines, tuple(findings))


def _heat_lines(
    sink: Sink, loads: tuple[tuple[float, float], ...], heat: float, junction_c: float, ambient_c: float
) -> tuple[Line, Line]:
    terms, inputs = [], []
    for number, (current_a, volt) in enumerate(dict.fromkeys(loads), 1):
        terms.append(f"n{number}*V{number}*I{number}")
        inputs += [
            Given(f"n{number}", loads.count((current_a, volt)), "", "outputs on"),
            Given(f"V{number}", volt, "V", "across each"),
            Given(f"I{number}", current_a, "A", "through each"),
        ]
    theta = thermal_resistance(sink)
    warmth = (Given("T", ambient_c, "°C", "air in the box"), Given("P", heat, "W", "heat"),
              Given("theta", theta, "K/W", "junction to air, most cautious maker"))  # fmt: skip
    return (
        Line("electrical.sink_heat", f"heat in one {sink.name}", "P", heat, "W", " + ".join(terms) or "0",
             tuple(inputs), sink.source),
        Line("electrical.sink_junction", f"junction of the {sink.name}", "Tj", junction_c, "°C",
             "T + P*theta", warmth, sink.source),
    )  # fmt: skip
