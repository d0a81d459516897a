"""A cable with one core for each segment of a digit and a return that all of them share."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from segkit.catalog.part import Wire
from segkit.electrical.cable import (
    ampacity_findings,
    drop_findings,
    gauge,
    headroom_taken_findings,
    limit_ohm,
    more_volts,
    run_inputs,
    warm_ohm,
)
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.working import Given, Line


@dataclass(frozen=True)
class OnCable:
    """Segments of one kind of a digit, each with a core of its own.

    Attributes:
        kind: kind of segment.
        count: how many of them the digit has.
        current_a: of one of them, typical, A.
        in_one: how many of them a "1" lights.
    """

    kind: str
    count: int
    current_a: float
    in_one: int = 0


@dataclass(frozen=True)
class CableRun:
    """What the cable of a digit costs.

    Attributes:
        wire: catalogue id.
        core_ohm: resistance of one core, Ω.
        segment_drop_v: drop in the wire of the strongest segment, V.
        return_a: current in the shared return with everything lit, A.
        return_drop_v: drop in it, V.
        evenness: current of a segment in an "8" over that in a "1".
        lines, findings: working and verdicts.
    """

    wire: str
    core_ohm: float
    segment_drop_v: float
    return_a: float
    return_drop_v: float
    evenness: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def cable_run(
    wire: Wire,
    digit: Sequence[OnCable],
    *,
    length_m: float,
    headroom_v: float,
    temperature_c: float = 20.0,
    steady: bool = False,
) -> CableRun:
    """Drop and evenness of a digit at the end of a cable.

    Args:
        wire: cable; its cores are alike.
        digit: what is on the cable, by kind.
        length_m: one way, m, 0 or more.
        headroom_v: voltage across a segment's resistor without the cable, V, above 0.
        temperature_c: of the conductors, °C.
        steady: True behind a constant-current sink: it keeps the current while the headroom covers the drop.

    Formula: ``Vreturn = (n1*I1 + n2*I2 + ...)*r*l``; with segments of conductance ``Ik/(Vr + Ik*r*l)`` lit,
    adding up to G, each gets a share ``1/(1 + r*l*G)`` of what it gets alone on a return without resistance.
    The LEDs' voltage is taken as fixed, which overstates the difference a little.

    Raises:
        InputError: a number out of its range.

    Source: the ``source`` of the wire; arithmetic.

    Example:
        >>> from segkit.catalog.reader import wire
        >>> digit = (OnCable("upright", 4, 0.03, in_one=2), OnCable("crossbar", 3, 0.04))
        >>> run = cable_run(wire("cat5e"), digit, length_m=10, headroom_v=3)
        >>> round(run.return_a, 3), round(run.return_drop_v, 3), round(run.evenness, 3)
        (0.24, 0.225, 0.948)
    """
    _refuse(digit, length_m, headroom_v)
    per_m = warm_ohm(wire.resistance_ohm_per_m, temperature_c=temperature_c)
    core_ohm, strongest_a = per_m * length_m, max(kind.current_a for kind in digit)
    return_a = sum(kind.count * kind.current_a for kind in digit)
    drop_v = (strongest_a + return_a) * core_ohm
    evenness = 1.0 if steady else _evenness(digit, core_ohm, headroom_v)
    lines = list(_drop_lines(wire, digit, per_m, length_m, strongest_a, return_a))
    if steady:
        findings = headroom_taken_findings(wire, drop_v=drop_v, headroom_v=headroom_v)
    else:
        lines.append(_evenness_line(wire, digit, per_m, length_m, headroom_v, evenness))
        findings = _return_findings(wire, digit, core_ohm, length_m, headroom_v)
    findings = (
        *too_few_cores_findings(wire, sum(kind.count for kind in digit)),
        *findings,
        *ampacity_findings(wire, "the shared return", return_a),
    )
    return CableRun(
        wire.id, core_ohm, strongest_a * core_ohm, return_a, return_a * core_ohm, evenness, tuple(lines),
        findings,
    )  # fmt: skip


def too_few_cores_findings(wire: Wire, lamps: int) -> tuple[Finding, ...]:
    """Whether a cable has a core for each segment of a digit and one for their common.

    Args:
        wire: the cable.
        lamps: segments, points and colons of the digit that has most.
    """
    if wire.cores > lamps:
        return ()
    cores = "1 core" if wire.cores == 1 else f"{wire.cores} cores"
    return (
        Finding(
            level="stop",
            code="too-few-cores",
            subject=wire.name,
            text=f"a digit needs {lamps + 1} cores, one for each of {lamps} segments (points and colons "
            f"counted) and one for the common; the cable has {cores}.",
            value=float(wire.cores),
            limit=float(lamps + 1),
            unit="cores",
            source="arithmetic",
            remedy=f"Take a cable of {lamps + 1} or more cores, or put the chips on the board and feed it "
            'through two supply wires (carries = "supply").',
        ),
    )


def _refuse(digit: Sequence[OnCable], length_m: float, headroom_v: float) -> None:
    counts = all(kind.count > 0 and 0 <= kind.in_one <= kind.count for kind in digit)
    some = any(kind.in_one for kind in digit)
    if length_m < 0 or headroom_v <= 0 or not counts or not some or min(k.current_a for k in digit) <= 0:
        on_it = ", ".join(
            f"{kind.in_one} of {kind.count} {kind.kind} at {kind.current_a} A" for kind in digit
        )
        raise InputError(
            Problem(
                "length, headroom, currents and counts do not describe a cable run.",
                value=f"{length_m} m, {headroom_v} V, {on_it or 'no segment'}",
                limit='length 0 m or more, current and headroom above 0, some segments in a "1"',
            )
        )


def _conductances(digit: Sequence[OnCable], core_ohm: float, headroom_v: float) -> tuple[float, float]:
    """Of everything lit and of a "1", each segment with its own core, S."""
    each = [kind.current_a / (headroom_v + kind.current_a * core_ohm) for kind in digit]
    most = sum(kind.count * one for kind, one in zip(digit, each, strict=True))
    return most, sum(kind.in_one * one for kind, one in zip(digit, each, strict=True))


def _evenness(digit: Sequence[OnCable], core_ohm: float, headroom_v: float) -> float:
    most, fewest = _conductances(digit, core_ohm, headroom_v)
    return (1 + core_ohm * fewest) / (1 + core_ohm * most)


def _return_findings(
    wire: Wire, digit: Sequence[OnCable], core_ohm: float, length_m: float, headroom_v: float
) -> tuple[Finding, ...]:
    segments = sum(kind.count for kind in digit)
    return_a = sum(kind.count * kind.current_a for kind in digit)
    evenness = _evenness(digit, core_ohm, headroom_v)
    most, fewest = _conductances(digit, core_ohm, headroom_v)
    lost = f"the shared return loses {return_a * core_ohm:.2f} V with {segments} segments lit"
    gets = f'each then gets {math.floor(100 * evenness)} % of the current it gets in a "1"'
    thicker = gauge(wire, highest_ohm=limit_ohm(1.0, most=most, fewest=fewest), length_m=length_m)
    cure = f"Make the return {thicker}, give it several cores"
    if core_ohm * max(kind.current_a for kind in digit) > headroom_v:  # more in a segment's own wire
        cure = "Make the cable much shorter, or put the chips on the board"
    cure += more_volts(headroom_v, lambda volts: _evenness(digit, core_ohm, volts))
    return drop_findings(wire, evenness, "shared-return-drop", f"{lost}: {gets}.", cure)


def _drop_lines(
    wire: Wire, digit: Sequence[OnCable], per_m: float, length_m: float, strongest_a: float, return_a: float
) -> tuple[Line, ...]:
    run = run_inputs(ohm_per_m=per_m, length_m=length_m)
    own = (*run, Given("I", strongest_a, "A", "the strongest segment"))
    shared = (*run, Given("I", return_a, "A", "everything lit"))
    total = " + ".join(f"n{i}*I{i}" for i in range(1, len(digit) + 1))
    core_ohm = per_m * length_m
    return (
        Line("electrical.cable_drop", "drop in one segment wire", "Vw", strongest_a * core_ohm, "V", "I*r*l",
             own, wire.source),
        Line("electrical.return_current", "current in the shared return, all lit", "I", return_a, "A", total,
             _digit_inputs(digit), "arithmetic"),
        Line("electrical.return_drop", "drop in the shared return, all lit", "Vret", return_a * core_ohm, "V",
             "I*r*l", shared, wire.source),
    )  # fmt: skip


def _digit_inputs(digit: Sequence[OnCable]) -> tuple[Given, ...]:
    return tuple(
        given
        for i, kind in enumerate(digit, 1)
        for given in (
            Given(f"n{i}", kind.count, "", f"{kind.kind}, on the digit"),
            Given(f"I{i}", kind.current_a, "A", kind.kind),
        )
    )


def _evenness_line(
    wire: Wire, digit: Sequence[OnCable], per_m: float, length_m: float, headroom_v: float, evenness: float
) -> Line:
    lit = [(i, kind) for i, kind in enumerate(digit, 1) if kind.in_one]
    most = " + ".join(f"n{i}*I{i}/(Vr + I{i}*r*l)" for i in range(1, len(digit) + 1))
    fewest = " + ".join(f"m{i}*I{i}/(Vr + I{i}*r*l)" for i, _ in lit)
    compared = (
        *run_inputs(ohm_per_m=per_m, length_m=length_m),
        *_digit_inputs(digit),
        *(Given(f"m{i}", kind.in_one, "", f'{kind.kind}, in a "1"') for i, kind in lit),
        Given("Vr", headroom_v, "V", "across the resistor without cable"),
    )
    return Line(
        "electrical.evenness", 'current of a segment, full digit over a "1"', "q", evenness, "",
        f"(1 + r*l*({fewest}))/(1 + r*l*({most}))", compared, wire.source,
    )  # fmt: skip
