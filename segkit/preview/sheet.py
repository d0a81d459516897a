"""Several pictures under each other on one sheet, each with a line of text."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING

from segkit.drawing.png import plain_letters

if TYPE_CHECKING:
    from PIL import Image

PAPER, INK, PALE = "#0d0e10", "#e9e6df", "#9b9a95"
_EDGE, _LINE, _TYPE, _SMALL = 20, 40, 19, 15


def sheet(panels: Sequence[tuple[Image.Image, str]], *, columns: int = 1, foot: str = "") -> Image.Image:
    """One picture of many, with a line of text over each and one at the foot.

    Args:
        panels: pictures and their texts; each cell is as large as the largest picture.
        columns: pictures side by side, 1 or more.
        foot: a smaller line below; may hold newlines.
    """
    from PIL import Image, ImageDraw, ImageFont

    type_, small = ImageFont.load_default(_TYPE), ImageFont.load_default(_SMALL)
    width = max(picture.width for picture, _ in panels)
    height = max(picture.height for picture, _ in panels)
    rows = -(-len(panels) // columns)
    notes = [plain_letters(line) for line in foot.split("\n") if line]
    whole = Image.new(
        "RGB",
        (
            columns * (width + _EDGE) + _EDGE,
            rows * (height + _LINE) + _EDGE + len(notes) * (_SMALL + 7),
        ),
        PAPER,
    )
    pen = ImageDraw.Draw(whole)
    for number, (picture, text) in enumerate(panels):
        x = _EDGE + number % columns * (width + _EDGE)
        y = number // columns * (height + _LINE)
        pen.text((x, y + _LINE - 11), plain_letters(text), fill=INK, font=type_, anchor="ls")
        whole.paste(picture, (x + (width - picture.width) // 2, y + _LINE))
    for number, line in enumerate(notes):
        y = rows * (height + _LINE) + 12 + number * (_SMALL + 7)
        pen.text((_EDGE, y), line, fill=PALE, font=small)
    return whole


def png(picture: Image.Image) -> bytes:
    """The picture as the bytes of a small PNG file with 256 colours and without a time."""
    from PIL import Image

    out = io.BytesIO()
    few = picture.quantize(256, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
    few.save(out, "PNG", compress_level=9)
    return out.getvalue()
