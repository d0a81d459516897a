"""How bright each place of the board is, in cd/m2, with the light that falls on it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from segkit.drawing.png import picture_size
from segkit.geometry.board import Board
from segkit.geometry.polygon import Outline, bounds
from segkit.optics.stations import axis_frame
from segkit.preview.lit import Lit, refuse_unknown
from segkit.viewing import limits

if TYPE_CHECKING:
    from segkit.geometry.polygon import Point
    from segkit.optics.dots import Dots
    from segkit.optics.front_map import Array, FrontMap

#: Mean reflectance of surroundings, as light meters take it (common-practice).
SURROUNDINGS = 0.18

_FINE = 8  # sub-pixels a pixel, each way
_ROUND = 24  # corners of a disc


@dataclass(frozen=True, eq=False)
class Lamp:
    """What a kind of segment looks like, lit and off.

    Attributes:
        luminance_cd_m2: mean of the lit pocket by its own light.
        unlit_reflectance: diffuse, 0 to 1, seen from outside.
        front: how the light spreads over the pocket; None for evenly.
        dots: the bare lamps of a segment that has no pocket; its luminance holds for their direction.
        places_mm: where they stand in each outline, (along, across) its axis from the middle.
    """

    luminance_cd_m2: float
    unlit_reflectance: float
    front: FrontMap | None = None
    dots: Dots | None = None
    places_mm: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True, eq=False)
class Subject:
    """A board with a text on it, and all that its picture needs.

    Attributes:
        board: the openings in the face, all segments in place.
        pockets: where light comes out, segment for segment: the openings, or what a ledge leaves of them.
        lit: digit number to the names of its lit segments.
        lamps: for each kind of segment.
        colour: of the lit segments, ``#rrggbb``.
        face_reflectance: diffuse, with the front's tint twice in it.
        recess_mm: depth of the lit surface behind the front of the face.
    """

    board: Board
    pockets: Board
    lit: Lit
    lamps: Mapping[str, Lamp]
    colour: str
    face_reflectance: float
    recess_mm: float = 0.0


@dataclass(frozen=True, eq=False)
class Scene:
    """A board on a wall in some light, from the front or the side, rows from the top.

    Attributes:
        own_cd_m2: light of the LEDs, array (rows, columns).
        reflectance: share of the light on the board that comes back, same shape.
        pixels_per_mm: resolution down the picture.
        ambient_lx: light on the board and the wall.
    """

    own_cd_m2: Array
    reflectance: Array
    pixels_per_mm: float
    ambient_lx: float = 0.0

    @property
    def total_cd_m2(self) -> Array:
        """What a meter sees: own light and R E/pi."""
        return self.own_cd_m2 + self.reflectance * (self.ambient_lx / math.pi)


def scene_of(
    subject: Subject, *, pixels_per_mm: float, angle_deg: float = 0.0, wall_mm: float = 0.0
) -> Scene:
    """Luminance of the board in the dark, and what it reflects: lit pockets by their solved maps.

        L(x, y) = L_mean * map(x, y)/mean(map)

    Bare lamps are discs as large as their bodies, which share the light of the segment:

        L = L_mean * A/(N * pi * d^2/4) * (cos(angle)/cos(a0))^(m - 1)

    A reader at the right sees the recessed surface moved to the right behind its opening, by the recess
    times tan(angle); the cut edge of the face, drawn like the face, fills the rest. The whole is narrower
    by cos(angle). Matt surfaces look equally bright from all sides, so luminances stay.

    Args:
        subject: what is shown.
        pixels_per_mm: resolution, above 0.
        angle_deg: how far to the right of the board's axis the reader stands, 0 to below 90.
        wall_mm: width of the grey wall round the board, 0 or more.

    Raises:
        InputError: a digit or segment that the board does not have, a value out of range, too many pixels.

    Sources: lambert-surface; common-practice for the grey of the wall.
    """
    import numpy as np

    board = subject.board
    refuse_unknown(board, subject.lit)
    limits.check(angle_deg=angle_deg, reflectance=subject.face_reflectance)
    columns, rows = picture_size(
        width_mm=board.width_mm, height_mm=board.height_mm, pixels_per_mm=pixels_per_mm
    )
    own = np.zeros((rows, columns))
    reflectance = np.full((rows, columns), subject.face_reflectance)
    shift_mm = subject.recess_mm * math.tan(math.radians(angle_deg))
    for segment, pocket in zip(board.segments, subject.pockets.segments, strict=True):
        lamp = subject.lamps[segment.kind]
        on = segment.name in subject.lit.get(segment.digit, frozenset())
        for number, opening in enumerate(segment.outlines):
            patch = _Patch(opening, board.height_mm, pixels_per_mm, rows, columns)
            piece = patch.cover(opening, shift_mm)
            reflectance[patch.place] += piece * (lamp.unlit_reflectance - subject.face_reflectance)
            if on and lamp.dots:
                own[patch.place] += _points(lamp, number, segment.axes[number], patch, angle_deg)
            elif on:
                where = pocket.outlines[number]
                light = _light(lamp, where, segment.axes[number], patch, shift_mm)
                out = piece if where == opening else np.minimum(piece, patch.cover(where, shift_mm))
                own[patch.place] += out * light
    edge = round(wall_mm * pixels_per_mm)
    scene = Scene(np.pad(own, edge), np.pad(reflectance, edge, constant_values=SURROUNDINGS), pixels_per_mm)
    return _from_side(scene, angle_deg) if angle_deg else scene


def in_light(scene: Scene, *, ambient_lx: float, drive: float = 1.0) -> Scene:
    """The scene in a light, with the LEDs dimmed.

    Args:
        scene: with the LEDs at full.
        ambient_lx: illuminance on the board, lx.
        drive: share of the LEDs' full light, 0 to 1.

    Raises:
        InputError: illuminance out of range.

    Sources: diffuse-veil.

    Example:
        >>> import numpy as np
        >>> dark = Scene(np.array([[100.0, 0.0]]), np.array([[0.5, 0.1]]), 1.0)
        >>> in_light(dark, ambient_lx=314.159265, drive=0.2).total_cd_m2.round(3).tolist()
        [[70.0, 10.0]]
    """
    limits.check(ambient_lx=ambient_lx)
    return replace(scene, own_cd_m2=scene.own_cd_m2 * drive, ambient_lx=ambient_lx)


class _Patch:
    """The pixels round one opening."""

    def __init__(
        self, opening: Outline, page_mm: float, pixels_per_mm: float, rows: int, columns: int
    ) -> None:
        left, bottom, right, top = bounds([opening])
        self._opening, self._page_mm, self._scale = opening, page_mm, pixels_per_mm
        self._x = max(0, math.floor(left * pixels_per_mm))
        self._y = max(0, math.floor((page_mm - top) * pixels_per_mm))
        x2 = min(columns, math.ceil(right * pixels_per_mm) + 1)
        y2 = min(rows, math.ceil((page_mm - bottom) * pixels_per_mm) + 1)
        self._size = (max(1, x2 - self._x), max(1, y2 - self._y))
        self.place = (slice(self._y, y2), slice(self._x, x2))

    def cover(self, outline: Outline, shift_mm: float) -> Array:
        """Share of each pixel that the outline, moved to the right, fills within the opening."""
        import numpy as np

        seen = self._drawn([outline], shift_mm)
        return np.minimum(seen, self._drawn([self._opening], 0.0)) if shift_mm else seen

    def _drawn(self, outlines: Sequence[Outline], shift_mm: float) -> Array:
        import numpy as np
        from PIL import Image, ImageDraw

        stencil = Image.new("L", (self._size[0] * _FINE, self._size[1] * _FINE))
        for outline in outlines:
            points = [
                (
                    ((x + shift_mm) * self._scale - self._x) * _FINE - 0.5,
                    ((self._page_mm - y) * self._scale - self._y) * _FINE - 0.5,
                )
                for x, y in outline
            ]
            ImageDraw.Draw(stencil).polygon(points, fill=255)
        return np.asarray(stencil.reduce(_FINE), dtype=float) / 255

    def discs(self, spots: Sequence[Point], *, radius_mm: float) -> Array:
        """Share of each pixel that discs fill."""
        turns = [2 * math.pi * k / _ROUND for k in range(_ROUND)]
        ring = [(radius_mm * math.cos(turn), radius_mm * math.sin(turn)) for turn in turns]
        return self._drawn([tuple((x + dx, y + dy) for dx, dy in ring) for x, y in spots], 0.0)

    def mm2(self, cover: Array) -> float:
        """Area of what a cover fills, as it was drawn."""
        return max(float(cover.sum()), 1e-9) / self._scale**2

    def middles(self) -> tuple[Array, Array]:
        """Board coordinates of the middles of the pixels, mm."""
        import numpy as np

        x = (self._x + np.arange(self._size[0]) + 0.5) / self._scale
        y = self._page_mm - (self._y + np.arange(self._size[1]) + 0.5) / self._scale
        across, down = np.meshgrid(x, y)
        return across, down


def _points(lamp: Lamp, number: int, axis: tuple[Point, Point], patch: _Patch, angle_deg: float) -> Array:
    """Luminance at each pixel of a row of bare lamps; over the segment, its mean is that of the lamp."""
    dots, places = lamp.dots, lamp.places_mm[number]
    assert dots is not None
    (mx, my), (ux, uy) = axis_frame(axis)
    spots = [(mx + x * ux - y * uy, my + x * uy + y * ux) for x, y in places]
    cover = patch.discs(spots, radius_mm=dots.bulb_mm / 2)
    mine_mm2 = dots.area_mm2 * len(places) / sum(len(here) for here in lamp.places_mm)
    level = lamp.luminance_cd_m2 * dots.share_at(angle_deg) * mine_mm2
    return cover * (level / patch.mm2(cover))


def _light(
    lamp: Lamp, pocket: Outline, axis: tuple[Point, Point], patch: _Patch, shift_mm: float
) -> Array | float:
    """Luminance at each pixel; over the whole pocket, its mean is that of the lamp."""
    if lamp.front is None:
        return lamp.luminance_cd_m2
    (mx, my), (ux, uy) = axis_frame(axis)
    x, y = patch.middles()
    dx, dy = x - mx, y - my
    whole, cover = lamp.front.at(dx * ux + dy * uy, dy * ux - dx * uy), patch.cover(pocket, 0.0)
    level = lamp.luminance_cd_m2 * cover.sum() / max((whole * cover).sum(), 1e-9)
    if shift_mm:
        dx = dx - shift_mm
        whole = lamp.front.at(dx * ux + dy * uy, dy * ux - dx * uy)
    return whole * float(level)


def _from_side(scene: Scene, angle_deg: float) -> Scene:
    columns = max(1, round(scene.own_cd_m2.shape[1] * math.cos(math.radians(angle_deg))))
    return replace(
        scene,
        own_cd_m2=_narrowed(scene.own_cd_m2, columns),
        reflectance=_narrowed(scene.reflectance, columns),
    )


def _narrowed(values: Array, columns: int) -> Array:
    import numpy as np
    from PIL import Image

    size = (columns, values.shape[0])
    picture = Image.fromarray(values.astype(np.float32)).resize(size, Image.Resampling.BOX)
    return np.asarray(picture, dtype=float)
