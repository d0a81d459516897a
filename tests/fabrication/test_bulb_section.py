from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from segkit.drawing.drawing import Drawing, Path, Text
from segkit.fabrication.bulb_section import BulbSection, bulb_section_drawing
from segkit.fabrication.layers import Palette
from segkit.fabrication.section import PAGE_MM
from segkit.fabrication.tile_page import text_box
from segkit.geometry.polygon import bounds

USUAL = BulbSection(5, "Foam board 5 mm, black throughout", 6, 19.4, 0.05, 7, (4, 16))
CASES = [
    USUAL,
    BulbSection(3, "Acrylic 3 mm, black", 2, 4, 0.04, 2),
    BulbSection(18, "Plywood", 20, 200, 0.5, 3, (8, 40)),
]


def drawn(section: BulbSection) -> Drawing:
    return bulb_section_drawing(section, palette=Palette(), title="Rain barrel gauge", stamp="design 1")


@pytest.mark.parametrize("section", CASES)
def test_everything_is_to_scale_and_on_the_page(section: BulbSection) -> None:
    page = drawn(section)
    layers = {layer.name: layer for layer in page.layers}
    board = [bounds([s.points]) for s in layers["fill-board"].shapes if isinstance(s, Path)]
    bulbs = [bounds([s.points]) for s in layers["fill-bulbs"].shapes if isinstance(s, Path)]
    scale = (board[0][3] - board[0][1]) / section.board_mm
    for one, other in itertools.pairwise(board):
        assert (other[0] - one[2]) / scale == pytest.approx(section.hole_mm)
    for one, other in itertools.pairwise(bulbs):
        assert (other[0] - one[0]) / scale == pytest.approx(section.pitch_mm)
    assert ("fill-screw" in layers) == bool(section.screw_mm[0])
    for layer in page.layers:
        for shape in layer.shapes:
            left, low, right, high = text_box(shape) if isinstance(shape, Text) else bounds([shape.points])  # type: ignore[union-attr]
            assert min(left, low) >= 5
            assert right <= PAGE_MM[0] - 5
            assert high <= PAGE_MM[1] - 5


@pytest.mark.parametrize("section", CASES)
def test_no_words_touch(section: BulbSection) -> None:
    boxes = [text_box(s) for la in drawn(section).layers for s in la.shapes if isinstance(s, Text)]
    for (a, b, c, d), (e, f, g, h) in itertools.combinations(boxes, 2):
        assert c <= e or g <= a or d <= f or h <= b


def test_what_it_says() -> None:
    words = " | ".join(s.text for la in drawn(USUAL).layers for s in la.shapes if isinstance(s, Text))
    for needed in ("pitch 19.4 mm", "hole 6 mm", "board 5 mm, Foam board", "M4 x 16 mm", "BULB BOARD"):
        assert needed in words


@pytest.mark.parametrize(("bulbs", "shown"), [(2, 2), (3, 3), (9, 3)])
def test_no_more_bulbs_than_the_row_has(bulbs: int, shown: int) -> None:
    layers = {layer.name: layer for layer in drawn(replace(USUAL, bulbs=bulbs)).layers}
    assert len(layers["fill-bulbs"].shapes) == shown


def test_the_board_is_as_light_as_its_sheet() -> None:
    # sRGB of 0.85 of the light is 0.93 of the scale (IEC 61966-2-1)
    layers = {layer.name: layer for layer in drawn(replace(USUAL, reflectance=0.85)).layers}
    assert int(layers["fill-board"].colour[1:3], 16) / 255 == pytest.approx(0.93, abs=0.005)
