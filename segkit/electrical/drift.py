"""How far kinds of segment that are equally bright at the named supply drift apart at its ends."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from segkit.catalog.part import Led, Sink
from segkit.electrical.driver import NO_DROP, Drop, sink_drop
from segkit.electrical.equal_light import Lit
from segkit.electrical.led_curve import curve_of, string_current_a
from segkit.electrical.string import SegmentCircuit, StringCircuit
from segkit.electrical.string_verdicts import swing_findings
from segkit.findings import Finding
from segkit.units import plain_number
from segkit.working import Given, Line

#: Brightest over darkest kind above which the difference shows.
SHOWS = 1.3


@dataclass(frozen=True)
class Drift:
    """Light of the kinds at the ends of the supply.

    Attributes:
        low, high: of each kind at the lowest and the highest supply, over its own at the named one; kinds
            without light left out.
        ratio_low, ratio_high: highest over lowest of these; ``inf`` where one is dark.
        lines, findings: working and verdicts.
    """

    low: Mapping[str, float]
    high: Mapping[str, float]
    ratio_low: float
    ratio_high: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def drift(
    kinds: Sequence[Lit],
    circuits: Mapping[str, SegmentCircuit],
    *,
    led: Led,
    sink: Sink,
    supply_v: float,
    supply_min_v: float,
    supply_max_v: float,
    common: Drop = NO_DROP,
) -> Drift:
    """Hold kinds against each other at the ends of the supply, all parts typical.

    Args:
        kinds: as the optics lit them, those to be compared.
        circuits: what lights each of them, with resistors.
        led, sink: catalogue parts.
        supply_v, supply_min_v, supply_max_v: nominal, lowest and highest supply, V.
        common: lost between the supply and the segments.

    Returns:
        strings with less voltage left for the resistor fade sooner: their kind falls behind at the lowest
        supply and runs ahead at the highest.

    Formula: ``drift = max(I/I0)/min(I/I0)`` over the kinds, both currents solved on the LED's curve.

    Source: arithmetic; common-practice (the difference that shows).

    Example:
        >>> from segkit.catalog.reader import led, sink
        >>> from segkit.electrical.equal_light import equal_light
        >>> parts = {"led": led("red-5mm-diffused"), "sink": sink("darlington-sink-8"), "supply_v": 12}
        >>> ends = {"supply_min_v": 11, "supply_max_v": 13.8}
        >>> kinds = (Lit("upright", 4, 100.0), Lit("colon", 2, 100.0))
        >>> made = equal_light(kinds, current_a=0.015, in_series=4, **parts, **ends)
        >>> apart = drift(kinds, {one.kind: one for one in made.circuits}, **parts, **ends)
        >>> apart.low["upright"] < apart.low["colon"]
        True
    """

    def flows_a(circuit: SegmentCircuit, string: StringCircuit, volt: float) -> float:
        if not string.chosen_ohm:
            return 0.0
        drop_v = common.typical_v + sink_drop(sink, current_a=circuit.current_a).typical_v
        return string_current_a(
            curve_of(led), leds=string.leds, drive_v=volt - drop_v, resistance_ohm=string.chosen_ohm
        )

    def light(kind: Lit, volt: float) -> float:
        strings = circuits[kind.kind].strings
        total_a = sum(string.leds * flows_a(circuits[kind.kind], string, volt) for string in strings)
        return kind.luminance * total_a / sum(string.leds for string in strings)

    def swing(kind: str) -> tuple[Finding, ...]:
        string = circuits[kind].strings[0]
        low_a, high_a = (flows_a(circuits[kind], string, volt) for volt in (supply_min_v, supply_max_v))
        return swing_findings(
            subject=f"{kind}: string of {string.leds}", leds=string.leds, low_a=low_a, high_a=high_a,
            supply_min_v=supply_min_v, supply_max_v=supply_max_v,
        )  # fmt: skip

    named = {kind.kind: light(kind, supply_v) for kind in kinds}
    low, high = (
        {kind.kind: light(kind, volt) / named[kind.kind] for kind in kinds if named[kind.kind] > 0}
        for volt in (supply_min_v, supply_max_v)
    )
    return Drift(
        low=low,
        high=high,
        ratio_low=_ratio(low),
        ratio_high=_ratio(high),
        lines=(*_line("lowest", supply_min_v, low), *_line("highest", supply_max_v, high)),
        findings=(
            *_findings(((supply_min_v, low), (supply_max_v, high))),
            *(swing(_widest(low, high)) if low else ()),
        ),
    )


def _widest(low: Mapping[str, float], high: Mapping[str, float]) -> str:
    """The kind whose light changes most between the ends; one that goes dark is told of elsewhere."""
    return max(low, key=lambda kind: high[kind] / low[kind] if low[kind] > 0 else 0.0)


def _ratio(light: Mapping[str, float]) -> float:
    if len(light) < 2:
        return 1.0
    least = min(light.values())
    return max(light.values()) / least if least > 0 else math.inf


def _line(end: str, volt: float, light: Mapping[str, float]) -> tuple[Line, ...]:
    ratio = _ratio(light)
    if len(light) < 2 or math.isinf(ratio):
        return ()
    inputs = (
        Given("Lmax", max(light.values()), "", "kind that keeps most of its light, share of it"),
        Given("Lmin", min(light.values()), "", "kind that keeps least"),
    )
    title = f"how far the kinds have drifted apart at {plain_number(volt, 4)} V"
    return (Line(f"electrical.equal_ratio_{end}", title, "q", ratio, "", "Lmax/Lmin", inputs, "arithmetic"),)


def _findings(ends: Sequence[tuple[float, Mapping[str, float]]]) -> tuple[Finding, ...]:
    """One caution for the end that is worse; what is unequal at the named supply is told elsewhere."""
    volt, light = max(ends, key=lambda end: _ratio(end[1]))
    ratio = _ratio(light)
    if ratio <= SHOWS:
        return ()
    bright, dark = max(light, key=light.__getitem__), min(light, key=light.__getitem__)
    times = "so far that one goes dark" if math.isinf(ratio) else f"{ratio:.2f} times"
    return (
        Finding(
            level="caution",
            code="kinds-drift-apart",
            subject=f"{bright} and {dark}",
            text=f"set against each other at the named supply, they drift apart {times} at "
            f"{plain_number(volt, 4)} V: their strings leave different voltages for the resistor.",
            value=round(ratio, 3) if math.isfinite(ratio) else "dark",
            limit=SHOWS,
            unit="times",
            source="common-practice",
            remedy="Put as many LEDs in a string in both (in_series), or take a supply that holds its "
            "voltage.",
        ),
    )
