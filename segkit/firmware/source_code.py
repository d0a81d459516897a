"""The code for a controller from its templates: C, a sketch, MicroPython."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from segkit.electrical.dimming import TIMER_HZ
from segkit.firmware.driver import Driver
from segkit.firmware.table import Glyph, one_line
from segkit.firmware.turns import Turns
from segkit.firmware.wiring import Output, by_digit, written
from segkit.glyphs.characters import in_order
from segkit.glyphs.segments import COLON, POINT

_WIDTH = 100
_ASCII = 127
_SLOWEST_HZ = 10.0
#: Clock rate bits of the serial unit by what it divides the clock by; half of these at double speed.
_SERIAL_BITS = {
    2: "", 4: "", 8: " | 1 << SPR0", 16: " | 1 << SPR0", 32: " | 1 << SPR1", 64: " | 1 << SPR1",
    128: " | 1 << SPR1 | 1 << SPR0",
}  # fmt: skip
#: Mode bits of the first timer by its resolution.
_TIMER_BITS = {8: "1 << WGM10", 9: "1 << WGM11", 10: "1 << WGM11 | 1 << WGM10"}
#: Clock select bits of the first timer by what they divide its clock by.
_CLOCK_BITS = {
    1: "1 << CS10",
    8: "1 << CS11",
    64: "1 << CS11 | 1 << CS10",
    256: "1 << CS12",
    1024: "1 << CS12 | 1 << CS10",
}
_SHORT = {POINT: "p", COLON: "q"}
_GROUP_NAMES = {2: ("left", "right"), 3: ("left", "middle", "right")}
#: File name inside the folder of the firmware, and the template it comes from.
SOURCES: Mapping[str, str] = {
    "c/board.h": "board.h.j2",
    "c/board.c": "board.c.j2",
    "c/main.c": "main.c.j2",
    "sketch/sketch.ino": "sketch.ino.j2",
    "micropython/digit_board.py": "digit_board.py.j2",
    "micropython/main.py": "main.py.j2",
}
#: The same for a board whose digits take turns.
TURN_SOURCES: Mapping[str, str] = {
    "turns/board.h": "board.h.j2",
    "turns/board.c": "board.c.j2",
    "turns/main.c": "main.c.j2",
}
_PURPOSE = {
    "data": "data input",
    "clock": "shift clock",
    "latch": "latch",
    "enable": "output-enable",
}
#: A function that a program calls, with the comment above it.
_PROTOTYPE = re.compile(
    r"^((?:/\*(?:(?!\*/).)*\*/\n)?)((?:void|board_answer) board_\w+\([^)]*\))$", re.M | re.S
)


def source_code(driver: Driver) -> Mapping[str, str]:
    """Path inside the firmware folder to text.

    Args:
        driver: from ``driver.driver``.
    """
    static = _rendered(SOURCES, {**_known(driver), **_STATIC})
    return {**static, **(_rendered(TURN_SOURCES, _turning(driver, driver.turns)) if driver.turns else {})}


#: What is written differently for a static board.
_STATIC = {
    "turns": False, "chain_template": "chain.c.j2", "walk_template": "walk.c.j2",
    "tables_template": "tables.c.j2",
}  # fmt: skip


def _rendered(sources: Mapping[str, str], known: Mapping[str, Any]) -> dict[str, str]:
    core = _template("core.c.j2").render(known)
    prototypes = [f"{comment}{head};" for comment, head in _PROTOTYPE.findall(core)]
    return {
        path: _tidy(_template(template).render(known, prototypes=prototypes))
        for path, template in sources.items()
    }


def _turning(driver: Driver, turns: Turns) -> dict[str, Any]:
    """What is written differently for digits that take turns."""
    return {
        **_known(driver),
        "turns": True,
        "chain_template": "chain_turns.c.j2",
        "walk_template": "walk_turns.c.j2",
        "tables_template": "tables_turns.c.j2",
        "lit": int(turns.active == "high"),
        "layout_line": f'{driver.digits} digits "{driver.layout}" that take turns on two registers.',
        "turn_order": f"{{{', '.join(map(_turn_segment, turns.order))}}}",
        "turn_period": turns.period,
        "turn_us": f"{turns.turn_us:g}",
        "round_hz": f"{turns.round_hz:.0f}",
        "turn_dark": turns.dark,
        "turn_counts": _wrapped(turns.counts),
        "timer_bits": _TIMER_BITS[turns.bits],
        "clock_bits": _CLOCK_BITS[turns.prescale],
        "pulse_hz": f"{turns.round_hz * driver.digits:.0f}",
        "outputs": 8 + driver.digits,
    }


def _turn_segment(name: str) -> str:
    """A bit of the shared register; the point's bit serves the colon of a digit that has one."""
    return "sP | sQ" if name == POINT else _c_segment(name)


@cache
def _template(name: str) -> Any:
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    folder = files("segkit.firmware")
    environment = Environment(
        loader=FunctionLoader(lambda given: (folder / given).read_text(encoding="utf-8")),
        undefined=StrictUndefined, trim_blocks=True, keep_trailing_newline=False, autoescape=False,
    )  # fmt: skip
    return environment.get_template(name)


def _tidy(text: str) -> str:
    """No blanks at the ends of lines, at most two blank lines in a row."""
    lines = "\n".join(line.rstrip() for line in text.splitlines())
    return re.sub(r"\n{4,}", "\n\n\n", lines).strip("\n") + "\n"


def _known(driver: Driver) -> dict[str, Any]:
    chip = driver.wiring.outputs[:8]
    order = "as the walk test found it" if driver.wiring.as_built else ""
    wide = any(glyph.code > _ASCII for glyph in driver.glyphs)
    chain = f"a chain of {driver.wiring.chips} registers" if driver.wiring.chips > 1 else "one register"
    return {
        "title": one_line(driver.title) or "Display",
        "made_from": f"Made from {one_line(driver.stamp)}." if driver.stamp else "Made by segkit.",
        "layout_line": f'{driver.digits} digits "{driver.layout}" on {chain}.',
        "layout": driver.layout,
        "hardware": int(driver.serial == "hardware"),
        "lit": int(driver.wiring.active == "high"),
        "chips": driver.wiring.chips,
        "digits": driver.digits,
        "outputs": len(driver.wiring.outputs),
        "wired_how": f", {order}" if order else "",
        "first_output": chip[0].name,
        "last_output": chip[-1].name,
        "levels": len(driver.bright.counts),
        "period": driver.bright.period,
        "night": driver.bright.night,
        "prescale": driver.bright.prescale,
        "pulse_hz": f"{driver.bright.pulse_hz:.0f}",
        "frequency": f"{max(driver.bright.frequency_hz, _SLOWEST_HZ):.0f}",
        "serial_bits": _SERIAL_BITS[driver.serial_divider],
        "double_speed": driver.serial_divider in (2, 8, 32),
        "serial_hz": f"{TIMER_HZ / driver.serial_divider:.0f}",
        "wire_hz": f"{driver.clock_hz:.0f}",
        "pause_us": driver.pause_us,
        "timer_bits": _TIMER_BITS[driver.bright.bits],
        "clock_bits": _CLOCK_BITS[driver.bright.prescale],
        "timer": "A" if driver.pins.enable == 9 else "B",
        "wide": wide,
        "code_type": "uint16_t" if wide else "uint8_t",
        "build_lines": _build_lines(),
        **_pins(driver),
        **_c_tables(driver),
        **_python_tables(driver),
        **_groups(driver),
    }


def _build_lines() -> tuple[str, ...]:
    return (
        "avr-gcc -std=c99 -Os -Wall -mmcu=atmega328p -DF_CPU=16000000UL -ffunction-sections \\",
        "        -Wl,--gc-sections -o board.elf main.c board.c",
        "avr-objcopy -O ihex -R .eeprom board.elf board.hex",
    )


# --- pins ----------------------------------------------------------------------------------------------


def _pins(driver: Driver) -> dict[str, Any]:
    def remark(signal: str) -> str:
        pin = getattr(driver.register, signal)
        where = "of chip 1" if signal == "data" else "of every chip"
        pull = ", pulled up with 10 kohm" if signal == "enable" else ""
        return f"to the {_PURPOSE[signal]}{f' (pin {pin})' if pin else ''} {where}{pull}"

    def numbered(pins: tuple[tuple[str, int], ...]) -> list[dict[str, Any]]:
        return [{"name": name.upper(), "number": number, "remark": remark(name)} for name, number in pins]

    ports = [
        {"name": name.upper(), "port": f"PORT{_port(number)[0]}", "bit": _port(number)[1],
         "remark": remark(name)}
        for name, number in driver.pins.all
    ]  # fmt: skip
    return {
        "avr_pins": ports,
        "sketch_pins": numbered(driver.pins.all),
        "gpio_pins": numbered(driver.gpio.all),
    }


def _port(pin: int) -> tuple[str, int]:
    """Port and bit of a pin of the ATmega328P, as the hobby boards number them.

    Example:
        >>> _port(11), _port(2), _port(14)
        (('B', 3), ('D', 2), ('C', 0))
    """
    for letter, first in (("C", 14), ("B", 8)):
        if pin >= first:
            return letter, pin - first
    return "D", pin


# --- tables --------------------------------------------------------------------------------------------


def _c_tables(driver: Driver) -> dict[str, Any]:
    last = len(driver.wiring.rows)
    cells = [[_c_output(output) for output in row] for row in driver.wiring.rows]
    width = max(len(cell) for row in cells for cell in row)
    rows = [
        f"{{{' '.join(f'{cell},'.ljust(width + 1) for cell in row).rstrip(' ,')}}}, /* chip {last - n} */"
        for n, row in enumerate(cells)
    ]
    marks = ", ".join(" | ".join(_c_segment(name) for name in names) or "0" for names in driver.marks)
    return {
        "rows": rows,
        "marks": f"{{{marks}}}",
        "glyphs": [_c_glyph(glyph) for glyph in driver.glyphs],
        "counts": _wrapped(driver.bright.counts),
    }


def _wrapped(counts: tuple[int, ...], *, opening: str = "{", closing: str = "}") -> str:
    """Numbers on one line, or on lines of their own where they are many."""
    whole = ", ".join(map(str, counts))
    if len(whole) <= _WIDTH - 10:
        return f"{opening}{whole}{closing}" if len(whole) < 60 else f"{opening}\n    {whole},\n{closing}"
    lines = [", ".join(map(str, counts[at : at + 16])) for at in range(0, len(counts), 16)]
    return f"{opening}\n    " + ",\n    ".join(lines) + f",\n{closing}"


def _c_segment(name: str) -> str:
    return f"s{_SHORT.get(name, name).upper()}"


def _c_output(output: Output) -> str:
    if not output.lamps:
        return "SPARE"
    digit, names = next(iter(by_digit(output.lamps).items()))
    return f"L({digit}, {' | '.join(map(_c_segment, in_order(names)))})"


def _c_glyph(glyph: Glyph) -> str:
    first, second, third = (line[:3] for line in glyph.drawing)
    above = f"/* {first} */\n    /* {second} */\n    /* {third} */ " if glyph.segments else ""
    char = (
        f"'{glyph.char}'" if 32 <= glyph.code < _ASCII and glyph.char not in "'\\" else f"0x{glyph.code:02X}"
    )
    segments = " | ".join(map(_c_segment, glyph.segments)) or "0"
    name = f" /* {glyph.char} */" if glyph.code > _ASCII and glyph.char.isprintable() else ""
    return f"{above}{{{char}, {segments}}},{name}"


def _python_tables(driver: Driver) -> dict[str, Any]:
    last = len(driver.wiring.rows)
    rows = [
        f"({', '.join(_py_output(output) for output in row)}),  # chip {last - n}"
        for n, row in enumerate(driver.wiring.rows)
    ]
    sample = driver.first_text
    return {
        "sample": _c_quoted(sample),
        "sample_quoted": _py_quoted(sample),
        "py_rows": rows,
        "py_glyphs": [_py_glyph(glyph) for glyph in driver.glyphs],
        "py_counts": _wrapped(driver.bright.counts, opening="(", closing=")"),
    }


def _py_output(output: Output) -> str:
    if not output.lamps:
        return "SPARE"
    digit, names = next(iter(by_digit(output.lamps).items()))
    return f'({digit}, "{"".join(_SHORT.get(name, name) for name in in_order(names))}")'


def _py_glyph(glyph: Glyph) -> str:
    first, second, third = (line[:3].rstrip() for line in glyph.drawing)
    drawing = "".join(f"# {line}\n    " for line in (first, second, third)) if glyph.segments else ""
    return f'{drawing}{_py_quoted(glyph.char)}: "{"".join(glyph.segments)}",'


def _c_quoted(text: str) -> str:
    """Text between the quotes of a C string; question marks too, which old compilers read three at a time.

    Example:
        >>> print(_c_quoted('"A??"'))
        \\"A\\?\\?\\"
    """
    return "".join(f"\\{char}" if char in '"\\?' else char for char in text)


def _py_quoted(text: str) -> str:
    escaped = "".join(
        f"\\u{ord(char):04x}" if ord(char) > _ASCII and not char.isprintable() else char for char in text
    )
    return '"' + escaped.replace('"', '\\"') + '"'


# --- clock and score -----------------------------------------------------------------------------------


def _groups(driver: Driver) -> dict[str, Any]:
    widths, gaps = driver.groups, driver.gaps
    names = _GROUP_NAMES.get(len(widths), ())
    if not names:
        return {"groups": (), "group_arguments": "", "group_names": "", "group_limits": ""}
    fields = list(zip(names, widths, ("", *gaps), strict=True))
    score = _example(fields, (13, 8, 5), "")
    return {
        "groups": widths,
        "group_arguments": ", ".join(f"uint16_t {name}" for name in names),
        "group_names": ", ".join(names),
        "group_limits": " || ".join(f"{name} > {10 ** min(width, 4) - 1}u" for name, width, _ in fields),
        "groups_from_right": [{"name": n, "width": w, "gap": g} for n, w, g in reversed(fields)],
        "clock_example": _example(fields, (9, 5, 7), "0"),
        "score_example": score,
        "py_group_names": ", ".join(names),
        "py_clock_format": "".join(
            f"{gap}%{'0' if place else ''}{width}d" for place, (_, width, gap) in enumerate(fields)
        ),
        "py_score_format": "".join(f"{gap}%{width}d" for _, width, gap in fields),
    }


def _example(fields: list[tuple[str, int, str]], values: tuple[int, ...], fill: str) -> str:
    parts = [
        f"{gap}{value:{fill if place else ''}{width}d}"
        for place, ((_, width, gap), value) in enumerate(zip(fields, values, strict=False))
    ]
    return '"' + "".join(parts) + '"'


def wiring_words(driver: Driver) -> tuple[str, ...]:
    """The wiring in words, one line a chip from the controller on, outputs QA to QH.

    Args:
        driver: from ``driver.driver``.
    """
    return tuple(
        " ".join(written(output.lights) for output in driver.wiring.outputs[at : at + 8])
        for at in range(0, len(driver.wiring.outputs), 8)
    )
