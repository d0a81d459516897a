"""The light of a pocket solved: every bounce between matt patches, direct light exact point by point.

Three steps, each kept for the next time: the shape (patches and their view factors), the materials (one
linear system: what a lumen on any patch gives at every place of the diffuser, and where it ends), the LEDs
(direct light, and the bounces by the second step). A new layout in a known pocket takes milliseconds.

Not modelled: the LEDs' bodies and holes, side lobes, mirror-like walls (foil gives 0 to 13 % more than the
same reflectance spread evenly), spread of light inside the diffuser, leaks to the neighbours, coloured
walls, heat.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from segkit.geometry.polygon import Outline, Point, area
from segkit.optics import view_factor
from segkit.optics.exchange import exchange_factors, factors_at
from segkit.optics.front_map import FrontMap
from segkit.optics.patches import (
    BACK,
    FINENESS,
    FRONT,
    GAUSS_POINTS,
    Patches,
    clean_outline,
    coarse_outline,
    patches_of,
    width_of,
)
from segkit.optics.photometry import refuse_beam
from segkit.optics.pocket import Pocket, PocketLight, refuse_pocket

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Mask = NDArray[np.bool_]

#: Cells of the map over the width of the pocket, and the most in all.
CELLS_ACROSS = 10
MOST_CELLS = 1500

#: Least distance of a cell's middle from the edge, as a share of the width.
INSET_SHARE = 0.05

#: From this exponent on (15 degrees) the share that meets the front is taken from the closed sum, and so it
#: is for an LED whose light the sums over the patches miss by more than this: close to wall or diffuser.
_NARROW = 80.0
_ROUGH = 0.005

#: A spot of light narrower than this many cells (standard deviation) is averaged over parts of a cell, at
#: most so many each way; a spot narrower still is spread to that.
_SHARP = 2.4
_MOST_PARTS = 16


@dataclass(frozen=True, eq=False)
class _Shape:
    """What depends on the shape alone."""

    outline: Outline
    area_mm2: float
    patches: Patches
    factors: Array
    grid: FrontMap
    inside: Mask
    cells: Array
    to_cells: Array


@dataclass(frozen=True, eq=False)
class _Response:
    """What depends on shape and materials.

    Attributes:
        at_cells: (cells, patches): light at a cell by bounces, per direct illuminance of a patch.
        on_front, on_walls, on_back: (patches,): flux that falls on a surface in all, per direct illuminance.
        cavity_reflectance: share of diffuse light sent in by the diffuser that returns to it.
    """

    at_cells: Array
    on_front: Array
    on_walls: Array
    on_back: Array
    cavity_reflectance: float


def pocket_light(
    pocket: Pocket, *, places: Sequence[Point], exponent: float, fineness: int = FINENESS
) -> PocketLight:
    """Where the light of a pocket goes, and how evenly it falls on the diffuser.

    Formula: radiosity, ``E = E0 + F rho E`` on patches, gathered at each cell of the front on top of the
    direct light ``I0 cos^m a cos b / r^2``. The LEDs share the flux equally.

    Args:
        pocket: geometry and materials; the outline convex.
        places: the LEDs in the frame of the outline, mm, at least one, all inside.
        exponent: m of ``photometry.lobe_exponent``, up to 300.
        fineness: patches across the pocket; 6 for about half the error.

    Raises:
        InputError: no clear height, a wall that takes up nothing, a diffuser that gives more light than it
            gets, an outline that is not convex, no LED or one outside the outline.

    Sources: radiosity, view-factor-handbook, moreno-2006; checked on pocket-study.

    Example:
        >>> bar = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
        >>> white = Pocket(bar, 25, 6, 0.85, 0.85, 0.40, 0.50)
        >>> light = pocket_light(white, places=((-40, 0), (0, 0), (40, 0)), exponent=1)
        >>> round(light.front_per_flux, 2), round(light.map.evenness, 2)
        (1.0, 0.75)
    """
    refuse_pocket(pocket, places=places)
    shape, response = _solved(pocket, fineness)
    first, miss = _first_light(shape, pocket, places, exponent)
    direct = first.mean(axis=1)
    values = shape.grid.values.copy()
    at_cells = _direct_at_cells(shape, pocket, places, exponent).mean(axis=0) + response.at_cells @ direct
    values[shape.inside] = at_cells * shape.area_mm2
    front, walls, back = (
        float(part @ direct) for part in (response.on_front, response.on_walls, response.on_back)
    )
    areas = shape.patches.areas_mm2
    on_front = shape.patches.surface == FRONT
    taken = (
        front * (1 - pocket.diffuser_reflectance)
        + walls * (1 - pocket.wall_reflectance)
        + back * (1 - pocket.back_reflectance)
    )
    return PocketLight(
        front_per_flux=front,
        direct_share=float((direct * areas)[on_front].sum()),
        cavity_reflectance=response.cavity_reflectance,
        wall_loss=walls * (1 - pocket.wall_reflectance),
        back_loss=back * (1 - pocket.back_reflectance),
        energy_error=abs(taken - 1),
        closure_error=miss,
        map=FrontMap(
            shape.grid.left_mm, shape.grid.bottom_mm, shape.grid.pitch_mm, shape.grid.inset_mm, _fixed(values)
        ),
    )


def light_columns(pocket: Pocket, *, places: Sequence[Point], exponent: float) -> Array:
    """The map of each LED alone: the light of any layout in this pocket is the mean of its columns.

    Args:
        pocket, places, exponent: as for ``pocket_light``.

    Returns:
        (places, cells) in the order of ``FrontMap.values`` inside the outline, row by row; 1 is the LED's own
        light spread evenly.

    Raises:
        InputError: as ``pocket_light``.
    """
    refuse_pocket(pocket, places=places)
    shape, response = _solved(pocket, FINENESS)
    first, _ = _first_light(shape, pocket, places, exponent)
    found: Array = _direct_at_cells(shape, pocket, places, exponent) + (response.at_cells @ first).T
    return found * shape.area_mm2


def mean_per_led(pocket: Pocket, *, places: Sequence[Point], exponent: float) -> Array:
    """``PocketLight.front_per_flux`` of each LED alone: array (places,).

    Args:
        pocket, places, exponent: as for ``pocket_light``.

    Raises:
        InputError: as ``pocket_light``.
    """
    refuse_pocket(pocket, places=places)
    shape, response = _solved(pocket, FINENESS)
    first, _ = _first_light(shape, pocket, places, exponent)
    found: Array = response.on_front @ first
    return found


def front_grid(pocket: Pocket) -> FrontMap:
    """The cells of a pocket's map: values 1 inside, NaN outside.

    Args:
        pocket: as for ``pocket_light``.
    """
    return _shape_of(pocket, FINENESS).grid


def cavity_reflectance(pocket: Pocket) -> float:
    """Share of diffuse light sent into the pocket by the diffuser that returns to it.

    Args:
        pocket: as for ``pocket_light``; its diffuser's reflectance does not count.
    """
    return _solved(pocket, FINENESS)[1].cavity_reflectance


def _solved(pocket: Pocket, fineness: int) -> tuple[_Shape, _Response]:
    shape = _shape_of(pocket, fineness)
    return shape, _response(
        shape.outline, pocket.depth_mm, pocket.tip_mm, fineness,
        pocket.wall_reflectance, pocket.back_reflectance, pocket.diffuser_reflectance,
    )  # fmt: skip


def _shape_of(pocket: Pocket, fineness: int) -> _Shape:
    return _shape(clean_outline(pocket.outline), pocket.depth_mm, pocket.tip_mm, fineness)


@lru_cache(maxsize=24)
def _shape(outline: Outline, depth_mm: float, tip_mm: float, fineness: int) -> _Shape:
    import numpy as np

    patches = patches_of(coarse_outline(outline), depth_mm=depth_mm, tip_mm=tip_mm, fineness=fineness)
    grid = _grid(outline)
    inside = np.isfinite(grid.values)
    row, column = np.nonzero(inside)
    cells = np.stack(
        [
            grid.left_mm + (column + 0.5) * grid.pitch_mm,
            grid.bottom_mm + (row + 0.5) * grid.pitch_mm,
            np.full(len(row), depth_mm),
        ],
        axis=1,
    )
    down = np.tile(np.array([0.0, 0.0, -1.0]), (len(cells), 1))
    to_cells = factors_at(cells, down, np.full(len(cells), FRONT), patches)
    to_cells /= to_cells.sum(axis=1, keepdims=True)  # the coarse arcs leave a little out
    return _Shape(
        outline,
        area(outline),
        patches,
        exchange_factors(patches),
        grid,
        inside,
        cells,
        to_cells,
    )


def _grid(outline: Outline) -> FrontMap:
    """Square cells in the frame of the outline, in mirror symmetry about the middle of its bounds."""
    import numpy as np

    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    width = width_of(outline)
    pitch = max(width / CELLS_ACROSS, math.sqrt(area(outline) / MOST_CELLS))
    columns, rows = (max(1, round((max(v) - min(v)) / pitch)) for v in (xs, ys))
    left = (max(xs) + min(xs) - columns * pitch) / 2
    bottom = (max(ys) + min(ys) - rows * pitch) / 2
    x = left + (np.arange(columns) + 0.5) * pitch
    y = bottom + (np.arange(rows) + 0.5) * pitch
    inset = INSET_SHARE * width
    room = np.full((rows, columns), np.inf)
    for (ax, ay), (bx, by) in view_factor.edges(outline):
        length = math.dist((ax, ay), (bx, by))
        room = np.minimum(room, ((bx - ax) * (y[:, None] - ay) - (by - ay) * (x[None, :] - ax)) / length)
    return FrontMap(left, bottom, pitch, inset, _fixed(np.where(room >= inset - 1e-9, 1.0, np.nan)))


@lru_cache(maxsize=48)
def _response(
    outline: Outline, depth_mm: float, tip_mm: float, fineness: int, wall: float, back: float, diffuser: float
) -> _Response:
    """One linear system for all cells at once, and a smaller one for the light sent in from outside."""
    import numpy as np

    shape = _shape(outline, depth_mm, tip_mm, fineness)
    areas, surface, factors = shape.patches.areas_mm2, shape.patches.surface, shape.factors
    groups = [surface == FRONT, surface > FRONT, surface == BACK]
    rho = np.select(groups, [diffuser, wall, back])
    asked = np.vstack([shape.to_cells * rho, *(np.where(group, areas, 0.0) for group in groups)])
    answered = np.linalg.solve((np.eye(len(areas)) - factors * rho).T, asked.T).T
    answered = np.maximum(answered, 0.0)  # no share is negative; a dark surface leaves rounding below nothing
    cells = len(shape.cells)
    outside = np.where(groups[0], 0.0, rho)
    sent = factors[:, groups[0]].sum(axis=1)
    returned = np.linalg.solve(np.eye(len(areas)) - factors * outside, sent)
    share = float((areas * returned)[groups[0]].sum() / areas[groups[0]].sum())
    return _Response(answered[:cells], answered[cells], answered[cells + 1], answered[cells + 2], share)


def _first_light(
    shape: _Shape, pocket: Pocket, places: Sequence[Point], exponent: float
) -> tuple[Array, float]:
    """Illuminance of each patch by each LED of one lumen alone: (patches, LEDs), and its largest miss.

    Gauss sums over the patches, brought to the LED's flux; the miss is what they were off by before that.
    """
    import numpy as np

    refuse_beam(exponent)
    patches = shape.patches
    at = np.array(places, dtype=float).reshape(-1, 2)
    samples, normal = patches.sample_at, patches.normals[patches.sample_patch]
    rise = samples[:, 2] - pocket.tip_mm
    # In matrix products over (samples, LEDs), which is what the time of a search goes into.
    square = (samples[:, :2] ** 2).sum(axis=1) + rise**2
    square = square[:, None] + (at**2).sum(axis=1)[None, :] - 2 * (samples[:, :2] @ at.T)
    towards = (
        normal[:, :2] @ at.T - ((normal[:, :2] * samples[:, :2]).sum(axis=1) + normal[:, 2] * rise)[:, None]
    )
    up = np.maximum(rise, 0.0)[:, None] / np.sqrt(square)
    axis_cd = (exponent + 1) / (2 * math.pi)
    weight = axis_cd * patches.sample_area_mm2
    flux = up**exponent * np.maximum(towards, 0.0) / (square * np.sqrt(square)) * weight[:, None]
    total = np.zeros((len(patches.areas_mm2), len(at)))
    total[patches.lit] = _by_patch(flux, patches)
    whole = total.sum(axis=0)
    miss = float(np.abs(whole - 1).max())
    rough = np.abs(whole - 1) > _ROUGH if exponent <= _NARROW else np.ones(len(at), dtype=bool)
    total[:, ~rough] /= whole[~rough]
    for led in map(int, np.nonzero(rough)[0]):
        total[:, led] = _shared_out(total[:, led], shape, pocket, places[led], exponent)
    first: Array = total / patches.areas_mm2[:, None]
    return first, miss


def _by_patch(flux: Array, patches: Patches) -> Array:
    """Sums over the Gauss points of each lit patch: (lit patches, LEDs)."""
    import numpy as np

    triangles = flux.reshape(GAUSS_POINTS, -1, flux.shape[1]).sum(axis=0)
    found: Array = np.add.reduceat(triangles, patches.first_triangle, axis=0)
    return found


def _shared_out(total: Array, shape: _Shape, pocket: Pocket, place: Point, exponent: float) -> Array:
    """The flux of one LED with the shares of front and walls brought to those of the closed sum.

    Where hardly any Gauss point met the light, the nearest patch of the group gets it.
    """
    import numpy as np

    share = view_factor.lobe_share(shape.outline, place=place, gap_mm=pocket.gap_mm, exponent=exponent)
    on_front = shape.patches.surface == FRONT
    apart = ((shape.patches.centres[:, :2] - np.array(place)) ** 2).sum(axis=1)
    apart[shape.patches.centres[:, 2] <= pocket.tip_mm] = np.inf
    found = np.zeros_like(total)
    for group, part in ((on_front, share), (~on_front, 1 - share)):
        met = float(total[group].sum())
        if met > part / 10:
            found[group] = total[group] * (part / met)
        else:
            found[np.where(group, apart, np.inf).argmin()] = part
    return found


def _direct_at_cells(shape: _Shape, pocket: Pocket, places: Sequence[Point], exponent: float) -> Array:
    """Direct illuminance of each LED of one lumen at the cells: (LEDs, cells), 1/mm2.

    At the middle of each cell; as the mean of parts of it where the spot is sharp, so that no spot falls
    between the middles.
    """
    import numpy as np

    pitch, spread = shape.grid.pitch_mm, math.sqrt(exponent + 3)
    sharp = max(pocket.gap_mm / spread, _SHARP * pitch / _MOST_PARTS)
    parts = math.ceil(_SHARP * pitch / sharp - 1e-9)
    gap = pocket.gap_mm if parts == 1 else sharp * spread
    at = np.array(places, dtype=float).reshape(-1, 2)
    steps = ((np.arange(parts) + 0.5) / parts - 0.5) * pitch
    found: Array = np.zeros((len(at), len(shape.cells)))
    for dx in steps:
        along = (shape.cells[None, :, 0] + dx - at[:, None, 0]) ** 2
        for dy in steps:
            square = along + (shape.cells[None, :, 1] + dy - at[:, None, 1]) ** 2
            found += np.exp(-(exponent + 3) / 2 * np.log1p(square / gap**2))
    found *= (exponent + 1) / (2 * math.pi) / gap**2 / parts**2
    return found


def _fixed(values: Array) -> Array:
    values.setflags(write=False)
    return values
