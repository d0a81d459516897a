"""Kinds of segment of one board made equally bright: the current and the resistors of each kind."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from types import MappingProxyType

from segkit.catalog.part import Led, Sink
from segkit.electrical.arrangement import segment_circuit
from segkit.electrical.driver import NO_DROP, Drop
from segkit.electrical.equal_light_verdicts import behind_findings, ratio_findings
from segkit.electrical.led_curve import ROOM_C
from segkit.electrical.preferred import widest_step
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.string_working import kind_key
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Steps of the pace that are tried, and the lowest share of the current asked for that they reach.
_TRIES, _LEAST_SHARE = 13, 0.85
_SAME = 1e-9
_FAR = 1.5  # above this a ratio is said in times, not in percent
_NO_GAIN = 1e-3  # a slower pace that brings the kinds closer by less than this share is not worth its light


@dataclass(frozen=True)
class Lit:
    """One kind of segment as the optics sees it.

    Attributes:
        kind: kind of segment.
        leds: LEDs of one segment.
        luminance: of a segment with the same current in every LED of the board, in any unit, above 0.
        leads: False for a kind that must not hold the others back, such as a colon: where it is the
            darkest it keeps the full current and stays darker.
    """

    kind: str
    leds: int
    luminance: float
    leads: bool = True


@dataclass(frozen=True)
class EqualLight:
    """Kinds of segment with the resistors that make them equally bright.

    Attributes:
        circuits: what lights each kind, in the order of the kinds.
        aimed_a: current wanted in each LED of a kind, A.
        light: of each kind over the brightest, with typical parts and the resistors to buy; 1 and less.
        ratio: brightest over darkest of the kinds that can be made equal.
        limit: what the chosen series allows: its widest step, rounded to the nearest, ``sqrt(step)``.
        untreated: brightest over darkest with the same current in every LED.
        lines, findings: working and verdicts, those of the circuits not among them.
    """

    circuits: tuple[SegmentCircuit, ...]
    aimed_a: Mapping[str, float]
    light: Mapping[str, float]
    ratio: float
    limit: float
    untreated: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def equal_light(
    kinds: Sequence[Lit],
    *,
    led: Led,
    sink: Sink,
    supply_v: float,
    supply_min_v: float,
    supply_max_v: float,
    current_a: float,
    series: str = "E24",
    tolerance: float = 0.05,
    in_series: int | None = None,
    given_ohm: Mapping[str, float] = MappingProxyType({}),
    common: Drop = NO_DROP,
    coldest_c: float = ROOM_C,
    hottest_c: float = ROOM_C,
) -> EqualLight:
    """Resistors that make kinds of segment equally bright although they hold different LEDs.

    Args:
        kinds: the kinds of segment of one board; at least one that leads.
        led, sink: catalogue parts.
        supply_v, supply_min_v, supply_max_v: nominal, lowest and highest supply, V.
        current_a: current asked for in each LED of the darkest kind, A; no LED is aimed above it.
        series: preferred-number series to buy from.
        tolerance: of the resistors, as a share.
        in_series: LEDs in the longest string of each kind; the best arrangement if left out.
        given_ohm: kind to the resistor that each of its strings has, Ω; the others are worked out.
        common: lost between the supply and the segments.
        coldest_c, hottest_c: of the LEDs, °C.

    Returns:
        the circuits. Each kind is aimed at ``I*Lmin/L``; the value nearest to that on the LED's curve is
        taken. The pace (the current of the darkest kind) may give way by up to 15 % where that brings the
        kinds closer together; the fastest pace within half a step of the series is taken. A constant-current
        sink gives every LED of a chip the same current, so there nothing is made equal. Where some kinds
        have a given resistor, the others are aimed at the darkest of those, never above what was asked.

    Formula: ``light = luminance*I/I0``, in proportion to the mean current of the LEDs.

    Raises:
        InputError: no kind that leads, a kind twice, a luminance not above 0; see ``segment_circuit``.

    Source: arithmetic; iec-60063.

    Example:
        >>> from segkit.catalog.reader import led, sink
        >>> kinds = (Lit("upright", 4, 100.0), Lit("crossbar", 3, 130.0))
        >>> board = equal_light(kinds, led=led("red-5mm-diffused"), sink=sink("darlington-sink-8"),
        ...     supply_v=12, supply_min_v=11.4, supply_max_v=12.6, current_a=0.018)
        >>> board.ratio < board.limit < board.untreated
        True
    """
    _refuse(kinds)
    steady = sink.type == "constant-current"
    circuit = partial(
        segment_circuit, led=led, sink=sink, supply_v=supply_v, supply_min_v=supply_min_v,
        supply_max_v=supply_max_v, series=series, tolerance=tolerance, aimed=True, coldest_c=coldest_c,
        hottest_c=hottest_c, common=common,
    )  # fmt: skip
    wanted = _Wanted(tuple(kinds), circuit, current_a, series, in_series, given_ohm, steady)
    found, values = wanted.found(), ""
    limit = 1.0 if steady else math.sqrt(widest_step(series))
    if given_ohm and found.ratio > limit:
        values = _values(replace(wanted, given_ohm={}).found().circuits, given_ohm, series)
    brightest = max(found.light.values())
    return EqualLight(
        circuits=found.circuits,
        aimed_a={lit.kind: found.aim_a(lit) for lit in kinds},
        light={kind: value / brightest if brightest else 0.0 for kind, value in found.light.items()},
        ratio=found.ratio,
        limit=limit,
        untreated=found.untreated,
        lines=_lines(found),
        findings=_findings(found, limit, series, values),
    )


@dataclass(frozen=True)
class _Wanted:
    """Kinds that are to be made equal, and how the circuit of one is made."""

    kinds: tuple[Lit, ...]
    circuit: Callable[..., SegmentCircuit]
    current_a: float
    series: str
    in_series: int | None
    given_ohm: Mapping[str, float]
    steady: bool

    def found(self) -> _Found:
        """The circuits at the best pace; where nothing is chosen there is nothing to try."""
        full = self.at(1.0, min(lit.luminance for lit in self.kinds if lit.leads))
        if self.steady or all(lit.kind in self.given_ohm for lit in self.kinds):
            return full
        return self._best(full.given_pace if self.given_ohm else full.pace)

    def at(self, share: float, pace: float, like: Sequence[SegmentCircuit] = ()) -> _Found:
        """The circuits at a pace and a share of it."""
        full = min(lit.luminance for lit in self.kinds if lit.leads)
        made = _Found(
            self.kinds, (), self.current_a, full, pace, share, self.steady, frozenset(self.given_ohm)
        )
        circuits = tuple(
            self.circuit(
                kind=lit.kind, leds=lit.leds, current_a=made.aim_a(lit),
                in_series=None if self.in_series is None else min(self.in_series, lit.leds),
                strings=len(like[number].strings) if like else None, given_ohm=self.given_ohm.get(lit.kind),
            )
            for number, lit in enumerate(self.kinds)
        )  # fmt: skip
        return replace(made, circuits=circuits)

    def _best(self, pace: float) -> _Found:
        """The fastest pace that is good enough, else the one that brings the kinds closest."""
        tried: list[_Found] = []
        good = 10 ** (1 / (2 * int(self.series.strip().upper()[1:])))  # half of the usual step, as a ratio
        for number in range(_TRIES):
            share = 1 - (1 - _LEAST_SHARE) * number / (_TRIES - 1)
            made = self.at(share, pace, tried[0].circuits if tried else ())
            if made.ratio <= good:
                return made
            tried.append(made)
        closest = min(one.ratio for one in tried)
        return max((one for one in tried if one.ratio <= closest * (1 + _NO_GAIN)), key=lambda one: one.share)


def _values(circuits: Sequence[SegmentCircuit], given_ohm: Mapping[str, float], series: str) -> str:
    """The values that would do in place of those given."""
    named = []
    for circuit in circuits:
        ohms = dict.fromkeys(plain_number(string.chosen_ohm) for string in circuit.strings)
        if circuit.kind in given_ohm:
            named.append(f"{circuit.kind} {' and '.join(ohms)} ohm")
    return f"Values of {series} that would do: {', '.join(named)}."


@dataclass(frozen=True)
class _Found:
    """Kinds and circuits with what follows from them."""

    kinds: tuple[Lit, ...]
    circuits: tuple[SegmentCircuit, ...]
    current_a: float
    full: float
    pace: float
    share: float
    steady: bool
    given: frozenset[str] = frozenset()

    def pace_of(self, lit: Lit) -> float:
        """Light that the kind is to have: the board's, or that of the darkest kind with a given resistor."""
        return self.full if lit.kind in self.given else self.pace

    @property
    def given_pace(self) -> float:
        """Light of the darkest leading kind with a given resistor, no more than that of all at full pace."""
        lights = [self.light[lit.kind] for lit in self.kinds if lit.leads and lit.kind in self.given]
        return min([self.full, *(light for light in lights if light > 0)])

    @property
    def light(self) -> dict[str, float]:
        """Luminance at the current that flows: the LEDs' mean current over the one asked for."""
        pairs = zip(self.kinds, self.circuits, strict=True)
        return {lit.kind: lit.luminance * mean_led_a(circuit) / self.current_a for lit, circuit in pairs}

    @property
    def alike(self) -> tuple[Lit, ...]:
        """Kinds that can be made equal."""
        return tuple(lit for lit in self.kinds if not _left_behind(lit, self.pace))

    @property
    def ratio(self) -> float:
        """Brightest over darkest of those."""
        light = [self.light[lit.kind] for lit in self.alike]
        return max(light) / min(light) if min(light) > 0 else math.inf

    @property
    def untreated(self) -> float:
        """The same with the same current in every LED."""
        light = [lit.luminance for lit in self.alike]
        return max(light) / min(light)

    def aim_a(self, lit: Lit) -> float:
        """Current wanted in each LED, A; one resistor sets a constant-current sink for all kinds alike."""
        return (
            self.share
            * self.current_a
            * (1.0 if self.steady else min(1.0, self.pace_of(lit) / lit.luminance))
        )


def _refuse(kinds: Sequence[Lit]) -> None:
    problems = []
    if not any(lit.leads for lit in kinds):
        problems.append(Problem("no kind of segment sets the pace.", limit="at least one that leads"))
    if len({lit.kind for lit in kinds}) < len(kinds):
        problems.append(Problem("a kind of segment is given twice.", value=", ".join(k.kind for k in kinds)))
    problems += [
        Problem("its luminance must be above 0.", key=lit.kind, value=str(lit.luminance), limit="above 0")
        for lit in kinds
        if not (math.isfinite(lit.luminance) and lit.luminance > 0)
    ]
    if problems:
        raise InputError(problems)


def _left_behind(lit: Lit, pace: float) -> bool:
    return not lit.leads and lit.luminance < pace * (1 - _SAME)


def mean_led_a(circuit: SegmentCircuit) -> float:
    """Mean current of the LEDs of a segment, A: what its light is in proportion to.

    Args:
        circuit: what lights the segment.
    """
    leds = sum(string.leds for string in circuit.strings)
    return sum(string.leds * string.current_a for string in circuit.strings) / leds


def _pace_note(found: _Found, lit: Lit) -> str:
    if found.pace_of(lit) < found.full:
        return "darkest kind with a resistor that is given"
    return "darkest kind that leads, all LEDs at one current"


def _lines(found: _Found) -> tuple[Line, ...]:
    lines = []
    for lit, circuit in zip(found.kinds, found.circuits, strict=True):
        key = kind_key(lit.kind)
        asked = Given("I", found.current_a, "A", "current asked for")
        full = Given("L", lit.luminance, "", f"{lit.kind}, all LEDs at one current")
        aim: tuple[Given, ...] = (
            asked, Given("s", found.share, "", "pace of all kinds, chosen so that usual values fit"),
            Given("Lmin", found.pace_of(lit), "", _pace_note(found, lit)), full,
        )  # fmt: skip
        formula, note = "s*I*min(1, Lmin/L)", ""
        if found.steady:
            formula, aim, note = "I", (asked,), "one resistor sets all outputs of a chip alike"
        shines = (full, Given("Im", mean_led_a(circuit), "A", "mean current of its LEDs"), asked)
        lines += [
            Line(f"electrical.equal_current.{key}", "current for light equal to the other kinds", "Ia",
                 found.aim_a(lit), "A", formula, aim, "arithmetic", note),
            Line(f"electrical.equal_light.{key}", "light with these resistors", "Lb",
                 found.light[lit.kind], "", "L*Im/I", shines, "arithmetic",
                 "light taken in proportion to the current"),
        ]  # fmt: skip
    if math.isfinite(found.ratio):
        light = [found.light[lit.kind] for lit in found.alike]
        inputs = (Given("Lmax", max(light), "", "brightest kind"), Given("Lmin", min(light), "", "darkest"))
        title = "brightest kind over darkest, typical parts"
        lines.append(Line("electrical.equal_ratio", title, "q", found.ratio, "", "Lmax/Lmin", inputs,
                          "arithmetic"))  # fmt: skip
    return tuple(lines)


def _findings(found: _Found, limit: float, series: str, values: str) -> tuple[Finding, ...]:
    """The verdicts; sinks that hold the current and kinds that stay dark have none on their ratio."""
    light, alike = found.light, [lit.kind for lit in found.alike]
    unequal: tuple[Finding, ...] = ()
    if not found.steady and math.isfinite(found.ratio):
        equal = {kind: light[kind] for kind in alike}
        unequal = ratio_findings(equal, limit=limit, series=series, values=values)
    return (*unequal, *behind_findings(light, alike, limit=limit))


def equal_light_sentence(board: EqualLight) -> str:
    """The outcome in one sentence.

    Args:
        board: result of ``equal_light``.
    """
    left = {kind: light for kind, light in board.light.items() if light * board.ratio < 1 - _SAME}
    means = {circuit.kind: mean_led_a(circuit) for circuit in board.circuits}
    behind = "".join(
        f" The {kind} is not counted in that: it reaches {light:.0%} of the brightest with "
        f"{engineering(means[kind], 'A')} in its LEDs."
        for kind, light in left.items()
    )
    given = [one.kind for one in board.circuits if all(s.chosen_ohm and not s.series for s in one.strings)]
    held = f" The resistors of {' and '.join(given)} are given, not worked out." if given else ""
    aims = ", ".join(f"{kind} {engineering(value, 'A')}" for kind, value in board.aimed_a.items())
    counted = [kind for kind in board.light if kind not in left]
    alike = f"{' and '.join(counted)} come out within {100 * (board.ratio - 1):.1f} % of each other"
    if board.ratio > _FAR:
        alike = f"{' and '.join(counted)} come out {board.ratio:.2f} times apart"
    if len(counted) == 1:
        alike = f"{counted[0]} sets the pace"
    return (
        f"Aimed at {aims}: {alike}; with the same current in every LED they would differ "
        f"{board.untreated:.2f} times.{behind}{held}"
    )
