"""Several pictures on one sheet, each with a line of text over it, and notes that fit their place."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING

from segkit.drawing.png import plain_letters

if TYPE_CHECKING:
    from PIL import Image, ImageDraw, ImageFont

PAPER, INK, PALE = "#0d0e10", "#f1eee7", "#a9a8a2"
_EDGE, _TITLE, _LABEL = 24, 60, 40  # pixels: rim, height of the title's and of a label's line
_TITLE_TYPE, _TYPE, _SMALL, _SMALLEST = 24, 18, 15, 10  # heights of the letters, pixels
_LEADING = 1.45  # of the letters' height: from line to line


def sheet(
    panels: Sequence[tuple[Image.Image, str]], *, title: str, notes: Sequence[str], columns: int = 2
) -> Image.Image:
    """One picture of many, with a title, a line of text over each, and notes.

    Each cell is as large as the largest picture. The notes stand in the last row where a cell of it is
    empty and large enough, or below. A line too long for its place is set in smaller letters.

    Args:
        panels: pictures and their texts, row by row.
        title: over all of them.
        notes: one paragraph each.
        columns: pictures side by side, 1 or more.
    """
    from PIL import Image, ImageDraw

    width = max(picture.width for picture, _ in panels)
    height = max(picture.height for picture, _ in panels)
    rows = -(-len(panels) // columns)
    full = columns * (width + _EDGE) + _EDGE
    below = _TITLE + rows * (height + _LABEL)
    x, y = _EDGE + len(panels) % columns * (width + _EDGE), below - height
    lines = _wrapped(notes, full - x - _EDGE)
    inside = bool(len(panels) % columns) and _high(lines) <= height
    if not inside:
        x, y, lines = _EDGE, below + _EDGE, _wrapped(notes, full - 2 * _EDGE)
    whole = Image.new("RGB", (full, below + _EDGE if inside else y + _high(lines) + _EDGE), PAPER)
    pen = ImageDraw.Draw(whole)
    _line(pen, (_EDGE, _TITLE - 20), title, size=_TITLE_TYPE, width=full - 2 * _EDGE)
    for number, (picture, text) in enumerate(panels):
        left = _EDGE + number % columns * (width + _EDGE)
        top = _TITLE + number // columns * (height + _LABEL)
        _line(pen, (left, top + _LABEL - 11), text, size=_TYPE, width=width)
        whole.paste(picture, (left + (width - picture.width) // 2, top + _LABEL))
    small = _type(_SMALL)
    for number, line in enumerate(lines):
        pen.text((x, y + round(number * _SMALL * _LEADING)), line, fill=PALE, font=small)
    return whole


def png(picture: Image.Image) -> bytes:
    """The picture as the bytes of a PNG file without a time.

    Args:
        picture: any.
    """
    out = io.BytesIO()
    picture.save(out, "PNG", compress_level=6)
    return out.getvalue()


def _line(pen: ImageDraw.ImageDraw, at: tuple[int, int], text: str, *, size: int, width: int) -> None:
    letters = plain_letters(text)
    while size > _SMALLEST and _type(size).getlength(letters) > width:
        size -= 1
    pen.text(at, letters, fill=INK, font=_type(size), anchor="ls")


def _wrapped(notes: Sequence[str], width: int) -> list[str]:
    """Lines of all paragraphs, with an empty one between them."""
    lines: list[str] = []
    type_ = _type(_SMALL)
    for note in notes:
        lines += [""] if lines else []
        line = ""
        for word in plain_letters(note).split():
            longer = f"{line} {word}".strip()
            if line and type_.getlength(longer) > width:
                lines.append(line)
                longer = word
            line = longer
        lines.append(line)
    return lines


def _high(lines: Sequence[str]) -> int:
    return round(len(lines) * _SMALL * _LEADING)


def _type(size: int) -> ImageFont.FreeTypeFont:
    from PIL import ImageFont

    font = ImageFont.load_default(size)
    assert isinstance(font, ImageFont.FreeTypeFont)
    return font
