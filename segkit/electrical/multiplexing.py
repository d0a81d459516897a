"""Digits that take turns on one set of registers and sinks: what each gets, and what it costs in light."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from segkit.catalog.part import Led, Sink
from segkit.electrical.driver import PackageLoad, sink_drop
from segkit.electrical.led_curve import curve_of
from segkit.electrical.package_heat import pulsed_load
from segkit.electrical.turns_verdicts import dark_time_findings, limit_findings, order_finding
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.viewing.flicker import judge_flicker, on_film
from segkit.working import Given, Line


@dataclass(frozen=True)
class DigitSwitch:
    """What connects the common of one digit to plus.

    Attributes:
        name: in words.
        drop_v, ohm: voltage lost, a fixed part and one in proportion to the current.
        max_a: highest current to plan with, A.
    """

    name: str
    drop_v: float
    ohm: float
    max_a: float

    def lost_v(self, current_a: float) -> float:
        """Voltage lost at a current, V."""
        return self.drop_v + self.ohm * current_a


#: Steps of halving in which a current is found: the last is far below rounding.
_HALVINGS = 60

#: Switches of a digit; figures of usual small parts, source digit-switches.
SWITCHES: Mapping[str, DigitSwitch] = {
    "p-mosfet": DigitSwitch("P-channel MOSFET", 0.0, 0.1, 3.0),
    "pnp": DigitSwitch("PNP transistor, saturated", 0.3, 0.0, 0.8),
    "source-array": DigitSwitch("Darlington source array", 1.8, 0.0, 0.5),
}


@dataclass(frozen=True)
class InTurn:
    """A segment in the turn of its digit: what the way to it costs.

    Attributes:
        led, sink, switch: the parts.
        supply_v: supply, V.
        series, strings: LEDs in a string, strings of a segment.
        segments: segments of the digit that may be lit together.
    """

    led: Led
    sink: Sink
    switch: DigitSwitch
    supply_v: float
    series: int
    strings: int
    segments: int = 8

    def lost_v(self, current_a: float) -> tuple[float, float]:
        """Lost in sink and switch at a current of each LED, everything lit, V."""
        sink_v = sink_drop(self.sink, current_a=self.strings * current_a).typical_v
        return sink_v, self.switch.lost_v(self.segments * self.strings * current_a)

    def left_v(self, current_a: float) -> float:
        """Left for the resistor at a current of each LED, V."""
        leds_v = self.series * curve_of(self.led).voltage_v(current_a)
        return self.supply_v - sum(self.lost_v(current_a)) - leds_v

    def through_a(self, resistor_ohm: float) -> float:
        """Current of each LED through a resistor, A; 0 where nothing is left for it."""
        low_a, high_a = 0.0, self.supply_v / resistor_ohm
        for _ in range(_HALVINGS):
            middle_a = (low_a + high_a) / 2
            if self.left_v(middle_a) > middle_a * resistor_ohm:
                low_a = middle_a
            else:
                high_a = middle_a
        return low_a

    def line(self, name: str, current_a: float, resistor_ohm: float) -> Line:
        """The working of a current through a resistor."""
        sink_v, switch_v = self.lost_v(current_a)
        inputs = (
            Given("V", self.supply_v, "V", "supply"),
            Given("Vd", sink_v, "V", "drop of the sink"),
            Given("Vs", switch_v, "V", f"drop of the {self.switch.name}"),
            Given("s", self.series, "", "LEDs in series"),
            Given("Vled", curve_of(self.led).voltage_v(current_a), "V", "forward voltage at this current"),
            Given("R", resistor_ohm, "ohm", "resistor"),
        )
        title, note = f"current of {self.led.name} in its turn", "solved on the LED's curve"
        formula = "(V - Vd - Vs - s*Vled)/R"
        return Line(name, title, "Ip", current_a, "A", formula, inputs, self.led.source, note)


@dataclass(frozen=True)
class Turns:
    """A round of digits.

    Attributes:
        digits: that take turns.
        duty: share of the time in which a digit is lit.
        wanted_a: current of an LED in its turn for the light of static drive, A.
        peak_a: what it gets, A: no more than the LED's continuous limit, or what a given resistor lets
            through.
        light: of static drive, as a share, 1 or less.
        headroom_v: left for the resistor with typical parts, V.
        resistor_ohm: before rounding, or the one given, Ω; 0 where nothing is left.
        digit_a: through the switch of a digit with everything lit, A.
        slot_s, lit_s: turn of one digit, and the lit part of it, s.
        load: sink package at the peak, with its mean heat.
        lines, findings: working and verdicts.
    """

    digits: int
    duty: float
    wanted_a: float
    peak_a: float
    light: float
    headroom_v: float
    resistor_ohm: float
    digit_a: float
    slot_s: float
    lit_s: float
    load: PackageLoad
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def take_turns(
    *,
    digits: int,
    led: Led,
    sink: Sink,
    switch: DigitSwitch,
    supply_v: float,
    static_a: float,
    series: int,
    strings: int,
    segments: int = 8,
    refresh_hz: float = 500.0,
    dark_s: float = 50e-6,
    exposure_s: float = 1e-3,
    given_ohm: float | None = None,
) -> Turns:
    """What digits get that share one set of segment outputs and are lit one after the other.

    Args:
        digits: digits in the round, 2 to 16.
        led, sink: catalogue parts.
        switch: what connects a digit to plus, of ``SWITCHES``.
        supply_v: supply, V, above 0.
        static_a: current of an LED in static drive, whose light is to be kept, A, above 0.
        series: LEDs in a string.
        strings: strings of a segment, side by side on one output.
        segments: segments of a digit that may be lit together, with the point.
        refresh_hz: rounds a second, 20 to 20 000 Hz.
        dark_s: dark time at each change of digit, s, 0 or more.
        exposure_s: of a camera that films the board, s.
        given_ohm: resistor of each string that is there already, Ω, above 0.

    Returns:
        the round. Light goes with the mean current; the peak is held at the LED's continuous limit, since a
        controller that stands still leaves it on one digit for good.

    Formula: ``duty = 1/n - f*t``; ``Ip = I/duty``; ``light = min(Ip, Imax)*duty/I``;
    ``R = (V - Vsink - Vswitch - s*Vled(Ip))/Ip``.

    Raises:
        InputError: a number out of its range, or a dark time that fills the whole turn; all at once.

    Source: turn-taking-practice, digit-switches, ieee-1789, arithmetic, and those of the parts.

    Example:
        >>> from segkit.catalog.reader import led, sink
        >>> made = take_turns(digits=4, led=led("red-5mm-diffused"), sink=sink("darlington-sink-8"),
        ...     switch=SWITCHES["p-mosfet"], supply_v=12, static_a=0.014, series=3, strings=1)
        >>> made.duty, round(made.light, 3), made.peak_a
        (0.225, 0.482, 0.03)
    """
    _refuse(digits, static_a, supply_v, refresh_hz, dark_s)
    duty = 1 / digits - refresh_hz * dark_s
    wanted_a = static_a / duty
    turn = InTurn(led, sink, switch, supply_v, series, strings, segments)
    chosen_a = min(wanted_a, led.max_current_a)
    peak_a = chosen_a if given_ohm is None else turn.through_a(given_ohm)
    output_a, digit_a, headroom_v = strings * peak_a, segments * strings * peak_a, turn.left_v(peak_a)
    slot_s = 1 / (digits * refresh_hz)
    steady = sink.type == "constant-current"
    over_v = supply_v - switch.lost_v(digit_a) - series * led.vf_min_v
    load = pulsed_load(
        sink, output_a=output_a, outputs=min(segments, sink.outputs), duty=duty * digits,
        left_v=max(0.0, over_v) if steady else None,
    )  # fmt: skip
    flicker, film = judge_flicker(frequency_hz=refresh_hz), on_film(
        frequency_hz=refresh_hz, exposure_s=exposure_s
    )  # fmt: skip
    made = Turns(
        digits, duty, wanted_a, peak_a, peak_a * duty / static_a, headroom_v,
        given_ohm or max(0.0, headroom_v / peak_a), digit_a, slot_s, slot_s - dark_s, load, (), (),
    )  # fmt: skip
    return Turns(
        **{
            **vars(made),
            "lines": _lines(made, static_a, refresh_hz, dark_s, led, given=turn if given_ohm else None),
            "findings": (
                *limit_findings(
                    digits=digits, wanted_a=wanted_a, led=led, light=made.light, headroom_v=headroom_v,
                    peak_a=peak_a, given_ohm=given_ohm, would_ohm=turn.left_v(chosen_a) / chosen_a,
                    digit_a=digit_a, switch_name=switch.name, switch_max_a=switch.max_a,
                ),
                *load.findings,
                *dark_time_findings(dark_s=dark_s, slot_s=slot_s),
                *(replace(one, subject="rounds of digits") for one in (*flicker.findings, *film.findings)),
                order_finding(),
            ),
        }
    )  # fmt: skip


def _refuse(digits: int, static_a: float, supply_v: float, refresh_hz: float, dark_s: float) -> None:
    problems = []
    if not 2 <= digits <= 16:
        problems.append(Problem("digits that take turns.", value=str(digits), limit="2 to 16"))
    if static_a <= 0 or supply_v <= 0:
        value = f"{static_a} A, {supply_v} V"
        problems.append(Problem("current and supply must be above 0.", value=value))
    if not 20 <= refresh_hz <= 20_000 or dark_s < 0:
        value = f"{refresh_hz} Hz, {dark_s} s"
        problems.append(
            Problem("rounds a second and dark time.", value=value, limit="20 to 20000 Hz, 0 s up")
        )
    if not problems and digits * refresh_hz * dark_s >= 0.9:
        slot_us = 1e6 / (digits * refresh_hz)
        text = f"the dark time of {dark_s * 1e6:.0f} us leaves next to nothing of a turn of {slot_us:.0f} us."
        problems.append(Problem(text, limit="90 % of a turn", remedy="Fewer rounds a second, or less of it."))
    if problems:
        raise InputError(problems)


def equal_on_times(currents_a: Mapping[str, float]) -> dict[str, float]:
    """Share of the longest on-time for digits whose LEDs get different currents through one resistor.

    Args:
        currents_a: digit or colour to the current in its turn, A, above 0.

    Formula: ``share = Imin/I``, for LEDs of the same light a milliampere.

    Raises:
        InputError: no current, or one that is not above 0.

    Source: arithmetic.

    Example:
        >>> {name: round(share, 2) for name, share in equal_on_times({"blue": 0.0077, "red": 0.0136}).items()}
        {'blue': 1.0, 'red': 0.57}
    """
    if not currents_a or min(currents_a.values()) <= 0:
        raise InputError(Problem("currents above 0 are needed.", value=str(dict(currents_a))))
    least_a = min(currents_a.values())
    return {name: least_a / current_a for name, current_a in currents_a.items()}


def _lines(
    made: Turns, static_a: float, refresh_hz: float, dark_s: float, led: Led, *, given: InTurn | None
) -> tuple[Line, ...]:
    count = Given("n", made.digits, "", "digits that take turns")
    duty = Given("d", made.duty, "", "share of the time in which a digit is lit")
    static = Given("I", static_a, "A", "current of an LED in static drive")
    peak = Given("Ip", made.peak_a, "A", "current of an LED in its turn")
    rounds = Given("f", refresh_hz, "Hz", "rounds a second")
    dark = Given("t", dark_s, "s", "dark time at each change of digit")
    most = Given("Imax", led.max_current_a, "A", "continuous limit of the LED")
    return (
        Line("electrical.turns_duty", "share of the time in which a digit is lit", "d", made.duty, "",
             "1/n - f*t", (count, rounds, dark), "arithmetic"),
        Line("electrical.turns_wanted", "current in its turn for the light of static drive", "Iw",
             made.wanted_a, "A", "I/d", (static, duty), "arithmetic"),
        Line("electrical.turns_peak", "current of an LED in its turn", "Ip", made.peak_a, "A",
             "min(I/d, Imax)", (static, duty, most), led.source)
        if given is None else given.line("electrical.turns_peak", made.peak_a, made.resistor_ohm),
        Line("electrical.turns_light", "light, of that of static drive", "q", made.light, "", "Ip*d/I",
             (peak, duty, static), "arithmetic", "light taken in proportion to the mean current"),
        Line("electrical.turns_slot", "turn of one digit", "T", made.slot_s, "s", "1/(n*f)",
             (count, rounds), "arithmetic"),
        Line("electrical.turns_clock", "slowest clock that shifts one digit in its turn", "fc",
             8 * made.digits * refresh_hz, "Hz", "8*n*f", (count, rounds), "arithmetic"),
    )  # fmt: skip
