"""How much of the light that leaves one patch of a pocket falls on another."""

from __future__ import annotations

import math
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

    vertices, where = np.unique(np.round(patches.corners.reshape(-1, 3), 7), axis=0, return_inverse=True)
    index: Indices = where.reshape(len(patches.corners), -1)
    start, end = index, np.roll(index, -1, axis=1)
    low, high = np.minimum(start, end), np.maximum(start, end)
    pairs, edge = np.unique(low * len(vertices) + high, return_inverse=True)
    edge = edge.reshape(index.shape)
    first, last = pairs // len(vertices), pairs % len(vertices)
    sense = np.sign(end - start).astype(float)  # 0 for the repeated corner of a short patch
    terms = _edge_terms(places, normals, vertices, first=first, last=last)
    found = np.zeros((len(places), len(patches.areas_mm2)))
    for k in range(index.shape[-1]):
        found += terms[:, edge[:, k]] * sense[:, k]
    found = np.abs(found) / (2 * math.pi)
    found[surface[:, None] == patches.surface[None, :]] = 0.0
    return found


def _edge_terms(places: Array, normals: Array, vertices: Array, *, first: Indices, last: Indices) -> Array:
    """``n . (a x b) acos(cos) / |a x b|`` for (elements, edges), a and b the rays to the ends of an edge.

    In matrix products: ``n . (a x b) = n . (v x w) - (n x p) . (w - v)``, ``a . b = (a2 + b2 - e2)/2``.
    """
    import numpy as np

    v, w = vertices[first], vertices[last]
    triple = normals @ np.cross(v, w).T - np.cross(normals, places) @ (w - v).T
    square = (places**2).sum(axis=1)[:, None] - 2 * places @ vertices.T + (vertices**2).sum(axis=1)[None, :]
    # A cell may lie on a corner of the front, which it does not see. Single precision is plenty from here on:
    # the factors are brought to their sums afterwards, and the angles take most of the time.
    square32 = np.maximum(square, 1e-9).astype(np.float32)
    a2, b2 = square32[:, first], square32[:, last]
    dot = (a2 + b2 - ((w - v) ** 2).sum(axis=1).astype(np.float32)) / 2
    product = a2 * b2
    cosine = np.clip(dot / np.sqrt(product), -1.0, 1.0)
    cross = np.sqrt(np.maximum(product - dot * dot, 1e-6 * product))
    angle = np.where(cosine > 1 - 1e-6, 1e-3, np.arccos(cosine))
    terms: Array = triple * (angle / cross)
    return terms


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
