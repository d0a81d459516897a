"""Which function writes which kind of file: add a format by adding a line."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from segkit.drawing.drawing import Drawing
from segkit.drawing.png import png_bytes
from segkit.drawing.svg import svg_text
from segkit.errors import InputError, Problem

PNG_PIXELS_PER_MM = 2.0  # 51 dots an inch: a 1 m board is 2000 pixels wide on a screen

Writer = Callable[[Drawing], bytes]


def _svg(drawing: Drawing) -> bytes:
    return svg_text(drawing).encode("utf-8")


def _png(drawing: Drawing) -> bytes:
    return png_bytes(drawing, pixels_per_mm=PNG_PIXELS_PER_MM)


WRITERS: Mapping[str, Writer] = {".svg": _svg, ".png": _png}


def writer(suffix: str) -> Writer:
    """The function that turns a drawing into the bytes of a file.

    Args:
        suffix: ``.svg`` or ``.png``, in either case, with its point.

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
