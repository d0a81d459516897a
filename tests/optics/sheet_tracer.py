"""Rays followed one by one through a diffuser sheet, lit from behind up to a line: for the tests alone.

The sheet has thickness 1, index 1.49, takes up nothing and scatters alike in all directions, ``depth`` times
on the way straight through. It is lit behind for x below 0. From 0 to the gap, a black face lies on its front
and a wall under its rear, which throws back a share of what meets it; nothing touches it so that it wets.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

INDEX = 1.49
LIT = 8.0  # how far back it is lit, thicknesses
STRIP = 0.25  # width over which the edge of the neighbour is read

Floats = NDArray[np.float64]


def reflected(cosine: Floats, *, inside: bool) -> Floats:
    """Fresnel reflectance of unpolarised light at a face of the sheet."""
    one, two = (INDEX, 1.0) if inside else (1.0, INDEX)
    sine = one / two * np.sqrt(1 - cosine**2)
    other = np.sqrt(np.maximum(0.0, 1 - sine**2))
    across = (one * cosine - two * other) / (one * cosine + two * other)
    along = (one * other - two * cosine) / (one * other + two * cosine)
    return np.where(sine >= 1, 1.0, (across**2 + along**2) / 2)


def entering(count: int, rng: np.random.Generator) -> Floats:
    """(count, 2) directions (x, z) inside, of perfectly diffuse light that gets in from behind."""
    cosine = np.sqrt(rng.random(2 * count + 50))
    cosine = cosine[rng.random(cosine.size) > reflected(cosine, inside=False)][:count]
    sine = np.sqrt(1 - cosine**2) / INDEX
    return np.stack([sine * np.cos(2 * np.pi * rng.random(count)), np.sqrt(1 - sine**2)], 1)


def traced_share(*, depth: float, gap: float, wall: float, rays: int = 100_000, seed: int = 1) -> float:
    """Light that leaves the front just beyond the gap over that far inside the lit part, per area."""
    rng = np.random.default_rng(seed)
    x, z, way = -LIT * rng.random(rays), np.zeros(rays), entering(rays, rng)
    left = rng.exponential(size=rays) / depth
    beyond = within = 0
    while x.size:
        rest = np.where(way[:, 1] > 0, 1 - z, z) / np.maximum(np.abs(way[:, 1]), 1e-9)
        step = np.minimum(rest, left)
        x, z, scatters, left = x + way[:, 0] * step, z + way[:, 1] * step, left < rest, left - step
        count = int(scatters.sum())
        up = rng.uniform(-1, 1, count)
        turn = 2 * np.pi * rng.random(count)
        way[scatters] = np.stack([np.sqrt(1 - up**2) * np.cos(turn), up], 1)
        left[scatters] = rng.exponential(size=count) / depth
        leaves = ~scatters & (rng.random(x.size) > reflected(np.abs(way[:, 1]), inside=True))
        front, stays = leaves & (way[:, 1] > 0), ~scatters & ~leaves
        beyond += int((front & (x > gap) & (x < gap + STRIP)).sum())
        within += int((front & (x > -5) & (x < -3)).sum())
        z[stays] = np.where(way[stays, 1] > 0, 1.0, 0.0)
        way[stays, 1] *= -1
        back = leaves & ~front & (x > 0) & (x < gap) & (rng.random(x.size) < wall)
        way[back], z[back] = entering(int(back.sum()), rng), 0.0
        kept = ~leaves | back
        x, z, way, left = x[kept], z[kept], way[kept], left[kept]
    return (beyond / STRIP) / (within / 2)
