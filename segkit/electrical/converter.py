"""A step-down converter at the board: the cable carries a higher voltage and less current."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import Supply, Wire
from segkit.electrical.cable import ampacity_findings, gauge, run_inputs, warm_ohm
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Share of the power that a usual step-down module passes on.
EFFICIENCY = 0.88
#: Its output against what is set, as a share; and what it needs above its output, V.
REGULATION, DROPOUT_V = 0.03, 1.5
#: Caution where the cable takes more than this share of the source.
MOST_DROP = 0.10
_SOURCES_V = (12.0, 24.0, 36.0, 48.0)


@dataclass(frozen=True)
class ConverterRun:
    """The cable up to the converter, and the converter.

    Attributes:
        input_a: current in the cable, A; ``inf`` where the cable cannot bring the power at all.
        drop_v: lost in both wires, V.
        power_w: power that the converter takes in, W.
        heat_w: heat in the converter, W.
        lines, findings: working and verdicts; no lines where the cable cannot bring the power.
    """

    input_a: float
    drop_v: float
    power_w: float
    heat_w: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def input_a(*, source_v: float, loop_ohm: float, power_w: float) -> float:
    """Current that brings a power through a resistance, A.

    Args:
        source_v: voltage at the near end, V, above 0.
        loop_ohm: both wires of the cable, Ω, 0 or more.
        power_w: power taken at the far end, W, 0 or more.

    Returns:
        the smaller of the two currents that would; ``inf`` above ``V**2/(4*R)``, the most that can arrive.

    Formula: ``P = (V - I*R)*I``, so ``I = (V - sqrt(V**2 - 4*R*P))/(2*R)``.

    Raises:
        InputError: a value out of its range.

    Source: arithmetic.

    Example:
        >>> round(input_a(source_v=24, loop_ohm=1.0, power_w=23), 6)
        1.0
    """
    if source_v <= 0 or loop_ohm < 0 or power_w < 0:
        values = f"{source_v} V, {loop_ohm} ohm, {power_w} W"
        raise InputError(Problem("these values do not describe a cable to a converter.", value=values))
    inside = source_v**2 - 4 * loop_ohm * power_w
    if inside < 0:
        return math.inf
    return 2 * power_w / (source_v + math.sqrt(inside))  # the same, and good down to 0 ohm


def converter_run(
    wire: Wire,
    *,
    length_m: float,
    source: Supply,
    board_v: float,
    board_a: float,
    efficiency: float = EFFICIENCY,
    temperature_c: float = 20.0,
) -> ConverterRun:
    """Current in the cable, its drop, and the heat of a step-down converter at the far end.

    Args:
        wire: cable; one of its cores, or a length of it, for each way.
        length_m: one way, m, 0 or more.
        source: supply at the near end.
        board_v: what the converter gives, V, above 0.
        board_a: current of the board at that voltage with everything lit, A, above 0.
        efficiency: share of the power passed on, above 0 to 1.
        temperature_c: of the conductors, °C.

    Formula: ``P = V*I/eta``, then as ``input_a``; the drop does not dim the board while enough arrives.

    Raises:
        InputError: a value out of its range.

    Source: converter-practice, the ``source`` of the wire.

    Example:
        >>> from segkit.catalog.reader import supply, wire
        >>> run = converter_run(wire("hook-up-0-5mm2"), length_m=12, source=supply("adapter-24v-2a"),
        ...                     board_v=12, board_a=1.4)
        >>> round(run.input_a, 3), round(run.drop_v, 2)
        (0.822, 0.77)
    """
    if board_v <= 0 or board_a <= 0 or not 0 < efficiency <= 1 or length_m < 0:
        values = f"{board_v} V, {board_a} A, {efficiency}, {length_m} m"
        raise InputError(Problem("these values do not describe a converter.", value=values))
    per_m = warm_ohm(wire.resistance_ohm_per_m, temperature_c=temperature_c)
    loop_ohm, power_w = 2 * per_m * length_m, board_v * board_a / efficiency
    worst_a = input_a(source_v=source.min_v, loop_ohm=loop_ohm, power_w=power_w)
    drawn_a = input_a(source_v=source.nominal_v, loop_ohm=loop_ohm, power_w=power_w)
    heat_w = power_w * (1 - efficiency)
    if not math.isfinite(worst_a):
        starved = _starved(wire, source, power_w, loop_ohm, length_m)
        return ConverterRun(math.inf, source.nominal_v, power_w, heat_w, (), (starved,))
    drop_v = drawn_a * loop_ohm
    arrives_v = source.min_v - worst_a * loop_ohm
    findings = (
        *_low_findings(board_v, arrives_v),
        *_drop_findings(wire, source, drawn_a, drop_v, length_m),
        *ampacity_findings(wire, "a supply wire", worst_a),
    )
    lines = _lines(wire, per_m, length_m, source, board_v, board_a, efficiency, drawn_a, drop_v, heat_w)
    return ConverterRun(drawn_a, drop_v, power_w, heat_w, lines, findings)


def converter_cure(wire: Wire, *, length_m: float, board_v: float, board_a: float) -> str:
    """A remedy for a supply cable that loses too much: a usual higher voltage that would bring the power.

    Args:
        wire: cable; one of its cores, or a length of it, for each way.
        length_m: one way, m, 0 or more.
        board_v: what the board needs, V, above 0.
        board_a: its current with everything lit, A, above 0.

    Returns:
        a half sentence with the voltage, the current and the drop; empty where none up to 48 V does.

    Source: converter-practice, arithmetic.

    Example:
        >>> from segkit.catalog.reader import wire
        >>> converter_cure(wire("hook-up-0-5mm2"), length_m=12, board_v=12, board_a=1.4)
        ', or bring 24 V to a step-down converter at the board (822 mA, 0.77 V lost)'
    """
    loop_ohm = 2 * wire.resistance_ohm_per_m * length_m
    for source_v in _SOURCES_V:
        drawn_a = input_a(source_v=source_v, loop_ohm=loop_ohm, power_w=board_v * board_a / EFFICIENCY)
        if source_v >= 1.5 * board_v and drawn_a * loop_ohm <= MOST_DROP * source_v:
            return (
                f", or bring {plain_number(source_v)} V to a step-down converter at the board "
                f"({engineering(drawn_a, 'A')}, {drawn_a * loop_ohm:.2f} V lost)"
            )
    return ""


def _starved(wire: Wire, source: Supply, power_w: float, loop_ohm: float, length_m: float) -> Finding:
    most_w = source.min_v**2 / (4 * loop_ohm)
    return Finding(
        level="stop",
        code="converter-starved",
        subject=wire.name,
        text=f"the converter takes {power_w:.1f} W with everything lit; at {plain_number(source.min_v)} V "
        f"this cable brings {most_w:.1f} W at most.",
        value=round(power_w, 2),
        limit=round(most_w, 2),
        unit="W",
        source="arithmetic",
        remedy=f"Make both wires {_cure(wire, source, power_w / source.nominal_v, length_m)}, or raise the "
        "voltage of the source.",
    )


def _cure(wire: Wire, source: Supply, drawn_a: float, length_m: float) -> str:
    return gauge(wire, highest_ohm=MOST_DROP * source.nominal_v / 2 / drawn_a, length_m=length_m)


def _low_findings(board_v: float, arrives_v: float) -> tuple[Finding, ...]:
    if arrives_v >= board_v + DROPOUT_V:
        return ()
    return (
        Finding(
            level="stop",
            code="converter-starved",
            subject="step-down converter at the board",
            text=f"{arrives_v:.1f} V arrive when the source is at its lowest; to make "
            f"{plain_number(board_v)} V it needs {plain_number(board_v + DROPOUT_V)} V.",
            value=round(arrives_v, 2),
            limit=board_v + DROPOUT_V,
            unit="V",
            source="converter-practice",
            remedy="Take a source of higher voltage or thicker wire; a step-down converter cannot raise it.",
        ),
    )


def _drop_findings(
    wire: Wire, source: Supply, drawn_a: float, drop_v: float, length_m: float
) -> tuple[Finding, ...]:
    limit_v = MOST_DROP * source.nominal_v
    if drop_v <= limit_v:
        return ()
    return (
        Finding(
            level="caution",
            code="converter-drop",
            subject=wire.name,
            text=f"the cable to the converter loses {drop_v:.2f} V of {plain_number(source.nominal_v)} V at "
            f"{engineering(drawn_a, 'A')}; the converter keeps the light even, but the heat is paid for.",
            value=round(drop_v, 2),
            limit=round(limit_v, 2),
            unit="V",
            source="converter-practice",
            remedy=f"Make both wires {_cure(wire, source, drawn_a, length_m)}.",
        ),
    )


def _lines(
    wire: Wire, per_m: float, length_m: float, source: Supply, board_v: float, board_a: float,
    efficiency: float, drawn_a: float, drop_v: float, heat_w: float,
) -> tuple[Line, ...]:  # fmt: skip
    board = (
        Given("Vb", board_v, "V", "at the board"),
        Given("Ib", board_a, "A", "everything lit"),
        Given("eta", efficiency, "", "share passed on"),
    )
    run = run_inputs(ohm_per_m=per_m, length_m=length_m)
    power = "2*Vb*Ib/eta"  # the quadratic, written so that it holds for a cable without resistance too
    return (
        Line("electrical.converter_input", "current in the cable to the converter, lit", "I", drawn_a, "A",
             f"{power}/(V + sqrt(V**2 - 8*r*l*Vb*Ib/eta))",
             (Given("V", source.nominal_v, "V", "at the source"), *board, *run), "arithmetic"),
        Line("electrical.converter_drop", "drop in both wires to the converter, all lit", "Vw", drop_v, "V",
             "2*I*r*l", (*run, Given("I", drawn_a, "A", "in the cable")), wire.source),
        Line("electrical.converter_heat", "heat in the converter, all lit", "P", heat_w, "W",
             "Vb*Ib/eta*(1 - eta)", board, "converter-practice"),
    )  # fmt: skip
