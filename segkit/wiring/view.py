"""From the board, as seen from the front, to a page that shows it from behind."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from segkit.drawing.drawing import Path
from segkit.geometry.polygon import Point


@dataclass(frozen=True)
class View:
    """Puts a part of the board into a field of a page.

    Attributes:
        scale: page mm for each mm of the board.
        middle: point of the board that comes to the middle of the field.
        field_middle: where that is on the page.
        behind: True if left and right change places.
    """

    scale: float
    middle: Point
    field_middle: Point
    behind: bool = True

    def at(self, point: Point) -> Point:
        """A point of the board on the page."""
        way = -self.scale if self.behind else self.scale
        return (
            self.field_middle[0] + way * (point[0] - self.middle[0]),
            self.field_middle[1] + self.scale * (point[1] - self.middle[1]),
        )

    def path(self, points: Sequence[Point]) -> tuple[Point, ...]:
        """A polyline of the board on the page."""
        return tuple(self.at(point) for point in points)

    def outline(self, points: Sequence[Point]) -> Path:
        """A closed outline of the board on the page."""
        return Path(self.path(points))

    def turned(self) -> View:
        """The same field from the other side; turned twice it is as it was."""
        return View(self.scale, self.middle, self.field_middle, not self.behind)


def view_of(
    points: Iterable[Point], *, left_mm: float, foot_mm: float, wide_mm: float, high_mm: float,
    behind: bool = True,
) -> View:  # fmt: skip
    """The view that fits points of the board into a field of the page.

    Args:
        points: of the board; at least two that differ.
        left_mm, foot_mm: lower left corner of the field.
        wide_mm, high_mm: its size, above 0.
        behind: True to see it from behind.

    Formula: ``scale = min(wide/width, high/height)``.

    Source: arithmetic.

    Example:
        >>> view = view_of([(0, 0), (10, 20)], left_mm=0, foot_mm=0, wide_mm=40, high_mm=40)
        >>> view.scale, view.at((0, 0)), view.turned().at((0, 0))
        (2.0, (30.0, 0.0), (10.0, 0.0))
    """
    xs, ys = zip(*points, strict=True)
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    scale = min(wide_mm / max(width, 1e-6), high_mm / max(height, 1e-6))
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    return View(scale, middle, (left_mm + wide_mm / 2, foot_mm + high_mm / 2), behind)
