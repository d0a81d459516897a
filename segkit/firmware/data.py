"""The glyph table as data: JSON and CSV."""

from __future__ import annotations

import csv
import io
import json

from segkit.firmware.table import GlyphTable

JSON_NAME = "glyph_table.json"
CSV_NAME = "glyph_table.csv"
COLUMNS = ("char", "code", "name", "mask", "hex", "binary", "segments")


def glyph_json(table: GlyphTable) -> str:
    """JSON text: order, polarity, style, chain and one object a character.

    Args:
        table: from ``table.glyph_table``.
    """
    data = {
        "title": table.title,
        "stamp": table.stamp,
        "order": list(table.order),
        "active": table.active,
        "style": {"six": table.style.six, "seven": table.style.seven, "nine": table.style.nine},
        "blank": table.blank,
        "point_bit": table.point_bit,
        "chain": list(table.chain),
        "glyphs": [
            {
                "char": glyph.char,
                "code": glyph.code,
                "name": glyph.name,
                "mask": glyph.mask,
                "hex": f"0x{glyph.mask:02X}",
                "segments": list(glyph.segments),
            }
            for glyph in table.glyphs
        ],
    }
    return json.dumps(data, indent=2) + "\n"


def glyph_csv(table: GlyphTable) -> str:
    """CSV text: heading and one line a character, line ends of one character.

    Args:
        table: from ``table.glyph_table``.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    for glyph in table.glyphs:
        cells = (glyph.char, glyph.code, glyph.name, glyph.mask, f"0x{glyph.mask:02X}", f"0b{glyph.mask:08b}")
        writer.writerow((*cells, " ".join(glyph.segments)))
    return text.getvalue()
