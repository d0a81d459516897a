"""What ``segkit resistor`` was asked: option texts to one record, with all faults in one message."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from segkit.catalog import reader
from segkit.catalog.part import Led, Sink
from segkit.cli.ask import within
from segkit.cli.output import gather
from segkit.electrical.driver import stated_sink
from segkit.electrical.led_curve import ROOM_C
from segkit.electrical.led_fit import fitted, parse_points, with_points
from segkit.electrical.preferred import series_values
from segkit.errors import InputError, MissingPartError, Problem, nearest
from segkit.units import CURRENT, PERCENT, POWER, RESISTANCE, VOLTAGE, parse_range, plain_number

#: Above this a direct voltage needs protection against touch.
TOUCH_V = 60.0
_LEAST_V = 0.5  # less lights no LED
#: Limit that an LED of unknown make is given: usual for 20 mA types.
USUAL_LIMIT_A = 0.030
#: Current at which the voltage of an LED of unknown make is taken to hold when none is asked for.
USUAL_CURRENT_A = 0.020
_MANY = 100
_DEGREES = r"[-+]?[0-9]+(?:\.[0-9]+)?\s*(?:°?\s*C|degC)?"
#: Change of the forward voltage of a usual LED with temperature, V/K: below and above 2.6 V.
_PER_K, _REDDISH_V = (-0.002, -0.003), 2.6


@dataclass(frozen=True)
class Question:
    """One string or one number of LEDs, and what it hangs on.

    Attributes:
        led: from the catalogue, or made from the voltage given (then with a slope of 0).
        known_led: True if from the catalogue.
        limit_assumed: True if nobody said what the LED stands.
        sink: from the catalogue, or one of stated drop.
        known_sink: True if from the catalogue.
        stated_drop_v: drop given by the user, V; None if the catalogue's holds.
        supply_v, supply_min_v, supply_max_v: V; the middle of the range if only that was given.
        in_series: LEDs in a string, 1 if nobody said; None if that is asked.
        leds: LEDs to divide into strings; None if one string is asked about.
        parallel: equal strings beside each other.
        current_a: asked for, A; None with a given resistor.
        given_ohm: a resistor to judge, Ω.
        given_rating_w: its rating, W.
        series: preferred-number series.
        tolerance: as a share.
        outputs: outputs on together; None for all that a package has.
        shared_by: segments on one resistor.
        logic_v: supply of the logic before the sink, V.
        coldest_c, hottest_c: of the LEDs, °C.
        network: resistors that a network is to hold; None if nobody asked.
    """

    led: Led
    known_led: bool
    limit_assumed: bool
    sink: Sink
    known_sink: bool
    stated_drop_v: float | None
    supply_v: float
    supply_min_v: float
    supply_max_v: float
    in_series: int | None
    leds: int | None
    parallel: int
    current_a: float | None
    given_ohm: float | None
    given_rating_w: float | None
    series: str
    tolerance: float
    outputs: int | None
    shared_by: int | None
    logic_v: float | None
    coldest_c: float = ROOM_C
    hottest_c: float = ROOM_C
    network: int | None = None

    @property
    def has_range(self) -> bool:
        """Whether lowest and highest supply were given."""
        return self.supply_min_v < self.supply_max_v


def read(texts: Mapping[str, str | None]) -> Question:
    """The question behind the option texts.

    Raises:
        InputError: every option that cannot be read, is missing or contradicts another.
    """
    problems: list[Problem] = []
    values: dict[str, Any] = {}
    for name, reader_of_text in _READERS.items():
        try:
            values |= gather(**{name: (texts.get(name), reader_of_text)})
        except InputError as error:
            problems += error.problems
            values[name] = None
    problems += _missing(texts) + _contradictions(texts, values)
    if problems:
        raise InputError(problems)
    return _question(values)


def _is_number(text: str) -> bool:
    """A bare number: the option's own name says ohm."""
    return re.fullmatch(r"\s*[0-9]*\.?[0-9]+\s*", text) is not None


def _range(text: str) -> tuple[float, float]:
    return parse_range(text, VOLTAGE)


def _temperatures(text: str) -> tuple[float, float]:
    """Coldest and hottest, °C, with or without the unit."""
    found = re.fullmatch(rf"\s*({_DEGREES})\s*(?:\.\.+|to|–)\s*({_DEGREES})\s*", text.replace("−", "-"))
    numbers = sorted(float(re.sub(r"[^-.0-9]", "", part)) for part in found.groups()) if found else []
    if not numbers or not -40 <= numbers[0] <= numbers[1] <= 100:
        limit, remedy = "-40 to 100 °C, the colder one first", 'Write it as in "-10 to 60".'
        raise InputError(Problem("no range of temperatures.", value=f'"{text}"', limit=limit, remedy=remedy))
    return numbers[0], numbers[1]


def _source(text: str) -> str:
    kinds = tuple(dict.fromkeys(row.type for row in reader.supplies().values()))
    if text.strip() not in kinds:
        remedy = nearest(text.strip(), kinds)
        raise InputError(
            Problem("not a kind of supply.", value=f'"{text}"', limit=", ".join(kinds), remedy=remedy)
        )
    return text.strip()


def _swing(kind: str, supply_v: float) -> tuple[float, float]:
    """Lowest and highest voltage of a kind of supply, in proportion to the nearest catalogue row."""
    rows = [row for row in reader.supplies().values() if row.type == kind]
    like = min(rows, key=lambda row: abs(row.nominal_v - supply_v))
    return like.min_v * supply_v / like.nominal_v, like.max_v * supply_v / like.nominal_v


def _count(text: str) -> int:
    if not re.fullmatch(r"\s*[0-9]{1,9}\s*", text) or not 1 <= int(text) <= _MANY:
        raise InputError(Problem("not a count.", value=f'"{text}"', limit=f"a whole number, 1 to {_MANY}"))
    return int(text)


def _series(text: str) -> str:
    series_values(text)
    return text.strip().upper()


def _led(text: str) -> Led:
    return reader.led(text.strip())


def _driver(text: str) -> Sink:
    """A sink by its id; the id of a shift register stands for its outputs alone."""
    name = text.strip()
    sinks = reader.sinks()
    if name in sinks:
        return sinks[name]
    registers = reader.registers()
    if name in registers:
        alone = [sink for sink in sinks.values() if sink.type == "register"]
        for sink in alone:
            if sink.source == registers[name].source:
                return sink
    known = ", ".join((*sinks, *(id_ for id_ in registers if id_ not in sinks)))
    raise MissingPartError(Problem("no such driver in the catalogue.", value=f'"{text}"', limit=known))


_TOUCH = "Direct voltage above 60 V needs protection against touch: ask a licensed electrician."
_READERS: Mapping[str, Callable[[str], Any]] = {
    "supply": within(VOLTAGE, low=_LEAST_V, high=TOUCH_V, remedy=_TOUCH),
    "supply_range": _range,
    "vf": within(VOLTAGE, low=_LEAST_V, high=TOUCH_V),
    "vf_range": _range,
    "led": _led,
    "series": _count,
    "leds": _count,
    "parallel": _count,
    "current": within(CURRENT, low=0.0001, high=5.0),
    "drop": within(VOLTAGE, low=0.0, high=10.0),
    "driver": _driver,
    "ohm": lambda text: within(RESISTANCE, low=0.1, high=1e7)(f"{text} ohm" if _is_number(text) else text),
    "rating": within(POWER, low=0.01, high=100.0),
    "values": _series,
    "tolerance": within(PERCENT, low=0.0, high=0.2, remedy="Usual are 1 % and 5 %."),
    "max_current": within(CURRENT, low=0.0001, high=10.0),
    "outputs": _count,
    "shared_by": _count,
    "logic": within(VOLTAGE, low=1.0, high=24.0),
    "source": _source,
    "temperature": _temperatures,
    "network": _count,
    "points": parse_points,
}


def _missing(texts: Mapping[str, str | None]) -> list[Problem]:
    given = {name for name, text in texts.items() if text is not None}
    found = []
    if not given & {"supply", "supply_range"}:
        found.append(
            Problem("the supply is missing.", key="--supply", remedy='Give it as in "--supply 12V".')
        )
    if not given & {"vf", "led", "points"}:
        remedy = 'Give the forward voltage, "--vf 2.0V", or a catalogue LED, "--led red-5mm-diffused".'
        found.append(Problem("the LED is missing.", key="--vf", remedy=remedy))
    if not given & {"current", "ohm"}:
        remedy = 'Give the current wanted, "--current 20mA", or a resistor to judge, "--ohm 150".'
        found.append(Problem("the current is missing.", key="--current", remedy=remedy))
    return found


def _contradictions(texts: Mapping[str, str | None], values: Mapping[str, Any]) -> list[Problem]:
    given = {name for name, text in texts.items() if text is not None}
    found = []
    for one, other, why in (
        ("vf", "led", "The catalogue LED has its own voltage: leave one of them out."),
        ("vf_range", "led", "The catalogue LED has its own bins: leave one of them out."),
        ("leds", "ohm", "A given resistor belongs to a given string: use --series instead of --leds."),
        ("leds", "parallel", "--leds divides by itself: leave --parallel out, or use --series."),
        ("vf", "points", "The points say what the LED drops: leave one of them out."),
        ("source", "supply_range", "A range of your own needs no kind of supply: leave one of them out."),
        ("leds", "shared_by", "Say which string the shared resistor feeds: use --series instead of --leds."),
    ):
        if {one, other} <= given:
            pair = f"--{one.replace('_', '-')} and --{other.replace('_', '-')}"
            found.append(Problem(f"{pair} do not go together.", remedy=why))
    needs = (("rating", "ohm"), ("outputs", "driver"), ("logic", "driver"), ("source", "supply"))
    for option, needed in needs:
        if option in given and needed not in given:
            remedy = f"Add --{needed}."
            found.append(Problem(f"it means nothing without --{needed}.", key=f"--{option}", remedy=remedy))
    steady = values["driver"] is not None and values["driver"].type == "constant-current"
    for option in ("ohm", "network"):
        if steady and option in given:
            remedy = f"It sets the current itself: leave --{option} out and give --current."
            found.append(
                Problem("a constant-current sink needs no resistor.", key=f"--{option}", remedy=remedy)
            )
    found += _outside("supply", values) + _outside("vf", values)
    if values["series"] and values["leds"] and values["series"] > values["leds"]:
        text = f"a string cannot be longer than the {values['leds']} LEDs there are."
        found.append(Problem(text, key="--series", value=str(values["series"])))
    if values["shared_by"] == 1:
        found.append(Problem("one segment shares with nobody.", key="--shared-by", limit="2 or more"))
    if (limits := values["supply_range"]) and not _LEAST_V <= limits[0] <= limits[1] <= TOUCH_V:
        found.append(Problem("out of range.", key="--supply-range", limit="0.5 V to 60 V", remedy=_TOUCH))
    return found


def _outside(name: str, values: Mapping[str, Any]) -> list[Problem]:
    value, limits = values[name], values[f"{name}_range"]
    if value is None or limits is None or 0 < limits[0] <= value <= limits[1]:
        return []
    low, high = (plain_number(limit) for limit in limits)
    remedy = "Give the lowest and highest value that belong to it, both above 0."
    text = f"it does not lie in the range given, {low} V to {high} V."
    return [Problem(text, key=f"--{name}", value=f"{plain_number(value)} V", remedy=remedy)]


def _question(values: Mapping[str, Any]) -> Question:
    low_v, high_v = values["supply_range"] or (values["supply"], values["supply"])
    supply_v = values["supply"] or (low_v + high_v) / 2
    if values["source"]:
        low_v, high_v = _swing(values["source"], supply_v)
    led = values["led"] or _led_of_voltage(values)
    if values["points"]:
        led = with_points(led, values["points"])
    if values["max_current"] is not None:
        led = replace(led, max_current_a=values["max_current"], source="design-choice")
    sink = values["driver"] or stated_sink(values["drop"] or 0.0)
    return Question(
        led=led,
        known_led=values["led"] is not None or values["points"] is not None,
        limit_assumed=values["led"] is None and values["max_current"] is None,
        sink=sink,
        known_sink=values["driver"] is not None,
        stated_drop_v=values["drop"],
        supply_v=supply_v,
        supply_min_v=low_v,
        supply_max_v=high_v,
        in_series=values["series"] or (None if values["leds"] else 1),
        leds=values["leds"],
        parallel=values["parallel"] or 1,
        current_a=values["current"],
        given_ohm=values["ohm"],
        given_rating_w=values["rating"],
        series=values["values"] or "E24",
        tolerance=0.05 if values["tolerance"] is None else values["tolerance"],
        outputs=values["outputs"],
        shared_by=values["shared_by"],
        logic_v=values["logic"],
        coldest_c=(values["temperature"] or (ROOM_C, ROOM_C))[0],
        hottest_c=(values["temperature"] or (ROOM_C, ROOM_C))[1],
        network=values["network"],
    )


def _led_of_voltage(values: Mapping[str, Any]) -> Led:
    current_a = values["current"] or USUAL_CURRENT_A
    vf_v = values["vf"] or fitted(values["points"]).curve.voltage_v(current_a)
    low_v, high_v = values["vf_range"] or (vf_v, vf_v)
    return Led(
        id="stated", name="LED of stated voltage", source="common-practice", knowledge="stated", colour="",
        wavelength_nm=0.0, vf_v=vf_v, vf_min_v=low_v, vf_max_v=high_v, test_current_a=current_a,
        slope_ohm=0.0, vf_temperature_v_per_k=_PER_K[vf_v > _REDDISH_V], intensity_cd=0.0,
        intensity_min_cd=0.0, intensity_current_a=current_a, radiant_power_w=0.0, full_angle_deg=0.0,
        max_current_a=max(USUAL_LIMIT_A, 1.5 * current_a), body_mm=5.0, tip_mm=0.0,
    )  # fmt: skip
