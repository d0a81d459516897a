"""All that the code for a controller is written from, before it takes the form of any language."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from segkit.electrical.dimming import TIMER_HZ, Dimming, dimming
from segkit.errors import InputError, Problem
from segkit.firmware.table import Glyph, GlyphTable
from segkit.firmware.turns import Turns
from segkit.firmware.wiring import Wiring
from segkit.glyphs.characters import plain_text
from segkit.glyphs.segments import COLON, POINT
from segkit.glyphs.text import lamps

Serial = Literal["hardware", "bit-banged"]
#: Pins of the controller's own serial unit and of its first timer, as the hobby boards number them.
SERIAL_DATA, SERIAL_CLOCK, PULSE_PINS = 11, 13, (9, 10)
_FEWEST_BITS, _MOST_BITS = 8, 10
_PRESCALES = (1, 8, 64, 256, 1024)
_USUAL_HZ = 4000.0
#: What the serial unit can divide the controller's clock by.
SERIAL_DIVIDERS = (2, 4, 8, 16, 32, 64, 128)
BIT_CYCLES = 14  # of a bit where pins are moved one by one; held against a simulator by a test
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
class Brightness:
    """Levels of brightness by the pulse on output-enable.

    Attributes:
        counts: lit counts of a period at each level, from dark (0) to full (``period``).
        bits: of the timer: 8, 9 or 10, which the controller's first timer has by itself.
        frequency_hz: pulses a second asked for.
        night: the brightest level for the night, or None where nothing limits it.
    """

    counts: tuple[int, ...]
    bits: int
    frequency_hz: float
    night: int | None = None

    @property
    def period(self) -> int:
        """Counts of a period, 2^bits."""
        return int(2**self.bits)

    @property
    def prescale(self) -> int:
        """What the timer's clock is divided by, so that the pulse is as fast as asked or faster."""
        fits = [by for by in _PRESCALES if TIMER_HZ / by / self.period >= self.frequency_hz]
        return max(fits, default=1)

    @property
    def pulse_hz(self) -> float:
        """Pulses a second of the 8-bit controller."""
        return TIMER_HZ / self.prescale / self.period


def brightness(dimmed: Dimming, *, frequency_hz: float) -> Brightness:
    """The levels of a board for the code: dark, and those that look equally far apart.

    A level of share Y is lit for round(Y*2^bits) counts, at least one. Fewer bits than 8 are done with 8,
    more than 10 with 10.

    Args:
        dimmed: from ``dimming.dimming``.
        frequency_hz: pulses a second asked for, Hz.

    Example:
        >>> from segkit.electrical.dimming import dimming
        >>> brightness(dimming(levels=4, bits=8), frequency_hz=4000.0).counts
        (0, 11, 47, 124, 256)
    """
    bits = min(max(dimmed.bits, _FEWEST_BITS), _MOST_BITS)
    counts = (0, *(max(1, round(level.share * 2**bits)) for level in dimmed.levels))
    within = [number for number, count in enumerate(counts) if count <= dimmed.night_share * 2**bits]
    return Brightness(counts, bits, frequency_hz, max(within) if dimmed.night_share < 1 else None)


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
        bright: levels of brightness.
        clock_hz: fastest clock of the bits that the wires to the registers can bear.
        turns: timing where the digits take turns; None for static drive alone.
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
    bright: Brightness
    clock_hz: float
    turns: Turns | None = None

    @property
    def serial_divider(self) -> int:
        """What the serial unit divides the controller's clock by: as fast as asked, or slower."""
        fits = [by for by in SERIAL_DIVIDERS if TIMER_HZ / by <= self.clock_hz]
        return min(fits, default=SERIAL_DIVIDERS[-1])

    @property
    def pause_us(self) -> int:
        """Microseconds by which each bit must wait where pins are moved one by one."""
        return max(0, round(1e6 / self.clock_hz - BIT_CYCLES * 1e6 / TIMER_HZ))

    @property
    def digits(self) -> int:
        """Digits of the board."""
        return max(digit for digit, _ in lamps(self.layout))

    @property
    def first_text(self) -> str:
        """What the board shows after power-on: the sample, or every digit 8."""
        return plain_text(self.sample) or "8" * self.digits

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
    bright: Brightness | None = None,
    clock_hz: float = 1e6,
    turns: Turns | None = None,
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
        bright: levels of brightness; eight that look equally far apart if left out.
        clock_hz: fastest clock of the bits that the wires to the registers can bear, Hz.
        turns: from ``turns.turns`` where the digits take turns.

    Raises:
        InputError: pins that are taken twice or cannot do it; all at once.

    Sources: common practice.
    """
    own = pins or Pins()
    other = gpio or Pins(data=19, clock=18, latch=17, enable=16)
    problems = pin_problems(own, other, serial)
    if problems:
        raise InputError(problems)
    return Driver(
        title=table.title, stamp=table.stamp, layout=layout, sample=sample, wiring=wiring,
        glyphs=table.glyphs, serial=serial, pins=own, gpio=other,
        register=register or RegisterPins(),
        bright=bright or brightness(dimming(), frequency_hz=_USUAL_HZ), clock_hz=clock_hz, turns=turns,
    )  # fmt: skip


def pin_problems(pins: Pins, gpio: Pins, serial: Serial) -> list[Problem]:
    """What is wrong with the pins of a design, all at once.

    Args:
        pins: of the 8-bit controller.
        gpio: of the controller that runs MicroPython.
        serial: ``hardware`` or ``bit-banged``.

    Sources: common practice.
    """
    return [*_avr_pin_problems(pins, serial), *_twice(gpio, "gpio")]


def _avr_pin_problems(pins: Pins, serial: Serial) -> list[Problem]:
    problems = _twice(pins, "pins")
    strange = [f"{name} {pin}" for name, pin in pins.all if not _LOWEST <= pin <= _HIGHEST]
    if strange:
        text = "no such pin on the controller, or one that talks to the computer."
        problems.append(
            Problem(text, key="pins", value=", ".join(strange), limit="2 to 19 (14 to 19 = A0 to A5)")
        )
    if pins.enable not in PULSE_PINS:
        text = "this pin has no timer of ten bits behind it, which dims the board."
        problems.append(Problem(text, key="pins.enable", value=str(pins.enable), limit="9 or 10"))
    if serial == "hardware" and (pins.data, pins.clock) != (SERIAL_DATA, SERIAL_CLOCK):
        problems.append(
            Problem(
                f"the serial unit has pins of its own, data {SERIAL_DATA} and clock {SERIAL_CLOCK}.",
                key="pins",
                value=f"data {pins.data}, clock {pins.clock}",
                limit=f"data {SERIAL_DATA}, clock {SERIAL_CLOCK}",
                remedy='Take those of the serial unit, or write serial = "bit-banged" for any pins.',
            )
        )
    return problems


def _twice(pins: Pins, key: str) -> list[Problem]:
    taken: dict[int, list[str]] = {}
    for name, pin in pins.all:
        taken.setdefault(pin, []).append(name)
    return [
        Problem(
            f"pin {pin} is given to {' and '.join(names)}.",
            key=key,
            remedy="Give each signal a pin of its own.",
        )
        for pin, names in taken.items()
        if len(names) > 1
    ]
