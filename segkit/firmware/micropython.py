"""The glyph table as a module for MicroPython; plain Python runs it too."""

from __future__ import annotations

from segkit.firmware.table import Glyph, GlyphTable, one_line

FILE_NAME = "glyph_table.py"

_FUNCTIONS = '''\


def glyph_mask(char):
    """The byte that shows a character; BLANK for one that is not in the table."""
    return GLYPHS.get(char, BLANK)


def with_point(mask):
    """The byte with the point lit as well."""
    return mask | POINT if LIT else mask & (POINT ^ 0xFF)


def digit_bytes(text):
    """One byte a digit, left to right; a point, comma or colon lights the point of the digit before it.

    A colon does so because it sits on the output of that point, unless the frame above says otherwise.
    """
    out = []
    for char in text:
        if char in ".,:" and out:
            out[-1] = with_point(out[-1])
        else:
            out.append(with_point(BLANK) if char in ".,:" else glyph_mask(char))
    return bytes(out)
'''


def glyph_module(table: GlyphTable) -> str:
    """Python text with constants, one dictionary and three functions; needs no import.

    Args:
        table: from ``table.glyph_table``.
    """
    head = "\n".join(f"# {line}" for line in map(one_line, table.heading))
    rows = "\n".join(_row(glyph) for glyph in table.glyphs)
    order = ", ".join(f'"{name}"' for name in table.order)
    return (
        f"{head}\n\n"
        f"ORDER = ({order})  # bit 7 to bit 0\n"
        f"LIT = {1 if table.active == 'high' else 0}  # the bit value that lights a segment\n"
        f"BLANK = 0x{table.blank:02X}\n"
        f"POINT = 0x{table.point_bit:02X}\n\n"
        f"GLYPHS = {{\n{rows}\n}}\n"
        f"{_FUNCTIONS}"
    )


def _row(glyph: Glyph) -> str:
    lit = " ".join(glyph.segments) or "dark"
    drawing = "".join(f"    # {line.rstrip()}".rstrip() + "\n" for line in glyph.drawing)
    return f"{drawing}    {_quoted(glyph.char)}: 0x{glyph.mask:02X},  # {lit}"


def _quoted(char: str) -> str:
    plain = 32 <= ord(char) < 127 and char not in '"\\'
    return f'"{char}"' if plain else f'"\\u{ord(char):04x}"'
