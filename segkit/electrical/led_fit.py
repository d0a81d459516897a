"""The curve of an LED fitted to points that a data sheet prints or a builder measured."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from segkit.catalog.part import Led
from segkit.electrical.led_curve import JUNCTION_SHARE, LedCurve
from segkit.errors import InputError, Problem
from segkit.units import CURRENT, VOLTAGE, parse, plain_number

#: Distance of a point from the curve above which the points do not belong to one LED, V.
FAR_V = 0.1

Point = tuple[float, float]  # current, A; forward voltage, V


@dataclass(frozen=True)
class Fit:
    """A fitted curve.

    Attributes:
        curve: of one LED.
        worst_v: greatest distance of a point from it, V.
    """

    curve: LedCurve
    worst_v: float


def fitted(points: Sequence[Point]) -> Fit:
    """The curve of least squares through points of forward voltage against current.

    Args:
        points: (current in A, forward voltage in V), two or more at different currents.

    Returns:
        the curve. Two points leave the split between junction and resistance open: it is then 0.6 to 0.4 of
        the slope at the higher current. A resistance that came out below 0 is left out.

    Formula: ``V = a*ln(I) + b + Rs*I`` with ``a = N*Vt``, ``b = -a*ln(Is)``, which holds far above Is.

    Raises:
        InputError: too few points, values not above 0, a voltage that does not rise with the current, or a
            point more than 0.1 V off.

    Source: spice-diode (the form), arithmetic (least squares).

    Example:
        >>> fit = fitted([(0.001, 1.703), (0.010, 1.847), (0.020, 1.934), (0.030, 2.009)])
        >>> round(fit.curve.series_ohm), round(fit.curve.voltage_v(0.015), 3), fit.worst_v < 0.001
        (6, 1.893, True)
    """
    _refuse(points)
    top_a = max(current_a for current_a, _ in points)
    if len(points) == 2:
        bound = (1 - JUNCTION_SHARE) / JUNCTION_SHARE / top_a  # Rs over a
        slope, offset = _straight([(math.log(i) + bound * i, v) for i, v in points])
        found = (slope, offset, bound * slope)
    else:
        found = _plane(points)
        if found[2] < 0:
            found = (*_straight([(math.log(i), v) for i, v in points]), 0.0)
    junction_v, offset_v, ohm = found
    if not (math.isfinite(offset_v) and junction_v > 0 and ohm >= 0):
        raise InputError(_bad(points, "the voltage does not rise with the current as an LED's does."))
    curve = LedCurve(junction_v, -offset_v / junction_v, ohm)
    worst_v = max(abs(curve.voltage_v(current_a) - volt) for current_a, volt in points)
    if worst_v > FAR_V:
        raise InputError(_bad(points, f"a point lies {worst_v:.2f} V off any curve of an LED."))
    return Fit(curve, worst_v)


def with_points(led: Led, points: Sequence[Point]) -> Led:
    """The LED with voltage, slope and junction's share at its test current as fitted; bins move along.

    Args:
        led: the LED.
        points: of its curve; see ``fitted``.

    Raises:
        InputError: see ``fitted``.

    Source: spice-diode.

    Example:
        >>> from segkit.catalog.reader import led
        >>> from segkit.electrical.led_curve import curve_of
        >>> points = [(0.001, 1.703), (0.010, 1.847), (0.020, 1.934), (0.030, 2.009)]
        >>> round(curve_of(with_points(led("red-5mm-diffused"), points)).voltage_v(0.001), 3)
        1.703
    """
    curve, test_a = fitted(points).curve, led.test_current_a
    volt = curve.voltage_v(test_a)
    slope_ohm = curve.junction_v / test_a + curve.series_ohm
    return replace(
        led, vf_v=volt, vf_min_v=volt + led.vf_min_v - led.vf_v, vf_max_v=volt + led.vf_max_v - led.vf_v,
        slope_ohm=slope_ohm, junction_share=curve.junction_v / test_a / slope_ohm,
    )  # fmt: skip


def parse_points(text: str) -> tuple[Point, ...]:
    """Points as people write them: ``1.7 V at 1 mA, 2.0 V at 20 mA``.

    Args:
        text: voltages with their currents, parted by commas.

    Raises:
        InputError: a point that cannot be read, or points of no LED.

    Example:
        >>> parse_points("1.8 V at 2 mA, 2.0 V at 20 mA")
        ((0.002, 1.8), (0.02, 2.0))
    """
    points = []
    for part in text.split(","):
        volt, at, current = part.partition(" at ")
        if not at:
            remedy = 'Write them as in "1.8 V at 2 mA, 2.0 V at 20 mA".'
            raise InputError(Problem("no point of a curve.", value=f'"{part.strip()}"', remedy=remedy))
        points.append((parse(current, CURRENT), parse(volt, VOLTAGE)))
    fitted(points)
    return tuple(points)


def _straight(pairs: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Slope and offset of least squares."""
    count = len(pairs)
    mean_x, mean_y = sum(x for x, _ in pairs) / count, sum(y for _, y in pairs) / count
    spread = sum((x - mean_x) ** 2 for x, _ in pairs)
    slope = sum((x - mean_x) * (y - mean_y) for x, y in pairs) / spread
    return slope, mean_y - slope * mean_x


def _plane(points: Sequence[Point]) -> tuple[float, float, float]:
    """a, b and Rs of least squares, with ln(I) and I taken from their means so that the sums stay apart."""
    count, top_a = len(points), max(current_a for current_a, _ in points)
    rows = [(math.log(i), i / top_a, v) for i, v in points]
    means = [sum(row[k] for row in rows) / count for k in range(3)]
    away = [tuple(row[k] - means[k] for k in range(3)) for row in rows]
    xx, yy, xy, xv, yv = (
        sum(row[j] * row[k] for row in away) for j, k in ((0, 0), (1, 1), (0, 1), (0, 2), (1, 2))
    )
    det = xx * yy - xy * xy
    a, per_top = (xv * yy - yv * xy) / det, (yv * xx - xv * xy) / det
    return a, means[2] - a * means[0] - per_top * means[1], per_top / top_a


def _refuse(points: Sequence[Point]) -> None:
    if len(points) < 2 or len({current_a for current_a, _ in points}) < len(points):
        raise InputError(_bad(points, "a curve needs two points or more, each at a current of its own."))
    if not all(math.isfinite(i) and math.isfinite(v) and i > 0 and v > 0 for i, v in points):
        raise InputError(_bad(points, "currents and voltages must be above 0."))


def _bad(points: Sequence[Point], text: str) -> Problem:
    told = ", ".join(f"{plain_number(v)} V at {plain_number(1000 * i)} mA" for i, v in points)
    return Problem(text, value=told, remedy="Read the points again, all of one LED at one temperature.")
