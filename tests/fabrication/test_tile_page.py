"""Pages of a template: exactly the paper, and put together the drawing, read back from the PDF."""

from __future__ import annotations

import io
import math

import pytest

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text
from segkit.drawing.pdf import pdf_bytes
from segkit.fabrication.layers import Palette
from segkit.fabrication.paper import PAPERS, STRIP_MM, PaperSettings
from segkit.fabrication.tile_page import TemplateText, text_box, tile_page
from segkit.fabrication.tiling import TilePlan, plan_tiles

MM = 25.4 / 72
TEXT = TemplateText("FACE", "SEEN FROM THE FRONT", False, (), "Boules court scoreboard")
REAR = TemplateText("BACK BOARD", "SEEN FROM BEHIND", True, (), "Boules court scoreboard")


def lid() -> Drawing:
    holes = tuple(Circle((float(x), float(y)), 2.5) for x in range(15, 490, 20) for y in (40, 140, 260))
    edge = Path(((0.0, 0.0), (500.0, 0.0), (500.0, 300.0), (0.0, 300.0)))
    names = tuple(Text((float(x), 200.0), "2c", 9.0, "middle") for x in range(30, 490, 17))
    return Drawing(
        "Lid", 500, 300,
        (Layer("drill-led-holes", "drill", holes), Layer("cut-outline", "cut", (edge,)),
         Layer("notes", "note", names)),
    )  # fmt: skip


def pages(paper: PaperSettings, text: TemplateText = TEXT) -> tuple[TilePlan, list[Drawing]]:
    plan = plan_tiles(lid(), paper)
    return plan, [
        tile_page(lid(), plan, tile, text=text, paper=paper, palette=Palette()) for tile in plan.tiles
    ]


@pytest.mark.parametrize("size", PAPERS)
def test_each_page_is_exactly_the_paper(size: str) -> None:
    import pypdf

    plan, made = pages(PaperSettings(size))
    expected = sorted(PAPERS[size])
    for page in pypdf.PdfReader(io.BytesIO(pdf_bytes(made))).pages:
        sides = [float(page.mediabox.width) * MM, float(page.mediabox.height) * MM]
        assert sorted(sides) == pytest.approx(expected, abs=0.001)
    assert len(made) == len(plan.tiles)


def test_holes_read_from_the_pdf_are_those_of_the_drawing() -> None:
    """The renderer's bounds of every 5 mm circle, moved back by the corner of its tile, to 0.01 mm."""
    import pypdfium2

    paper = PaperSettings("a4")
    plan, made = pages(paper)
    corner = paper.margin_mm + STRIP_MM
    centres = {shape.centre for shape in lid().layers[0].shapes}  # type: ignore[union-attr]
    found = set()
    document = pypdfium2.PdfDocument(pdf_bytes(made))
    for number, tile in enumerate(plan.tiles):
        for thing in document[number].get_objects():
            left, bottom, right, top = (side * MM for side in thing.get_bounds())
            if 4.9 < right - left < 5.6 and abs((right - left) - (top - bottom)) < 0.02:
                x, y = (
                    (left + right) / 2 - corner + tile.window[0],
                    (bottom + top) / 2 - corner + tile.window[1],
                )
                nearest = min(centres, key=lambda centre: math.dist(centre, (x, y)))
                if math.dist(nearest, (x, y)) < 0.3:  # a register ring is about as large
                    found.add(nearest)
                    assert (x, y) == pytest.approx(nearest, abs=0.01)
    assert found == centres


def test_rulers_names_and_neighbours_are_on_every_page() -> None:
    plan, made = pages(PaperSettings("a4"))
    for tile, page in zip(plan.tiles, made, strict=True):
        words = [s.text for layer in page.layers for s in layer.shapes if isinstance(s, Text)]
        assert words.count("100 mm") == 2
        assert words.count("4 in") == 2
        assert tile.name in words
        beside = {
            f"joins {o.name}" for o in plan.tiles if abs(o.column - tile.column) + abs(o.row - tile.row) == 1
        }
        assert beside == {word for word in words if word.startswith("joins")}


def test_register_marks_of_neighbours_are_in_the_same_place() -> None:
    paper = PaperSettings("a4")
    plan, made = pages(paper)
    corner = paper.margin_mm + STRIP_MM
    rings: dict[tuple[float, float], int] = {}
    for tile, page in zip(plan.tiles, made, strict=True):
        for layer in page.layers:
            for shape in layer.shapes:
                if layer.name == "seams" and isinstance(shape, Circle):
                    x, y = (
                        shape.centre[0] - corner + tile.window[0],
                        shape.centre[1] - corner + tile.window[1],
                    )
                    at = (round(x, 3), round(y, 3))
                    rings[at] = rings.get(at, 0) + 1
    assert rings
    assert set(rings.values()) == {2}


def test_every_name_is_printed_once_and_whole() -> None:
    paper = PaperSettings("a4")
    plan, made = pages(paper)
    count = 0
    for tile, page in zip(plan.tiles, made, strict=True):
        width, height = tile.window[2] - tile.window[0], tile.window[3] - tile.window[1]
        corner = paper.margin_mm + STRIP_MM
        for layer in page.layers:
            for shape in layer.shapes:
                if layer.name == "notes" and isinstance(shape, Text):
                    left, bottom, right, top = text_box(shape)
                    assert left >= corner - 1e-6
                    assert right <= corner + width + 1e-6
                    assert bottom >= corner - 1e-6
                    assert top <= corner + height + 1e-6
                    count += 1
    assert count == len(lid().layers[2].shapes)


def test_only_a_rear_template_is_marked_all_over() -> None:
    paper = PaperSettings("a4")
    for page in pages(paper, REAR)[1]:
        assert [s.text for s in page.layers[0].shapes if isinstance(s, Text)] == ["REAR", "mirrored"]
    assert all(page.layers[0].name != "side" for page in pages(paper)[1])


def test_nothing_is_printed_in_the_margin() -> None:
    import pypdfium2

    paper = PaperSettings("a4", margin_mm=6)
    _, made = pages(paper, REAR)
    document = pypdfium2.PdfDocument(pdf_bytes(made))
    for number, page in enumerate(made):
        for thing in document[number].get_objects():
            left, bottom, right, top = (side * MM for side in thing.get_bounds())
            if right - left > page.width_mm - 1:
                continue  # the white of the page itself
            assert min(left, bottom, page.width_mm - right, page.height_mm - top) >= 6 - 0.6, "half a line"
