"""Dimension lines, and leaders with words at the right, for drawings that people read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from segkit.drawing.drawing import Path, Point, Shape, Text
from segkit.fabrication.cut_sheet import size_to_fit

TYPE_MM = 4.0
_SMALLEST = 3.2  # of the type, where words are fitted between the ends of a dimension
_TICK = 0.9
_BASE = 0.36  # from the baseline to the middle of a letter, in sizes of the type


@dataclass(frozen=True)
class Leader:
    """Words at the right, with a line that ends in a dot on what they name."""

    dot: Point
    words: str


def leaders(rows: Sequence[Leader], *, x_mm: float, room_mm: float) -> Iterator[Shape]:
    """The words one under the other at ``x_mm``, kept apart from each other.

    Args:
        rows: from the lowest to the highest.
        x_mm: where the words start.
        room_mm: width that they may take; longer ones are set smaller.
    """
    last = -1e9
    for row in rows:
        size = size_to_fit(row.words, width_mm=room_mm, largest_mm=TYPE_MM)
        place = max(row.dot[1], last + 1.6 * TYPE_MM)
        last = place
        bend = x_mm - 7.0
        yield Path((row.dot, (bend, row.dot[1]), (x_mm - 1.5, place)), closed=False)
        yield Path(_dot(row.dot))
        yield Text((x_mm, place - _BASE * size), row.words, size)


def across(*, left_mm: float, right_mm: float, y_mm: float, foot_mm: float, words: str) -> Iterator[Shape]:
    """A level dimension between two places; words that are too wide for it stand clear of its ends.

    Args:
        left_mm, right_mm: the places.
        y_mm: of the dimension line.
        foot_mm: y of what is measured, where its extension lines start.
        words: what is said.
    """
    out = 1.5 if y_mm > foot_mm else -1.5
    yield Path(((left_mm, y_mm), (right_mm, y_mm)), closed=False)
    for x in (left_mm, right_mm):
        yield Path(((x, foot_mm), (x, y_mm + out)), closed=False)
        yield Path(((x - _TICK, y_mm - _TICK), (x + _TICK, y_mm + _TICK)), closed=False)
    size = size_to_fit(words, width_mm=max(0.9 * (right_mm - left_mm - 3.0), 0.1), largest_mm=TYPE_MM)
    inside = size >= _SMALLEST
    size, lift = (size, 1.2) if inside else (TYPE_MM, 2.4)
    base = y_mm + (lift if y_mm > foot_mm else -lift - 0.75 * size)
    yield Text(((left_mm + right_mm) / 2, base), words, size, "middle")


def upright(*, x_mm: float, low_mm: float, high_mm: float, foot_mm: float, words: str) -> Iterator[Shape]:
    """An upright dimension left of what is measured, its words along the line.

    Args:
        x_mm: of the dimension line.
        low_mm, high_mm: the places.
        foot_mm: x of what is measured, where its extension lines start.
        words: what is said.
    """
    yield Path(((x_mm, low_mm), (x_mm, high_mm)), closed=False)
    for y in (low_mm, high_mm):
        yield Path(((foot_mm, y), (x_mm - 1.5, y)), closed=False)
        yield Path(((x_mm - _TICK, y - _TICK), (x_mm + _TICK, y + _TICK)), closed=False)
    yield Text((x_mm - 1.4, (low_mm + high_mm) / 2), words, TYPE_MM, "middle", 90.0)


def _dot(at: Point) -> tuple[Point, ...]:
    x, y = at
    r = 0.45
    return ((x - r, y), (x, y - r), (x + r, y), (x, y + r))
