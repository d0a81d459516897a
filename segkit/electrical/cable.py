"""Wire gauges, and what two supply wires cost: drop, evenness, and the remedies of any cable."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from segkit.catalog.part import Wire
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Annealed copper at 20 °C, Ω·mm²/m, and its temperature coefficient, 1/K.
COPPER_OHM_MM2_PER_M, COPPER_PER_K = 0.017241, 0.00393
#: Caution when a full digit gets less than this share of the current of a "1".
EVEN_SHARE = 0.90
#: More than this across a resistor is no remedy any more, V.
_MOST_HEADROOM_V = 24.0
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
class SupplyRun:
    """Two wires that feed the whole board, out and back.

    Attributes:
        wire: catalogue id.
        core_ohm: resistance of one wire, Ω.
        drop_v: drop in both wires with everything lit, V.
        evenness: current of a segment with everything lit over that with the fewest lit.
        lines, findings: working and verdicts.
    """

    wire: str
    core_ohm: float
    drop_v: float
    evenness: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def supply_run(
    wire: Wire,
    *,
    length_m: float,
    total_a: float,
    fewest_a: float,
    headroom_v: float,
    temperature_c: float = 20.0,
    steady: bool = False,
    or_else: str = "",
) -> SupplyRun:
    """Drop and evenness of a whole board at the end of two supply wires.

    Args:
        wire: cable; one of its cores, or a length of it, for each way.
        length_m: one way, m, 0 or more.
        total_a: current with everything lit, A, above 0.
        fewest_a: current with the fewest segments lit, A, above 0, not above ``total_a``.
        headroom_v: voltage across a segment's resistor without the cable, V, above 0.
        temperature_c: of the conductors, °C.
        steady: True behind a constant-current sink: it keeps the current while the headroom covers the drop.
        or_else: another remedy, to be named after the thicker wire.

    Formula: ``V = 2*I*r*l``; a segment's share of its current is ``Vr/(Vr + 2*I*r*l)``, the LEDs' voltage
    taken as fixed, which overstates the difference a little.

    Raises:
        InputError: a number out of its range.

    Source: the ``source`` of the wire; arithmetic.

    Example:
        >>> from segkit.catalog.reader import wire
        >>> run = supply_run(wire("cat5e"), length_m=10, total_a=0.4, fewest_a=0.1, headroom_v=3)
        >>> round(run.drop_v, 2), round(run.evenness, 2)
        (0.75, 0.85)
    """
    _refuse(length_m, headroom_v, fewest_a=fewest_a, total_a=total_a)
    per_m = warm_ohm(wire.resistance_ohm_per_m, temperature_c=temperature_c)
    core_ohm = per_m * length_m
    drop_v, few_v = 2 * core_ohm * total_a, 2 * core_ohm * fewest_a

    def evenness_at(left_v: float) -> float:
        return (left_v + few_v) / (left_v + drop_v)

    evenness = evenness_at(headroom_v)
    lines = _supply_lines(wire, per_m, length_m, total_a, fewest_a, headroom_v, drop_v, evenness)
    if steady:
        evenness, lines, findings = (
            1.0,
            lines[:1],
            headroom_taken_findings(wire, drop_v=drop_v, headroom_v=headroom_v),
        )
    else:
        highest_ohm = limit_ohm(headroom_v, most=2 * total_a, fewest=2 * fewest_a)
        findings = drop_findings(
            wire, evenness, "supply-drop",
            f"the two supply wires lose {drop_v:.2f} V with everything lit: each segment then gets "
            f'{math.floor(100 * evenness)} % of the current it gets with a lone "1".',
            f"Make both wires {gauge(wire, highest_ohm=highest_ohm, length_m=length_m)}"
            + more_volts(headroom_v, evenness_at)
            + or_else,
        )  # fmt: skip
    findings = (*findings, *ampacity_findings(wire, "a supply wire", total_a))
    return SupplyRun(wire.id, core_ohm, drop_v, evenness, lines, findings)


def _refuse(length_m: float, headroom_v: float, *, fewest_a: float, total_a: float) -> None:
    if length_m < 0 or headroom_v <= 0 or not 0 < fewest_a <= total_a:
        raise InputError(
            Problem(
                "length, headroom and currents do not describe a supply run.",
                value=f"{length_m} m, {headroom_v} V, {fewest_a} A of {total_a} A",
                limit="length 0 m or more, headroom above 0, 0 < fewest <= total",
            )
        )


def run_inputs(*, ohm_per_m: float, length_m: float) -> tuple[Given, Given]:
    """Inputs of a line about a cable: resistance of a core, Ω/m, and length one way, m."""
    return Given("r", ohm_per_m, "ohm/m", "one core"), Given("l", length_m, "m", "cable, one way")


def _supply_lines(
    wire: Wire, per_m: float, length_m: float, total_a: float, fewest_a: float, headroom_v: float,
    drop_v: float, evenness: float,
) -> tuple[Line, ...]:  # fmt: skip
    run = (*run_inputs(ohm_per_m=per_m, length_m=length_m), Given("I", total_a, "A", "everything lit"))
    compared = (
        *run,
        Given("I1", fewest_a, "A", 'a lone "1"'),
        Given("Vr", headroom_v, "V", "across the resistor without cable"),
    )
    return (
        Line("electrical.supply_drop", "drop in both supply wires, all lit", "Vw", drop_v, "V", "2*I*r*l",
             run, wire.source),
        Line("electrical.evenness", 'current of a segment, everything lit over a lone "1"', "q", evenness, "",
             "(Vr + 2*I1*r*l)/(Vr + 2*I*r*l)", compared, wire.source),
    )  # fmt: skip


def drop_findings(wire: Wire, evenness: float, code: str, text: str, remedy: str) -> tuple[Finding, ...]:
    """Whether a full digit gets enough of the current of a "1"; code, text and remedy are the caller's."""
    if evenness >= EVEN_SHARE:
        return ()
    return (
        Finding(
            level="caution",
            code=code,
            subject=wire.name,
            text=text,
            value=round(evenness, 3),
            limit=EVEN_SHARE,
            source="common-practice",
            remedy=f"{remedy}.",
        ),
    )


def more_volts(headroom_v: float, evenness: Callable[[float], float]) -> str:
    """What to add to a remedy where a higher supply would do: the voltage across the resistor then.

    Args:
        headroom_v: what there is, V.
        evenness: share at a voltage across the resistor, the currents kept; rises with it.
    """
    low_v, high_v = headroom_v, _MOST_HEADROOM_V
    if low_v >= high_v or evenness(high_v) < EVEN_SHARE:
        return ""
    for _ in range(40):
        middle_v = (low_v + high_v) / 2
        low_v, high_v = (low_v, middle_v) if evenness(middle_v) >= EVEN_SHARE else (middle_v, high_v)
    return (
        f", or raise the supply so that {plain_number(high_v, 3)} V instead of "
        f"{plain_number(headroom_v, 3)} V stand across the resistors"
    )


def headroom_taken_findings(wire: Wire, *, drop_v: float, headroom_v: float) -> tuple[Finding, ...]:
    """Whether the cable leaves a constant-current sink what it needs, in V."""
    if drop_v <= headroom_v:
        return ()
    return (
        Finding(
            level="caution",
            code="cable-takes-headroom",
            subject=wire.name,
            text=f"the cable loses {drop_v:.2f} V with everything lit and the strings leave "
            f"{headroom_v:.2f} V: the constant-current sink cannot hold its current.",
            value=round(drop_v, 3),
            limit=round(headroom_v, 3),
            unit="V",
            source="arithmetic",
            remedy="Use thicker or shorter wire, one LED less in series, or a higher supply.",
        ),
    )


def limit_ohm(fixed: float, *, most: float, fewest: float) -> float:
    """Highest shared resistance R at which ``(fixed + fewest*R)/(fixed + most*R)`` is ``EVEN_SHARE``."""
    spread = EVEN_SHARE * most - fewest
    return fixed * (1 - EVEN_SHARE) / spread if spread > 0 else math.inf


def gauge(wire: Wire, *, highest_ohm: float, length_m: float) -> str:
    """The first even gauge thicker than the wire there is that keeps the limit."""
    for awg in range(28, 3, -2):
        area_mm2 = math.pi / 4 * awg_diameter_mm(awg) ** 2
        if area_mm2 > wire.area_mm2 * 1.05 and awg_resistance_ohm_per_m(awg) * length_m <= highest_ohm:
            return f"{awg} AWG ({area_mm2:.2g} mm²) or thicker"
    return "much shorter"


def ampacity_findings(wire: Wire, what: str, current_a: float) -> tuple[Finding, ...]:
    """Whether one core carries no more than it is planned with; ``current_a`` in A."""
    if not wire.max_current_a or current_a <= wire.max_current_a:
        return ()
    return (
        Finding(
            level="caution",
            code="return-too-thin",
            subject=wire.name,
            text=f"{what} carries {engineering(current_a, 'A')} with everything lit; "
            f"{engineering(wire.max_current_a, 'A')} is what one core is planned with.",
            value=round(current_a, 3),
            limit=wire.max_current_a,
            unit="A",
            source=wire.source,
            remedy="Use several cores in parallel, or a thicker one.",
        ),
    )
