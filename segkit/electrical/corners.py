"""The best and worst of supply, drop, LED bin, resistor and temperature, and the current at each corner."""

from __future__ import annotations

from dataclasses import dataclass, replace

from segkit.catalog.part import Led
from segkit.electrical.driver import NO_DROP, Drop
from segkit.electrical.led_curve import ROOM_C, LedCurve, curve_of, string_current_a
from segkit.errors import InputError, Problem


@dataclass(frozen=True)
class Conditions:
    """What a string has to live with.

    Attributes:
        supply_v, supply_min_v, supply_max_v: nominal, lowest, highest supply, V.
        drop: of the sink, V.
        tolerance: of the resistor, as a share.
        coldest_c, hottest_c: of the LED, °C.
        common: lost between the supply and the segments, V.
    """

    supply_v: float
    supply_min_v: float
    supply_max_v: float
    drop: Drop
    tolerance: float = 0.05
    coldest_c: float = ROOM_C
    hottest_c: float = ROOM_C
    common: Drop = NO_DROP

    def __post_init__(self) -> None:
        problems = []
        if not 0 < self.supply_min_v <= self.supply_v <= self.supply_max_v:
            volts = f"{self.supply_min_v} V, {self.supply_v} V, {self.supply_max_v} V"
            problems.append(
                Problem(
                    "the nominal supply does not lie between its lowest and highest value.",
                    value=volts,
                    limit="0 V < lowest <= nominal <= highest",
                    remedy="Give the range that the supply really has, full and empty.",
                )
            )
        if not 0 <= self.tolerance <= 0.5:
            problems.append(
                Problem(
                    "not the tolerance of a resistor.",
                    value=f"{self.tolerance:.0%}",
                    limit="0 % to 50 %",
                    remedy="Usual are 1 % and 5 %.",
                )
            )
        if self.coldest_c > self.hottest_c:
            problems.append(Problem("the coldest temperature is above the hottest."))
        if problems:
            raise InputError(problems)

    def nominal_drive_v(self) -> float:
        """Supply less typical drops, V."""
        return self.supply_v - self.common.typical_v - self.drop.typical_v

    def lowest_drive_v(self) -> float:
        """Lowest supply less worst drops, V."""
        return self.supply_min_v - self.common.worst_v - self.drop.worst_v

    def highest_drive_v(self) -> float:
        """Highest supply less lowest drops, V."""
        return self.supply_max_v - self.common.low_v - self.drop.low_v


def dimmest_curve(led: Led, conditions: Conditions) -> LedCurve:
    """The highest bin, cold: the least current."""
    return curve_of(led, vf_v=led.vf_max_v, temperature_c=conditions.coldest_c)


def brightest_curve(led: Led, conditions: Conditions) -> LedCurve:
    """The lowest bin, hot: the most current."""
    return curve_of(led, vf_v=led.vf_min_v, temperature_c=conditions.hottest_c)


def nominal_a(led: Led, conditions: Conditions, *, leds: int, resistance_ohm: float) -> float:
    """Current with typical parts by the LED's curve, A."""
    drive_v = conditions.nominal_drive_v()
    return string_current_a(curve_of(led), leds=leds, drive_v=drive_v, resistance_ohm=resistance_ohm)


def simple_a(led: Led, conditions: Conditions, *, leds: int, resistance_ohm: float) -> float:
    """Current with typical parts by the shop formula ``(V - Vd - n*Vf)/R``, A; 0 where nothing is left."""
    fixed = replace(led, slope_ohm=0.0)
    return nominal_a(fixed, conditions, leds=leds, resistance_ohm=resistance_ohm)


def curve_ohm(led: Led, conditions: Conditions, *, leds: int, current_a: float) -> float:
    """Resistor that gives a current with typical parts on the LED's curve, Ω; may be negative.

    Formula: ``R = (V - Vd - n*Vled(I))/I``; the shop formula where the current is the data sheet's.

    Source: arithmetic.
    """
    left_v = conditions.nominal_drive_v() - leds * curve_of(led).voltage_v(current_a)
    return left_v / current_a


def lowest_a(led: Led, conditions: Conditions, *, leds: int, resistance_ohm: float) -> float:
    """Current at the lowest supply, worst drop, highest bin, largest resistor, coldest LED, A."""
    curve = dimmest_curve(led, conditions)
    drive_v, ohm = conditions.lowest_drive_v(), resistance_ohm * (1 + conditions.tolerance)
    return string_current_a(curve, leds=leds, drive_v=drive_v, resistance_ohm=ohm)


def highest_a(led: Led, conditions: Conditions, *, leds: int, resistance_ohm: float) -> float:
    """Current at the highest supply, lowest drop, lowest bin, smallest resistor, hottest LED, A."""
    curve = brightest_curve(led, conditions)
    drive_v, ohm = conditions.highest_drive_v(), resistance_ohm * (1 - conditions.tolerance)
    return string_current_a(curve, leds=leds, drive_v=drive_v, resistance_ohm=ohm)


def limit_ohm(led: Led, conditions: Conditions, *, leds: int) -> float:
    """Smallest nominal resistor that keeps the highest corner within the LED's limit, Ω.

    Formula: ``R = (Vmax - Vdlow - n*Vled(Imax))/(Imax*(1 - t))``; may be negative: then any will do.

    Source: arithmetic.
    """
    bright_v = brightest_curve(led, conditions).voltage_v(led.max_current_a)
    left_v = conditions.highest_drive_v() - leds * bright_v
    return left_v / (led.max_current_a * (1 - conditions.tolerance))
