"""Whole frames through the real wiring: what to send so that one character stands on one digit."""

from __future__ import annotations

import csv
import io
import json
import re
import textwrap
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.firmware.c import IN_FLASH
from segkit.firmware.table import Glyph, GlyphTable, one_line
from segkit.firmware.wiring import Wiring, frame_of, written
from segkit.glyphs.segments import COLON, POINT

HEADER_NAME, JSON_NAME, CSV_NAME, BYTES_NAME = (
    "frame_table.h",
    "frame_table.json",
    "frame_table.csv",
    "frame_table.bin",
)
GLYPH_BYTES_NAME = "glyph_table.bin"


@dataclass(frozen=True)
class FrameTable:
    """Every character on every digit, every point and colon, as frames in the order of sending.

    A frame shows one thing alone. Frames are put together byte by byte: with OR where a 1 lights, with
    AND where a 0 does.

    Attributes:
        glyphs: the characters.
        wiring: which output lights which lamp.
        digits: of the board.
        frames: (digit, character) to frame, by digit and code point.
        marks: (digit, ``dp`` or ``colon``) to frame, by digit.
    """

    glyphs: GlyphTable
    wiring: Wiring
    digits: int
    frames: dict[tuple[int, str], bytes]
    marks: dict[tuple[int, str], bytes]

    @property
    def how(self) -> tuple[str, ...]:
        """How to use it, in lines for a heading."""
        lit, way = ("1", "OR") if self.wiring.active == "high" else ("0", "AND")
        return (
            f"One frame is {self.wiring.chips} bytes in the order of sending; a {lit} lights.",
            f"A frame shows one character on one digit alone: put several together with {way}, byte by byte.",
        )


def frame_table(table: GlyphTable, wiring: Wiring) -> FrameTable:
    """All frames of a board.

    Args:
        table: the characters; must be made for the same polarity.
        wiring: which output lights which lamp.

    Raises:
        InputError: table and wiring differ in polarity.
    """
    if table.active != wiring.active:
        text = "the glyph table and the wiring differ in what lights."
        raise InputError(Problem(text, key="active", value=table.active, limit=wiring.active))
    digits = max((digit for digit, _ in wiring.lamps), default=0)
    return FrameTable(
        glyphs=table,
        wiring=wiring,
        digits=digits,
        frames={
            (digit, glyph.char): frame_of(wiring, [(digit, name) for name in glyph.segments])
            for digit in range(1, digits + 1)
            for glyph in table.glyphs
        },
        marks={
            (digit, name): frame_of(wiring, [(digit, name)])
            for digit in range(1, digits + 1)
            for name in (POINT, COLON)
            if (digit, name) in wiring.lamps
        },
    )


def frame_bytes(frames: FrameTable) -> bytes:
    """The frames end to end with nothing between: digit by digit, in each by code point.

    Args:
        frames: from ``frame_table``.
    """
    return b"".join(frames.frames.values())


def glyph_bytes(table: GlyphTable) -> bytes:
    """One byte a character, by code point, in the order and polarity of the table.

    Args:
        table: from ``table.glyph_table``.

    Example:
        >>> from segkit.firmware.table import glyph_table
        >>> glyph_bytes(glyph_table(characters="01", order=("dp", "g", "f", "e", "d", "c", "b", "a"))).hex()
        '003f06'
    """
    return bytes(glyph.mask for glyph in table.glyphs)


def frame_json(frames: FrameTable) -> str:
    """JSON text: how to use it, what each output lights, and every frame.

    Args:
        frames: from ``frame_table``.
    """
    data = {
        "title": frames.glyphs.title,
        "stamp": frames.glyphs.stamp,
        "how": list(frames.how),
        "chips": frames.wiring.chips,
        "active": frames.wiring.active,
        "as_built": frames.wiring.as_built,
        "characters": [glyph.char for glyph in frames.glyphs.glyphs],
        "outputs": [
            {"number": o.number, "chip": o.chip, "output": o.name, "lights": [f"{d}{s}" for d, s in o.lights]}
            for o in frames.wiring.outputs
        ],
        "frames": [
            {"digit": digit, "char": char, "bytes": list(frame)}
            for (digit, char), frame in frames.frames.items()
        ],
        "marks": [
            {"digit": digit, "segment": name, "bytes": list(frame)}
            for (digit, name), frame in frames.marks.items()
        ],
    }
    text = json.dumps(data, indent=1)
    return _short_lists(text) + "\n"


def _short_lists(text: str) -> str:
    """Innermost lists and records on one line each."""

    def joined(match: re.Match[str]) -> str:
        return " ".join(part.strip() for part in match[0].splitlines())

    once = re.sub(r"\[[^\[\]{}]*\]", joined, text)
    return re.sub(r"\{[^{}]*\}", joined, once)


def frame_csv(frames: FrameTable) -> str:
    """CSV text: one line a frame, bytes in hexadecimal.

    Args:
        frames: from ``frame_table``.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(("digit", "char", *(f"byte {n}" for n in range(1, frames.wiring.chips + 1))))
    for (digit, what), frame in (*frames.frames.items(), *frames.marks.items()):
        writer.writerow((digit, what, *(f"0x{byte:02X}" for byte in frame)))
    return text.getvalue()


def frame_header(frames: FrameTable) -> str:
    """C99 text: the frames as one table, in flash where the compiler knows how.

    Args:
        frames: from ``frame_table``.
    """
    lines = [f"Frame table: {one_line(frames.glyphs.title)}", *frames.how]
    lines += [
        f"Outputs {row[-1].name} to {row[0].name} of chip {row[0].chip} light "
        f"{' '.join(written(output.lights) for output in reversed(row))}."
        for row in reversed(frames.wiring.rows)
    ]
    head = "\n".join(f" * {line}" for line in lines)
    chars = ", ".join(f"0x{glyph.code:02X}" for glyph in frames.glyphs.glyphs)
    count = len(frames.glyphs.glyphs)
    blocks = []
    for digit in range(1, frames.digits + 1):
        rows = "\n".join(
            f"        {{{', '.join(f'0x{byte:02X}' for byte in frames.frames[digit, glyph.char])}}}, "
            f"/* {_shows(glyph)} */"
            for glyph in frames.glyphs.glyphs
        )
        blocks.append(f"    {{ /* digit {digit} */\n{rows}\n    }}")
    marks = "".join(
        f"#define FRAME_{name.upper()}_{digit} {{{', '.join(f'0x{byte:02X}' for byte in frame)}}}\n"
        for (digit, name), frame in frames.marks.items()
    )
    return (
        f"/*\n{head}\n */\n#ifndef FRAME_TABLE_H\n#define FRAME_TABLE_H\n\n#include <stdint.h>\n\n"
        f"{IN_FLASH}\n"
        f"#define FRAME_CHIPS {frames.wiring.chips}u\n#define FRAME_DIGITS {frames.digits}u\n"
        f"#define FRAME_GLYPHS {count}u\n"
        f"{marks}\n"
        f"/* The character that each row of a digit shows, as Unicode. */\n"
        f"static const uint16_t frame_codes[FRAME_GLYPHS] TABLE_IN_FLASH = {{\n    {_folded(chars)},\n}};\n\n"
        f"static const uint8_t frame_rows[FRAME_DIGITS][FRAME_GLYPHS][FRAME_CHIPS] TABLE_IN_FLASH = {{\n"
        + ",\n".join(blocks)
        + ",\n};\n\n#endif /* FRAME_TABLE_H */\n"
    )


def _shows(glyph: Glyph) -> str:
    """A character and what it lights, for a comment."""
    named = glyph.char if glyph.char.isprintable() and glyph.char != " " else "blank"
    return f"{named}: {' '.join(glyph.segments) or 'dark'}"


def _folded(items: str, *, width: int = 92) -> str:
    return "\n    ".join(textwrap.wrap(items, width))
