"""The forms of the glyph table by file name: add a function and a line to add a form."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from segkit.firmware import c, data, micropython
from segkit.firmware.table import GlyphTable

Exporter = Callable[[GlyphTable], str]

EXPORTERS: Mapping[str, Exporter] = {
    c.FILE_NAME: c.glyph_header,
    micropython.FILE_NAME: micropython.glyph_module,
    data.JSON_NAME: data.glyph_json,
    data.CSV_NAME: data.glyph_csv,
}


def export_all(table: GlyphTable) -> Mapping[str, str]:
    """File name to text, in a fixed order.

    Example:
        >>> from segkit.firmware.table import glyph_table
        >>> list(export_all(glyph_table(characters="8", order=("dp", "g", "f", "e", "d", "c", "b", "a"))))
        ['glyph_table.h', 'glyph_table.py', 'glyph_table.json', 'glyph_table.csv']
    """
    return {name: exporter(table) for name, exporter in EXPORTERS.items()}
