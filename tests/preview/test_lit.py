from __future__ import annotations

import io
from collections.abc import Callable

import pytest
from PIL import Image

from segkit.drawing.drawing import Path
from segkit.drawing.svg import svg_text
from segkit.errors import InputError
from segkit.geometry.board import Board
from segkit.preview.colours import FACE, UNLIT, lit_colour, rgb
from segkit.preview.lit import lit_drawing, lit_png
from tests.conftest import missing

Lit = Callable[[str], dict[int, frozenset[str]]]
RED = lit_colour("red")
WHITE = lit_colour("white")


def middle(board: Board, digit: int, name: str) -> tuple[float, float]:
    (x1, y1), (x2, y2) = next(s for s in board.segments if (s.digit, s.name) == (digit, name)).axes[0]
    return (x1 + x2) / 2, (y1 + y2) / 2


def opened(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data)).convert("RGB")


def seen(picture: Image.Image, board: Board, at: tuple[float, float]) -> tuple[int, ...]:
    scale = picture.width / board.width_mm
    pixel = picture.getpixel((round(at[0] * scale), round((board.height_mm - at[1]) * scale)))
    assert isinstance(pixel, tuple)
    return pixel


def test_each_segment_is_lit_or_not_as_told(clock: Board, lit: Lit) -> None:
    drawing = lit_drawing(clock, lit("12:45"), colour=RED)
    layers = {layer.name: layer for layer in drawing.layers}
    on = [o for s in clock.segments if s.name in lit("12:45")[s.digit] for o in s.outlines]
    assert layers["lit"].shapes == tuple(Path(outline) for outline in on)
    assert len(layers["lit"].shapes) + len(layers["unlit"].shapes) == sum(
        len(s.outlines) for s in clock.segments
    )
    assert (drawing.background, layers["unlit"].colour, layers["lit"].colour) == (FACE, UNLIT, RED)
    assert all(layer.operation == "fill" for layer in drawing.layers)


def test_an_independent_renderer_shows_the_text(clock: Board, lit: Lit) -> None:
    try:
        import cairosvg
    except OSError:
        missing("libcairo")
    svg = svg_text(lit_drawing(clock, lit("12:45"), colour=RED))
    picture = opened(cairosvg.svg2png(bytestring=svg.encode(), output_width=round(clock.width_mm)))
    for segment in clock.segments:
        on = segment.name in lit("12:45")[segment.digit]
        at = middle(clock, segment.digit, segment.name)
        assert seen(picture, clock, at) == rgb(RED if on else UNLIT), segment.name
    assert picture.getpixel((2, 2)) == rgb(FACE)


@pytest.mark.parametrize("colour", [RED, WHITE])
def test_the_picture_glows_where_it_is_lit_and_only_there(clock: Board, lit: Lit, colour: str) -> None:
    picture = opened(lit_png(clock, lit("12:45"), colour=colour, pixels_per_mm=1))
    for segment in clock.segments:
        brightest = max(seen(picture, clock, middle(clock, segment.digit, segment.name)))
        assert brightest > 240 if segment.name in lit("12:45")[segment.digit] else brightest < 110, (
            segment.name
        )
    x, y = middle(clock, 1, "b")
    beside = seen(picture, clock, (x + 0.75 * clock.shape.stroke_mm, y))
    far = seen(picture, clock, (5, 5))
    assert beside[0] > far[0] + 10, "soft glow beside a lit segment"
    assert max(far) < max(rgb(FACE)) + 25


def test_a_dark_board_has_no_glow_and_a_full_one_none_unlit(clock: Board, lit: Lit) -> None:
    dark = opened(lit_png(clock, {}, colour=RED, pixels_per_mm=0.5))
    assert seen(dark, clock, middle(clock, 1, "a")) == rgb(UNLIT)
    assert [layer.name for layer in lit_drawing(clock, {}, colour=RED).layers] == ["unlit"]
    full = lit_drawing(clock, lit("88:88"), colour=RED)
    assert [layer.name for layer in full.layers] == ["lit"]
    bright = opened(lit_png(clock, lit("88:88"), colour=RED, pixels_per_mm=0.5))
    assert all(seen(bright, clock, middle(clock, d, s))[0] > 240 for d in (1, 4) for s in "abcdefg")


@pytest.mark.parametrize("pixels_per_mm", [0.5, 0.6335, 0.7, 0.8172])
def test_the_face_reaches_every_edge_of_the_picture(clock: Board, pixels_per_mm: float) -> None:
    """A board that ends within a pixel leaves no light line there."""
    dark = opened(lit_png(clock, {}, colour=RED, pixels_per_mm=pixels_per_mm))
    last_x, last_y = dark.width - 1, dark.height - 1
    edges = {dark.getpixel((x, y)) for x in range(dark.width) for y in (0, last_y)}
    edges |= {dark.getpixel((x, y)) for x in (0, last_x) for y in range(dark.height)}
    assert edges == {rgb(FACE)}


def test_the_picture_is_the_same_each_time_and_true_to_size(clock: Board, lit: Lit) -> None:
    first = lit_png(clock, lit("12:45"), colour=RED, pixels_per_mm=0.5)
    assert first == lit_png(clock, lit("12:45"), colour=RED, pixels_per_mm=0.5)
    picture = Image.open(io.BytesIO(first))
    assert picture.size == (round(clock.width_mm / 2), round(clock.height_mm / 2))
    assert picture.info["dpi"][0] == pytest.approx(12.7, abs=0.01)


def test_strange_digits_and_segments_are_all_named(clock: Board) -> None:
    with pytest.raises(InputError) as caught:
        lit_drawing(clock, {1: frozenset({"a", "dp"}), 7: frozenset("a")}, colour=RED)
    assert [problem.text for problem in caught.value.problems] == [
        "digit 1 of this board has no segment dp.",
        "digit 7 of this board has no segment a.",
    ]
