"""The glyph table as one C99 header for any compiler."""

from __future__ import annotations

from segkit.firmware.table import Glyph, GlyphTable, one_line

FILE_NAME = "glyph_table.h"

#: Where a table is kept. Shared by the headers; either of them may come first.
IN_FLASH = """\
/* 8-bit AVRs keep a table out of their scarce RAM by an attribute; elsewhere const is enough. */
#ifndef TABLE_IN_FLASH
#if defined(__AVR__) && !defined(TABLE_IN_RAM)
#include <avr/pgmspace.h>
#define TABLE_IN_FLASH PROGMEM
#define TABLE_BYTE(at) pgm_read_byte(at)
#define TABLE_WORD(at) pgm_read_word(at)
#else
#define TABLE_IN_FLASH
#define TABLE_BYTE(at) (*(at))
#define TABLE_WORD(at) (*(at))
#endif
#endif
"""

_LOOK_UP = """\
/* The byte that shows a character; GLYPH_BLANK for one that is not in the table. */
static inline uint8_t glyph_mask(uint16_t code)
{
    unsigned int i;

    for (i = 0u; i < GLYPH_COUNT; i++) {
        if (TABLE_WORD(&glyph_rows[i].code) == code) {
            return TABLE_BYTE(&glyph_rows[i].mask);
        }
    }
    return GLYPH_BLANK;
}

/* The same byte with the point lit as well. */
static inline uint8_t glyph_mask_with_point(uint16_t code)
{
    return (uint8_t)({with_point});
}
"""


def glyph_header(table: GlyphTable) -> str:
    """C99 text: include guard, constants, one row a character, two look-up functions.

    The table goes into flash on 8-bit AVRs, unless TABLE_IN_RAM is defined. Needs ``stdint.h`` only
    and compiles without a warning at ``-std=c99 -Wall -Wextra -Wpedantic``.

    Args:
        table: from ``table.glyph_table``.
    """
    one = table.active == "high"
    with_point = "glyph_mask(code) | GLYPH_POINT" if one else "glyph_mask(code) & (GLYPH_POINT ^ 0xFFu)"
    head = "\n".join(f" * {line}" for line in map(one_line, table.heading))
    rows = "\n".join(_row(glyph) for glyph in table.glyphs)
    bits = "\n".join(
        f"#define GLYPH_BIT_{name.upper()} {7 - place}u" for place, name in enumerate(table.order)
    )
    return (
        f"/*\n{head}\n */\n"
        "#ifndef GLYPH_TABLE_H\n#define GLYPH_TABLE_H\n\n#include <stdint.h>\n\n"
        f"{IN_FLASH}\n{bits}\n\n"
        f"#define GLYPH_LIT {1 if one else 0}u        /* the bit value that lights a segment */\n"
        f"#define GLYPH_BLANK 0x{table.blank:02X}u   /* nothing lit */\n"
        f"#define GLYPH_POINT 0x{table.point_bit:02X}u   /* the bit of the point */\n"
        f"#define GLYPH_COUNT {len(table.glyphs)}u\n\n"
        "typedef struct {\n    uint16_t code; /* Unicode code point, equal to ASCII up to 126 */\n"
        "    uint8_t mask;\n} glyph_row;\n\n"
        f"static const glyph_row glyph_rows[GLYPH_COUNT] TABLE_IN_FLASH = {{\n{rows}\n}};\n\n"
        f"{_LOOK_UP.replace('{with_point}', with_point)}\n"
        "#endif /* GLYPH_TABLE_H */\n"
    )


def _row(glyph: Glyph) -> str:
    lit = " ".join(glyph.segments) or "dark"
    drawing = "".join(f"    /* {line} */\n" for line in glyph.drawing)
    return f"{drawing}    {{0x{glyph.code:04X}u, 0x{glyph.mask:02X}u}}, /* {glyph.name}: {lit} */"
