"""The controller and the board as it was wired, as the design file says it."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, model_validator

from segkit.design.quantity import asked, merged, refused
from segkit.design.section import Section
from segkit.errors import InputError, Problem
from segkit.firmware import driver
from segkit.firmware.as_built import parse_chip

_Pin = Annotated[int, Field(ge=0, le=99)]


class Pins(Section):
    """Pins of the 8-bit controller, as the hobby boards number them (14 to 19 are A0 to A5)."""

    data: _Pin = asked(11, "To the data input of chip 1.")
    clock: _Pin = asked(13, "To the shift clock of every chip.")
    latch: _Pin = asked(10, "To the latch of every chip.")
    enable: _Pin = asked(9, "To output-enable of every chip: 9 or 10, where a timer can dim.")


class Gpio(Section):
    """Pins of the controller that runs MicroPython."""

    data: _Pin = asked(19, "To the data input of chip 1.")
    clock: _Pin = asked(18, "To the shift clock of every chip.")
    latch: _Pin = asked(17, "To the latch of every chip.")
    enable: _Pin = asked(16, "To output-enable of every chip.")


class Firmware(Section):
    """The code for the controller."""

    serial: Literal["hardware", "bit-banged"] = asked(
        "hardware", "The controller's own serial unit, or any pins, moved one by one."
    )
    pins: Pins = Field(default_factory=Pins)
    gpio: Gpio = Field(default_factory=Gpio)

    @model_validator(mode="after")
    def _pins_can_do_it(self) -> Firmware:
        problems = driver.pin_problems(
            driver.Pins(**self.pins.model_dump()), driver.Pins(**self.gpio.model_dump()), self.serial
        )
        if problems:
            first, *more = problems
            raise refused(merged([first, *(replace(p, text=p.text[0].upper() + p.text[1:]) for p in more)]))
        return self


def _chips(chips: list[str]) -> list[str]:
    problems: list[Problem] = []
    for number, chip in enumerate(chips, start=1):
        try:
            parse_chip(chip)
        except InputError as error:
            problems += error.at(key=f"chip {number}").problems
    if problems:
        raise refused(merged(problems))
    return chips


class AsBuilt(Section):
    """The board as it was wired, found by the walk test (segkit walk); the code follows it, not the plan."""

    chips: Annotated[list[str], AfterValidator(_chips)] = asked(
        [],
        'What the outputs QA to QH of each chip light, chip 1 first: digit and segment as in "1a 1b 2dp", '
        '"-" for none, "1a+1b" for two together. Empty: as planned.',
    )
    active: Literal["high", "low"] | None = asked(
        None, "What lights, if it is the other way round than the driver asks for."
    )
