"""What the cable costs: drop in each segment wire and in the return that all segments share."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import Wire
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import plain_number
from segkit.working import Given, Line

#: Annealed copper at 20 °C, Ω·mm²/m, and its temperature coefficient, 1/K.
COPPER_OHM_MM2_PER_M, COPPER_PER_K = 0.017241, 0.00393
#: Caution when a full digit gets less than this share of the current of a "1".
EVEN_SHARE = 0.90
_INCH_MM = 25.4


def awg_diameter_mm(awg: int) -> float:
    """Diameter of an American wire gauge.

    Args:
        awg: gauge, -3 (4/0) to 40.

    Formula: ``d = 0.005 in * 92**((36 - n)/39)``. Source: astm-b258.

    Example:
        >>> round(awg_diameter_mm(24), 4)
        0.5106
    """
    return float(0.005 * _INCH_MM * 92 ** ((36 - awg) / 39))


def awg_resistance_ohm_per_m(awg: int) -> float:
    """Resistance of ideal solid copper of a gauge at 20 °C, Ω/m.

    Args:
        awg: gauge.

    Formula: ``0.017241/(pi/4*d**2)``. Source: astm-b258, iec-60028.

    Example:
        >>> round(awg_resistance_ohm_per_m(24) * 1000, 2)
        84.21
    """
    return COPPER_OHM_MM2_PER_M / (math.pi / 4 * awg_diameter_mm(awg) ** 2)


def warm_ohm(resistance_ohm: float, *, temperature_c: float) -> float:
    """Resistance of copper at a temperature, from that at 20 °C.

    Args:
        resistance_ohm: at 20 °C, Ω.
        temperature_c: of the conductor, °C.

    Formula: ``R*(1 + 0.00393*(T - 20))``. Source: iec-60028.

    Example:
        >>> round(warm_ohm(84.213, temperature_c=75), 2)
        102.42
    """
    return resistance_ohm * (1 + COPPER_PER_K * (temperature_c - 20))


@dataclass(frozen=True)
class CableRun:
    """A cable with one wire for each segment and one return for all of them.

    Attributes:
        wire: catalogue id.
        core_ohm: resistance of one core, Ω.
        segment_drop_v: drop in one segment wire, V.
        return_drop_v: drop in the shared return with everything lit, V.
        evenness: current of a segment in an "8" over that in a "1".
        lines, findings: working and verdicts.
    """

    wire: str
    core_ohm: float
    segment_drop_v: float
    return_drop_v: float
    evenness: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def cable_run(
    wire: Wire,
    *,
    length_m: float,
    segment_a: float,
    headroom_v: float,
    segments: int = 7,
    fewest: int = 2,
    temperature_c: float = 20.0,
) -> CableRun:
    """Drop and evenness of a digit at the end of a cable.

    Args:
        wire: cable; its cores are alike.
        length_m: one way, m, 0 or more.
        segment_a: current of one segment, A, above 0.
        headroom_v: voltage across the segment's resistor without the cable, V, above 0.
        segments: segments on the return at most.
        fewest: segments lit in the digit to compare with (2 for a "1").
        temperature_c: of the conductors, °C.

    Formula: ``Vreturn = n*I*r*l``; with n lit, each gets ``I(n) = Vr/(Vr/I + r*l*(1 + n))``, the LEDs'
    voltage taken as fixed, which overstates the difference a little.

    Raises:
        InputError: a number out of its range.

    Source: the ``source`` of the wire; arithmetic.
    """
    if length_m < 0 or segment_a <= 0 or headroom_v <= 0 or not 1 <= fewest <= segments:
        raise InputError(
            Problem(
                "length, current, headroom and counts do not describe a cable run.",
                value=f"{length_m} m, {segment_a} A, {headroom_v} V, {fewest} of {segments}",
                limit="length 0 m or more, current and headroom above 0, 1 <= fewest <= segments",
            )
        )
    per_m = warm_ohm(wire.resistance_ohm_per_m, temperature_c=temperature_c)
    core_ohm = per_m * length_m
    evenness = _evenness(core_ohm, headroom_v / segment_a, segments, fewest)
    return CableRun(
        wire=wire.id,
        core_ohm=core_ohm,
        segment_drop_v=segment_a * core_ohm,
        return_drop_v=segments * segment_a * core_ohm,
        evenness=evenness,
        lines=_lines(wire, per_m, length_m, segment_a, headroom_v, segments, fewest, evenness),
        findings=(
            *_return_findings(wire, core_ohm, length_m, segment_a, headroom_v, segments, fewest, evenness),
            *_ampacity_findings(wire, segments * segment_a),
        ),
    )


def _evenness(core_ohm: float, own_ohm: float, segments: int, fewest: int) -> float:
    return (own_ohm + core_ohm * (1 + fewest)) / (own_ohm + core_ohm * (1 + segments))


def _lines(
    wire: Wire, per_m: float, length_m: float, segment_a: float, headroom_v: float, segments: int,
    fewest: int, evenness: float,
) -> tuple[Line, ...]:  # fmt: skip
    run = (
        Given("r", per_m, "ohm/m", "one core"),
        Given("l", length_m, "m", "cable, one way"),
        Given("I", segment_a, "A", "one segment"),
    )
    shared = (*run, Given("n", segments, "", "segments on the return"))
    compared = (
        *shared,
        Given("m", fewest, "", "segments lit in the other digit"),
        Given("Vr", headroom_v, "V", "across the resistor without cable"),
    )
    wire_v = segment_a * per_m * length_m

    def line(name: str, title: str, value: float, unit: str, formula: str, inputs: tuple[Given, ...]) -> Line:
        return Line(f"electrical.{name}", title, name[0], value, unit, formula, inputs, wire.source)

    ratio = "(Vr/I + r*l*(1 + m))/(Vr/I + r*l*(1 + n))"
    return (
        line("cable_drop", "drop in one segment wire", wire_v, "V", "I*r*l", run),
        line("return_drop", "drop in the shared return, all lit", segments * wire_v, "V", "n*I*r*l", shared),
        line("evenness", 'current of a segment, full digit over a "1"', evenness, "", ratio, compared),
    )


def _return_findings(
    wire: Wire, core_ohm: float, length_m: float, segment_a: float, headroom_v: float, segments: int,
    fewest: int, evenness: float,
) -> tuple[Finding, ...]:  # fmt: skip
    if evenness >= EVEN_SHARE:
        return ()
    own_ohm = headroom_v / segment_a
    spread = EVEN_SHARE * (1 + segments) - (1 + fewest)  # own*(1 - e) = core*(e*(1 + n) - (1 + m))
    core_limit = own_ohm * (1 - EVEN_SHARE) / spread
    needed_v = headroom_v * core_ohm / core_limit
    awg = _gauge(core_limit / length_m)
    return (
        Finding(
            level="caution",
            code="shared-return-drop",
            subject=wire.name,
            text=f"the shared return loses {segments * segment_a * core_ohm:.2f} V with {segments} segments "
            f'lit: each then gets {evenness:.0%} of the current it gets in a "1".',
            value=round(evenness, 3),
            limit=EVEN_SHARE,
            source="common-practice",
            remedy=f"Make the return {awg}, give it several cores, or raise the supply so that "
            f"{plain_number(needed_v, 2)} V instead of {plain_number(headroom_v, 2)} V stand across it.",
        ),
    )


def _gauge(limit_ohm_per_m: float) -> str:
    for awg in range(28, 3, -2):
        if awg_resistance_ohm_per_m(awg) <= limit_ohm_per_m:
            return f"{awg} AWG ({math.pi / 4 * awg_diameter_mm(awg) ** 2:.2g} mm²) or thicker"
    return "much shorter"


def _ampacity_findings(wire: Wire, return_a: float) -> tuple[Finding, ...]:
    if not wire.max_current_a or return_a <= wire.max_current_a:
        return ()
    return (
        Finding(
            level="caution",
            code="return-too-thin",
            subject=wire.name,
            text=f"the shared return carries {return_a:.2f} A with everything lit; "
            f"{plain_number(wire.max_current_a)} A is what one core is planned with.",
            value=round(return_a, 3),
            limit=wire.max_current_a,
            unit="A",
            source=wire.source,
            remedy="Use several cores in parallel for the return, or a thicker one.",
        ),
    )
