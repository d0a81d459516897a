"""Where one page ends and the next begins: seams beside holes and edges, not through them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from segkit.drawing.drawing import Circle, Path, Point, Shape
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

STEP_MM = 1.0
CLEAR_MM = 1.5  # a seam keeps so far from a hole and from an edge that runs along it; source common-practice
_HOLE = 1000.0  # no number of edges outweighs a hole
_ALONG_DEG = 15.0
_CROSSED = 0.5
_UNEVEN = 1e-3  # a mm: where nothing else counts, pages come out alike


def page_count(extent_mm: float, *, window_mm: float, overlap_mm: float) -> int:
    """Fewest pages that cover an extent: ``ceil((X - o)/(w - o))``, at least one.

    Args:
        extent_mm: to be covered, above 0.
        window_mm: what a page shows, above the overlap.
        overlap_mm: shown by both neighbours.

    Raises:
        InputError: the window is no wider than the overlap.

    Sources: arithmetic.

    Example:
        >>> page_count(560, window_mm=200, overlap_mm=10), page_count(200, window_mm=200, overlap_mm=10)
        (3, 1)
    """
    if window_mm <= overlap_mm:
        raise InputError(
            Problem(
                f"a page that shows {window_mm:g} mm has no room for an overlap of {overlap_mm:g} mm.",
                key="paper.overlap",
                value=f"{overlap_mm:g} mm",
                limit=f"below {max(0.0, window_mm):g} mm",
                remedy="Take a larger paper, a smaller margin or less overlap.",
            )
        )
    return max(1, math.ceil((extent_mm - overlap_mm) / (window_mm - overlap_mm) - 1e-9))


def seams(
    shapes: Sequence[Shape], *, extent_mm: float, window_mm: float, overlap_mm: float, upright: bool
) -> tuple[float, ...]:
    """Places of the seams along one axis, in rising order, for the fewest pages.

    Pages leave some room to move the seams. Of all ways to place them, the one with the fewest holes on a
    seam is taken, then the least length of edges along a seam, then the fewest lines crossed.

    Args:
        shapes: paths and circles to keep clear of [mm]; texts do not count.
        extent_mm: width (or height) of the drawing.
        window_mm, overlap_mm: as in ``page_count``.
        upright: True for seams that run up, placed along x; False for seams that run across.

    Raises:
        InputError: as ``page_count``.

    Example:
        >>> seams([Circle((100, 50), 3)], extent_mm=200, window_mm=110, overlap_mm=10, upright=True)
        (95.0,)
    """
    count = page_count(extent_mm, window_mm=window_mm, overlap_mm=overlap_mm)
    if count == 1:
        return ()
    steps = math.floor(extent_mm / STEP_MM)
    cost = _costs(shapes, steps, upright=upright)
    inner, outer = window_mm - overlap_mm, window_mm - overlap_mm / 2
    return _cheapest(cost, count, extent_mm, inner_mm=inner, outer_mm=outer)


def holes_on(shapes: Sequence[Shape], place_mm: float, *, upright: bool) -> int:
    """Circles that a seam at that place crosses."""
    return sum(
        abs((s.centre[0] if upright else s.centre[1]) - place_mm) < s.radius_mm
        for s in shapes
        if isinstance(s, Circle)
    )


def _costs(shapes: Sequence[Shape], steps: int, *, upright: bool) -> NDArray[np.float64]:
    import numpy as np

    cost = np.zeros(steps + 1)

    def add(low: float, high: float, amount: float) -> None:
        first, last = max(0, math.ceil(low / STEP_MM)), min(steps, math.floor(high / STEP_MM))
        if first <= last:
            cost[first : last + 1] += amount

    for shape in shapes:
        if isinstance(shape, Circle):
            middle = shape.centre[0] if upright else shape.centre[1]
            reach = shape.radius_mm + CLEAR_MM
            add(middle - reach, middle + reach, _HOLE)
        elif isinstance(shape, Path):
            ends = shape.points[1:] + shape.points[:1] if shape.closed else shape.points[1:]
            for one, other in zip(shape.points, ends, strict=False):
                low, high, length = _edge(one, other, upright)
                add(low, high, _CROSSED)
                if length:
                    add(low - CLEAR_MM, high + CLEAR_MM, length)
    return cost


def _edge(one: Point, other: Point, upright: bool) -> tuple[float, float, float]:
    """Reach of an edge along the axis of the seams' places, and its length if it runs along the seam."""
    (a, c), (b, d) = (one, other) if upright else (one[::-1], other[::-1])
    along = math.degrees(math.atan2(abs(b - a), abs(d - c))) <= _ALONG_DEG
    return min(a, b), max(a, b), math.hypot(b - a, d - c) if along else 0.0


def _cheapest(
    cost: NDArray[np.float64], count: int, extent_mm: float, *, inner_mm: float, outer_mm: float
) -> tuple[float, ...]:
    """Dynamic programming over the places of one seam after the other."""
    import numpy as np

    inner, outer = math.floor(inner_mm / STEP_MM), math.floor(outer_mm / STEP_MM)
    lowest = max(0, math.ceil(extent_mm / STEP_MM - outer))  # of the last seam
    even = extent_mm / STEP_MM / count
    best = np.full(len(cost), np.inf)
    first = np.arange(1, min(outer, len(cost) - 1) + 1)
    best[first] = cost[first] + _UNEVEN * np.abs(first - even)
    came: list[NDArray[np.int64]] = []
    for number in range(2, count):
        reached, source = np.full(len(cost), np.inf), np.zeros(len(cost), dtype=np.int64)
        farthest = min(len(cost), outer + (number - 1) * inner + 1)
        for at in range(max(number, lowest - (count - 1 - number) * inner), farthest):
            start = max(0, at - inner)
            if start >= at:
                continue
            from_here = start + int(np.argmin(best[start:at]))
            value = best[from_here]
            if np.isfinite(value):
                reached[at] = value + cost[at] + _UNEVEN * abs(at - number * even)
                source[at] = from_here
        came.append(source)
        best = reached
    ends = best[lowest:-1]
    if not len(ends) or not np.isfinite(ends.min()):
        share = extent_mm / (2 * outer_mm + (count - 2) * inner_mm)  # no room for whole steps
        return tuple(share * (outer_mm + k * inner_mm) for k in range(count - 1))
    at = lowest + int(np.argmin(ends))
    places = [at]
    for source in reversed(came):
        places.append(int(source[places[-1]]))
    return tuple(place * STEP_MM for place in reversed(places))
