from __future__ import annotations

import io
from dataclasses import replace

import pytest
from PIL import Image, ImageChops, ImageStat

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text
from segkit.drawing.png import LARGEST_PIXELS, png_bytes
from segkit.drawing.svg import svg_text
from segkit.errors import InputError
from tests.conftest import missing


def _opened(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data)).convert("RGB")


def test_size_and_resolution_are_written(page: Drawing) -> None:
    picture = Image.open(io.BytesIO(png_bytes(page, pixels_per_mm=4)))
    assert picture.size == (482, 321)
    assert picture.info["dpi"] == pytest.approx((101.6, 101.6), abs=0.01)


def test_same_bytes_each_time_and_no_time_in_them(page: Drawing) -> None:
    first = png_bytes(page, pixels_per_mm=3)
    assert first == png_bytes(page, pixels_per_mm=3)
    assert b"tIME" not in first
    assert b"tEXt" not in first


def test_looks_as_an_independent_renderer_draws_the_svg(page: Drawing) -> None:
    try:
        import cairosvg
    except OSError:
        missing("libcairo")
    shapes = replace(page, layers=page.layers[:4])  # type differs between renderers
    ours = _opened(png_bytes(shapes, pixels_per_mm=8))
    svg = svg_text(shapes).encode()
    theirs = _opened(cairosvg.svg2png(bytestring=svg, output_width=ours.width, output_height=ours.height))
    gap = ImageChops.difference(ours, theirs)
    assert max(ImageStat.Stat(gap).mean) < 0.6, "mean difference of 255"
    inner = gap.crop((60, 420, 340, 580))  # inside the filled field: away from its edges no difference at all
    assert max(high for _, high in inner.getextrema()) == 0


def test_area_of_filled_shapes() -> None:
    one = Drawing(
        "",
        60,
        40,
        (Layer("a", "fill", (Circle((20, 20), 12.3), Path(((40, 5), (55, 5), (40, 35)))), "#000000"),),
    )
    picture = _opened(png_bytes(one, pixels_per_mm=6)).convert("L")
    dark_mm2 = sum((255 - v) / 255 for v in picture.tobytes()) / 36
    assert dark_mm2 == pytest.approx(3.14159265 * 12.3**2 + 225, rel=0.004)


def test_text_stands_where_it_should_even_turned() -> None:
    notes = (Text((50, 50), "HHHH", 10, "end"), Text((80, 20), "HHHH", 10, "start", 90))
    picture = _opened(
        png_bytes(Drawing("", 100, 100, (Layer("n", "note", notes),)), pixels_per_mm=4)
    ).convert("L")
    dark = picture.point([255 if v < 128 else 0 for v in range(256)])
    lying = dark.crop((0, 0, 260, 400)).getbbox()
    standing = dark.crop((260, 0, 400, 400)).getbbox()
    assert lying is not None
    assert standing is not None
    assert lying[2] / 4 == pytest.approx(50, abs=1.2)
    assert lying[3] / 4 == pytest.approx(50, abs=0.5)
    assert (260 + standing[2]) / 4 == pytest.approx(80, abs=0.5)
    assert standing[3] / 4 == pytest.approx(80, abs=1.2)
    assert standing[3] - standing[1] > 2 * (standing[2] - standing[0])


def test_bands_join_without_a_seam() -> None:
    tall = Drawing(
        "", 30, 300, (Layer("a", "fill", (Path(((5, 5), (25, 5), (25, 295), (5, 295))),), "#123456"),)
    )
    picture = _opened(png_bytes(tall, pixels_per_mm=2))
    assert {picture.getpixel((30, y)) for y in range(12, 588)} == {(0x12, 0x34, 0x56)}


@pytest.mark.parametrize("resolution", [0.0, -1.0, float("nan"), float("inf")])
def test_a_resolution_must_be_above_nought(page: Drawing, resolution: float) -> None:
    with pytest.raises(InputError, match="above 0 pixels per mm"):
        png_bytes(page, pixels_per_mm=resolution)


def test_too_large_a_picture_says_what_would_do() -> None:
    huge = Drawing("", 4000, 3000, ())
    with pytest.raises(InputError, match=r"Allowed: up to 1\.82 pixels per mm") as caught:
        png_bytes(huge, pixels_per_mm=10)
    assert "SVG" in str(caught.value)
    assert LARGEST_PIXELS >= 4000 * 3000 * 1.82**2
