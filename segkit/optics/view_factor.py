"""Plane outlines as light sees them: edges, clearance, and the share of an LED's lobe that passes one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

from segkit.geometry.polygon import Outline, Point, signed_area

#: Places and weights of the four-point Gauss rule on 0..1.
_GAUSS = (
    (0.069431844202974, 0.173927422568727),
    (0.330009478207572, 0.326072577431273),
    (0.669990521792428, 0.326072577431273),
    (0.930568155797026, 0.173927422568727),
)

_STEP_RAD = 0.15


def edges(outline: Outline) -> Iterator[tuple[Point, Point]]:
    """The edges of an outline, the closing one last."""
    return zip(outline, outline[1:] + outline[:1], strict=True)


def clearance(outline: Outline, place: Point) -> float:
    """Distance [mm] from a place inside a convex outline to its nearest edge; negative outside.

    Example:
        >>> clearance(((0, 0), (120, 0), (120, 20), (0, 20)), (60, 4))
        4.0
    """
    sign = math.copysign(1.0, signed_area(outline))
    return min(
        sign * ((bx - ax) * (place[1] - ay) - (by - ay) * (place[0] - ax)) / math.dist((ax, ay), (bx, by))
        for (ax, ay), (bx, by) in edges(outline)
        if (ax, ay) != (bx, by)
    )


def all_inside(outline: Outline, places: Sequence[Point]) -> bool:
    """Whether no place lies outside a convex outline; on the edge is inside, no number is not.

    Example:
        >>> all_inside(((0, 0), (120, 0), (120, 20), (0, 20)), [(60, 4), (0, 0)])
        True
        >>> all_inside(((0, 0), (120, 0), (120, 20), (0, 20)), [(60, 4), (float("nan"), 5)])
        False
    """
    import numpy as np

    start = np.array(outline, dtype=float)
    way = np.roll(start, -1, axis=0) - start
    at = np.array(places, dtype=float).reshape(-1, 2)[:, None, :] - start[None, :, :]
    left = way[:, 0] * at[..., 1] - way[:, 1] * at[..., 0]
    return bool((math.copysign(1.0, signed_area(outline)) * left >= 0).all())


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
