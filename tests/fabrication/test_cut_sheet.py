from __future__ import annotations

import io

import pytest

from segkit.drawing.drawing import Drawing, Path, Text
from segkit.drawing.svg import svg_text
from segkit.fabrication.cut_sheet import SheetText, on_sheet, size_to_fit, wrapped
from segkit.fabrication.layers import Palette, PartShapes, part_layers
from tests.conftest import missing

LONG = SheetText(
    "BACK BOARD: SEEN FROM BEHIND",
    "mirrored: digit 1 is on the right here",
    ("Material: " + "W" * 70 + " 5 mm.", "Short.", "A sentence of many words " * 6),
    title="The scoreboard of the boules court behind the old lime trees, north side",
)


def page(width: float, height: float) -> Drawing:
    edge = Path(((0, 0), (width, 0), (width, height), (0, height)))
    layers = part_layers(PartShapes(outlines=(edge,)), Palette())
    return on_sheet(Drawing("Part", width, height, layers, stamp="s"), LONG, palette=Palette())


@pytest.mark.parametrize(("width", "height"), [(36, 52), (240, 130), (960, 360), (1900, 600), (30, 900)])
def test_nothing_runs_off_the_page_in_an_independent_renderer(width: float, height: float) -> None:
    try:
        import cairosvg
    except OSError:
        missing("libcairo")
    from PIL import Image

    png = cairosvg.svg2png(bytestring=svg_text(page(width, height)).encode(), output_width=900)
    grey = Image.open(io.BytesIO(png)).convert("L")
    ink = grey.point([255 if v < 200 else 0 for v in range(256)]).getbbox()
    assert ink is not None
    assert min(ink[0], ink[1], grey.width - ink[2], grey.height - ink[3]) >= 3


@pytest.mark.parametrize(("width", "height"), [(36, 52), (240, 130), (960, 360)])
def test_check_bars_measure_true_through_an_independent_reader(width: float, height: float) -> None:
    import svgelements

    read = svgelements.SVG.parse(io.StringIO(svg_text(page(width, height))), ppi=96)
    mm = 25.4 / 96
    lines = [p.bbox() for p in read.elements() if isinstance(p, svgelements.Path) and len(p) == 2]
    across = sorted({round((x2 - x1) * mm, 2) for x1, y1, x2, y2 in lines if y1 == y2})
    upright = {round((y2 - y1) * mm, 2) for x1, y1, x2, y2 in lines if x1 == x2}
    assert across[-2:] == [100.0, 101.6], "4 in is 101.6 mm exactly"
    assert 100.0 in upright


@pytest.mark.parametrize(("width", "height"), [(36, 52), (960, 360)])
def test_notes_keep_clear_of_the_cuts(width: float, height: float) -> None:
    sheet = page(width, height)
    corners = next(layer for layer in sheet.layers if layer.name == "cut-outline").shapes[0].points
    (x1, y1), (x2, y2) = corners[0], corners[2]
    assert (x2 - x1, y2 - y1) == pytest.approx((width, height))
    for shape in next(layer for layer in sheet.layers if layer.name == "notes").shapes:
        for x, y in shape.points if isinstance(shape, Path) else [shape.at]:
            assert not (x1 - 1 < x < x2 + 1 and y1 - 1 < y < y2 + 1), shape


def test_all_that_is_not_the_part_is_in_the_note_layer() -> None:
    sheet = page(960, 360)
    assert {layer.name for layer in sheet.layers} == {"cut-outline", "notes"}
    assert all(isinstance(s, Path) for s in sheet.layers[0].shapes)
    assert sheet.stamp == "s"


def test_the_banner_is_the_largest_text() -> None:
    texts = [s for s in page(960, 360).layers[-1].shapes if isinstance(s, Text)]
    assert max(texts, key=lambda text: text.height_mm).text == LONG.banner
    assert next(t for t in texts if t.text == LONG.banner).height_mm > 30


def test_a_number_is_not_parted_from_its_unit() -> None:
    rows = wrapped(["The kerf that is used here is 0.2 mm wide"], width_mm=31 * 0.6 * 4, height_mm=4)
    assert rows == ["The kerf that is used here is", "0.2 mm wide"]


def test_type_shrinks_to_the_room() -> None:
    assert size_to_fit("MMMM", width_mm=20, largest_mm=50) < 8
    assert size_to_fit("", width_mm=20, largest_mm=5) == 5
