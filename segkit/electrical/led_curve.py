"""Forward voltage of an LED against current, and the current at which a string settles.

``V = N*Vt*ln(I/Is + 1) + I*Rs``: one junction and one resistance. The data sheet gives one point and the
slope there; the third number needed, how much of the slope belongs to the junction, is ``JUNCTION_SHARE``
unless points of the curve are known (``led_fit``).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import Led
from segkit.errors import InputError, Problem

#: Thermal voltage kT/q at 27 °C, V.
THERMAL_V = 0.025865
#: Junction's share of the slope at the test current: published parameter sets lie between 0.24 and 0.98.
JUNCTION_SHARE = 0.6
ROOM_C = 25.0
_STEPS = 300
_ENOUGH = 1e-13  # relative change of the current at which the search ends


@dataclass(frozen=True)
class LedCurve:
    """Forward voltage as a function of current.

    Attributes:
        junction_v: N·Vt, V; 0 if only one voltage is known (then it holds at every current).
        log_saturation: natural logarithm of the saturation current Is in A.
        series_ohm: Rs, Ω.
        fixed_v: the voltage where ``junction_v`` is 0, V.
    """

    junction_v: float
    log_saturation: float
    series_ohm: float
    fixed_v: float = 0.0

    def voltage_v(self, current_a: float) -> float:
        """Forward voltage, V, at a current of 0 A or more.

        Example:
            >>> round(LedCurve(junction_v=0.1, log_saturation=-23.0, series_ohm=10.0).voltage_v(0.02), 3)
            2.109
        """
        if self.junction_v == 0:
            return self.fixed_v
        if current_a <= 0:
            return 0.0
        ratio = math.log(current_a) - self.log_saturation  # ln(I/Is)
        junction = ratio + math.log1p(math.exp(-ratio)) if ratio > 0 else math.log1p(math.exp(ratio))
        return self.junction_v * junction + self.series_ohm * current_a

    def junction_rise_v(self, log_current: float) -> float:
        """Rise of the junction's voltage for each e-fold of the current, V: ``N*Vt*I/(I + Is)``."""
        return self.junction_v / (1 + math.exp(min(700.0, self.log_saturation - log_current)))


def through_point(
    *, vf_v: float, test_current_a: float, slope_ohm: float, junction_share: float = JUNCTION_SHARE
) -> LedCurve:
    """The curve through the data-sheet point with the slope there.

    Args:
        vf_v: forward voltage at the test current, V, above 0.
        test_current_a: test current, A, above 0.
        slope_ohm: slope dV/dI at the test current, Ω; 0 means that only the voltage is known, and the
            curve is then that voltage at every current (the shop formula).
        junction_share: share of the slope that belongs to the junction, above 0 up to 1.

    Formula: ``N*Vt = k*slope*I0``, ``Rs = (1 - k)*slope``, Is from ``V(I0) = Vf``; k 0.6 if nothing is known.

    Raises:
        InputError: a value out of its range, or a slope so steep that nothing is left for the junction.

    Source: spice-diode (the form), common-practice (the share 0.6).

    Example:
        >>> curve = through_point(vf_v=2.0, test_current_a=0.02, slope_ohm=6)
        >>> round(curve.voltage_v(0.02), 6), round(curve.voltage_v(0.01), 3)
        (2.0, 1.926)
    """
    rest_v = vf_v - (1 - junction_share) * slope_ohm * test_current_a
    share_fits = 0 < junction_share <= 1
    if vf_v <= 0 or test_current_a <= 0 or slope_ohm < 0 or rest_v <= 0 or not share_fits:
        raise InputError(
            Problem(
                "forward voltage, test current and slope do not describe an LED.",
                value=f"{vf_v} V at {test_current_a} A, {slope_ohm} ohm",
                limit="voltage and current above 0, slope times current well below the voltage",
                remedy="Read the three figures from the data sheet again.",
            )
        )
    if slope_ohm == 0:
        return LedCurve(0.0, 0.0, 0.0, fixed_v=vf_v)
    junction_v = junction_share * slope_ohm * test_current_a
    steep = rest_v / junction_v
    log_saturation = math.log(test_current_a) - (steep + math.log1p(-math.exp(-steep)))
    return LedCurve(junction_v, log_saturation, (1 - junction_share) * slope_ohm)


def curve_of(led: Led, *, vf_v: float | None = None, temperature_c: float = ROOM_C) -> LedCurve:
    """The curve of a catalogue LED.

    Args:
        led: the LED.
        vf_v: forward voltage at its test current, V, of another bin than the typical one.
        temperature_c: temperature of the LED, °C; moves the voltage by ``vf_temperature_v_per_k``.

    Raises:
        InputError: see ``through_point``.
    """
    bin_v = led.vf_v if vf_v is None else vf_v
    shifted_v = bin_v + led.vf_temperature_v_per_k * (temperature_c - ROOM_C)
    return through_point(
        vf_v=shifted_v, test_current_a=led.test_current_a, slope_ohm=led.slope_ohm,
        junction_share=led.junction_share,
    )  # fmt: skip


def string_current_a(
    curve: LedCurve, *, leds: int, drive_v: float, resistance_ohm: float, near_a: float = math.inf
) -> float:
    """The current at which a string of equal LEDs and its resistor settle.

    Args:
        curve: of one LED.
        leds: LEDs in series, 1 or more.
        drive_v: supply less sink drop, V.
        resistance_ohm: the resistor, Ω, above 0.
        near_a: where to begin the search, A, above 0; only the time that it takes depends on it.

    Returns:
        the solution of ``drive_v - leds*V(I) = I*R``, A, to 1e-9 of itself; 0 if nothing drives it. Newton's
        method over ln(I): what is missing is concave there, so it closes in from above without a jump, after
        at most one step up from a start below.

    Raises:
        InputError: no resistance.

    Source: arithmetic.

    Example:
        >>> fixed = through_point(vf_v=2.0, test_current_a=0.02, slope_ohm=0)
        >>> round(string_current_a(fixed, leds=4, drive_v=10.9, resistance_ohm=150), 6)
        0.019333
    """
    if resistance_ohm <= 0:
        raise InputError(Problem("a string needs a resistor above 0 ohm.", value=f"{resistance_ohm} ohm"))
    if drive_v <= 0:
        return 0.0
    if curve.junction_v == 0:
        return max(0.0, (drive_v - leds * curve.fixed_v) / resistance_ohm)
    total_ohm = resistance_ohm + leds * curve.series_ohm
    most = math.log(drive_v / total_ohm)  # ln(I): the LEDs' junctions only lower it from here
    place = min(most, math.log(near_a))
    for _ in range(_STEPS):
        current_a = math.exp(place)
        missing_v = drive_v - leds * curve.voltage_v(current_a) - current_a * resistance_ohm
        step = missing_v / (leds * curve.junction_rise_v(place) + current_a * total_ohm)
        place = min(most, place + step)
        if abs(step) <= _ENOUGH:
            break
    return math.exp(place)
