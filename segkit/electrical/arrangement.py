"""How the LEDs of a segment are divided into strings, and the circuit of one kind of segment."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from segkit.catalog.part import Led, Sink
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import (
    NO_DROP,
    STEADY_SKEW,
    Drop,
    drop_line,
    package_load,
    set_resistor_line,
    sink_drop,
)
from segkit.electrical.given_resistor import given_findings
from segkit.electrical.led_curve import ROOM_C
from segkit.electrical.preferred import widest_step
from segkit.electrical.string import (
    SegmentCircuit,
    StringCircuit,
    circuit_lines,
    refuse,
    string_circuit,
    string_findings,
)
from segkit.electrical.string_verdicts import (
    Longest,
    dark_findings,
    headroom_findings,
    limit_findings,
    longest_strings,
)
from segkit.electrical.string_working import kind_key, segment_lines
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.working import Line

#: Cost of an arrangement: the logarithm of power taken over power in the LEDs; these weigh the rest.
_SPREAD_WEIGHT, _RESISTOR_COST, _UNEQUAL_COST = 0.5, 0.02, 0.35
_WORST_SPREAD, _LEAST_USEFUL, _MISS_WEIGHT = 10.0, 0.001, 1.0


@dataclass(frozen=True)
class Arrangement:
    """One way to divide the LEDs of a segment into strings.

    Attributes:
        counts: LEDs in each string, longest first; they add up to the LEDs of the segment.
        strings: the string of each count, in the same order.
        current_a, highest_a: of all strings together, A.
        spread: highest over lowest current of any LED, over all corners; ``inf`` if one may go dark.
        waste: share of the power that does not go into LEDs.
        reason: why it stands where it stands, one sentence.
        findings: verdicts of its strings.
        missed: furthest that a string stays from the current aimed at, as a logarithm, beyond half a step of
            the series; 0 where none was aimed at.
    """

    counts: tuple[int, ...]
    strings: tuple[StringCircuit, ...]
    current_a: float
    highest_a: float
    spread: float
    waste: float
    reason: str
    findings: tuple[Finding, ...]
    missed: float = 0.0

    @property
    def resistors(self) -> int:
        """Resistors to buy and solder."""
        return sum(1 for string in self.strings if string.chosen_ohm)

    @property
    def rank(self) -> tuple[int, bool, float]:
        """Sort key: stops, cautions, then cost (power, spread, resistors, unequal strings, a miss)."""
        stop_count = sum(1 for finding in self.findings if finding.level == "stop")
        caution = any(finding.level == "caution" for finding in self.findings)
        cost = -math.log(max(_LEAST_USEFUL, 1 - self.waste)) + _SPREAD_WEIGHT * math.log(
            min(self.spread, _WORST_SPREAD)
        )
        cost += _RESISTOR_COST * len(self.counts) + _UNEQUAL_COST * (len(set(self.counts)) > 1)
        return stop_count, caution, cost + _MISS_WEIGHT * self.missed


def split_counts(leds: int, strings: int) -> tuple[int, ...]:
    """LEDs of each string when ``leds`` are divided as evenly as possible, longest first.

    Example:
        >>> split_counts(8, 3), split_counts(8, 4)
        ((3, 3, 2), (2, 2, 2, 2))
    """
    short, longer = divmod(leds, strings)
    return (short + 1,) * longer + (short,) * (strings - longer)


def arrangements(
    leds: int,
    *,
    led: Led,
    sink: Sink,
    supply_v: float,
    supply_min_v: float,
    supply_max_v: float,
    current_a: float,
    series: str = "E24",
    tolerance: float = 0.05,
    coldest_c: float = ROOM_C,
    hottest_c: float = ROOM_C,
    aimed: bool = False,
    only: int | None = None,
    given_ohm: float | None = None,
    common: Drop = NO_DROP,
) -> tuple[Arrangement, ...]:
    """Every even division of a number of LEDs into strings, the best first.

    Args:
        leds: LEDs of one segment, 1 or more.
        led, sink: catalogue parts.
        supply_v, supply_min_v, supply_max_v: nominal, lowest and highest supply, V.
        current_a: current asked for in each LED, A.
        series: preferred-number series.
        tolerance: of the resistors, as a share.
        coldest_c, hottest_c: of the LEDs, °C.
        aimed: see ``string_circuit``.
        only: judge this number of strings alone.
        given_ohm: resistor that each string has, Ω, instead of one chosen.
        common: lost between the supply and the segments.

    Returns:
        one arrangement for each number of strings, 1 to ``leds``. Fewest stops first, then those without
        caution, then the lowest cost: ln(1/(1 - waste)) + 0.5·ln(spread) + 0.02 a resistor + 0.35 where
        strings are unequal + |ln(I/Iaimed)| beyond half a step where one is aimed at.

    Raises:
        InputError: a number out of its range.

    Source: common-practice (the weights), and those of ``string_circuit``.
    """
    refuse(leds=leds, current_a=current_a)

    def conditions_of(strings: int) -> Conditions:
        drop = sink_drop(sink, current_a=strings * current_a)
        return Conditions(supply_v, supply_min_v, supply_max_v, drop, tolerance, coldest_c, hottest_c, common)

    longest = longest_strings(
        led, lambda count: conditions_of(math.ceil(leds / count)), most=leds,
        resistor=sink.type != "constant-current",
    )  # fmt: skip
    found = []
    for strings in range(1, leds + 1) if only is None else (only,):
        counts = split_counts(leds, strings)
        found.append(
            _arrangement(
                counts, led, sink, conditions_of(strings), current_a, series, longest, aimed=aimed,
                given_ohm=given_ohm,
            )
        )  # fmt: skip
    return tuple(sorted(found, key=lambda arrangement: arrangement.rank))


def _arrangement(
    counts: tuple[int, ...], led: Led, sink: Sink, conditions: Conditions, current_a: float, series: str,
    longest: Longest, *, aimed: bool = False, given_ohm: float | None = None,
) -> Arrangement:  # fmt: skip
    steady = sink.type == "constant-current"
    by_count: dict[int, StringCircuit] = {}
    findings: list[Finding] = []
    for leds in dict.fromkeys(counts):
        subject = f"string of {leds}"
        if steady:
            by_count[leds] = _steady_string(led, conditions, leds=leds, current_a=current_a)
            findings += _steady_findings(by_count[leds], led, conditions, subject, longest)
        else:
            by_count[leds] = string_circuit(
                led, conditions, leds=leds, current_a=current_a, series=series, aimed=aimed,
                given_ohm=given_ohm,
            )  # fmt: skip
            findings += string_findings(
                by_count[leds], led, conditions, asked_a=current_a, subject=subject, longest=longest,
                series=series,
            )  # fmt: skip
            if given_ohm is not None:
                findings += given_findings(
                    by_count[leds], led, conditions, asked_a=current_a, subject=subject, series=series
                )
    if steady and len(counts) > 1:
        findings.append(_parallel_finding(sink, len(counts)))
    strings = tuple(by_count[leds] for leds in counts)
    made = judged(counts, strings, led, conditions, tuple(findings))
    if not aimed or not all(string.current_a > 0 for string in strings):
        return made
    farthest = max(abs(math.log(string.current_a / current_a)) for string in strings)
    return replace(made, missed=max(0.0, farthest - math.log(widest_step(series)) / 2))


def judged(
    counts: tuple[int, ...],
    strings: tuple[StringCircuit, ...],
    led: Led,
    conditions: Conditions,
    findings: tuple[Finding, ...],
) -> Arrangement:
    """Strings beside each other with their sums: current, spread, waste and the reason in words.

    Args:
        counts: LEDs of each string, longest first.
        strings: the strings, in the same order.
        led, conditions: what they were made from.
        findings: their verdicts.

    Formula: spread = highest/lowest corner over all strings; waste = 1 - LED power/supply power.
    """
    lowest, highest = min(s.lowest_a for s in strings), max(s.highest_a for s in strings)
    spread = highest / lowest if lowest > 0 else math.inf
    total = sum(s.current_a for s in strings)
    useful = sum(s.leds * led.vf_v * s.current_a for s in strings)
    waste = 1 - min(1.0, useful / (conditions.supply_v * total)) if total else 1.0
    highest_sum = sum(s.highest_a for s in strings)
    reason = _reason(counts, spread, waste, findings)
    return Arrangement(counts, strings, total, highest_sum, spread, waste, reason, findings)


def _reason(counts: tuple[int, ...], spread: float, waste: float, findings: tuple[Finding, ...]) -> str:
    shape = "equal strings" if len(set(counts)) == 1 else "unequal strings"
    if len(counts) == 1:
        shape = "one string"
    for level in ("stop", "caution"):
        codes = [finding.code for finding in findings if finding.level == level]
        if codes:
            return f"{shape}; {', '.join(dict.fromkeys(codes))}"
    return f"{shape}; {waste:.0%} of the power is lost, currents within a factor {spread:.3g}"


def _steady_string(led: Led, conditions: Conditions, *, leds: int, current_a: float) -> StringCircuit:
    headroom_v = conditions.nominal_drive_v() - leds * led.vf_v
    low_a, high_a = current_a * (1 - STEADY_SKEW), current_a * (1 + STEADY_SKEW)
    return StringCircuit(leds, 0.0, 0.0, "", current_a, current_a, low_a, high_a, 0.0, 0.0, headroom_v)


def _steady_findings(
    string: StringCircuit, led: Led, conditions: Conditions, subject: str, longest: Longest
) -> tuple[Finding, ...]:
    dim_v = conditions.lowest_drive_v()
    return (
        *headroom_findings(
            subject=subject,
            leds=string.leds,
            supply_v=conditions.supply_v,
            headroom_v=string.headroom_v,
            longest=longest,
            resistor=False,
        ),
        *dark_findings(
            subject=subject,
            leds=string.leds,
            supply_min_v=conditions.supply_min_v,
            typical_left_v=dim_v - string.leds * led.vf_v,
            worst_left_v=dim_v - string.leds * led.vf_max_v,
            longest=longest,
        ),
        *limit_findings(
            subject=subject,
            leds=string.leds,
            highest_a=string.highest_a,
            limit_a=led.max_current_a,
            supply_max_v=conditions.supply_max_v,
            remedy="set less current",
            source=led.source,
        ),
    )


def _parallel_finding(sink: Sink, strings: int) -> Finding:
    return Finding(
        level="caution",
        code="parallel-on-constant-current",
        subject=sink.name,
        text=f"{strings} strings share one steady output; nothing makes them share it evenly.",
        value=strings,
        limit=1,
        source="common-practice",
        remedy="One string an output, or a small resistor in each string to even them out.",
    )


def segment_circuit(
    *,
    kind: str,
    led: Led,
    leds: int,
    sink: Sink,
    supply_v: float,
    supply_min_v: float,
    supply_max_v: float,
    current_a: float,
    series: str = "E24",
    tolerance: float = 0.05,
    in_series: int | None = None,
    coldest_c: float = ROOM_C,
    hottest_c: float = ROOM_C,
    aimed: bool = False,
    strings: int | None = None,
    given_ohm: float | None = None,
    common: Drop = NO_DROP,
) -> SegmentCircuit:
    """What lights one segment of a kind: the best arrangement, or the one asked for, with its working.

    Args:
        kind: kind of segment, for names and findings.
        led, sink: catalogue parts.
        leds: LEDs of one segment, 1 or more.
        supply_v, supply_min_v, supply_max_v: nominal, lowest and highest supply, V.
        current_a: current asked for in each LED, A, above 0.
        series: preferred-number series of the resistors.
        tolerance: of the resistors, as a share.
        in_series: LEDs in the longest string; the best arrangement if left out.
        coldest_c, hottest_c: of the LEDs, °C; they widen the corners.
        aimed: take the resistor nearest to the current on the LED's curve; see ``string_circuit``.
        strings: number of strings, in place of ``in_series``.
        given_ohm: resistor that each string has, Ω, instead of one chosen.
        common: lost between the supply and the segments.

    Returns:
        the circuit. Behind a constant-current sink strings have no resistor.

    Raises:
        InputError: a number out of its range.

    Source: see ``arrangements``.
    """
    if in_series is not None and not 1 <= in_series <= leds:
        limit = f"1 to {leds}"
        raise InputError(Problem("not that many LEDs in a string.", value=str(in_series), limit=limit))
    if strings is None and in_series is not None:
        strings = math.ceil(leds / in_series)
    best = arrangements(
        leds, led=led, sink=sink, supply_v=supply_v, supply_min_v=supply_min_v, supply_max_v=supply_max_v,
        current_a=current_a, series=series, tolerance=tolerance, coldest_c=coldest_c, hottest_c=hottest_c,
        aimed=aimed, only=strings, given_ohm=given_ohm, common=common,
    )[0]  # fmt: skip
    drop = sink_drop(sink, current_a=len(best.counts) * current_a)
    conditions = Conditions(
        supply_v, supply_min_v, supply_max_v, drop, tolerance, coldest_c, hottest_c, common
    )
    load = package_load(
        sink, outputs_a=(best.highest_a,), outputs_v=(drop.worst_v,), supply_max_v=supply_max_v
    )
    named = (replace(finding, subject=f"{kind}: {finding.subject}") for finding in best.findings)
    return SegmentCircuit(
        kind=kind,
        led=led.id,
        sink=sink.id,
        strings=best.strings,
        current_a=best.current_a,
        highest_a=best.highest_a,
        lines=_circuit_lines(kind, led, sink, conditions, best, current_a),
        findings=(*named, *load.findings),
    )


def _circuit_lines(
    kind: str, led: Led, sink: Sink, conditions: Conditions, best: Arrangement, asked_a: float
) -> tuple[Line, ...]:
    key = kind_key(kind)
    output_a = len(best.counts) * asked_a
    lines = [drop_line(sink, current_a=output_a, name=f"electrical.sink_drop.{key}")]
    if sink.type == "constant-current":
        lines.append(set_resistor_line(output_a, name=f"electrical.set_resistor.{key}"))
    else:
        for number, string in enumerate(dict.fromkeys(best.strings)):
            suffix = key if number == 0 else f"{key}.string-of-{string.leds}"
            lines += circuit_lines(string, led, conditions, asked_a=asked_a, suffix=suffix)
    lines += segment_lines(
        suffix=key,
        currents_a=[string.current_a for string in best.strings],
        highest_a=[string.highest_a for string in best.strings],
        source=led.source,
    )
    return tuple(lines)
