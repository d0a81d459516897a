"""Rulers in mm and inch, printed on every page, so that a wrong scale is found before anything is cut."""

from __future__ import annotations

from segkit.drawing.drawing import Path, Point, Shape, Text
from segkit.fabrication.paper import INCH_MM

LONG_MM, LONG_IN = 100, 4
_TYPE_MM = 2.8
_TICKS_MM = (1.2, 1.9, 2.8)  # of 1, 5, 10 mm; of 1/8, 1/2, 1 in


def ruler(at: Point, *, upright: bool) -> tuple[Shape, ...]:
    """100 mm on one side of a line and 4 in on the other, with ticks at each mm and each eighth.

    Args:
        at: where both scales start.
        upright: True for a ruler that runs up, False for one that runs to the right.

    Returns:
        open lines and texts; the ruler is about 104 mm long, its labels another 14 mm, and 10 mm wide.

    Sources: arithmetic.

    Example:
        >>> line = ruler((10, 5), upright=False)[0]
        >>> line.points
        ((10.0, 5.0), (111.6, 5.0))
    """
    drawn: list[Shape] = [_line(at, (0.0, 0.0), (LONG_IN * INCH_MM, 0.0), upright)]
    for mm in range(LONG_MM + 1):
        tick = _TICKS_MM[2 if mm % 10 == 0 else 1 if mm % 5 == 0 else 0]
        drawn.append(_line(at, (float(mm), 0.0), (float(mm), tick), upright))
    for eighth in range(8 * LONG_IN + 1):
        tick = _TICKS_MM[2 if eighth % 8 == 0 else 1 if eighth % 4 == 0 else 0]
        x = eighth * INCH_MM / 8
        drawn.append(_line(at, (x, 0.0), (x, -tick), upright))
    end = LONG_IN * INCH_MM + 1.5
    return (
        *drawn,
        _text(at, (end, 0.6), "100 mm", upright),
        _text(at, (end, -0.6 - 0.72 * _TYPE_MM), "4 in", upright),
    )


def _line(at: Point, one: Point, other: Point, upright: bool) -> Path:
    return Path((_there(at, one, upright), _there(at, other, upright)), closed=False)


def _text(at: Point, place: Point, words: str, upright: bool) -> Text:
    return Text(_there(at, place, upright), words, _TYPE_MM, "start", 90.0 if upright else 0.0)


def _there(at: Point, place: Point, upright: bool) -> Point:
    along, aside = place
    return (at[0] - aside, at[1] + along) if upright else (at[0] + along, at[1] + aside)
