"""Shapes moved and drawn smaller."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from segkit.drawing.drawing import Circle, Path, Point, Shape, Text


def moved(shapes: Iterable[Shape], *, dx_mm: float, dy_mm: float) -> list[Shape]:
    """The shapes moved by (dx, dy).

    Example:
        >>> moved([Circle((1.0, 2.0), 3)], dx_mm=10, dy_mm=0)
        [Circle(centre=(11.0, 2.0), radius_mm=3)]
    """
    return [_turned(shape, 1.0, dx_mm, dy_mm) for shape in shapes]


def scaled(shapes: Iterable[Shape], *, factor: float, dx_mm: float = 0.0, dy_mm: float = 0.0) -> list[Shape]:
    """The shapes drawn smaller or larger about the origin, then moved.

    Args:
        shapes: in mm.
        factor: above 0; 0.1 for a scale of 1:10.
        dx_mm, dy_mm: move, after the scaling.

    Example:
        >>> scaled([Circle((10, 20), 30)], factor=0.1, dx_mm=5)
        [Circle(centre=(6.0, 2.0), radius_mm=3.0)]
    """
    return [_turned(shape, factor, dx_mm, dy_mm) for shape in shapes]


def _turned(shape: Shape, factor: float, dx: float, dy: float) -> Shape:
    def there(point: Point) -> Point:
        return factor * point[0] + dx, factor * point[1] + dy

    match shape:
        case Path(points=points):
            return replace(shape, points=tuple(there(point) for point in points))
        case Circle(centre=centre, radius_mm=radius):
            return replace(shape, centre=there(centre), radius_mm=radius if factor == 1 else factor * radius)
        case Text(at=at, height_mm=height):
            return replace(shape, at=there(at), height_mm=height if factor == 1 else factor * height)
