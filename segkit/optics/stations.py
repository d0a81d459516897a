"""Where LEDs can stand along one segment: in its own frame, with room for their bodies."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.geometry.board import Segment
from segkit.geometry.polygon import Outline, Point, area, signed_area
from segkit.optics import view_factor

#: Clear board around an LED's body, on each side (common practice: 2 mm in the diameter).
ROOM_AROUND_MM = 1.2

#: Web between the bodies of neighbours in a row (the flange of a 5 mm LED is 0.8 mm wider than its body).
BETWEEN_BODIES_MM = 1.0


@dataclass(frozen=True)
class Bay:
    """One outline of a segment in its own frame: the axis lies on x, its middle at 0.

    Attributes:
        outline: corners in mm.
        length_mm: along the axis.
        dot: whether it is a dot, which has no axis of its own.
    """

    outline: Outline
    length_mm: float
    dot: bool

    @property
    def area_mm2(self) -> float:
        """Area of the outline."""
        return area(self.outline)


def axis_frame(axis: tuple[Point, Point]) -> tuple[Point, Point]:
    """Middle of an axis and its direction as a unit vector; a dot's axis points along x.

    Example:
        >>> axis_frame(((0, 0), (0, 10)))
        ((0.0, 5.0), (0.0, 1.0))
    """
    (ax, ay), (bx, by) = axis
    length = math.dist((ax, ay), (bx, by))
    middle = ((ax + bx) / 2, (ay + by) / 2)
    if length < 1e-9:
        return middle, (1.0, 0.0)
    return middle, ((bx - ax) / length, (by - ay) / length)


def bay_of(segment: Segment, number: int = 0) -> Bay:
    """One outline of a segment in its own frame.

    Args:
        segment: from the board.
        number: which outline, 0 or (second dot of a colon) 1.
    """
    axis = segment.axes[number]
    (mx, my), (ux, uy) = axis_frame(axis)
    outline = tuple(
        ((x - mx) * ux + (y - my) * uy, -(x - mx) * uy + (y - my) * ux) for x, y in segment.outlines[number]
    )
    along = math.dist(*axis)
    return Bay(outline=outline, length_mm=along or segment.length_mm, dot=along < 1e-9)


def reach(outline: Outline, *, start: Point, way: Point, room_mm: float) -> tuple[float, float] | None:
    """Between which distances [mm] along a straight line a place has room on all sides.

    Each edge of a convex outline gives one limit, since the clearance from it changes evenly along the line.

    Args:
        outline: corners in mm, convex.
        start: where the line is at 0.
        way: direction, unit vector.
        room_mm: least distance from every edge.

    Returns:
        least and largest distance, or None where no place has room.

    Example:
        >>> reach(((-60, -10), (60, -10), (60, 10), (-60, 10)), start=(0, 5), way=(1, 0), room_mm=3.7)
        (-56.3, 56.3)
    """
    low, high = -math.inf, math.inf
    sign = math.copysign(1.0, signed_area(outline))
    for (ax, ay), (bx, by) in view_factor.edges(outline):
        length = math.dist((ax, ay), (bx, by))
        normal = (-sign * (by - ay) / length, sign * (bx - ax) / length)
        here = normal[0] * (start[0] - ax) + normal[1] * (start[1] - ay) - room_mm
        slope = normal[0] * way[0] + normal[1] * way[1]
        if abs(slope) < 1e-9:
            if here < -1e-9:
                return None
        elif slope > 0:
            low = max(low, -here / slope)
        else:
            high = min(high, -here / slope)
    return (low, high) if low <= high + 1e-9 else None
