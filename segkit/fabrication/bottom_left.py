"""General packing: each piece as low as it goes among those that lie already, then as far left."""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from segkit.geometry.polygon import Outline, Point, bounds, rotate, signed_area, translate

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

STEP_MM = 0.5  # between the places that are tried along the width
_EDGE = 1e-7
_ARC_SEGMENTS = 8  # chords in a quarter of the ring round a corner


@dataclass(frozen=True)
class Placed:
    """A piece in its place: which one, turned by how much, its outline there."""

    index: int
    angle_deg: int
    outline: Outline


def bottom_left(
    outlines: Sequence[Outline],
    *,
    order: Sequence[int],
    angles: Sequence[Sequence[int]],
    width_mm: float,
    spacing_mm: float,
    placed: Sequence[Placed] = (),
    top_share: float = 1.0,
) -> tuple[Placed, ...]:
    """Pieces on a strip that is as long as it needs to be, one after the other.

    For every place along the width the lowest free height is found from the outlines that two pieces keep
    clear of (their sum, grown by the spacing), so pieces slip under each other's ends.

    Args:
        outlines: the pieces; what is not convex is treated as its hull.
        order: their numbers, in the order of placing.
        angles: turns that each piece may have, in degrees.
        width_mm: of the strip.
        spacing_mm: between pieces, and to the edges.
        placed: pieces that lie already.
        top_share: a place is better the lower this share of the piece's height lies: 1 for its upper edge,
            0.5 for its middle.

    Returns:
        the pieces that lay already and those placed; a piece too wide for the strip is left out.

    Sources: arithmetic.

    Example:
        >>> square = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
        >>> done = bottom_left([square] * 3, order=(0, 1, 2), angles=[(0,)] * 3, width_mm=95, spacing_mm=5)
        >>> [(round(x, 1), round(y, 1)) for x, y in (piece.outline[0] for piece in done)]
        [(5.0, 5.0), (50.0, 5.0), (5.0, 50.0)]
    """
    strip = _Strip(width_mm, spacing_mm, top_share)
    for piece in placed:
        strip.add(piece)
    for index in order:
        strip.place(index, outlines[index], angles[index])
    return tuple(strip.placed)


class _Strip:
    """The pieces that lie already, and for each shape the heights that they take from it."""

    def __init__(self, width: float, spacing: float, top_share: float) -> None:
        self.placed: list[Placed] = []
        self._width, self._spacing, self._top_share = width, spacing, top_share
        self._at: list[tuple[Outline, float, float]] = []
        self._taken: dict[Outline, list[NDArray[np.float64]]] = {}

    def add(self, piece: Placed) -> None:
        shape, (x, y) = _normal(piece.outline)
        self.placed.append(piece)
        self._at.append((shape, x, y))

    def place(self, index: int, outline: Outline, angles: Sequence[int]) -> None:
        best: tuple[tuple[float, float, float], Placed] | None = None
        tried: set[frozenset[Point]] = set()
        for angle in angles:
            shape, _ = _normal(rotate(outline, angle_deg=angle))
            if (corners := frozenset((round(x, 3), round(y, 3)) for x, y in shape)) in tried:
                continue  # a dot looks the same
            tried.add(corners)
            spot = self._lowest(shape)
            if spot is None:
                continue
            x, y, key = spot
            if best is None or key < best[0]:
                best = key, Placed(index, angle, translate(shape, dx_mm=x, dy_mm=y))
        if best is not None:
            self.add(best[1])

    def _lowest(self, shape: Outline) -> tuple[float, float, tuple[float, float, float]] | None:
        import numpy as np

        _, _, wide, high = bounds([shape])
        room = self._width - 2 * self._spacing - wide
        if room < -1e-9:
            return None
        xs = self._spacing + np.linspace(0.0, max(room, 0.0), max(2, math.ceil(room / STEP_MM) + 1))
        low = self._free(shape, xs)
        ranks = np.round(low + self._top_share * high, 6)
        at = int(np.lexsort((xs, ranks))[0])
        return float(xs[at]), float(low[at]), (float(ranks[at]), float(low[at]), float(xs[at]))

    def _free(self, shape: Outline, xs: NDArray[np.float64]) -> NDArray[np.float64]:
        """Lowest free y at each x: pushed up over every piece in the way until none is."""
        import numpy as np

        taken = self._taken.setdefault(shape, [])
        for other, x, y in self._at[len(taken) :]:
            left, lower, upper = _keep_clear(other, shape, self._spacing)
            inside = (xs - x > left[0] + _EDGE) & (xs - x < left[-1] - _EDGE)
            bottom = np.where(inside, np.interp(xs - x, left, lower) + y, np.inf)
            top = np.where(inside, np.interp(xs - x, left, upper) + y, -np.inf)
            taken.append(np.stack((bottom, top)))
        low = np.full(len(xs), self._spacing)
        if not taken:
            return low
        return _first_gap(np.stack([pair[0] for pair in taken]), np.stack([pair[1] for pair in taken]), low)


def _first_gap(
    bottoms: NDArray[np.float64], tops: NDArray[np.float64], low: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Lowest height from ``low`` up that no interval covers, column by column."""
    import numpy as np

    order = np.argsort(bottoms, axis=0, kind="stable")
    bottoms, tops = np.take_along_axis(bottoms, order, 0), np.take_along_axis(tops, order, 0)
    reached = np.maximum.accumulate(np.vstack((low[None, :], tops)), axis=0)
    after = np.vstack((bottoms, np.full((1, bottoms.shape[1]), np.inf)))
    first = np.argmax(after >= reached - _EDGE, axis=0)
    return np.asarray(np.take_along_axis(reached, first[None, :], 0)[0])


def _normal(outline: Outline) -> tuple[Outline, tuple[float, float]]:
    """The outline with its lower left corner at the origin, and where that was."""
    x, y, _, _ = bounds([outline])
    return tuple((round(u - x, 8), round(v - y, 8)) for u, v in outline), (x, y)


def _grown(corners: NDArray[np.float64], spacing: float) -> list[Point]:
    """Corners of the outline with the spacing round it: edges exact, arcs as tangents that lie outside."""
    points: list[Point] = []
    before = [(*corners[-1],), *((*corner,) for corner in corners[:-1])]
    after = [*((*corner,) for corner in corners[1:]), (*corners[0],)]
    sign = 1.0 if signed_area(tuple((float(x), float(y)) for x, y in corners)) > 0 else -1.0
    for (x0, y0), (x, y), (x1, y1) in zip(before, corners, after, strict=True):
        start = math.atan2(-(x - x0) * sign, (y - y0) * sign)
        turn = math.atan2(-(x1 - x) * sign, (y1 - y) * sign) - start
        turn = math.remainder(turn, math.tau)
        steps = max(1, math.ceil(abs(turn) / (math.pi / 2 / _ARC_SEGMENTS)))
        step = turn / steps
        for angle, radius in (
            (start, spacing),
            *((start + (k + 0.5) * step, spacing / math.cos(step / 2)) for k in range(steps)),
            (start + turn, spacing),
        ):
            points.append((x + radius * math.cos(angle), y + radius * math.sin(angle)))
    return points


@functools.lru_cache(maxsize=512)
def _keep_clear(
    fixed: Outline, moving: Outline, spacing: float
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Where the lower left corner of the moving piece must not be: xs, lower and upper edge there."""
    import numpy as np
    from shapely import MultiPoint, Polygon, get_coordinates

    ring, other = (
        np.array(_grown(get_coordinates(Polygon(fixed).convex_hull)[:-1], spacing)),
        np.array(moving),
    )
    sums = (ring[:, None, :] - other[None, :, :]).reshape(-1, 2)
    hull = get_coordinates(MultiPoint(sums).convex_hull)[:-1]
    xs = np.unique(np.round(hull[:, 0], 9))
    start = int(np.lexsort((hull[:, 1], hull[:, 0]))[0])
    turned = np.roll(hull, -start, axis=0)
    far = int(np.lexsort((turned[:, 1], turned[:, 0]))[-1])
    one, two = turned[: far + 1], np.vstack((turned[far:], turned[:1]))[::-1]
    chains = [np.interp(xs, chain[:, 0], chain[:, 1]) for chain in (one, two)]
    lower, upper = sorted(chains, key=lambda chain: float(chain.sum()))
    for end in (0, -1):  # an edge that runs straight up has two heights at one x
        heights = hull[np.abs(hull[:, 0] - xs[end]) < _EDGE, 1]
        lower[end], upper[end] = heights.min(), heights.max()
    return xs, lower, upper
