"""How bright each place of the board is, in cd/m2, with the light that falls on it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from segkit.drawing.png import picture_size
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Outline, bounds
from segkit.optics.stations import axis_frame
from segkit.preview.lit import Lit, refuse_unknown
from segkit.viewing import limits

if TYPE_CHECKING:
    from segkit.optics.front_map import Array, FrontMap

_FINE = 4  # sub-pixels a pixel, each way


@dataclass(frozen=True, eq=False)
class Lamp:
    """What a kind of segment looks like, lit and off.

    Attributes:
        luminance_cd_m2: mean of the lit segment by its own light.
        unlit_reflectance: diffuse, 0 to 1, seen from outside.
        front: how the light spreads over the segment; None for evenly.
    """

    luminance_cd_m2: float
    unlit_reflectance: float
    front: FrontMap | None = None


@dataclass(frozen=True, eq=False)
class Scene:
    """The board from the front or the side, rows from the top.

    Attributes:
        own_cd_m2: light of the LEDs, array (rows, columns).
        reflected_cd_m2: light that falls on the board and comes back, same shape.
        pixels_per_mm: resolution down the picture.
        ambient_lx: light on the board.
    """

    own_cd_m2: Array
    reflected_cd_m2: Array
    pixels_per_mm: float
    ambient_lx: float

    @property
    def total_cd_m2(self) -> Array:
        """What an eye or a meter sees."""
        return self.own_cd_m2 + self.reflected_cd_m2


def scene_of(
    board: Board,
    lit: Lit,
    lamps: Mapping[str, Lamp],
    *,
    ambient_lx: float,
    face_reflectance: float,
    pixels_per_mm: float,
    shift_mm: float = 0.0,
) -> Scene:
    """Luminance of the board: lit segments by their map, all else by the light it reflects.

        L = L_mean * share(x, y) + R E/pi

    Args:
        board: all segments in place.
        lit: digit number to the names of its lit segments.
        lamps: for each kind of segment.
        ambient_lx: illuminance E on the board, lx.
        face_reflectance: diffuse, with the front's tint twice in it.
        pixels_per_mm: resolution, above 0.
        shift_mm: how far the lit surface seems moved to the left behind its opening, for a reader at the
            right: depth times tan(angle); the board's cut edge fills the rest of the opening.

    Raises:
        InputError: a digit or segment that the board does not have, a value out of range, too many pixels.

    Sources: diffuse-veil, lambert-surface.
    """
    import numpy as np

    refuse_unknown(board, lit)
    limits.check(ambient_lx=ambient_lx, face_reflectance=face_reflectance)
    width, height = picture_size(
        width_mm=board.width_mm, height_mm=board.height_mm, pixels_per_mm=pixels_per_mm
    )
    own = np.zeros((height, width))
    reflectance = np.full((height, width), face_reflectance)
    for segment in board.segments:
        lamp = lamps[segment.kind]
        on = segment.name in lit.get(segment.digit, frozenset())
        for number, outline in enumerate(segment.outlines):
            patch = _Patch(outline, board.height_mm, pixels_per_mm, height, width)
            seen = patch.cover(0.0)
            if shift_mm:
                seen = np.minimum(seen, patch.cover(shift_mm))
            reflectance[patch.place] += seen * (lamp.unlit_reflectance - face_reflectance)
            if on:
                own[patch.place] += (
                    seen * lamp.luminance_cd_m2 * _share(lamp, segment, number, patch, shift_mm)
                )
    return Scene(own, reflectance * ambient_lx / math.pi, pixels_per_mm, ambient_lx)


class _Patch:
    """The pixels round one outline."""

    def __init__(
        self, outline: Outline, page_mm: float, pixels_per_mm: float, rows: int, columns: int
    ) -> None:
        left, bottom, right, top = bounds([outline])
        self._outline, self._page_mm, self._scale = outline, page_mm, pixels_per_mm
        self._x = max(0, math.floor(left * pixels_per_mm))
        self._y = max(0, math.floor((page_mm - top) * pixels_per_mm))
        x2 = min(columns, math.ceil(right * pixels_per_mm) + 1)
        y2 = min(rows, math.ceil((page_mm - bottom) * pixels_per_mm) + 1)
        self._size = (max(1, x2 - self._x), max(1, y2 - self._y))
        self.place = (slice(self._y, y2), slice(self._x, x2))

    def cover(self, shift_mm: float) -> Array:
        """Share of each pixel inside the outline, moved to the left."""
        import numpy as np
        from PIL import Image, ImageDraw

        stencil = Image.new("L", (self._size[0] * _FINE, self._size[1] * _FINE))
        points = [
            (
                ((x - shift_mm) * self._scale - self._x) * _FINE - 0.5,
                ((self._page_mm - y) * self._scale - self._y) * _FINE - 0.5,
            )
            for x, y in self._outline
        ]
        ImageDraw.Draw(stencil).polygon(points, fill=255)
        return np.asarray(stencil.reduce(_FINE), dtype=float) / 255

    def middles(self) -> tuple[Array, Array]:
        """Board coordinates of the middles of the pixels, mm."""
        import numpy as np

        x = (self._x + np.arange(self._size[0]) + 0.5) / self._scale
        y = self._page_mm - (self._y + np.arange(self._size[1]) + 0.5) / self._scale
        across, down = np.meshgrid(x, y)
        return across, down


def _share(lamp: Lamp, segment: Segment, number: int, patch: _Patch, shift_mm: float) -> Array | float:
    """Light at each pixel over the mean of the segment."""
    if lamp.front is None:
        return 1.0
    (mx, my), (ux, uy) = axis_frame(segment.axes[number])
    x, y = patch.middles()
    dx, dy = x + shift_mm - mx, y - my
    return lamp.front.at(dx * ux + dy * uy, dy * ux - dx * uy)
