"""The design file as records: what the builder asks for, in units that stand in the names.

Every key has a default with a reason, so that a file of a few lines already builds. Only
``project.py`` takes a ``Design``; the stages get numbers.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, model_validator

from segkit import units
from segkit.design.feed import Cable, Common, Converter, Regulator, Signals, Use, step_problem
from segkit.design.firmware import AsBuilt, Firmware
from segkit.design.lamps import Dimming, Drive, Turns
from segkit.design.led import AnyLed
from segkit.design.making import Buying, Colours, Make, Paper, Site
from segkit.design.own_sheet import AnySheet
from segkit.design.places import Places, Positions, count_problems
from segkit.design.quantity import Checked, Quantity, Share, asked, merged, refused
from segkit.design.resistors import Ohms, sink_problem
from segkit.design.section import Name, Part, Section
from segkit.errors import Problem
from segkit.geometry.layout import layout_problems
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.characters import Style, ordered
from segkit.glyphs.segments import SEGMENTS
from segkit.viewing.legibility import parse_eyesight
from segkit.viewing.luminance import parse_light


def _voltage_range(text: str) -> tuple[float, float]:
    return units.parse_range(text, units.VOLTAGE)


def _layout(text: str) -> str:
    if problems := layout_problems(text):
        raise refused(merged(problems))
    return text


def _own_glyphs(custom: dict[str, str]) -> dict[str, str]:
    """One character each, and segments that are there."""
    problems = [
        Problem(f'"{key}" is not one character.', limit="one character each", remedy="Draw them one by one.")
        for key in custom
        if len(key) != 1
    ]
    for key, segments in custom.items():
        wrong = [word for word in segments.replace(",", " ").split() if set(word) - set(SEGMENTS)]
        if wrong:
            text = f'"{key}" names {", ".join(wrong)}, no segment of a digit.'
            problems.append(Problem(text, limit="segments a to g", remedy='Write it as in "c e g a".'))
    if problems:
        raise refused(merged(problems))
    return {key: "".join(ordered(segments.replace(",", ""))) for key, segments in custom.items()}


class Display(Section):
    """What the board shows."""

    title: Name = asked("Untitled display", "Name on every sheet and in the report.")
    layout: Annotated[Name, AfterValidator(_layout)] = asked(
        "88:88",
        "8 a digit, o a small digit, . a point after a digit, : a colon, a blank half a digit of space.",
    )
    sample: Annotated[str, Field(max_length=80)] = asked(
        "", "Text shown in the pictures; all segments lit if left out."
    )


class Reading(Section):
    """Who reads it, from where, in which light."""

    distance_mm: Annotated[float, Quantity(units.LENGTH, "0.5 m", "500 m")] = asked(
        "20 m", "The farthest reader: a yard across.", "distance"
    )
    angle_deg: Annotated[float, Quantity(units.ANGLE, "0 deg", "75 deg")] = asked(
        "0 deg", "How far to the side of the board's axis the reader stands.", "angle"
    )
    vertical_angle_deg: Annotated[float, Quantity(units.ANGLE, "0 deg", "75 deg")] = asked(
        "0 deg", "How far below or above the board's axis.", "vertical_angle"
    )
    eyesight: Annotated[str, Checked(parse_eyesight, "eyesight such as 20/40 or 6/12")] = asked(
        "20/40", "20/40 is the poorest eyesight that many driving licences allow."
    )
    light: Annotated[str, Checked(parse_light, "night, dusk, overcast, shade, sun or an illuminance")] = (
        asked("dusk", "Light on the face of the board at the worst time it must be read.")
    )
    comfort: Literal["minimum", "comfortable", "generous"] = asked(
        "comfortable", "16, 20 or 24 minutes of arc for a reader with 20/20."
    )
    baseline_mm: Annotated[float, Quantity(units.LENGTH, "0 m", "50 m")] | None = asked(
        None, "Height of the digits' foot above the floor, for the building codes.", "baseline"
    )
    zone: Literal["E0", "E1", "E2", "E3", "E4"] = asked(
        "E2",
        "Surroundings, for dimming at night: E0 protected dark sky, E1 dark countryside, E2 village or "
        "outskirts, E3 suburb, E4 town centre.",
    )


class Digit(Section):
    """The shape of a digit."""

    height_mm: Annotated[float, Quantity(units.LENGTH, "20 mm", "3 m")] | None = asked(
        None, "Left out: worked out from [reading].", "height"
    )
    width: Annotated[float, Share(0.3, 1.2, "the height")] | Literal["one-piece"] = asked(
        0.55, 'Of the height; "one-piece" makes all seven segments the same piece.'
    )
    stroke: Annotated[float, Share(0.05, 0.3, "the height")] = asked(
        0.14, "Of the height; 1/6 to 1/12 reads well."
    )
    gap_mm: Annotated[float, Quantity(units.LENGTH, "0.3 mm", "60 mm")] = asked(
        "5 mm", "Clear distance between neighbouring segments: the web of board left there.", "gap"
    )
    slant_deg: Annotated[float, Quantity(units.ANGLE, "-30 deg", "30 deg")] = asked(
        "0 deg", "Lean to the right; a matter of style, upright cuts easiest.", "slant"
    )
    ends: Literal["pointed", "blunt", "rounded"] = asked("pointed", "Ends of the segments.")
    spacing: Annotated[float, Share(0.05, 2.0, "the height")] = asked(
        0.22, "Clear distance between digits; at least one stroke."
    )
    small: Annotated[float, Share(0.3, 0.95, "the large digits' height")] = asked(
        0.6, "Height of the digits written o in the layout."
    )
    point: Annotated[float, Share(0.5, 2.0, "the stroke")] = asked(1.0, "Diameter of a point or colon dot.")
    margin_mm: Annotated[float, Quantity(units.LENGTH, "5 mm", "500 mm")] = asked(
        "40 mm", "From the digits to the edge of the board; holds the fixing holes.", "margin"
    )
    fixing_hole_mm: Annotated[float, Quantity(units.LENGTH, "1 mm", "20 mm")] = asked(
        "4 mm", "Diameter of the fixing holes: M4 screws.", "fixing_hole"
    )


class Glyphs(Section):
    """Which characters the table holds, and how they look."""

    characters: Name = asked("0-9 A-F - _", "Characters in the exported table; the blank is always in.")
    six: Literal["tail", "plain"] = asked("tail", "6 with its top bar: without it, it is a b.")
    seven: Literal["tail", "plain"] = asked("plain", "7 with three segments, or four with a tail.")
    nine: Literal["tail", "plain"] = asked("tail", "9 with its bottom bar: without it, it is a q.")
    custom: Annotated[dict[str, str], AfterValidator(_own_glyphs)] = asked(
        {}, 'Characters of your own: "ñ" = "c e g a".'
    )

    @property
    def style(self) -> Style:
        """The forms of the digits that have two."""
        return Style(six=self.six, seven=self.seven, nine=self.nine)


class Pocket(Section):
    """The light box behind each segment."""

    led: AnyLed = asked("red-5mm-diffused", "A catalogue id, or a table of your own values.")
    per_segment: Literal["auto"] | Annotated[int, Field(ge=1, le=200)] = asked(
        "auto", "LEDs in a segment; auto takes the fewest that light it evenly."
    )
    rows: Literal["auto"] | Annotated[int, Field(ge=1, le=4)] = asked(
        "auto", "Rows of LEDs side by side in a segment, 1 to 4; auto takes as few as light it evenly."
    )
    places: Annotated[dict[str, Positions], Places()] = asked(
        {},
        "LED places of your own, by kind of segment (upright, crossbar, bar, point, colon, small-upright): "
        'a list such as ["-40 mm", "0 mm", "40 mm, 5 mm"], along the segment from its middle, or along and '
        "across. Kinds left out are worked out: even light needs other places for other LEDs and depths.",
    )
    current_a: Annotated[float, Quantity(units.CURRENT, "0.5 mA", "3 A")] = asked(
        "15 mA",
        "Current in each LED of the darkest kind of segment; the others get less, so that all are equally "
        "bright. Below the limit for a cool, long life.",
        "current",
    )
    depth_mm: Annotated[float, Quantity(units.LENGTH, "5 mm", "300 mm")] = asked(
        "25 mm", "From the back board to the diffuser.", "depth"
    )
    walls: AnySheet = asked(
        "aluminium-tape",
        "What the walls of a pocket look like, and its back if it has no reflector; opaque, so that no light "
        "leaks into the next segment.",
    )
    reflector: AnySheet | None = asked(
        None, "Sheet or lining of the back between the LEDs; that of the walls if left out."
    )
    diffuser: AnySheet = asked("opal-acrylic-3mm", "Sheet that the reader looks at.")
    front: AnySheet | None = asked(None, "Tinted sheet over the whole face; none if left out.")
    evenness: Annotated[float, Share(0.3, 0.95, "the mean luminance")] = asked(
        0.7, "Darkest over mean that is asked for when per_segment is auto."
    )

    @model_validator(mode="after")
    def _counts_agree(self) -> Pocket:
        if self.per_segment != "auto" and (problems := count_problems(self.places, self.per_segment)):
            raise refused(merged(problems))
        return self


class Power(Section):
    """From the plug to the segment."""

    supply_v: Annotated[float, Quantity(units.VOLTAGE, "3 V", "60 V")] = asked(
        "12 V", "Named voltage of the LED supply.", "supply"
    )
    source: Literal["mains-adapter", "lead-acid", "lithium", "cells"] = asked(
        "mains-adapter", "Sets how far the voltage swings if the range is left out."
    )
    supply_range: Annotated[str, Checked(_voltage_range, "a range of voltages")] | None = asked(
        None, 'Lowest and highest voltage in use, as "11 V to 13.8 V".', "range"
    )
    supply_current_a: Annotated[float, Quantity(units.CURRENT, "10 mA", "100 A")] | None = asked(
        None, "What the supply you have can give, to be checked.", "supply_current"
    )
    battery_ah: Annotated[float, Quantity(units.CAPACITY, "0.1 Ah", "1000 Ah")] | None = asked(
        None, "Capacity of the battery, for the hours it lasts.", "battery"
    )
    driver: Annotated[str, Part("drivers")] = asked("darlington-sink-8", "What sinks the segment's current.")
    register_id: Annotated[str, Part("registers")] = asked("hc595", "The shift register.", "register")
    logic_v: Annotated[float, Quantity(units.VOLTAGE, "1.8 V", "6 V")] = asked(
        "5 V", "Supply of the registers.", "logic"
    )
    controller_v: Annotated[float, Quantity(units.VOLTAGE, "1.8 V", "6 V")] | None = asked(
        None, "Level of the controller's pins; that of the registers if left out.", "controller"
    )
    order: Annotated[
        str, Checked(parse_order, "the eight names dp g f e d c b a, most significant bit first")
    ] = asked("dp g f e d c b a", "Segments of a byte, most significant bit first.")
    first_digit: Literal["left", "right"] = asked(
        "left", "Digit on the chip next to the controller, as the reader sees it."
    )
    values: Literal["E12", "E24", "E96"] = asked("E24", "Preferred numbers of the resistors.")
    tolerance: Annotated[float, Quantity(units.PERCENT, "0.1 %", "20 %")] = asked(
        "5 %", "Tolerance of the resistors."
    )
    in_series: Annotated[int, Field(ge=1, le=40)] | None = asked(
        None, "LEDs in a string; worked out if left out."
    )
    resistor_ohm: Annotated[float | dict[str, float], Ohms()] | None = asked(
        None,
        "Resistor of each string that you already have: one value for the board, or a table by kind of "
        "segment (upright, crossbar, bar, point, colon, small-upright); kinds left out are worked out.",
        "resistor",
    )
    resistor_parts: Literal["single", "networks"] = asked(
        "single",
        "single: a resistor at each string; networks: those of one value in packages beside the "
        "connector of the digit, with a wire to each string.",
    )
    cable: Cable = Field(default_factory=Cable)
    common: Common = Field(default_factory=Common)
    signals: Signals = Field(default_factory=Signals)
    regulator: Regulator = Field(default_factory=Regulator)
    converter: Converter = Field(default_factory=Converter)
    use: Use = Field(default_factory=Use)

    @model_validator(mode="after")
    def _parts_agree(self) -> Power:
        given = self.resistor_ohm is not None
        found = (
            step_problem(self.converter, supply_v=self.supply_v),
            sink_problem(self.driver) if given else None,
        )
        if problems := [problem for problem in found if problem]:
            raise refused(merged(problems))
        return self


class Design(Section):
    """A whole design file."""

    display: Display = Field(default_factory=Display)
    reading: Reading = Field(default_factory=Reading)
    digit: Digit = Field(default_factory=Digit)
    glyphs: Glyphs = Field(default_factory=Glyphs)
    pocket: Pocket = Field(default_factory=Pocket)
    power: Power = Field(default_factory=Power)
    drive: Drive = Field(default_factory=Drive)
    dimming: Dimming = Field(default_factory=Dimming)
    turns: Turns = Field(default_factory=Turns)
    make: Make = Field(default_factory=Make)
    site: Site = Field(default_factory=Site)
    paper: Paper = Field(default_factory=Paper)
    buying: Buying = Field(default_factory=Buying)
    colours: Colours = Field(default_factory=Colours)
    firmware: Firmware = Field(default_factory=Firmware)
    as_built: AsBuilt = Field(default_factory=AsBuilt)
