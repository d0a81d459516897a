from __future__ import annotations

from dataclasses import replace

import pytest

from segkit.drawing.drawing import Drawing, Path, Text
from segkit.fabrication.layers import Palette
from segkit.fabrication.section import PAGE_MM, Section, section_drawing
from segkit.fabrication.tile_page import text_box
from segkit.geometry.polygon import bounds

LIP = Section(5, 5, 8, 3, 5, 3, 36.4, 0, 2.85, 6, 5, 5, 8, "lip", ("back", "grid", "opal", "face", "tint"))
LET_IN = replace(LIP, face_mm=3, ledge_mm=2, reach_mm=-0.3, fit="let-in")
SHEET = replace(LIP, reach_mm=None, fit="sheet", front_mm=0, materials=("back", "grid", "opal", "face", ""))


def drawn(section: Section) -> Drawing:
    return section_drawing(section, palette=Palette(), title="Boules court scoreboard", stamp="design 1")


def box(page: Drawing, layer: str) -> tuple[float, float, float, float]:
    shapes = next(la.shapes for la in page.layers if la.name == layer)
    return bounds([s.points for s in shapes if isinstance(s, Path)])


def last(page: Drawing, layer: str) -> tuple[float, float, float, float]:
    """Bounds of the layer's own shape: that of the next pocket comes before it."""
    shape = next(la.shapes for la in page.layers if la.name == layer)[-1]
    assert isinstance(shape, Path)
    return bounds([shape.points])


def said(page: Drawing) -> str:
    return " | ".join(s.text for la in page.layers for s in la.shapes if isinstance(s, Text))


def test_thickness_of_the_stack() -> None:
    assert LIP.total_mm == 5 + 40 + 3 + 5 + 3
    assert LET_IN.total_mm == 5 + 40 + 3 + 3, "the piece lies within the face"
    assert SHEET.total_mm == 5 + 40 + 3 + 5


@pytest.mark.parametrize("section", [LIP, LET_IN, SHEET])
def test_everything_is_to_scale(section: Section) -> None:
    page = drawn(section)
    scale = (box(page, "fill-air")[3] - box(page, "fill-air")[1]) / section.depth_mm
    for layer, thick in (
        ("fill-back", 5),
        ("fill-diffuser", 3),
        ("fill-face", section.face_mm),
        ("fill-grid", 40),
    ):
        assert (box(page, layer)[3] - box(page, layer)[1]) / scale == pytest.approx(thick)
    led = box(page, "fill-led")
    assert ((led[2] - led[0]) / scale, (led[3] - led[1]) / scale) == pytest.approx((5, 13))
    pocket = last(page, "fill-air")
    assert (pocket[2] - pocket[0]) / scale == pytest.approx(36.4 - 2 * section.ledge_mm)


def test_the_lip_reaches_over_the_pocket_and_a_let_in_piece_stays_inside() -> None:
    for section, wide in ((LIP, 36.4 + 5.7), (LET_IN, 36.4 - 0.6)):
        page = drawn(section)
        scale = (box(page, "fill-air")[3] - box(page, "fill-air")[1]) / 40
        left, _, right, _ = last(page, "fill-diffuser")
        assert (right - left) / scale == pytest.approx(wide)


@pytest.mark.parametrize(
    "section", [LIP, LET_IN, SHEET, replace(LIP, grid_mm=10, opening_mm=150.0, gap_mm=30)]
)
def test_dimensions_are_written_and_on_the_page(section: Section) -> None:
    page = drawn(section)
    words = said(page)
    for needed in ("opening", "pocket", "hole 5 mm", "back board 5 mm", "light grid 8 x", "CROSS-SECTION"):
        assert needed in words
    for layer in page.layers:
        for shape in layer.shapes:
            left, bottom, right, top = text_box(shape) if isinstance(shape, Text) else bounds([shape.points])  # type: ignore[union-attr]
            assert left >= 5
            assert bottom >= 5
            assert right <= PAGE_MM[0] - 5
            assert top <= PAGE_MM[1] - 5


@pytest.mark.parametrize("section", [LIP, LET_IN])
def test_the_next_pocket_stands_a_gap_away_and_its_piece_keeps_off(section: Section) -> None:
    page = drawn(section)
    scale = (box(page, "fill-air")[3] - box(page, "fill-air")[1]) / 40
    next_pocket, pocket = (
        bounds([shape.points])
        for shape in next(la.shapes for la in page.layers if la.name == "fill-air")
        if isinstance(shape, Path)
    )
    assert (pocket[0] - next_pocket[2]) / scale == pytest.approx(6 + 2 * section.ledge_mm)
    next_piece, piece = (
        bounds([shape.points])
        for shape in next(la.shapes for la in page.layers if la.name == "fill-diffuser")
        if isinstance(shape, Path)
    )
    assert (piece[0] - next_piece[2]) / scale == pytest.approx(6 - 2 * (section.reach_mm or 0))
    assert "gap 6 mm" in said(page)


def test_screw_and_spacer_are_drawn_where_there_are_any() -> None:
    page = drawn(replace(LIP, screw_mm=(4, 65)))
    scale = (box(page, "fill-air")[3] - box(page, "fill-air")[1]) / 40
    screw, spacer = box(page, "fill-screw"), box(page, "fill-spacer")
    assert (screw[3] - screw[1]) / scale > LIP.total_mm + 3.2, "through the stack and the nut"
    assert (spacer[3] - spacer[1]) / scale == pytest.approx(3)
    assert spacer[0] > last(page, "fill-diffuser")[2], "beside the piece"
    assert "M4 x 65 mm" in said(page)
    assert "spacer 3 mm" in said(page)
    assert "put spacers" in said(page).replace(" | ", " ")
    film = drawn(replace(LIP, diffuser_mm=0.1))
    assert "spacer" not in said(film)
    assert "fill-spacer" not in {layer.name for layer in film.layers}
    for one in (LIP, replace(SHEET, screw_mm=(4, 65)), replace(LET_IN, screw_mm=(4, 60))):
        assert "fill-spacer" not in {layer.name for layer in drawn(one).layers}


def test_a_lone_segment_has_no_next_one() -> None:
    page = drawn(replace(LIP, gap_mm=0.0))
    assert "gap" not in said(page)
    assert "next pocket" not in said(page)
    assert len(next(la.shapes for la in page.layers if la.name == "fill-air")) == 1


def test_a_reflector_lies_on_the_floor_of_the_pocket_and_a_tape_is_seen() -> None:
    for thick in (0.05, 3.0):
        page = drawn(replace(LIP, reflector=(thick, "white card")))
        scale = (box(page, "fill-air")[3] - box(page, "fill-air")[1]) / 40
        floor, back = box(page, "fill-reflector"), box(page, "fill-back")
        assert floor[1] == pytest.approx(back[3])
        assert floor[3] - floor[1] == pytest.approx(max(thick * scale, 0.6))
        assert f"reflector {thick:g} mm, white card" in said(page)
    assert "fill-reflector" not in {layer.name for layer in drawn(LIP).layers}
