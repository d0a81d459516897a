from __future__ import annotations

import io
from collections.abc import Callable

import pytest
from PIL import Image

from segkit.drawing.drawing import Circle, Path
from segkit.drawing.svg import svg_text
from segkit.errors import InputError
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace
from segkit.preview.colours import FACE, UNLIT, lit_colour, rgb
from segkit.preview.lit import lit_drawing
from tests.conftest import missing

Lit = Callable[[str], dict[int, frozenset[str]]]
RED = lit_colour("red")


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


def test_a_dark_board_has_no_lit_layer_and_a_full_one_none_unlit(clock: Board, lit: Lit) -> None:
    assert [layer.name for layer in lit_drawing(clock, {}, colour=RED).layers] == ["unlit"]
    full = lit_drawing(clock, lit("88:88"), colour=RED)
    assert [layer.name for layer in full.layers] == ["lit"]


def test_strange_digits_and_segments_are_all_named(clock: Board) -> None:
    with pytest.raises(InputError) as caught:
        lit_drawing(clock, {1: frozenset({"a", "dp"}), 7: frozenset("a")}, colour=RED)
    assert [problem.text for problem in caught.value.problems] == [
        "digit 1 of this board has no segment dp.",
        "digit 7 of this board has no segment a.",
    ]


def test_bare_bulbs_are_drawn_in_place_of_the_segments(clock: Board, lit: Lit) -> None:
    bulbs = tuple(LedPlace(s.digit, s.name, 1, middle(clock, s.digit, s.name)) for s in clock.segments)
    drawing = lit_drawing(clock, lit("12:45"), colour=RED, bulbs=bulbs, bulb_mm=5.0)
    layers = {layer.name: layer.shapes for layer in drawing.layers}
    on = [one.at for one in bulbs if one.segment in lit("12:45")[one.digit]]
    assert layers["lit"] == tuple(Circle(at, 2.5) for at in on)
    assert len(layers["lit"]) + len(layers["unlit"]) == len(clock.segments)
