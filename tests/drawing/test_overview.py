from __future__ import annotations

from dataclasses import replace

from segkit.drawing.drawing import Drawing
from segkit.drawing.overview import overview
from segkit.drawing.svg import svg_text


def test_no_line_is_thinner_than_a_pixel(page: Drawing) -> None:
    widths = [layer.line_mm for layer in overview(page, pixels_wide=241).layers]
    assert widths == [0.5] * 5


def test_thick_lines_and_missing_lines_stay(page: Drawing) -> None:
    bare = replace(page, layers=(replace(page.layers[2], line_mm=0), replace(page.layers[3], line_mm=3)))
    assert [layer.line_mm for layer in overview(bare, pixels_wide=241).layers] == [0, 3]


def test_nothing_but_lines_changes(page: Drawing) -> None:
    shown = overview(page)
    assert [layer.shapes for layer in shown.layers] == [layer.shapes for layer in page.layers]
    assert (shown.width_mm, shown.title) == (page.width_mm, page.title)
    assert svg_text(overview(page, pixels_wide=100_000)) == svg_text(page)
