"""The lines of working of one series string and of one segment."""

from __future__ import annotations

from collections.abc import Sequence

from segkit.catalog.part import Led
from segkit.electrical.corners import Conditions, brightest_curve, curve_ohm, limit_ohm
from segkit.electrical.led_curve import curve_of
from segkit.electrical.preferred import nearest
from segkit.working import Given, Line


def kind_key(kind: str) -> str:
    """A segment kind as the last part of a line's name.

    Example:
        >>> kind_key("bottom point")
        'bottom-point'
    """
    return kind.replace(" ", "-")


def string_lines(
    led: Led,
    conditions: Conditions,
    *,
    suffix: str,
    leds: int,
    asked_a: float,
    exact_ohm: float,
    chosen_ohm: float,
    series: str,
    raised: bool,
    current_a: float,
    highest_a: float,
    resistor_w: float,
    rating_w: float,
    aimed: bool = False,
) -> tuple[Line, ...]:
    """Working of one string, from the exact resistor to its rating.

    Args:
        led: the LED.
        conditions: supply, drop, tolerance, temperature.
        suffix: end of the names, the kind of segment.
        leds: LEDs in series.
        asked_a: current asked for, A.
        exact_ohm, chosen_ohm: before and after rounding, Ω; ``chosen_ohm`` 0 where nothing can be chosen.
        series: preferred-number series; empty where the value was given.
        raised: True if the LED's limit, not the exact value, led to the chosen one.
        current_a, highest_a: typical and highest current, A.
        resistor_w, rating_w: heat at the highest corner and rating to buy, W.
        aimed: True if the value nearest to the one solved on the LED's curve was taken.

    Source: arithmetic, iec-60063, resistor-half-rating, the LED's own.
    """
    left, drive = _left(conditions)
    typical = (
        *drive,
        Given("n", leds, "", "LEDs in series"),
        Given("Vf", led.vf_v, "V", "forward voltage, typical"),
    )
    asked = Given("I", asked_a, "A", "current asked for")
    headroom_v = conditions.nominal_drive_v() - leds * led.vf_v
    lines = [
        Line(f"electrical.headroom.{suffix}", "voltage left for the resistor", "Vr", headroom_v, "V",
             f"{left} - n*Vf", typical, led.source),
        Line(f"electrical.resistor_exact.{suffix}", "resistor before rounding", "R", exact_ohm, "ohm",
             f"({left} - n*Vf)/I", (*typical, asked), led.source),
    ]  # fmt: skip
    if chosen_ohm:
        lines += [
            *(
                _aimed_lines(led, conditions, suffix, leds, asked_a, chosen_ohm, series)
                if aimed
                else (_chosen_line(led, conditions, suffix, leds, exact_ohm, chosen_ohm, series, raised),)
            ),
            _current_line(led, conditions, suffix, leds, chosen_ohm, current_a),
            _highest_line(led, conditions, suffix, leds, chosen_ohm, highest_a),
            *_heat_lines(conditions, suffix, chosen_ohm, highest_a, resistor_w, rating_w),
        ]
    return tuple(lines)


def _left(conditions: Conditions) -> tuple[str, tuple[Given, ...]]:
    """What LEDs and resistor get: the supply less what is lost on the way, as text and inputs."""
    supply = Given("V", conditions.supply_v, "V", "supply")
    sink = Given("Vd", conditions.drop.typical_v, "V", "drop of the sink")
    return _less(supply, Given("Vc", conditions.common.typical_v, "V", "lost in the common lead"), sink)


def _left_highest(conditions: Conditions) -> tuple[str, tuple[Given, ...]]:
    """The same at the highest supply."""
    supply = Given("Vmax", conditions.supply_max_v, "V", "highest supply")
    sink = Given("Vd", conditions.drop.low_v, "V", "lowest drop to reckon with")
    return _less(supply, Given("Vc", conditions.common.low_v, "V", "least lost in the common lead"), sink)


def _less(supply: Given, common: Given, sink: Given) -> tuple[str, tuple[Given, ...]]:
    if not common.value:
        return f"{supply.symbol} - Vd", (supply, sink)
    return f"{supply.symbol} - Vc - Vd", (supply, common, sink)


def _aimed_lines(
    led: Led, conditions: Conditions, suffix: str, leds: int, asked_a: float, chosen_ohm: float, series: str,
) -> tuple[Line, Line]:  # fmt: skip
    """The value on the LED's curve and the nearest one of the series."""
    wanted_ohm = curve_ohm(led, conditions, leds=leds, current_a=asked_a)
    left, drive = _left(conditions)
    inputs = (
        *drive,
        Given("n", leds, "", "LEDs in series"),
        Given("Vled", curve_of(led).voltage_v(asked_a), "V", "forward voltage at the current wanted"),
        Given("I", asked_a, "A", "current wanted, for light equal to the other kinds"),
    )
    named = f"{series.lower()}(Rc)"
    formula, chosen = f"nearest_{named}", [Given("Rc", wanted_ohm, "ohm", "on the LED's curve")]
    least_ohm = limit_ohm(led, conditions, leds=leds)
    if nearest(wanted_ohm, series) < least_ohm:
        formula, chosen = (
            f"next_up_{series.lower()}(Rmin)",
            [Given("Rmin", least_ohm, "ohm", "keeps the LED's limit at the worst corner")],
        )
    return (
        Line(f"electrical.resistor_curve.{suffix}", "resistor on the LED's curve", "Rc", wanted_ohm, "ohm",
             f"({left} - n*Vled)/I", inputs, led.source),
        Line(f"electrical.resistor.{suffix}", "resistor to buy", "Rb", chosen_ohm, "ohm", formula,
             tuple(chosen), "iec-60063"),
    )  # fmt: skip


def _chosen_line(
    led: Led, conditions: Conditions, suffix: str, leds: int, exact_ohm: float, chosen_ohm: float,
    series: str, raised: bool,
) -> Line:  # fmt: skip
    name, title = f"electrical.resistor.{suffix}", "resistor to buy"
    if not series:
        given = (Given("R", chosen_ohm, "ohm", "given, not worked out"),)
        return Line(
            name, "resistor, given by the builder", "Rb", chosen_ohm, "ohm", "R", given, "design-choice"
        )
    inputs = [Given("R", exact_ohm, "ohm", "before rounding")]
    formula = f"next_up_{series.lower()}(R)"
    if raised:
        least = limit_ohm(led, conditions, leds=leds)
        inputs.append(Given("Rmin", least, "ohm", "keeps the LED's limit at the worst corner"))
        formula = f"next_up_{series.lower()}(max(R, Rmin))"
    return Line(name, title, "Rb", chosen_ohm, "ohm", formula, tuple(inputs), "iec-60063")


def _current_line(
    led: Led, conditions: Conditions, suffix: str, leds: int, chosen_ohm: float, current_a: float
) -> Line:
    left, drive = _left(conditions)
    inputs = (
        *drive,
        Given("n", leds, "", "LEDs in series"),
        Given("Vled", curve_of(led).voltage_v(current_a), "V", "forward voltage at this very current"),
        Given("R", chosen_ohm, "ohm", "resistor"),
    )
    formula = f"({left} - n*Vled)/R"
    return Line(f"electrical.current.{suffix}", "current of a string, typical", "I", current_a, "A", formula,
                inputs, led.source, "solved on the LED's curve")  # fmt: skip


def _highest_line(
    led: Led, conditions: Conditions, suffix: str, leds: int, chosen_ohm: float, highest_a: float
) -> Line:
    left, drive = _left_highest(conditions)
    inputs = (
        *drive,
        Given("n", leds, "", "LEDs in series"),
        Given(
            "Vled", brightest_curve(led, conditions).voltage_v(highest_a), "V", "lowest bin at this current"
        ),
        Given("R", chosen_ohm, "ohm", "resistor"),
        Given("t", conditions.tolerance, "", "its tolerance"),
    )
    formula = f"({left} - n*Vled)/(R*(1 - t))"
    name, title = f"electrical.current_highest.{suffix}", "current of a string, highest corner"
    note = "solved on the LED's curve"
    return Line(name, title, "Imax", highest_a, "A", formula, inputs, led.source, note)


def _heat_lines(
    conditions: Conditions,
    suffix: str,
    chosen_ohm: float,
    highest_a: float,
    resistor_w: float,
    rating_w: float,
) -> tuple[Line, ...]:
    inputs = (
        Given("I", highest_a, "A", "highest corner"),
        Given("R", chosen_ohm, "ohm", "resistor"),
        Given("t", conditions.tolerance, "", "its tolerance"),
    )
    title = "heat in the resistor, highest corner"
    name, formula = f"electrical.resistor_heat.{suffix}", "I**2*R*(1 - t)"
    heat = Line(name, title, "P", resistor_w, "W", formula, inputs, "arithmetic")
    name, title = f"electrical.resistor_rating.{suffix}", "rating to buy: twice the heat or more"
    given = (Given("P", resistor_w, "W", "heat"),)
    rating = Line(name, title, "Pr", rating_w, "W", "next_rating(2*P)", given, "resistor-half-rating")
    return heat, rating


def segment_lines(
    *, suffix: str, currents_a: Sequence[float], highest_a: Sequence[float], source: str
) -> tuple[Line, ...]:
    """Current of the whole segment: the sum of its strings, typical and highest.

    Args:
        suffix: end of the names, the kind of segment.
        currents_a, highest_a: of each string, A.
        source: source key of the LED.
    """

    def total(name: str, title: str, values: Sequence[float]) -> Line:
        inputs = tuple(Given(f"I{i}", value, "A", f"string {i}") for i, value in enumerate(values, 1))
        formula = " + ".join(given.symbol for given in inputs)
        return Line(f"electrical.{name}.{suffix}", title, "Is", sum(values), "A", formula, inputs, source)

    return (
        total("segment_current", "current of a segment, typical", currents_a),
        total("segment_current_highest", "current of a segment, highest corner", highest_a),
    )
