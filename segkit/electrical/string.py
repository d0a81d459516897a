"""LEDs in series and parallel, resistor, headroom and worst case for one kind of segment."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import Led
from segkit.electrical.corners import (
    Conditions,
    curve_ohm,
    highest_a,
    limit_ohm,
    lowest_a,
    nominal_a,
    simple_a,
)
from segkit.electrical.preferred import nearest, next_up
from segkit.electrical.resistor import heat_w, rating_w
from segkit.electrical.string_verdicts import (
    Longest,
    dark_findings,
    headroom_findings,
    limit_findings,
    longest_strings,
    raised_finding,
)
from segkit.electrical.string_working import string_lines
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import plain_number
from segkit.working import Line


@dataclass(frozen=True)
class StringCircuit:
    """One series string: its LEDs, its resistor and what flows.

    Attributes:
        leds: LEDs in series.
        exact_ohm: resistor by the shop formula, before rounding.
        chosen_ohm: value to buy.
        series: name of the preferred-number series, such as ``E24``.
        current_a: with typical parts, by the LED's own curve.
        simple_current_a: with typical parts, by the shop formula.
        lowest_a, highest_a: at the corners of supply, forward voltage, resistor and drop.
        resistor_w: heat in the resistor at the highest corner.
        rating_w: rating to buy: at least twice the heat, next usual size.
        headroom_v: voltage left across the resistor with typical parts.
        aimed: True if the value is the nearest one on the LED's curve, not the next one up by the formula.
    """

    leds: int
    exact_ohm: float
    chosen_ohm: float
    series: str
    current_a: float
    simple_current_a: float
    lowest_a: float
    highest_a: float
    resistor_w: float
    rating_w: float
    headroom_v: float
    aimed: bool = False


@dataclass(frozen=True)
class SegmentCircuit:
    """What lights one segment of a kind.

    Attributes:
        kind: ``Segment.kind``.
        led: catalogue id.
        sink: catalogue id of the sink.
        strings: the series strings in parallel, longest first.
        current_a, highest_a: of the whole segment, typical and worst corner.
        lines, findings: working and verdicts.
    """

    kind: str
    led: str
    sink: str
    strings: tuple[StringCircuit, ...]
    current_a: float
    highest_a: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


#: A higher resistor is taken for the LED's sake as long as this share of the asked current stays.
LEAST_SHARE = 0.7


def string_circuit(
    led: Led,
    conditions: Conditions,
    *,
    leds: int,
    current_a: float,
    series: str = "E24",
    given_ohm: float | None = None,
    aimed: bool = False,
) -> StringCircuit:
    """One string: the resistor, what flows, and what it does at the corners.

    Args:
        led: the LED; a slope of 0 turns the curve into the shop formula.
        conditions: supply, drop, tolerance and temperature with their ranges.
        leds: LEDs in series, 1 or more.
        current_a: current asked for, A, above 0.
        series: preferred-number series to buy from.
        given_ohm: judge this resistor instead of choosing one, Ω.
        aimed: take the value nearest to the current asked for, solved on the curve, instead of the next one
            up by the shop formula; for segments that are to be as bright as others.

    Returns:
        the string. The value chosen is the next one up; a higher one if only that keeps the worst corner
        within the LED's limit and at least 70 % of the asked current stays. Where the LEDs and the drop take
        the whole supply, resistor and currents are 0.

    Formula: ``R = (V - Vd - n*Vf)/I``; currents on the LED's curve.

    Raises:
        InputError: a count or a current that is not positive; an unknown series.

    Source: iec-60063, resistor-half-rating.
    """
    refuse(leds=leds, current_a=current_a)
    headroom_v = conditions.nominal_drive_v() - leds * led.vf_v
    exact_ohm = headroom_v / current_a
    if given_ohm is not None:
        chosen_ohm, series, aimed = given_ohm, "", False
    elif aimed:
        chosen_ohm = _aim_ohm(led, conditions, leds, current_a, series)
    else:
        chosen_ohm = _choose_ohm(led, conditions, leds, current_a, exact_ohm, series)
    if not chosen_ohm:
        return StringCircuit(leds, exact_ohm, 0.0, series, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, headroom_v, aimed)
    highest = highest_a(led, conditions, leds=leds, resistance_ohm=chosen_ohm)
    heat = heat_w(current_a=highest, resistance_ohm=chosen_ohm * (1 - conditions.tolerance))
    return StringCircuit(
        leds=leds,
        exact_ohm=exact_ohm,
        chosen_ohm=chosen_ohm,
        series=series,
        current_a=nominal_a(led, conditions, leds=leds, resistance_ohm=chosen_ohm),
        simple_current_a=simple_a(led, conditions, leds=leds, resistance_ohm=chosen_ohm),
        lowest_a=lowest_a(led, conditions, leds=leds, resistance_ohm=chosen_ohm),
        highest_a=highest,
        resistor_w=heat,
        rating_w=rating_w(heat),
        headroom_v=headroom_v,
        aimed=aimed,
    )


def refuse(*, leds: int, current_a: float) -> None:
    """Raise InputError with all faults of a count of LEDs and a current."""
    problems = []
    if leds < 1:
        problems.append(Problem("a string needs LEDs.", value=str(leds), limit="1 or more"))
    if not (math.isfinite(current_a) and current_a > 0):
        problems.append(Problem("the current must be above 0.", value=f"{current_a} A", limit="above 0 A"))
    if problems:
        raise InputError(problems)


def _choose_ohm(
    led: Led, conditions: Conditions, leds: int, current_a: float, exact_ohm: float, series: str
) -> float:
    if exact_ohm <= 0:
        return 0.0
    plain_ohm = next_up(exact_ohm, series)
    safe_ohm = next_up(max(exact_ohm, limit_ohm(led, conditions, leds=leds)), series)
    if nominal_a(led, conditions, leds=leds, resistance_ohm=safe_ohm) >= LEAST_SHARE * current_a:
        return safe_ohm
    return plain_ohm


def _aim_ohm(led: Led, conditions: Conditions, leds: int, current_a: float, series: str) -> float:
    wanted_ohm = curve_ohm(led, conditions, leds=leds, current_a=current_a)
    if wanted_ohm <= 0:
        return 0.0
    nearest_ohm, least_ohm = nearest(wanted_ohm, series), limit_ohm(led, conditions, leds=leds)
    return nearest_ohm if nearest_ohm >= least_ohm else next_up(least_ohm, series)


def string_findings(
    string: StringCircuit,
    led: Led,
    conditions: Conditions,
    *,
    asked_a: float,
    subject: str,
    longest: Longest | None = None,
    series: str = "E24",
) -> tuple[Finding, ...]:
    """Verdicts on one string.

    Args:
        string: result of ``string_circuit``.
        led, conditions: what it was made from.
        asked_a: current asked for, A.
        subject: what the findings are about.
        longest: what a remedy names; worked out under the same conditions if left out.
        series: to name values from where the string's own resistor was given.
    """
    longest = longest or longest_strings(led, lambda _: conditions, most=string.leds)
    typical_v, worst_v = led.vf_v * string.leds, led.vf_max_v * string.leds
    found = list(
        headroom_findings(
            subject=subject,
            leds=string.leds,
            supply_v=conditions.supply_v,
            headroom_v=string.headroom_v,
            longest=longest,
        )
    )
    if not any(finding.code == "no-headroom" for finding in found):
        found += dark_findings(
            subject=subject,
            leds=string.leds,
            supply_min_v=conditions.supply_min_v,
            typical_left_v=conditions.lowest_drive_v() - typical_v,
            worst_left_v=conditions.lowest_drive_v() - worst_v,
            longest=longest,
        )
    safe_ohm = limit_ohm(led, conditions, leds=string.leds)
    safe = next_up(safe_ohm, string.series or series) if safe_ohm > 0 else string.chosen_ohm
    found += limit_findings(
        subject=subject,
        leds=string.leds,
        highest_a=max(string.highest_a, asked_a if string.series else 0.0),
        limit_a=led.max_current_a,
        supply_max_v=conditions.supply_max_v,
        remedy=f"use at least {plain_number(safe)} ohm and accept less light",
        source=led.source,
    )
    if _raised(string):
        plain_ohm = next_up(string.exact_ohm, string.series)
        found.append(
            raised_finding(
                subject=subject, plain_ohm=plain_ohm, chosen_ohm=string.chosen_ohm, limit_a=led.max_current_a
            )
        )
    return tuple(found)


def _raised(string: StringCircuit) -> bool:
    if string.aimed:
        return False
    fits = bool(string.series) and string.exact_ohm > 0 and string.chosen_ohm > 0
    return fits and string.chosen_ohm > next_up(string.exact_ohm, string.series) * (1 + 1e-9)


def circuit_lines(
    string: StringCircuit, led: Led, conditions: Conditions, *, asked_a: float, suffix: str
) -> tuple[Line, ...]:
    """Working of one string that ``string_circuit`` made; see ``string_lines``."""
    return string_lines(
        led,
        conditions,
        suffix=suffix,
        leds=string.leds,
        asked_a=asked_a,
        exact_ohm=string.exact_ohm,
        chosen_ohm=string.chosen_ohm,
        series=string.series,
        raised=_raised(string),
        aimed=string.aimed,
        current_a=string.current_a,
        highest_a=string.highest_a,
        resistor_w=string.resistor_w,
        rating_w=string.rating_w,
    )
