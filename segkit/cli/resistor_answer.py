"""The answer of ``segkit resistor``: the string or the arrangements, the package, the verdicts."""

from __future__ import annotations

from dataclasses import dataclass, replace

from segkit.catalog.part import Led, Sink
from segkit.cli.resistor_more import drawn, networks_for
from segkit.cli.resistor_question import Question
from segkit.electrical import corners
from segkit.electrical.arrangement import Arrangement, arrangements, judged
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import PackageLoad, package_load, sink_drop, stated_sink
from segkit.electrical.network import NetworkPlan
from segkit.electrical.resistor import (
    SharedResistor,
    common_resistor_finding,
    heat_findings,
    heat_w,
    shared_resistor,
)
from segkit.electrical.spread import Spread
from segkit.electrical.string import StringCircuit, circuit_lines, string_circuit, string_findings
from segkit.electrical.string_verdicts import swing_findings
from segkit.findings import Finding, in_order
from segkit.units import plain_number
from segkit.working import Line

#: Slope of the forward voltage of a usual small LED, Ω: below and above this voltage.
_TYPICAL_SLOPES = ((2.6, 6.0), (float("inf"), 12.0))
_MOST_ON_SLOPE = 0.1  # share of the forward voltage that stands across the slope, at most
_A_DIGIT = (7, 8)  # segments on a common lead, without and with the point


@dataclass(frozen=True)
class Answer:
    """What was worked out.

    Attributes:
        string: the string asked about, or the longest of the best arrangement.
        counts: LEDs of each string beside each other, longest first.
        strings: the strings, in the same order.
        conditions: supply, drop, tolerance.
        asked_a: current that the sums are made for, A.
        current_a: of the string with typical parts: on the curve of a catalogue LED, by the shop formula
            for an LED of which only the voltage is known.
        curve_a: on the curve in any case; an estimate for an unknown LED.
        supply_low_a, supply_high_a: over the supply range alone, all else typical, A.
        kit: the same strings with resistors of an E12 kit; empty for a given resistor or none.
        ranked: all arrangements, the best first; empty for one string.
        shared: what a shared resistor does; None if there is none.
        load: the package of the driver; None without one.
        networks: in place of single resistors, the best first; empty if nobody asked.
        many: strings of parts as they come; None where they are all alike or nothing flows.
        lines, findings: working and verdicts.
    """

    string: StringCircuit
    counts: tuple[int, ...]
    strings: tuple[StringCircuit, ...]
    conditions: Conditions
    asked_a: float
    current_a: float
    curve_a: float
    supply_low_a: float
    supply_high_a: float
    kit: tuple[StringCircuit, ...]
    ranked: tuple[Arrangement, ...]
    shared: SharedResistor | None
    load: PackageLoad | None
    networks: tuple[NetworkPlan, ...]
    many: Spread | None
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]

    @property
    def total_a(self) -> float:
        """All strings together, typical, A."""
        return sum(string.current_a for string in self.strings)


def answer(question: Question) -> Answer:
    """Work out the string, or the best way to divide the LEDs, and judge it."""
    asked_a = _asked_a(question)
    steady = question.sink.type == "constant-current"
    best, ranked = _best(question, asked_a)
    string = best.strings[0]
    conditions = _conditions(question, len(best.counts) * asked_a)
    found = list(best.findings) + list(_rating_verdicts(question, string))
    low_a = _at_supply(question, string, conditions, question.supply_min_v)
    high_a = _at_supply(question, string, conditions, question.supply_max_v)
    found += _swing(question, string, (low_a, high_a))
    shared = _shared(question, string)
    if shared:
        subject = f"{question.shared_by} segments on one resistor"
        found.append(common_resistor_finding(shared, subject=subject, resistance_ohm=string.chosen_ohm))
    load = _load(question, best.strings, conditions)
    networks, told = networks_for(question.network, best.strings)
    found += [*(load.findings if load else ()), *told, *_notes(question)]
    working = () if steady else circuit_lines(
        string, question.led, conditions, asked_a=asked_a, suffix="string"
    )  # fmt: skip
    return Answer(
        string=string,
        counts=best.counts,
        strings=best.strings,
        conditions=conditions,
        asked_a=asked_a,
        current_a=string.current_a,
        curve_a=_curve_a(question, string, conditions),
        supply_low_a=low_a,
        supply_high_a=high_a,
        kit=_kit(question, best.counts, conditions, asked_a),
        ranked=ranked,
        shared=shared,
        load=load,
        networks=networks,
        many=None if steady else drawn(question.led, best.strings, conditions),
        lines=working,
        findings=in_order(found),
    )


def _best(question: Question, asked_a: float) -> tuple[Arrangement, tuple[Arrangement, ...]]:
    """The arrangement to answer with, and the list to show if LEDs were to be divided."""
    if question.given_ohm is not None:
        return _given(question, question.given_ohm, asked_a), ()
    ranked = _ranked(question, asked_a)
    if question.leds is not None:
        longest = question.in_series
        fitting = [row for row in ranked if longest in (None, row.counts[0])]
        return (fitting or ranked)[0], ranked
    return next(row for row in ranked if len(row.counts) == question.parallel), ()


def _asked_a(question: Question) -> float:
    """The current asked for, or what a given resistor lets through by the shop formula."""
    if question.current_a is not None or question.given_ohm is None:
        return question.current_a or question.led.test_current_a
    leds = question.in_series or 1
    conditions = _conditions(question, question.led.test_current_a * question.parallel)
    return (
        corners.simple_a(question.led, conditions, leds=leds, resistance_ohm=question.given_ohm)
        or question.led.test_current_a
    )


def _switch(question: Question) -> Sink:
    return question.sink if question.stated_drop_v is None else stated_sink(question.stated_drop_v)


def _conditions(question: Question, output_a: float) -> Conditions:
    drop = sink_drop(_switch(question), current_a=output_a)
    return Conditions(
        question.supply_v, question.supply_min_v, question.supply_max_v, drop, question.tolerance,
        question.coldest_c, question.hottest_c,
    )  # fmt: skip


def _ranked(question: Question, asked_a: float) -> tuple[Arrangement, ...]:
    return arrangements(
        question.leds or (question.in_series or 1) * question.parallel,
        led=question.led,
        sink=_switch(question),
        supply_v=question.supply_v,
        supply_min_v=question.supply_min_v,
        supply_max_v=question.supply_max_v,
        current_a=asked_a,
        series=question.series,
        tolerance=question.tolerance,
        coldest_c=question.coldest_c,
        hottest_c=question.hottest_c,
    )


def _given(question: Question, given_ohm: float, asked_a: float) -> Arrangement:
    """Equal strings with the resistor that is to be judged."""
    counts = (question.in_series or 1,) * question.parallel
    conditions = _conditions(question, len(counts) * asked_a)
    string = string_circuit(question.led, conditions, leds=counts[0], current_a=asked_a, given_ohm=given_ohm)
    subject = f"string of {string.leds}"
    found = string_findings(string, question.led, conditions, asked_a=asked_a, subject=subject)
    return judged(counts, (string,) * len(counts), question.led, conditions, found)


def _rating_verdicts(question: Question, string: StringCircuit) -> tuple[Finding, ...]:
    if not question.given_rating_w or not string.chosen_ohm:
        return ()
    return heat_findings(
        subject=f"{plain_number(string.chosen_ohm)} ohm resistor",
        heat_w=heat_w(current_a=string.current_a, resistance_ohm=string.chosen_ohm),
        rating_w=question.given_rating_w,
        source="resistor-half-rating",
    )


def _kit(
    question: Question, counts: tuple[int, ...], conditions: Conditions, asked_a: float
) -> tuple[StringCircuit, ...]:
    if question.given_ohm is not None or question.sink.type == "constant-current":
        return ()
    return tuple(
        string_circuit(question.led, conditions, leds=leds, current_a=asked_a, series="E12")
        for leds in counts
    )


def _shared(question: Question, string: StringCircuit) -> SharedResistor | None:
    if question.shared_by is None or not string.chosen_ohm or string.headroom_v <= 0:
        return None
    fewest = 2 if question.shared_by in _A_DIGIT else 1
    return shared_resistor(
        drive_v=string.headroom_v, resistance_ohm=string.chosen_ohm, most=question.shared_by, fewest=fewest
    )


def _load(
    question: Question, strings: tuple[StringCircuit, ...], conditions: Conditions
) -> PackageLoad | None:
    """The fullest package with the outputs on: typical currents first, the worst corner if they pass."""
    if not question.known_sink:
        return None
    count = outputs_on(question)
    drive_v = conditions.supply_v - strings[0].leds * question.led.vf_v
    found = []
    for currents in ([string.current_a for string in strings], [string.highest_a for string in strings]):
        output_a = sum(currents)
        volts = None
        if question.stated_drop_v is not None:
            volts = [question.stated_drop_v] * count
        elif question.sink.type == "constant-current":
            volts = [
                max(conditions.drop.worst_v, conditions.supply_max_v - _led_v(question.led, strings))
            ] * count
        load = package_load(
            question.sink, outputs_a=[output_a] * count, outputs_v=volts, supply_max_v=question.supply_max_v,
            logic_v=question.logic_v, drive_v=drive_v,
        )  # fmt: skip
        found.append(load)
    typical, worst = found
    passed = {finding.code for finding in typical.findings}
    more = tuple(
        replace(finding, text=f"at the worst corner {finding.text}")
        for finding in worst.findings
        if finding.code not in passed
    )
    return replace(typical, findings=(*typical.findings, *more))


def outputs_on(question: Question) -> int:
    """Outputs of the fullest package that are on together; all it has, if nobody said."""
    return min(question.outputs or question.sink.outputs, question.sink.outputs)


def _led_v(led: Led, strings: tuple[StringCircuit, ...]) -> float:
    return min(string.leds for string in strings) * led.vf_min_v


def _curve_a(question: Question, string: StringCircuit, conditions: Conditions) -> float:
    if not string.chosen_ohm:
        return 0.0
    led = question.led if question.known_led else with_typical_slope(question.led)
    return corners.nominal_a(led, conditions, leds=string.leds, resistance_ohm=string.chosen_ohm)


def with_typical_slope(led: Led) -> Led:
    """The same LED with the slope of a usual small one of its voltage; a stronger one has less."""
    slope_ohm = next(slope for below_v, slope in _TYPICAL_SLOPES if led.vf_v < below_v)
    most_ohm = _MOST_ON_SLOPE * led.vf_v / led.test_current_a
    return replace(led, slope_ohm=min(slope_ohm, most_ohm))


def _at_supply(question: Question, string: StringCircuit, conditions: Conditions, supply_v: float) -> float:
    if not string.chosen_ohm:
        return 0.0
    there = replace(conditions, supply_v=supply_v, supply_min_v=supply_v, supply_max_v=supply_v)
    return corners.nominal_a(question.led, there, leds=string.leds, resistance_ohm=string.chosen_ohm)


def _swing(question: Question, string: StringCircuit, ends_a: tuple[float, float]) -> tuple[Finding, ...]:
    return swing_findings(
        subject=f"string of {string.leds}", leds=string.leds, low_a=ends_a[0], high_a=ends_a[1],
        supply_min_v=question.supply_min_v, supply_max_v=question.supply_max_v,
    )  # fmt: skip


def _notes(question: Question) -> tuple[Finding, ...]:
    missing = []
    if not question.has_range:
        missing.append("the supply's range (--supply-range)")
    if question.led.vf_min_v == question.led.vf_max_v:
        missing.append("the LED's bins (--vf-range)")
    found = []
    if missing:
        found.append(
            Finding(
                level="note",
                code="range-not-given",
                subject="corners",
                text=f"they leave out {' and '.join(missing)}.",
                remedy='A "12 V" battery is 11 V empty and 13.8 V on charge; an adapter is within 5 %.',
            )
        )
    if question.limit_assumed:
        limit_ma = question.led.max_current_a * 1000
        found.append(
            Finding(
                level="note",
                code="limit-assumed",
                subject="LED",
                text=f"its limit was not given; {limit_ma:g} mA is assumed, usual for 20 mA types.",
                value=limit_ma,
                unit="mA",
                remedy="Read it from the data sheet and give it with --max-current.",
            )
        )
    return tuple(found)
