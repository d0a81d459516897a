"""Which function writes which kind of file: add a format by adding a line."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from segkit.drawing.drawing import Drawing
from segkit.drawing.dxf import dxf_bytes
from segkit.drawing.pdf import pdf_bytes
from segkit.drawing.png import png_bytes
from segkit.drawing.svg import svg_text
from segkit.errors import InputError, Problem

PNG_PIXELS_PER_MM = 2.0  # at most: 51 dots an inch
LOOK_PX = 1400  # pixels along the longer side of a large page: as wide as a screen shows at once

Writer = Callable[[Drawing], bytes]


def _svg(drawing: Drawing) -> bytes:
    return svg_text(drawing).encode("utf-8")


def _png(drawing: Drawing) -> bytes:
    longest = max(drawing.width_mm, drawing.height_mm)
    return png_bytes(drawing, pixels_per_mm=min(PNG_PIXELS_PER_MM, LOOK_PX / longest))


def _pdf(drawing: Drawing) -> bytes:
    return pdf_bytes([drawing])


#: The files that a machine or a printer takes, then the picture for a look.
WRITERS: Mapping[str, Writer] = {".svg": _svg, ".dxf": dxf_bytes, ".pdf": _pdf, ".png": _png}


def writer(suffix: str) -> Writer:
    """The function that turns a drawing into the bytes of a file.

    Args:
        suffix: one of ``WRITERS``, in either case, with its point.

    Raises:
        InputError: no writer for that suffix; names those that there are.

    Example:
        >>> writer(".SVG")(Drawing("Empty", 10, 10, ()))[:5]
        b'<?xml'
    """
    if suffix.lower() not in WRITERS:
        raise InputError(
            Problem(
                f'no drawing can be written as "{suffix}".',
                limit=", ".join(WRITERS),
                remedy="Give the file name one of these endings.",
            )
        )
    return WRITERS[suffix.lower()]
