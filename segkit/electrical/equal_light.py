"""Kinds of segment of one board made equally bright: the current and the resistors of each kind."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from segkit.catalog.part import Led, Sink
from segkit.electrical.arrangement import segment_circuit
from segkit.electrical.preferred import widest_step
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.string_working import kind_key
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering
from segkit.working import Given, Line

#: Steps of the pace that are tried, and the lowest share of the current asked for that they reach.
_TRIES, _LEAST_SHARE = 13, 0.85
_SAME = 1e-9
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
    **temperatures_c: float,
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
        temperatures_c: ``coldest_c`` and ``hottest_c`` of the LEDs, °C.

    Returns:
        the circuits. Each kind is aimed at ``I*Lmin/L``; the value nearest to that on the LED's curve is
        taken. The pace (the current of the darkest kind) may give way by up to 15 % where that brings the
        kinds closer together; the fastest pace within half a step of the series is taken. A constant-current
        sink gives every LED of a chip the same current, so there nothing is made equal.

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
    pace = min(lit.luminance for lit in kinds if lit.leads)
    steady = sink.type == "constant-current"

    def circuits_at(share: float, like: Sequence[SegmentCircuit] = ()) -> tuple[SegmentCircuit, ...]:
        return tuple(
            segment_circuit(
                kind=lit.kind, led=led, leds=lit.leds, sink=sink, supply_v=supply_v,
                supply_min_v=supply_min_v, supply_max_v=supply_max_v, series=series, tolerance=tolerance,
                current_a=share * current_a * (1.0 if steady else min(1.0, pace / lit.luminance)),
                in_series=None if in_series is None else min(in_series, lit.leds), aimed=True,
                strings=len(like[number].strings) if like else None, **temperatures_c,
            )
            for number, lit in enumerate(kinds)
        )  # fmt: skip

    if steady:
        share, circuits = 1.0, circuits_at(1.0)
    else:
        share, circuits = _best_pace(kinds, circuits_at, current_a, pace, _good(series))
    found = _Found(tuple(kinds), circuits, current_a, pace, share, steady)
    limit = 1.0 if steady else math.sqrt(widest_step(series))
    brightest = max(found.light.values())
    return EqualLight(
        circuits=circuits,
        aimed_a={lit.kind: found.aim_a(lit) for lit in kinds},
        light={kind: value / brightest if brightest else 0.0 for kind, value in found.light.items()},
        ratio=found.ratio,
        limit=limit,
        untreated=found.untreated,
        lines=_lines(found),
        findings=(*_ratio_findings(found, limit, series), *_behind_findings(found, limit)),
    )


@dataclass(frozen=True)
class _Found:
    """Kinds and circuits with what follows from them."""

    kinds: tuple[Lit, ...]
    circuits: tuple[SegmentCircuit, ...]
    current_a: float
    pace: float
    share: float
    steady: bool

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
        return self.share * self.current_a * (1.0 if self.steady else min(1.0, self.pace / lit.luminance))


def _best_pace(
    kinds: Sequence[Lit], circuits_at: Callable[..., tuple[SegmentCircuit, ...]], current_a: float,
    pace: float, good: float,
) -> tuple[float, tuple[SegmentCircuit, ...]]:  # fmt: skip
    """The fastest pace that is good enough, else the one that brings the kinds closest."""
    tried: list[tuple[float, float, tuple[SegmentCircuit, ...]]] = []
    for number in range(_TRIES):
        share = 1 - (1 - _LEAST_SHARE) * number / (_TRIES - 1)
        circuits = circuits_at(share, tried[0][2] if tried else ())
        ratio = _Found(tuple(kinds), circuits, current_a, pace, share, steady=False).ratio
        if ratio <= good:
            return share, circuits
        tried.append((ratio, -share, circuits))
    closest = min(ratio for ratio, _, _ in tried)
    near = [one for one in tried if one[0] <= closest * (1 + _NO_GAIN)]
    _, share, circuits = min(near, key=lambda one: one[1])
    return -share, circuits


def _good(series: str) -> float:
    """Near enough to stop looking: half of the usual step of the series, as a ratio."""
    return float(10 ** (1 / (2 * int(series.strip().upper()[1:]))))


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


def _lines(found: _Found) -> tuple[Line, ...]:
    lines = []
    for lit, circuit in zip(found.kinds, found.circuits, strict=True):
        key = kind_key(lit.kind)
        asked = Given("I", found.current_a, "A", "current asked for")
        full = Given("L", lit.luminance, "", f"{lit.kind}, all LEDs at one current")
        aim: tuple[Given, ...] = (
            asked, Given("s", found.share, "", "pace of all kinds, chosen so that usual values fit"),
            Given("Lmin", found.pace, "", "darkest kind that leads, all LEDs at one current"), full,
        )  # fmt: skip
        formula, note = "s*I*min(1, Lmin/L)", ""
        if found.steady:
            formula, aim, note = "I", (asked,), "one resistor sets all outputs of a chip alike"
        shines = (full, Given("Im", mean_led_a(circuit), "A", "mean current of its LEDs"), asked)
        lines += [
            Line(f"electrical.equal_current.{key}", "current for light equal to the other kinds", "Ia",
                 found.aim_a(lit), "A", formula, aim, "arithmetic", note),
            Line(f"electrical.equal_light.{key}", "light with the resistors to buy", "Lb",
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


def _ratio_findings(found: _Found, limit: float, series: str) -> tuple[Finding, ...]:
    light = {lit.kind: found.light[lit.kind] for lit in found.alike}
    if found.steady or math.isinf(found.ratio) or found.ratio <= limit * (1 + 1e-6):
        return ()
    bright, dark = max(light, key=light.__getitem__), min(light, key=light.__getitem__)
    return (
        Finding(
            level="caution",
            code="unequal-light",
            subject=f"{bright} and {dark}",
            text=f"with values of {series} the {bright} still comes out {found.ratio:.2f} times as bright as "
            f"the {dark}; the steps of the series allow {limit:.2f}.",
            value=round(found.ratio, 4),
            limit=round(limit, 4),
            unit="times",
            source="iec-60063",
            remedy="Buy from a finer series, or leave more voltage for the resistors.",
        ),
    )


def _behind_findings(found: _Found, limit: float) -> tuple[Finding, ...]:
    brightest = max(found.light.values())
    if brightest <= 0:
        return ()
    shares = {lit.kind: found.light[lit.kind] / brightest for lit in found.kinds if lit not in found.alike}
    return tuple(
        Finding(
            level="note",
            code="kind-left-behind",
            subject=kind,
            text=f"it has {share:.0%} of the light of the brightest kind, although its LEDs are aimed at as "
            "much current as any; the others are not dimmed for its sake.",
            value=round(share, 3),
            limit=round(1 / limit, 3),
            source="arithmetic",
            remedy="Give it another LED, or accept that it is darker.",
        )
        for kind, share in shares.items()
        if share * limit < 1 - _SAME
    )


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
    aims = ", ".join(f"{kind} {engineering(value, 'A')}" for kind, value in board.aimed_a.items())
    counted = [kind for kind in board.light if kind not in left]
    alike = f"{' and '.join(counted)} come out within {100 * (board.ratio - 1):.1f} % of each other"
    if len(counted) == 1:
        alike = f"{counted[0]} sets the pace"
    return (
        f"Aimed at {aims}: {alike}; with the same current in every LED they would differ "
        f"{board.untreated:.2f} times.{behind}"
    )
