"""Near digit against far digit: two supply wires along the digits, or digit cables of unequal length."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Literal

from segkit.catalog.part import Wire
from segkit.electrical.cable import (
    EVEN_SHARE,
    ampacity_findings,
    drop_findings,
    gauge,
    more_volts,
    warm_ohm,
)
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.working import Given, Line

Feed = Literal["left", "right", "middle"]


@dataclass(frozen=True)
class NearFar:
    """How much dimmer the far digit is.

    Attributes:
        drop_v: what the far digit gets less than the near one, V.
        share: current of its segments over that of the near digit's, both full.
        lines, findings: working and verdicts.
    """

    drop_v: float
    share: float
    lines: tuple[Line, ...] = ()
    findings: tuple[Finding, ...] = ()


EVEN = NearFar(0.0, 1.0)


def supply_bus(
    wire: Wire,
    *,
    places_m: Sequence[float],
    digits_a: Sequence[float],
    headroom_v: float,
    feed: Feed = "left",
    temperature_c: float = 20.0,
    steady: bool = False,
) -> NearFar:
    """Two wires that run along the digits and are fed at one end or in the middle, everything lit.

    Args:
        wire: each of the two wires.
        places_m: where each digit is tapped, m, rising.
        digits_a: current of each digit with everything lit, A, above 0.
        headroom_v: voltage across a segment's resistor without the wire, V, above 0.
        feed: where the cable comes in: ``left``, ``right`` or ``middle`` (at the digit nearest to it).
        temperature_c: of the conductors, °C.
        steady: True behind constant-current sinks, which keep their current.

    Formula: ``V = 2*r*(l1*I1 + l2*I2 + ...)``, each stretch with the current of the digits beyond
        it; ``share = 1 - V/Vr``. Currents are those without the wire, which overstates the difference.

    Raises:
        InputError: a number out of its range.

    Source: the ``source`` of the wire; arithmetic.

    Example:
        >>> from segkit.catalog.reader import wire
        >>> thin, each = wire("hook-up-awg-24"), (0.3, 0.3, 0.3)
        >>> run = supply_bus(thin, places_m=(0, 1, 2), digits_a=each, headroom_v=3)
        >>> round(run.drop_v, 3), round(run.share, 3)
        (0.152, 0.949)
    """
    _refuse(places_m, digits_a, headroom_v)
    per_m = warm_ohm(wire.resistance_ohm_per_m, temperature_c=temperature_c)
    stretches = _stretches(places_m, digits_a, feed)
    load = sum(length_m * beyond_a for length_m, beyond_a in stretches)
    if not load:
        return EVEN
    drop_v = 2 * per_m * load
    share = max(0.0, 1 - drop_v / headroom_v)
    lines = _bus_lines(wire, per_m, stretches, headroom_v, drop_v, share)
    if steady:
        return NearFar(drop_v, 1.0, lines[:1])
    middle = _load(places_m, digits_a, "middle") if feed != "middle" else load
    cures = (
        f", or bring the supply in at the middle ({2 * per_m * middle:.2f} V)" if middle < 0.7 * load else ""
    )
    highest_ohm = headroom_v * (1 - EVEN_SHARE) / 2 / load
    findings = drop_findings(
        wire, share, "far-digit-dim",
        f"the two wires along the digits lose {drop_v:.2f} V up to the far digit with everything lit: its "
        f"segments get {math.floor(100 * share)} % of the current of the near one's.",
        f"Make both {gauge(wire, highest_ohm=highest_ohm, length_m=1.0)}{cures}"
        + more_volts(headroom_v, lambda volts: 1 - drop_v / volts),
    )  # fmt: skip
    findings = (*findings, *ampacity_findings(wire, "a wire along the digits", max(a for _, a in stretches)))
    return NearFar(drop_v, share, lines, findings)


def _refuse(places_m: Sequence[float], digits_a: Sequence[float], headroom_v: float) -> None:
    rising = all(one <= other for one, other in pairwise(places_m))
    if not places_m or len(places_m) != len(digits_a) or not rising or headroom_v <= 0 or min(digits_a) <= 0:
        values = f"{tuple(places_m)} m, {tuple(digits_a)} A, {headroom_v} V"
        limit = "places rising, one current above 0 for each, headroom above 0"
        raise InputError(
            Problem("these values do not describe digits on two wires.", value=values, limit=limit)
        )


def _load(places_m: Sequence[float], digits_a: Sequence[float], feed: Feed) -> float:
    return sum(length_m * beyond_a for length_m, beyond_a in _stretches(places_m, digits_a, feed))


def _stretches(
    places_m: Sequence[float], digits_a: Sequence[float], feed: Feed
) -> tuple[tuple[float, float], ...]:
    """(length, current) of each stretch on the way to the worse end."""
    entry = fed_first(places_m, feed)
    sides = [
        _one_way(places_m[entry:], digits_a[entry:]),
        _one_way([-place for place in places_m[entry::-1]], digits_a[entry::-1]),
    ]
    return max(sides, key=lambda side: sum(length_m * beyond_a for length_m, beyond_a in side))


def fed_first(places_m: Sequence[float], feed: Feed) -> int:
    """Which of the digits the supply comes in at, 0 = the leftmost.

    Args:
        places_m: where each digit is tapped, rising; any unit of length.
        feed: ``left``, ``right`` or ``middle``, the digit nearest to the middle, the left one of two.

    Source: arithmetic.

    Example:
        >>> [fed_first((0.0, 1.0, 2.0, 3.0), feed) for feed in ("left", "right", "middle")]
        [0, 3, 1]
    """
    centre = (places_m[0] + places_m[-1]) / 2
    middle = min(range(len(places_m)), key=lambda n: abs(places_m[n] - centre))
    return {"left": 0, "right": len(places_m) - 1}.get(feed, middle)


def _one_way(places_m: Sequence[float], digits_a: Sequence[float]) -> tuple[tuple[float, float], ...]:
    beyond = list(accumulate(reversed(digits_a)))[::-1][1:]
    hops = [after - before for before, after in pairwise(places_m)]
    return tuple(zip(hops, beyond, strict=True))


def _bus_lines(
    wire: Wire, per_m: float, stretches: tuple[tuple[float, float], ...], headroom_v: float, drop_v: float,
    share: float,
) -> tuple[Line, ...]:  # fmt: skip
    inputs = [Given("r", per_m, "ohm/m", "one wire")]
    for number, (length_m, beyond_a) in enumerate(stretches, 1):
        inputs += [
            Given(f"l{number}", length_m, "m", f"stretch {number} from the feed"),
            Given(f"I{number}", beyond_a, "A", "digits beyond it, everything lit"),
        ]
    terms = " + ".join(f"l{n}*I{n}" for n in range(1, len(stretches) + 1))
    compared = (Given("Vr", headroom_v, "V", "across the resistor at the near digit"),
                Given("V", drop_v, "V", "lost up to the far digit"))  # fmt: skip
    return (
        Line("electrical.bus_drop", "lost between the near and the far digit, all lit", "V", drop_v, "V",
             f"2*r*({terms})", tuple(inputs), wire.source),
        _share_line(compared, share, "max(0, 1 - V/Vr)"),
    )  # fmt: skip


def _share_line(inputs: tuple[Given, ...], share: float, formula: str) -> Line:
    title = "current of a segment of the far digit over that of the near one, all lit"
    return Line("electrical.far_digit", title, "q", share, "", formula, inputs, "arithmetic")


def unequal_cables(
    wire: Wire,
    *,
    near_m: float,
    far_m: float,
    segment_a: float,
    digit_a: float,
    headroom_v: float,
    return_ohm_per_m: float | None = None,
    temperature_c: float = 20.0,
) -> NearFar:
    """A cable for each digit, the far digit's longer by the length of the board; both digits full.

    Args:
        wire: cable; a core for each segment and the common.
        near_m, far_m: shortest and longest cable one way, m, 0 or more.
        segment_a: current of the strongest segment, A, above 0.
        digit_a: current of a full digit, A, not below ``segment_a``.
        headroom_v: voltage across a segment's resistor without the cable, V, above 0.
        return_ohm_per_m: of the common, Ω/m; that of a core if left out.
        temperature_c: of the conductors, °C.

    Formula: ``share = (Vr + D*near)/(Vr + D*far)`` with ``D = r*I + rc*Id`` lost for each metre.

    Raises:
        InputError: a number out of its range.

    Source: the ``source`` of the wire; arithmetic.

    Example:
        >>> from segkit.catalog.reader import wire
        >>> cable = wire("cat5e")
        >>> run = unequal_cables(cable, near_m=10, far_m=12, segment_a=0.03, digit_a=0.21, headroom_v=3)
        >>> round(run.share, 3)
        0.986
    """
    if not 0 <= near_m <= far_m or headroom_v <= 0 or not 0 < segment_a <= digit_a:
        values = f"{near_m} m, {far_m} m, {segment_a} A of {digit_a} A, {headroom_v} V"
        raise InputError(Problem("these values do not describe two cables.", value=values))
    core = warm_ohm(wire.resistance_ohm_per_m, temperature_c=temperature_c)
    common = core if return_ohm_per_m is None else warm_ohm(return_ohm_per_m, temperature_c=temperature_c)
    lost_v_per_m = core * segment_a + common * digit_a
    share = (headroom_v + lost_v_per_m * near_m) / (headroom_v + lost_v_per_m * far_m)
    inputs = (
        Given("Vr", headroom_v, "V", "across the resistor without cable"),
        Given("r", core, "ohm/m", "one core"),
        Given("I", segment_a, "A", "the strongest segment"),
        Given("rc", common, "ohm/m", "the common"),
        Given("Id", digit_a, "A", "a full digit"),
        Given("ln", near_m, "m", "shortest cable, one way"),
        Given("lf", far_m, "m", "longest cable, one way"),
    )
    line = _share_line(inputs, share, "(Vr + (r*I + rc*Id)*ln)/(Vr + (r*I + rc*Id)*lf)")
    findings = drop_findings(
        wire, share, "far-digit-dim",
        f"the cable of the far digit is {far_m - near_m:.1f} m longer than that of the near one: its "
        f"segments get {math.floor(100 * share)} % of the near one's current.",
        "Cut all cables as long as the longest, or make them thicker"
        + more_volts(headroom_v, _at_volts(lost_v_per_m, near_m, far_m)),
    )  # fmt: skip
    return NearFar(lost_v_per_m * (far_m - near_m), share, (line,), findings)


def _at_volts(lost_v_per_m: float, near_m: float, far_m: float) -> Callable[[float], float]:
    return lambda volts: (volts + lost_v_per_m * near_m) / (volts + lost_v_per_m * far_m)
