"""All that the code for a controller is written from, before it takes the form of any language."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from segkit.errors import InputError, Problem
from segkit.firmware.lightness import pulse_counts
from segkit.firmware.table import Glyph, GlyphTable
from segkit.firmware.wiring import Wiring
from segkit.glyphs.segments import COLON, POINT
from segkit.glyphs.text import lamps

Serial = Literal["hardware", "bit-banged"]
SERIALS: tuple[Serial, ...] = ("hardware", "bit-banged")
#: Pins of the controller's own serial unit and of its first timer, as the hobby boards number them.
SERIAL_DATA, SERIAL_CLOCK, PULSE_PINS = 11, 13, (9, 10)
_LOWEST, _HIGHEST = 2, 19  # 0 and 1 talk to the computer


@dataclass(frozen=True)
class Pins:
    """Where the four signals leave the controller, by pin number.

    Attributes:
        data, clock, latch, enable: to the inputs of the registers of the same names.
    """

    data: int = SERIAL_DATA
    clock: int = SERIAL_CLOCK
    latch: int = 10
    enable: int = 9

    @property
    def all(self) -> tuple[tuple[str, int], ...]:
        """Signal and pin, in a fixed order."""
        return (("data", self.data), ("clock", self.clock), ("latch", self.latch), ("enable", self.enable))


@dataclass(frozen=True)
class RegisterPins:
    """Pins of the shift register by signal; 0 where it has none."""

    data: int = 14
    clock: int = 11
    latch: int = 12
    enable: int = 13


@dataclass(frozen=True)
class Driver:
    """What the generated code knows.

    Attributes:
        title, stamp: for the heading.
        layout: marks of the board.
        sample: text shown after power-on; fits the layout.
        wiring: which output lights which lamp.
        glyphs: by code point; the blank is one of them.
        serial: the controller's own serial unit, or pins moved one by one.
        pins: of the 8-bit controller.
        gpio: of the controller that runs MicroPython.
        register: pins of the shift register.
        counts: lit counts of 1024 for each brightness, dark to full.
    """

    title: str
    stamp: str
    layout: str
    sample: str
    wiring: Wiring
    glyphs: tuple[Glyph, ...]
    serial: Serial
    pins: Pins
    gpio: Pins
    register: RegisterPins
    counts: tuple[int, ...]

    @property
    def digits(self) -> int:
        """Digits of the board."""
        return max(digit for digit, _ in lamps(self.layout))

    @property
    def marks(self) -> tuple[tuple[str, ...], ...]:
        """For each digit the point and colon it has."""
        own = lamps(self.layout)
        return tuple(
            tuple(name for name in (POINT, COLON) if (digit, name) in own)
            for digit in range(1, self.digits + 1)
        )

    @property
    def groups(self) -> tuple[int, ...]:
        """Digits of each number on the board, parted by colons and gaps; points belong to a number.

        The layout ``88:88`` gives (2, 2).
        """
        parts = "".join(" " if mark == ":" else mark for mark in self.layout).split()
        return tuple(sum(mark in "8o" for mark in part) for part in parts)

    @property
    def gaps(self) -> tuple[str, ...]:
        """What stands between the groups: a colon or a blank."""
        marks = "".join(mark if mark in ": " else "8" for mark in self.layout).strip()
        gaps = [run for run in marks.split("8") if run]
        return tuple(":" if ":" in run else " " for run in gaps)


def driver(
    *,
    layout: str,
    wiring: Wiring,
    table: GlyphTable,
    sample: str = "",
    serial: Serial = "hardware",
    pins: Pins | None = None,
    gpio: Pins | None = None,
    register: RegisterPins | None = None,
    brightness_steps: int = 16,
) -> Driver:
    """Everything the code is written from, checked.

    Args:
        layout: marks of the board, such as ``88:88``.
        wiring: which output lights which lamp.
        table: the characters; its title and stamp go into the heading.
        sample: text shown after power-on.
        serial: ``hardware`` or ``bit-banged``.
        pins: of the 8-bit controller, 2 to 19; with ``hardware`` data is 11 and clock 13, and the enable
            pin is 9 or 10, whose timer dims.
        gpio: of the controller that runs MicroPython.
        register: pins of the shift register, for the comments.
        brightness_steps: levels from dark to full, 2 to 64.

    Raises:
        InputError: pins that are taken twice or cannot do it, steps out of range; all at once.

    Sources: common practice.
    """
    own = pins or Pins()
    other = gpio or Pins(data=19, clock=18, latch=17, enable=16)
    problems = [*_pin_problems(own, serial), *_twice(other, "gpio")]
    try:
        counts = pulse_counts(brightness_steps)
    except InputError as error:
        problems += error.at(key="brightness_steps").problems
        counts = ()
    if problems:
        raise InputError(problems)
    return Driver(
        title=table.title, stamp=table.stamp, layout=layout, sample=sample, wiring=wiring,
        glyphs=table.glyphs, serial=serial, pins=own, gpio=other,
        register=register or RegisterPins(), counts=counts,
    )  # fmt: skip


def _pin_problems(pins: Pins, serial: Serial) -> list[Problem]:
    problems = _twice(pins, "pins")
    strange = [f"{name} {pin}" for name, pin in pins.all if not _LOWEST <= pin <= _HIGHEST]
    if strange:
        text = "no such pin on the controller, or one that talks to the computer."
        problems.append(Problem(text, key="pins", value=", ".join(strange), limit="2 to 19 (14 to 19 = A0 to A5)"))
    if pins.enable not in PULSE_PINS:
        text = "this pin has no timer of ten bits behind it, which dims the board."
        problems.append(Problem(text, key="pins.enable", value=str(pins.enable), limit="9 or 10"))
    if serial == "hardware" and (pins.data, pins.clock) != (SERIAL_DATA, SERIAL_CLOCK):
        problems.append(
            Problem(
                "the serial unit has pins of its own.",
                key="pins",
                value=f"data {pins.data}, clock {pins.clock}",
                limit=f"data {SERIAL_DATA}, clock {SERIAL_CLOCK}",
                remedy='Use those, or write serial = "bit-banged" for any pins.',
            )
        )
    return problems


def _twice(pins: Pins, key: str) -> list[Problem]:
    taken: dict[int, list[str]] = {}
    for name, pin in pins.all:
        taken.setdefault(pin, []).append(name)
    return [
        Problem(f"pin {pin} is given to {' and '.join(names)}.", key=key, remedy="Give each its own.")
        for pin, names in taken.items()
        if len(names) > 1
    ]
