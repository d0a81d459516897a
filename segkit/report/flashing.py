"""The chapter on the controller: pins, cost, the first evening, and what each common fault looks like."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.firmware.cost import bit_hz, flash_bytes, ram_bytes
from segkit.firmware.source_code import wiring_words
from segkit.glyphs.faults import Shown, fingerprints
from segkit.project import Project
from segkit.report.drive_tables import Table
from segkit.report.lamp import lamp_svg
from segkit.report.meter_tables import meter_tables
from segkit.units import plain_number

#: What the fingerprint table shows.
SHOWN = ("8", "1", "2")
_TEXT = "1234"
#: What an ATmega328P has, bytes.
_FLASH, _RAM = 32768, 2048


@dataclass(frozen=True)
class FaultRow:
    """One fault and what it makes of the digits shown.

    Attributes:
        fault: its name.
        cause: where to look.
        lamps: for each of ``SHOWN`` a picture and what is read, if anything is.
    """

    fault: str
    cause: str
    lamps: tuple[tuple[str, str], ...]


def fault_rows(project: Project) -> tuple[FaultRow, ...]:
    """What 8, 1 and 2 look like under each common fault of order, polarity and single segments.

    Args:
        project: a solved design.
    """
    table = project.flash.table
    found = fingerprints(
        SHOWN, order=table.order, active=table.active, style=table.style, custom=project.design.glyphs.custom
    )
    right = tuple(
        Shown(glyph.char, glyph.mask, glyph.segments, glyph.char)
        for char in SHOWN
        for glyph in table.glyphs
        if glyph.char == char
    )
    rows = [FaultRow("none", "as it should be", tuple(map(_lamp, right)))] if right else []
    rows += [FaultRow(one.fault, one.cause, tuple(map(_lamp, one.shown))) for one in found]
    return tuple(rows)


def _lamp(shown: Shown) -> tuple[str, str]:
    read = f"reads {shown.reads}" if shown.reads else ""
    return lamp_svg(shown.lights), read


def flashing_tables(project: Project) -> tuple[Table, ...]:
    """Pins, cost and steps; readings of a meter; the map as built where there is one; faults of digits.

    Args:
        project: a solved design.
    """
    return (
        _pins(project), _steps(project), *meter_tables(project), *_as_built(project),
        _digit_faults(project),
    )  # fmt: skip


def _pins(project: Project) -> Table:
    code, register = project.flash.driver, project.flash.driver.register
    rows = tuple(
        (
            signal,
            str(getattr(register, signal) or "-"),
            f"D{pin}" if pin < 14 else f"A{pin - 14}",
            f"GP{gpio}",
        )
        for (signal, pin), (_, gpio) in zip(code.pins.all, code.gpio.all, strict=True)
    )
    how = "by the serial unit" if code.serial == "hardware" else "pin by pin"
    milliseconds = plain_number(round(8000 * code.wiring.chips / bit_hz(code), 3))
    return Table(
        title="Pins",
        text=f"Sent {how}, a frame takes {milliseconds} ms on the wire. The first program takes "
        f"about {flash_bytes(code)} of {_FLASH} bytes of flash and {ram_bytes(code)} of {_RAM} bytes of RAM "
        "on an ATmega328P. Output-enable has a pull-up of 10 kohm: the board stays dark until the code runs.",
        head=("Signal", "Pin of the register", "8-bit controller", "MicroPython"),
        rows=rows,
        numbers=False,
    )


def _steps(project: Project) -> Table:
    turns = (
        " Code for the same digits taking turns on two registers is in firmware/turns; it wants the LEDs, "
        "resistors and switches that were reckoned for turns, not those of this board."
        if project.flash.driver.turns
        else ""
    )
    return Table(
        title="The first evening",
        text="The code is in firmware/c (any C compiler), firmware/sketch (hobby boards) and "
        f"firmware/micropython; the tables beside it serve code of your own.{turns}",
        steps=(
            "Flash the code with the board unplugged; then plug it in: it stays dark, lights every lamp for "
            "two seconds, and shows its first text.",
            f'If the text is wrong, type what is seen: segkit check {project.name}.toml --seen "...", lit '
            "segments in brackets where it is no character. The likeliest fault is named first.",
            "If a lamp is missing or nothing fits, look at the readings and the faults below, then run the "
            "walk test: /walk in the sketch, WALK_TEST in the others. One output after the other is lit.",
            f"Type what lights: segkit walk {project.name}.toml --write. The faults are named, and the map "
            "as wired goes into the design file.",
            "Build and flash again: the code follows the board as it is.",
        ),
    )


def _as_built(project: Project) -> tuple[Table, ...]:
    wiring = project.flash.driver.wiring
    if not wiring.as_built:
        return ()
    rows = tuple(
        (str(chip), *words.split()) for chip, words in enumerate(wiring_words(project.flash.driver), 1)
    )
    lights = "1" if wiring.active == "high" else "0"
    return (
        Table(
            title="The board as built",
            text=f"The walk test found this wiring, and the code follows it; a {lights} lights. Tables "
            "and sheets of the wiring chapter are the plan; wiring/channel_map.csv has both side by side.",
            head=("Chip", *(output.name for output in wiring.outputs[:8])),
            rows=rows,
            numbers=False,
        ),
    )


def _digit_faults(project: Project) -> Table:
    count = min(project.flash.driver.digits, len(_TEXT))
    text = _TEXT[:count]
    rows = [
        (
            "chain the other way round",
            text[::-1],
            "the byte that is sent first ends in the farthest register",
        ),
        (
            "one byte too many or too few",
            text[-1:] + text[:-1],
            "bytes before the latch pulse: one a register",
        ),
        ("two plugs exchanged", text[1::-1] + text[2:], "the plugs of these two digits"),
    ]
    return Table(
        title="What a fault looks like",
        text="Whole digits in the wrong places:",
        head=("Fault", f"{text} shows as", "Where to look"),
        rows=tuple(rows) if count > 1 else (),
        numbers=False,
    )
