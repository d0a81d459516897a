"""Photons followed one by one through a light pocket: a second way to the answer, for the tests alone.

It shares no code and no method with the solver: no patches, no view factors, no linear system. Directions
are drawn at random, each photon flies to the nearest of the planes that bound a convex pocket, leaves its
weight there if that is the diffuser, loses what the surface takes up, and starts again.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

BACK, FRONT, FIRST_WALL = 0, 1, 2
BATCH = 15_000  # photons at once: small enough to stay in the cache, and a batch is one sample of the noise
LIGHT = 0.1  # photons lighter than this live on by lot, with this weight


@dataclass(frozen=True)
class Grid:
    """Square cells over the diffuser: corner of the first one, side, and how many."""

    left: float
    bottom: float
    pitch: float
    rows: int
    columns: int


@dataclass(frozen=True)
class Traced:
    """What arrived, batch by batch, for one unit of light from all LEDs together.

    Attributes:
        front: (batches,) light that met the diffuser, all bounces counted.
        lost_walls, lost_back: (batches,) light that ended there.
        cells: (batches, rows, columns) light that met each cell of the grid.
    """

    front: np.ndarray
    lost_walls: np.ndarray
    lost_back: np.ndarray
    cells: np.ndarray

    def mean(self):
        """Mean front incidence and its standard error."""
        return float(self.front.mean()), float(self.front.std(ddof=1) / math.sqrt(len(self.front)))


def trace(
    outline, *, depth, tip, places, full_angle_deg, walls, back, diffuser, grid, photons, seed=1, mirror=0.0
):
    """Follow photons from LED tips at ``places``; ``mirror`` is the share of wall light that a foil mirrors.

    The outline is convex, its corners in either order; the beam falls off as a power of the cosine that
    is one half at half the full angle.
    """
    rng = np.random.default_rng(seed)
    normals, offsets = _planes(outline, depth)
    rho = np.array([back, diffuser] + [walls] * (len(normals) - FIRST_WALL))
    power = math.log(0.5) / math.log(math.cos(math.radians(full_angle_deg) / 2)) + 1
    start = np.array([(x, y, tip) for x, y in places], dtype=float)
    batches = max(2, round(photons / BATCH))
    front, lost = np.zeros(batches), np.zeros((batches, 2))
    cells = np.zeros((batches, grid.rows * grid.columns))
    for batch in range(batches):
        at, way = start[np.arange(BATCH) % len(start)], _lobe(rng, BATCH, power)
        weight = np.ones(BATCH)
        while len(weight):
            hit, at = _fly(at, way, normals, offsets)
            arrived = hit == FRONT
            front[batch] += weight[arrived].sum()
            cells[batch] += _binned(at[arrived], weight[arrived], grid)
            taken = weight * (1 - rho[hit])
            lost[batch] += taken[hit >= FIRST_WALL].sum(), taken[hit == BACK].sum()
            weight = _lots(rng, weight * rho[hit])
            alive = weight > 0
            hit, at, way, weight = hit[alive], at[alive], way[alive], weight[alive]
            normal = normals[hit]
            matt = _scattered(rng, normal)
            if mirror:
                back_off = way - 2 * (way * normal).sum(axis=1)[:, None] * normal
                as_mirror = (hit >= FIRST_WALL) & (rng.random(len(hit)) < mirror)
                matt[as_mirror] = back_off[as_mirror]
            way = matt
    return Traced(
        front / BATCH, lost[:, 0] / BATCH, lost[:, 1] / BATCH,
        cells.reshape(batches, grid.rows, grid.columns) / BATCH,
    )  # fmt: skip


def _planes(outline, depth):
    """Inward normals and offsets of back, front and walls: ``n . x >= offset`` inside."""
    corners = np.array(outline, dtype=float)
    after = np.roll(corners, -1, axis=0)
    if (corners[:, 0] * after[:, 1] - after[:, 0] * corners[:, 1]).sum() < 0:
        corners, after = after[::-1], corners[::-1]
    along = (after - corners) / np.linalg.norm(after - corners, axis=1)[:, None]
    sides = np.stack([-along[:, 1], along[:, 0], np.zeros(len(along))], axis=1)
    normals = np.vstack([[0.0, 0.0, 1.0], [0.0, 0.0, -1.0], sides])
    return normals, np.concatenate([[0.0, -depth], (sides[:, :2] * corners).sum(axis=1)])


def _lobe(rng, count, power):
    """Directions about +z; ``cos^power`` is the share of the light beyond an angle."""
    cosine, turn = rng.random(count) ** (1 / power), 2 * math.pi * rng.random(count)
    sine = np.sqrt(1 - cosine**2)
    return np.stack([sine * np.cos(turn), sine * np.sin(turn), cosine], axis=1)


def _scattered(rng, normal):
    """Matt: the normal and a point of the unit sphere added."""
    z, turn = 2 * rng.random(len(normal)) - 1, 2 * math.pi * rng.random(len(normal))
    ring = np.sqrt(1 - z * z)
    way = normal + np.stack([ring * np.cos(turn), ring * np.sin(turn), z], axis=1)
    return way / np.linalg.norm(way, axis=1)[:, None]


def _fly(at, way, normals, offsets):
    """The plane that each photon meets first, and where."""
    room, closing = at @ normals.T - offsets, -(way @ normals.T)
    time = np.where(closing > 1e-12, np.maximum(room, 0) / np.maximum(closing, 1e-12), np.inf)
    hit = time.argmin(axis=1)
    return hit, at + way * time[np.arange(len(hit)), hit][:, None]


def _binned(at, weight, grid):
    column = np.floor((at[:, 0] - grid.left) / grid.pitch).astype(int)
    row = np.floor((at[:, 1] - grid.bottom) / grid.pitch).astype(int)
    on = (column >= 0) & (column < grid.columns) & (row >= 0) & (row < grid.rows)
    index = row[on] * grid.columns + column[on]
    return np.bincount(index, weights=weight[on], minlength=grid.rows * grid.columns)


def _lots(rng, weight):
    """Light photons live on by lot, so that no light is lost on the average."""
    light = weight < LIGHT
    stays = rng.random(len(weight)) * LIGHT < weight
    return np.where(light, np.where(stays, LIGHT, 0.0), weight)
