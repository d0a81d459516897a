"""A drawing as a PNG picture, by Pillow alone, so that no system library is needed."""

from __future__ import annotations

import functools
import io
import math
import unicodedata
from typing import TYPE_CHECKING, Any

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Point, Text
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    from PIL import Image, ImageDraw

LARGEST_PIXELS = 40_000_000
_FINE = 4  # sub-pixels a pixel, each way
_BAND = 256  # pixel rows that are drawn at a time, to keep the memory small
_WRITTEN_OUT = {"–": "-", "—": "-", "−": "-", "×": "x", "Ω": "Ohm", "µ": "u", "ß": "ss", "ø": "o", "Ø": "O"}
_THINNEST = 0.75  # pixels: a thinner line would fade away in a picture


def png_bytes(drawing: Drawing, *, pixels_per_mm: float) -> bytes:
    """The drawing as the bytes of a PNG file, with smooth edges.

    The page is white where the drawing has no background. The resolution is written into the file, so
    that it prints at true size. No time is written.

    Args:
        drawing: any page.
        pixels_per_mm: resolution, above 0; 2 for a screen, 11.8 for 300 dots an inch.

    Raises:
        InputError: the picture would have more than 40 million pixels.

    Example:
        >>> png_bytes(Drawing("Empty", 20, 10, ()), pixels_per_mm=1)[1:4]
        b'PNG'
    """
    picture = png_image(drawing, pixels_per_mm=pixels_per_mm)
    return encoded(picture, pixels_per_mm=pixels_per_mm)


def png_image(drawing: Drawing, *, pixels_per_mm: float) -> Image.Image:
    """The drawing as an RGB picture in memory; the same arguments and errors as ``png_bytes``."""
    from PIL import Image, ImageDraw

    width, height = picture_size(
        width_mm=drawing.width_mm, height_mm=drawing.height_mm, pixels_per_mm=pixels_per_mm
    )
    picture = Image.new("RGB", (width, height))
    for top in range(0, height, _BAND):
        rows = min(_BAND, height - top)
        band = Image.new("RGB", (width * _FINE, rows * _FINE), drawing.background or "#ffffff")
        pen = _Pen(band, ImageDraw.Draw(band), pixels_per_mm * _FINE, drawing.height_mm, top * _FINE)
        for layer in drawing.layers:
            for shape in layer.shapes:
                pen.draw(shape, layer)
        picture.paste(band.reduce(_FINE), (0, top))
    return picture


def picture_size(*, width_mm: float, height_mm: float, pixels_per_mm: float) -> tuple[int, int]:
    """Pixels across and down.

    Raises:
        InputError: more than 40 million pixels, or a resolution that is not above 0.

    Example:
        >>> picture_size(width_mm=100, height_mm=50, pixels_per_mm=2)
        (200, 100)
    """
    if not (pixels_per_mm > 0 and math.isfinite(pixels_per_mm)):
        raise InputError(Problem("the resolution must be above 0 pixels per mm.", value=f"{pixels_per_mm:g}"))
    width, height = (max(1, round(side * pixels_per_mm)) for side in (width_mm, height_mm))
    if width * height > LARGEST_PIXELS:
        most = math.sqrt(LARGEST_PIXELS / (width_mm * height_mm))
        raise InputError(
            Problem(
                f"a picture of {width} x {height} pixels is too large.",
                value=f"{pixels_per_mm:g} pixels per mm",
                limit=f"up to {math.floor(most * 100) / 100:g} pixels per mm for this page",
                remedy="Ask for fewer pixels per mm, or take the SVG, which is sharp at any size.",
            )
        )
    return width, height


def encoded(picture: Image.Image, *, pixels_per_mm: float) -> bytes:
    """The picture as the bytes of a PNG file with its resolution and without a time."""
    out = io.BytesIO()
    dots_per_inch = pixels_per_mm * 25.4
    picture.save(out, "PNG", dpi=(dots_per_inch, dots_per_inch), compress_level=6)
    return out.getvalue()


class _Pen:
    """Draws shapes on one band of the enlarged picture."""

    def __init__(
        self, band: Image.Image, draw: ImageDraw.ImageDraw, scale: float, page_mm: float, top: int
    ) -> None:
        self._band, self._draw, self._scale, self._page_mm, self._top = band, draw, scale, page_mm, top

    def draw(self, shape: Path | Circle | Text, layer: Layer) -> None:
        match shape:
            case Path():
                self._path([self._at(point) for point in shape.points], shape.closed, layer)
            case Circle():
                self._path(self._round(shape), True, layer)
            case Text():
                self._text(shape, layer.colour)

    def _at(self, point: Point) -> Point:
        # Pillow counts whole numbers at the middle of a pixel
        return point[0] * self._scale - 0.5, (self._page_mm - point[1]) * self._scale - self._top - 0.5

    def _round(self, circle: Circle) -> list[Point]:
        (x, y), radius = self._at(circle.centre), circle.radius_mm * self._scale
        corners = max(24, math.ceil(math.tau * radius / 3))
        turns = (math.tau * k / corners for k in range(corners))
        return [(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]

    def _path(self, points: list[Point], closed: bool, layer: Layer) -> None:
        ys = [y for _, y in points]
        if max(ys) < -self._scale or min(ys) > self._band.height + self._scale:
            return
        if layer.operation == "fill":
            self._draw.polygon(points, fill=layer.colour)
        elif layer.line_mm > 0:
            width = max(1, round(max(layer.line_mm * self._scale, _THINNEST * _FINE)))
            line = [*points, *points[:2]] if closed else points
            self._draw.line(line, fill=layer.colour, width=width, joint="curve")

    def _misses(self, text: Text, y: float) -> bool:
        """Whether no part of the text can lie in this band."""
        size = text.height_mm * self._scale
        reach = 2 * size + (len(text.text) * size if text.rotation_deg else 0)
        return y + reach < 0 or y - reach > self._band.height

    def _text(self, text: Text, colour: str) -> None:
        from PIL import Image, ImageDraw

        font = _font(max(1.0, text.height_mm * self._scale))
        words = plain_letters(text.text)
        anchor = {"start": "ls", "middle": "ms", "end": "rs"}[text.anchor]
        x, y = self._at(text.at)
        if self._misses(text, y):
            return
        if not text.rotation_deg:
            self._draw.text((x, y), words, fill=colour, font=font, anchor=anchor)
            return
        reach = math.ceil(font.getlength(words) + 2 * text.height_mm * self._scale)
        stencil = Image.new("L", (2 * reach, 2 * reach))
        ImageDraw.Draw(stencil).text((reach, reach), words, fill=255, font=font, anchor=anchor)
        turned = stencil.rotate(text.rotation_deg, resample=Image.Resampling.BILINEAR)
        self._band.paste(Image.new("RGB", turned.size, colour), (round(x) - reach, round(y) - reach), turned)


@functools.lru_cache(maxsize=64)
def _font(size: float) -> Any:
    """The built-in type, unpacked once for each size."""
    from PIL import ImageFont

    return ImageFont.load_default(size)


def plain_letters(text: str) -> str:
    """The text in the letters that the built-in type of a picture has: accents dropped, ``?`` for the rest.

    Example:
        >>> plain_letters("Löwe – 5 Ω"), plain_letters("日")
        ('Lowe - 5 Ohm', '?')
    """
    known = "".join(_WRITTEN_OUT.get(letter, letter) for letter in text)
    folded = unicodedata.normalize("NFKD", known)
    return "".join("?" if ord(c) > 126 or ord(c) < 32 else c for c in folded if not unicodedata.combining(c))
