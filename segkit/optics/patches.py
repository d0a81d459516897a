"""A pocket cut into patches: back, walls and front of a straight well over a convex outline."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from segkit.errors import InputError, Problem
from segkit.geometry.polygon import Outline, Point, area, perimeter, signed_area
from segkit.optics import view_factor

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Indices = NDArray[np.int64]

#: Surface numbers: back, front, then one for each edge of the outline.
BACK, FRONT, FIRST_WALL = 0, 1, 2

#: Patches over the smaller of width and depth; 6 gives about half the error at four times the work.
FINENESS = 4

#: More patches than this are not made; very deep pockets get coarser ones.
MOST_PATCHES = 900

_TURN = math.radians(22.5)
_SLIVER = 1e-6

#: Three-point Gauss rule on 0..1.
_AT = (0.112701665379258, 0.5, 0.887298334620742)
_WEIGHT = (5 / 18, 4 / 9, 5 / 18)

#: Gauss points in each triangle.
GAUSS_POINTS = len(_AT) ** 2


@dataclass(frozen=True, eq=False)
class Patches:
    """Patches and the sums over their surfaces; z runs from the back (0) to the diffuser (depth).

    Attributes:
        corners: (patches, most corners, 3), mm; short ones repeat their last corner.
        centres: (patches, 3), mm.
        normals: (patches, 3), into the pocket.
        areas_mm2: (patches,).
        surface: (patches,), ``BACK``, ``FRONT`` or a wall.
        sample_at, sample_area_mm2, sample_patch: Gauss points of the patches that LEDs can light, the first
            of every triangle, then the second of every triangle and so on; the triangles patch by patch.
        lit, first_triangle: the patches that LEDs can light, and where the triangles of each begin.
    """

    corners: Array
    centres: Array
    normals: Array
    areas_mm2: Array
    surface: Indices
    sample_at: Array
    sample_area_mm2: Array
    sample_patch: Indices
    lit: Indices
    first_triangle: Indices


@lru_cache(maxsize=256)
def clean_outline(outline: Outline) -> Outline:
    """The outline counter-clockwise, without double and collinear corners, rounded to a nanometre.

    Args:
        outline: corners, mm.

    Raises:
        InputError: no area, or not convex: light would have to go round corners, which is not solved.

    Example:
        >>> clean_outline(((0, 0), (0, 2), (4, 2), (4, 0), (2, 0)))
        ((4.0, 0.0), (4.0, 2.0), (0.0, 2.0), (0.0, 0.0))
    """
    points = [(round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in outline]
    points = [
        p for p, after in zip(points, points[1:] + points[:1], strict=True) if math.dist(p, after) > 1e-5
    ]
    if len(points) < 3 or area(tuple(points)) < 1e-6:
        raise InputError(Problem("the outline has no area.", key="outline"))
    if signed_area(tuple(points)) < 0:
        points = points[::-1]
    turns = [
        _turn(*three)
        for three in zip(points[-1:] + points[:-1], points, points[1:] + points[:1], strict=True)
    ]
    if min(turns) < -1e-6 or sum(turns) > 2 * math.pi + 1e-3:
        raise InputError(
            Problem(
                "the outline of the pocket is not convex: light inside it would have to go round corners.",
                key="outline",
                limit="convex",
                remedy="Part it into convex pockets with walls between them, and solve each.",
            )
        )
    return tuple(point for point, turn in zip(points, turns, strict=True) if turn > 1e-7)


def _turn(before: Point, at: Point, after: Point) -> float:
    ax, ay, bx, by = at[0] - before[0], at[1] - before[1], after[0] - at[0], after[1] - at[1]
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def width_of(outline: Outline) -> float:
    """Least distance between two parallel lines that hold a convex outline, mm.

    Example:
        >>> width_of(((0, 0), (120, 0), (120, 20), (0, 20)))
        20.0
    """
    widths = []
    for (ax, ay), (bx, by) in view_factor.edges(outline):
        length = math.dist((ax, ay), (bx, by))
        if length > 1e-9:
            widths.append(max(((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length for x, y in outline))
    return min(widths)


def coarse_outline(outline: Outline) -> Outline:
    """The outline with arcs as chords that turn by about 22.5 degrees, scaled to the same area.

    Args:
        outline: clean and convex.
    """
    if len(outline) <= 12:
        return outline
    edges = list(view_factor.edges(outline))
    start = max(range(len(edges)), key=lambda i: (round(math.dist(*edges[i]), 3), -i))
    points = outline[start + 1 :] + outline[: start + 1]  # begins where the longest edge ends
    kept, turned = [points[0]], 0.0
    for before, at, after in zip(points, points[1:], points[2:] + points[:1], strict=False):
        turned += _turn(before, at, after)
        if turned >= _TURN - 1e-6 or at == points[-1]:
            kept.append(at)
            turned = 0.0
    scale = math.sqrt(signed_area(outline) / signed_area(tuple(kept)))
    cx, cy = (sum(p[i] for p in kept) / len(kept) for i in (0, 1))
    return tuple((cx + scale * (x - cx), cy + scale * (y - cy)) for x, y in kept)


def patches_of(outline: Outline, *, depth_mm: float, tip_mm: float, fineness: int = FINENESS) -> Patches:
    """Cut a pocket into patches of about ``min(width, depth) / fineness``.

    Front and back in square cells clipped to the outline, the walls in rectangles with a line at the height
    of the tips, below which no LED shines.

    Args:
        outline: clean, convex, counter-clockwise, mm; arcs already coarse.
        depth_mm: from back to diffuser, above ``tip_mm``.
        tip_mm: height of the LEDs' tips, 0 or more.
        fineness: patches across, 2 or more.
    """
    import numpy as np

    side = min(width_of(outline), depth_mm) / fineness
    whole = 2 * area(outline) + perimeter(outline) * depth_mm
    side = max(side, math.sqrt(whole / MOST_PATCHES))
    flat = _cells(outline, side)
    faces: list[list[tuple[float, float, float]]] = []
    surface: list[int] = []
    for number, z in ((BACK, 0.0), (FRONT, depth_mm)):
        for cell in flat:
            faces.append([(x, y, z) for x, y in (cell if number == BACK else cell[::-1])])
            surface.append(number)
    levels = _levels(depth_mm, tip_mm, side)
    for wall, ((ax, ay), (bx, by)) in enumerate(view_factor.edges(outline), FIRST_WALL):
        pieces = max(1, round(math.dist((ax, ay), (bx, by)) / side))
        for piece in range(pieces):
            (x0, y0), (x1, y1) = (
                (ax + (bx - ax) * at / pieces, ay + (by - ay) * at / pieces) for at in (piece, piece + 1)
            )
            for low, high in pairwise(levels):
                faces.append([(x0, y0, low), (x0, y0, high), (x1, y1, high), (x1, y1, low)])
                surface.append(wall)
    most = max(map(len, faces))
    corners = np.array([face + [face[-1]] * (most - len(face)) for face in faces])
    return _measured(corners, np.array(surface, dtype=np.int64), tip_mm)


def _levels(depth_mm: float, tip_mm: float, side: float) -> list[float]:
    below = max(1, round(tip_mm / side)) if tip_mm > 1e-9 else 0
    above = max(1, round((depth_mm - tip_mm) / side))
    lower = [tip_mm * index / below for index in range(below)]
    return [*lower, *(tip_mm + (depth_mm - tip_mm) * index / above for index in range(above + 1))]


def _cells(outline: Outline, side: float) -> list[list[Point]]:
    """Square cells clipped to a convex outline, mirror-symmetric about the middle of its bounds."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    nx, ny = (max(1, round((max(v) - min(v)) / side)) for v in (xs, ys))
    dx, dy = (max(xs) - min(xs)) / nx, (max(ys) - min(ys)) / ny
    cells = []
    for i in range(nx):
        for j in range(ny):
            x0, y0 = min(xs) + i * dx, min(ys) + j * dy
            square = [(x0, y0), (x0 + dx, y0), (x0 + dx, y0 + dy), (x0, y0 + dy)]
            cell = _clipped(square, outline)
            if len(cell) > 2 and signed_area(tuple(cell)) > _SLIVER * dx * dy:
                cells.append(cell)
    return cells


def _clipped(cell: list[Point], outline: Outline) -> list[Point]:
    for (ax, ay), (bx, by) in view_factor.edges(outline):
        sides = [(bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in cell]
        if min(sides, default=0.0) >= -1e-9:
            continue
        kept: list[Point] = []
        for k, (x, y) in enumerate(cell):
            (px, py), here, before = cell[k - 1], sides[k], sides[k - 1]
            if (here >= 0) != (before >= 0):
                at = before / (before - here)
                kept.append((px + (x - px) * at, py + (y - py) * at))
            if here >= 0:
                kept.append((x, y))
        cell = kept
    return cell


def _measured(corners: Array, surface: Indices, tip_mm: float) -> Patches:
    """Areas, centroids, normals, and the Gauss points of what stands above the tips."""
    import numpy as np

    a, b, c = corners[:, :1], corners[:, 1:-1], corners[:, 2:]
    crosses = np.cross(b - a, c - a) / 2  # (patches, triangles, 3)
    vector = crosses.sum(axis=1)
    areas = np.linalg.norm(vector, axis=1)
    normals = vector / areas[:, None]
    weights = np.linalg.norm(crosses, axis=2)
    centres = ((a + b + c) / 3 * weights[:, :, None]).sum(axis=1) / areas[:, None]
    inward = np.where(surface == FRONT, -1.0, 1.0)
    normals[surface <= FRONT] = np.array([0.0, 0.0, 1.0]) * inward[surface <= FRONT, None]
    lit = (surface == FRONT) | ((surface >= FIRST_WALL) & (centres[:, 2] > tip_mm))
    patch, triangle = np.nonzero((weights > 1e-12) & lit[:, None])
    p0, p1, p2 = a[patch, 0], b[patch, triangle], c[patch, triangle]
    at, area = [], []
    for u, wu in zip(_AT, _WEIGHT, strict=True):
        for v, wv in zip(_AT, _WEIGHT, strict=True):
            at.append(p0 + u * ((1 - v) * (p1 - p0) + v * (p2 - p0)))
            area.append(weights[patch, triangle] * 2 * u * wu * wv)
    lit_patches, first = np.unique(patch, return_index=True)
    return Patches(
        corners, centres, normals, areas, surface,
        np.concatenate(at), np.concatenate(area), np.tile(patch, GAUSS_POINTS).astype(np.int64),
        lit_patches.astype(np.int64), first.astype(np.int64),
    )  # fmt: skip
