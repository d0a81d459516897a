"""Marks for people on the parts: names of the pieces, sides, polarity."""

from __future__ import annotations

import math
from collections.abc import Mapping

from segkit.drawing.drawing import Path, Point, Shape, Text
from segkit.fabrication.cut_sheet import size_to_fit, type_for
from segkit.geometry.board import Board, Segment
from segkit.wiring.led_strings import plus_side

LARGEST_MARK_MM = 14.0
FIXING_CROSS = 1.5  # centre cross across, in diameters of the hole; source common-practice
#: Signs of the polarity, across: a smaller one is not read at arm's length; source common-practice.
SMALLEST_SIGN_MM, LARGEST_SIGN_MM = 1.5, 3.0


def piece_name(segment: Segment, which: int = 0) -> str:
    """Digit and segment, as written on every sheet: ``2c``, ``2dp``; ``2:up`` and ``2:low`` for a colon.

    which is the number of the outline within the segment: a colon has two.
    """
    return f"{segment.digit}{_dot_label(segment, which) if segment.name == 'colon' else segment.name}"


def _dot_label(segment: Segment, which: int) -> str:
    heights = [middle(axis)[1] for axis in segment.axes]
    return ":up" if heights[which] == max(heights) else ":low"


def middle(axis: tuple[Point, Point]) -> Point:
    """The middle of an axis."""
    (x1, y1), (x2, y2) = axis
    return (x1 + x2) / 2, (y1 + y2) / 2


def name_in(name: str, at: Point, *, stroke_mm: float) -> Text:
    """A name that fits across a stroke, its middle at the point."""
    size = size_to_fit(name, width_mm=0.7 * stroke_mm, largest_mm=min(LARGEST_MARK_MM, 0.5 * stroke_mm))
    return centred(name, at, height_mm=size)


def centred(text: str, at: Point, *, height_mm: float) -> Text:
    """A text with its middle at the point: capitals are about 0.72 of the size of the type high."""
    return Text((at[0], at[1] - 0.36 * height_mm), text, height_mm, "middle")


def names_in_openings(board: Board, *, kerf_mm: float) -> tuple[Text, ...]:
    """The name of each segment in the middle of its opening, on what falls out inside the cut."""
    return tuple(
        name_in(piece_name(segment, which), middle(axis), stroke_mm=segment.stroke_mm - kerf_mm)
        for segment in board.segments
        for which, axis in enumerate(segment.axes)
    )


def side_marks(board: Board, *, type_mm: float | None) -> tuple[Text, ...]:
    """Which edge is which as the reader sees it, as seen from the front; beside the part, not on it.

    type_mm is the size of the notes on the page, None for one that suits the board: the margin of the page
    goes with it, and twice that size still fits there.
    """
    size = min(12.0, max(4.0, board.height_mm / 30), 2 * (type_mm or type_for(board.width_mm)))
    size = size_to_fit("reader's right", width_mm=0.9 * board.height_mm, largest_mm=size)
    y = board.height_mm / 2
    return (
        Text((-0.8 * size, y), "reader's left", size, "middle", 90.0),
        Text((board.width_mm + 0.8 * size, y), "reader's right", size, "middle", -90.0),
    )


def cross(at: Point, *, size_mm: float) -> tuple[Path, Path]:
    """A plus sign of two lines, the same in any type."""
    (x, y), arm = at, size_mm / 2
    return (
        Path(((x - arm, y), (x + arm, y)), closed=False),
        Path(((x, y - arm), (x, y + arm)), closed=False),
    )


def centre_marks(board: Board) -> tuple[Path, ...]:
    """A small cross over the middle of each fixing hole, its arms past the rim: to punch and to drill."""
    size = FIXING_CROSS * board.fixing_hole_mm
    return tuple(arm for at in board.fixings for arm in cross(at, size_mm=size))


def polarity_marks(
    at: Point, axis: tuple[Point, Point], *, hole_mm: float, free_mm: float, turned: bool = False
) -> tuple[Path, ...]:
    """A plus (two lines) and a dash (one line) by the hole of an LED, its plus up or to the right, unless
    turned.

    In the row, close to their own hole; where the holes stand so close that the marks would be too small
    to read, at the side of the row.

    Args:
        at: middle of the hole.
        axis: centre line of its segment, as seen from the front.
        hole_mm: diameter of the hole.
        free_mm: board between two holes of the row; infinite for a single one.
        turned: plus and dash change places.
    """
    ux, uy = plus_side(axis)
    size = min(LARGEST_SIGN_MM, 0.4 * hole_mm, 0.25 * free_mm)
    along, aside = hole_mm / 2 + 0.8 * size, 0.0
    if size < SMALLEST_SIGN_MM:
        size = max(0.5, min(SMALLEST_SIGN_MM, 0.3 * hole_mm))
        along, aside = 0.3 * hole_mm, hole_mm / 2 + 0.6 * size
    x, y = at[0] + uy * aside, at[1] - ux * aside
    if turned:
        along = -along
    minus_x, minus_y = x - ux * along, y - uy * along
    return (
        *cross((x + ux * along, y + uy * along), size_mm=size),
        Path(((minus_x - size / 2, minus_y), (minus_x + size / 2, minus_y)), closed=False),
    )


def digit_names(board: Board) -> tuple[Shape, ...]:
    """The digit's number in its lower cell, and each segment's letter beside it, inside the digit."""
    drawn: list[Shape] = []
    for number, named in _by_digit(board).items():
        drawn += _cell_names(number, named)
    return tuple(drawn)


def _by_digit(board: Board) -> Mapping[int, Mapping[str, Segment]]:
    digits: dict[int, dict[str, Segment]] = {}
    for segment in board.segments:
        digits.setdefault(segment.digit, {})[segment.name] = segment
    return digits


def _cell_names(number: int, named: Mapping[str, Segment]) -> list[Shape]:
    stroke = named["g"].stroke_mm
    left, right = middle(named["f"].axes[0]), middle(named["b"].axes[0])
    room = max(stroke, right[0] - left[0] - stroke)
    upper, lower = (_cell(named, bars) for bars in ("ag", "gd"))
    high = middle(named["g"].axes[0])[1] - middle(named["d"].axes[0])[1] - stroke
    letter = min(LARGEST_MARK_MM, 0.5 * stroke, 0.16 * room, high / 3.2)
    drawn: list[Shape] = []
    for name, cell in (("a", upper), ("b", upper), ("f", upper), ("g", upper),
                       ("c", lower), ("d", lower), ("e", lower)):  # fmt: skip
        drawn.append(_letter_beside(named[name], name, cell, letter))
    drawn += _digit_name(number, lower, room=room, high=high, letter=letter)
    for name in ("dp", "colon"):
        if name in named:
            drawn += _dot_names(named[name], letter)
    return drawn


def _digit_name(number: int, at: Point, *, room: float, high: float, letter: float) -> list[Shape]:
    """``digit`` over its number, the number large, in the cell above the letter of segment d."""
    free = high - 1.5 * letter
    size = size_to_fit(str(number), width_mm=0.36 * room, largest_mm=min(60.0, 0.36 * room, free / 1.5))
    word = size_to_fit("digit", width_mm=0.5 * room, largest_mm=min(20.0, 0.5 * size))
    foot = at[1] - high / 2 + 1.5 * letter + (free - 0.81 * size - 1.1 * word) / 2
    y = foot + 0.36 * size
    return [
        centred(str(number), (at[0], y), height_mm=size),
        centred("digit", (at[0], y + 0.45 * size + 0.7 * word), height_mm=word),
    ]


def _cell(named: Mapping[str, Segment], bars: str) -> Point:
    """Middle between two crossbars."""
    return middle((middle(named[bars[0]].axes[0]), middle(named[bars[1]].axes[0])))


def _letter_beside(segment: Segment, name: str, cell: Point, size: float) -> Text:
    x, y = middle(segment.axes[0])
    away = math.hypot(cell[0] - x, cell[1] - y) or 1.0
    reach = (segment.stroke_mm / 2 + size) / away
    return centred(name, (x + (cell[0] - x) * reach, y + (cell[1] - y) * reach), height_mm=size)


def _dot_names(segment: Segment, size: float) -> list[Shape]:
    """Above a point, and above each dot of a colon."""
    drawn: list[Shape] = []
    for which, axis in enumerate(segment.axes):
        x, y = middle(axis)
        label = _dot_label(segment, which) if segment.name == "colon" else segment.name
        drawn.append(centred(label, (x, y + segment.stroke_mm / 2 + size), height_mm=size))
    return drawn
