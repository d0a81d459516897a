"""How much of the light that leaves one patch of a pocket falls on another."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from segkit.optics.patches import Patches

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Indices = NDArray[np.int64]

#: Passes that make row sums and reciprocity hold together; 30 leave an energy error of about 1e-9.
PASSES = 60
CLOSED_WITHIN = 1e-11

#: Coefficients of ``acos(x) = sqrt(1 - x) (a0 + a1 x + ... + a7 x^7)``.
_ARC_COSINE = (
    1.5707963050, -0.2145988016, 0.0889789874, -0.0501743046, 0.0308918810, -0.0170881256, 0.0066700901,
    -0.0012624911,
)  # fmt: skip

#: Elements at a time: what is in between stays in the cache and is not asked for from the system again.
_BLOCK = 32


@dataclass(frozen=True, eq=False)
class _Edges:
    """Vertices, and edges from one to another: cross products and differences of their ends, (3, edges)."""

    vertices: Array
    first: Indices
    last: Indices
    crosses: Array
    along: Array
    squares: Array


def factors_at(places: Array, normals: Array, surface: Indices, patches: Patches) -> Array:
    """View factors from small flat elements to every patch of a convex pocket.

    Formula (Lambert's sum over the edges of a polygon): ``F = |sum_k n . (u_k x u_k+1) acos(c)/sqrt(1-c^2)|
    / (2 pi)`` with u the unit vectors to the corners and ``c = u_k . u_k+1``. Patches of the element's own
    surface count nothing.

    Args:
        places: (elements, 3), mm, inside the pocket or on its surface, not on an edge of a patch.
        normals: (elements, 3), unit, into the pocket.
        surface: (elements,) surface numbers.
        patches: of the pocket.

    Returns:
        (elements, patches), rows summing to about 1.

    Sources: view-factor-handbook.
    """
    import numpy as np

    edges, edge, sense = _edges_of(patches)
    found = np.empty((len(places), len(patches.areas_mm2)))
    for at in range(0, len(places), _BLOCK):
        some = slice(at, at + _BLOCK)
        terms = _edge_terms(places[some], normals[some], edges)
        sums = terms[:, edge[0]] * sense[0]
        for corner in range(1, len(edge)):
            sums += terms[:, edge[corner]] * sense[corner]
        found[some] = np.abs(sums)
    found /= 2 * math.pi
    found[surface[:, None] == patches.surface[None, :]] = 0.0
    return found


def _edges_of(patches: Patches) -> tuple[_Edges, Indices, Array]:
    """The edges, each once; which of them go round each patch, (corners, patches), and in which sense."""
    import numpy as np

    vertices, where = np.unique(np.round(patches.corners.reshape(-1, 3), 7), axis=0, return_inverse=True)
    start = where.reshape(len(patches.corners), -1).T
    end = np.roll(start, -1, axis=0)
    low, high = np.minimum(start, end), np.maximum(start, end)
    pairs, edge = np.unique(low * len(vertices) + high, return_inverse=True)
    first, last = pairs // len(vertices), pairs % len(vertices)
    v, w = vertices[first], vertices[last]
    edges = _Edges(
        vertices, first, last, np.cross(v, w).T, (w - v).T, ((w - v) ** 2).sum(axis=1).astype("f4")
    )
    # 0 for the repeated corner of a short patch
    return edges, edge.reshape(start.shape), np.sign(end - start).astype("f4")


def _edge_terms(places: Array, normals: Array, edges: _Edges) -> Array:
    """``n . (a x b) acos(cos) / |a x b|`` for (elements, edges), a and b the rays to the ends of an edge.

    In matrix products: ``n . (a x b) = n . (v x w) - (n x p) . (w - v)``, ``a . b = (a2 + b2 - e2)/2``.
    """
    import numpy as np

    triple = normals @ edges.crosses - np.cross(normals, places) @ edges.along
    away = (edges.vertices**2).sum(axis=1)[None, :] - 2 * places @ edges.vertices.T
    away += (places**2).sum(axis=1)[:, None]
    # A cell may lie on a corner of the front, which it does not see. Single precision is plenty from here on:
    # the factors are brought to their sums afterwards, and the angles take most of the time.
    square = np.maximum(away, 1e-9).astype(np.float32)
    a2, b2 = square[:, edges.first], square[:, edges.last]
    over = 1 / np.sqrt(a2 * b2)
    a2 += b2
    a2 -= edges.squares
    a2 *= over
    a2 /= 2
    terms: Array = triple.astype(np.float32) * (over * angle_over_sine(a2))
    return terms


def angle_over_sine(cosine: Array) -> Array:
    """``acos(c) / sqrt(1 - c^2)``, 1 at c = 1, by a handbook's polynomial for ``acos(c) / sqrt(1 - c)``.

    Args:
        cosine: -1 to 1, single precision; a hair beyond from rounding does no harm.

    Sources: arc-cosine-polynomial (error of the angle below 2e-8 for c from 0 to 1).

    Example:
        >>> import numpy as np
        >>> [round(float(value), 5) for value in angle_over_sine(np.array([1.0, 0.5, 0.0, -0.5]))]
        [1.0, 1.2092, 1.5708, 2.4184]
    """
    import numpy as np

    found = np.full_like(cosine, _ARC_COSINE[-1])
    for term in _ARC_COSINE[-2::-1]:
        found *= cosine
        found += term
    obtuse = cosine < 0
    found /= np.sqrt(np.where(obtuse, 1.0, 1.0 + cosine), dtype=cosine.dtype)
    wide = np.clip(cosine[obtuse], -1.0, 0.0)
    found[obtuse] = np.arccos(wide) / np.maximum(np.sqrt(1 - wide * wide), 1e-3)
    return found


def exchange_factors(patches: Patches) -> Array:
    """View factors between all patches, with reciprocity and row sums both true.

    Taken from the middle of each patch, made symmetric as exchange areas ``A_i F_ij``, and scaled row by row
    and column by column until each row sums to its area.

    Args:
        patches: of the pocket.

    Returns:
        (patches, patches): F[i, j], the share of light leaving i that meets j.

    Sources: view-factor-handbook; sinkhorn-scaling.
    """
    import numpy as np

    raw = factors_at(patches.centres, patches.normals, patches.surface, patches)
    areas = patches.areas_mm2
    exchange = raw * areas[:, None]
    exchange = (exchange + exchange.T) / 2
    scale = np.ones(len(areas))
    for _ in range(PASSES):
        ratio = areas / (scale * (exchange @ scale))
        scale = scale * np.sqrt(ratio)
        if np.abs(ratio - 1).max() < CLOSED_WITHIN:
            break
    factors: Array = exchange * scale[:, None] * scale[None, :] / areas[:, None]
    return factors
