from __future__ import annotations

import itertools
import math
from dataclasses import fields

import pytest

from segkit.drawing.drawing import Circle, Path, Text
from segkit.fabrication.layers import Palette, PartShapes, part_layers, tool_path_mm

SQUARE = Path(((0, 0), (10, 0), (10, 10), (0, 10)))
FULL = PartShapes(
    (Circle((1, 1), 1),), (Circle((9, 9), 1),), (SQUARE,), (SQUARE,), (SQUARE,), (Text((0, 0), "a", 3),)
)


def lightness(colour: str) -> float:
    """CIE 1976 L* (ISO/CIE 11664-4) of an sRGB colour (IEC 61966-2-1)."""
    values = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in values)
    luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return 116 * luminance ** (1 / 3) - 16 if luminance > (6 / 29) ** 3 else luminance * (29 / 3) ** 3


def test_lightness_of_known_colours() -> None:
    assert lightness("#ffffff") == pytest.approx(100, abs=0.01)
    assert lightness("#777777") == pytest.approx(50.03, abs=0.02)  # grey of 18.4 % luminance


def test_colours_differ_in_lightness_so_that_nobody_needs_the_hue() -> None:
    palette = Palette()
    drawn = {f.name: lightness(getattr(palette, f.name)) for f in fields(palette)}
    tools = [drawn[name] for name in ("led_holes", "fixing_holes", "openings", "outline")]
    assert min(abs(a - b) for a, b in itertools.combinations(tools, 2)) > 9, drawn
    assert drawn["guides"] > max(tools) + 15, "guides stay behind the cuts"


def test_lines_that_a_tool_follows_stand_out_from_white_paper() -> None:
    """Contrast of 3:1, ISO 9241-3 (from memory) and W3C guidance for graphics."""
    palette = Palette()
    for colour in (palette.led_holes, palette.fixing_holes, palette.openings, palette.outline, palette.notes):
        luminance = ((lightness(colour) + 16) / 116) ** 3
        assert 1.05 / (luminance + 0.05) >= 3, colour


def test_inner_cuts_come_before_the_outline() -> None:
    names = [layer.name for layer in part_layers(FULL, Palette())]
    assert names == [
        "guides",
        "drill-led-holes",
        "drill-fixing-holes",
        "cut-openings",
        "cut-outline",
        "notes",
    ]


def test_line_width_is_for_the_tools_lines_only() -> None:
    widths = {layer.name: layer.line_mm for layer in part_layers(FULL, Palette(), line_mm=0.05)}
    assert widths["cut-outline"] == widths["drill-led-holes"] == 0.05
    assert widths["notes"] == widths["guides"] == 0.25


def test_text_never_enters_a_layer_that_a_tool_follows() -> None:
    for layer in part_layers(FULL, Palette()):
        assert layer.operation == "note" or not any(isinstance(shape, Text) for shape in layer.shapes)


def test_length_of_tool_paths() -> None:
    assert tool_path_mm(FULL.openings) == 40
    assert tool_path_mm((Circle((0, 0), 2), Text((0, 0), "long text", 9))) == pytest.approx(4 * math.pi)
