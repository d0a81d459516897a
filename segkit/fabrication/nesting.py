"""Pieces in rows on stock sheets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from segkit.geometry.polygon import Outline, Point, bounds, rotate, translate


@dataclass(frozen=True)
class Piece:
    """A piece to be laid out: its label and its outline, lying along x."""

    label: str
    outline: Outline


@dataclass(frozen=True)
class Nest:
    """Pieces in their places.

    Attributes:
        pieces: with their outlines moved into place, first sheet on top.
        sheets: frames (left, bottom, right, top) of the sheets
            needed; the lower left corner of all is (0, 0).
        too_large: labels of the pieces that no sheet can hold; laid out below each other all the same.
    """

    pieces: tuple[Piece, ...]
    sheets: tuple[tuple[float, float, float, float], ...]
    too_large: tuple[str, ...]


def lying_along_x(outline: Outline, axis: tuple[Point, Point]) -> Outline:
    """The outline turned so that its axis lies along x; a dot is left as it is."""
    (x1, y1), (x2, y2) = axis
    if math.dist(*axis) < 1e-9:
        return outline
    return rotate(outline, angle_deg=-math.degrees(math.atan2(y2 - y1, x2 - x1)))


def in_rows(pieces: Sequence[Piece], *, width_mm: float, height_mm: float, spacing_mm: float) -> Nest:
    """Pieces in rows, as many as fit across, then the next row, then the next sheet.

    The order of the pieces is kept, except that the highest come first, so that rows are not wasted.

    Args:
        pieces: at least one.
        width_mm, height_mm: sheet, as bought; turned by a quarter if that is what the pieces need.
        spacing_mm: between pieces, and to the edge.

    Example:
        >>> square = Piece("1a", ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)))
        >>> nest = in_rows([square] * 5, width_mm=100, height_mm=100, spacing_mm=5)
        >>> len(nest.sheets), nest.pieces[0].outline[0], nest.pieces[4].outline[0]
        (2, (5.0, 110.0), (5.0, 5.0))
    """
    boxes = [bounds([piece.outline]) for piece in pieces]
    sizes = [(right - left, top - bottom) for left, bottom, right, top in boxes]
    width, height = _turned_to_fit(sizes, width_mm, height_mm, spacing_mm)
    rows = _Rows(width, height, spacing_mm)
    order = sorted(range(len(pieces)), key=lambda i: (-round(sizes[i][1], 6), -round(sizes[i][0], 6), i))
    corners = {i: rows.place(*sizes[i]) for i in order}
    lowest = rows.finished()
    placed = tuple(
        Piece(
            pieces[i].label,
            translate(
                pieces[i].outline,
                dx_mm=corners[i][0] - boxes[i][0],
                dy_mm=corners[i][1] - sizes[i][1] - boxes[i][1] - lowest,
            ),
        )
        for i in order
    )
    frames = tuple((left, bottom - lowest, right, top - lowest) for left, bottom, right, top in rows.sheets)
    edge = 2 * spacing_mm
    large = tuple(pieces[i].label for i in order if sizes[i][0] + edge > width or sizes[i][1] + edge > height)
    return Nest(placed, frames, large)


def _turned_to_fit(
    sizes: Sequence[tuple[float, float]], width: float, height: float, spacing: float
) -> tuple[float, float]:
    longest = max(across for across, _ in sizes) + 2 * spacing
    return (height, width) if width < longest <= height else (width, height)


class _Rows:
    """Rows that grow downward from the top of the first sheet; y is negative until the last is placed."""

    def __init__(self, width: float, height: float, spacing: float) -> None:
        self._width, self._height, self._spacing = width, height, spacing
        self._top, self._row_top, self._row_height = 0.0, -spacing, 0.0
        self._x, self._right = spacing, 0.0
        self.sheets: list[tuple[float, float, float, float]] = []

    def place(self, across: float, down: float) -> Point:
        """The upper left corner for a piece of that size."""
        if self._x > self._spacing and self._x + across + self._spacing > self._width:
            self._row_top -= self._row_height + self._spacing
            self._x, self._row_height = self._spacing, 0.0
        full = self._row_top - down - self._spacing < self._top - self._height
        if full and self._row_top < self._top - self._spacing:
            self._close(self._top - self._height)
        corner = (self._x, self._row_top)
        self._x += across + self._spacing
        self._right = max(self._right, self._x)
        self._row_height = max(self._row_height, down)
        return corner

    def _close(self, bottom: float) -> None:
        self.sheets.append((0.0, bottom, self._width, self._top))
        self._top = bottom - self._spacing
        self._row_top, self._row_height, self._x = self._top - self._spacing, 0.0, self._spacing

    def finished(self) -> float:
        """Closes the last sheet where its last row ends; returns the lowest y of all."""
        bottom = self._row_top - self._row_height - self._spacing
        right = max((frame[2] for frame in self.sheets), default=self._right)
        self.sheets.append((0.0, bottom, max(right, self._right), self._top))
        return bottom
