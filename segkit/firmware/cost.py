"""Flash and RAM that the code takes on an 8-bit controller, and the time of a frame on the wire."""

from __future__ import annotations

from segkit.electrical.dimming import TIMER_HZ
from segkit.firmware.driver import BIT_CYCLES, Driver
from segkit.working import Given, Line

#: Bytes of the program with every function of board.c in it, tables left out: of any board; more where the
#: layout has two groups of digits, or three, for clock and score; more where a glyph is beyond ASCII.
BASE_BYTES, TWO_GROUPS_BYTES, THIRD_GROUP_BYTES, WIDE_BYTES = 1975, 230, 85, 170
_SOURCE = "compiled-size"
_ASCII = 127


def row_bytes(driver: Driver) -> int:
    """Bytes of one row of the glyph table: the code of the character and its segments.

    Args:
        driver: from ``driver.driver``.
    """
    return 3 if any(glyph.code > _ASCII for glyph in driver.glyphs) else 2


def code_bytes(driver: Driver) -> int:
    """Flash of the program without its tables, an estimate; one digit alone takes less.

    Args:
        driver: from ``driver.driver``.

    Sources: compiled-size.
    """
    groups = len(driver.groups)
    helpers = {2: TWO_GROUPS_BYTES, 3: TWO_GROUPS_BYTES + THIRD_GROUP_BYTES}.get(groups, 0)
    return BASE_BYTES + helpers + (WIDE_BYTES if row_bytes(driver) == 3 else 0)


def flash_bytes(driver: Driver) -> int:
    """Flash of the whole first program on an ATmega328P with every function in it, an estimate.

    Formula: code + 16*chips + row*glyphs + 2*levels + 2*digits.

    Args:
        driver: from ``driver.driver``.

    Sources: compiled-size.
    """
    tables = 16 * driver.wiring.chips + row_bytes(driver) * len(driver.glyphs)
    return code_bytes(driver) + tables + 2 * len(driver.bright.counts) + 2 * driver.digits


def ram_bytes(driver: Driver) -> int:
    """RAM besides the stack: the frame, the layout and the first text.

    Formula: chips + (layout + 1) + (text + 1).

    Args:
        driver: from ``driver.driver``.
    """
    return driver.wiring.chips + _text_bytes(driver)


def _text_bytes(driver: Driver) -> int:
    return len(driver.layout) + 1 + len(driver.first_text.encode("utf-8")) + 1


def bit_hz(driver: Driver) -> float:
    """Bits a second on the data wire, 1/s.

    Args:
        driver: from ``driver.driver``.

    Sources: compiled-size.
    """
    if driver.serial == "hardware":
        return TIMER_HZ / driver.serial_divider
    return 1.0 / (BIT_CYCLES / TIMER_HZ + driver.pause_us * 1e-6)


def lines(driver: Driver) -> tuple[Line, ...]:
    """The working of flash, RAM and time on the wire.

    Args:
        driver: from ``driver.driver``.

    Sources: compiled-size.
    """
    chips = Given("N", float(driver.wiring.chips), "", "registers in the chain")
    digits = Given("D", float(driver.digits), "", "digits")
    flash = (
        Given("c", float(code_bytes(driver)), "byte", "functions and start-up"),
        chips,
        Given("G", float(len(driver.glyphs)), "", "glyphs"),
        Given("r", float(row_bytes(driver)), "byte", "a row of the glyph table"),
        Given("B", float(len(driver.bright.counts)), "", "levels of brightness, dark included"),
        digits,
    )
    texts = Given("t", float(_text_bytes(driver)), "byte", "layout and first text with their ends")
    speed = Given("f", bit_hz(driver), "Hz", "bits a second")
    bits = 8 * driver.wiring.chips
    return (
        Line(
            "firmware.flash", "flash of the first program, every function in it", "M",
            float(flash_bytes(driver)), "byte", "c + 16*N + r*G + 2*B + 2*D", flash, _SOURCE,
            "estimate for avr-gcc at -Os; an ATmega328P has 32768",
        ),
        Line(
            "firmware.ram", "RAM besides the stack", "R", float(ram_bytes(driver)), "byte", "N + t",
            (chips, texts), "arithmetic", "an ATmega328P has 2048",
        ),
        Line(
            "firmware.wire_time", "time of a frame on the wire", "T", 1000 * bits / bit_hz(driver), "ms",
            "1000*8*N/f", (chips, speed), _SOURCE, "a reader sees no single frame below some 20 ms",
        ),
    )  # fmt: skip
