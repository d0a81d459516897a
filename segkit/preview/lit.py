"""The board as it looks lit: as a drawing, and as a picture with the glow."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from segkit.drawing.drawing import Circle, Drawing, Layer, Path
from segkit.drawing.png import encoded, picture_size, png_image
from segkit.errors import InputError, Problem
from segkit.geometry.board import Board, Segment
from segkit.preview.colours import FACE, UNLIT

if TYPE_CHECKING:
    from PIL import Image

Lit = Mapping[int, frozenset[str]]

_CORE = 0.2  # of the stroke: how far the light of a segment falls off towards its walls
_HALO = 0.45  # of the stroke: the glow round a segment
_HAZE = 2.2  # of the stroke: the wide, faint glow


def lit_drawing(
    board: Board,
    lit: Lit,
    *,
    colour: str,
    face_colour: str = FACE,
    unlit_colour: str = UNLIT,
    title: str = "The board lit",
    stamp: str = "",
) -> Drawing:
    """The board with some segments lit, as a page of filled areas at true size, seen from the front.

    Args:
        board: all segments in place.
        lit: digit number to the names of its lit segments, ``dp`` and ``colon`` among them; digits left
            out are dark.
        colour: of the lit segments, ``#rrggbb``; see ``colours.lit_colour``.
        face_colour, unlit_colour: of the board and of the segments that are off.
        title, stamp: for the file.

    Raises:
        InputError: a digit or a segment that the board does not have.

    Example:
        >>> from segkit.geometry.board import board_of
        >>> from segkit.geometry.digit import DigitShape
        >>> one = board_of(layout="8", shape=DigitShape(100, 55, 14, 3, "pointed", 0, 14), spacing_mm=20,
        ...                margin_mm=20)
        >>> page = lit_drawing(one, {1: frozenset("bc")}, colour="#ff2a1a")
        >>> [(layer.name, len(layer.shapes)) for layer in page.layers]
        [('unlit', 5), ('lit', 2)]
    """
    on, off = _parted(board, lit)
    areas = (Layer("unlit", "fill", _areas(off), unlit_colour), Layer("lit", "fill", _areas(on), colour))
    layers = tuple(layer for layer in areas if layer.shapes)
    # The face is the background, so that it also fills the part of a pixel that a board leaves at its edge.
    return Drawing(title, board.width_mm, board.height_mm, layers, background=face_colour, stamp=stamp)


def lit_png(
    board: Board,
    lit: Lit,
    *,
    colour: str,
    pixels_per_mm: float,
    face_colour: str = FACE,
    unlit_colour: str = UNLIT,
) -> bytes:
    """The board as a photograph at dusk would show it: lit segments glow, the others are just to be seen.

    A picture to recognise the board by, not a measurement: the brightness is not computed.

    Args:
        board, lit, colour, face_colour, unlit_colour: as for ``lit_drawing``.
        pixels_per_mm: resolution, above 0.

    Raises:
        InputError: as for ``lit_drawing``, or a picture of more than 40 million pixels.
    """
    from PIL import Image, ImageChops

    off = _parted(board, {})[1]
    on = _parted(board, lit)[0]
    size = picture_size(width_mm=board.width_mm, height_mm=board.height_mm, pixels_per_mm=pixels_per_mm)
    picture = png_image(
        lit_drawing(board, {}, colour=colour, face_colour=face_colour, unlit_colour=unlit_colour),
        pixels_per_mm=pixels_per_mm,
    )
    if on and off:
        stencil = _stencil(board, on, pixels_per_mm)
        stroke = max(1.0, max(segment.stroke_mm for segment in on) * pixels_per_mm)
        paint = Image.new("RGB", size, colour)
        picture.paste(paint, (0, 0), _dimmed(_blurred(stencil, _CORE * stroke), stencil))
        for reach, strength in ((_HALO, 0.42), (_HAZE, 0.22)):
            glow = _blurred(stencil, reach * stroke).point([round(v * strength) for v in range(256)])
            picture = ImageChops.screen(picture, _tinted(colour, glow))
        hot = _blurred(stencil, 2 * _CORE * stroke).point([max(0, v - 150) for v in range(256)])
        picture = ImageChops.screen(picture, _tinted("#ffffff", ImageChops.multiply(hot, stencil)))
    return encoded(picture, pixels_per_mm=pixels_per_mm)


def _dimmed(soft: Image.Image, stencil: Image.Image) -> Image.Image:
    """Full strength in the middle of a segment, a little less at its walls, nothing outside."""
    from PIL import ImageChops

    return ImageChops.multiply(soft.point([min(255, 60 + v) for v in range(256)]), stencil)


def _blurred(stencil: Image.Image, radius: float) -> Image.Image:
    from PIL import ImageFilter

    return stencil.filter(ImageFilter.GaussianBlur(radius))


def _tinted(colour: str, light: Image.Image) -> Image.Image:
    from PIL import Image

    picture = Image.new("RGB", light.size)
    picture.paste(Image.new("RGB", light.size, colour), (0, 0), light)
    return picture


def _stencil(board: Board, on: tuple[Segment, ...], pixels_per_mm: float) -> Image.Image:
    page = Drawing(
        "", board.width_mm, board.height_mm, (Layer("lit", "fill", _areas(on), "#ffffff"),), "#000000"
    )
    return png_image(page, pixels_per_mm=pixels_per_mm).convert("L")


def _areas(segments: tuple[Segment, ...]) -> tuple[Path | Circle, ...]:
    return tuple(Path(outline) for segment in segments for outline in segment.outlines)


def _parted(board: Board, lit: Lit) -> tuple[tuple[Segment, ...], tuple[Segment, ...]]:
    """Segments that are on, and that are off."""
    refuse_unknown(board, lit)
    on = tuple(s for s in board.segments if s.name in lit.get(s.digit, frozenset()))
    return on, tuple(s for s in board.segments if s not in on)


def refuse_unknown(board: Board, lit: Lit) -> None:
    """Names every digit and segment that is to be lit and is not there.

    Raises:
        InputError: at least one such.
    """
    there = {(segment.digit, segment.name) for segment in board.segments}
    stray = sorted((d, name) for d, names in lit.items() for name in names if (d, name) not in there)
    if stray:
        raise InputError(
            Problem(
                f"digit {digit} of this board has no segment {name}.",
                limit=f"digits 1 to {board.digits}, and the points and colons of {board.layout!r}",
            )
            for digit, name in stray
        )
