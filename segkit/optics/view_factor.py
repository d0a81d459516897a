"""How much of the light of one thing falls on another: the closed sums the pocket is built from."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

from segkit.geometry.polygon import Outline, Point

#: Places and weights of the four-point Gauss rule on 0..1.
_GAUSS = (
    (0.069431844202974, 0.173927422568727),
    (0.330009478207572, 0.326072577431273),
    (0.669990521792428, 0.326072577431273),
    (0.930568155797026, 0.173927422568727),
)

#: The two-point rule, for edges that are short against the distance.
_GAUSS_SHORT = ((0.211324865405187, 0.5), (0.788675134594813, 0.5))

_STEP_RAD = 0.15


def area(outline: Outline) -> float:
    """Area [mm2] of an outline, positive when counter-clockwise.

    Example:
        >>> area(((0, 0), (120, 0), (120, 20), (0, 20)))
        2400.0
    """
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in edges(outline)) / 2


def perimeter(outline: Outline) -> float:
    """Length [mm] around an outline."""
    return sum(math.dist(start, end) for start, end in edges(outline))


def edges(outline: Outline) -> Iterator[tuple[Point, Point]]:
    """The edges of an outline, the closing one last."""
    return zip(outline, outline[1:] + outline[:1], strict=True)


def clearance(outline: Outline, place: Point) -> float:
    """Distance [mm] from a place inside a convex outline to its nearest edge; negative outside.

    Example:
        >>> clearance(((0, 0), (120, 0), (120, 20), (0, 20)), (60, 4))
        4.0
    """
    sign = math.copysign(1.0, area(outline))
    return min(
        sign * ((bx - ax) * (place[1] - ay) - (by - ay) * (place[0] - ax)) / math.dist((ax, ay), (bx, by))
        for (ax, ay), (bx, by) in edges(outline)
    )


def lobe_share(outline: Outline, *, place: Point, gap_mm: float, exponent: float) -> float:
    """Share of an LED's light that passes straight through an outline at a height above its tip.

    Formula: ``share = 1/(2 pi) * integral over the directions of 1 - cos(a)^(m+1)``, with a the angle from
    the axis to the edge of the outline in that direction; summed edge by edge. With m = 1 it is the view
    factor from a small flat patch to the outline.

    Args:
        outline: corners in mm, any shape without crossings.
        place: the LED, mm, in the same frame.
        gap_mm: height of the outline above the tip, mm; 0 or less gives all the light.
        exponent: m of ``photometry.lobe_exponent``.

    Sources: moreno-2006 for the lobe; arithmetic.

    Example:
        >>> wide = ((-1e6, -1e6), (1e6, -1e6), (1e6, 1e6), (-1e6, 1e6))
        >>> round(lobe_share(wide, place=(0, 0), gap_mm=20, exponent=1), 6)
        1.0
    """
    if gap_mm <= 0:
        return 1.0
    return _share(outline, place, gap_mm, exponent)


@lru_cache(maxsize=4096)
def _share(outline: Outline, place: Point, gap_mm: float, exponent: float) -> float:
    total = 0.0
    for start, end in edges(outline):
        total += _edge_share(
            (start[0] - place[0], start[1] - place[1]),
            (end[0] - place[0], end[1] - place[1]),
            gap_mm=gap_mm,
            exponent=exponent,
        )
    return abs(total) / (2 * math.pi)


def _edge_share(a: Point, b: Point, *, gap_mm: float, exponent: float) -> float:
    """The part of the direction integral that one edge contributes, signed by its sense of turning."""
    length = math.dist(a, b)
    cross = a[0] * b[1] - a[1] * b[0]
    across = abs(cross) / length
    if across < 1e-12:
        return 0.0
    along = [(p[0] * (b[0] - a[0]) + p[1] * (b[1] - a[1])) / length for p in (a, b)]
    first, last = (math.atan2(part, across) for part in along)
    pieces = max(1, math.ceil((last - first) / _STEP_RAD))
    width = (last - first) / pieces
    total = 0.0
    for piece in range(pieces):
        for at, weight in _GAUSS:
            reach = (across / math.cos(first + width * (piece + at))) ** 2
            total += weight * (1 - (gap_mm**2 / (gap_mm**2 + reach)) ** ((exponent + 1) / 2))
    return math.copysign(width * total, cross)


def parallel_outlines(outline: Outline, *, distance_mm: float) -> float:
    """View factor between an outline and its equal, facing it at a distance.

    Formula: ``F = -1/(2 pi A) * double contour integral of ln r``, by four-point Gauss sums on pieces of
    the edges no longer than the distance.

    Args:
        outline: corners in mm, convex.
        distance_mm: distance of the two planes, mm; 0 gives 1.

    Returns:
        share of the light that leaves one evenly and meets the other, 0 to 1.

    Sources: view-factor-handbook.

    Example:
        >>> square = ((0, 0), (10, 0), (10, 10), (0, 10))
        >>> round(parallel_outlines(square, distance_mm=10), 4)
        0.1998
    """
    if distance_mm <= 0:
        return 1.0
    left, low = min(x for x, _ in outline), min(y for _, y in outline)
    return _parallel(tuple((round(x - left, 6), round(y - low, 6)) for x, y in outline), distance_mm)


@lru_cache(maxsize=512)
def _parallel(outline: Outline, distance_mm: float) -> float:
    points: list[tuple[float, float, float, float]] = []
    for (ax, ay), (bx, by) in edges(outline):
        length = math.hypot(bx - ax, by - ay)
        pieces = max(1, math.ceil(length / distance_mm))
        rule = _GAUSS_SHORT if length < distance_mm / 4 else _GAUSS
        dx, dy = (bx - ax) / pieces, (by - ay) / pieces
        for piece in range(pieces):
            for at, weight in rule:
                where = piece + at
                points.append((ax + dx * where, ay + dy * where, dx * weight, dy * weight))
    square, total = distance_mm**2, 0.0
    for index, (x, y, dx, dy) in enumerate(points):
        total += math.log(square) / 2 * (dx * dx + dy * dy)
        for x2, y2, dx2, dy2 in points[:index]:
            total += math.log((x - x2) ** 2 + (y - y2) ** 2 + square) * (dx * dx2 + dy * dy2)
    return -total / (2 * math.pi * abs(area(outline)))
