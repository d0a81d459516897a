"""The board close up, in every light, and as an eye sees it from afar: scenes turned into pictures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from segkit.preview.eye import adapting_cd_m2, seen, white_cd_m2
from segkit.preview.scene import Scene, Subject, in_light, scene_of
from segkit.preview.screen import on_screen, photograph

if TYPE_CHECKING:
    from PIL import Image

#: Pixels of the longer side of a picture by itself: as many as a screen shows.
PICTURE_PX = 1200

#: From so many times its longer side a board is looked at close up: it then fills 37 degrees.
_CLOSE_SIDES = 1.5
_WALL = 0.06  # of the longer side: grey wall to be seen round the board
_NEAREST_M = 0.2  # nearer than this no eye sees sharply


@dataclass(frozen=True)
class Light:
    """What falls on the board, and how far the LEDs are dimmed in it.

    Attributes:
        ambient_lx: illuminance on the board.
        drive: share of the LEDs' full light.
    """

    ambient_lx: float
    drive: float = 1.0


@dataclass(frozen=True)
class Reader:
    """Who looks at the board.

    Attributes:
        distance_m: from the eye to the board.
        eyesight: X of 20/X; None for eyes as sharp as the picture.
        angle_deg: to the right of the board's axis.
    """

    distance_m: float
    eyesight: float | None = None
    angle_deg: float = 0.0


def close_up(subject: Subject, light: Light, *, width_px: int, angle_deg: float = 0.0) -> Image.Image:
    """The board from nearby, sharp, with the true ratios of its luminances, as large as its picture.

    It is exposed for its brightest place. Bare lamps are far brighter than the mean over their segment, which
    the contrasts are of: there it is exposed for the brightest mean, or for white paper in daylight brighter
    than that, and the lamps are cut.

    Args:
        subject: what is shown.
        light: on the board.
        width_px: of the board's longer side, seen straight on.
        angle_deg: how far to the right of the board's axis it is looked at from.

    Raises:
        InputError: a value out of its range, a segment that the board does not have.
    """
    scene = _scene(subject, width_px=width_px, wall=False, angle_deg=angle_deg)
    longer_mm = max(subject.board.width_mm, subject.board.height_mm)
    distance_m = max(_NEAREST_M, _CLOSE_SIDES * longer_mm / 1000)
    lit = in_light(scene, ambient_lx=light.ambient_lx, drive=light.drive)
    exposed = _exposed_cd_m2(subject, light)
    return photograph(seen(lit, distance_m=distance_m), colour=subject.colour, exposed_cd_m2=exposed)


def _exposed_cd_m2(subject: Subject, light: Light) -> float:
    """What is shown as white where lamps are bare; 0 where none is."""
    bare = [lamp for lamp in subject.lamps.values() if lamp.dots]
    back = light.ambient_lx / math.pi
    means = [lamp.luminance_cd_m2 * light.drive + lamp.unlit_reflectance * back for lamp in bare]
    return max([*means, back]) if bare else 0.0


def in_lights(
    subject: Subject, lights: Sequence[Light], *, distance_m: float, width_px: int,
    eyesight: float | None = None,
) -> tuple[Image.Image, ...]:  # fmt: skip
    """The board on its wall in several lights, each as an eye that has got used to it takes it.

    Args:
        subject: what is shown.
        lights: in the order of the pictures.
        distance_m: from the eye to the board, m.
        width_px: of the board's longer side.
        eyesight: X of 20/X; None for eyes as sharp as the picture.

    Raises:
        InputError: as for ``close_up``.
    """
    scene, reader = _scene(subject, width_px=width_px, wall=True), Reader(distance_m, eyesight)
    return tuple(_looked_at(scene, subject, light, reader) for light in lights)


def by_readers(
    subject: Subject, light: Light, readers: Sequence[Reader], *, width_px: int
) -> tuple[Image.Image, ...]:
    """The board on its wall as several readers see it, all at the same scale: far away is not smaller.

    Args:
        subject: what is shown.
        light: on the board.
        readers: in the order of the pictures.
        width_px: of the board's longer side, seen straight on.

    Raises:
        InputError: as for ``close_up``.
    """
    angles = {reader.angle_deg for reader in readers}
    scenes = {angle: _scene(subject, width_px=width_px, wall=True, angle_deg=angle) for angle in angles}
    return tuple(_looked_at(scenes[reader.angle_deg], subject, light, reader) for reader in readers)


def _scene(subject: Subject, *, width_px: int, wall: bool, angle_deg: float = 0.0) -> Scene:
    longer_mm = max(subject.board.width_mm, subject.board.height_mm)
    return scene_of(
        subject, pixels_per_mm=width_px / longer_mm, angle_deg=angle_deg, wall_mm=_WALL * longer_mm * wall
    )


def _looked_at(scene: Scene, subject: Subject, light: Light, reader: Reader) -> Image.Image:
    lit = in_light(scene, ambient_lx=light.ambient_lx, drive=light.drive)
    white = white_cd_m2(adapting_cd_m2(lit, distance_m=reader.distance_m))
    image = seen(lit, distance_m=reader.distance_m, eyesight=reader.eyesight)
    return on_screen(image, colour=subject.colour, white_cd_m2=white)
