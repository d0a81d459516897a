"""Verdicts on a resistor that the builder already has: the current it gives, and its heat."""

from __future__ import annotations

import math
from dataclasses import replace

from segkit.catalog.part import Led
from segkit.electrical.corners import Conditions, curve_ohm
from segkit.electrical.preferred import nearest, widest_step
from segkit.electrical.resistor import heat_findings
from segkit.electrical.string import StringCircuit
from segkit.findings import Finding
from segkit.units import engineering, plain_number

#: What lies in the drawer of most builders, W.
USUAL_W = 0.25


def given_findings(
    string: StringCircuit, led: Led, conditions: Conditions, *, asked_a: float, subject: str, series: str
) -> tuple[Finding, ...]:
    """What a given resistor does to the current asked for, and whether a usual part stands its heat.

    Args:
        string: made with a resistor that was given.
        led, conditions: what it was made from.
        asked_a: current asked for, A, above 0.
        subject: what the findings are about.
        series: to name the value from that would do.

    Returns:
        a note where the current is further from the one asked for than a value of the series can be; a
        caution where the worst corner heats a 1/4 W part beyond half its rating.

    Source: design-choice, resistor-half-rating.
    """
    if string.current_a <= 0:
        return ()
    found = heat_findings(
        subject=subject, heat_w=string.resistor_w, rating_w=USUAL_W, source="resistor-half-rating"
    )
    hot = tuple(
        replace(one, level="caution") for one in found
    )  # the parts list names a rating that stands it
    if abs(math.log(string.current_a / asked_a)) <= math.log(widest_step(series)) / 2:
        return hot
    wanted_ohm = curve_ohm(led, conditions, leds=string.leds, current_a=asked_a)
    remedy = "No resistor would give it: put fewer LEDs in series, or take a higher supply."
    if wanted_ohm > 0:
        would = plain_number(nearest(wanted_ohm, series))
        remedy = f"{would} ohm ({series}) would do; or be content with the light of this current."
    return (
        Finding(
            level="note",
            code="given-resistor",
            subject=subject,
            text=f"{plain_number(string.chosen_ohm)} ohm, as given, lets "
            f"{engineering(string.current_a, 'A')} through; {engineering(asked_a, 'A')} are aimed at.",
            value=round(1000 * string.current_a, 3),
            limit=round(1000 * asked_a, 3),
            unit="mA",
            source="design-choice",
            remedy=remedy,
        ),
        *hot,
    )
