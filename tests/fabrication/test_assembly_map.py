from __future__ import annotations

import pytest

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text
from segkit.fabrication.assembly_map import map_page
from segkit.fabrication.layers import Palette
from segkit.fabrication.paper import PAPERS, PaperSettings
from segkit.fabrication.tile_page import TemplateText, text_box
from segkit.fabrication.tiling import plan_tiles

NOTE = "Mirrored: lay it on the rear."
TEXT = TemplateText("BACK BOARD", "SEEN FROM BEHIND", True, (NOTE,), "Pool lap clock", "design 12, segkit 0")


def made(size: str, width: float = 900.0, height: float = 350.0) -> tuple[list[str], Drawing, int]:
    edge = Path(((0.0, 0.0), (width, 0.0), (width, height), (0.0, height)))
    drawing = Drawing("B", width, height, (
        Layer("drill", "drill", (Circle((50.0, 50.0), 3.0),)), Layer("cut-outline", "cut", (edge,)),
    ))  # fmt: skip
    paper = PaperSettings(size)
    plan = plan_tiles(drawing, paper)
    page = map_page(drawing, plan, text=TEXT, paper=paper, palette=Palette())
    words = [s.text for layer in page.layers for s in layer.shapes if isinstance(s, Text)]
    return words, page, len(plan.tiles)


@pytest.mark.parametrize("size", PAPERS)
def test_says_what_to_print_measure_and_tape(size: str) -> None:
    words, page, count = made(size)
    said = " ".join(words)
    for needed in (
        f"{count} pages",
        "Print at 100 %",
        "both rulers",
        "dashed seam",
        "900 mm wide",
        "965.7 mm",
        NOTE[:9],
    ):
        assert needed in said, needed
    assert "BACK BOARD: SEEN FROM BEHIND" in words
    assert sorted((page.width_mm, page.height_mm)) == sorted(PAPERS[size])


@pytest.mark.parametrize("size", PAPERS)
def test_everything_is_on_the_page(size: str) -> None:
    for width, height in ((900.0, 350.0), (120.0, 60.0), (400.0, 1500.0)):
        _, page, _ = made(size, width, height)
        for layer in page.layers:
            for shape in layer.shapes:
                xs, ys = [], []
                if isinstance(shape, Path):
                    xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
                elif isinstance(shape, Text):
                    left, bottom, right, top = text_box(shape)
                    xs, ys = [left, right], [bottom, top]
                assert all(5.9 <= x <= page.width_mm - 5.9 for x in xs)
                assert all(5.9 <= y <= page.height_mm - 5.9 for y in ys)


def test_names_every_page_once() -> None:
    words, _, count = made("a4")
    assert sum(word[0] in "ABCDEFGH" and word[1:].isdigit() for word in words) == count


def test_one_page_needs_no_tape() -> None:
    words, _, count = made("a3", 200.0, 150.0)
    assert count == 1
    assert "dashed seam" not in " ".join(words)
