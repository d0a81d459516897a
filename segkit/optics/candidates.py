"""The light of every LED place that a search may use, worked out once for a pocket and a beam."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from segkit.geometry.polygon import Point
from segkit.optics import solver
from segkit.optics.patterns import Plan, fractions, row_range, units
from segkit.optics.pocket import Pocket
from segkit.optics.stations import Bay

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.floating[Any]]

#: Places in a row are worked out every millimetre, but no more than this many; those between them follow.
_MOST_PLACES = 80


@dataclass(frozen=True)
class Line:
    """The places along one row, and the light of an LED at each.

    Attributes:
        first_mm, last_mm, step_mm: where the places are.
        columns: array (places, cells): the map of each LED alone.
    """

    first_mm: float
    last_mm: float
    step_mm: float
    columns: Array


@dataclass(eq=False)
class Candidates:
    """Light of the places in one pocket, filled as a search asks for them.

    Attributes:
        bay: outline in its own frame.
        pocket: geometry and materials.
        exponent: m of the lobe.
        body_mm: diameter of an LED's body.
    """

    bay: Bay
    pocket: Pocket
    exponent: float
    body_mm: float
    _lines: dict[float, Line] = field(default_factory=dict)
    _sums: dict[tuple[float, int, int, tuple[float, ...]], Array] = field(default_factory=dict)

    def maps(self, plan: Plan) -> Array:
        """The light of each pattern of a plan: array (reaches, cells), as of one LED on average."""
        if self.bay.dot:
            return self._ring_maps(plan)
        longest = max(plan.counts)
        spares = tuple(plan.reaches_mm[0] - reach for reach in plan.reaches_mm)
        rows = [
            self._row_sum(offset, count, longest, spares)
            for count, offset in zip(plan.counts, plan.offsets_mm, strict=True)
        ]
        found: Array = sum(rows[1:], start=rows[0]) / plan.total
        return found

    def line(self, offset_mm: float) -> Line:
        """The places along a row at a distance from the axis."""
        import numpy as np

        if offset_mm not in self._lines:
            low, high = row_range(self.bay, offset_mm=offset_mm, body_mm=self.body_mm)
            count = max(2, min(_MOST_PLACES, math.ceil(high - low) + 1))
            step = (high - low) / (count - 1)
            xs = [low + step * index for index in range(count)]
            # Array precision: the search compares, and the winner is worked out exactly.
            columns = self._columns(xs, offset_mm).astype(np.float32)
            self._lines[offset_mm] = Line(low, high, step, columns)
        return self._lines[offset_mm]

    def columns(self, places: tuple[Point, ...]) -> Array:
        """The light of LEDs at exact places, one row each."""
        return solver.light_columns(self.pocket, places=places, exponent=self.exponent)

    def _columns(self, xs: list[float], offset: float) -> Array:
        """Columns along a row; where the pocket is alike from its other end, half of them are turned over."""
        import numpy as np

        for along, across in ((-1, 1), (-1, -1)):
            turned = mirrored_cells(self.pocket, along, across)
            if turned is None or (across < 0 and offset):
                continue
            half = (len(xs) + 1) // 2
            first = self.columns(tuple((x, offset) for x in xs[:half]))
            rest = first[: len(xs) - half][::-1][:, list(turned)]
            return np.concatenate([first, rest])
        return self._opposite(xs, offset)

    def _opposite(self, xs: list[float], offset: float) -> Array:
        """Columns of a row that the row on the other side of the axis is a turned copy of, if it is."""
        turned = mirrored_cells(self.pocket, -1, -1)
        other = self._lines.get(-offset)
        if turned is not None and other is not None and len(other.columns) == len(xs):
            return other.columns[::-1][:, list(turned)]
        return self.columns(tuple((x, offset) for x in xs))

    def _row_sum(self, offset: float, count: int, longest: int, spares: tuple[float, ...]) -> Array:
        import numpy as np

        key = (offset, count, longest, spares)
        if key not in self._sums:
            line = self.line(offset)
            half, middle = (line.last_mm - line.first_mm) / 2, (line.last_mm + line.first_mm) / 2
            parts = np.asarray(fractions(count, longest))
            xs = middle + (half - np.asarray(spares))[:, None] * parts[None, :]
            places = len(line.columns)
            at = np.clip((xs - line.first_mm) / (line.step_mm or 1.0), 0, places - 1)
            left = np.minimum(at.astype(int), places - 2)
            share = at - left
            weights = np.zeros((len(spares), places), dtype=np.float32)
            index = np.arange(len(spares))[:, None]
            np.add.at(weights, (index, left), 1 - share)
            np.add.at(weights, (index, left + 1), share)
            self._sums[key] = np.asarray(weights @ line.columns)
        return self._sums[key]

    def _ring_maps(self, plan: Plan) -> Array:
        import numpy as np

        ways = units(plan)
        places = tuple((reach * x, reach * y) for reach in plan.reaches_mm for x, y in ways)
        found = self.columns(places).reshape(len(plan.reaches_mm), len(ways), -1)
        return np.asarray(found.mean(axis=1), dtype=np.float32)


def cells(pocket: Pocket) -> tuple[Array, Array]:
    """Middles of the cells of a pocket's map, in the order of the columns: along, across, mm."""
    import numpy as np

    grid = solver.front_grid(pocket)
    rows, columns = np.nonzero(np.isfinite(grid.values))
    along = grid.left_mm + (columns.astype(np.float64) + 0.5) * grid.pitch_mm
    across = grid.bottom_mm + (rows.astype(np.float64) + 0.5) * grid.pitch_mm
    return along, across


@lru_cache(maxsize=128)
def mirrored_cells(pocket: Pocket, along: int, across: int) -> tuple[int, ...] | None:
    """For each cell the one that it falls on when the pocket is turned over, or None if it is not alike.

    Args:
        pocket: geometry.
        along, across: -1 to turn that coordinate over, 1 to leave it.
    """
    corners = {(round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in pocket.outline}
    if {(round(along * x, 3) + 0.0, round(across * y, 3) + 0.0) for x, y in pocket.outline} != corners:
        return None
    xs, ys = cells(pocket)
    here = {
        (round(x, 3) + 0.0, round(y, 3) + 0.0): index for index, (x, y) in enumerate(zip(xs, ys, strict=True))
    }
    try:
        return tuple(
            here[round(along * x, 3) + 0.0, round(across * y, 3) + 0.0]
            for x, y in zip(xs.tolist(), ys.tolist(), strict=True)
        )
    except KeyError:
        return None
