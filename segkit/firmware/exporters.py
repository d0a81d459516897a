"""The forms of the tables by file name: add a function and a line to add a form."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from segkit.firmware import c, data, frames, micropython
from segkit.firmware.frames import FrameTable
from segkit.firmware.table import GlyphTable

Exporter = Callable[[GlyphTable], str]
FrameExporter = Callable[[FrameTable], bytes]

EXPORTERS: Mapping[str, Exporter] = {
    c.FILE_NAME: c.glyph_header,
    micropython.FILE_NAME: micropython.glyph_module,
    data.JSON_NAME: data.glyph_json,
    data.CSV_NAME: data.glyph_csv,
}
FRAME_EXPORTERS: Mapping[str, FrameExporter] = {
    frames.HEADER_NAME: lambda table: frames.frame_header(table).encode("utf-8"),
    frames.JSON_NAME: lambda table: frames.frame_json(table).encode("utf-8"),
    frames.CSV_NAME: lambda table: frames.frame_csv(table).encode("utf-8"),
    frames.BYTES_NAME: frames.frame_bytes,
    frames.GLYPH_BYTES_NAME: lambda table: frames.glyph_bytes(table.glyphs),
}


def export_all(table: GlyphTable) -> Mapping[str, str]:
    """The glyph table in every form: file name to text, in a fixed order.

    Args:
        table: from ``table.glyph_table``.

    Example:
        >>> from segkit.firmware.table import glyph_table
        >>> list(export_all(glyph_table(characters="8", order=("dp", "g", "f", "e", "d", "c", "b", "a"))))
        ['glyph_table.h', 'glyph_table.py', 'glyph_table.json', 'glyph_table.csv']
    """
    return {name: exporter(table) for name, exporter in EXPORTERS.items()}


def export_frames(table: FrameTable) -> Mapping[str, bytes]:
    """The frames in every form: file name to content, in a fixed order.

    Args:
        table: from ``frames.frame_table``.
    """
    return {name: exporter(table) for name, exporter in FRAME_EXPORTERS.items()}
