"""A cable with one core for each segment of a digit and a return that all of them share."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

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
from segkit.electrical.wire_size import wire_of
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
class Common:
    """What brings back the current of all segments.

    Attributes:
        cores: cores of the cable side by side; 0 where a wire of its own does it.
        wire: that wire; None for cores of the cable.
    """

    cores: int = 1
    wire: Wire | None = None

    def as_wire(self, cable: Wire) -> Wire:
        """The common as one conductor: its resistance and the current to plan it with."""
        if self.wire is not None:
            return self.wire
        return replace(
            cable,
            resistance_ohm_per_m=cable.resistance_ohm_per_m / self.cores,
            max_current_a=cable.max_current_a * self.cores,
        )


ONE_CORE = Common()
_CORES = re.compile(r"(\d{1,2})\s*cores?")


def parse_return(text: str) -> Common:
    """The common of a segment cable.

    Args:
        text: ``1 core``, ``2 cores``, or a wire of its own as ``wire_of`` reads it.

    Raises:
        InputError: neither, or no core at all.

    Source: arithmetic.

    Example:
        >>> parse_return("2 cores"), parse_return("1.5 mm2").wire.area_mm2
        (Common(cores=2, wire=None), 1.5)
    """
    if match := _CORES.fullmatch(text.strip().lower()):
        if not 1 <= int(match[1]) <= 20:
            limit = "1 core to 20 cores"
            raise InputError(Problem("no common of a cable.", value=f'"{text}"', limit=limit))
        return Common(int(match[1]))
    if text.strip().isdecimal():
        remedy = 'Write it as in "2 cores" or "1 mm2".'
        raise InputError(Problem("no common of a cable.", value=f'"{text}"', remedy=remedy))
    return Common(0, wire_of(text))


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
    common: Common = ONE_CORE,
    temperature_c: float = 20.0,
    steady: bool = False,
) -> CableRun:
    """Drop and evenness of a digit at the end of a cable.

    Args:
        wire: cable; its cores are alike.
        digit: what is on the cable, by kind.
        length_m: one way, m, 0 or more.
        headroom_v: voltage across a segment's resistor without the cable, V, above 0.
        common: what brings the current of all segments back.
        temperature_c: of the conductors, °C.
        steady: True behind a constant-current sink: it keeps the current while the headroom covers the drop.

    Formula: ``Vreturn = (n1*I1 + n2*I2 + ...)*rc*l``; with segments of conductance ``Ik/(Vr + Ik*r*l)`` lit,
    adding up to G, each gets a share ``1/(1 + rc*l*G)`` of what it gets alone on a return without resistance.
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
    shared = common.as_wire(wire)
    run = _Run(
        wire, shared, tuple(digit), length_m, headroom_v, per_m,
        warm_ohm(shared.resistance_ohm_per_m, temperature_c=temperature_c),
    )  # fmt: skip
    return_v = run.return_a * run.common_ohm
    drop_v = run.strongest_a * run.core_ohm + return_v
    lines = list(_drop_lines(run))
    if steady:
        findings = headroom_taken_findings(wire, drop_v=drop_v, headroom_v=headroom_v)
    else:
        lines.append(_evenness_line(run))
        findings = _return_findings(run)
    findings = (
        *too_few_cores_findings(wire, sum(kind.count for kind in digit), returns=common.cores),
        *findings,
        *ampacity_findings(shared, "the shared return", run.return_a),
    )
    return CableRun(
        wire.id, run.core_ohm, run.strongest_a * run.core_ohm, run.return_a, return_v,
        1.0 if steady else run.evenness(headroom_v), tuple(lines), findings,
    )  # fmt: skip


@dataclass(frozen=True)
class _Run:
    """A digit on its cable: what all of its numbers come from."""

    wire: Wire
    shared: Wire
    digit: tuple[OnCable, ...]
    length_m: float
    headroom_v: float
    per_m: float
    common_per_m: float

    @property
    def core_ohm(self) -> float:
        return self.per_m * self.length_m

    @property
    def common_ohm(self) -> float:
        return self.common_per_m * self.length_m

    @property
    def strongest_a(self) -> float:
        return max(kind.current_a for kind in self.digit)

    @property
    def return_a(self) -> float:
        return sum(kind.count * kind.current_a for kind in self.digit)

    def conductances(self, headroom_v: float) -> tuple[float, float]:
        """Of everything lit and of a "1", each segment with its own core, S."""
        each = [kind.current_a / (headroom_v + kind.current_a * self.core_ohm) for kind in self.digit]
        most = sum(kind.count * one for kind, one in zip(self.digit, each, strict=True))
        return most, sum(kind.in_one * one for kind, one in zip(self.digit, each, strict=True))

    def evenness(self, headroom_v: float) -> float:
        most, fewest = self.conductances(headroom_v)
        return (1 + self.common_ohm * fewest) / (1 + self.common_ohm * most)


def too_few_cores_findings(wire: Wire, lamps: int, *, returns: int = 1) -> tuple[Finding, ...]:
    """Whether a cable has a core for each segment of a digit and one for their common.

    Args:
        wire: the cable.
        lamps: segments, points and colons of the digit that has most.
        returns: cores that the common takes; 0 where it has a wire of its own.
    """
    needed = lamps + returns
    if wire.cores >= needed:
        return ()
    common = {0: "", 1: " and one for the common"}.get(returns, f" and {returns} for the common")
    cores = "1 core" if wire.cores == 1 else f"{wire.cores} cores"
    return (
        Finding(
            level="stop",
            code="too-few-cores",
            subject=wire.name,
            text=f"a digit needs {needed} cores, one for each of {lamps} segments (points and colons "
            f"counted){common}; the cable has {cores}.",
            value=float(wire.cores),
            limit=float(needed),
            unit="cores",
            source="arithmetic",
            remedy=f"Take a cable of {needed} or more cores, or put the chips on the board and feed it "
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


def _return_findings(run: _Run) -> tuple[Finding, ...]:
    segments = sum(kind.count for kind in run.digit)
    evenness = run.evenness(run.headroom_v)
    most, fewest = run.conductances(run.headroom_v)
    lost = f"the shared return loses {run.return_a * run.common_ohm:.2f} V with {segments} segments lit"
    gets = f'each then gets {math.floor(100 * evenness)} % of the current it gets in a "1"'
    thicker = gauge(run.shared, highest_ohm=limit_ohm(1.0, most=most, fewest=fewest), length_m=run.length_m)
    cure = f"Make the return {thicker}, give it several cores"
    if run.core_ohm * run.strongest_a > run.headroom_v:  # more in a segment's own wire
        cure = "Make the cable much shorter, or put the chips on the board"
    cure += more_volts(run.headroom_v, run.evenness)
    return drop_findings(run.wire, evenness, "shared-return-drop", f"{lost}: {gets}.", cure)


def _drop_lines(run: _Run) -> tuple[Line, ...]:
    own = (
        *run_inputs(ohm_per_m=run.per_m, length_m=run.length_m),
        Given("I", run.strongest_a, "A", "the strongest segment"),
    )
    shared = (
        Given("rc", run.common_per_m, "ohm/m", "the common"),
        Given("l", run.length_m, "m", "cable, one way"),
        Given("I", run.return_a, "A", "everything lit"),
    )
    total = " + ".join(f"n{i}*I{i}" for i in range(1, len(run.digit) + 1))
    return (
        Line("electrical.cable_drop", "drop in one segment wire", "Vw", run.strongest_a * run.core_ohm, "V",
             "I*r*l", own, run.wire.source),
        Line("electrical.return_current", "current in the shared return, all lit", "I", run.return_a, "A",
             total, _digit_inputs(run.digit), "arithmetic"),
        Line("electrical.return_drop", "drop in the shared return, all lit", "Vret",
             run.return_a * run.common_ohm, "V", "I*rc*l", shared, run.shared.source),
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


def _evenness_line(run: _Run) -> Line:
    lit = [(i, kind) for i, kind in enumerate(run.digit, 1) if kind.in_one]
    most = " + ".join(f"n{i}*I{i}/(Vr + I{i}*r*l)" for i in range(1, len(run.digit) + 1))
    fewest = " + ".join(f"m{i}*I{i}/(Vr + I{i}*r*l)" for i, _ in lit)
    compared = (
        *run_inputs(ohm_per_m=run.per_m, length_m=run.length_m),
        Given("rc", run.common_per_m, "ohm/m", "the common"),
        *_digit_inputs(run.digit),
        *(Given(f"m{i}", kind.in_one, "", f'{kind.kind}, in a "1"') for i, kind in lit),
        Given("Vr", run.headroom_v, "V", "across the resistor without cable"),
    )
    return Line(
        "electrical.evenness", 'current of a segment, full digit over a "1"', "q",
        run.evenness(run.headroom_v), "", f"(1 + rc*l*({fewest}))/(1 + rc*l*({most}))", compared,
        run.wire.source,
    )  # fmt: skip
