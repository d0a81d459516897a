"""Plane outlines in mm; the only user of the geometry library.

An outline is a closed polygon, counter-clockwise, its last point not repeated. What is a sum over the
points is done here in plain Python; distances between outlines and the search for near pairs use shapely.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Point = tuple[float, float]
Outline = tuple[Point, ...]

FLATTENING_MM = 0.01  # largest distance between an arc and the chords that stand for it


@dataclass(frozen=True)
class Web:
    """The board left standing between two openings: their places in the given sequence, and its width."""

    first: int
    second: int
    width_mm: float


def _edges(outline: Outline) -> Iterable[tuple[Point, Point]]:
    return zip(outline, outline[1:] + outline[:1], strict=True)


def signed_area(outline: Outline) -> float:
    """Area [mm2], negative for a clockwise outline: ``sum(x1*y2 - x2*y1) / 2``. Source: arithmetic."""
    x0, y0 = outline[0]  # near the origin the products stay small, and the sum exact
    return sum((x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0) for (x1, y1), (x2, y2) in _edges(outline)) / 2


def area(outline: Outline) -> float:
    """Area [mm2], whichever way round the outline runs.

    Example:
        >>> area(((0, 0), (4, 0), (4, 3), (0, 3)))
        12.0
    """
    return abs(signed_area(outline))


def perimeter(outline: Outline) -> float:
    """Length of the edge [mm].

    Example:
        >>> perimeter(((0, 0), (4, 0), (4, 3), (0, 3)))
        14.0
    """
    return sum(math.dist(one, other) for one, other in _edges(outline))


def bounds(outlines: Iterable[Outline]) -> tuple[float, float, float, float]:
    """Smallest and largest coordinates of all outlines together: (left, bottom, right, top) [mm].

    Example:
        >>> bounds([((0, 0), (4, 0), (4, 3)), ((-1, 1), (0, 1), (0, 2))])
        (-1, 0, 4, 3)
    """
    points = [point for outline in outlines for point in outline]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def translate(points: Outline, *, dx_mm: float, dy_mm: float) -> Outline:
    """The points moved by (dx, dy)."""
    return tuple([(x + dx_mm, y + dy_mm) for x, y in points])


def rotate(points: Outline, *, angle_deg: float, about: Point = (0.0, 0.0)) -> Outline:
    """The points turned counter-clockwise; quarter turns are exact.

    Example:
        >>> rotate(((2.0, 0.0),), angle_deg=90)
        ((0.0, 2.0),)
    """
    quarters, rest = divmod(angle_deg, 90)
    cos, sin = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarters) % 4]
    if rest:
        cos, sin = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    x0, y0 = about
    return tuple(
        [(x0 + cos * (x - x0) - sin * (y - y0), y0 + sin * (x - x0) + cos * (y - y0)) for x, y in points]
    )


def shear(points: Outline, *, slant_deg: float) -> Outline:
    """The points leant to the right about y = 0: ``x + y*tan(slant)``; areas do not change.

    Example:
        >>> [(round(x, 3), y) for x, y in shear(((0.0, 0.0), (0.0, 10.0)), slant_deg=45)]
        [(0.0, 0.0), (10.0, 10.0)]
    """
    lean = math.tan(math.radians(slant_deg))
    return tuple([(x + lean * y, y) for x, y in points]) if lean else points


def turning_angles(outline: Outline) -> tuple[float, ...]:
    """Turn at each point [rad], positive to the left; they sum to 2*pi for a counter-clockwise outline."""
    turns = []
    for (x0, y0), (x1, y1), (x2, y2) in zip(
        outline[-1:] + outline[:-1], outline, outline[1:] + outline[:1], strict=True
    ):
        ax, ay, bx, by = x1 - x0, y1 - y0, x2 - x1, y2 - y1
        turns.append(math.atan2(ax * by - ay * bx, ax * bx + ay * by))
    return tuple(turns)


def is_valid(outline: Outline) -> bool:
    """Whether the outline has an inside: at least three points and no edge that touches another."""
    if len(outline) < 3 or area(outline) == 0:
        return False
    from shapely import Polygon

    return bool(Polygon(outline).is_valid)


def offset(outline: Outline, *, distance_mm: float) -> Outline:
    """The outline grown by a distance, or shrunk by a negative one, its corners kept sharp (mitred).

    Each corner moves to where its two shifted edges meet, so the point count and the order stay.
    For kerf: grow what is kept, shrink an opening, by half the kerf.

    Args:
        outline: counter-clockwise.
        distance_mm: outward positive, any size outward, inward less than what swallows an edge.

    Raises:
        InputError: the offset swallows an edge or the whole piece, or makes the outline cross itself.

    Sources: arithmetic.

    Example:
        >>> offset(((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)), distance_mm=0.5)
        ((-0.5, -0.5), (4.5, -0.5), (4.5, 3.5), (-0.5, 3.5))
    """
    normals = []
    for (x1, y1), (x2, y2) in _edges(outline):
        length = math.hypot(x2 - x1, y2 - y1)
        normals.append(((y2 - y1) / length, (x1 - x2) / length))
    moved = []
    for (x, y), (nx, ny), (mx, my) in zip(outline, normals[-1:] + normals[:-1], normals, strict=True):
        reach = distance_mm / (1 + nx * mx + ny * my)
        moved.append((x + reach * (nx + mx), y + reach * (ny + my)))
    grown = tuple(moved)
    _refuse_swallowed(outline, grown, distance_mm)
    return grown


def _refuse_swallowed(outline: Outline, grown: Outline, distance_mm: float) -> None:
    """An edge that has turned round was swallowed; a bent outline may also cross itself."""
    kept = all(
        (x2 - x1) * (u2 - u1) + (y2 - y1) * (v2 - v1) > 0
        for ((x1, y1), (x2, y2)), ((u1, v1), (u2, v2)) in zip(_edges(outline), _edges(grown), strict=True)
    )
    if kept and (min(turning_angles(outline)) >= -1e-9 or is_valid(grown)):
        return
    x0, y0, x1, y1 = bounds([outline])
    raise InputError(
        Problem(
            text=f"an offset of {distance_mm:.3f} mm swallows an edge of a piece of {x1 - x0:.2f} by "
            f"{y1 - y0:.2f} mm.",
            value=f"{distance_mm:.3f} mm",
            remedy="Use a smaller kerf or clearance, or a larger piece.",
        )
    )


def _shapes(outlines: Sequence[Outline]) -> NDArray[np.object_]:
    """The outlines as an array of geometries, made in one call: far quicker than one by one."""
    import numpy as np
    import shapely

    flat = np.array([point for outline in outlines for point in outline], dtype=float)
    ring = np.repeat(np.arange(len(outlines)), [len(outline) for outline in outlines])
    return np.asarray(shapely.polygons(shapely.linearrings(flat, indices=ring)), dtype=object)


def distances(pairs: Sequence[tuple[Outline, Outline]]) -> tuple[float, ...]:
    """Clear distance between the outlines of each pair [mm]; 0 where they touch or overlap."""
    import shapely

    one, other = _shapes([one for one, _ in pairs]), _shapes([other for _, other in pairs])
    return tuple(float(width) for width in shapely.distance(one, other))


def distance(one: Outline, other: Outline) -> float:
    """Clear distance between two outlines [mm]; 0 where they touch or overlap.

    Example:
        >>> distance(((0, 0), (1, 0), (1, 1)), ((4, 0), (5, 0), (4, 4)))
        3.0
    """
    return distances([(one, other)])[0]


def distance_when_moved(one: Outline, other: Outline) -> Callable[[float, float], float]:
    """A function of (dx, dy): clear distance [mm] from one outline to the other moved by that.

    Example:
        >>> square = ((0, 0), (1, 0), (1, 1), (0, 1))
        >>> distance_when_moved(square, square)(4.0, 0.0)
        3.0
    """
    import numpy as np
    import shapely

    fixed, points = _shapes([one])[0], np.array(other, dtype=float)
    return lambda dx, dy: float(shapely.distance(fixed, shapely.polygons(points + np.array([dx, dy]))))


def near_pairs(outlines: Sequence[Outline], *, within_mm: float) -> tuple[Web, ...]:
    """The pairs of outlines that are no farther apart than within_mm, narrowest web first.

    Uses a search tree, so that hundreds of outlines cost milliseconds; 0 width means touching or
    overlapping.

    Example:
        >>> square = ((0, 0), (1, 0), (1, 1), (0, 1))
        >>> row = [translate(square, dx_mm=x, dy_mm=0) for x in (0, 3, 9)]
        >>> near_pairs(row, within_mm=5)
        (Web(first=0, second=1, width_mm=2.0), Web(first=1, second=2, width_mm=5.0))
    """
    import numpy as np
    import shapely

    if len(outlines) < 2:
        return ()
    shapes = _shapes(outlines)
    one, other = shapely.STRtree(shapes).query(shapes, predicate="dwithin", distance=within_mm)
    one, other = one[one < other], other[one < other]
    widths = np.asarray(shapely.distance(shapes[one], shapes[other]), dtype=float)
    order = np.lexsort((other, one, np.round(widths, 9)))
    return tuple(Web(int(one[i]), int(other[i]), float(widths[i])) for i in order)


def overlap_area(one: Outline, other: Outline) -> float:
    """Area [mm2] that two outlines share."""
    from shapely import Polygon

    return float(Polygon(one).intersection(Polygon(other)).area)


def contains(outline: Outline, point: Point) -> bool:
    """Whether the point lies inside; on the edge counts as either.

    Example:
        >>> contains(((0, 0), (4, 0), (4, 3)), (3, 1)), contains(((0, 0), (4, 0), (4, 3)), (1, 2))
        (True, False)
    """
    x, y = point
    inside = False
    for (x1, y1), (x2, y2) in _edges(outline):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            inside = not inside
    return inside


def clearance(outline: Outline, point: Point) -> float:
    """Distance from a point to the nearest edge [mm]; negative outside. For an LED hole, take off its radius.

    Example:
        >>> clearance(((0, 0), (4, 0), (4, 3), (0, 3)), (2, 1)), clearance(((0, 0), (4, 0), (4, 3)), (7, 7))
        (1.0, -5.0)
    """
    nearest = min(_to_edge(point, one, other) for one, other in _edges(outline))
    return nearest if contains(outline, point) else -nearest


def _to_edge(point: Point, one: Point, other: Point) -> float:
    ex, ey = other[0] - one[0], other[1] - one[1]
    along = ((point[0] - one[0]) * ex + (point[1] - one[1]) * ey) / (ex * ex + ey * ey)
    share = min(1.0, max(0.0, along))
    return math.dist(point, (one[0] + share * ex, one[1] + share * ey))


def arc_steps(radius_mm: float, *, flattening_mm: float = FLATTENING_MM) -> int:
    """Chords for a full circle that keep within the flattening: a multiple of 8, at least 16.

    ``sagitta = r*(1 - cos(pi/n))``. Source: arithmetic.

    Example:
        >>> arc_steps(10.0)
        72
    """
    if radius_mm <= flattening_mm:
        return 16
    return max(16, 8 * math.ceil(math.pi / math.acos(1 - flattening_mm / radius_mm) / 8))


def circle(centre: Point, *, diameter_mm: float) -> Outline:
    """A round hole or dot as a polygon on the circle, counter-clockwise from its right."""
    radius = diameter_mm / 2
    steps = arc_steps(radius)
    turns = [2 * math.pi * i / steps for i in range(steps)]
    return tuple([(centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns])
