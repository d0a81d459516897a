"""From the plug to the board, as the design file says it: cable, signals, regulator, converter, use."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import Field

from segkit import units
from segkit.design.quantity import Checked, Quantity, Reads, Share, asked, merged, refused
from segkit.design.section import Section
from segkit.electrical import battery, converter, regulator
from segkit.electrical.common_drop import parse_drop
from segkit.electrical.segment_cable import parse_return
from segkit.electrical.wire_size import wire_of
from segkit.errors import InputError, Problem
from segkit.units import plain_number

_Wire = Checked(wire_of, "an id of the catalogue, or a size such as 20 AWG, 0.75 mm2, 8 x 0.22 mm2")


_EXPONENT = Share(1.0, 1.4, "one, which would be no loss")


@dataclass(frozen=True)
class Peukert(Reads):
    """A field that holds the exponent of a battery, or two of its ratings to find it from."""

    def read(self, value: Any) -> float:
        """The exponent; refused with its limits where the ratings give none that a battery has."""
        if not isinstance(value, str):
            return _EXPONENT.read(value)
        try:
            found = battery.exponent_of(value)
        except InputError as error:
            raise refused(merged(error.problems)) from None
        if not _EXPONENT.low <= found <= _EXPONENT.high:
            text = f"these ratings give an exponent of {found:.2f}, which no lead-acid battery has."
            limit = f"{_EXPONENT.low} to {_EXPONENT.high}"
            raise refused(
                Problem(text, value=f'"{value}"', limit=limit, remedy="Read the two ratings again.")
            )
        return found

    def json_schema(self) -> dict[str, Any]:
        """For editors."""
        return {"anyOf": [_EXPONENT.json_schema(), {"type": "string"}]}


class Cable(Section):
    """The cable to the board, and the wires along the digits."""

    kind: Annotated[str, _Wire] = asked(
        "hook-up-1-5mm2", 'A catalogue id, or a size: "20 AWG", "0.75 mm2", "8 x 0.22 mm2".'
    )
    length_mm: Annotated[float, Quantity(units.LENGTH, "0.05 m", "300 m")] = asked(
        "3 m", "One way.", "length"
    )
    carries: Literal["supply", "segments"] = asked(
        "supply",
        "supply: the chips are on the board and two wires feed it; segments: the chips are with the "
        "controller, and a cable for each digit brings one core a segment and a common one.",
    )
    each_way: Annotated[int, Field(ge=1, le=20)] = asked(
        1, "Where the cable carries the supply: cores side by side for each of the two ways."
    )
    returns: Annotated[str, Checked(parse_return, 'a number of cores, "2 cores", or a wire')] = asked(
        "1 core",
        'Common of a segment cable: "1 core", "2 cores" side by side, or a wire of its own.',
        "return",
    )
    along: Annotated[str, _Wire] | None = asked(
        None,
        "Where the cable carries the supply: both wires along the digits on the board; left out: the "
        "thinnest of the wire list that carries all of it.",
    )
    feed: Literal["left", "right", "middle"] | None = asked(
        None,
        "Where the supply comes in to them, as the reader sees the board; left out: at the digit next to the "
        "controller.",
    )
    temperature_c: Annotated[float, Field(ge=-40, le=105)] = asked(
        20.0, "Of the wires, in °C: in the sun 50 to 70; copper gains 4 % in 10."
    )


class Common(Section):
    """What stands in the common lead, between the supply and the segments."""

    drop: Annotated[str, Checked(parse_drop, "a voltage, or a range of voltages")] | None = asked(
        None,
        'Voltage that a part in plus takes from all segments: "1.3 V" a source array, "0.4 V to 0.7 V" a '
        "diode against reversal. Left out: nothing is lost there.",
    )
    drop_in: Literal["digit", "board"] = asked(
        "digit", "digit: such a part in the common lead of each digit; board: one in plus of all of them."
    )

    resistor_ohm: Annotated[float, Quantity(units.RESISTANCE, "0.1 ohm", "100 kohm")] | None = asked(
        None,
        "A resistor in the common lead of a digit, which should not be there: it shares its current among "
        "all segments that are lit. Left out: none.",
        "resistor",
    )
    only: bool = asked(False, "true where that resistor is the only one: no string has one of its own.")


class Signals(Section):
    """Data, clock and latch from the controller to the registers."""

    length_mm: Annotated[float, Quantity(units.LENGTH, "0.05 m", "300 m")] | None = asked(
        None, "From the controller to the first register; left out: the controller sits beside it.", "length"
    )
    clock_hz: Annotated[float, Quantity(units.FREQUENCY, "100 Hz", "20 MHz")] = asked(
        "1 MHz", "Clock of the bits.", "clock"
    )


class Regulator(Section):
    """Where the logic gets its voltage."""

    kind: Literal["none", "linear", "step-down"] = asked(
        "none",
        "none: a supply of its own, left out of the budget; linear or step-down: made from the LED supply.",
    )
    current_a: Annotated[float, Quantity(units.CURRENT, "0 mA", "5 A")] = asked(
        "50 mA", "Registers and controller.", "current"
    )
    air_k_per_w: Annotated[float, Field(ge=1, le=300)] = asked(
        regulator.BARE_K_PER_W,
        "Junction to air of a linear regulator in K/W: 65 a bare large case, 45 on a small heat sink.",
    )
    air_c: Annotated[float, Field(ge=-40, le=85)] = asked(
        50.0, "Air around it in °C: 50 in a closed box that the sun may reach."
    )


class Converter(Section):
    """A step-down converter at the board: the cable brings a higher voltage."""

    source_v: Annotated[float, Quantity(units.VOLTAGE, "5 V", "60 V")] | None = asked(
        None,
        "Voltage that the cable brings; left out: no converter. Source, range, supply_current and battery "
        "then belong to it, and supply is what the converter gives the LEDs.",
        "from",
    )
    efficiency: Annotated[float, Share(0.5, 0.99, "the power taken in")] = asked(
        converter.EFFICIENCY, "Share that it passes on."
    )


class Use(Section):
    """What the board shows, and what a battery must do for it."""

    content: Annotated[str, Field(min_length=1, max_length=40)] = asked(
        "digits",
        "digits: all ten equally often; clock 24 h; clock 12 h; count 0 to 13 (leading zeros dark, count 00 "
        "to 59 keeps them); everything; or a text in apostrophes that stands still.",
    )
    level: Annotated[float, Share(0.005, 1.0, "full brightness")] = asked(
        1.0, "Brightness on average, where it is dimmed."
    )
    lasts_s: Annotated[float, Quantity(units.DURATION, "0.1 h", "10000 h")] | None = asked(
        None, "How long the battery has to last.", "lasts"
    )
    usable: Annotated[float, Share(0.1, 1.0, "the battery's capacity")] = asked(
        1.0, "Taken out before it is charged: 0.5 makes a lead-acid battery last for years."
    )
    peukert: Annotated[float, Peukert()] = asked(
        battery.PEUKERT,
        "Exponent of a lead-acid battery: 1.05 to 1.15 sealed, 1.2 to 1.3 flooded; or two ratings of its "
        'data sheet, as in "0.36 A for 20 h, 4.4 A for 1 h".',
    )
    rated_s: Annotated[float, Quantity(units.DURATION, "1 h", "100 h")] = asked(
        "20 h", "Time over which the battery's capacity is rated.", "rated"
    )


def step_problem(made: Converter, *, supply_v: float) -> Problem | None:
    """What is wrong with a converter whose source is not above what it gives.

    Args:
        made: the converter asked for.
        supply_v: voltage of the LEDs' supply, V.

    Example:
        >>> step_problem(Converter(), supply_v=12.0) is None
        True
    """
    if made.source_v is None or made.source_v > supply_v:
        return None
    return Problem(
        "a step-down converter cannot raise the voltage.",
        value=f"from {plain_number(made.source_v)} V to {plain_number(supply_v)} V",
        limit=f"more than {plain_number(supply_v)} V",
        remedy="Take a source of higher voltage, or leave [power.converter] out.",
    )
