"""The light on the back of a diffuser, point by point."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class FrontMap:
    """Light over one diffuser, in the frame of its segment: the axis on x, its middle at 0, mm.

    Cells are squares; a cell counts when its middle lies inside the outline, ``inset_mm`` or more from the
    edge. ``values`` has no unit: 1 is the light that the LEDs would give if all of it, spread evenly, fell
    on the diffuser once. Illuminance in lx is ``values * flux_lm / area_mm2 * 1e6``.

    Attributes:
        left_mm, bottom_mm: corner of the first cell (row 0 is the lowest).
        pitch_mm: side of a cell.
        inset_mm: least distance of a cell's middle from the edge.
        values: array (rows, columns), NaN outside.
    """

    left_mm: float
    bottom_mm: float
    pitch_mm: float
    inset_mm: float
    values: Array

    @cached_property
    def mean(self) -> float:
        """Mean over the cells."""
        return float(self._inside.mean())

    @cached_property
    def evenness(self) -> float:
        """Darkest cell over the mean, 0 to 1."""
        return float(self._inside.min()) / self.mean

    @cached_property
    def low_share(self) -> float:
        """The level that 5 % of the cells stay below, over the mean."""
        import numpy as np

        return float(np.percentile(self._inside, 5)) / self.mean

    @cached_property
    def peak(self) -> float:
        """Brightest cell over the mean."""
        return float(self._inside.max()) / self.mean

    @property
    def _inside(self) -> Array:
        import numpy as np

        return self.values[np.isfinite(self.values)]

    def at(self, x_mm: Array, y_mm: Array) -> Array:
        """Values over the mean at places of the segment's frame, between the cells in proportion.

        Cells outside the outline take the value of the nearest one inside, so that a place at the very edge
        has one.

        Args:
            x_mm, y_mm: arrays of one shape.

        Returns:
            array of that shape; 1 is the mean of the segment.
        """
        import numpy as np

        rows, columns = self._filled.shape
        column = np.clip((x_mm - self.left_mm) / self.pitch_mm - 0.5, 0, columns - 1)
        row = np.clip((y_mm - self.bottom_mm) / self.pitch_mm - 0.5, 0, rows - 1)
        c, r = np.minimum(column.astype(int), columns - 2), np.minimum(row.astype(int), rows - 2)
        c, r = np.maximum(c, 0), np.maximum(r, 0)
        right, up = np.minimum(c + 1, columns - 1), np.minimum(r + 1, rows - 1)
        fc, fr = column - c, row - r
        low = self._filled[r, c] * (1 - fc) + self._filled[r, right] * fc
        high = self._filled[up, c] * (1 - fc) + self._filled[up, right] * fc
        found: Array = (low * (1 - fr) + high * fr) / self.mean
        return found

    @cached_property
    def _filled(self) -> Array:
        import numpy as np

        inside = np.argwhere(np.isfinite(self.values))
        outside = np.argwhere(~np.isfinite(self.values))
        filled = self.values.copy()
        for start in range(0, len(outside), 512):  # in blocks: all pairs at once would take much room
            some = outside[start : start + 512]
            apart = ((some[:, None, :] - inside[None, :, :]) ** 2).sum(axis=2)
            nearest = inside[apart.argmin(axis=1)]
            filled[some[:, 0], some[:, 1]] = self.values[nearest[:, 0], nearest[:, 1]]
        return filled
