"""LEDs in series and parallel, resistor, headroom and worst case for one kind of segment."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.findings import Finding
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
