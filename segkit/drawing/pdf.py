"""Drawings as the pages of a PDF at true size."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text
from segkit.drawing.png import plain_letters
from segkit.units import coordinate

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

POINT_MM = 25.4 / 72
LARGEST_POINTS = 14_400  # a side of a page may have no more units than that: ISO 32000-1, annex C
TYPEFACE = "Helvetica"  # one of the standard 14 that every reader has: nothing is embedded
_KAPPA = 4 / 3 * (math.sqrt(2) - 1)


def pdf_bytes(pages: Sequence[Drawing]) -> bytes:
    """Drawings as the bytes of one PDF, a page each, each page exactly as large as its drawing.

    A page with a side over 5080 mm has a larger user unit, as the standard provides. The same drawings
    give the same bytes: no date, no random id.

    Args:
        pages: at least one drawing; title and stamp of the first describe the file.

    Sources: iso-32000-1.

    Example:
        >>> pdf_bytes([Drawing("Empty", 20, 10, ())])[:8]
        b'%PDF-1.4'
    """
    from reportlab.pdfgen.canvas import Canvas

    out = io.BytesIO()
    first = pages[0]
    largest = max(max(page.width_mm, page.height_mm) for page in pages)
    unit = math.ceil(largest / POINT_MM / LARGEST_POINTS)
    canvas = Canvas(out, invariant=1, pageCompression=1, pdfVersion=(1, 6 if unit > 1 else 4))
    if unit > 1:
        _set_user_unit(canvas, unit)
    canvas.setTitle(first.title)
    canvas.setSubject(first.stamp)
    canvas.setCreator("segkit")
    for page in pages:
        _page(canvas, page, POINT_MM * unit)
    canvas.save()
    return out.getvalue()


def _set_user_unit(canvas: Canvas, unit: int) -> None:
    """Each page says how long its unit is; the library has no word for it, so it is told when it adds one."""
    document = canvas._doc  # type: ignore[attr-defined]
    add = document.addPage

    def added(page: Any) -> None:
        page.UserUnit = unit
        page.__NoDefault__ = [*page.__NoDefault__, "UserUnit"]
        add(page)

    document.addPage = added


def _page(canvas: Canvas, page: Drawing, unit_mm: float) -> None:
    canvas.setPageSize((page.width_mm / unit_mm, page.height_mm / unit_mm))
    canvas.scale(1 / unit_mm, 1 / unit_mm)
    canvas.setLineJoin(0)
    if page.background:
        canvas.setFillColor(page.background)
        canvas.rect(0, 0, page.width_mm, page.height_mm, stroke=0, fill=1)
    for layer in page.layers:
        _layer(canvas, layer)
    canvas.showPage()


def _layer(canvas: Canvas, layer: Layer) -> None:
    canvas.setStrokeColor(layer.colour)
    canvas.setFillColor(layer.colour)
    canvas.setLineWidth(layer.line_mm)
    paint = "f" if layer.operation == "fill" else "S"
    for shape in layer.shapes:
        if isinstance(shape, Text):
            _text(canvas, shape)
        elif paint == "f" or layer.line_mm > 0:
            canvas.addLiteral(f"{_pen(shape)} {paint}")


def _pen(shape: Path | Circle) -> str:
    """Operators of the content stream that draw the outline: ISO 32000-1, 8.5.2."""
    if isinstance(shape, Path):
        corners = " l ".join(f"{coordinate(x)} {coordinate(y)}" for x, y in shape.points)
        return f"{corners.replace(' l', ' m', 1)} {'l' * (len(shape.points) > 1)}{' h' * shape.closed}"
    (x, y), r = shape.centre, shape.radius_mm
    k = _KAPPA * r
    quarters = (
        (x + r, y + k, x + k, y + r, x, y + r),
        (x - k, y + r, x - r, y + k, x - r, y),
        (x - r, y - k, x - k, y - r, x, y - r),
        (x + k, y - r, x + r, y - k, x + r, y),
    )
    curves = " ".join(" ".join(map(coordinate, quarter)) + " c" for quarter in quarters)
    return f"{coordinate(x + r)} {coordinate(y)} m {curves} h"


def _text(canvas: Canvas, text: Text) -> None:
    words = standard_letters(text.text)
    canvas.setFont(TYPEFACE, text.height_mm)
    draw = {
        "start": canvas.drawString, "middle": canvas.drawCentredString, "end": canvas.drawRightString,
    }[text.anchor]  # fmt: skip
    if not text.rotation_deg:
        draw(*text.at, words)
        return
    canvas.saveState()
    canvas.translate(*text.at)
    canvas.rotate(text.rotation_deg)
    draw(0, 0, words)
    canvas.restoreState()


def standard_letters(text: str) -> str:
    """The text in the letters of the standard typefaces: accents dropped, ``?`` for the rest.

    Example:
        >>> standard_letters("Größe – 5 Ω"), standard_letters("日")
        ('Größe – 5 Ohm', '?')
    """
    return "".join(letter if _standard(letter) else plain_letters(letter) for letter in text)


def _standard(letter: str) -> bool:
    try:
        return letter.isprintable() and bool(letter.encode("cp1252"))
    except UnicodeEncodeError:
        return False
