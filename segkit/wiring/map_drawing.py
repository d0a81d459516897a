"""The channel map as a picture from behind: on each segment the chip and the output that light it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from segkit.drawing.drawing import Drawing
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Point
from segkit.wiring.channel_map import Channel, ChannelMap
from segkit.wiring.page import EDGE_MM, PAGE_HIGH_MM, PAGE_WIDE_MM, notes, sheet
from segkit.wiring.pen import Pen, text_mm
from segkit.wiring.view import View, view_of

_FOOT = 46.0
_LARGEST_MM = 5.0
#: A label is turned along its upright where that makes it so many times as large.
_WORTH_TURNING = 1.4


def map_drawing(
    board: Board, channels: ChannelMap, *, title: str, stamp: str = "", behind: bool = True
) -> Drawing:
    """The sheet: every segment with chip, output, pin and place in the stream; spare outputs below.

    Args:
        board: all segments in place.
        channels: which output lights which segment.
        title, stamp: for the page.
        behind: False draws the same from the front, for a check.

    Source: the channel map.
    """
    pen = sheet(title, "Channel map: which output lights which segment", stamp, behind=behind, panel=False)
    points = [point for s in board.segments for outline in s.outlines for point in outline]
    view = view_of(
        points, left_mm=EDGE_MM + 16, foot_mm=_FOOT, wide_mm=PAGE_WIDE_MM - 2 * EDGE_MM - 32,
        high_mm=PAGE_HIGH_MM - EDGE_MM - 32 - _FOOT, behind=behind,
    )  # fmt: skip
    by_lamp = {(c.digit, c.segment): c for c in channels.channels if c.segment}
    for segment in board.segments:
        _segment(pen, segment, by_lamp[segment.digit, segment.name], view)
    for digit in dict.fromkeys(s.digit for s in board.segments):
        _digit(pen, board, digit, view)
    spare = ", ".join(f"chip {c.chip} {c.output} (pin {c.pin})" for c in channels.spares)
    lines = [
        "On each segment: chip and output; below, the output's pin at the register and, after a number sign, "
        "its place in the stream, 0 for the bit that is shifted first.",
        f"Spare outputs: {spare}." if spare else "No output is spare.",
    ]
    notes(pen, lines, left=EDGE_MM + 6, top=_FOOT - 10, wide=PAGE_WIDE_MM - 2 * EDGE_MM - 80, size=3.0)
    return pen.drawing()


def label(channel: Channel) -> tuple[str, str]:
    """What stands on a segment: chip and output, pin and place.

    Example:
        >>> label(Channel(2, "QA", 15, 0, 23, 2, "a"))
        ('2 QA', '15 #23')
    """
    return f"{channel.chip} {channel.output}", f"{channel.pin} #{channel.place}"


def _segment(pen: Pen, segment: Segment, channel: Channel, view: View) -> None:
    for outline in segment.outlines:
        pen.put("area", view.outline(outline))
        pen.put("line", view.outline(outline))
    for at, room, high in _fields(segment, view):
        words = label(channel)
        size = min(
            _LARGEST_MM, high / 2.6, *(_LARGEST_MM * room / text_mm(word, _LARGEST_MM) for word in words)
        )
        upright = min(_LARGEST_MM, room / 2.1, *(_LARGEST_MM * high / text_mm(w, _LARGEST_MM) for w in words))
        if upright > _WORTH_TURNING * size:
            _turned(pen, at, words, upright)
            continue
        pen.centred((at[0], at[1] + 0.6 * size), words[0], size)
        pen.centred((at[0], at[1] - 0.6 * size), words[1], 0.8 * size)


def _turned(pen: Pen, at: Point, words: tuple[str, str], size: float) -> None:
    """Both lines from foot to head, side by side, where an upright is too narrow for them."""
    for word, aside, own in ((words[0], -0.6 * size, size), (words[1], 0.6 * size, 0.8 * size)):
        pen.text((at[0] + aside + 0.36 * own, at[1]), word, own, anchor="middle", turn=90.0)


def _fields(segment: Segment, view: View) -> Iterator[tuple[Point, float, float]]:
    """Middle of each outline with the width and height that a text has there, page mm."""
    for (ax, ay), (bx, by) in segment.axes:
        lying = abs(bx - ax) > abs(by - ay)
        stroke, length = segment.stroke_mm * view.scale, segment.length_mm * view.scale
        dot = math.dist((ax, ay), (bx, by)) < 1e-9
        wide = 0.6 * length if lying else (0.7 if dot else 0.78) * stroke
        high = 0.8 * stroke if lying or dot else 0.5 * length
        yield view.at(((ax + bx) / 2, (ay + by) / 2)), wide, high


def _digit(pen: Pen, board: Board, digit: int, view: View) -> None:
    """Number of the digit in its upper cell, letters of the segments inside the digit."""
    named = {s.name: s for s in board.segments if s.digit == digit}
    upper, lower = (_middle(named, bars) for bars in ("ag", "gd"))
    at = view.at(upper)
    across = abs(named["b"].axes[0][0][0] - named["f"].axes[0][0][0]) - named["b"].stroke_mm
    room = across * view.scale
    inset = min(4.5, 0.13 * room)
    size = min(
        9.0, 0.2 * view.scale * abs(upper[1] - lower[1]), (room - 2 * inset - 7) / text_mm("digit 8", 1.0)
    )
    size = max(2.0, size)
    pen.centred(at, f"digit {digit}", size)
    for name in "abcdefg":
        (ax, ay), (bx, by) = named[name].axes[0]
        middle, cell = ((ax + bx) / 2, (ay + by) / 2), upper if name in "abfg" else lower
        away = math.dist(middle, cell)
        reach = (named[name].stroke_mm / 2 + inset / view.scale) / away
        spot = (middle[0] + (cell[0] - middle[0]) * reach, middle[1] + (cell[1] - middle[1]) * reach)
        pen.centred(view.at(spot), name, min(4.5, 0.5 * size + 1.5))


def _middle(named: dict[str, Segment], bars: str) -> Point:
    ends = [end for name in bars for end in named[name].axes[0]]
    return sum(x for x, _ in ends) / len(ends), sum(y for _, y in ends) / len(ends)
